package plan

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// drawConstructs draws a job with cables, twists, splices, terminals and wires of every supply.
func drawConstructs(t *rapid.T) *harness.Harness {
	h := surveyHarness()
	for i := range h.Board.Nodes {
		h.Board.Nodes[i].X = units.Length(i) * 150 * mm
	}
	h.Line.Rack = rapid.IntRange(1, 3).Draw(t, "rack")
	h.Policy.Home = rapid.SampledFrom([]string{"end-a", "board-order"}).Draw(t, "home")
	h.Policy.Units = rapid.SampledFrom([]string{"together", "one by one"}).Draw(t, "units")
	h.Policy.Batch = rapid.IntRange(1, 5).Draw(t, "batch")
	h.CableTypes = []harness.CableType{shieldedType()}
	for i := range rapid.IntRange(1, 3).Draw(t, "splices") {
		h.Splices = append(h.Splices, harness.Splice{ID: fmt.Sprintf("SP%d", i+1), Node: "N2", Towards: "N3", Strip: 8 * mm,
			Offset: units.Length(rapid.IntRange(0, 150).Draw(t, "offset")) * mm, Stage: harness.StageBoard, Sides: [][]string{nil, nil}})
	}
	for i := range rapid.IntRange(1, 3).Draw(t, "terminals") {
		h.Terminals = append(h.Terminals, harness.Terminal{ID: fmt.Sprintf("E%d", i+1), Kind: "ring M5", Node: rapid.SampledFrom([]string{"N1", "N4"}).Draw(t, "at"),
			Tail: 60 * mm, Strip: 6 * mm, Barrel: 6 * mm})
	}
	h.Studs = []harness.Stud{{ID: "G2", Stack: []string{"E1"}}, {ID: "G1", Stack: []string{"nut"}}}
	drawCables(t, h)
	supplies := []harness.Supply{"", "", "", harness.SupplyReel, harness.SupplyExisting, harness.SupplyBought, harness.SupplyWithPart}
	for i := range rapid.IntRange(0, 10).Draw(t, "wires") {
		w := wireBetween(fmt.Sprintf("W%d", i+1), drawType(t, h), drawEnd(t, h, "a"), drawEnd(t, h, "b"))
		w.Supply, w.Measure = rapid.SampledFrom(supplies).Draw(t, "supply"), rapid.IntRange(0, 5).Draw(t, "measure") == 0
		if w.A.Body() == "" && w.B.Body() == "" {
			w.A = benchEnd(h, 0)
		}
		h.Wires = append(h.Wires, w)
	}
	for i := range rapid.IntRange(0, 3).Draw(t, "twists") {
		twist := harness.Twist{ID: fmt.Sprintf("T%d", i+1), Lay: 25 * mm}
		for k := range rapid.IntRange(2, 3).Draw(t, "twisted") {
			id := fmt.Sprintf("W%d", 100+10*i+k)
			h.Wires = append(h.Wires, wireBetween(id, drawType(t, h), benchEnd(h, rapid.IntRange(0, 3).Draw(t, "from")), drawEnd(t, h, "to")))
			twist.Wires = append(twist.Wires, id)
		}
		h.Twists = append(h.Twists, twist)
	}
	for i := range h.Wires {
		for _, end := range []*harness.End{&h.Wires[i].A, &h.Wires[i].B} {
			for s := range h.Splices {
				if end.Splice == h.Splices[s].ID {
					h.Splices[s].Sides[i%2] = append(h.Splices[s].Sides[i%2], h.Wires[i].ID)
				}
			}
		}
	}
	return h
}

func drawType(t *rapid.T, h *harness.Harness) string {
	return h.WireTypes[rapid.IntRange(0, 2).Draw(t, "type")].ID
}

func drawEnd(t *rapid.T, h *harness.Harness, name string) harness.End {
	switch rapid.IntRange(0, 6).Draw(t, name) {
	case 0:
		return atSplice(h.Splices[rapid.IntRange(0, len(h.Splices)-1).Draw(t, "splice")].ID)
	case 1:
		return atTerminal(h.Terminals[rapid.IntRange(0, len(h.Terminals)-1).Draw(t, "terminal")].ID)
	case 2:
		return harness.End{Kind: harness.EndCapped, Node: "N3", Free: 90 * mm}
	case 3:
		return harness.End{Kind: harness.EndLeaves, Node: "N4", Free: 300 * mm}
	}
	return benchEnd(h, rapid.IntRange(0, 3).Draw(t, "connector"))
}

