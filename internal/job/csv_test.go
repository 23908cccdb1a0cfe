package job

import (
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/templates"
)

// tabled returns the small demo job with its wires in a table, and the table with commas.
func tabled(t testing.TB) (job, table string) {
	t.Helper()
	text, err := os.ReadFile("../../testdata/jobs/sled-small/job.toml")
	require.NoError(t, err)
	start := strings.Index(string(text), "[[wire]]")
	end := strings.Index(string(text), "# ---------------------------------------------------------------- board")
	var rows strings.Builder
	rows.WriteString("id,type,from,to,b.stage,b.trim,b.note,note\n")
	value := regexp.MustCompile(`(?m)^(\w+)\s*= "([^"]*)"`)
	for _, wire := range strings.Split(string(text)[start:end], "[[wire]]")[1:] {
		cells := map[string]string{}
		for _, found := range value.FindAllStringSubmatch(wire, -1) {
			cells[found[1]] = found[2]
		}
		if strings.Contains(wire, "stage") {
			cells["b.stage"], cells["b.trim"], cells["b.note"] = "board", "20 mm", "cut here"
		}
		row := []string{cells["id"], cells["type"], cells["from"], cells["to"], cells["b.stage"], cells["b.trim"], cells["b.note"]}
		rows.WriteString(strings.Join(row, ",") + ",\"" + cells["note"] + "\"\n")
	}
	job = string(text)[:start] + string(text)[end:]
	return strings.Replace(job, "[job]\n", "[job]\nwires = \"wires.csv\"\n", 1), rows.String()
}

func readTabled(job, table string) (*harness.Harness, problem.List, problem.Sources) {
	in := Input{Name: "job.toml", Text: []byte(job), Open: func(path string) ([]byte, error) {
		if path == "wires.csv" {
			return []byte(table), nil
		}
		return nil, os.ErrNotExist
	}}
	return Read(in, templates.Files)
}

// placeless drops where things were written.
func placeless(wires []harness.Wire) []harness.Wire {
	wires = slices.Clone(wires)
	for i := range wires {
		wires[i].Origin = harness.Origin{}
	}
	return wires
}

func TestATableOfWiresSaysWhatTheTablesSay(t *testing.T) {
	text, err := os.ReadFile("../../testdata/jobs/sled-small/job.toml")
	require.NoError(t, err)
	written, found, _ := Read(Input{Name: "job.toml", Text: text}, templates.Files)
	require.Zero(t, found.Errors())
	job, table := tabled(t)
	blank := strings.Replace(table, "\nS01", "\n,,,,,,,\n\nS01", 1)
	require.NotEqual(t, table, blank)
	for name, one := range map[string]string{
		"comma": table, "semicolon": strings.ReplaceAll(table, ",", ";"), "tab": strings.ReplaceAll(table, ",", "\t"),
		"byte order mark": "\xef\xbb\xbf" + table, "carriage returns": strings.ReplaceAll(table, "\n", "\r\n"), "blank rows": blank,
	} {
		one = strings.ReplaceAll(strings.ReplaceAll(one, "enable; active", "enable, active"), "enable\t active", "enable, active")
		h, found, sources := readTabled(job, one)
		require.Zero(t, found.Errors(), "%s: %s", name, printed(t, found, sources))
		require.Equal(t, placeless(written.Wires), placeless(h.Wires), name)
		require.Equal(t, "wires.csv", h.Wires[0].Of("from").File)
		require.Equal(t, 2, h.Wires[0].Of("from").Line)
	}
}

// TestColumnsAreTheKeysOfAWire asks the reader of [[wire]] which keys it reads.
func TestColumnsAreTheKeysOfAWire(t *testing.T) {
	f, _ := newFile("job.toml", nil)
	side := func() *value { return &value{file: f, kind: kindTable} }
	wire := side()
	wire.add(entry{name: "a", value: side()})
	wire.add(entry{name: "b", value: side()})
	r := &reader{unread: map[string]bool{}}
	outer := r.open("wire", wire)
	readWire(&harness.Harness{}, outer)
	asked := slices.DeleteFunc(slices.Clone(outer.asked), func(key string) bool { return key == "a" || key == "b" })
	inner := outer.within(side(), "a.")
	var known []string
	for _, column := range wireColumns() {
		if !strings.Contains(column, ".") {
			known = append(known, column)
			continue
		}
		inner.get(strings.SplitN(column, ".", 2)[1])
	}
	slices.Sort(asked)
	slices.Sort(known)
	require.Equal(t, known, asked)
	for _, column := range wireColumns() { // a key that the end does not know would be reported
		name, key, nested := strings.Cut(column, ".")
		if !nested {
			continue
		}
		end := side()
		end.add(entry{name: key, value: &value{file: f, kind: kindText, text: "x"}})
		one := side()
		one.add(entry{name: name, value: end})
		r := &reader{unread: map[string]bool{}}
		readWire(&harness.Harness{}, r.open("wire", one))
		for _, p := range r.found {
			require.NotEqual(t, unknownKey, p.Check, column)
		}
	}
}
