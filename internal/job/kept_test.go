package job

import (
	"errors"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
	"loomleaf/templates"
)

// readKept reads a text as an earlier plan.
func readKept(text []byte) (*harness.KeptPlan, problem.List) {
	r := keptReader{name: "A.plan.json", text: text, at: problem.Place{File: "job.toml", Line: 1, Column: 1}}
	return r.read(), r.found
}

func TestPlanOfADemoIsRead(t *testing.T) {
	text, err := os.ReadFile("../../testdata/jobs/sled-small/plan.json")
	require.NoError(t, err)
	for _, mark := range []string{"", "\xef\xbb\xbf"} {
		kept, found := readKept(append([]byte(mark), text...))
		require.Empty(t, found)
		require.Equal(t, []string{"MOR-0411", "A"}, []string{kept.Number, kept.Revision})
		require.Len(t, kept.Rows, 11)
		rows := 0
		for _, group := range kept.Groups {
			require.Contains(t, group.Text, `"group": "`+group.Home+`"`)
			for _, id := range group.Rows {
				require.Equal(t, group.Home, kept.Rows[id].Home)
				require.Len(t, kept.Rows[id].Code, 23)
				require.Positive(t, kept.Rows[id].Height+units.Length(len(kept.Rows[id].Type)))
				rows++
			}
		}
		require.Equal(t, 11, rows)
	}
}

func TestEarlierPlanReachesThePolicy(t *testing.T) {
	job, err := os.ReadFile("../../testdata/jobs/sled-small/job.toml")
	require.NoError(t, err)
	plan, err := os.ReadFile("../../testdata/jobs/sled-small/plan.json")
	require.NoError(t, err)
	in := Input{Name: "jobs/job.toml", Text: append(job, "\n[policy]\nkeep = \"old/A.plan.json\"\n"...), Open: func(path string) ([]byte, error) {
		if path == "old/A.plan.json" {
			return plan, nil
		}
		return nil, errors.New("no such file")
	}}
	h, found, sources := Read(in, templates.Files)
	require.Zero(t, found.Errors(), "%v", found)
	require.Equal(t, "old/A.plan.json", h.Policy.Keep)
	require.Len(t, h.Policy.Kept.Rows, 11)
	require.Contains(t, sources, "jobs/old/A.plan.json")
}

func TestWhatIsNoEarlierPlan(t *testing.T) {
	for text, want := range map[string]string{
		"":                             "unexpected end",
		"null":                         "is no plan",
		"[]":                           "has a array as",
		"{\"loomleaf\": 1}":            "has no number",
		"{\"loomleaf\": 1} {}":         "invalid character '{' after top-level value",
		"{\"loomleaf\": \"1\"}":        "has a string as loomleaf",
		"{\"loomleaf\": 1.5}":          "has a number 1.5 as loomleaf",
		"{\"loomleaf\": 1, \"a\xff\"}": "is no text in UTF-8",
		strings.Repeat("[", 100_000):   "exceeded max depth",
		`{"loomleaf": 1, "packet": {"number": "1", "part": "2", "revision": "3"}, "sequence": [null]}`:                              `has a group "", which is no id`,
		`{"loomleaf": 1, "packet": {"number": "` + strings.Repeat("1", 200) + `", "part": "2", "revision": "3"}, "sequence": [[]]}`: "which no plan has",
	} {
		kept, found := readKept([]byte(text))
		require.Nil(t, kept, "%.80s", text)
		require.NotEmpty(t, found, "%.80s", text)
		require.Contains(t, found[0].Text, want)
	}
	kept, found := readKept(make([]byte, KeptLimit+1))
	require.Nil(t, kept)
	require.Equal(t, fileTooLarge, found[0].Check)
}

func TestFaultsOfAnEarlierPlanAreCounted(t *testing.T) {
	rows := strings.Repeat(`{"id": "W 1"}, `, 10_000)
	_, found := readKept([]byte(`{"loomleaf": 1, "packet": {"number": "1", "part": "2", "revision": "3"}, "wires": [` + rows + `{"id": ""}]}`))
	require.Len(t, found, mostHidden)
}

// FuzzKept reads anything as an earlier plan: it is refused with its fault, or what is kept of it agrees with itself.
func FuzzKept(f *testing.F) {
	for _, bad := range badJobs(f) {
		if text, has := bad.file("A.plan.json"); has {
			f.Add(text)
		}
	}
	if text, err := os.ReadFile("../../testdata/jobs/starter/plan.json"); err == nil && len(text) < 2*largestSeed {
		f.Add(text)
	}
	f.Add([]byte(`{"loomleaf": 1, "packet": {"number": "1", "part": "2", "revision": "3"}, "cables": [{"id": "C1", "home": "J1"}], "sequence": [{"group": "J1", "wires": ["C1"]}]}`))
	f.Fuzz(func(t *testing.T, text []byte) {
		kept, found := readKept(text)
		require.Equal(t, kept == nil, found.Errors() > 0)
		for _, p := range found {
			require.Equal(t, problem.Error, p.Severity)
			require.NotEmpty(t, p.Hint)
			require.Positive(t, p.Place.Line)
			require.Positive(t, p.Place.Column)
		}
		if kept == nil {
			return
		}
		homes, stands := map[string]bool{}, map[string]bool{}
		for _, group := range kept.Groups {
			require.False(t, homes[group.Home])
			homes[group.Home] = true
			for _, id := range group.Rows {
				require.NotEmpty(t, id)
				require.False(t, stands[id])
				require.Equal(t, group.Home, kept.Rows[id].Home)
				stands[id] = true
			}
		}
	})
}
