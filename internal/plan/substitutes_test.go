package plan

import (
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// withSubstitute adds a type that may be cut in place of E22W.
func withSubstitute(h *harness.Harness, id string) {
	other := h.WireTypes[0]
	other.ID, other.Part, other.Substitutes = id, "MOR-CW-"+id, nil
	h.WireTypes[0].Substitutes = append(h.WireTypes[0].Substitutes, harness.Substitute{Type: id, Approved: "deviation " + id})
	h.WireTypes = append(h.WireTypes, other)
}

// drawShort returns a job with reels that may not hold all wires of a type, and two approved substitutes of it.
func drawShort(t *rapid.T) *harness.Harness {
	h := surveyHarness()
	withSubstitute(h, "E22X")
	withSubstitute(h, "E22V")
	h.Job.Units = []string{"1", "2", "3"}[:rapid.IntRange(1, 3).Draw(t, "units")]
	h.Policy.Batch = rapid.IntRange(1, 3).Draw(t, "batch")
	h.Line.Rack = rapid.IntRange(1, 3).Draw(t, "rack")
	for i := range rapid.IntRange(1, 7).Draw(t, "wires") {
		wireType := rapid.SampledFrom([]string{"E22W", "E22W", "E22W", "E22X", "E22K"}).Draw(t, "type")
		length := units.Length(rapid.IntRange(5, 60).Draw(t, "length")) * 100 * units.Millimetre
		addWire(h, "W"+strconv.Itoa(i+1), wireType, rapid.IntRange(0, 3).Draw(t, "from"), rapid.IntRange(0, 3).Draw(t, "to"), length)
	}
	for i := range rapid.IntRange(0, 6).Draw(t, "reels") {
		h.Reels = append(h.Reels, harness.Reel{ID: "R" + strconv.Itoa(i+1), Type: rapid.SampledFrom([]string{"E22W", "E22X", "E22V", "E22K"}).Draw(t, "reel"),
			Left: units.Length(rapid.IntRange(1, 200).Draw(t, "left")) * 100 * units.Millimetre})
	}
	return h
}

// orderedPieces counts the pieces to order of each type.
func orderedPieces(p Plan) map[string]int {
	count := map[string]int{}
	for _, order := range p.ToOrder {
		count[order.Type] = order.Pieces
	}
	return count
}

// unapproved returns a job without any substitute.
func unapproved(h *harness.Harness) *harness.Harness {
	bare := *h
	bare.WireTypes = slices.Clone(h.WireTypes)
	for i := range bare.WireTypes {
		bare.WireTypes[i].Substitutes = nil
	}
	return &bare
}

func TestSubstitutesOnlyWhereOwnReelsAreUsedUp(t *testing.T) {
	met := 0
	rapid.Check(t, func(t *rapid.T) {
		h := drawShort(t)
		without, p := made(t, unapproved(h)), made(t, h)
		was, is := orderedPieces(without), orderedPieces(p)
		for wireType, pieces := range is {
			require.LessOrEqual(t, pieces, was[wireType], "no piece of %s goes short for a substitute", wireType)
		}
		reel, cut, left := map[string]harness.Reel{}, map[string]Wire{}, map[string]int64{}
		for _, r := range h.Reels {
			reel[r.ID], left[r.ID] = r, int64(r.Left)
		}
		for _, w := range p.Wires {
			cut[w.ID] = w
		}
		opened := map[string]bool{}
		for _, piece := range p.Pieces {
			opened[piece.Reel] = true
			left[piece.Reel] -= cut[piece.Wire].CutUM
		}
		replaced := 0
		for _, piece := range p.Pieces {
			w := cut[piece.Wire]
			if piece.Reel == "" || reel[piece.Reel].Type == w.Type {
				require.Nil(t, piece.Substitute)
				continue
			}
			replaced++
			require.Equal(t, "E22W", w.Type)
			require.Equal(t, &InPlace{reel[piece.Reel].Type, "E22W", "deviation " + reel[piece.Reel].Type, piece.Substitute.rank}, piece.Substitute)
			require.True(t, slices.ContainsFunc(h.Reels, func(r harness.Reel) bool { return r.Type == "E22W" }), "where no reel is known nothing is short")
			require.True(t, slices.ContainsFunc(w.Substitutes, func(u UnitInPlace) bool { return u.Unit == piece.Unit && u.InPlace == *piece.Substitute }))
			for _, r := range h.Reels {
				require.False(t, r.Type == "E22W" && !opened[r.ID] && int64(r.Left-h.Line.SetUpScrap) >= w.CutUM, "reel %s is still there for %s", r.ID, w.ID)
			}
		}
		for id, rest := range left {
			require.True(t, id == "" || rest >= 0, "more is cut from %s than it holds", id)
		}
		require.LessOrEqual(t, replaced, was["E22W"], "only what was short")
		if was["E22W"] == 0 {
			require.Empty(t, p.Substitutes)
			require.Equal(t, without.Pieces, p.Pieces, "an approval that is not needed changes nothing")
		}
		if replaced > 0 {
			met++
		}
	})
	require.Positive(t, met, "no job needed a substitute")
}

// One reel of a substitute that has room for all that is short leaves nothing to order.
func TestASubstituteThatHoldsAllLeavesNothingToOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := drawShort(t)
		h.Reels = slices.DeleteFunc(h.Reels, func(r harness.Reel) bool { return r.Type == "E22X" || r.Type == "E22V" })
		h.Reels = append(h.Reels, harness.Reel{ID: "R99", Type: "E22V", Left: 10_000 * units.Metre})
		if slices.ContainsFunc(h.Reels, func(r harness.Reel) bool { return r.Type == "E22W" }) {
			require.Zero(t, orderedPieces(made(t, h))["E22W"])
		}
	})
}

