package plan

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

func TestReelsAreUsedOneAfterAnother(t *testing.T) {
	h := surveyHarness()
	h.Job.Units = []string{"1", "2", "3"}
	h.Policy.Remnant = 2 * units.Metre
	addWire(h, "W1", "E22W", 0, 1, 4*units.Metre)
	addWire(h, "W2", "E22W", 0, 1, 5*units.Metre)
	h.Reels = []harness.Reel{
		{ID: "R10", Type: "E22W", Left: 9 * units.Metre}, {ID: "R2", Type: "E22W", Left: 9 * units.Metre},
		{ID: "R3", Type: "E22W", Left: 12 * units.Metre}, {ID: "R4", Type: "E22K", Left: 90 * units.Metre},
	}
	p, problems := Make(h, nil)
	// With 0.1 m of scrap at each load: R3 is filled best by W2 of 1, 2 (10.1 m), R2 by W1 of 1, 2 (8.1 m). Then R10 takes W2 of
	// unit 3 (5.1 m) and has 3.9 m left, too little for W1 of unit 3, which comes from new wire.
	require.Equal(t, []Reel{
		{ID: "R3", Type: "E22W", Wires: []string{"W2"}, UsedUM: 10_100_000, LeftUM: 1_900_000, Scrap: true, Pieces: 2, LongestUM: 5_000_000, Substitutes: []InPlace{}},
		{ID: "R2", Type: "E22W", Wires: []string{"W1"}, UsedUM: 8_100_000, LeftUM: 900_000, Scrap: true, Pieces: 2, LongestUM: 4_000_000, Substitutes: []InPlace{}},
		{ID: "R10", Type: "E22W", Wires: []string{"W2"}, UsedUM: 5_100_000, LeftUM: 3_900_000, Pieces: 1, LongestUM: 5_000_000, Substitutes: []InPlace{}},
	}, p.Reels)
	require.Equal(t, []Order{{Type: "E22W", UM: 4_100_000, Pieces: 1, LongestUM: 4_000_000}}, p.ToOrder, "W1 of unit 3")
	require.Equal(t, `the reels of wire type "E22W" are 4.1 m short of what the job cuts`, problems.Warnings()[0].Text)
	rows := p.Groups[0].Steps
	require.Equal(t, []Step{{Kind: StepWire, Wire: "W2", Units: []string{"1", "2"}}, {Kind: StepWire, Wire: "W1", Units: []string{"1", "2"}}},
		[]Step{rows[0][1], rows[0][3]}, "the order follows the reels")
	require.Equal(t, "R10", rows[1][0].Reel)
	require.Equal(t, StepLoad, rows[1][2].Kind)
	require.Equal(t, []string{"", "R2"}, p.Groups[0].StillOn)
}

func TestLongestPieceWithoutAReel(t *testing.T) {
	h := surveyHarness()
	h.Job.Units = []string{"1"}
	addWire(h, "W1", "E22W", 0, 1, 20*units.Metre)
	addWire(h, "W2", "E22W", 0, 1, 2*units.Metre)
	h.Reels = []harness.Reel{{ID: "R1", Type: "E22W", Left: 20 * units.Metre}}
	p, problems := Make(h, nil)
	require.Equal(t, []Order{{Type: "E22W", UM: 20_100_000, Pieces: 1, LongestUM: 20_000_000}}, p.ToOrder)
	require.Equal(t, []Reel{{ID: "R1", Type: "E22W", Wires: []string{"W2"}, UsedUM: 2_100_000, LeftUM: 17_900_000, Pieces: 1, LongestUM: 2_000_000, Substitutes: []InPlace{}}}, p.Reels)
	warnings := problems.Warnings()
	require.Equal(t, "reel-too-short", warnings[0].Check)
	require.Equal(t, `no reel of wire type "E22W" holds its longest piece, wire "W1": 20.1 m with the set-up scrap`, warnings[0].Text)
}

func TestStockIsAccountedFor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := drawHarness(t)
		p := made(t, h)
		cut := map[string]int64{}
		for _, wire := range p.Wires {
			cut[wire.ID] = wire.CutUM
		}
		typeOf, left := map[string]string{}, map[string]int64{}
		for _, reel := range h.Reels {
			typeOf[reel.ID], left[reel.ID] = reel.Type, int64(reel.Left)
		}
		supplied := map[string]int64{}
		for _, reel := range p.Reels {
			require.Equal(t, typeOf[reel.ID], reel.Type)
			require.Equal(t, left[reel.ID], reel.UsedUM+reel.LeftUM)
			require.GreaterOrEqual(t, reel.LeftUM, int64(0))
			require.NotEmpty(t, reel.Wires)
			supplied[reel.Type] += reel.UsedUM
		}
		stocked := map[string]bool{}
		for _, reel := range h.Reels {
			stocked[reel.Type] = true
		}
		for _, order := range p.ToOrder {
			require.True(t, stocked[order.Type])
			supplied[order.Type] += order.UM
		}
		scrap := int64(0)
		pieces := map[string]int64{}
		for _, piece := range p.Pieces {
			pieces[wireType(p, piece.Wire)] += cut[piece.Wire]
		}
		for _, total := range p.Totals {
			scrap += total.UM - pieces[total.Type]
			if stocked[total.Type] {
				require.Equal(t, total.UM, supplied[total.Type])
			}
		}
		require.Equal(t, int64(p.Changes.Loads)*int64(h.Line.SetUpScrap), scrap, "every load costs its scrap, and nothing else does")
	})
}

func wireType(p Plan, id string) string {
	for _, wire := range p.Wires {
		if wire.ID == id {
			return wire.Type
		}
	}
	return ""
}

func TestReelsAreLeftInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := made(t, drawHarness(t))
		last := map[string]string{}
		done := map[string]bool{}
		for _, piece := range p.Pieces {
			if piece.Reel == "" {
				continue
			}
			require.False(t, done[piece.Reel], "a reel that was left is not used again")
			wire := wireType(p, piece.Wire)
			if before := last[wire]; before != "" && before != piece.Reel {
				done[before] = true
			}
			last[wire] = piece.Reel
		}
	})
}
