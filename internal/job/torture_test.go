package job

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/problem"
	"loomleaf/templates"
)

// oneEnd names the keys of both ends alike: what holds of END A holds of END B.
func oneEnd(key string) string {
	for _, table := range []string{"wire", "cable"} {
		if rest, is := strings.CutPrefix(key, table+".b."); is {
			return table + ".a." + rest
		}
	}
	return key
}

// unasked is a key that no reader knows: what a table answers to it names the keys that it does know.
const unasked = "key_of_nothing"

// notInTorture lists the keys that the job of every construct leaves out, each with the reason.
func notInTorture() map[string]string {
	return map[string]string{
		"job.serials":           "a job gives serials or a quantity, and this one a quantity; the other demo jobs give serials",
		"line.mounted":          "a run that starts with a reel on loads one reel less; this packet shows the first load",
		"policy.chains":         "where the order of the groups is free; here the board sets it",
		"policy.keep":           "the job has no earlier plan",
		"safety.deference":      "the shop's own lines take the place of those that every other page shows; shown in testdata/bad",
		"paper.sides":           "two-sided paper is tested with every demo job; torture prints on one",
		"paper.leave_out":       "the job of every construct prints every sheet; tested with the small demo job",
		"safety.wording":        "the shop's own wording takes the place of the built-in one; tested with the small demo job",
		"safety.measured":       "goes into the worksheet of the qualified person and reaches no packet; shown in testdata/script",
		"safety.measured_ozone": "the same",
	}
}

// mergedJob returns the merged tree of a demo job.
func mergedJob(t *testing.T, name string) (*value, templateTrees) {
	t.Helper()
	folder := filepath.Join("../../testdata/jobs", name)
	text, err := os.ReadFile(filepath.Join(folder, "job.toml"))
	require.NoError(t, err)
	in := Input{Name: "job.toml", Text: text, Open: func(path string) ([]byte, error) { return os.ReadFile(filepath.Join(folder, path)) }}
	sources := problem.Sources{}
	root, found := load(in.Name, in.Text, sources)
	require.Empty(t, found)
	included, found := loadIncluded(in, root, sources)
	require.Empty(t, found)
	built, found := loadTemplates(templates.Files, sources)
	require.Empty(t, found)
	merged, found := merge(root, included, built.shop)
	require.Empty(t, append(found, loadWires(in, merged, templates.Files, sources)...))
	return merged, built
}

// eachTable walks a table and the tables in it, with the path of their keys: "wire.a.".
func (v *value) eachTable(path string, visit func(path string, v *value)) {
	switch v.kind {
	case kindTable:
		visit(path, v)
		for _, e := range v.keys {
			e.value.eachTable(path+e.name+".", visit)
		}
	case kindArray:
		for _, item := range v.items {
			item.eachTable(path, visit)
		}
	}
}

// knownKeys asks every table of a tree for the keys that its reader knows.
func knownKeys(merged *value, built templateTrees) []string {
	place := &value{file: merged.file, kind: kindText, text: "?"}
	merged.eachTable("", func(path string, v *value) {
		if path != "" {
			v.add(entry{name: unasked, written: `"?"`, value: place})
		}
	})
	_, found := read(merged, built, nil)
	answer := regexp.MustCompile(`^([a-z ]+?)(?: "[^"]*")? has no key "(.*)` + unasked + `"$`)
	index := regexp.MustCompile(`\[[0-9]+\]`)
	var known []string
	for _, p := range found {
		if match := answer.FindStringSubmatch(p.Text); match != nil {
			path := strings.ReplaceAll(match[1], " ", "_") + "." + index.ReplaceAllString(match[2], "")
			for _, key := range strings.Split(strings.TrimPrefix(p.Hint, "the keys here are "), ", ") {
				known = append(known, oneEnd(path+key))
			}
		}
	}
	slices.Sort(known)
	return slices.Compact(known)
}

// TestTortureHoldsEveryTableAndKey compares the keys of the job of every construct, with those of the default shop file that is in
// force in every job, with the keys that the readers ask for.
func TestTortureHoldsEveryTableAndKey(t *testing.T) {
	merged, built := mergedJob(t, "torture")
	var used []string
	merged.eachTable("", func(path string, v *value) {
		for _, e := range v.keys {
			used = append(used, oneEnd(path+e.name))
		}
	})
	for _, table := range tables() {
		require.Contains(t, used, table.name, "the job has no such table")
	}
	known := knownKeys(merged, built)
	require.Greater(t, len(known), 150, "the readers were not asked")
	var lacks []string
	for _, key := range known {
		if !slices.Contains(used, key) {
			lacks = append(lacks, key)
		}
	}
	var reasons []string
	for key, reason := range notInTorture() {
		require.NotEmpty(t, reason)
		reasons = append(reasons, key)
	}
	slices.Sort(reasons)
	require.Equal(t, reasons, lacks, "write the keys into testdata/jobs/torture, or here with a reason")
	t.Logf("%d keys, %d left out with a reason", len(known), len(lacks))
}

// TestTortureWarnings lists what the job of every construct is warned of; a connector of one cavity cannot keep any spare.
func TestTortureWarnings(t *testing.T) {
	folder := "../../testdata/jobs/torture"
	text, err := os.ReadFile(filepath.Join(folder, "job.toml"))
	require.NoError(t, err)
	open := func(path string) ([]byte, error) { return os.ReadFile(filepath.Join(folder, path)) }
	_, found, _ := Read(Input{Name: "job.toml", Text: text, Open: open}, templates.Files)
	var warned []string
	for _, p := range found {
		require.Equal(t, problem.Warning, p.Severity, p.Text)
		warned = append(warned, p.Check+" "+p.ID)
	}
	slices.Sort(warned)
	require.Equal(t, []string{"few-spares J2", "few-spares P2", "few-spares P3", "nearly-same J1"}, warned)
}
