package plan

import (
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

// surveyLine is a line whose figures keep the arithmetic of the tests plain; they are ours.
func surveyLine() harness.Line {
	return harness.Line{
		Methods: []harness.Method{harness.MethodLaser, harness.MethodInk}, Inks: []string{"black", "white"}, Rack: 1, Leading: "a",
		Step: units.Millimetre, Shortest: 40 * units.Millimetre, Longest: 60 * units.Metre,
		ThinnestDiameter: 700, ThickestDiameter: 7000, Heights: []units.Length{800, 1000, 1300},
		HeightToDiameter: 900, PitchToHeight: 750, SetUpScrap: 100 * units.Millimetre,
		ChangeTime: harness.ChangeTime{Method: 40_000, Reel: 25_000, Ink: 8_000, Height: 2_000, Tray: 6_000, Load: 180_000},
	}
}

// surveyHarness returns a job without wires on a board of four nodes in a row; J2 stands left of J1, and X9 at its far end.
func surveyHarness() *harness.Harness {
	h := &harness.Harness{
		Job: harness.Job{
			Number: "MOR-0412", Title: "Ice-survey sled, instrument loom", Part: "MOR-LM-210", Revision: "B", Supersedes: "A",
			Issued: harness.Date{Year: 2026, Month: 11, Day: 20}, Units: []string{"0041", "0042", "0043"}, Serials: true,
			LengthIs: harness.LengthCut,
		},
		Marks: harness.Marks{
			Legend: "{wire}", EndLegend: "{wire} {here}>{there}", First: 76 * units.Millimetre, Wanted: 25 * units.Millimetre,
			Interval: 381 * units.Millimetre, Gap: 5 * units.Millimetre, Margin: 3 * units.Millimetre, Shorter: []string{"{wire}"},
			UnmarkedBelow: 76 * units.Millimetre, CentredBelow: 178 * units.Millimetre,
		},
		Line:   surveyLine(),
		Policy: harness.Policy{Home: "board-order", Order: "board", Units: "together", Batch: 2, GivenBeyond: 1000 * units.Metre},
		Tray:   harness.TrayRule{Wires: 60, Length: 2 * units.Metre},
		Paper:  harness.Paper{Size: "a4", Symbol: "matrix", Words: inEnglish()},
		Stocks: []harness.LabelStock{{ID: "letter-2x5", Paper: "letter"}, {ID: "a4-2x5", Paper: "a4", Columns: 2, Rows: 5}},
		Board:  harness.Board{ID: "FB-210"},
	}
	for i := range 4 {
		h.Board.Nodes = append(h.Board.Nodes, harness.Node{ID: fmt.Sprintf("N%d", i+1), X: units.Length(i) * 10 * units.Millimetre})
		if i > 0 {
			h.Board.Segments = append(h.Board.Segments, harness.Segment{From: fmt.Sprintf("N%d", i), To: fmt.Sprintf("N%d", i+1)})
		}
	}
	for i, id := range []string{"J2", "J1", "P1", "X9"} {
		h.Connectors = append(h.Connectors, harness.Connector{
			ID: id, Part: "MOR-CN-" + id, Title: "box " + id, Node: fmt.Sprintf("N%d", i+1), Contact: "S22", Seal: "sealing plug, size 22",
			Spare: "seal", Order: "listed",
		})
	}
	h.Contacts = []harness.Contact{{ID: "S22", Part: "MOR-CT-22S", Kind: "crimp", Strip: 4000, Barrel: 5000}}
	for _, w := range []harness.WireType{
		{ID: "E22W", Part: "MOR-CW-22-9", Colour: "WH", Laser: harness.LaserYes},
		{ID: "E22K", Part: "MOR-CW-22-0", Colour: "BK", Laser: harness.LaserNo, Ink: "white"},
		{ID: "E22Y", Part: "MOR-CW-22-4", Colour: "YE", Laser: harness.LaserNo, Ink: "black"},
	} {
		w.AWG, w.Name, w.Diameter, w.Insulation = "22", "hook-up wire", 1270, "ETFE"
		h.WireTypes = append(h.WireTypes, w)
	}
	return h
}

// addWire runs a wire between two connectors, each by its index, and opens a cavity for it at both.
func addWire(h *harness.Harness, id, wireType string, from, to int, length units.Length) {
	end := func(i int) harness.End {
		c := &h.Connectors[i]
		name := strconv.Itoa(len(c.Cavities) + 1)
		c.Cavities = append(c.Cavities, harness.Cavity{Name: name})
		return harness.End{Connector: c.ID, Cavity: name, Contact: "S22", Stage: harness.StageBench, Strip: 4000}
	}
	a := end(from)
	h.Wires = append(h.Wires, harness.Wire{ID: id, Type: wireType, A: a, B: end(to), Given: length, Mark: "full"})
}

// threeConnectors is a small job: J2 owns two types, J1 two, P1 none, X9 none.
func threeConnectors() *harness.Harness {
	h := surveyHarness()
	addWire(h, "W1", "E22W", 1, 0, 2500*units.Millimetre)
	addWire(h, "W2", "E22K", 0, 2, 3000*units.Millimetre)
	addWire(h, "W10", "E22K", 1, 2, 1500*units.Millimetre)
	addWire(h, "W9", "E22Y", 1, 3, 1500*units.Millimetre)
	h.Connectors[3].Cavities = append(h.Connectors[3].Cavities, harness.Cavity{Name: "2"})
	return h
}

func made(t require.TestingT, h *harness.Harness) Plan {
	p, problems := Make(h, nil)
	require.Zero(t, problems.Errors(), "%v", problems)
	return p
}

func TestMakePlansASmallJob(t *testing.T) {
	p := made(t, threeConnectors())
	require.Equal(t, []string{"J2", "J1"}, []string{p.Groups[0].Connector, p.Groups[1].Connector}, "homes by board order; P1 and X9 own nothing")
	require.Equal(t, []string{"W1", "W2", "W10", "W9"}, idsOf(p.Wires))
	require.Equal(t, []GroupTray{{"0041", "J2/0041"}, {"0042", "J2/0042"}, {"0043", "J2/0043"}}, p.Groups[0].Trays)
	require.Equal(t, Changes{Reel: 2, Method: 1, Ink: 1, Loads: 6, Bound: 2, Proved: true, CostMS: 360_000, FloorMS: 360_000, Numbered: Numbered{3, 540_000}}, p.Changes)
	require.Equal(t, []string{"laser", "ink"}, p.Packet.Method)
	require.Equal(t, []string{"black", "white"}, p.Packet.Inks)
	require.Equal(t, [][]string{{"0041", "0042"}, {"0043"}}, p.Packet.Lists)
	require.Equal(t, "2026-11-20", p.Packet.Issued)
	require.Empty(t, p.Packet.Due)
	require.Equal(t, "a4-2x5", p.Paper.Labels.ID)
	require.Equal(t, []string{"J2", "J1", "P1", "X9"}, []string{p.Connectors[0].ID, p.Connectors[1].ID, p.Connectors[2].ID, p.Connectors[3].ID})
	require.Len(t, p.Packet.Content, 64)
}

func TestMakeWritesTheRowsOfEveryCutList(t *testing.T) {
	p := made(t, threeConnectors())
	height := p.Wires[0].HeightUM
	load := func(wireType, method, ink string) Step {
		return Step{Kind: StepLoad, Units: []string{}, Type: wireType, Method: method, Ink: ink, HeightUM: height}
	}
	both, third := []string{"0041", "0042"}, []string{"0043"}
	require.Equal(t, [][]Step{
		{load("E22W", "laser", ""), {Kind: StepWire, Wire: "W1", Units: both}, load("E22K", "ink", "white"), {Kind: StepWire, Wire: "W2", Units: both}},
		{load("E22W", "laser", ""), {Kind: StepWire, Wire: "W1", Units: third}, load("E22K", "ink", "white"), {Kind: StepWire, Wire: "W2", Units: third}},
	}, p.Groups[0].Steps)
	require.Equal(t, []string{"", "E22Y"}, p.Groups[0].StillOn)
	require.Equal(t, []string{"E22K", "E22K"}, p.Groups[1].StillOn)
	require.Equal(t, []Step{{Kind: StepWire, Wire: "W10", Units: both}, load("E22Y", "ink", "black"), {Kind: StepWire, Wire: "W9", Units: both}},
		p.Groups[1].Steps[0])
	require.Equal(t, []Total{
		{Type: "E22K", Pieces: 6, UM: 3*4_500_000 + 2*100_000, LongestUM: 3_000_000},
		{Type: "E22W", Pieces: 3, UM: 3*2_500_000 + 2*100_000, LongestUM: 2_500_000},
		{Type: "E22Y", Pieces: 3, UM: 3*1_500_000 + 2*100_000, LongestUM: 1_500_000},
	}, p.Totals)
}

func TestARackShowsSwitches(t *testing.T) {
	h := threeConnectors()
	h.Line.Rack = 3
	h.Reels = []harness.Reel{{ID: "R7", Type: "E22W", Left: 100 * units.Metre, Lot: "A7731", Place: "rack 3"}}
	p := made(t, h)
	require.Equal(t, 3, p.Changes.Loads)
	height := p.Wires[0].HeightUM
	require.Equal(t, Step{Kind: StepLoad, Units: []string{}, Reel: "R7", Type: "E22W", Lot: "A7731", Place: "rack 3", Rack: 1, Method: "laser", HeightUM: height},
		p.Groups[0].Steps[0][0])
	require.Equal(t, Step{Kind: StepSwitch, Units: []string{}, Reel: "R7", Type: "E22W", Lot: "A7731", Place: "rack 3", Rack: 1, Method: "laser", HeightUM: height},
		p.Groups[0].Steps[1][0])
	require.Equal(t, 2, p.Groups[0].Steps[0][2].Rack)
}

func TestUnitsOneByOneRunTheWholeSequenceEach(t *testing.T) {
	h := threeConnectors()
	h.Policy.Units = "one by one"
	p := made(t, h)
	require.Equal(t, 1, p.Packet.Batch)
	require.True(t, p.Packet.OneByOne)
	require.Len(t, p.Packet.Lists, 3)
	var run []string
	for _, piece := range p.Pieces {
		run = append(run, piece.Wire+" "+piece.Tray)
	}
	require.Equal(t, []string{"W1 J2/0041", "W2 J2/0041", "W10 J1/0041", "W9 J1/0041"}, run[:4])
	require.Equal(t, "W1 J2/0042", run[4])
}

func TestTraysSayWhatIsCoiledAndWhereTheyGo(t *testing.T) {
	h := threeConnectors()
	h.Tray.Coil = 200 * units.Millimetre
	p := made(t, h)
	section := int64(2500*1_266_126/2000 + 3000*1_266_126/2000) // a wire of 1.27 mm counts as often as it is longer than the tray
	coil := func(id string, outer int64, turns int) Coil { return Coil{id, 200_000, outer, turns, 3} }
	require.Equal(t, Tray{
		ID: "J2/0041", Unit: "0041", Group: "J2", Wires: []string{"W1", "W2"}, Coil: []string{"W1", "W2"},
		StraightUM: int64(h.Tray.Length), Coils: []Coil{coil("W1", 206_200, 3), coil("W2", 206_800, 4)}, CoilUM: 200_000, Ties: 3, Part: 1, Of: 1,
		SectionUM2: section, Mass: Mass{MG: p.Wires[0].MassMG + p.Wires[1].MassMG, Estimated: true, Without: []string{}}, Next: "crimp bench, then board FB-210 at N1", Code: p.Trays[0].Code,
	}, p.Trays[0])
	require.Equal(t, "tray J2/0041, 2 wires", p.Trays[0].Code.Words)
	require.Empty(t, p.Trays[3].Coil)
	for i := range h.Wires {
		h.Wires[i].A.Stage, h.Wires[i].B.Stage = harness.StageBoard, harness.StageBoard
	}
	require.Equal(t, "board FB-210 at N1", made(t, h).Trays[0].Next)
	h.Tray.Length = 0
	require.Empty(t, made(t, h).Trays[0].Coil, "a tray without a stated length coils nothing")
}

func TestHomes(t *testing.T) {
	h := threeConnectors()
	h.Policy.Home = "end-a"
	home, problems := homes(h, buildOrder(h))
	require.Empty(t, problems)
	require.Equal(t, map[string]string{"W1": "J1", "W2": "J2", "W10": "J1", "W9": "J1"}, home)
	h.Wires[1].Home = "P1"
	home, _ = homes(h, buildOrder(h))
	require.Equal(t, "P1", home["W2"])
	h.Wires[1].Home = "X9"
	_, problems = Make(h, nil)
	require.Equal(t, 1, problems.Errors())
	require.Equal(t, `wire "W2" is locked to home "X9", but it runs from J2 to P1`, problems[len(problems)-1].Text)
	h.Policy.Order = "listed"
	slices.Reverse(h.Connectors)
	require.Equal(t, []string{"X9", "P1", "J1", "J2"}, buildOrder(h))
}

func TestBuildOrderGoesByNodeThenId(t *testing.T) {
	h := surveyHarness()
	h.Board.Nodes[0].X, h.Board.Nodes[1].X, h.Board.Nodes[1].Y = 5, 5, 1
	h.Connectors[3].Node = "N1"
	h.Connectors = append(h.Connectors, harness.Connector{ID: "J10", Node: "N1"})
	require.Equal(t, []string{"J2", "J10", "X9", "J1", "P1"}, buildOrder(h))
}

func TestUnknownStockIsRefused(t *testing.T) {
	h := threeConnectors()
	h.Paper.Labels = "a4-9x9"
	_, problems := Make(h, nil)
	require.Equal(t, 1, problems.Errors())
	require.Equal(t, `label stock "a4-9x9" is not known`, problems[len(problems)-1].Text)
	h.Paper.Labels, h.Paper.Size = "", "a3"
	_, problems = Make(h, nil)
	require.Equal(t, "no label stock is known for a3 paper", problems[len(problems)-1].Text)
	h.Paper.Labels = "letter-2x5"
	require.Equal(t, "letter", made(t, h).Paper.Labels.Paper)
}

func TestMoreUnitsThanCodesNumberAreRefused(t *testing.T) {
	h := threeConnectors()
	h.Job.Units = make([]string, 1000)
	_, problems := Make(h, nil)
	require.Equal(t, `job "MOR-0412" has 1000 units, and its codes number 999`, problems[len(problems)-1].Text)
	h.Job.Units = h.Job.Units[:999]
	made(t, h)
	h.Connectors[3].Cavities = make([]harness.Cavity, itemRange)
	require.Equal(t, "too-many-codes", codeProblems(h)[0].Check)
}

func TestWarningsOfBothStagesArePrintedWithoutPlaces(t *testing.T) {
	h := threeConnectors()
	h.Tray.Section = 1
	earlier := problem.List{{Severity: problem.Warning, Check: "few-spares", ID: "J1", Text: "few spare cavities", Place: problem.Place{File: "a.toml", Line: 7, Column: 1}}}
	p, own := Make(h, earlier)
	require.Len(t, own, 4, "no tray holds any of the wires")
	require.Equal(t, "few-spares", p.Warnings[0].Check)
	require.Equal(t, []string{"J1", "J1", "J2", "J2"}, []string{p.Warnings[1].ID, p.Warnings[2].ID, p.Warnings[3].ID, p.Warnings[4].ID})
	require.Equal(t, "a.toml", p.Problems[len(p.Problems)-1].File)
	repeated, _ := Make(h, append(earlier, earlier[0]))
	require.Equal(t, p.Warnings, repeated.Warnings, "the same warning is printed once")
	earlier[0].Place.Line = 99
	moved, _ := Make(h, earlier)
	require.Equal(t, p.Packet.Content, moved.Packet.Content, "a place is no part of the identity")
	require.NotEqual(t, p.Problems, moved.Problems)
	earlier[0].Text = "fewer spare cavities"
	changed, _ := Make(h, earlier)
	require.NotEqual(t, p.Packet.Content, changed.Packet.Content, "a printed warning is part of the identity")
}

func TestSafetyFollowsTheWork(t *testing.T) {
	h := threeConnectors()
	wording := harness.Wording{Language: "en", Signals: [4]string{"DANGER", "WARNING", "CAUTION", "NOTICE"},
		Signs: []harness.SignTitle{{Number: "W001", Title: "General warning sign"}}}
	for _, when := range []string{"always", "marking", "ink", "laser", "fluoropolymer", "ozone", "mercury", "high potential"} {
		wording.Blocks = append(wording.Blocks, harness.SafetyBlock{When: when, Signal: "CAUTION", Signs: []string{"W001"}, Title: when,
			Count: "{wires} of {all} on {insulation}", Lines: []string{"line"}})
		wording.Blanks = append(wording.Blanks, harness.Blank{What: when, Label: when, When: when})
	}
	h.Safety.Wordings = []harness.Wording{wording}
	types := []WireType{{ID: "E", Insulation: "ETFE"}, {ID: "V", Insulation: "PVC"}, {ID: "U"}}
	titles := func(wires ...*Wire) string {
		var titles []string
		page := safetyOf(h, wires, types)[0]
		for i, block := range page.Blocks {
			require.Equal(t, block.Title, page.Blanks[i].Label)
			titles = append(titles, block.Title)
		}
		return strings.Join(titles, " ")
	}
	require.Equal(t, "always", titles(&Wire{Method: "sleeve"}, &Wire{Method: "none"}))
	require.Equal(t, "always marking ink", titles(&Wire{Method: "ink"}))
	require.Equal(t, "always marking laser", titles(&Wire{Method: "laser", Type: "V"}))
	require.Equal(t, "always marking laser fluoropolymer", titles(&Wire{Method: "laser", Type: "E"}))
	require.Equal(t, "always marking laser fluoropolymer", titles(&Wire{Method: "laser", Type: "U"}), "an insulation not named may be one")
	require.Equal(t, "always marking ink laser", titles(&Wire{Method: "test first"}))
	h.Safety.Ozone, h.Safety.Mercury, h.Safety.HighPotential = true, true, true
	require.Equal(t, "always marking laser high potential", titles(&Wire{Method: "laser", Type: "V"}))
	require.Equal(t, "always marking ink ozone mercury high potential", titles(&Wire{Method: "ink"}))
	h.Line.Methods = []harness.Method{harness.MethodInk}
	require.Equal(t, "always marking ink ozone mercury high potential", titles(&Wire{Method: "test first"}))
	page := safetyOf(h, []*Wire{{Method: "laser", Type: "E"}, {Method: "laser", Type: "V"}, {Method: "ink"}}, types)[0]
	require.Equal(t, "2 of 3 on ", page.Blocks[3].Count)
	require.Equal(t, "1 of 3 on ETFE", page.Blocks[4].Count)
	require.Equal(t, []SafetySign{{Number: "W001", Shape: "warning", Title: "General warning sign"}}, page.Blocks[0].Signs)
	unnamed := safetyOf(h, []*Wire{{Method: "laser", Type: "U"}}, types)[0]
	require.Equal(t, "", unnamed.Blocks[slices.IndexFunc(unnamed.Blocks, func(b SafetyBlock) bool { return b.Title == "fluoropolymer" })].Count)
}

func TestQuotesFillTheBlanksAndNothingElse(t *testing.T) {
	h := threeConnectors()
	h.Safety.Officer = "shift board"
	h.Safety.Quotes = []harness.Quote{{What: "laser class", Value: "1", Source: "manual, page 4"}}
	h.Safety.Deference = []string{"Ask first."}
	h.Safety.Wordings = []harness.Wording{{Deference: []string{"Local law comes first."}, Given: "shop file", Blanks: []harness.Blank{
		{What: "officer", Label: "officer", When: "always"}, {What: "laser class", Label: "class", When: "always"},
		{What: "lockout", Label: "lockout", When: "always"}, {What: "emergency", Label: "emergency", When: "always"}}}}
	page := safetyOf(h, nil, nil)[0]
	require.Equal(t, []SafetyBlank{{"officer", "shift board", "shop file"}, {"class", "1", "manual, page 4"}, {"lockout", "", ""}, {"emergency", "", ""}}, page.Blanks)
	require.Equal(t, []string{"Local law comes first.", "Ask first."}, page.Deference)
}

func TestPlanReadsBack(t *testing.T) {
	p := made(t, threeConnectors())
	text, err := p.JSON()
	require.NoError(t, err)
	require.NotContains(t, string(text), "null")
	var again Plan
	require.NoError(t, json.Unmarshal(text, &again))
	retold, err := again.JSON()
	require.NoError(t, err)
	require.Equal(t, string(text), string(retold))
	content, err := contentOf(again)
	require.NoError(t, err)
	require.Equal(t, p.Packet.Content, content)
	empty := made(t, surveyHarness())
	text, err = empty.JSON()
	require.NoError(t, err)
	require.NotContains(t, string(text), "null")
}

func TestCodesStayWhileTheirThingsStay(t *testing.T) {
	before := made(t, threeConnectors())
	h := threeConnectors()
	h.Job.Revision, h.Job.Issued = "C", harness.Date{Year: 2027, Month: 1, Day: 9}
	h.Wires[1].Given += 10 * units.Millimetre // W2
	after := made(t, h)
	require.NotEqual(t, before.Packet.Content, after.Packet.Content)
	changed := map[string]bool{}
	was := map[string]bool{}
	for _, row := range before.CodeRows() {
		was[row.Code] = true
	}
	for _, row := range after.CodeRows() {
		if !was[row.Code] {
			changed[row.Kind+" "+row.Name] = true
		}
	}
	require.Equal(t, map[string]bool{"wire W2": true}, changed)
}

func TestCodesOfAUnitFollowItsSerial(t *testing.T) {
	h := threeConnectors()
	before := made(t, h)
	h.Job.Units[1] = "0052"
	after := made(t, h)
	cavity := func(p Plan, unit int) string { return p.Connectors[0].Cavities[0].Codes[unit].String() }
	connector := func(p Plan, unit int) string { return p.Connectors[0].Codes[unit].String() }
	require.Equal(t, cavity(before, 0), cavity(after, 0))
	require.NotEqual(t, cavity(before, 1), cavity(after, 1))
	require.Equal(t, connector(before, 2), connector(after, 2))
	require.NotEqual(t, connector(before, 1), connector(after, 1))
}

func TestCodesNameEverything(t *testing.T) {
	rows := made(t, threeConnectors()).CodeRows()
	words := map[string]string{}
	for _, row := range rows {
		words[row.Kind+" "+row.Name+" "+row.Unit] = row.Words
		require.Equal(t, "MOR-0412 B", row.Job+" "+row.Revision)
	}
	require.Len(t, words, len(rows))
	require.Len(t, rows, 4+3*9+3*2+3*4+1+mostTags, "wires, cavities, trays, connectors, scanner test, reject tags")
	require.Equal(t, "wire W1, 2500 mm, J1:1 to J2:1", words["wire W1 "])
	require.Equal(t, "J1:1 of unit 0042, wire W1", words["landing J1:1 0042"])
	require.Equal(t, "X9:2 of unit 0041, sealing plug, size 22", words["landing X9:2 0041"])
	require.Equal(t, "connector J1 of unit 0043", words["connector J1 0043"])
	require.Equal(t, "scanner test", words["scanner test scanner test "])
}

// drawHarness draws a job over the board of surveyHarness.
func drawHarness(t *rapid.T) *harness.Harness {
	h := surveyHarness()
	h.Line.Rack = rapid.IntRange(1, 3).Draw(t, "rack")
	h.Policy.Home = rapid.SampledFrom([]string{"end-a", "board-order"}).Draw(t, "home")
	h.Policy.Units = rapid.SampledFrom([]string{"together", "one by one"}).Draw(t, "units")
	h.Policy.Batch = rapid.IntRange(1, 5).Draw(t, "batch")
	for i := range rapid.IntRange(0, 12).Draw(t, "wires") {
		from := rapid.IntRange(0, 3).Draw(t, "from")
		to := (from + rapid.IntRange(1, 3).Draw(t, "to")) % 4
		length := units.Length(rapid.IntRange(60, 9000).Draw(t, "length")) * units.Millimetre
		addWire(h, fmt.Sprintf("W%d", i+1), h.WireTypes[rapid.IntRange(0, 2).Draw(t, "type")].ID, from, to, length)
	}
	for i := range rapid.IntRange(0, 6).Draw(t, "reels") {
		left := units.Length(rapid.IntRange(0, 40).Draw(t, "left")) * units.Metre
		h.Reels = append(h.Reels, harness.Reel{ID: fmt.Sprintf("R%d", i+1), Type: h.WireTypes[rapid.IntRange(0, 2).Draw(t, "reel type")].ID, Left: left})
	}
	return h
}

func TestOrderOfRowsDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := drawHarness(t)
		requireAnyOrder(t, h)
	})
}

func TestEveryPieceIsCutOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := drawHarness(t)
		p := made(t, h)
		require.True(t, p.Changes.Proved)
		pieces := map[string]int{}
		for _, piece := range p.Pieces {
			pieces[piece.Wire+" "+piece.Unit]++
		}
		require.Len(t, pieces, len(h.Wires)*len(h.Job.Units))
		require.Len(t, p.Pieces, len(pieces))
		rows, loads := map[string]int{}, 0
		for _, group := range p.Groups {
			for list, steps := range group.Steps {
				for _, step := range steps {
					loads += one(step.Kind == StepLoad)
					for _, unit := range step.Units {
						require.Contains(t, p.Packet.Lists[list], unit)
						rows[step.Wire+" "+unit]++
					}
				}
			}
		}
		require.Equal(t, pieces, rows, "the cut lists hold each piece once")
		require.Equal(t, p.Changes.Loads, loads)
		for _, tray := range p.Trays {
			require.NotEmpty(t, tray.Wires)
		}
	})
}
