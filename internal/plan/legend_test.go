package plan

import (
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/harness"
)

func TestLegendsNameBothEnds(t *testing.T) {
	h := twoEnds()
	h.Job.Units = h.Job.Units[:1]
	h.Wires[0].B.Cavity = "07"
	h.Wires[0].Note = "keep clear of heater"
	cases := []struct {
		template string
		want     legends
	}{
		{"{wire} {here}>{there}", legends{"W101 J1:1>P2:07", "W101 P2:07>J1:1", "W101 J1:1>P2:07"}},
		{"{job}/{part}/{revision}/{serial}", legends{"MOR-0412/MOR-LM-210/B/0041", "MOR-0412/MOR-LM-210/B/0041", "MOR-0412/MOR-LM-210/B/0041"}},
		{"{type}-{awg} ({note})", legends{"E22W-22 (keep clear of heater)", "E22W-22 (keep clear of heater)", "E22W-22 (keep clear of heater)"}},
		{"LOOM", legends{"LOOM", "LOOM", "LOOM"}},
	}
	for _, c := range cases {
		h.Marks.Legend, h.Marks.EndLegend = c.template, c.template
		require.Empty(t, legendProblems(h), c.template)
		require.Equal(t, c.want, ladderOfFirst(h)[0], c.template)
	}
}

// ladderOfFirst returns the texts of the first wire, of the first type.
func ladderOfFirst(h *harness.Harness) []legends {
	rules, w, t := legendRulesOf(h), &h.Wires[0], &h.WireTypes[0]
	return rules.ladder(legendWords{w.ID, w.A.Written(), w.B.Written(), t.ID, t.AWG, w.Note})
}

func TestLegendClosesUpAnEmptyField(t *testing.T) {
	h := twoEnds()
	h.Marks.EndLegend = "{wire} {note} {here}"
	require.Equal(t, "W101 J1:1", ladderOfFirst(h)[0].a)
}

func TestLegendFillsInNoFieldTwice(t *testing.T) {
	h := twoEnds()
	h.Wires[0].Note, h.Marks.Legend = "{wire}", "{note}"
	require.Equal(t, "{wire}", ladderOfFirst(h)[0].middle)
}

func TestShorterLegendsOnlyEverShorten(t *testing.T) {
	h := twoEnds()
	h.Marks.Shorter = []string{"{wire} {here}", "{wire}", "{wire} {here}", "{note}"}
	require.Equal(t, []legends{
		{"W101 J1:1>P2:1", "W101 P2:1>J1:1", "W101"},
		{"W101 J1:1", "W101 P2:1", "W101"},
		{"W101", "W101", "W101"},
	}, ladderOfFirst(h))
}

func TestLegendsThatCannotBeFilledIn(t *testing.T) {
	serials := func(h *harness.Harness) { h.Job.Units = h.Job.Units[:1] }
	cases := []struct {
		template string
		change   func(h *harness.Harness)
		check    string
		text     string
	}{
		{"{serial}", nil, "serial-legend", `the legend "{serial}" holds {serial}, and the job builds 2 units`},
		{"{serial}", func(h *harness.Harness) { serials(h); h.Job.Serials = false }, "serial-legend",
			`the legend "{serial}" holds {serial}, and the job gives no serials`},
		{"{wier}", nil, "legend-field", `the legend "{wier}" has an unknown field {wier}`},
		{"{wire", nil, "legend-field", `the legend "{wire" has a brace without its partner`},
		{"wire}", nil, "legend-field", `the legend "wire}" has a brace without its partner`},
		{"{awg}", func(h *harness.Harness) { h.WireTypes[0].AWG, h.WireTypes[0].Section = "", 340_000 }, "legend-awg",
			`the legend "{awg}" holds {awg}, and wire type "E22W" is given in mm2`},
	}
	for _, c := range cases {
		for place := range 3 {
			h := twoEnds()
			h.Marks.Legend, h.Marks.EndLegend, h.Marks.Shorter = "{wire}", "{wire}", []string{"{wire}"}
			*[]*string{&h.Marks.Legend, &h.Marks.EndLegend, &h.Marks.Shorter[0]}[place] = c.template
			if c.change != nil {
				c.change(h)
			}
			_, _, problems := wireRows(h)
			require.Len(t, problems, 1, c.text)
			require.Equal(t, c.text, problems[0].Text)
			require.Equal(t, c.check, problems[0].Check)
			require.Equal(t, 1, problems.Errors())
		}
	}
}

func TestBlankLegendIsRefused(t *testing.T) {
	h := twoEnds()
	h.Marks.Legend = "{note}"
	_, _, problems := wireRows(h)
	require.Len(t, problems, 1)
	require.Equal(t, `a legend of wire "W101" comes out blank`, problems[0].Text)
	h.Wires[0].Mark = "none"
	_, _, problems = wireRows(h)
	require.Empty(t, problems)
}
