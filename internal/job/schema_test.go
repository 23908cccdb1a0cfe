package job

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/require"

	"loomleaf/internal/problem"
	"loomleaf/templates"
)

// compiled compiles a pattern as JSON Schema means it; the registry uses nothing in which the dialects differ.
func compiled(t testing.TB, pattern string) *regexp.Regexp {
	t.Helper()
	expression, err := regexp.Compile(pattern)
	require.NoError(t, err)
	return expression
}

// schemaOf compiles the schema, which checks it against the schema of its draft.
func schemaOf(t testing.TB, change func(schema map[string]any)) *jsonschema.Schema {
	t.Helper()
	text, err := registry(t).Schema()
	require.NoError(t, err)
	document, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	require.NoError(t, err)
	change(document.(map[string]any))
	schema, err := compiledSchema(document)
	require.NoError(t, err)
	return schema
}

func compiledSchema(document any) (*jsonschema.Schema, error) {
	compiler := jsonschema.NewCompiler()
	if err := compiler.AddResource("job.schema.json", document); err != nil {
		return nil, err
	}
	return compiler.Compile("job.schema.json")
}

func asPrinted(map[string]any) {}

// plainValue turns a file into what a checker of schemas sees.
func plainValue(t testing.TB, text []byte) any {
	t.Helper()
	tree, found := load("job.toml", text, problem.Sources{})
	require.Empty(t, found)
	return checkable(t, tree)
}

func checkable(t testing.TB, tree *value) any {
	t.Helper()
	written, err := jsonText(jsonValue(tree), "")
	require.NoError(t, err)
	v, err := jsonschema.UnmarshalJSON(bytes.NewReader(written))
	require.NoError(t, err)
	return v
}

// TestASchemaOfAnotherFormIsRefused keeps the judge of the schema from passing anything.
func TestASchemaOfAnotherFormIsRefused(t *testing.T) {
	text, err := registry(t).Schema()
	require.NoError(t, err)
	for _, put := range [][2]string{{`"type": "string"`, `"type": "text"`}, {`"minItems": 2`, `"minItems": "2"`}, {`"pattern": "\\S"`, `"pattern": "("`}} {
		broken := strings.Replace(string(text), put[0], put[1], 1)
		require.NotEqual(t, string(text), broken)
		document, err := jsonschema.UnmarshalJSON(strings.NewReader(broken))
		require.NoError(t, err)
		_, err = compiledSchema(document)
		require.Error(t, err, put[1])
	}
}

func TestTheSchemaAcceptsTheDemoJobs(t *testing.T) {
	schema := schemaOf(t, asPrinted)
	jobs, err := filepath.Glob("../../testdata/jobs/*/job.toml")
	require.NoError(t, err)
	require.NotEmpty(t, jobs)
	for _, name := range jobs {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		require.NoError(t, schema.Validate(plainValue(t, text)), name)
	}
	starter, err := templates.Files.ReadFile("starter.toml")
	require.NoError(t, err)
	require.NoError(t, schema.Validate(plainValue(t, starter)))
	require.NoError(t, schema.Validate(plainValue(t, []byte(goodText))))
}

func TestTheSchemaAcceptsIncludedFiles(t *testing.T) {
	schema := schemaOf(t, func(schema map[string]any) { delete(schema, "required") }) // an included file has no [job]
	files, err := filepath.Glob("../../testdata/jobs/*/[ps]*.toml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, name := range files {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		require.NoError(t, schema.Validate(plainValue(t, text)), name)
	}
	require.NoError(t, schema.Validate(plainValue(t, shopText(t))))
}

func TestTheSchemaRefusesFaultyJobs(t *testing.T) {
	schema := schemaOf(t, asPrinted)
	for fault, put := range map[string][2]string{
		"an unknown table":               {"[[reel]]", "[[reels]]"},
		"an unknown key":                 {"title =", "titel ="},
		"a missing key":                  {"issued = 2026-11-20\n", ""},
		"a missing key of a row":         {"from = \"J1:1\"\n", ""},
		"an unknown key of an end":       {`stage = "board"`, `stag = "board"`},
		"an unknown word":                {`laser = "yes"`, `laser = "perhaps"`},
		"an unknown word in a list":      {"[board]\n", "[paper]\nlanguage = [\"xx\"]\n[board]\n"},
		"a length without unit":          {`tail = "90 mm"`, `tail = "90"`},
		"a length with a comma":          {`tail = "90 mm"`, `tail = "90,5 mm"`},
		"a mass of another kind":         {`mass = "5.24 g/m"`, `mass = "5.24 g"`},
		"a text for a number":            {"retermination = 0", `retermination = "0"`},
		"a number out of bounds":         {"retermination = 0", "retermination = 101"},
		"neither of two keys":            {"awg = 22\n", ""},
		"both of two keys":               {"awg = 22\n", "awg = 22\nsection = \"0.34 mm2\"\n"},
		"a gauge that is none":           {"awg = 22\n", "awg = 222\n"},
		"three lengths of two":           {`size = ["1000 mm", "500 mm"]`, `size = ["1000 mm", "500 mm", "1 mm"]`},
		"one length of two":              {`size = ["1000 mm", "500 mm"]`, `size = ["1000 mm"]`},
		"a colour that is none":          {`colour = "WH/BU"`, `colour = "white"`},
		"a single table written as list": {"[board]\n", "[[board]]\n"},
		"a serial twice":                 {`["0041", "0042"]`, `["0041", "0041"]`},
		"an id with a blank":             {`id = "W1"`, `id = "W 1"`},
	} {
		text := strings.Replace(goodText, put[0], put[1], 1)
		require.NotEqual(t, goodText, text, fault)
		require.Error(t, schema.Validate(plainValue(t, []byte(text))), fault)
	}
}

// What the schema says of single values, the readers say too: a faulty job that it refuses is refused by them.
func TestTheSchemaRefusesNoJobThatTheReadersAccept(t *testing.T) {
	schema := schemaOf(t, asPrinted)
	refused := 0
	for _, bad := range badJobs(t) {
		in := bad.input(t)
		tree, found := load("job.toml", in.Text, problem.Sources{})
		if found.Errors() > 0 {
			continue
		}
		_, found, _ = Read(in, templates.Files)
		said := schema.Validate(checkable(t, tree))
		if found.Errors() == 0 {
			require.NoError(t, said, bad.path)
		}
		if said != nil {
			refused++
		}
	}
	require.Greater(t, refused, 25)
}

func TestTheSchemaIsTheSameEachTimeAndInTheOrderOfTheRegistry(t *testing.T) {
	keys := registry(t)
	once, err := keys.Schema()
	require.NoError(t, err)
	again, err := registry(t).Schema()
	require.NoError(t, err)
	require.Equal(t, string(once), string(again))
	require.Contains(t, string(once), `"default": "{wire} {here}>{there}"`)
	require.Less(t, strings.Index(string(once), `"wire_type": {`), strings.Index(string(once), `"connector": {`))
	for _, table := range keys.tables {
		for _, one := range table.keys {
			written, err := jsonText(one.text, "")
			require.NoError(t, err)
			require.Contains(t, string(once), strings.TrimSuffix(string(written), "\"\n"))
		}
	}
}
