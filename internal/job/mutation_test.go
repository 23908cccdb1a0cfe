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

// mutant is one fault put into a line of a good job: a new line, or none where the line is deleted.
type mutant struct {
	fault   string
	line    int // from 1
	deleted bool
	text    []string // lines in place of the line
}

// context is what a fault may need to know of the place it is put into.
type context struct {
	lines   []string
	at      int
	table   string            // "wire"
	key     string            // "from"
	before  map[string]string // value lines of the table before this one of the same name, by key
	retired string
}

// swap returns a rule that replaces what a pattern finds in lines of some tables and keys, written "wire.from"; "*" is any.
func swap(places, pattern, with string) func(context) []string {
	found := regexp.MustCompile(pattern)
	return func(c context) []string {
		if !applies(places, c) || !found.MatchString(c.lines[c.at]) {
			return nil
		}
		return []string{replaceFirst(found, c.lines[c.at], with)}
	}
}

func replaceFirst(pattern *regexp.Regexp, line, with string) string {
	at := pattern.FindStringSubmatchIndex(line)
	return line[:at[0]] + string(pattern.ExpandString(nil, with, line, at)) + line[at[1]:]
}

func applies(places string, c context) bool {
	for _, place := range strings.Fields(places) {
		table, key, _ := strings.Cut(place, ".")
		if (table == "*" || table == c.table) && (key == "*" || key == c.key) {
			return true
		}
	}
	return false
}

// earlier returns a rule that repeats the value of a key from the table before.
func earlier(place, from string) func(context) []string {
	return func(c context) []string {
		if value := c.before[from]; applies(place, c) && value != "" && !strings.HasSuffix(strings.TrimSpace(c.lines[c.at]), value) {
			return []string{c.key + " = " + value}
		}
		return nil
	}
}

const (
	lengths  = "wire_type.diameter contact.barrel contact.strip reel.left connector.tail wire.length"
	ids      = "wire.id connector.id contact.id wire_type.id reel.id node.id"
	required = ids + " job.number job.title job.revision job.issued wire.type wire.from wire.to reel.type wire_type.colour " +
		"wire_type.diameter wire_type.laser contact.kind connector.cavities board.id node.at segment.between"
	texts = ids + " job.number job.title job.revision wire.type wire.from wire.to wire.note connector.title connector.contact connector.node reel.type"
)

// faults are single faults, by name.
func faults() map[string]func(context) []string {
	return map[string]func(context) []string{
		"required key deleted":       nil,
		"id of another":              earlier(ids, "id"),
		"cavity of another wire":     earlier("wire.to wire.from", "to"),
		"cavity that is not there":   swap("wire.from wire.to", `"([^:"]+):[^"]+"`, `"$1:ZZ9"`),
		"unknown connector":          swap("wire.from wire.to", `"[^:"]+:`, `"QX7:`),
		"no cavity":                  swap("wire.from wire.to", `:[^"]+"`, `"`),
		"unknown wire type":          swap("wire.type reel.type", `"[^"]+"`, `"QX7"`),
		"unknown contact":            swap("connector.contact", `"[^"]+"`, `"QX7"`),
		"unknown node":               swap("connector.node segment.between", `"N\d+"`, `"QX7"`),
		"wrong unit":                 swap(lengths, ` m?m"`, ` kg"`),
		"no unit":                    swap(lengths, ` m?m"`, `"`),
		"comma for the point":        swap(lengths, `"(\d+)(\.\d+)? `, `"$1,5 `),
		"negative":                   swap(lengths, `= "`, `= "-`),
		"huge":                       swap(lengths, `= "`, `= "99999999999`),
		"not a number":               swap(lengths, `= "[\d.]+`, `= "nan`),
		"number for a text":          swap(texts, `= "[^"]*"`, `= 5`),
		"text for a number":          swap("wire_type.awg job.class", `= (\d+)`, `= "x$1"`),
		"list for a text":            swap(texts, `= ("[^"]*")`, `= [$1]`),
		"unknown key":                swap("*.*", `^(\w+)`, `${1}x`),
		"key with a letter too many": swap(texts+" "+lengths, `^(\w)(\w*)`, `${1}${2}X`),
		"key in capitals":            swap("wire.id wire.from wire.type job.number", `^\w+ `, `ID_ `),
		"misspelt table":             swap("*.", `^(\[+)(\w+)`, `${1}${2}z`),
		"empty text":                 swap(texts, `= "[^"]*"`, `= ""`),
		"key twice":                  func(c context) []string { return twice(c) },
		"quote cut off":              swap(texts, `"\s*(#.*)?$`, ``),
		"bad day":                    swap("job.issued job.due", `\d{4}-\d\d-\d\d`, `2026-13-40`),
		"bad colour":                 swap("wire_type.colour", `"[^"]*"`, `"QX"`),
		"bad word":                   swap("wire_type.laser contact.kind connector.spare connector.order connector.face", `= "[^"]*"`, `= "perhaps"`),
		"control character":          swap(texts, `= "`, "= \"\x07"),
		"placeholder":                swap(ids+" job.revision", `= "[^"]*"`, `= "TBD"`),
		"id with a blank":            swap(ids, `= "`, `= "a b`),
		"count that does not match":  swap("job.expect", `wires = \d+`, `wires = 3`),
		"both ends in one cavity":    func(c context) []string { return sameEnd(c) },
		"retired id":                 func(c context) []string { return retire(c) },
	}
}