func TestSubstitutesAreTakenInTheOrderGivenAndLoadsSaySo(t *testing.T) {
	h := surveyHarness()
	withSubstitute(h, "E22X")
	withSubstitute(h, "E22V")
	h.Job.Units = []string{"1", "2", "3"}
	h.Policy.Batch = 3
	addWire(h, "W1", "E22W", 0, 1, 4*units.Metre)
	addWire(h, "W2", "E22X", 0, 1, 3*units.Metre)
	h.Reels = []harness.Reel{{ID: "R1", Type: "E22W", Left: 5 * units.Metre}, {ID: "R2", Type: "E22X", Left: 14 * units.Metre}, {ID: "R3", Type: "E22V", Left: 50 * units.Metre}}
	p := made(t, h)
	var run []string
	for _, piece := range p.Pieces {
		run = append(run, piece.Wire+"/"+piece.Unit+" "+piece.Reel)
	}
	// R1 holds one W1 of 4 m. R2 keeps 9 m for W2 of all units and has 14 m less its scrap: one more W1. R3 takes the last one.
	require.ElementsMatch(t, []string{"W1/1 R1", "W1/2 R2", "W1/3 R3", "W2/1 R2", "W2/2 R2", "W2/3 R2"}, run)
	require.Empty(t, p.ToOrder)
	require.Equal(t, []int{1, 1}, []int{p.Substitutes[0].Pieces, p.Substitutes[1].Pieces})
	require.Equal(t, []string{"E22X", "E22V"}, []string{p.Substitutes[0].Type, p.Substitutes[1].Type})
	loads := 0
	for _, step := range p.Groups[0].Steps[0] {
		if step.Kind == StepLoad {
			loads++
			require.Equal(t, step.Reel == "R3", step.Substitute != nil && step.Substitute.Type == "E22V")
		}
	}
	require.Equal(t, p.Changes.Loads, loads)
	require.Equal(t, []string{"E22V", "E22W", "E22X"}, []string{p.Types[0].ID, p.Types[1].ID, p.Types[2].ID})
}

func TestStockIsAccountedForWithSubstitutes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := drawShort(t)
		p := made(t, h)
		stocked, given, supplied, cut := map[string]bool{}, map[string]units.Length{}, map[string]int64{}, map[string]int64{}
		for _, r := range h.Reels {
			stocked[r.Type], given[r.ID] = true, r.Left
		}
		for _, r := range p.Reels {
			require.Equal(t, int64(given[r.ID]), r.UsedUM+r.LeftUM)
			require.GreaterOrEqual(t, r.LeftUM, int64(0))
			supplied[r.Type] += r.UsedUM
		}
		for _, order := range p.ToOrder {
			supplied[order.Type] += order.UM
		}
		lengths := map[string]int64{}
		for _, w := range p.Wires {
			lengths[w.ID] = w.CutUM
		}
		for _, piece := range p.Pieces {
			wireType := wireType(p, piece.Wire)
			if piece.Substitute != nil {
				wireType = piece.Substitute.Type
			}
			cut[wireType] += lengths[piece.Wire]
		}
		scrap := int64(0)
		for _, total := range p.Totals {
			scrap += total.UM - cut[total.Type]
			require.True(t, !stocked[total.Type] || total.UM == supplied[total.Type], total.Type)
		}
		require.Equal(t, int64(p.Changes.Loads)*int64(h.Line.SetUpScrap), scrap, "every load costs its scrap, and nothing else does")
		loads := 0
		for _, g := range p.Groups {
			for _, steps := range g.Steps {
				for _, step := range steps {
					loads += one(step.Kind == StepLoad)
				}
			}
		}
		require.Equal(t, p.Changes.Loads, loads)
	})
}

// Whatever the order in which the reels have the units of a wire cut, it lies in one tray, and that one is under when a row of it is cut.
func TestEveryRowIsCutIntoTheTrayThatHoldsItsWire(t *testing.T) {
	split := 0
	rapid.Check(t, func(t *rapid.T) {
		h := drawShort(t)
		h.Tray.Wires = rapid.IntRange(1, 3).Draw(t, "tray")
		p := made(t, h)
		held := map[string]string{} // tray by unit and wire
		for _, tray := range p.Trays {
			for _, id := range tray.Wires {
				key := tray.Unit + " " + id
				require.Empty(t, held[key], "%s lies in one tray", key)
				held[key] = tray.ID
			}
		}
		require.Len(t, p.Pieces, len(held))
		for _, piece := range p.Pieces {
			require.Equal(t, held[piece.Unit+" "+piece.Wire], piece.Tray)
		}
		for _, g := range p.Groups {
			for list, steps := range g.Steps {
				under := 0
				for _, step := range steps {
					if step.Kind == StepTray {
						under = step.Part - 1
						split++
					}
					for _, unit := range step.Units {
						require.Equal(t, held[unit+" "+step.Wire], trayID(g.Connector, unit, under), "list %d", list)
					}
				}
			}
		}
	})
	require.Positive(t, split)
}
