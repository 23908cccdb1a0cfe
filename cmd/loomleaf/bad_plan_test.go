package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/tools/txtar"

	"loomleaf/templates"
)

const badPlanFolder = "../../testdata/bad/plan"

// readBefore are the checks that no job reaches, since the reader refuses it first, by the check of testdata/bad that does. The plan
// holds them for a harness that does not come from the reader.
func readBefore() map[string]string {
	return map[string]string{
		"core-turned": "core-turned", "home-not-an-end": "home-elsewhere", "legend-field": "bad-legend", "length-is": "no-length-is",
		"line-step": "out-of-range", "no-length": "no-length", "short-error": "out-of-range", "splice-offset": "bad-offset", "twist-pitch": "no-pitch", "unprintable": "unprintable",
	}
}

// notReached are the other checks that no job reaches, with the reason.
func notReached() map[string]string {
	const own = "judges the drawn page, not the job: internal/page shows it"
	return map[string]string{
		"bad-item": own, "bad-size": own, "bad-symbol": own, "empty-document": own, "empty-page": own, "outside": own, "overlap": own,
		"quiet-zone": own, "same-page": own, "small-text": own, "thin-rule": own,
		"no-content-hash": "every field of the plan has a JSON form",
		"unknown-sheet":   "answers --only of packet, not a job: testdata/script shows it",
	}
}

// badPlan is a job that reads well and cannot be planned or laid as it asks: a file of testdata/bad/plan, named by its check and,
// where a check has several, what they differ in. The lines above its files make job.toml: see files.
type badPlan struct {
	path    string
	check   string
	archive *txtar.Archive
}

func badPlans(t *testing.T) []badPlan {
	entries, err := os.ReadDir(badPlanFolder)
	require.NoError(t, err)
	var all []badPlan
	for _, entry := range entries {
		path := filepath.Join(badPlanFolder, entry.Name())
		require.Equal(t, ".txtar", filepath.Ext(path), "%s is no faulty job", path)
		archive, err := txtar.ParseFile(path)
		require.NoError(t, err)
		check, _, _ := strings.Cut(entry.Name(), ".")
		all = append(all, badPlan{path, check, archive})
	}
	return all
}

// files returns the files of the job. A job.toml that is not among them is the starter job, with "new" for "old" where lines ask
// for it; added.toml stands behind it, and so does text that a line repeats: 20 times "...", with the number of the turn for #.
func (b badPlan) files(t *testing.T) map[string]string {
	files := map[string]string{}
	for _, f := range b.archive.Files {
		files[f.Name] = string(f.Data)
	}
	delete(files, "want")
	if files["job.toml"] == "" {
		starter, err := templates.Files.ReadFile("starter.toml")
		require.NoError(t, err)
		files["job.toml"] = string(starter)
	}
	for line := range strings.Lines(string(b.archive.Comment)) {
		if line = strings.TrimSpace(line); !strings.HasPrefix(line, "beside ") {
			files["job.toml"] = b.changed(t, files["job.toml"], line)
		}
	}
	files["job.toml"] += files["added.toml"]
	delete(files, "added.toml")
	return files
}

// beside returns the checks that cannot but fail with the one of the file: lines "beside stock-short".
func (b badPlan) beside() []string {
	var names []string
	for line := range strings.Lines(string(b.archive.Comment)) {
		if name, is := strings.CutPrefix(strings.TrimSpace(line), "beside "); is {
			names = append(names, name)
		}
	}
	return names
}

func (b badPlan) changed(t *testing.T, text, line string) string {
	var put, old string
	var times int
	if _, err := fmt.Sscanf(line, "%d times %q", &times, &put); err == nil {
		for turn := range times {
			text += strings.ReplaceAll(put, "#", strconv.Itoa(turn+1))
		}
		return text
	}
	_, err := fmt.Sscanf(line, "with %q for %q", &put, &old)
	require.NoError(t, err, "%s: %s", b.path, line)
	require.Equal(t, 1, strings.Count(text, old), "%s: the text to change stands once: %s", b.path, old)
	return strings.Replace(text, old, put, 1)
}

// checked is what check prints of a job, and its exit code.
func checked(t *testing.T, files map[string]string) string {
	t.Chdir(t.TempDir())
	for name, text := range files {
		require.NoError(t, os.WriteFile(name, []byte(text), 0o644))
	}
	var out bytes.Buffer
	code := run([]string{"check", "--all", "job.toml"}, streams{out: &out, err: &out})
	return fmt.Sprintf("%sexit code %d\n", out.String(), code)
}

// checksFound returns the names of the checks that the job of this folder fails.
func checksFound(t *testing.T) []string {
	var out, report bytes.Buffer
	run([]string{"check", "--json", "job.toml"}, streams{out: &out, err: &report})
	var all checkedJobs
	require.NoError(t, json.Unmarshal(out.Bytes(), &all), report.String())
	require.Len(t, all.Jobs, 1, report.String())
	var names []string
	for _, p := range all.Jobs[0].Problems {
		names = append(names, p.Check)
	}
	return names
}

