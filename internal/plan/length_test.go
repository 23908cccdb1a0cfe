package plan

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

const mm = units.Millimetre

// twoEnds is a harness with one wire from J1 on N1 to P2 on N3, by way of N2: 1000 mm of board.
func twoEnds() *harness.Harness {
	end := func(connector string) harness.End {
		return harness.End{Connector: connector, Cavity: "1", Contact: "S22", Stage: harness.StageBench, Strip: 4 * mm}
	}
	return &harness.Harness{
		Job: harness.Job{Number: "MOR-0412", Part: "MOR-LM-210", Revision: "B", Units: []string{"0041", "0042"}, Serials: true},
		Marks: harness.Marks{
			Legend: "{wire}", EndLegend: "{wire} {here}>{there}", First: 76 * mm, Wanted: 25 * mm, Interval: 381 * mm, Gap: 5 * mm,
			Margin: 3 * mm, Shorter: []string{"{wire}"}, UnmarkedBelow: 76 * mm, CentredBelow: 178 * mm,
			SleeveInterval: 914 * mm, SleeveLength: 15 * mm,
		},
		Line: harness.Line{
			Methods: []harness.Method{harness.MethodLaser, harness.MethodInk}, Inks: []string{"black", "white"}, Leading: "a",
			Step: mm, ShortFixed: mm, ShortShare: 1000, Shortest: 40 * mm, Longest: 60 * units.Metre,
			ThinnestDiameter: 700, ThickestDiameter: 7 * mm, Heights: []units.Length{800, 1000, 1300, 1800, 2500},
			HeightToDiameter: 900, PitchToHeight: 750,
		},
		Policy: harness.Policy{GivenBeyond: 100 * mm},
		Paper:  harness.Paper{Words: inEnglish()},
		WireTypes: []harness.WireType{
			{ID: "E22W", AWG: "22", Colour: "WH", Diameter: 1270, Laser: harness.LaserYes},
		},
		Sleeves:  []harness.SleeveSize{{Part: "MOR-SL-1", From: 900, To: 1300}},
		Contacts: []harness.Contact{{ID: "S22", Kind: "crimp", Barrel: 5 * mm, Strip: 4 * mm, InsertTool: "insertion tool 22"}},
		Connectors: []harness.Connector{
			{ID: "J1", Node: "N1", Contact: "S22", Cavities: []harness.Cavity{{Name: "1"}}},
			{ID: "P2", Node: "N3", Contact: "S22", Cavities: []harness.Cavity{{Name: "1"}}},
		},
		Wires: []harness.Wire{{ID: "W101", Type: "E22W", A: end("J1"), B: end("P2"), Mark: "full"}},
		Board: harness.Board{
			Nodes:    []harness.Node{{ID: "N1"}, {ID: "N2", X: 300 * mm, Y: 400 * mm}, {ID: "N3", X: 800 * mm, Y: 400 * mm}},
			Segments: []harness.Segment{{From: "N1", To: "N2"}, {From: "N2", To: "N3"}},
		},
	}
}

// measureFirst measures the first wire of a harness.
func measureFirst(h *harness.Harness) (measured, problem.List) {
	return newMeasurer(h).measure(&h.Wires[0])
}

func TestLengthFromTheBoardInEveryTerm(t *testing.T) {
	h := twoEnds()
	h.Connectors[0].Tail, h.Connectors[1].Tail = 120*mm, 80*mm
	h.Connectors[0].ToBarrel, h.Connectors[1].ToBarrel = 6*mm, -2*mm
	h.Allowance = harness.Allowance{TrimBack: 3 * mm, Loop: 50 * mm}
	w := &h.Wires[0]
	w.A.Retermination, w.B.Retermination = 2, 1
	w.A.Trim, w.B.Trim = 10*mm, 20*mm
	w.B.TailExtra = 15 * mm
	got, problems := measureFirst(h)
	require.Empty(t, problems)
	require.Equal(t, harness.LengthBoard, got.status)
	require.Equal(t, []string{"N1", "N2", "N3"}, got.way.nodes)
	require.Equal(t, 1200*mm, got.finished)
	// need 1328 mm; (1328 + 1) / 0.999 = 1330.330330.. mm, in whole micrometres 1330.331 mm
	require.Equal(t, []Term{
		{"route", 1_000_000}, {"tail_a", 120_000}, {"tail_b", 80_000}, {"barrel_a", 6000}, {"barrel_b", -2000}, {"strip_a", 4000},
		{"strip_b", 4000}, {"retermination", 21_000}, {"trim", 30_000}, {"extra", 15_000}, {"loop", 50_000}, {"line", 2331}, {"rounding", 669},
	}, got.terms)
	require.Equal(t, 1331*mm, got.cut)
}

