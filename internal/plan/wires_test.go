package plan

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// cutTo sets the length of the first wire and plans it.
func cutTo(t *testing.T, h *harness.Harness, length units.Length) Wire {
	h.Job.LengthIs, h.Wires[0].Given = harness.LengthCut, length
	h.Connectors[0].Node = ""
	rows, _, problems := wireRows(h)
	require.Zero(t, problems.Errors(), "%v", problems)
	return rows[0]
}

func TestWireRow(t *testing.T) {
	h := twoEnds()
	w := &h.Wires[0]
	w.At.Line = 7
	w.A.Trim, w.B.Stage, w.B.Note, w.Note = 10*mm, harness.StageBoard, "white cavity", "keep clear"
	rows, _, problems := wireRows(h)
	require.Empty(t, problems)
	row := rows[0]
	// need 1018 mm; (1018 + 1) / 0.999 = 1020.02.. mm, cut 1021 mm: 1011 mm between the finished ends
	require.Equal(t, int64(1_021_000), row.CutUM)
	require.Equal(t, int64(1_000_000), row.FinishedUM)
	require.Equal(t, "board", row.Status)
	require.Equal(t, "J1:1", row.From)
	require.Equal(t, "P2:1", row.To)
	require.Equal(t, "laser", row.Method)
	require.Equal(t, int64(1000), row.HeightUM)
	require.Equal(t, "W101", row.Legend)
	require.Equal(t, End{At: "J1:1", Stage: "bench", StripUM: 4000, TrimUM: 10_000, Contact: "S22", Legend: "W101 J1:1>P2:1"}, row.A)
	require.Equal(t, End{At: "P2:1", Stage: "board", Contact: "S22", Legend: "W101 P2:1>J1:1", Note: "white cavity", board: "strip 4 mm"}, row.B)
	require.Equal(t, "keep clear", row.Note)
	require.Equal(t, 7, row.Place.Line)
	require.False(t, row.Turned)
	// 14 and 4 characters of 0.75 mm. Wanted places 25 mm and 1011 - 25 - 10.5 mm; clear 940 - 2 x 3 mm in three gaps.
	require.Equal(t, []Mark{
		{Text: "W101 J1:1>P2:1", AtUM: 35_000, WidthUM: 10_500, End: "a"},
		{Text: "W101", AtUM: 35_000 + 10_500 + 311_333, WidthUM: 3000, End: ""},
		{Text: "W101", AtUM: 35_000 + 10_500 + 311_333 + 3000 + 311_333, WidthUM: 3000, End: ""},
		{Text: "W101 P2:1>J1:1", AtUM: 985_500, WidthUM: 10_500, End: "b"},
	}, row.Marks)
}

func TestTurnedWhereEndBLeads(t *testing.T) {
	h := twoEnds()
	h.Line.Leading = "b"
	rows, _, _ := wireRows(h)
	require.True(t, rows[0].Turned)
}

func TestLadderOfMarks(t *testing.T) {
	// A keep-out at each end: strip 4, barrel 5, margin 3 mm, and covered.
	cases := []struct {
		name     string
		length   units.Length
		covered  units.Length // at either end
		mark     string
		method   string
		height   int64
		a        string
		legend   string
		marks    int
		warnings int
	}{
		{"unmarked", 75 * mm, 0, "full", "none", 0, "", "", 0, 0},
		{"short", 76 * mm, 0, "full", "laser", 1000, "", "W101", 1, 0},
		{"short, ends asked for", 177 * mm, 0, "ends", "laser", 1000, "", "W101", 1, 0},
		{"short, smaller height", 76 * mm, 24600, "full", "laser", 800, "", "W101", 1, 0},
		{"short, no room", 76 * mm, 25 * mm, "full", "sleeve", 0, "", "W101", 0, 1},
		{"ends", 178 * mm, 0, "full", "laser", 1000, "W101 J1:1>P2:1", "W101", 2, 0},
		{"smaller height", 178 * mm, 65 * mm, "full", "laser", 800, "W101 J1:1>P2:1", "W101", 2, 2},
		{"shorter legend", 178 * mm, 71 * mm, "full", "laser", 1000, "W101", "W101", 2, 2},
		{"tag", 178 * mm, 77 * mm, "full", "sleeve", 0, "", "W101", 0, 1},
		{"no middle marks", 5 * units.Metre, 0, "ends", "laser", 1000, "W101 J1:1>P2:1", "", 2, 0},
		{"no marks", 5 * units.Metre, 0, "none", "none", 0, "", "", 0, 0},
		{"beyond the window", 5 * units.Metre, 100 * mm, "ends", "laser", 1000, "W101 J1:1>P2:1", "", 2, 2},
	}
	for _, c := range cases {
		h := twoEnds()
		h.Job.LengthIs, h.Wires[0].Given, h.Connectors[0].Node = harness.LengthCut, c.length, ""
		h.Wires[0].Mark, h.Wires[0].A.Covered, h.Wires[0].B.Covered = c.mark, c.covered, c.covered
		rows, _, problems := wireRows(h)
		require.Zero(t, problems.Errors(), c.name)
		require.Len(t, problems, c.warnings, "%s: %v", c.name, problems)
		row := rows[0]
		require.Equal(t, c.method, row.Method, c.name)
		require.Equal(t, c.height, row.HeightUM, c.name)
		require.Equal(t, c.a, row.A.Legend, c.name)
		require.Equal(t, c.legend, row.Legend, c.name)
		require.Len(t, row.Marks, c.marks, c.name)
	}
}

