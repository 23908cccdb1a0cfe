// Package internal holds no code: its tests keep the rules of the project that the compiler does not.
package internal

import (
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

	"github.com/stretchr/testify/require"
)

const module = "loomleaf/"

// arrows says which packages of ours each package may import. A package that is not listed here may not exist.
func arrows() map[string][]string {
	return map[string][]string{
		"internal/problem":  {},
		"internal/units":    {},
		"internal/words":    {},
		"internal/handbook": {"internal/units"},
		"internal/optical":  {"internal/handbook", "internal/units"},
		"internal/harness":  {"internal/problem", "internal/units", "internal/words"},
		"internal/job":      {"internal/harness", "internal/handbook", "internal/problem", "internal/units", "internal/words"},
		"internal/plan":     {"internal/harness", "internal/handbook", "internal/problem", "internal/units", "internal/words"},
		"internal/page":     {"internal/problem"},
		"internal/sheet":    {"internal/plan", "internal/page", "internal/problem", "internal/units", "internal/words"},
		"internal/pdf":      {"internal/page", "internal/problem"},
		"internal":          {},
		"templates":         {},
		"fonts":             {},
		"cmd/loomleaf": {"internal/problem", "internal/units", "internal/harness", "internal/job", "internal/plan",
			"internal/page", "internal/sheet", "internal/pdf", "internal/optical", "templates", "fonts"},
	}
}

// owners says which package alone may import a library outside its tests.
func owners() map[string]string {
	return map[string]string{
		"github.com/signintech/gopdf":     "internal/pdf",
		"github.com/boombuler/barcode":    "internal/page",
		"golang.org/x/image":              "internal/page",
		"github.com/BurntSushi/toml":      "internal/job",
		"github.com/pelletier/go-toml/v2": "internal/job",
		"github.com/agext/levenshtein":    "internal/job",
		"github.com/alecthomas/kong":      "cmd/loomleaf",
	}
}

// source is one Go file of the project.
type source struct {
	path, folder string
	test         bool
	set          *token.FileSet
	file         *ast.File
}

func sources(t *testing.T) []source {
	t.Helper()
	var found []source
	require.NoError(t, filepath.WalkDir("..", func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || !strings.HasSuffix(path, ".go") {
			return err
		}
		set := token.NewFileSet()
		file, err := parser.ParseFile(set, path, nil, parser.ParseComments)
		require.NoError(t, err)
		slash := strings.TrimPrefix(filepath.ToSlash(path), "../")
		found = append(found, source{path: slash, folder: filepath.ToSlash(filepath.Dir(slash)),
			test: strings.HasSuffix(path, "_test.go"), set: set, file: file})
		return nil
	}))
	require.NotEmpty(t, found)
	return found
}

func TestImportsFollowTheArrows(t *testing.T) {
	allowed := arrows()
	for _, s := range sources(t) {
		may, known := allowed[s.folder]
		require.True(t, known, "%s: the package %s is not in the list of packages", s.path, s.folder)
		if s.test {
			continue
		}
		for _, spec := range s.file.Imports {
			path, _ := strconv.Unquote(spec.Path.Value)
			if ours, isOurs := strings.CutPrefix(path, module); isOurs {
				require.True(t, slices.Contains(may, ours), "%s imports %s against the arrows", s.path, ours)
			}
		}
	}
}

func TestEachLibraryHasOneUser(t *testing.T) {
	owner := owners()
	for _, s := range sources(t) {
		if s.test {
			continue
		}
		for _, spec := range s.file.Imports {
			path, _ := strconv.Unquote(spec.Path.Value)
			first, _, _ := strings.Cut(path, "/")
			if !strings.Contains(first, ".") {
				continue
			}
			library := ""
			for name := range owner {
				if path == name || strings.HasPrefix(path, name+"/") {
					library = name
				}
			}
			require.NotEmpty(t, library, "%s imports %s, which no package is named as the user of", s.path, path)
			require.Equal(t, owner[library], s.folder, "%s imports %s", s.path, path)
		}
	}
}