func twice(c context) []string {
	if c.key == "" || !applies(texts, c) {
		return nil
	}
	return []string{c.lines[c.at], c.lines[c.at]}
}

func sameEnd(c context) []string {
	if c.table != "wire" || c.key != "to" || c.at == 0 || !strings.HasPrefix(c.lines[c.at-1], "from") {
		return nil
	}
	return []string{"to" + strings.TrimPrefix(c.lines[c.at-1], "from")}
}

func retire(c context) []string {
	if c.table != "wire" || c.key != "id" || c.retired == "" {
		return nil
	}
	return []string{`id = "` + c.retired + `"`}
}

var keyLine = regexp.MustCompile(`^(\w+)\s*= (.*?)\s*(#.*)?$`)

// mutants returns every fault at every place of a file that it fits.
func mutants(text string) []mutant {
	lines := strings.Split(text, "\n")
	c := context{lines: lines, before: map[string]string{}}
	if found := regexp.MustCompile(`retired\s*= \["([^"]+)"`).FindStringSubmatch(text); found != nil {
		c.retired = found[1]
	}
	var all []mutant
	values := map[string]map[string]string{} // of the last table of each name
	current := map[string]string{}
	names := sortedNames(faults())
	for i, line := range lines {
		c.at, c.key = i, ""
		switch found := keyLine.FindStringSubmatch(line); {
		case strings.HasPrefix(line, "["):
			values[c.table] = current
			c.table, current = strings.Trim(strings.Fields(line)[0], "[]"), map[string]string{}
			c.before = values[c.table]
		case found == nil:
			continue
		default:
			c.key = found[1]
			current[c.key] = found[2]
		}
		for _, name := range names {
			if name == "required key deleted" {
				if c.key != "" && applies(required, c) && !strings.HasSuffix(strings.TrimSpace(line), "[") {
					all = append(all, mutant{name, i + 1, true, nil})
				}
				continue
			}
			if lines := faults()[name](c); lines != nil {
				all = append(all, mutant{name, i + 1, false, lines})
			}
		}
	}
	return all
}

func sortedNames(rules map[string]func(context) []string) []string {
	var names []string
	for name := range rules {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}

// shown reports whether a problem points at the line of the mutant: the line itself, the other half of a pair, or the header
// of the table that lacks a key.
func (m mutant) shown(found problem.List, file string, lines []string) bool {
	wanted := []int{m.line}
	if len(m.text) == 2 {
		wanted = append(wanted, m.line+1)
	}
	for i := m.line - 1; m.deleted && i > 0; i-- {
		if strings.HasPrefix(lines[i-1], "[") {
			wanted = append(wanted, i)
			break
		}
	}
	for _, p := range found {
		if p.Severity == problem.Warning {
			continue
		}
		if filepath.Base(p.Place.File) == file && slices.Contains(wanted, p.Place.Line) {
			return true
		}
		if p.Also != nil && filepath.Base(p.Also.Place.File) == file && slices.Contains(wanted, p.Also.Place.Line) {
			return true
		}
	}
	return false
}

// TestSingleFaultsAreRefusedAtTheirLine puts faults into the demo jobs, one at a time: all of the small one's, and every
// thirty-seventh of the large one's, which takes seconds instead of a minute.
func TestSingleFaultsAreRefusedAtTheirLine(t *testing.T) {
	require.GreaterOrEqual(t, len(faults()), 25)
	tried, shown := 0, 0
	var missed []string
	kinds := map[string]int{}
	for _, one := range []struct {
		folder string
		files  []string
		step   int
	}{{"sled-small", []string{"job.toml"}, 1}, {"sled", []string{"job.toml", "parts.toml", "shop.toml"}, 37}} {
		texts := map[string]string{}
		for _, name := range one.files {
			text, err := os.ReadFile(filepath.Join("../../testdata/jobs", one.folder, name))
			require.NoError(t, err)
			texts[name] = string(text)
		}
		for _, name := range one.files {
			lines := strings.Split(texts[name], "\n")
			for i, m := range mutants(texts[name]) {
				if i%one.step != 0 {
					continue
				}
				found := m.read(texts, name)
				tried++
				kinds[m.fault]++
				require.True(t, found.Stops(false), "%s/%s:%d: %s is accepted: %q", one.folder, name, m.line, m.fault, m.text)
				if m.shown(found, name, lines) {
					shown++
				} else {
					missed = append(missed, one.folder+"/"+name+": "+m.fault+": "+lines[m.line-1]+" -> "+found[0].Text)
				}
			}
		}
	}
	for name := range faults() {
		require.Positive(t, kinds[name], "%s fits nowhere", name)
	}
	t.Logf("%d single faults of %d kinds, all refused, %d (%.2f %%) shown at their line", tried, len(kinds), shown, 100*float64(shown)/float64(tried))
	require.GreaterOrEqual(t, shown*100, tried*99, "%s", strings.Join(missed, "\n"))
}

// read reads a job with the mutant in one of its files.
func (m mutant) read(texts map[string]string, name string) problem.List {
	changed := func(file string) []byte {
		lines := strings.Split(texts[file], "\n")
		if file == name {
			lines = slices.Replace(lines, m.line-1, m.line, m.text...)
		}
		return []byte(strings.Join(lines, "\n"))
	}
	in := Input{Name: "job.toml", Text: changed("job.toml"), Open: func(path string) ([]byte, error) { return changed(path), nil }}
	_, found, _ := Read(in, templates.Files)
	return found
}