func TestOnlyCrimpContactsAreTerminatedAnew(t *testing.T) {
	h := twoEnds()
	h.Allowance.TrimBack = 3 * mm
	h.Wires[0].A.Retermination, h.Wires[0].B.Retermination = 2, 2
	h.Contacts = append(h.Contacts, harness.Contact{ID: "SD", Kind: "solder"})
	for _, c := range []struct {
		contact string
		want    int64
	}{{"S22", 28_000}, {"SD", 14_000}, {"", 14_000}} {
		h.Wires[0].B.Contact = c.contact
		got, problems := measureFirst(h)
		require.Empty(t, problems)
		require.Contains(t, got.terms, Term{"retermination", c.want}, c.contact)
	}
}

func TestGivenCutLengthGoesToTheNextStepAndNoFurther(t *testing.T) {
	h := twoEnds()
	h.Job.LengthIs = harness.LengthCut
	h.Connectors[1].Node = ""
	h.Wires[0].Given = 1431*mm + 200
	got, problems := measureFirst(h)
	require.Empty(t, problems)
	require.Equal(t, measured{cut: 1432 * mm, status: harness.LengthGiven, terms: []Term{{"given", 1_431_200}, {"rounding", 800}}}, got)
	h.Wires[0].Given = 1432 * mm
	got, _ = measureFirst(h)
	require.Equal(t, []Term{{"given", 1_432_000}}, got.terms)
}

func TestGivenFinishedLengthGetsTheEndTerms(t *testing.T) {
	h := twoEnds()
	h.Job.LengthIs = harness.LengthFinished
	h.Wires[0].Given = 1100 * mm
	got, problems := measureFirst(h)
	require.Empty(t, problems)
	require.Equal(t, 1100*mm, got.finished)
	// (1108 + 1) / 0.999 = 1110.110110.. mm
	require.Equal(t, []Term{{"given", 1_100_000}, {"strip_a", 4000}, {"strip_b", 4000}, {"line", 2111}, {"rounding", 889}}, got.terms)
	require.Equal(t, []string{"N1", "N2", "N3"}, got.way.nodes)
}

func TestGivenLengthIsComparedWithTheBoard(t *testing.T) {
	cases := []struct {
		given    units.Length
		is       harness.LengthIs
		severity problem.Severity
		text     string
	}{
		{999 * mm, harness.LengthCut, problem.Error,
			`wire "W101" is given 999 mm, and from plane to plane over the board it is 1000 mm: route 1000 mm`},
		{999 * mm, harness.LengthFinished, problem.Error,
			`wire "W101" is given 999 mm, and from plane to plane over the board it is 1000 mm: route 1000 mm`},
		{1010 * mm, harness.LengthCut, problem.Warning,
			"wire \"W101\" is given 1010 mm, and with its ends, allowances and the line's short error it needs 1011 mm (1000 mm from plane to plane): " +
				"route 1000 mm, strip a 4 mm, strip b 4 mm, line 2.011 mm, rounding 0.989 mm"},
		{1011 * mm, harness.LengthCut, 0, ""}, // (1008 + 1) / 0.999 = 1010.01 mm, in steps 1011 mm
		{1061 * mm, harness.LengthCut, 0, ""},
		{1062 * mm, harness.LengthCut, problem.Warning,
			"wire \"W101\" is given 1062 mm, and the board asks for 1011 mm, more than 50 mm less: " +
				"route 1000 mm, strip a 4 mm, strip b 4 mm, line 2.011 mm, rounding 0.989 mm"},
		{1000 * mm, harness.LengthFinished, 0, ""},
		{1050 * mm, harness.LengthFinished, 0, ""},
		{1051 * mm, harness.LengthFinished, problem.Warning,
			"wire \"W101\" is given 1051 mm, and the board asks for 1000 mm, more than 50 mm less: route 1000 mm"},
	}
	for _, c := range cases {
		h := twoEnds()
		h.Job.LengthIs, h.Wires[0].Given, h.Policy.GivenBeyond = c.is, c.given, 50*mm
		got, problems := measureFirst(h)
		if c.is == harness.LengthFinished {
			require.Equal(t, c.given, got.finished)
		} else {
			require.Equal(t, 1000*mm, got.finished)
		}
		if c.text == "" {
			require.Empty(t, problems)
			continue
		}
		require.Len(t, problems, 1)
		require.Equal(t, c.text, problems[0].Text)
		require.Equal(t, c.severity, problems[0].Severity)
		require.Equal(t, "given-length", problems[0].Check)
	}
}

