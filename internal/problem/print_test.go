package problem

import (
	"errors"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func printed(t require.TestingT, list List, sources Sources, options Options) string {
	var b strings.Builder
	require.NoError(t, Print(&b, list, sources, options))
	return b.String()
}

func TestPrintsPlaceLineCaretHintAndNote(t *testing.T) {
	sources := Sources{"job.toml": []byte("[[connector]]\nid = \"J1\"\n\n[[wire]]\nfrom = \"J1:99\"\n")}
	list := List{{
		Check: "unknown-cavity", Place: Place{"job.toml", 5, 8}, ID: "W101",
		Text: `wire "W101" lands in cavity "99", which connector "J1" does not have`,
		Hint: "J1 has the cavities 1 to 37",
		Also: &Related{Place: Place{"job.toml", 1, 1}, Text: `connector "J1" stands here`},
	}}
	require.Equal(t, `job.toml:5:8: error: wire "W101" lands in cavity "99", which connector "J1" does not have
  from = "J1:99"
         ^
  hint: J1 has the cavities 1 to 37
job.toml:1:1: note: connector "J1" stands here
  [[connector]]
  ^
`, printed(t, list, sources, Options{}))
}

func TestSeveritiesInWordsAndWhatTheyStop(t *testing.T) {
	for _, c := range []struct {
		severity    Severity
		word        string
		stops, both bool // a packet; a draft as well
	}{{Error, "error", true, true}, {Release, "release", true, false}, {Warning, "warning", false, false}} {
		list := List{{Severity: c.severity}}
		require.Equal(t, c.word, c.severity.String())
		require.Equal(t, c.stops, list.Stops(false), c.word)
		require.Equal(t, c.both, list.Stops(true), c.word)
	}
	list := List{{Severity: Release}, {Severity: Warning}, {Severity: Error}, {Severity: Release}}
	require.Equal(t, []int{1, 2, 1}, []int{list.Errors(), list.Releases(), len(list.Warnings())})
}

func TestPrintsInTheOrderOfTheFile(t *testing.T) {
	sources := Sources{"a": []byte("one\ntwo\n")}
	list := List{
		{Severity: Warning, Place: Place{"a", 2, 1}, Text: "second"},
		{Place: Place{"a", 1, 2}, Text: "first"},
		{Place: Place{"a", 1, 2}, Text: "first"},
		{Text: "no place"},
	}
	require.Equal(t, "error: no place\na:1:2: error: first\n  one\n   ^\na:2:1: warning: second\n  two\n  ^\n",
		printed(t, list, sources, Options{}))
}

func TestPrintsWhatItKnowsOfAPlace(t *testing.T) {
	sources := Sources{"a": []byte("one\r\ntwo"), "gone": nil, "bom": []byte("\ufeffid = 1\n"), "": []byte("x")}
	cases := []struct {
		place Place
		want  string
	}{
		{Place{}, "error: it fails\n"},
		{Place{"a", 0, 0}, "a: error: it fails\n"},
		{Place{"a", 1, 0}, "a:1: error: it fails\n  one\n"},
		{Place{"a", 1, 3}, "a:1:3: error: it fails\n  one\n    ^\n"},
		{Place{"a", 2, 4}, "a:2:4: error: it fails\n  two\n     ^\n"},     // at the end of the line
		{Place{"a", 2, 400}, "a:2:400: error: it fails\n  two\n     ^\n"}, // behind it
		{Place{"a", 3, 1}, "a:3:1: error: it fails\n"},                    // no such line
		{Place{"b", 1, 1}, "b:1:1: error: it fails\n"},                    // not held
		{Place{"gone", 1, 1}, "gone:1:1: error: it fails\n"},              // held without content
		{Place{"bom", 1, 1}, "bom:1:1: error: it fails\n  id = 1\n  ^\n"},
		{Place{"\x1b[2J", 1, 1}, `\x1b[2J:1:1: error: it fails` + "\n"},
	}
	for _, c := range cases {
		require.Equal(t, c.want, printed(t, List{{Place: c.place, Text: "it fails"}}, sources, Options{}))
	}
	require.Equal(t, "a:1:1: error: it fails\n", printed(t, List{{Place: Place{"a", 1, 1}, Text: "it fails"}}, nil, Options{}))
}

func TestCaretStandsUnderTheCharacter(t *testing.T) {
	cases := []struct {
		name, line string
		column     int
		shown      string
		caret      string
	}{
		{"tabs stay tabs", "\tid\t= 1", 5, "\tid\t= 1", "\t  \t^"},
		{"columns count characters", "é = \"µm\"", 6, "é = \"µm\"", "     ^"},
		{"combining marks take no room", "e\u0301 = 1", 5, "e\u0301 = 1", "   ^"},
		{"wide characters take two", "線 = 1", 5, "線 = 1", "     ^"},
		{"control characters are escaped", "a\x1b[2Jb", 6, `a\x1b[2Jb`, "        ^"},
		{"a turned writing direction is escaped", "a\u202eb", 3, `a\u202eb`, "       ^"},
		{"a blank that looks like another is escaped", "a\u00a0b", 3, `a\u00a0b`, "       ^"},
		{"broken UTF-8 is escaped byte by byte", "a\xff\xfeb", 4, `a\xff\xfeb`, "         ^"},
		{"an empty line", "", 1, "", "^"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			shown, caret := excerpt([]byte(c.line), c.column)
			require.Equal(t, c.shown, shown)
			require.Equal(t, c.caret, caret)
		})
	}
}

