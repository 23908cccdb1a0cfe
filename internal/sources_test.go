package internal

import (
	"encoding/csv"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

const vectorFolder = "../testdata/vectors"

// TestEveryVectorNamesItsSource reads every file of published figures, whoever compares with it.
func TestEveryVectorNamesItsSource(t *testing.T) {
	entries, err := os.ReadDir(vectorFolder)
	require.NoError(t, err)
	require.NotEmpty(t, entries)
	for _, entry := range entries {
		require.Equal(t, ".csv", filepath.Ext(entry.Name()), "%s: say here where its sources stand", entry.Name())
		text, err := os.ReadFile(filepath.Join(vectorFolder, entry.Name()))
		require.NoError(t, err)
		require.Empty(t, sourceless(t, string(text)), entry.Name())
	}
}

// sourceless says what a table of figures lacks: rows, the column of sources, or a source in it.
func sourceless(t *testing.T, text string) []string {
	t.Helper()
	reader := csv.NewReader(strings.NewReader(text))
	reader.Comment = '#'
	records, err := reader.ReadAll()
	require.NoError(t, err)
	if len(records) < 2 {
		return []string{"no rows"}
	}
	column := slices.Index(records[0], "source")
	if column < 0 {
		return []string{"no column of sources"}
	}
	var lacking []string
	for _, record := range records[1:] {
		if strings.TrimSpace(record[column]) == "" {
			lacking = append(lacking, strings.Join(record, ","))
		}
	}
	return lacking
}

func TestFiguresWithoutSourceAreFound(t *testing.T) {
	require.Empty(t, sourceless(t, "# a remark\nfigure,source\n1,a table (read)\n"))
	require.Equal(t, []string{"no rows"}, sourceless(t, "figure,source\n"))
	require.Equal(t, []string{"no column of sources"}, sourceless(t, "figure,from\n1,a table\n"))
	require.Equal(t, []string{"2, "}, sourceless(t, "figure,source\n1,a table\n2, \n"))
}

// TestEveryVectorIsCompared finds published figures that no test reads.
func TestEveryVectorIsCompared(t *testing.T) {
	var tests strings.Builder
	for _, s := range sources(t) {
		if s.test {
			text, err := os.ReadFile(filepath.Join("..", s.path))
			require.NoError(t, err)
			tests.Write(text)
		}
	}
	entries, err := os.ReadDir(vectorFolder)
	require.NoError(t, err)
	for _, entry := range entries {
		read := regexp.MustCompile(`["/]` + regexp.QuoteMeta(entry.Name()) + `["` + "`]")
		require.True(t, read.MatchString(tests.String()), "no test reads %s", entry.Name())
	}
}

// signs are the functions whose whole number is no figure.
func signs() []string { return []string{"CompareGauge"} }

// TestHandbookReturnsSources holds every exported function that returns a figure to its source, beside it or within it.
func TestHandbookReturnsSources(t *testing.T) {
	var files []*ast.File
	for _, s := range sources(t) {
		if s.folder == "internal/handbook" && !s.test {
			files = append(files, s.file)
		}
	}
	returning, bare := figureFunctions(files)
	require.GreaterOrEqual(t, len(returning), 5)
	require.Equal(t, signs(), bare, "these return figures without a Source")
}

// figureFunctions lists the exported functions that return figures, and those of them that return no Source.
func figureFunctions(files []*ast.File) (returning, bare []string) {
	types := map[string]ast.Expr{}
	var functions []*ast.FuncDecl
	for _, file := range files {
		for _, declaration := range file.Decls {
			switch declared := declaration.(type) {
			case *ast.FuncDecl:
				functions = append(functions, declared)
			case *ast.GenDecl:
				for _, spec := range declared.Specs {
					if named, is := spec.(*ast.TypeSpec); is {
						types[named.Name.Name] = named.Type
					}
				}
			}
		}
	}
	for _, f := range functions {
		if !f.Name.IsExported() || f.Type.Results == nil {
			continue
		}
		figures, source := false, false
		for _, result := range f.Type.Results.List {
			figures = figures || holds(types, result.Type, figure)
			source = source || holds(types, result.Type, isSource)
		}
		if figures {
			returning = append(returning, f.Name.Name)
		}
		if figures && !source {
			bare = append(bare, f.Name.Name)
		}
	}
	return returning, bare
}

// holds reports whether a type, or a part of it, is what is asked for. A Source holds nothing but itself.
func holds(types map[string]ast.Expr, expression ast.Expr, is func(string) bool) bool {
	switch e := expression.(type) {
	case *ast.Ident:
		if inner, named := types[e.Name]; named && e.Name != "Source" {
			return holds(types, inner, is)
		}
		return is(e.Name)
	case *ast.SelectorExpr:
		return is(e.X.(*ast.Ident).Name + "." + e.Sel.Name)
	case *ast.ArrayType:
		return holds(types, e.Elt, is)
	case *ast.MapType:
		return holds(types, e.Key, is) || holds(types, e.Value, is)
	case *ast.StarExpr:
		return holds(types, e.X, is)
	case *ast.StructType:
		return slices.ContainsFunc(e.Fields.List, func(f *ast.Field) bool { return holds(types, f.Type, is) })
	}
	return false
}

func isSource(name string) bool { return name == "Source" }

// number matches the types of figures: those of Go, and every type of units.
var number = regexp.MustCompile(`^(u?int\d*|float\d+|units\..+)$`)

func figure(name string) bool { return number.MatchString(name) }

func TestBareFiguresAreFound(t *testing.T) {
	const text = `package handbook
type Source struct{ Standing uint8 }
type Pair struct{ Lengths []units.Length }
type Row struct { Pair *Pair; Source Source }
func Word(n int) (string, bool) { return "", n > 0 }
func SourceAlone() Source { return Source{} }
func Beside() (units.Mass, Source) { return 0, Source{} }
func Within() ([]Row, bool) { return nil, false }
func Count() int { return 0 }
func PairOf() (Pair, bool) { return Pair{}, false }
func hidden() float64 { return 0 }
`
	file, err := parser.ParseFile(token.NewFileSet(), "x.go", text, 0)
	require.NoError(t, err)
	returning, bare := figureFunctions([]*ast.File{file})
	require.Equal(t, []string{"Beside", "Within", "Count", "PairOf"}, returning)
	require.Equal(t, []string{"Count", "PairOf"}, bare)
}

// TestSourcesNameADocument looks at every Source that the program writes out.
func TestSourcesNameADocument(t *testing.T) {
	found := 0
	for _, s := range sources(t) {
		if s.test {
			continue
		}
		ast.Inspect(s.file, func(n ast.Node) bool {
			literal, is := n.(*ast.CompositeLit)
			if is && sourceType(literal.Type) {
				found++
				require.True(t, says(literal, "Document"), "%s: a source without a document", s.set.Position(n.Pos()))
				require.True(t, says(literal, "Standing"), "%s: a source that does not say how sure it is", s.set.Position(n.Pos()))
			}
			return true
		})
	}
	require.GreaterOrEqual(t, found, 10)
}

func sourceType(expression ast.Expr) bool {
	switch e := expression.(type) {
	case *ast.Ident:
		return e.Name == "Source"
	case *ast.SelectorExpr:
		name, is := e.X.(*ast.Ident)
		return is && name.Name == "handbook" && e.Sel.Name == "Source"
	}
	return false
}

// says reports whether a literal sets a key, and to something else than an empty text.
func says(literal *ast.CompositeLit, key string) bool {
	return slices.ContainsFunc(literal.Elts, func(element ast.Expr) bool {
		pair, is := element.(*ast.KeyValueExpr)
		if !is {
			return false
		}
		name, is := pair.Key.(*ast.Ident)
		text, literally := pair.Value.(*ast.BasicLit)
		return is && name.Name == key && (!literally || text.Value != `""`)
	})
}

// Lines of the shop file, and what its remarks must say of a figure: a document with the place in it, or whose habit it is.
var (
	shopLine  = regexp.MustCompile(`^(\[\w+\]|\w+ *=) *([^#]*)(#.*)?$`)
	shopFact  = regexp.MustCompile(`(^|[\["= ])\d`)
	shopWords = regexp.MustCompile(`shop figures?\b|shop rule\b|common practice\b|\([^()]*\b[A-Z]+(-[A-Z]+)*[- ]\d+[-.A-Z][^()]*, [^()]*\d[^()]*\)`)
)

// unexplained lists the keys whose figures come from nowhere. What the head of a table says holds for all its keys.
func unexplained(text string) (figures int, keys []string) {
	explained := false
	for _, line := range strings.Split(text, "\n") {
		part := shopLine.FindStringSubmatch(line)
		switch {
		case part == nil:
		case strings.HasPrefix(part[1], "["):
			explained = shopWords.MatchString(part[3])
		case shopFact.MatchString(part[2]):
			figures++
			if !explained && !shopWords.MatchString(part[3]) {
				keys = append(keys, strings.TrimRight(part[1], " ="))
			}
		}
	}
	return figures, keys
}

// TestFiguresOfTheShopFileSayWhereTheyComeFrom holds the default shop file to it: it is what planners copy.
func TestFiguresOfTheShopFileSayWhereTheyComeFrom(t *testing.T) {
	text, err := os.ReadFile("../templates/shop.toml")
	require.NoError(t, err)
	figures, keys := unexplained(string(text))
	require.GreaterOrEqual(t, figures, 30)
	require.Empty(t, keys)
}

func TestUnexplainedFiguresAreFound(t *testing.T) {
	figures, keys := unexplained(`[a]   # shop figures
one = 1
[b]
two   = "2 mm"  # a habit; common practice
three = ["3"]   # at most (AC 43.13-1B change 1, 11-208: 3 in)
four  = { x = "4 s" } # as the handbook (AC 43.13-1B) says
five  = "5"
six   = "a4"    # no figure
seven = 7       # the shop figured it out
`)
	require.Equal(t, 6, figures)
	require.Equal(t, []string{"four", "five", "seven"}, keys)
}
