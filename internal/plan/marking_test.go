package plan

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// drawMarking draws how a job marks, and what stands in the way of its marks.
func drawMarking(t *rapid.T, h *harness.Harness) {
	upTo := func(name string, most int) units.Length { return units.Length(rapid.IntRange(0, most).Draw(t, name)) }
	h.Marks = harness.Marks{
		Legend: "{wire}", EndLegend: rapid.SampledFrom([]string{"{wire} {here}>{there}", "{wire}", "{job} {wire}"}).Draw(t, "legend"),
		Shorter: []string{"{wire}"}, First: 76 * mm, Wanted: upTo("wanted", 80_000), Interval: 100*mm + upTo("interval", 400_000),
		Gap: upTo("gap", 10_000), Margin: upTo("margin", 5000), UnmarkedBelow: upTo("unmarked", 90_000), CentredBelow: upTo("centred", 200_000),
		SleeveInterval: 914 * mm, SleeveLength: 15 * mm, Cores: rapid.SampledFrom([]string{"colour", "sleeves"}).Draw(t, "cores"),
		Reads: rapid.SampledFrom([]string{"one way", "from each end"}).Draw(t, "reads"), ConnectorLabel: "{connector}", HarnessLabel: "{part} {serial}",
	}
	h.Line.Leading = rapid.SampledFrom([]string{"a", "b"}).Draw(t, "leading")
	h.Line.Blind = [2]units.Length{upTo("blind", 60_000), upTo("blind", 60_000)}
	h.Line.TwoLines, h.Line.LinePitch, h.Line.LongestText = rapid.Bool().Draw(t, "two lines"), 1500, rapid.IntRange(3, 60).Draw(t, "longest")
	h.Sleeves = []harness.SleeveSize{{Part: "MOR-SL-1", From: 900, To: 4000}}
	for i := range h.Wires {
		w := &h.Wires[i]
		w.Mark = rapid.SampledFrom([]string{"full", "full", "ends", "none"}).Draw(t, "mark")
		w.A.Covered, w.B.Covered = upTo("covered", 90_000), upTo("covered", 90_000)
		if w.Cable == "" {
			w.A.Trim, w.B.Trim = upTo("trim", 20_000), upTo("trim", 20_000)
		}
	}
}

// TestNoMarkIsHiddenLostOrCrossed looks at every mark and sleeve of random jobs, from the harness and the finished plan alone.
func TestNoMarkIsHiddenLostOrCrossed(t *testing.T) {
	marks, sleeves := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		h := drawConstructs(t)
		drawMarking(t, h)
		p, problems := Make(h, nil)
		if problems.Errors() > 0 {
			t.Skip("such a job is refused")
		}
		byID := map[string]*harness.Wire{}
		for i := range h.Wires {
			byID[h.Wires[i].ID] = &h.Wires[i]
		}
		for _, w := range p.Wires {
			if given := byID[w.ID]; given != nil && w.onLine() {
				stripOf := func(e *harness.End) units.Length { return e.Strip + barrelFor(h, e) + e.Covered }
				checkMarks(t, h, w, [2]units.Length{given.A.Trim, given.B.Trim}, [2]units.Length{stripOf(&given.A), stripOf(&given.B)}, given.Mark)
			}
			marks += len(w.Marks)
		}
		for _, c := range p.Cables {
			if c.onLine() {
				checkMarks(t, h, *asWire(&c), [2]units.Length{units.Length(c.A.JacketOffUM), units.Length(c.B.JacketOffUM)}, [2]units.Length{}, "full")
			}
		}
		sleeves += len(p.Sleeves)
		checkSetups(t, p)
	})
	require.Positive(t, marks)
	require.Positive(t, sleeves)
}

// barrelFor looks the depth of a barrel up in the job.
func barrelFor(h *harness.Harness, e *harness.End) units.Length {
	for _, c := range h.Contacts {
		if c.ID == e.Contact && e.Kind == harness.EndCavity {
			return c.Barrel
		}
	}
	for _, s := range h.Terminals {
		if s.ID == e.Terminal && e.Terminal != "" {
			return s.Barrel
		}
	}
	return 0
}

