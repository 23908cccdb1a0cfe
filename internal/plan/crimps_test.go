package plan

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// benchHarness is a job with every kind of end that the crimp bench meets.
func benchHarness() *harness.Harness {
	h := threeConnectors()
	h.Inspection.Samples = 3
	h.Contacts[0].Pull, h.Contacts[0].AWGFrom, h.Contacts[0].AWGTo = "machined", "18", "24"
	h.Contacts[0].Crimps = []harness.Crimp{{AWGFrom: "18", AWGTo: "20", Tool: "crimp tool 2", Locator: "red", Setting: "6"},
		{AWGFrom: "22", AWGTo: "24", Tool: "crimp tool 2", Locator: "red", Setting: "5"}}
	h.Contacts = append(h.Contacts, harness.Contact{ID: "CUP", Part: "MOR-CUP", Kind: "solder", Strip: 5000},
		harness.Contact{ID: "CXC", Part: "MOR-CX", Kind: "coax", Strip: 12_000, Steps: []harness.StripStep{{Layer: "jacket", Length: 12_000}, {Layer: "braid", Length: 8000}}})
	h.Terminals = []harness.Terminal{{ID: "E1", Part: "MOR-RG", Kind: "ring M5", Node: "N1", Tail: 60 * mm, Strip: 7 * mm, Pull: "lug",
		Crimps: []harness.Crimp{{AWGFrom: "16", AWGTo: "22", Tool: "crimp tool 5"}}, SlideOnFirst: []string{"sleeve HS-4"}}}
	h.Splices = []harness.Splice{{ID: "SP1", Part: "MOR-SP", Node: "N2", Strip: 8 * mm, Stage: harness.StageBench, Sides: [][]string{{"W30"}, {"W31"}},
		SlideOn: []string{"sleeve HS-6"}}}
	shared := benchEnd(h, 0)
	add := func(id string, a, b harness.End) {
		h.Wires = append(h.Wires, harness.Wire{ID: id, Type: "E22W", A: a, B: b, Given: 2 * units.Metre, Mark: "none"})
	}
	cup, coax, leave, splice := benchEnd(h, 1), benchEnd(h, 2), benchEnd(h, 3), atSplice("SP1")
	cup.Contact, cup.Strip, coax.Contact, coax.Strip, leave.Stage = "CUP", 5000, "CXC", 12_000, harness.StageBoard
	splice.Stage = harness.StageBench
	h.Connectors[2].SlideOnFirst = []string{"crimp sleeve CX"}
	add("W20", shared, cup)
	add("W21", shared, coax)
	add("W22", atTerminal("E1"), leave)
	add("W30", benchEnd(h, 0), splice)
	add("W31", splice, harness.End{Kind: harness.EndCapped, Node: "N3", Free: 90 * mm, Stage: harness.StageBench})
	return h
}

func TestCrimpRows(t *testing.T) {
	p := made(t, benchHarness())
	var rows [][]string
	for _, c := range p.Crimps {
		rows = append(rows, []string{c.Tool, c.Setting, c.Contact, c.Size, c.Minimum, c.Seating})
	}
	require.Equal(t, [][]string{
		// two of 22 AWG count as 18: 32 lbf together; one wire alone may take the seating pull, so that stays at 80 % of 12 lbf
		{"crimp tool 2", "6", "S22", "2 wires, 0.65 mm² together, counts as 18 AWG", "142.4 N (32 lbf)", "42.7 N (9.6 lbf)"},
		{"crimp tool 2", "5", "S22", "22 AWG", "53.4 N (12 lbf)", "42.7 N (9.6 lbf)"},
		{"crimp tool 5", "", "ring M5", "22 AWG", "66.8 N (15 lbf)", ""},
		{"", "", "CXC", "22 AWG", "", ""},
		{"", "", "splice", "22 AWG", "", ""},
	}, rows)
	one := p.Crimps[1]
	require.Equal(t, 10, one.Crimps)
	require.Equal(t, 3, one.Samples)
	require.Equal(t, []string{"E22K", "E22W", "E22Y"}, one.Types)
	require.Equal(t, []int64{4000, 250, 750}, []int64{one.StripUM, one.GapLeastUM, one.GapMostUM})
	require.Equal(t, "2 nicked, 0 broken", one.Strands)
	require.Equal(t, "column machined: IPC/WHMA-A-620B, table 19-12 (second-hand)", one.Source)
	require.Equal(t, []StripStep{{"jacket", 12_000}, {"braid", 8000}}, p.Crimps[3].Steps)
	require.Equal(t, 2, p.Crimps[4].Crimps, "both sides of a splice")
}