func TestLengthsThatCannotBeCut(t *testing.T) {
	cases := []struct {
		change func(h *harness.Harness)
		check  string
		text   string
		errors int
	}{
		{func(h *harness.Harness) { h.Connectors[1].Node = "" }, "no-length",
			`wire "W101" has no length: none is given, and connector P2 stands on no node`, 1},
		{func(h *harness.Harness) { h.Board.Segments = h.Board.Segments[:1] }, "unreachable",
			`wire "W101" has no way over the board: no segments join node N1 to node N3: N1 stands with N2, N3 stands alone`, 1},
		{func(h *harness.Harness) { h.Line.Longest = 1010 * mm }, "cut-length",
			`wire "W101" is to be cut to 1011 mm, and the line cuts at most 1010 mm`, 1},
		{func(h *harness.Harness) { h.Line.Shortest = 1012 * mm }, "cut-length",
			`wire "W101" is to be cut to 1011 mm by hand, the line cuts no less than 1012 mm`, 0},
		{func(h *harness.Harness) { h.Connectors[0].ToBarrel = -1100 * mm }, "cut-length",
			`wire "W101" comes out -91 mm long`, 1},
		{func(h *harness.Harness) { h.Wires[0].Given = mm }, "length-is", `the length of wire "W101" may be cut or finished`, 1},
	}
	for _, c := range cases {
		h := twoEnds()
		c.change(h)
		_, problems := measureFirst(h)
		require.Len(t, problems, 1, c.text)
		require.Equal(t, c.text, problems[0].Text)
		require.Equal(t, c.check, problems[0].Check)
		require.Equal(t, "W101", problems[0].ID)
		require.Equal(t, c.errors, problems.Errors(), c.text)
	}
}

func TestGivenLengthNeedsNoSegments(t *testing.T) {
	h := twoEnds()
	h.Job.LengthIs, h.Wires[0].Given, h.Board.Segments = harness.LengthCut, 500*mm, nil
	got, problems := measureFirst(h)
	require.Empty(t, problems)
	require.Equal(t, 500*mm, got.cut)
	require.Empty(t, got.way.nodes)
}

func TestViaLeadsTheWire(t *testing.T) {
	h := twoEnds()
	h.Board.Nodes = append(h.Board.Nodes, harness.Node{ID: "N4", X: 300 * mm, Y: 500 * mm})
	h.Board.Segments = append(h.Board.Segments, harness.Segment{From: "N2", To: "N4"})
	h.Wires[0].Via = []string{"N4"}
	got, problems := measureFirst(h)
	require.Empty(t, problems)
	require.Equal(t, []string{"N1", "N2", "N4", "N2", "N3"}, got.way.nodes)
	require.Equal(t, 1200*mm, got.finished)
	require.Equal(t, []string{"N4"}, h.Wires[0].Via, "the harness is left as it was")
}

func TestLineThatCannotCut(t *testing.T) {
	h := twoEnds()
	h.Line.Step, h.Line.ShortShare = 0, wholeShare
	rows, _, problems := wireRows(h)
	require.Empty(t, rows)
	require.Equal(t, 2, problems.Errors())
}

// shortBy returns the shortest piece that a line may make of a cut length, in millionths of a micrometre.
func shortBy(length units.Length, line *harness.Line) int64 {
	return int64(length-line.ShortFixed)*int64(wholeShare) - int64(line.ShortShare)*int64(length)
}

