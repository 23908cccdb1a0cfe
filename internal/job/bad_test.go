package job

import (
	"flag"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"
	"golang.org/x/tools/txtar"

	"loomleaf/internal/problem"
	"loomleaf/templates"
)

var update = flag.Bool("update", false, "rewrite what faulty jobs print")

const badFolder = "../../testdata/bad"

// badJob is a faulty job: a file of testdata/bad, named by its check and, where a check has several, what they differ in.
// Lines above its files change how they are read: see input.
type badJob struct {
	path    string
	check   string
	archive *txtar.Archive
}

func badJobs(t testing.TB) []badJob {
	paths, err := filepath.Glob(filepath.Join(badFolder, "*.txtar"))
	require.NoError(t, err)
	require.NotEmpty(t, paths)
	var jobs []badJob
	for _, path := range paths {
		archive, err := txtar.ParseFile(path)
		require.NoError(t, err)
		check, _, _ := strings.Cut(filepath.Base(path), ".")
		jobs = append(jobs, badJob{path, check, archive})
	}
	return jobs
}

func (b badJob) file(name string) ([]byte, bool) {
	for _, f := range b.archive.Files {
		if f.Name == name {
			return f.Data, true
		}
	}
	return nil, false
}

// input follows the lines above the files: put "\xff" for ~, grow to 100 bytes, from standard input, words.toml as built in,
// with "new" for "old" (the wording of the safety page that comes with the program, changed).
func (b badJob) input(t testing.TB) Input {
	text, found := b.file("job.toml")
	require.True(t, found, "%s has no job.toml", b.path)
	var words string
	in := Input{Name: "job.toml", Text: text, Open: func(path string) ([]byte, error) {
		if path == "words.toml" && words != "" {
			return []byte(words), nil
		}
		if text, found := b.file(path); found {
			return text, nil
		}
		return nil, os.ErrNotExist
	}}
	in.Printable = func(r rune) bool { return r != '☃' }
	in.Own, in.OwnName = b.own()
	for line := range strings.Lines(string(b.archive.Comment)) {
		line = strings.TrimSpace(line)
		var size int
		switch {
		case line == "from standard input":
			in.Name, in.Open = "standard input", nil
		case strings.HasPrefix(line, "words.toml "):
			words = changedWording(t, words, line)
		case strings.HasPrefix(line, "put "):
			put, mark, _ := strings.Cut(strings.TrimPrefix(line, "put "), " for ")
			raw, err := strconv.Unquote(put)
			require.NoError(t, err)
			in.Text = []byte(strings.ReplaceAll(string(in.Text), mark, raw))
		default:
			_, err := fmt.Sscanf(line, "grow to %d bytes", &size)
			require.NoError(t, err, "%s: %s", b.path, line)
			in.Text = append(in.Text, strings.Repeat("#", size-len(in.Text))...)
		}
	}
	return in
}

// own is the folder of the shop's own texts: the files under own.
func (b badJob) own() (fs.FS, string) {
	files := fstest.MapFS{}
	for _, f := range b.archive.Files {
		if name, is := strings.CutPrefix(f.Name, "own/"); is {
			files[name] = &fstest.MapFile{Data: f.Data}
		}
	}
	if len(files) == 0 {
		return nil, ""
	}
	return files, "own"
}

// changedWording is the English wording of the safety page with one more change.
func changedWording(t testing.TB, words, line string) string {
	if words == "" {
		builtIn, err := templates.Files.ReadFile("safety.en.toml")
		require.NoError(t, err)
		words = string(builtIn)
	}
	var put, old string
	_, err := fmt.Sscanf(line, "words.toml as built in, with %q for %q", &put, &old)
	require.NoError(t, err, line)
	require.Equal(t, 1, strings.Count(words, old), "%s: the text to change stands once", line)
	return strings.Replace(words, old, put, 1)
}

func printed(t testing.TB, found problem.List, sources problem.Sources) string {
	var out strings.Builder
	require.NoError(t, problem.Print(&out, found, sources, problem.Options{}))
	return out.String()
}

func TestEachFaultIsReportedToTheLetter(t *testing.T) {
	for _, bad := range badJobs(t) {
		t.Run(filepath.Base(bad.path), func(t *testing.T) {
			h, found, sources := Read(bad.input(t), templates.Files)
			require.Equal(t, found.Errors() > 0, h == nil)
			for _, p := range found {
				require.Equal(t, bad.check, p.Check, "one fault a file: %s", p.Text)
			}
			got := printed(t, found, sources)
			if *update {
				bad.rewrite(t, got)
				return
			}
			want, has := bad.file("want")
			require.True(t, has, "run the test with -update")
			require.Equal(t, string(want), got)
		})
	}
}

func (b badJob) rewrite(t testing.TB, want string) {
	files := slices.DeleteFunc(slices.Clone(b.archive.Files), func(f txtar.File) bool { return f.Name == "want" })
	files = append(files, txtar.File{Name: "want", Data: []byte(want)})
	text := txtar.Format(&txtar.Archive{Comment: b.archive.Comment, Files: files})
	require.NoError(t, os.WriteFile(b.path, text, 0o644))
}

// checkNames reads the names of the checks from the source, so that none can be forgotten.
func checkNames(t testing.TB) []string {
	parsed, err := parser.ParseFile(token.NewFileSet(), "names.go", nil, 0)
	require.NoError(t, err)
	var names []string
	ast.Inspect(parsed, func(n ast.Node) bool {
		if spec, is := n.(*ast.ValueSpec); is {
			for _, value := range spec.Values {
				name, err := strconv.Unquote(value.(*ast.BasicLit).Value)
				require.NoError(t, err)
				names = append(names, name)
			}
		}
		return true
	})
	require.NotEmpty(t, names)
	return names
}

func TestEveryCheckHasAFaultyJobAndEveryFaultyJobACheck(t *testing.T) {
	names := checkNames(t)
	require.Len(t, slices.Compact(slices.Sorted(slices.Values(names))), len(names), "a name stands for two checks")
	covered := map[string]bool{}
	for _, bad := range badJobs(t) {
		require.Contains(t, names, bad.check, "%s belongs to no check", bad.path)
		covered[bad.check] = true
	}
	for _, name := range names {
		require.True(t, covered[name], "no faulty job for the check %s", name)
	}
	entries, err := os.ReadDir(badFolder)
	require.NoError(t, err)
	entries = slices.DeleteFunc(entries, func(e os.DirEntry) bool { return e.IsDir() && e.Name() == "plan" }) // those of cmd/loomleaf
	require.Len(t, badJobs(t), len(entries), "a file in testdata/bad is no faulty job")
}

// Only the functions of names.go make problems, so no check can go by a name that is not listed there.
func TestProblemsAreMadeInOnePlace(t *testing.T) {
	sources, err := filepath.Glob("*.go")
	require.NoError(t, err)
	for _, source := range sources {
		if source == "names.go" || strings.HasSuffix(source, "_test.go") {
			continue
		}
		text, err := os.ReadFile(source)
		require.NoError(t, err)
		require.NotContains(t, string(text), "problem.Problem{", source)
		require.NotContains(t, string(text), "Check:", source)
		require.NotContains(t, string(text), `fault("`, source)
	}
}