// drawCables draws cables from J2 at one end of the board to where their cores go, each 300 mm at least.
func drawCables(t *rapid.T, h *harness.Harness) {
	for i := range rapid.IntRange(0, 3).Draw(t, "cables") {
		c := harness.Cable{ID: fmt.Sprintf("C%d", i+1), Type: "TSP24", Measure: rapid.IntRange(0, 5).Draw(t, "measured") == 0,
			Supply: rapid.SampledFrom([]harness.Supply{"", "", harness.SupplyReel, harness.SupplyBought}).Draw(t, "cable supply"),
			A:      harness.CableEnd{JacketOff: 40 * mm, Shield: "cut back"}, B: harness.CableEnd{JacketOff: 40 * mm, Shield: "cut back"}}
		for side, end := range []*harness.CableEnd{&c.A, &c.B} {
			if rapid.Bool().Draw(t, "pigtail") {
				end.Shield, end.Pigtail = "pigtail", &harness.Pigtail{Type: drawType(t, h), Length: 120 * mm, To: benchEnd(h, side*2)}
			}
		}
		for core := range rapid.IntRange(1, 4).Draw(t, "cores") {
			end := benchEnd(h, rapid.IntRange(2, 3).Draw(t, "core to"))
			end.TailExtra = units.Length(rapid.IntRange(0, 40).Draw(t, "extra")) * mm
			h.Wires = append(h.Wires, harness.Wire{ID: fmt.Sprintf("W%d", 500+10*i+core), Cable: c.ID, Core: fmt.Sprint(core + 1), A: benchEnd(h, 0), B: end})
		}
		h.Cables = append(h.Cables, c)
	}
}

// requireAnyOrder shuffles the rows of every table and finds a plan that is not the same to the letter.
func requireAnyOrder(t *rapid.T, h *harness.Harness) {
	want, err := made(t, h).JSON()
	require.NoError(t, err)
	h.Wires = rapid.Permutation(h.Wires).Draw(t, "wires in order")
	h.Cables = rapid.Permutation(h.Cables).Draw(t, "cables in order")
	h.Splices = rapid.Permutation(h.Splices).Draw(t, "splices in order")
	h.Terminals = rapid.Permutation(h.Terminals).Draw(t, "terminals in order")
	h.Studs = rapid.Permutation(h.Studs).Draw(t, "studs in order")
	h.Twists = rapid.Permutation(h.Twists).Draw(t, "twists in order")
	for i := range h.Twists {
		h.Twists[i].Wires = rapid.Permutation(h.Twists[i].Wires).Draw(t, "twisted in order")
	}
	h.Reels = rapid.Permutation(h.Reels).Draw(t, "reels in order")
	h.WireTypes = rapid.Permutation(h.WireTypes).Draw(t, "types in order")
	h.Connectors = rapid.Permutation(h.Connectors).Draw(t, "connectors in order")
	h.Board.Nodes = rapid.Permutation(h.Board.Nodes).Draw(t, "nodes in order")
	h.Board.Segments = rapid.Permutation(h.Board.Segments).Draw(t, "segments in order")
	got, err := made(t, h).JSON()
	require.NoError(t, err)
	require.Equal(t, string(want), string(got))
}

func TestOrderOfAllRowsDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := drawConstructs(t)
		requireAnyOrder(t, h)
	})
}

func TestEveryConstructStandsWhereItBelongs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := drawConstructs(t)
		p := made(t, h)
		require.LessOrEqual(t, p.Changes.Bound, p.Changes.Reel)
		require.LessOrEqual(t, p.Changes.FloorMS, p.Changes.CostMS)
		require.Equal(t, p.Changes.Proved, p.Changes.FloorMS == p.Changes.CostMS)
		checkWires(t, p)
		checkPieces(t, h, p)
		checkTogether(t, p)
		checkCodes(t, p)
	})
}

