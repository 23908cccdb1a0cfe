package plan

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// keptFrom is what a job reads of a plan.
func keptFrom(t require.TestingT, p Plan) *harness.KeptPlan {
	kept := &harness.KeptPlan{Number: p.Packet.Number, Part: p.Packet.Part, Revision: p.Packet.Revision, Draft: p.Packet.Draft, Rows: map[string]harness.KeptRow{}}
	for _, w := range p.Wires {
		kept.Rows[w.ID] = harness.KeptRow{Home: w.Home, Type: w.Type, Method: w.Method, Ink: w.Ink, Height: units.Length(w.HeightUM), Code: w.Code.String()}
	}
	for _, c := range p.Cables {
		kept.Rows[c.ID] = harness.KeptRow{Home: c.Home, Type: c.Type, Method: c.Method, Ink: c.Ink, Height: units.Length(c.HeightUM), Code: c.Code.String()}
	}
	for _, g := range p.Groups {
		text, err := json.Marshal(g)
		require.NoError(t, err)
		kept.Groups = append(kept.Groups, harness.KeptGroup{Home: g.Connector, Rows: g.Wires, Text: string(text)})
	}
	return kept
}

// runOf lists the groups of a run with their rows, without some of them; groups that are left empty go.
func runOf(groups []Group, without ...string) [][]string {
	var all [][]string
	for _, g := range groups {
		rows := slices.DeleteFunc(slices.Clone(g.Wires), func(id string) bool { return slices.Contains(without, id) })
		if len(rows) > 0 {
			all = append(all, append([]string{g.Connector}, rows...))
		}
	}
	return all
}

// drawKept draws a job of any policy, without a plan that it is kept to.
func drawKept(t *rapid.T) *harness.Harness {
	h := drawConstructs(t)
	h.Policy.Home = rapid.SampledFrom([]string{"end-a", "board-order", "fewest-changes"}).Draw(t, "any home")
	h.Policy.Order = rapid.SampledFrom([]string{"board", "listed", "free"}).Draw(t, "order")
	if rapid.Bool().Draw(t, "chained") {
		h.Policy.Chains = [][]string{{"J2", "SP1"}, {"J4", "J1", "E1"}}
	}
	return h
}

func TestPlanIsKeptToItself(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := drawKept(t)
		first := made(t, h)
		h.Policy.Kept = keptFrom(t, first)
		h.Policy.Home = rapid.SampledFrom([]string{"end-a", "board-order", "fewest-changes"}).Draw(t, "another home")
		second := made(t, h)
		require.Equal(t, first.Groups, second.Groups)
		require.Equal(t, first.Pieces, second.Pieces)
		require.Equal(t, first.Changes, second.Changes)
		require.Equal(t, first.Trays, second.Trays)
		require.Equal(t, first.Time, second.Time)
		require.Equal(t, first.Wires, second.Wires)
		require.Equal(t, first.Cables, second.Cables)
		k := second.Kept
		require.Empty(t, k.Moved)
		require.Empty(t, k.Added)
		require.Empty(t, k.Removed)
		require.Equal(t, k.Rows, k.SameRows)
		require.Len(t, k.SameGroups, k.Groups)
		if len(first.Groups) > 0 {
			require.Equal(t, []any{first.Changes.Reel, first.Changes.Loads, first.Time.Minutes}, []any{k.Reel, k.Loads, k.Minutes})
		}
		again := keptFrom(t, second)
		require.Equal(t, h.Policy.Kept, again)
	})
}