func TestTheJobsOwnMinimumWins(t *testing.T) {
	h := benchHarness()
	h.Contacts[0].Crimps[1].Pull = 60_000
	row := made(t, h).Crimps[1]
	require.Equal(t, []string{"60 N (13.5 lbf)", "48 N (10.7 lbf)", "as the job gives it"}, []string{row.Minimum, row.Seating, row.Source})
}

func TestASeatingPullNeverPassesItsShare(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := benchHarness()
		h.WireTypes[0].AWG = rapid.SampledFrom([]string{"18", "20", "22", "24", "26", "28", "21"}).Draw(t, "gauge")
		h.Contacts[0].Pull = rapid.SampledFrom([]string{"machined", "machined nickel", "stamped", "lug", ""}).Draw(t, "column")
		h.Contacts[0].Crimps[0].Pull = units.Force(rapid.IntRange(0, 500_000).Draw(t, "own"))
		crimps := 0
		for _, row := range made(t, h).Crimps {
			require.LessOrEqual(t, row.SeatingMN*100, row.MinimumMN*80, row.Size)
			require.Equal(t, row.MinimumMN > 0, row.Minimum != "")
			require.Equal(t, row.MinimumMN > 0, row.Source != "")
			crimps += row.Crimps
		}
		require.Equal(t, 15, crimps)
	})
}

func TestStripRows(t *testing.T) {
	p := made(t, benchHarness())
	at := map[string]StripRow{}
	for _, g := range p.Strips {
		for _, row := range g.Rows {
			at[row.Wire+row.End] = row
		}
	}
	require.Equal(t, []string{DoCrimp, DoSolder, DoCrimp, DoCrimp, DoLeave, DoCap}, []string{at["W20a"].Do, at["W20b"].Do, at["W21b"].Do,
		at["W22a"].Do, at["W22b"].Do, at["W31b"].Do})
	require.Equal(t, []string{"W21"}, at["W20a"].With)
	require.Equal(t, []string{"crimp tool 2", "red", "6"}, []string{at["W20a"].Tool, at["W20a"].Locator, at["W20a"].Setting})
	require.Equal(t, []string{"sleeve HS-4"}, at["W22a"].SlideOn)
	require.Equal(t, []string{"crimp sleeve CX"}, at["W21b"].SlideOn)
	require.Equal(t, []string{"sleeve HS-6"}, at["W30b"].SlideOn)
	require.Empty(t, at["W31a"].SlideOn, "one sleeve covers both sides")
	require.Len(t, at["W21b"].Steps, 2)
	require.Equal(t, int64(4000), at["W22b"].StripUM, "the board strips it as far")
	require.Equal(t, "S22", at["W22b"].Contact)
	counts := map[string]int{}
	for _, g := range p.Strips {
		for _, c := range g.Contacts {
			counts[c.Words+" "+c.Part] += c.Count
		}
	}
	require.Equal(t, map[string]int{"contact S22 MOR-CT-22S": 10, "contact CUP MOR-CUP": 1, "contact CXC MOR-CX": 1, "terminal ring M5 MOR-RG": 1,
		"splice MOR-SP": 1}, counts)
}

// TestEveryEndStandsOnceAtTheBench counts the ends of random jobs: each wire has both of them, in its tray or in none.
func TestEveryEndStandsOnceAtTheBench(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := drawConstructs(t)
		p := made(t, h)
		ends := map[string]int{}
		for _, g := range p.Strips {
			for _, row := range g.Rows {
				ends[row.Wire+" "+row.End]++
				if row.Do == DoLeave {
					require.Equal(t, string(harness.StageBoard), endOf(p, row).Stage)
				}
			}
		}
		for _, w := range p.Wires {
			require.Equal(t, []int{1, 1}, []int{ends[w.ID+" a"], ends[w.ID+" b"]}, w.ID)
		}
		require.Len(t, ends, 2*(len(p.Wires)+len(p.Cables)))
	})
}