func TestEachFaultOfAPlanIsReportedToTheLetter(t *testing.T) {
	for _, bad := range badPlans(t) {
		t.Run(filepath.Base(bad.path), func(t *testing.T) {
			path, err := filepath.Abs(bad.path)
			require.NoError(t, err)
			got := checked(t, bad.files(t))
			found := checksFound(t)
			require.NotEmpty(t, found, "nothing is wrong with the job")
			require.ElementsMatch(t, append(bad.beside(), bad.check), slices.Compact(slices.Sorted(slices.Values(found))), "one fault a file:\n%s", got)
			if *update {
				bad.rewrite(t, path, got)
				return
			}
			at := slices.IndexFunc(bad.archive.Files, func(f txtar.File) bool { return f.Name == "want" })
			require.GreaterOrEqual(t, at, 0, "run the test with -update")
			require.Equal(t, string(bad.archive.Files[at].Data), got)
		})
	}
}

func (b badPlan) rewrite(t *testing.T, path, want string) {
	files := slices.DeleteFunc(slices.Clone(b.archive.Files), func(f txtar.File) bool { return f.Name == "want" })
	files = append(files, txtar.File{Name: "want", Data: []byte(want)})
	require.NoError(t, os.WriteFile(path, txtar.Format(&txtar.Archive{Comment: b.archive.Comment, Files: files}), 0o644))
}

func TestEveryCheckOfPlanAndPaperHasAFaultyJobOrAReason(t *testing.T) {
	names := map[string]bool{}
	for _, folder := range []string{"plan", "sheet", "page"} {
		own := checksIn(t, filepath.Join("../../internal", folder))
		require.NotEmpty(t, own, folder)
		for _, name := range own {
			names[name] = true
		}
	}
	shown := map[string]bool{}
	for _, bad := range badPlans(t) {
		require.True(t, names[bad.check], "%s belongs to no check", bad.path)
		shown[bad.check] = true
	}
	reasons := notReached()
	for name, before := range readBefore() {
		require.FileExists(t, filepath.Join("../../testdata/bad", before+".txtar"), name)
		require.Empty(t, reasons[name])
		reasons[name] = before
	}
	for name := range names {
		require.True(t, shown[name] != (reasons[name] != ""), "the check %s has either a faulty job or a reason why it has none", name)
	}
	for name := range reasons {
		require.True(t, names[name], "there is no check %s", name)
	}
}

// checksIn reads the names of the checks from the source of a package, so that none can be forgotten: the texts that a field Check is
// set to, and those handed to a function for its parameter `check`. A name that comes about in another way fails.
func checksIn(t *testing.T, folder string) []string {
	sources, err := filepath.Glob(filepath.Join(folder, "*.go"))
	require.NoError(t, err)
	set, finder := token.NewFileSet(), checkFinder{makers: map[string]int{}}
	var files []*ast.File
	for _, source := range sources {
		if !strings.HasSuffix(source, "_test.go") {
			file, err := parser.ParseFile(set, source, nil, 0)
			require.NoError(t, err)
			files = append(files, file)
			ast.Inspect(file, finder.maker)
		}
	}
	for _, file := range files {
		ast.Inspect(file, finder.name)
	}
	for _, at := range finder.strange {
		require.Fail(t, "a check without a name in the source", "%s", set.Position(at))
	}
	return finder.names
}

type checkFinder struct {
	makers  map[string]int // functions with a parameter `check`, and which it is
	names   []string
	strange []token.Pos
}

// maker notes a function that takes the name of a check.
func (f *checkFinder) maker(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.FuncDecl:
		f.takes(n.Name.Name, n.Type)
	case *ast.AssignStmt:
		for i, value := range n.Rhs {
			function, is := value.(*ast.FuncLit)
			if name, named := n.Lhs[i].(*ast.Ident); is && named {
				f.takes(name.Name, function.Type)
			}
		}
	}
	return true
}

func (f *checkFinder) takes(name string, function *ast.FuncType) {
	at := 0
	for _, field := range function.Params.List {
		for _, parameter := range field.Names {
			if parameter.Name == "check" {
				f.makers[name] = at
			}
			at++
		}
	}
}

// name notes the name of a check.
func (f *checkFinder) name(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.KeyValueExpr:
		if key, is := n.Key.(*ast.Ident); is && key.Name == "Check" {
			f.add(n.Value)
		}
	case *ast.AssignStmt:
		for i, left := range n.Lhs {
			if field, is := left.(*ast.SelectorExpr); is && field.Sel.Name == "Check" {
				f.add(n.Rhs[i])
			}
		}
	case *ast.CallExpr:
		called := n.Fun
		if method, is := called.(*ast.SelectorExpr); is {
			called = method.Sel
		}
		if name, is := called.(*ast.Ident); is {
			if at, makes := f.makers[name.Name]; makes {
				f.add(n.Args[at])
			}
		}
	}
	return true
}

// add takes a text as it stands. The parameter `check`, and the Check of another problem, are named elsewhere.
func (f *checkFinder) add(value ast.Expr) {
	switch v := value.(type) {
	case *ast.BasicLit:
		if name, err := strconv.Unquote(v.Value); err == nil {
			f.names = append(f.names, name)
			return
		}
	case *ast.Ident:
		if v.Name == "check" {
			return
		}
	case *ast.SelectorExpr:
		if v.Sel.Name == "Check" {
			return
		}
	}
	f.strange = append(f.strange, value.Pos())
}
