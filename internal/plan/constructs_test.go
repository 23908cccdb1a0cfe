package plan

import (
	"encoding/json"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

// benchEnd is an end in a new cavity of a connector.
func benchEnd(h *harness.Harness, connector int) harness.End {
	c := &h.Connectors[connector]
	name := string(rune('a' + len(c.Cavities)))
	c.Cavities = append(c.Cavities, harness.Cavity{Name: name})
	return harness.End{Connector: c.ID, Cavity: name, Contact: "S22", Stage: harness.StageBench, Strip: 4 * mm}
}

func atSplice(id string) harness.End {
	return harness.End{Kind: harness.EndSplice, Splice: id, Stage: harness.StageBoard}
}

func atTerminal(id string) harness.End {
	return harness.End{Kind: harness.EndTerminal, Terminal: id, Stage: harness.StageBench, Strip: 6 * mm, Retermination: 2}
}

func wireBetween(id, wireType string, a, b harness.End) harness.Wire {
	return harness.Wire{ID: id, Type: wireType, A: a, B: b, Mark: "full"}
}

// shieldedType is a cable type of four cores.
func shieldedType() harness.CableType {
	return harness.CableType{ID: "TSP24", Part: "MOR-CB-3", Name: "shielded cable", Colour: "WH", Diameter: 4 * mm, Insulation: "ETFE",
		Shield: "braid", Laser: harness.LaserYes, Cores: []harness.Core{
			{ID: "1", AWG: "24", Colour: "WH"}, {ID: "2", AWG: "24", Colour: "BU"}, {ID: "3", AWG: "24", Colour: "RD"}, {ID: "4", AWG: "24", Colour: "BK"}}}
}

// everyConstruct is a job with a cable of three cores and a pigtail, a twist, a splice, terminals on a stud, a wire that is
// capped, one that leaves, one that is there already, one that is measured, and one that stays loose. A segment is 100 mm long.
func everyConstruct() *harness.Harness {
	h := surveyHarness()
	for i := range h.Board.Nodes {
		h.Board.Nodes[i].X = units.Length(i) * 100 * mm
	}
	h.Allowance = harness.Allowance{TrimBack: 3 * mm}
	h.CableTypes = []harness.CableType{shieldedType()}
	h.Cables = []harness.Cable{{ID: "C1", Type: "TSP24", Supply: harness.SupplyReel, Mark: "full", Note: "keep clear of heater",
		A: harness.CableEnd{JacketOff: 60 * mm, Shield: "pigtail", Pigtail: &harness.Pigtail{Type: "E22K", Length: 120 * mm, To: benchEnd(h, 0)}},
		B: harness.CableEnd{JacketOff: 50 * mm, Shield: "cut back"}}}
	h.Splices = []harness.Splice{{ID: "SP1", Part: "MOR-SP-3", Node: "N2", Offset: 40 * mm, Towards: "N3", Stage: harness.StageBoard,
		Strip: 8 * mm, Barrel: 7 * mm, SlideOn: []string{"sleeve SL-4"}, Sides: [][]string{{"W114"}, {"W140", "W131"}}}}
	h.Terminals = []harness.Terminal{
		{ID: "E1", Part: "MOR-RG-M5", Kind: "ring M5", Node: "N4", Tail: 60 * mm, Strip: 6 * mm, Barrel: 6 * mm, Note: "flat side down"},
		{ID: "E3", Part: "MOR-RG-M5", Kind: "ring M5", Node: "N4", Tail: 60 * mm, Strip: 6 * mm, Barrel: 6 * mm}}
	h.Studs = []harness.Stud{{ID: "G1", Stack: []string{"washer", "E3", "E1", "nut"}, Torque: "per drawing"}}
	h.Twists = []harness.Twist{{ID: "T1", Wires: []string{"W120", "W121"}, Lay: 25 * mm, Untwist: [2]units.Length{40 * mm, 40 * mm}}}
	core := func(id, core string, a, b harness.End) harness.Wire {
		return harness.Wire{ID: id, Cable: "C1", Core: core, A: a, B: b}
	}
	loose := benchEnd(h, 3)
	loose.NotLanded, loose.Finish = true, "tinned"
	existing := wireBetween("W150", "E22W", benchEnd(h, 0), benchEnd(h, 1))
	existing.Supply = harness.SupplyExisting
	measure := wireBetween("W151", "E22W", benchEnd(h, 0), benchEnd(h, 3))
	measure.Measure = true
	h.Wires = []harness.Wire{
		core("W130", "2", benchEnd(h, 0), benchEnd(h, 2)), core("W131", "3", benchEnd(h, 0), atSplice("SP1")),
		core("W132", "1", benchEnd(h, 0), benchEnd(h, 2)),
		wireBetween("W120", "E22W", benchEnd(h, 1), benchEnd(h, 2)), wireBetween("W121", "E22K", benchEnd(h, 1), benchEnd(h, 3)),
		wireBetween("W114", "E22W", benchEnd(h, 1), atSplice("SP1")), wireBetween("W140", "E22Y", atSplice("SP1"), atTerminal("E1")),
		wireBetween("W141", "E22Y", atTerminal("E1"), atTerminal("E3")),
		wireBetween("W142", "E22Y", benchEnd(h, 2), harness.End{Kind: harness.EndCapped, Node: "N4", Free: 30 * mm}),
		wireBetween("W143", "E22W", benchEnd(h, 1), harness.End{Kind: harness.EndLeaves, Node: "N1", Free: 200 * mm}),
		wireBetween("W144", "E22W", benchEnd(h, 1), loose),
		existing, measure,
	}
	return h
}

func wireNamed(t require.TestingT, p Plan, id string) Wire {
	i := slices.IndexFunc(p.Wires, func(w Wire) bool { return w.ID == id })
	require.GreaterOrEqual(t, i, 0, id)
	return p.Wires[i]
}

// inMillimetres returns terms by name.
func inMillimetres(terms []Term) map[string]int64 {
	named := map[string]int64{}
	for _, term := range terms {
		named[term.Name] = term.UM / 1000
	}
	return named
}

func texts(problems problem.List) []string {
	var texts []string
	for _, p := range problems {
		texts = append(texts, p.Text)
	}
	return texts
}

func TestLengthsGoToTheirEnds(t *testing.T) {
	p := made(t, everyConstruct())
	cases := []struct {
		wire     string
		finished int64
		terms    map[string]int64
	}{
		{"W114", 40, map[string]int64{"route": 40, "strip_a": 4, "strip_b": 8}},
		{"W140", 220, map[string]int64{"route": 160, "tail_b": 60, "strip_a": 8, "strip_b": 6, "retermination": 18}},
		{"W141", 120, map[string]int64{"tail_a": 60, "tail_b": 60, "strip_a": 6, "strip_b": 6, "retermination": 36}},
		{"W142", 130, map[string]int64{"route": 100, "tail_b": 30, "strip_a": 4}},
		{"W143", 300, map[string]int64{"route": 100, "tail_b": 200, "strip_a": 4}},
		{"C1-PA", 120, map[string]int64{"given": 120, "strip_b": 4}},
	}
	for _, c := range cases {
		w := wireNamed(t, p, c.wire)
		require.Equal(t, c.finished*1000, w.FinishedUM, c.wire)
		require.Equal(t, c.terms, inMillimetres(w.Terms), c.wire)
		require.Positive(t, w.CutUM)
	}
	require.Equal(t, "leaves@N1", wireNamed(t, p, "W143").To)
	require.Equal(t, "capped@N4", wireNamed(t, p, "W142").To)
	require.Equal(t, []string{"N2"}, wireNamed(t, p, "W114").Nodes)
	require.Equal(t, []string{"N3", "N4"}, wireNamed(t, p, "W140").Nodes)
	require.Equal(t, int64(8000), wireNamed(t, p, "W114").A.StripUM+4000, "4 mm at the connector; the board strips at the splice")
	require.Zero(t, wireNamed(t, p, "W114").B.StripUM)
}

func TestAPigtailTakesNoLoop(t *testing.T) {
	h := everyConstruct()
	h.Allowance.Loop = 50 * mm
	p := made(t, h)
	require.Zero(t, termOf(wireNamed(t, p, "C1-PA"), "loop"))
	require.Equal(t, int64(50_000), termOf(wireNamed(t, p, "W140"), "loop"))
	require.Equal(t, int64(50), inMillimetres(p.Cables[0].Terms)["loop"], "once, whatever the number of cores")
}

func TestACableIsCutOnceForAllItsCores(t *testing.T) {
	h := everyConstruct()
	h.Wires[0].A.TailExtra = 25 * mm // W130 asks for more at end a than its fellows, W132 at end b
	h.Wires[2].B.TailExtra = 15 * mm
	p := made(t, h)
	require.Len(t, p.Cables, 1)
	c := p.Cables[0]
	// 200 mm of board, 25 and 15 mm of extra, 4 mm of strip at either end
	require.Equal(t, int64(248_000), c.CutUM)
	require.Equal(t, map[string]int64{"route": 200, "extra": 40, "strip_a": 4, "strip_b": 4}, inMillimetres(c.Terms))
	require.Equal(t, []string{"W132", "W130", "W131"}, c.Cores, "in the order of the cores")
	require.Equal(t, []string{"4"}, c.Spare)
	require.Equal(t, "board", c.Status)
	require.Equal(t, CableEnd{At: "J2", JacketOffUM: 60_000, Shield: "pigtail C1-PA to J2:a", Pigtail: "C1-PA"}, c.A)
	require.Equal(t, "cut back", c.B.Shield)
	trim := func(id string) [2]int64 { w := wireNamed(t, p, id); return [2]int64{w.A.TrimUM, w.B.TrimUM} }
	require.Equal(t, [2]int64{0, 15_000}, trim("W130"))
	require.Equal(t, [2]int64{25_000, 0}, trim("W132"))
	require.Equal(t, [2]int64{25_000, 219_000 - 148_000}, trim("W131"), "to end b W132 takes 200 + 15 + 4 mm, W131 140 + 8 mm")
	core := wireNamed(t, p, "W131")
	require.Equal(t, []any{"TSP24 core 3", "C1", "3", int64(0), "", "none"}, []any{core.Type, core.Cable, core.Core, core.CutUM, core.A.Legend, core.Method})
	require.Empty(t, core.Marks)
	require.Empty(t, core.Terms)
	types := map[string]WireType{}
	for _, row := range p.Types {
		types[row.ID] = row
	}
	require.Equal(t, "4 x 24 AWG", types["TSP24"].Gauge)
	require.Equal(t, []string{"24 AWG", "red"}, []string{types["TSP24 core 3"].GaugeShort, types["TSP24 core 3"].ColourWords})
}

func TestCoresWithoutACommonNodeCountWhole(t *testing.T) {
	h := everyConstruct()
	h.Wires[0].B, h.Wires[2].B = atSplice("SP1"), atSplice("SP2")
	h.Splices = append(h.Splices, harness.Splice{ID: "SP2", Node: "N2", Offset: 10 * mm, Towards: "N3", Strip: 8 * mm, Stage: harness.StageBoard})
	h.Wires[1].A = atSplice("SP2") // W131 from one splice to the other, on one segment
	h.Wires[0].B.Strip, h.Wires[2].B.Strip = 8*mm, 8*mm
	p := made(t, h)
	require.Equal(t, int64(152_000), p.Cables[0].CutUM, "W130: 140 mm, 4 and 8 mm of strip")
	require.Equal(t, "the cable is 106 mm longer than this core needs", wireNamed(t, p, "W131").Note)
	require.Empty(t, wireNamed(t, p, "W131").Nodes)
}

func TestMarksOfACableKeepToItsJacket(t *testing.T) {
	h := everyConstruct()
	h.Cables[0].Given = 700 * mm
	c := made(t, h).Cables[0]
	require.Equal(t, []string{"C1 J2>P1+SP1", "C1 P1+SP1>J2", "C1"}, []string{c.A.Legend, c.B.Legend, c.Legend})
	require.Equal(t, []any{"laser", int64(1300)}, []any{c.Method, c.HeightUM})
	require.Equal(t, int64(60_000+25_000), c.Marks[0].AtUM, "the wanted place counts from the end of the jacket")
	last := c.Marks[len(c.Marks)-1]
	require.Equal(t, int64(700_000-50_000-25_000), last.AtUM+last.WidthUM)
	h.Cables[0].A.JacketOff = 680 * mm
	_, problems := Make(h, nil)
	require.Contains(t, texts(problems), `cable "C1" is cut to 700 mm, and 730 mm of its jacket is to be taken off`)
	h.Cables[0].A.JacketOff, h.Marks.Legend = 60*mm, "{awg} {wire}"
	_, problems = Make(h, nil)
	require.Contains(t, texts(problems), `the legend "{awg} {wire}" holds {awg}, and cable type "TSP24" has several cores`)
}

func TestAGivenCableLengthIsCheckedAgainstItsCores(t *testing.T) {
	h := everyConstruct()
	h.Cables[0].Given = 199 * mm
	_, problems := Make(h, nil)
	require.Equal(t, 1, problems.Errors())
	require.Contains(t, texts(problems), `cable "C1" is given 199 mm, and from plane to plane over the board it is 200 mm: route 200 mm`)
	h.Cables[0].Given = 400 * mm
	require.Equal(t, int64(400_000), made(t, h).Cables[0].CutUM)
	h.Job.LengthIs = harness.LengthFinished
	require.Equal(t, int64(408_000), made(t, h).Cables[0].CutUM)
	h.Cables[0].Given = 0
	h.Connectors[2].Node = ""
	_, problems = Make(h, nil)
	require.Contains(t, texts(problems), `cable "C1" has no length: none is given, and connector P1 stands on no node`)
	h = everyConstruct()
	h.Wires[0].A, h.Wires[0].B = h.Wires[0].B, h.Wires[0].A
	_, problems = Make(h, nil)
	require.Contains(t, texts(problems), `wire "W130" runs from end b of cable "C1" to end a, against wire "W132"`)
}

func TestCablesRunWithTheirPigtails(t *testing.T) {
	p := made(t, everyConstruct())
	group := p.Groups[0]
	require.Equal(t, "J2", group.Connector)
	cable := slices.Index(group.Wires, "C1")
	require.Contains(t, []int{cable - 1, cable + 1}, slices.Index(group.Wires, "C1-PA"))
	step := group.Steps[0][slices.IndexFunc(group.Steps[0], func(s Step) bool { return s.Wire == "C1" })]
	require.Equal(t, StepCable, step.Kind)
	total := p.Totals[slices.IndexFunc(p.Totals, func(x Total) bool { return x.Type == "TSP24" })]
	require.Equal(t, 3, total.Pieces)
	require.Equal(t, int64(208_000), total.LongestUM)
	require.Equal(t, "C1 shield", wireNamed(t, p, "C1-PA").From)
	require.Equal(t, "C1 shield", lineAt(t, p, "J2", "C1-PA").Other)
}

// lineAt finds the checklist line of a wire in a connector.
func lineAt(t *testing.T, p Plan, connector, wire string) CavityLine {
	for _, c := range p.Connectors {
		for _, cavity := range c.Cavities {
			for _, line := range cavity.Lines {
				if c.ID == connector && line.Wire == wire {
					return line
				}
			}
		}
	}
	require.Fail(t, "no line", "%s at %s", wire, connector)
	return CavityLine{}
}

func TestChecklistsSayWhatIsSpecial(t *testing.T) {
	p := made(t, everyConstruct())
	require.Equal(t, CavityLine{Wire: "W130", Cable: "C1", Core: "2", Gauge: "24 AWG", Words: "blue", Tray: "J2", Other: "P1:a", Stage: "bench", Units: []LineUnit{}},
		lineAt(t, p, "J2", "W130"))
	require.Equal(t, "existing", lineAt(t, p, "J2", "W150").Tray)
	require.Equal(t, "measured", lineAt(t, p, "J2", "W151").Tray)
	loose := lineAt(t, p, "X9", "W144")
	require.Equal(t, []string{"tinned", "stays loose in this job"}, []string{loose.Finish, loose.Loose})
}

func TestTheBoardIsToldWhatToTakeOff(t *testing.T) {
	require.Equal(t, "trim 20 mm, strip 5.8 mm", boardWords(english(), 20*mm, 5_800, nil))
	require.Equal(t, "strip jacket 12 mm, strip braid 8 mm", boardWords(english(), 0, 12*mm, []StripStep{{"jacket", 12_000}, {"braid", 8_000}}))
	require.Empty(t, boardWords(english(), 0, 0, nil))
}

func TestAStudStandsWhereItsTerminalsDo(t *testing.T) {
	stud := harness.Stud{ID: "G1", Stack: []string{"washer", "E1", "E2", "E3"}}
	at := func(nodes ...string) Joint {
		terminals := map[string]*harness.Terminal{}
		for i, node := range nodes {
			terminals[stud.Stack[i+1]] = &harness.Terminal{Node: node}
		}
		return studRow(english(), &stud, terminals)
	}
	require.Equal(t, "at N3", at("N3", "N3", "").Where)
	require.Equal(t, "at N3 and N4", at("N3", "N4", "N3").Where)
	require.Equal(t, []string{"", "", "N3"}, []string{at("").Where, at("N3", "N4").Node, at("", "N3").Node})
}

func TestWhatIsNotCutStandsApart(t *testing.T) {
	p := made(t, everyConstruct())
	require.Equal(t, []Apart{
		{ID: "W150", Type: "E22W", Reason: "existing", Words: "is there already", From: "J2:b", To: "J1:a"},
		{ID: "W151", Type: "E22W", Reason: "measure", Words: "to be measured at the bench, cut ____ mm", From: "J2:c", To: "X9:b"},
	}, p.Apart)
	measured := wireNamed(t, p, "W151")
	require.Equal(t, []any{int64(0), "measure", "W151 J2:c>X9:b", ""}, []any{measured.CutUM, measured.Status, measured.A.Legend, measured.B.Legend})
	require.Empty(t, measured.Marks)
	require.Equal(t, []string{"W150", "W151"}, idsOf(p.Wires[len(p.Wires)-2:]))
	h := everyConstruct()
	h.Cables[0].Supply = harness.SupplyBought
	p = made(t, h)
	require.Equal(t, []string{"C1", "C1-PA", "W150", "W151"}, []string{p.Apart[0].ID, p.Apart[1].ID, p.Apart[2].ID, p.Apart[3].ID})
	require.Equal(t, "bought", lineAt(t, p, "J2", "W130").Tray)
	require.Equal(t, []int64{0, 120_000}, []int64{p.Apart[0].UM, p.Apart[1].UM}, "as given")
	h.Cables[0].Supply, h.Cables[0].Measure = "", true
	p = made(t, h)
	require.Equal(t, "measure", p.Apart[0].Reason)
	require.Equal(t, "measured", lineAt(t, p, "J2", "W130").Tray)
	require.Equal(t, "J2", lineAt(t, p, "J2", "C1-PA").Tray, "the pigtail has its length")
}

func TestJointsSayWhatEntersThem(t *testing.T) {
	p := made(t, everyConstruct())
	require.Len(t, p.Joints, 4)
	sp := p.Joints[0]
	require.Equal(t, []any{"SP1", "splice", "MOR-SP-3", "at N2, 40 mm to N3", "board"}, []any{sp.ID, sp.Kind, sp.Part, sp.Where, sp.Stage})
	require.Equal(t, []string{"sleeve SL-4"}, sp.SlideOn)
	require.Equal(t, "side 2", sp.Sides[1].Words)
	require.Equal(t, []string{"W140", "W131"}, []string{sp.Sides[1].Lines[0].Wire, sp.Sides[1].Lines[1].Wire})
	require.Equal(t, int64(325_534+204_730), sp.Sides[1].Section, "22 and 24 AWG, ASTM B258 diameter formula")
	e1 := p.Joints[1]
	require.Equal(t, []any{"E1", "terminal", "ring M5", "bench", "flat side down"}, []any{e1.ID, e1.Kind, e1.Words, e1.Stage, e1.Note})
	require.Len(t, e1.Sides[0].Lines, 2)
	stud := p.Joints[3]
	require.Equal(t, []any{"G1", "stud", "per drawing", "N4", "at N4"}, []any{stud.ID, stud.Kind, stud.Words, stud.Node, stud.Where})
	require.Equal(t, []string{"strip 8 mm", ""}, []string{sp.Sides[0].Lines[0].Board, e1.Sides[0].Lines[0].Board}, "the bench strips E1")
	require.Equal(t, []string{"washer", "E3", "E1", "nut"}, stud.Stack)
	require.Empty(t, stud.Codes)
	words := map[string]string{}
	for _, row := range p.CodeRows() {
		words[row.Kind+" "+row.Name+" "+row.Unit] = row.Words
	}
	require.Equal(t, "splice SP1 of unit 0042, wires W114, W131 and W140", words["landing SP1 0042"])
	require.Equal(t, "terminal E3 of unit 0041, wire W141", words["landing E3 0041"])
	require.Equal(t, "cable C1, 208 mm, J2 to P1+SP1", words["wire C1 "])
	require.Equal(t, "wire W130, core 2 of cable C1, J2:d to P1:a", words["wire W130 "])
	require.Equal(t, "wire W150, existing, J2:b to J1:a", words["wire W150 "])
	require.Equal(t, "tray J2/0041, 1 wire and 1 cable", words["tray J2/0041 0041"])
}

func groupIDs(p Plan) []string {
	var ids []string
	for _, group := range p.Groups {
		ids = append(ids, group.Connector)
	}
	return ids
}

func TestHomesOfJoints(t *testing.T) {
	h := everyConstruct()
	home, problems := homes(h, buildOrder(h))
	require.Empty(t, problems)
	require.Equal(t, []string{"J1", "SP1", "E1"}, []string{home["W114"], home["W140"], home["W141"]})
	h.Policy.Home = "end-a"
	h.Wires[5].A, h.Wires[5].B = h.Wires[5].B, h.Wires[5].A // W114
	home, _ = homes(h, buildOrder(h))
	require.Equal(t, "J1", home["W114"], "a connector before a splice, whatever end a is")
	h.Wires[5].Home = "SP1"
	p := made(t, h)
	require.Equal(t, []string{"J2", "J1", "P1", "SP1", "E1"}, groupIDs(p))
	require.Equal(t, "splice", p.Groups[3].Title)
	require.Contains(t, p.Trays[9].Next, "at N2")
	require.Equal(t, []string{"J1", "SP1"}, p.Connectors[1].Trays)
}

func TestATwistAndACableHaveOneHome(t *testing.T) {
	h := everyConstruct()
	h.Wires[3].Home, h.Wires[4].Home = "P1", "X9"
	_, problems := Make(h, nil)
	require.Contains(t, texts(problems), `wire "W120" is locked to home "P1" and wire "W121" to home "X9", but twist T1 goes into one tray`)
	h.Wires[4].Home = ""
	p := made(t, h)
	require.Equal(t, []string{"P1", "P1"}, []string{wireNamed(t, p, "W120").Home, wireNamed(t, p, "W121").Home})
	h.Cables[0].Home = "SP1"
	p = made(t, h)
	require.Equal(t, []string{"SP1", "SP1"}, []string{p.Cables[0].Home, wireNamed(t, p, "C1-PA").Home})
	h.Cables[0].Home = "J1"
	_, problems = Make(h, nil)
	require.Contains(t, texts(problems), `cable "C1" is locked to home "J1", but none of its cores goes there`)
	h.Cables[0].Home, h.Wires[0].Home = "SP1", "J2"
	_, problems = Make(h, nil)
	require.Contains(t, texts(problems), `wire "W130" is locked to home "J2" and cable "C1" to home "SP1", but cable C1 goes into one tray`)
	h = everyConstruct()
	h.Wires[8].A = harness.End{Kind: harness.EndLeaves, Node: "N1"}
	_, problems = Make(h, nil)
	require.Contains(t, texts(problems), `wire "W142" runs from "leaves@N1" to "capped@N4": it goes to no connector, splice or terminal, so that no tray can hold it`)
}

func TestSeparationsAreKeptApart(t *testing.T) {
	h := everyConstruct()
	h.Wires[3].Separation, h.Wires[5].Separation = "A", "B" // W120 from N2 to N3, W114 a part of the same segment
	h.Wires[5].At.Line, h.Wires[3].At.Line = 5, 9
	_, problems := Make(h, nil)
	require.Equal(t, 1, problems.Errors())
	require.Equal(t, `the segment from "N2" to "N3" holds wire "W114" of separation "B" and wire "W120" of separation "A"`, problems[len(problems)-1].Text)
	require.Equal(t, 5, problems[len(problems)-1].Place.Line)
	way := func(id, separation string) wayOf {
		return wayOf{&harness.Wire{ID: id, Separation: separation}, [][2]string{{"N1", "N2"}}}
	}
	require.Len(t, separationProblems([]wayOf{way("W1", "A"), way("W2", "B"), way("W3", "A"), way("W4", "C"), way("W5", "")}), 3, "each pair once")
	h.Wires[5].Separation = "A"
	made(t, h)
}

func TestADraftSaysSo(t *testing.T) {
	h := threeConnectors()
	require.False(t, made(t, h).Packet.Draft)
	h.Draft = true
	require.True(t, made(t, h).Packet.Draft)
}

func TestAPlanWithEverythingReadsBack(t *testing.T) {
	text, err := made(t, everyConstruct()).JSON()
	require.NoError(t, err)
	require.NotContains(t, string(text), "null")
	var again Plan
	require.NoError(t, json.Unmarshal(text, &again))
	retold, err := again.JSON()
	require.NoError(t, err)
	require.Equal(t, string(text), string(retold))
}
