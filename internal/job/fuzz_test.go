package job

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/problem"
	"loomleaf/internal/words"
	"loomleaf/templates"
)

// fuzzedFiles are the files that a fuzzed job may name besides itself.
type fuzzedFiles struct{ job, shop, parts, wires []byte }

func (f fuzzedFiles) input() Input {
	beside := map[string][]byte{"shop.toml": f.shop, "parts.toml": f.parts, "words.toml": f.parts, "wires.csv": f.wires}
	return Input{Name: "job.toml", Text: f.job, Open: func(path string) ([]byte, error) {
		if text, found := beside[path]; found {
			return text, nil
		}
		return nil, os.ErrNotExist
	}}
}

// largestSeed keeps seeds short enough for a fuzzer to try many of their kin.
const largestSeed = 40_000

// seeds returns the good jobs and the faulty ones.
func seeds(f *testing.F) []fuzzedFiles {
	var all []fuzzedFiles
	for _, bad := range badJobs(f) {
		one := fuzzedFiles{job: bad.input(f).Text}
		one.shop, _ = bad.file("shop.toml")
		one.parts, _ = bad.file("parts.toml")
		one.wires, _ = bad.file("wires.csv")
		if len(one.job) < largestSeed {
			all = append(all, one)
		}
	}
	for _, folder := range jobFolders(f) {
		files := jobFiles(f, folder)
		all = append(all, fuzzedFiles{files["job.toml"], files["shop.toml"], files["parts.toml"], files["wires.csv"]})
	}
	return all
}

// jobFolders lists the folders of the good jobs.
func jobFolders(t testing.TB) []string {
	paths, err := filepath.Glob("../../testdata/jobs/*/job.toml")
	require.NoError(t, err)
	require.NotEmpty(t, paths)
	for i, path := range paths {
		paths[i] = filepath.Dir(path)
	}
	return paths
}

// jobFiles reads the files that a good job is made of, by name.
func jobFiles(t testing.TB, folder string) map[string][]byte {
	files := map[string][]byte{}
	for _, pattern := range []string{"*.toml", "*.csv"} {
		paths, err := filepath.Glob(filepath.Join(folder, pattern))
		require.NoError(t, err)
		for _, path := range paths {
			text, err := os.ReadFile(path)
			require.NoError(t, err)
			files[filepath.Base(path)] = text
		}
	}
	return files
}

// FuzzRead changes a job, the files that it includes and its wire table: what comes out is a harness, or an error whose place
// is in a file that was read; and the same again the second time.
func FuzzRead(f *testing.F) {
	f.Add([]byte(goodText), []byte("[tray]\nwires = 3\n"), []byte(nil), []byte(nil))
	f.Add([]byte("include = [\"shop.toml\"]\n"+goodText), []byte(stockText), []byte(nil), []byte(nil))
	f.Add([]byte(goodText+constructsText), []byte(nil), []byte(nil), []byte(nil))
	f.Add([]byte("[[job]]\nwire = 3\n"), []byte(nil), []byte(nil), []byte(nil))
	f.Add([]byte("[line.step]\n[wire_type]\n[job.expect.wires]\n"), []byte(nil), []byte(nil), []byte(nil))
	for _, s := range seeds(f) {
		f.Add(s.job, s.shop, s.parts, s.wires)
	}
	f.Fuzz(func(t *testing.T, job, shop, parts, wires []byte) {
		requireSound(t, fuzzedFiles{job, shop, parts, wires}.input())
	})
}

// FuzzCSV changes the wire table of a sound job.
func FuzzCSV(f *testing.F) {
	job, table := tabled(f)
	for _, seed := range []string{table, strings.ReplaceAll(table, ",", ";"), strings.ReplaceAll(table, ",", "\t"), "", "id", "id,type,from,to\n\"",
		"id,type,from,to\n\"a\nb\",,,", "\xef\xbb\xbfid,type,from,to\r\nL1,E20R,J1:1,P2:A\r\n", "id;type;from;to;length\n7;E20R;J1:1;P2:A;12"} {
		f.Add([]byte(seed))
	}
	for _, s := range seeds(f) {
		if s.wires != nil {
			f.Add(s.wires)
		}
	}
	f.Fuzz(func(t *testing.T, table []byte) {
		requireSound(t, fuzzedFiles{job: []byte(job), wires: table}.input())
	})
}

// requireSound reads a job that may hold anything.
func requireSound(t *testing.T, in Input) {
	h, found, sources := Read(in, templates.Files)
	if (h == nil) != (found.Errors() > 0) {
		t.Fatalf("harness %v with %d errors", h != nil, found.Errors())
	}
	for _, p := range found {
		if p.Text == "" || p.Check == "" || strings.Contains(p.Text, "\n") {
			t.Fatalf("a problem without a sentence or a check: %+v", p)
		}
		requirePlace(t, p.Place, sources)
		if p.Also != nil {
			requirePlace(t, p.Also.Place, sources)
		}
	}
	_, again, _ := Read(in, templates.Files)
	if printed(t, found, sources) != printed(t, again, sources) {
		t.Fatal("reading twice finds different problems")
	}
}

// requirePlace fails where a place is not inside a file that was read; just behind the end of a line is still inside.
func requirePlace(t *testing.T, at problem.Place, sources problem.Sources) {
	text, read := sources[at.File]
	if !read {
		t.Fatalf("%v is in no file that was read", at)
	}
	lines := bytes.Split(text, []byte("\n"))
	if at.Line < 1 || at.Line > len(lines) || at.Column < 1 || at.Column > utf8.RuneCount(lines[at.Line-1])+1 {
		t.Fatalf("%v is no place of its file", at)
	}
}

// FuzzWords reads the shop's own words: whatever a file holds, each text that is taken has a key and the fields of the language.
func FuzzWords(f *testing.F) {
	built, err := Words(templates.Files, "en")
	require.NoError(f, err)
	f.Add([]byte("[frame]\nblank = \"leave empty = not done\"\n"))
	f.Add([]byte("[frame]\npage = \"sheet {page}\"\nblanc = 1\n[common]\npieces = { one = \"{n}\", other = \"\" }\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		tree, found := load("words.toml", text, problem.Sources{})
		if found.Errors() > 0 {
			return
		}
		own, _ := ownWords(built, tree)
		require.Equal(t, built.Keys(), own.Keys())
		for key, said := range own.Own() {
			replaced, has := built.Text(key)
			require.True(t, has, key)
			require.Equal(t, words.Fields(replaced), words.Fields(said), key)
		}
	})
}
