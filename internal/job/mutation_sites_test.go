package job

import (
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/templates"
)

// specimen is a good job that faults are put into.
type specimen struct {
	name  string
	files map[string][]byte
	sane  *harness.Harness
	sound map[string]int // what is said of it while it has no fault: check and text, and how often
	sites []site
}

// site is a place of a job into which a fault can be put: a value with its key, or an element of a list.
type site struct {
	specimen *specimen
	file     string
	text     []byte
	path     string // "wire.a.trim"; of an element of a list "wire.via[]"
	entry    *entry // of the key
	value    *value
	table    *value // innermost table around the key
	inline   bool   // the table has braces
	start    int    // of the value as written
	end      int
}

// specimens are the good jobs, and the small one with its wires in a table.
func specimens(t *testing.T) []*specimen {
	var all []*specimen
	for _, folder := range jobFolders(t) {
		all = append(all, specimenOf(t, filepath.Base(folder), jobFiles(t, folder)))
	}
	job, table := tabled(t)
	tabled := specimenOf(t, "wire table", map[string][]byte{"job.toml": []byte(job), "wires.csv": []byte(table)})
	tabled.sites = nil // they are those of the small job
	return append(all, tabled)
}

func specimenOf(t *testing.T, name string, files map[string][]byte) *specimen {
	t.Helper()
	s := &specimen{name: name, files: files}
	h, found := s.read("", nil)
	require.NotNil(t, h, "%s: %v", name, found)
	s.sane, s.sound = h, said(found)
	for _, file := range slices.Sorted(maps.Keys(s.files)) {
		if strings.HasSuffix(file, ".toml") {
			s.sites = append(s.sites, s.sitesOf(t, file)...)
		}
	}
	s.sites = slices.DeleteFunc(s.sites, s.overridden)
	return s
}

// overridden reports a value of an included file that the job sets anew: nobody reads it.
func (s *specimen) overridden(one site) bool {
	root, _, _ := strings.Cut(one.path, ".")
	once := slices.ContainsFunc(tables(), func(r tableReader) bool { return r.name == root && !r.repeats })
	return once && one.file != "job.toml" && slices.ContainsFunc(s.sites, func(other site) bool {
		return other.file == "job.toml" && other.path == one.path
	})
}

// read reads the job with one of its files changed.
func (s *specimen) read(changed string, text []byte) (*harness.Harness, problem.List) {
	open := func(path string) ([]byte, error) {
		if path == changed {
			return text, nil
		}
		if known, found := s.files[path]; found {
			return known, nil
		}
		return nil, os.ErrNotExist
	}
	job, _ := open("job.toml")
	h, found, _ := Read(Input{Name: "job.toml", Text: job, Open: open}, templates.Files)
	return h, found
}

// said counts problems by check and text: their places move with the lines.
func said(found problem.List) map[string]int {
	counts := map[string]int{}
	for _, p := range found {
		counts[p.Check+" "+p.Text]++
	}
	return counts
}

// sitesOf walks the tree of a file.
func (s *specimen) sitesOf(t *testing.T, file string) []site {
	t.Helper()
	root, found := load(file, s.files[file], problem.Sources{})
	require.Empty(t, found)
	var sites []site
	base := site{specimen: s, file: file, text: s.files[file]}
	base.walk(root, "", false, func(one site) { sites = append(sites, one) })
	return sites
}

// walk visits every value under a table, in the order of the file.
func (b site) walk(table *value, path string, inline bool, visit func(site)) {
	for i := range table.keys {
		e := &table.keys[i]
		one := b
		one.path, one.entry, one.value, one.table, one.inline = path+e.name, e, e.value, table, inline
		if e.written != "" {
			one.start, one.end = e.value.at, e.value.at+len(e.written)
			visit(one)
		}
		one.inside(e.written != "", visit)
	}
}

// inside visits what stands in a list or a table.
func (b site) inside(written bool, visit func(site)) {
	switch b.value.kind {
	case kindTable:
		b.walk(b.value, b.path+".", written, visit)
	case kindArray:
		for _, item := range b.value.items {
			if item.kind == kindTable {
				b.walk(item, b.path+".", written, visit)
				continue
			}
			one := b
			one.path, one.value, one.start = b.path+"[]", item, item.at
			one.end = scalarEnd(b.text, item.at)
			if item.kind == kindArray {
				one.inside(written, visit)
				continue
			}
			visit(one)
		}
	}
}

// scalarEnd returns where a scalar of a list ends.
func scalarEnd(text []byte, at int) int {
	if text[at] != '"' {
		return at + len(text[at:]) - len(strings.TrimLeft(string(text[at:]), "+-.0123456789abcdefghijklmnopqrstuvwxyz_"))
	}
	for end := at + 1; end < len(text); end++ {
		switch text[end] {
		case '\\':
			end++
		case '"':
			return end + 1
		}
	}
	return len(text)
}

// key is the last part of a path: "trim", or "via" of an element.
func (s site) key() string {
	return strings.TrimSuffix(s.path[strings.LastIndex(s.path, ".")+1:], "[]")
}

// element reports whether the site is an element of a list.
func (s site) element() bool { return strings.HasSuffix(s.path, "[]") }

// of reports whether the path of the site is one of those listed.
func (s site) of(paths string) bool { return slices.Contains(strings.Fields(paths), s.path) }

// as returns the mutant with another value here.
func (s site) as(written string) mutant { return s.cut(s.start, s.end, written) }

// cut returns the mutant with a part of the file replaced; the line of the site is the one to be reported. An array may be
// reported at its key.
func (s site) cut(start, end int, written string) mutant {
	m := mutant{file: s.file, start: start, end: end, written: written, of: s}
	return m.accept(s.start).accept(s.entry.at)
}

// accept adds the line of an offset to those that may be reported.
func (m mutant) accept(offset int) mutant {
	m.lines = append(m.lines, strings.Count(string(m.of.text[:offset]), "\n")+1)
	return m
}

// without returns the mutant that lacks the key. Its table is the place of what is missing.
func (s site) without() mutant {
	start, end := s.entry.at, s.end
	if s.inline {
		for end < len(s.text) && strings.IndexByte(", ", s.text[end]) >= 0 {
			end++
		}
		if s.text[end] == '}' { // the last one takes the comma in front of it along
			for strings.IndexByte(", ", s.text[start-1]) >= 0 {
				start--
			}
		}
	} else {
		start, end = lineStart(s.text, start), lineEnd(s.text, end)
	}
	m := mutant{file: s.file, start: start, end: end, of: s}
	return m.accept(s.table.at)
}

func lineStart(text []byte, at int) int { return strings.LastIndexByte(string(text[:at]), '\n') + 1 }

func lineEnd(text []byte, at int) int {
	if next := strings.IndexByte(string(text[at:]), '\n'); next >= 0 {
		return at + next + 1
	}
	return len(text)
}