func endOf(p Plan, row StripRow) End {
	for _, w := range p.Wires {
		if w.ID == row.Wire && row.End == "a" {
			return w.A
		}
		if w.ID == row.Wire {
			return w.B
		}
	}
	return End{}
}

func TestOperationsFollowFromTheJob(t *testing.T) {
	names := func(h *harness.Harness) (names, holds []string) {
		for i, o := range made(t, h).Operations {
			require.Equal(t, 10*(i+1), o.Number)
			names = append(names, o.Name)
			if o.Hold != "" {
				holds = append(holds, o.Name)
			}
		}
		return names, holds
	}
	h := threeConnectors()
	h.Job.Class, h.Inspection.Hold = 2, []harness.Operation{harness.OperationCut}
	all, holds := names(h)
	require.Equal(t, []string{"issue material", "mark, measure and cut", "strip and crimp", "form board: lay in, insert", "continuity test", "final inspection"}, all)
	require.Equal(t, []string{"mark, measure and cut"}, holds)
	h = benchHarness()
	h.Job.Class = 3
	h.Studs = []harness.Stud{{ID: "G1", Stack: []string{"E1"}}}
	h.Connectors[0].After = []harness.Step{{Step: "fit cap"}}
	all, holds = names(h)
	require.Equal(t, []string{"issue material", "mark, measure and cut", "strip and crimp", "splices at the bench", "form board: lay in, insert",
		"studs: stack and tighten", "close connectors", "continuity test", "final inspection"}, all)
	require.Equal(t, []string{"mark, measure and cut", "strip and crimp", "splices at the bench", "form board: lay in, insert", "final inspection"}, holds)
	h.Job.Class, h.Inspection.Hold = 1, []harness.Operation{harness.OperationTest}
	_, holds = names(h)
	require.Equal(t, []string{"continuity test"}, holds)
}

func TestSamplesSparesAndRework(t *testing.T) {
	h := benchHarness()
	h.Inspection.Sampling = []harness.Sampling{{What: "mark", Lot: 500, Level: "II", AQL: "0.65"}, {What: "strip", Lot: 10, Level: "II", AQL: "0.65"}}
	h.Allowance = harness.Allowance{Retermination: 2, TrimBack: 3 * mm}
	for i := range h.Wires {
		h.Wires[i].A.Retermination, h.Wires[i].B.Retermination = 2, 2
	}
	h.Wires[0].B.Retermination = 0
	h.Connectors[3].Spare, h.Connectors[3].Contact = "contact and seal", "S22"
	p := made(t, h)
	require.Equal(t, Sample{What: "mark", Lot: 500, Level: "II", AQL: "0.65", Letter: "H", Used: "J", Count: 80, Accept: 1, Reject: 2,
		Source: "MIL-STD-105E, 10 May 1989, tables I and II-A (second-hand)"}, p.Sampling[0])
	require.True(t, p.Sampling[1].All)
	require.Equal(t, Rework{Times: 2, TrimBackUM: 3000, Others: []string{"W1 END B: 0"}}, p.Rework)
	last := p.Spares[len(p.Spares)-1]
	require.Equal(t, Spare{Connector: "X9", Cavities: []string{"2"}, Rule: "contact and seal", Seal: "sealing plug, size 22", Plugs: 1,
		Contacts: []string{"S22"}, Advised: 2, Source: last.Source}, last)
	require.Empty(t, made(t, benchHarness()).Sampling, "nothing is sampled unless the job asks for it")
}

func TestFirstPieceFollowsFromThePlan(t *testing.T) {
	p := made(t, benchHarness())
	what := map[string]Feature{}
	for i, f := range p.FirstPiece {
		require.Equal(t, i+1, f.Number)
		require.NotEmpty(t, f.Requirement, f.What)
		what[f.What] = f
	}
	require.Equal(t, "2500 mm, -0 / +1 mm", what["W1 cut length"].Requirement)
	require.NotContains(t, what, "W30 cut length", "one first piece for a set-up of the line")
	require.Equal(t, "0.25 to 0.75 mm", what["S22, MOR-CT-22S, 22 AWG: insulation gap"].Requirement)
	require.Contains(t, what["S22, MOR-CT-22S, 22 AWG: insulation gap"].Source, "NASA-STD-8739.4")
	require.Contains(t, what["N1 to N2 length"].Source, "620B")
}