// requireSound finds what a kept plan owes to any plan: bounds below its cost, units side by side, moves that explain its order.
func requireSound(t *rapid.T, h *harness.Harness, p Plan) {
	require.LessOrEqual(t, p.Changes.Bound, p.Changes.Reel)
	require.LessOrEqual(t, p.Changes.FloorMS, p.Changes.CostMS)
	row := map[string]*Wire{}
	for _, w := range lineRows(p.Wires, p.Cables) {
		row[w.ID] = w
	}
	var moved []string
	for _, m := range p.Kept.Moved {
		moved = append(moved, m.ID)
	}
	for _, g := range p.Groups {
		seen := map[string]bool{}
		for i, id := range g.Wires {
			if unit := row[id].unit; unit != "" && (i == 0 || row[g.Wires[i-1]].unit != unit) {
				require.False(t, seen[unit], "%s is torn apart in %v", unit, g.Wires)
				seen[unit] = true
			}
		}
	}
	require.Equal(t, passPrice(h, p), p.Changes.CostMS)
	stood := map[string]bool{}
	var was []Group
	for _, g := range h.Policy.Kept.Groups {
		was = append(was, Group{Connector: g.Home, Wires: g.Rows})
		for _, id := range g.Rows {
			stood[id] = true
		}
	}
	for _, id := range p.Kept.Added {
		require.False(t, stood[id])
	}
	require.Equal(t, runOf(was, append(moved, p.Kept.Removed...)...), runOf(p.Groups, append(moved, p.Kept.Added...)...),
		"without the rows that moved, came and went, the order is the same")
}

func TestOneWireMoreOrLessMovesNoOther(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		whole := drawKept(t)
		twists := twistsByWire(whole)
		var alone []string
		for i := range whole.Wires {
			if w := &whole.Wires[i]; w.Cable == "" && twists[w.ID] == "" {
				alone = append(alone, w.ID)
			}
		}
		if len(alone) == 0 {
			return
		}
		id := rapid.SampledFrom(alone).Draw(t, "wire")
		less := *whole
		less.Wires = slices.DeleteFunc(slices.Clone(whole.Wires), func(w harness.Wire) bool { return w.ID == id })
		for _, c := range []struct{ before, after *harness.Harness }{{&less, whole}, {whole, &less}} {
			before, h := *c.before, *c.after
			first := made(t, &before)
			h.Policy.Kept = keptFrom(t, first)
			second := made(t, &h)
			require.Equal(t, runOf(first.Groups, id), runOf(second.Groups, id))
			require.Empty(t, second.Kept.Moved)
			requireSound(t, &h, second)
			for _, w := range second.Wires {
				if was, known := h.Policy.Kept.Rows[w.ID]; known {
					require.Equal(t, was.Home, w.Home)
				}
			}
		}
	})
}

func TestAnyRevisionIsKeptSound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		before := drawKept(t)
		h := drawKept(t)
		h.Policy.Kept = keptFrom(t, made(t, before))
		p := made(t, h)
		requireSound(t, h, p)
		require.Equal(t, p.Kept.Rows+len(p.Kept.Added), len(lineRows(p.Wires, p.Cables)))
		for _, m := range p.Kept.Moved {
			if m.Was != m.Is {
				require.Contains(t, []string{MovedEnd, MovedTogether}, m.Why, "%+v", m)
			} else {
				require.Contains(t, []string{MovedGroup, MovedSetting, MovedTogether}, m.Why, "%+v", m)
			}
		}
	})
}

// keptLetters keeps a line to groups of one-letter types as they stand.
func keptLetters(h *harness.Harness, groups []ownWires) {
	h.Policy.Kept = &harness.KeptPlan{Rows: map[string]harness.KeptRow{}}
	for _, g := range groups {
		kept := harness.KeptGroup{Home: g.connector}
		for _, w := range g.wires {
			kept.Rows = append(kept.Rows, w.ID)
			h.Policy.Kept.Rows[w.ID] = harness.KeptRow{Home: g.connector, Type: w.Type, Method: w.Method, Ink: w.Ink, Height: units.Length(w.HeightUM)}
		}
		h.Policy.Kept.Groups = append(h.Policy.Kept.Groups, kept)
	}
}

// passRows lists the rows of a pass.
func passRows(groups []ownWires) []*Wire {
	var rows []*Wire
	for _, g := range groups {
		rows = append(rows, g.wires...)
	}
	return rows
}