func TestShortensWideLinesAroundThePlace(t *testing.T) {
	line := strings.Repeat("a", 200) + "X" + strings.Repeat("b", 200)
	shown, caret := excerpt([]byte(line), 201)
	require.Equal(t, "..."+strings.Repeat("a", 50)+"X"+strings.Repeat("b", 49)+"...", shown)
	require.Equal(t, strings.Repeat(" ", 53)+"^", caret)

	shown, caret = excerpt([]byte(line), 1)
	require.Equal(t, strings.Repeat("a", 100)+"...", shown)
	require.Equal(t, "^", caret)

	shown, caret = excerpt([]byte(line), 402)
	require.Equal(t, "..."+strings.Repeat("b", 100), shown)
	require.Equal(t, strings.Repeat(" ", 103)+"^", caret)

	whole := strings.Repeat("c", 100)
	shown, _ = excerpt([]byte(whole), 60)
	require.Equal(t, whole, shown)
}

func TestStopsAtTheCap(t *testing.T) {
	list := List{{Text: "a"}, {Text: "b"}, {Text: "c"}}
	require.Equal(t, "error: a\nand 2 more problems; --all shows them\n", printed(t, list, nil, Options{Most: 1}))
	require.Equal(t, "error: a\nerror: b\nand 1 more problem; --all shows it\n", printed(t, list, nil, Options{Most: 2}))
	require.Equal(t, "error: a\nerror: b\nerror: c\n", printed(t, list, nil, Options{Most: 3}))
	require.Equal(t, "error: a\nerror: b\nerror: c\n", printed(t, list, nil, Options{}))
	require.Empty(t, printed(t, nil, nil, Options{Most: 1}))
}

func TestTextsStayOnOneLine(t *testing.T) {
	list := List{{Text: "a\nb\t\x1b[31m", Hint: "c\rd", Also: &Related{Text: "e\u2028f"}}}
	require.Equal(t, `error: a\nb\t\x1b[31m`+"\n  hint: c\\rd\n"+`note: e\u2028f`+"\n", printed(t, list, nil, Options{}))
}

type fullDisk struct{}

var errFull = errors.New("disk full")

func (fullDisk) Write([]byte) (int, error) { return 0, errFull }

func TestReturnsTheErrorOfTheWriter(t *testing.T) {
	long := List{{Text: strings.Repeat("a", 10_000)}, {Text: "b"}}
	require.ErrorIs(t, Print(fullDisk{}, long, nil, Options{}), errFull)
	require.ErrorIs(t, Print(fullDisk{}, long[1:], nil, Options{}), errFull)
}

func TestAnyFileAtAnyPlaceIsShownWithoutControlCharacters(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		content := rapid.OneOf(rapid.SliceOf(rapid.Byte()), rapid.Map(rapid.StringN(0, 400, -1), func(s string) []byte { return []byte(s) })).Draw(t, "content")
		place := Place{"f", rapid.IntRange(-1, 5).Draw(t, "line"), rapid.IntRange(-1, 500).Draw(t, "column")}
		text := rapid.String().Draw(t, "text")
		out := printed(t, List{{Place: place, Text: text, Hint: text}}, Sources{"f": content}, Options{})
		require.True(t, utf8.ValidString(out))
		for _, r := range out {
			require.True(t, unicode.IsPrint(r) || r == '\n' || r == '\t', "%q", r)
		}
		for line := range strings.Lines(out) {
			if strings.HasSuffix(line, "^\n") && strings.Trim(line, " \t^\n") == "" {
				require.LessOrEqual(t, len(line), 2+3+room+2)
			}
		}
	})
}

func TestWarningsStandInTheOrderOfThePaper(t *testing.T) {
	list := List{
		{Severity: Warning, Check: "b", ID: "1", Text: "x"}, {Check: "a"},
		{Severity: Warning, Check: "a", ID: "2", Text: "x"}, {Severity: Warning, Check: "a", ID: "1", Text: "y"},
		{Severity: Warning, Check: "a", ID: "1", Text: "x"},
	}
	require.Equal(t, 1, list.Errors())
	var order []string
	for _, p := range list.Warnings() {
		order = append(order, p.Check+p.ID+p.Text)
	}
	require.Equal(t, []string{"a1x", "a1y", "a2x", "b1x"}, order)
}

func TestColoursTheSeverityAndTheCaret(t *testing.T) {
	sources := Sources{"a": []byte("\tone\n")}
	list := List{
		{Place: Place{"a", 1, 2}, Text: "it fails", Hint: "mend it", Also: &Related{Place: Place{"a", 1, 1}, Text: "it stands here"}},
		{Severity: Warning, Place: Place{"a", 1, 4}, Text: "it is odd"},
		{Severity: Warning, Place: Place{"b", 1, 1}, Text: "it is not held"},
	}
	require.Equal(t, "a:1:2: \x1b[1;31merror\x1b[0m: it fails\n  \tone\n  \t\x1b[1;31m^\x1b[0m\n  hint: mend it\n"+
		"a:1:1: note: it stands here\n  \tone\n  ^\n"+
		"a:1:4: \x1b[1;33mwarning\x1b[0m: it is odd\n  \tone\n  \t  \x1b[1;33m^\x1b[0m\n"+
		"b:1:1: \x1b[1;33mwarning\x1b[0m: it is not held\n", printed(t, list, sources, Options{Colour: true}))
	plain := printed(t, list, sources, Options{})
	require.NotContains(t, plain, "\x1b")
	bare := strings.NewReplacer(plainText, "", boldRed, "", boldYellow, "").Replace(printed(t, list, sources, Options{Colour: true}))
	require.Equal(t, plain, bare)
}

func TestATextCannotBringItsOwnColour(t *testing.T) {
	require.Equal(t, "\x1b[1;31merror\x1b[0m: \\x1b[32mgreen\n", printed(t, List{{Text: "\x1b[32mgreen"}}, nil, Options{Colour: true}))
}