// checkMarks holds the marks of a piece to what its ends leave free. Splices and terminals may strip more than the end says.
func checkMarks(t *rapid.T, h *harness.Harness, w Wire, off, covered [2]units.Length, mark string) {
	blind := h.Line.Blind
	if h.Line.Leading == "b" {
		slices.Reverse(blind[:])
	}
	low := max(off[0]+covered[0]+h.Marks.Margin, blind[0])
	high := units.Length(w.CutUM) - max(off[1]+covered[1]+h.Marks.Margin, blind[1])
	last := units.Length(0)
	for i, m := range w.Marks {
		at, width := units.Length(m.AtUM), units.Length(m.WidthUM)
		require.GreaterOrEqual(t, at, low, "%s: mark %d stands in the keep-out of end a", w.ID, i)
		require.LessOrEqual(t, at+width, high, "%s: mark %d stands in the keep-out of end b", w.ID, i)
		require.LessOrEqual(t, len([]rune(m.Text)), h.Line.LongestText)
		if i > 0 {
			require.GreaterOrEqual(t, at-last, h.Marks.Gap, "%s: marks %d and %d stand over each other", w.ID, i-1, i)
			if mark == "full" {
				require.LessOrEqual(t, at-units.Length(w.Marks[i-1].AtUM), h.Marks.Interval, w.ID)
			}
		}
		last = at + width
		lead := fromLeading(&w, m, h.Line.Leading)
		require.True(t, lead == m.AtUM || lead == w.CutUM-m.AtUM-m.WidthUM)
		require.GreaterOrEqual(t, lead, int64(h.Line.Blind[0]), "the marker reaches it")
		require.Equal(t, h.Line.Leading == "b" && (m.End == "" || h.Marks.Reads == "one way") || h.Marks.Reads == "from each end" && m.End == "b", m.Turned)
	}
	if finished := units.Length(w.CutUM) - off[0] - off[1]; mark != "none" && finished >= h.Marks.UnmarkedBelow {
		require.NotEqual(t, "none", w.Method, "%s is told apart by nothing", w.ID)
	}
}

// checkSetups asks that every piece of the run is set up for, and that the first piece of a reel carries its marks.
func checkSetups(t *rapid.T, p Plan) {
	pieces := 0
	for _, s := range p.Setups {
		pieces += s.Pieces
		require.NotEmpty(t, s.Lengths)
		require.True(t, slices.IsSorted(s.First.StartsUM), "they leave the line one after another")
		if len(s.Heights) > 0 {
			require.NotEmpty(t, s.First.Texts, "a reel with marks starts with a marked piece")
		}
	}
	require.Equal(t, len(p.Pieces), pieces)
	for _, s := range p.Sleeves {
		require.Equal(t, len(p.Packet.Units), s.Count)
		require.NotEmpty(t, s.Text)
		require.GreaterOrEqual(t, s.FromUM, int64(0))
	}
}

func TestTwoLinesBeforeAShorterLegend(t *testing.T) {
	h := twoEnds()
	h.Line.TwoLines, h.Line.LinePitch, h.WireTypes[0].Diameter = true, 1500, 2700
	h.Wires[0].A.Covered, h.Wires[0].B.Covered = 64*mm, 70*mm // 20 mm stay free; two lines of 9 and 4 characters of 0.6 mm fit twice
	row := cutTo(t, h, 178*mm)
	require.Equal(t, int64(800), row.HeightUM)
	require.Equal(t, []string{"W101", "J1:1>P2:1"}, row.Marks[0].Lines)
	require.Equal(t, int64(5400), row.Marks[0].WidthUM)
	require.Equal(t, "W101 J1:1>P2:1", row.A.Legend)
	h.Line.TwoLines = false
	require.Equal(t, "W101", cutTo(t, h, 178*mm).A.Legend)
}

func TestTextsBreakWhereTheLongerLineIsShortest(t *testing.T) {
	for text, want := range map[string][2]string{
		"W101 J1:1>P2:1": {"W101", "J1:1>P2:1"}, "W101": {"W101", ""}, "a b c d": {"a b", "c d"}, "aa b": {"aa", "b"}, "é ü": {"é", "ü"},
	} {
		first, second := twoLines(text)
		require.Equal(t, want, [2]string{first, second}, text)
	}
}

func TestTextsReadFromTheirEnds(t *testing.T) {
	turned := func(leading, reads string) []bool {
		h := twoEnds()
		h.Line.Leading, h.Marks.Reads = leading, reads
		var all []bool
		for _, m := range cutTo(t, h, 1000*mm).Marks {
			all = append(all, m.Turned)
		}
		return all
	}
	require.Equal(t, []bool{false, false, false, false}, turned("a", "one way"))
	require.Equal(t, []bool{true, true, true, true}, turned("b", "one way"))
	require.Equal(t, []bool{false, false, false, true}, turned("a", "from each end"))
	require.Equal(t, []bool{false, true, true, true}, turned("b", "from each end"))
}

func TestTheMarkerIsBlindAtItsOwnEnds(t *testing.T) {
	h := twoEnds()
	h.Line.Blind = [2]units.Length{50 * mm, 30 * mm}
	require.Equal(t, int64(50_000), cutTo(t, h, 1000*mm).Marks[0].AtUM)
	h.Line.Leading = "b"
	marks := cutTo(t, h, 1000*mm).Marks
	last := marks[len(marks)-1]
	require.Equal(t, int64(30_000), marks[0].AtUM)
	require.Equal(t, int64(950_000), last.AtUM+last.WidthUM)
}