func idsOfRows(groups []ownWires) string {
	text := ""
	for _, g := range groups {
		for _, w := range g.wires {
			text += w.ID + " "
		}
		text += "| "
	}
	return text
}

// homed names the home of every row.
func homed(groups []ownWires) []ownWires {
	for g := range groups {
		for i := range groups[g].wires {
			groups[g].wires[i].Home = groups[g].connector
		}
	}
	return groups
}

// shuffledKinds are small groups in any order of their rows, of several types, inks and heights.
func shuffledKinds(r *rand.Rand, most int) []ownWires {
	groups := make([]ownWires, 1+r.IntN(most))
	for g := range groups {
		groups[g].connector = fmt.Sprint("J", g)
		for i := range 1 + r.IntN(4) {
			groups[g].wires = append(groups[g].wires, anyRow(r, fmt.Sprintf("W%d%d", g, i)))
		}
	}
	return homed(groups)
}

func anyRow(r *rand.Rand, id string) *Wire {
	return &Wire{ID: id, Type: string("abc"[r.IntN(3)]), Method: []string{"laser", "ink"}[r.IntN(2)], Ink: []string{"black", "white"}[r.IntN(2)],
		HeightUM: []int64{1200, 1800}[r.IntN(2)]}
}

func TestOneNewWireGoesWhereItCostsLeast(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 1))
	moved := 0
	for range 3000 {
		h := changeLine([4]int{1 + r.IntN(90), 1 + r.IntN(90), 1 + r.IntN(90), 1 + r.IntN(90)})
		h.Policy.Order, h.Line.Mounted = []string{"board", "free"}[r.IntN(2)], []string{"", "a", "b"}[r.IntN(3)]
		groups := shuffledKinds(r, 4)
		keptLetters(h, groups)
		into := r.IntN(len(groups))
		fresh := anyRow(r, "W1")
		fresh.Home = groups[into].connector
		least, latest := int64(-1), ""
		for slot := range len(groups[into].wires) + 1 {
			tried := slices.Clone(groups)
			tried[into].wires = slices.Insert(slices.Clone(groups[into].wires), slot, fresh)
			if cost := price(h, passRows(tried), h.Line.Mounted); least < 0 || cost <= least {
				least, latest = cost, idsOfRows(tried)
			}
		}
		given := slices.Clone(groups)
		given[into].wires = append(slices.Clone(groups[into].wires), fresh)
		got, cost := keptPass(h, given)
		require.Equal(t, least, cost)
		require.Equal(t, latest, idsOfRows(got))
		_, free := cheapestPass(h, given, tableOf(given))
		require.LessOrEqual(t, free.floor, cost)
		moved += one(got[into].wires[len(got[into].wires)-1].ID != "W1")
	}
	require.Greater(t, moved, 500, "the slot is not always the last")
}

func TestNewTwistOrGroupGoesWhereItCostsLeast(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 1))
	for round := range 1500 {
		h := changeLine([4]int{1 + r.IntN(90), 1 + r.IntN(90), 1 + r.IntN(90), 1 + r.IntN(90)})
		h.Policy.Order, h.Line.Mounted = "free", []string{"", "a"}[r.IntN(2)]
		groups := shuffledKinds(r, 4)
		keptLetters(h, groups)
		fresh := []*Wire{anyRow(r, "W1"), anyRow(r, "W2"), anyRow(r, "W3")}[:2+r.IntN(2)]
		given, least := slices.Clone(groups), int64(-1)
		try := func(tried []ownWires) {
			if cost := price(h, passRows(tried), h.Line.Mounted); least < 0 || cost < least {
				least = cost
			}
		}
		if round%2 == 0 { // a twist in a group that stands
			into := r.IntN(len(groups))
			for i := range fresh {
				fresh[i].unit, fresh[i].Home = "twist T", groups[into].connector
			}
			for slot := range len(groups[into].wires) + 1 {
				for _, order := range allOrders(len(fresh)) {
					tried := slices.Clone(groups)
					tried[into].wires = slices.Insert(slices.Clone(groups[into].wires), slot, picked(fresh, order)...)
					try(tried)
				}
			}
			given[into].wires = slices.Concat(groups[into].wires, fresh)
		} else {
			group := homed([]ownWires{{connector: "J9", wires: fresh}})[0]
			if r.IntN(2) == 0 && len(groups) > 1 {
				h.Policy.Chains = [][]string{{groups[0].connector, "J9", groups[1].connector}}
			}
			for gap := range len(groups) + 1 {
				for _, order := range allOrders(len(fresh)) {
					if h.Policy.Chains == nil || gap == 1 {
						try(slices.Insert(slices.Clone(groups), gap, ownWires{"J9", picked(group.wires, order)}))
					}
				}
			}
			given = append([]ownWires{group}, given...)
		}
		got, cost := keptPass(h, given)
		require.Equal(t, least, cost)
		require.Equal(t, cost, price(h, passRows(got), h.Line.Mounted))
	}
}