func TestCutLengthIsTheShortestThatIsSurelyLong(t *testing.T) {
	termNames := []string{"route", "tail_a", "tail_b", "barrel_a", "barrel_b", "strip_a", "strip_b", "retermination", "trim", "extra",
		"loop", "line", "rounding"}
	rapid.Check(t, func(t *rapid.T) {
		h := twoEnds()
		upTo := func(name string, most int) units.Length { return units.Length(rapid.IntRange(0, most).Draw(t, name)) }
		h.Line.Step = 1 + upTo("step", 10_000)
		h.Line.ShortFixed, h.Line.ShortShare = upTo("fixed", 5000), units.Share(upTo("share", 50_000))
		h.Allowance = harness.Allowance{TrimBack: upTo("trim back", 5000), Loop: upTo("loop", 100_000)}
		w := &h.Wires[0]
		for i, end := range []*harness.End{&w.A, &w.B} {
			h.Connectors[i].Tail = upTo("tail", 200_000)
			h.Connectors[i].ToBarrel = upTo("to barrel", 20_000) - 10_000
			end.Strip, end.Trim, end.TailExtra = upTo("strip", 9000), upTo("trim", 50_000), upTo("extra", 50_000)
			end.Retermination = int(upTo("retermination", 3))
		}
		h.Board.Segments[0].Length = 1 + upTo("segment", 5_000_000)
		got, problems := measureFirst(h)
		require.Empty(t, problems)

		sum, need, next := int64(0), int64(0), 0
		for _, term := range got.terms {
			require.NotZero(t, term.UM)
			for termNames[next] != term.Name {
				next++
				require.Less(t, next, len(termNames), "terms in the published order")
			}
			next++
			sum += term.UM
			if term.Name != "line" && term.Name != "rounding" {
				need += term.UM
			}
		}
		require.Equal(t, int64(got.cut), sum)
		require.Zero(t, got.cut%h.Line.Step)
		require.GreaterOrEqual(t, shortBy(got.cut, &h.Line), need*int64(wholeShare))
		require.Less(t, shortBy(got.cut-h.Line.Step, &h.Line), need*int64(wholeShare), "one step less may be too short")

		grown := []*units.Length{&w.A.Strip, &w.B.Trim, &w.A.TailExtra, &h.Connectors[0].Tail, &h.Connectors[1].ToBarrel,
			&h.Allowance.Loop, &h.Allowance.TrimBack, &h.Line.ShortFixed, &h.Board.Segments[0].Length}
		*rapid.SampledFrom(grown).Draw(t, "grown") += upTo("growth", 30_000)
		longer, _ := measureFirst(h)
		require.GreaterOrEqual(t, longer.cut, got.cut, "monotone in every term")
	})
}

func TestSurelyLongAtTheLimits(t *testing.T) {
	line := harness.Line{ShortFixed: mm, ShortShare: wholeShare - 1}
	require.Equal(t, units.Length(2_000_000_000), surelyLong(mm, &line), "a whole million to one")
	line.ShortShare = 1
	require.Equal(t, units.Length(9_000_009_001_010), surelyLong(9_000_000_000_000, &line), "no product leaves 64 bits")
}

// By hand: 9 m with 0.3 % and 1 mm: (9000 + 1) / 0.997 = 9028.084... mm, so 9029 mm, and 9030 mm in steps of 5 mm;
// 9029 x 0.997 - 1 = 9000.913 mm, 9028 x 0.997 - 1 = 8999.916 mm. Without the millimetre: 9000 / 0.997 = 9027.08... mm.
func TestNineMetresOnALineThatIsThreeThousandthsShort(t *testing.T) {
	for _, c := range []struct{ fixed, step, want units.Length }{{mm, mm, 9029 * mm}, {mm, 5 * mm, 9030 * mm}, {0, mm, 9028 * mm}, {0, 1, 9_027_082}} {
		h := twoEnds()
		h.Board.Segments[0].Length, h.Board.Segments[1].Length = 4000*mm, 5000*mm
		h.Wires[0].A.Strip, h.Wires[0].B.Strip = 0, 0
		h.Line.ShortFixed, h.Line.ShortShare, h.Line.Step = c.fixed, 3000, c.step
		got, problems := measureFirst(h)
		require.Empty(t, problems)
		require.Equal(t, 9000*mm, got.finished)
		require.Equal(t, c.want, got.cut)
	}
}

func TestGivenLengthOfAWireThatComesReadyIsComparedWithTheWay(t *testing.T) {
	h := twoEnds()
	h.Job.LengthIs, h.Wires[0].Given, h.Wires[0].Supply = harness.LengthCut, 999*mm, harness.SupplyBought
	_, problems := measureFirst(h)
	require.Len(t, problems, 1)
	require.Equal(t, problem.Error, problems[0].Severity)
	h.Wires[0].Given = 1000 * mm
	_, problems = measureFirst(h)
	require.Empty(t, problems)
}