func TestEndMarksThatDoNotFitFallBackToTheMiddle(t *testing.T) {
	h := twoEnds()
	h.Marks.EndLegend, h.Marks.Shorter = "{wire} {here}>{there} {job} {part} {revision}", nil
	h.Marks.CentredBelow = 100 * mm
	h.Wires[0].A.Covered, h.Wires[0].B.Covered = 30*mm, 30*mm
	h.Job.LengthIs, h.Wires[0].Given, h.Connectors[0].Node = harness.LengthCut, 110*mm, ""
	rows, _, problems := wireRows(h)
	require.Equal(t, []Mark{{Text: "W101", AtUM: 53_500, WidthUM: 3000, End: ""}}, rows[0].Marks)
	require.Empty(t, rows[0].A.Legend)
	require.Equal(t, "W101", rows[0].Legend)
	require.Len(t, problems, 1)
	require.Equal(t, `wire "W101" is marked once, in the middle: its end marks do not fit on 110 mm between keep-outs of 42 mm at a and 42 mm at b`,
		problems[0].Text)
}

func TestOneMarkServesBothEndsWhereTheirTextIsTheSame(t *testing.T) {
	h := twoEnds()
	h.Marks.EndLegend, h.Marks.CentredBelow = "{job}", 100*mm
	// Windows of 12 to 76 mm and of 40 - 6 to 104 - 6 mm from end a meet; 8 characters of 0.75 mm.
	row := cutTo(t, h, 116*mm)
	require.Equal(t, []Mark{{Text: "MOR-0412", AtUM: 55_000, WidthUM: 6000, End: ""}}, row.Marks)
	require.Equal(t, "MOR-0412", row.A.Legend)
	require.Equal(t, "MOR-0412", row.B.Legend)
	require.Len(t, cutTo(t, h, 178*mm).Marks, 2)
}

func TestMarkBehindALongKeepOut(t *testing.T) {
	h := twoEnds()
	h.Wires[0].B.Covered, h.Wires[0].B.Trim = 100*mm, 20*mm
	h.Job.LengthIs, h.Wires[0].Given, h.Connectors[0].Node = harness.LengthCut, 2000*mm, ""
	rows, _, problems := wireRows(h)
	require.Len(t, problems, 1)
	require.Equal(t, `wire "W101" has no place for its mark within 76 mm of end b: the keep-out takes 112 mm, and the mark stands right behind it`,
		problems[0].Text)
	last := rows[0].Marks[len(rows[0].Marks)-1]
	require.Equal(t, int64(2_000_000-20_000-112_000-10_500), last.AtUM)
}

func TestSleeveByTypeIsToldOnce(t *testing.T) {
	h := twoEnds()
	h.WireTypes[0].Diameter = 600
	row := cutTo(t, h, 2000*mm)
	require.Equal(t, "sleeve", row.Method)
	require.Equal(t, "W101 J1:1>P2:1", row.A.Legend)
	require.Empty(t, row.Marks)
	_, _, problems := wireRows(h)
	require.Len(t, problems, 2)
	require.Equal(t, "type-sleeve", problems[0].Check)
	require.Equal(t, "no sleeve that the job knows fits the 0.6 mm of type E22W", problems[1].Text)
	h.Sleeves[0].From = 500
	_, _, problems = wireRows(h)
	require.Len(t, problems, 1)
}

func TestMarksNeverStandInAKeepOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := twoEnds()
		upTo := func(name string, most int) units.Length { return units.Length(rapid.IntRange(0, most).Draw(t, name)) }
		w := &h.Wires[0]
		h.Job.LengthIs, w.Given, h.Connectors[0].Node = harness.LengthCut, 60*mm+upTo("length", 600_000), ""
		w.Mark = rapid.SampledFrom([]string{"full", "ends"}).Draw(t, "mark")
		w.A.Covered, w.B.Covered = upTo("covered", 90_000), upTo("covered", 90_000)
		w.A.Trim, w.B.Trim = upTo("trim", 20_000), upTo("trim", 20_000)
		rows, _, problems := wireRows(h)
		require.Zero(t, problems.Errors())
		row := rows[0]
		const held = 12_000 // strip, barrel and margin
		end := int64(w.A.Trim+w.A.Covered) + held
		for _, mark := range row.Marks {
			require.GreaterOrEqual(t, mark.AtUM, end)
			end = mark.AtUM + mark.WidthUM
		}
		if len(row.Marks) > 0 {
			require.LessOrEqual(t, end, row.CutUM-int64(w.B.Trim+w.B.Covered)-held)
		}
		require.Equal(t, row.Method == "none", w.Given.CeilTo(mm)-w.A.Trim-w.B.Trim < 76*mm)
		require.Equal(t, row.Method == "laser", len(row.Marks) > 0)
	})
}

func TestRowOrderOfTheFileDoesNotMatter(t *testing.T) {
	h := twoEnds()
	for _, id := range []string{"W10", "W9", "W100", "W011"} {
		w := h.Wires[0]
		w.ID = id
		h.Wires = append(h.Wires, w)
	}
	want, _, _ := wireRows(h)
	var ids []string
	for _, row := range want {
		ids = append(ids, row.ID)
	}
	require.Equal(t, []string{"W9", "W10", "W011", "W100", "W101"}, ids)
	rapid.Check(t, func(t *rapid.T) {
		shuffled := *h
		shuffled.Wires = rapid.Permutation(h.Wires).Draw(t, "order")
		got, _, _ := wireRows(&shuffled)
		require.Equal(t, want, got)
	})
}