// checkWires counts every wire once, and every core in one cable.
func checkWires(t *rapid.T, p Plan) {
	ids, cores := map[string]int{}, map[string]string{}
	for _, w := range p.Wires {
		ids[w.ID]++
		require.Equal(t, w.onLine(), w.CutUM > 0, w.ID)
		var sum int64
		for _, term := range w.Terms {
			sum += term.UM
		}
		require.Equal(t, w.CutUM, sum, w.ID)
	}
	for id, count := range ids {
		require.Equal(t, 1, count, id)
	}
	for _, c := range p.Cables {
		for _, core := range c.Cores {
			require.NotContains(t, cores, core)
			cores[core] = c.ID
		}
		require.Equal(t, 4, len(c.Cores)+len(c.Spare))
	}
	for _, w := range p.Wires {
		require.Equal(t, w.Cable, cores[w.ID], w.ID)
		if w.Cable != "" && w.onLine() {
			require.True(t, w.A.TrimUM == 0 || w.B.TrimUM >= 0)
		}
	}
}

// checkPieces compares pieces, groups, trays and totals with what the line cuts.
func checkPieces(t *rapid.T, h *harness.Harness, p Plan) {
	cuts, typeOf := map[string]int64{}, map[string]string{}
	for _, w := range p.Wires {
		if w.onLine() {
			cuts[w.ID], typeOf[w.ID] = w.CutUM, w.Type
		}
	}
	for _, c := range p.Cables {
		if c.onLine() {
			cuts[c.ID], typeOf[c.ID] = c.CutUM, c.Type
		}
	}
	var grouped, trayed []string
	for _, g := range p.Groups {
		grouped = append(grouped, g.Wires...)
	}
	for _, tray := range p.Trays {
		if tray.Unit == h.Job.Units[0] {
			trayed = append(trayed, tray.Wires...)
		}
	}
	require.Equal(t, grouped, trayed)
	require.Len(t, grouped, len(cuts))
	pieces, count := map[string]int{}, 0
	for _, piece := range p.Pieces {
		require.Contains(t, cuts, piece.Wire)
		pieces[typeOf[piece.Wire]]++
		count++
	}
	require.Equal(t, len(cuts)*len(h.Job.Units), count)
	for _, total := range p.Totals {
		require.Equal(t, pieces[total.Type], total.Pieces)
	}
	for _, apart := range p.Apart {
		require.NotContains(t, cuts, apart.ID)
	}
}

// checkTogether finds twists, and cables with their pigtails, on adjacent rows of one group.
func checkTogether(t *rapid.T, p Plan) {
	group, place := map[string]string{}, map[string]int{}
	for _, g := range p.Groups {
		for i, id := range g.Wires {
			group[id], place[id] = g.Connector, i
		}
	}
	units := map[string][]string{}
	for _, w := range p.Wires {
		if w.Twist != "" && w.onLine() {
			units[w.Twist] = append(units[w.Twist], w.ID)
		}
	}
	for _, c := range p.Cables {
		for _, id := range []string{c.ID, c.A.Pigtail, c.B.Pigtail} {
			if id != "" && c.onLine() {
				units[c.ID] = append(units[c.ID], id)
			}
		}
	}
	for name, ids := range units {
		var places []int
		for _, id := range ids {
			require.Equal(t, group[ids[0]], group[id], name)
			places = append(places, place[id])
		}
		require.Equal(t, len(ids)-1, slices.Max(places)-slices.Min(places), name)
	}
}

// checkCodes finds a row of the codes map for every wire, cable and joint, and no string twice.
func checkCodes(t *rapid.T, p Plan) {
	named, seen := map[string]int{}, map[string]bool{}
	for _, row := range p.CodeRows() {
		require.False(t, seen[row.Code], row.Name)
		seen[row.Code] = true
		named[row.Kind+" "+row.Name]++
	}
	for _, w := range p.Wires {
		require.Equal(t, 1, named["wire "+w.ID], w.ID)
	}
	for _, c := range p.Cables {
		require.Equal(t, 1, named["wire "+c.ID], c.ID)
	}
	for _, j := range p.Joints {
		want := len(p.Packet.Units)
		if j.Kind == "stud" {
			want = 0
		}
		require.Equal(t, want, named["landing "+j.ID], j.ID)
	}
}