func TestNothingBelowTheCommandReachesOutside(t *testing.T) {
	banned := map[string][]string{
		"os":   {"Exit", "Getenv", "LookupEnv", "Open", "ReadFile", "WriteFile", "Create", "Stdout", "Stderr", "Stdin"},
		"time": {"Now", "Since", "Local"},
		"log":  {"Fatal", "Fatalf", "Print", "Printf", "Println"},
		"rand": {"Int", "IntN", "Intn", "Float64", "Shuffle", "Perm"},
	}
	for _, s := range sources(t) {
		if s.test || s.folder == "cmd/loomleaf" {
			continue
		}
		ast.Inspect(s.file, func(n ast.Node) bool {
			if selector, ok := n.(*ast.SelectorExpr); ok {
				if name, ok := selector.X.(*ast.Ident); ok && slices.Contains(banned[name.Name], selector.Sel.Name) {
					t.Errorf("%s: %s.%s is for the command alone", s.set.Position(n.Pos()), name.Name, selector.Sel.Name)
				}
			}
			return true
		})
	}
}

func TestExitsStandInMainAlone(t *testing.T) {
	for _, s := range sources(t) {
		if s.test || s.path == "cmd/loomleaf/main.go" {
			continue
		}
		text, err := os.ReadFile(filepath.Join("..", s.path))
		require.NoError(t, err)
		require.NotContains(t, string(text), "os.Exit", s.path)
	}
}

func TestNoStateInPackages(t *testing.T) {
	for _, s := range sources(t) {
		if s.test {
			continue
		}
		for _, declaration := range s.file.Decls {
			general, ok := declaration.(*ast.GenDecl)
			if !ok || general.Tok != token.VAR || embeds(general) {
				continue
			}
			for _, spec := range general.Specs {
				value := spec.(*ast.ValueSpec)
				require.True(t, constantLike(value), "%s: %s can change: pass values instead",
					s.set.Position(value.Pos()), value.Names[0].Name)
			}
		}
	}
}

func embeds(d *ast.GenDecl) bool {
	return d.Doc != nil && strings.Contains(d.Doc.List[len(d.Doc.List)-1].Text, "go:embed")
}

// constantLike reports values that nothing assigns to: a struct literal, an error, a compiled pattern or an interface check.
func constantLike(v *ast.ValueSpec) bool {
	if v.Names[0].Name == "_" {
		return true
	}
	if len(v.Values) != 1 {
		return false
	}
	switch value := v.Values[0].(type) {
	case *ast.CompositeLit:
		_, isMap := value.Type.(*ast.MapType)
		return !isMap
	case *ast.CallExpr:
		selector, ok := value.Fun.(*ast.SelectorExpr)
		return ok && slices.Contains([]string{"New", "MustCompile", "NewReplacer"}, selector.Sel.Name)
	}
	return false
}

func TestFilesAndFunctionsStayShort(t *testing.T) {
	const fileLines, functionLines = 450, 60
	for _, s := range sources(t) {
		lines := s.set.Position(s.file.End()).Line
		require.LessOrEqual(t, lines, fileLines, s.path)
		for _, declaration := range s.file.Decls {
			function, ok := declaration.(*ast.FuncDecl)
			if !ok {
				continue
			}
			length := s.set.Position(function.End()).Line - s.set.Position(function.Pos()).Line + 1
			require.LessOrEqual(t, length, functionLines, "%s: %s", s.path, function.Name.Name)
		}
	}
}

func TestPackagesSayWhatTheyAre(t *testing.T) {
	said := map[string]bool{}
	for _, s := range sources(t) {
		if !s.test && s.file.Doc != nil {
			said[s.folder] = true
		}
	}
	for folder := range arrows() {
		if folder != "internal" {
			require.True(t, said[folder], "%s has no package comment", folder)
		}
	}
}

func TestNothingIsLeftForLater(t *testing.T) {
	for _, s := range sources(t) {
		for _, group := range s.file.Comments {
			text := group.Text()
			for _, word := range []string{"TO" + "DO", "FIX" + "ME", "X" + "XX"} {
				require.NotContains(t, text, word, s.path)
			}
		}
	}
}