// allOrders lists the orders of n things.
func allOrders(n int) [][]int {
	if n == 0 {
		return [][]int{{}}
	}
	var all [][]int
	for _, shorter := range allOrders(n - 1) {
		for at := range n {
			all = append(all, slices.Insert(slices.Clone(shorter), at, n-1))
		}
	}
	return all
}

func TestChainsWinOverTheKeptOrder(t *testing.T) {
	h := changeLine([4]int{4, 3, 2, 1})
	h.Policy.Order = "free"
	groups := homed(letterGroups("a b c d"))
	keptLetters(h, groups)
	h.Policy.Chains = [][]string{{"J3", "J2", "J0"}}
	got, _ := keptPass(h, groups)
	require.Equal(t, "W3.0 | W1.0 | W2.0 | W0.0 | ", idsOfRows(got))
	h.Policy.Order = "board"
	got, _ = keptPass(h, []ownWires{groups[1], groups[0], groups[3], groups[2]})
	require.Equal(t, "W1.0 | W0.0 | W3.0 | W2.0 | ", idsOfRows(got), "the board wins, and chains are for a free order")
}

func TestRowOnAnotherReelMovesWhereThatIsCheaper(t *testing.T) {
	h := changeLine([4]int{4, 3, 2, 1})
	groups := homed(letterGroups("aaabbb"))
	keptLetters(h, groups)
	groups[0].wires[1].Type = "b"
	got, cost := keptPass(h, groups)
	require.Equal(t, "W0.0 W0.2 W0.3 W0.4 W0.5 W0.1 | ", idsOfRows(got))
	require.EqualValues(t, 3, cost)
	for i := range 3 { // a type that was given another name stays where it is
		groups[0].wires[i].Type = "c"
	}
	got, _ = keptPass(h, groups)
	require.Equal(t, "W0.0 W0.1 W0.2 W0.3 W0.4 W0.5 | ", idsOfRows(got))
}

func TestHeaviestRisingSequence(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		places := rapid.SliceOfN(rapid.IntRange(0, 6), 0, 9).Draw(t, "places")
		weights := rapid.SliceOfN(rapid.IntRange(0, 4), len(places), len(places)).Draw(t, "weights")
		best := 0
		for set := range 1 << len(places) {
			sum, before, rises := 0, -1, true
			for i, place := range places {
				if set>>i&1 == 1 {
					rises = rises && place > before
					sum, before = sum+weights[i], place
				}
			}
			if rises {
				best = max(best, sum)
			}
		}
		sum, before := 0, -1
		for i, stays := range heaviest(places, weights) {
			if stays {
				require.Greater(t, places[i], before)
				sum, before = sum+weights[i], places[i]
			}
		}
		require.Equal(t, best, sum)
	})
}

func TestPlanWithoutAnEarlierOneSaysNothingOfIt(t *testing.T) {
	text, err := made(t, surveyHarness()).JSON()
	require.NoError(t, err)
	require.False(t, bytes.Contains(text, []byte(`"kept"`)))
}
