package sheet

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
)

func TestReelPickListNamesEveryReelInOrder(t *testing.T) {
	p := plan.Plan{
		Types:  []plan.WireType{{ID: "E22W", ColourWords: "white", GaugeShort: "22 AWG"}, {ID: "E22K", ColourWords: "black", GaugeShort: "22 AWG"}},
		Totals: []plan.Total{{Type: "E22W", Pieces: 9, UM: 41_800_000, LongestUM: 2_663_000}, {Type: "E22K", Pieces: 1, UM: 1_000_000, LongestUM: 1_000_000}},
		Reels: []plan.Reel{
			{ID: "R2", Type: "E22W", Lot: "A1", Place: "rack 4", UsedUM: 30_000_000, LeftUM: 1_000_000, Scrap: true},
			{ID: "R1", Type: "E22W", UsedUM: 4_400_000, LeftUM: 9_000_000},
		},
		ToOrder: []plan.Order{{Type: "E22W", UM: 7_400_000, Pieces: 3, LongestUM: 2_663_000}},
	}
	var problems problem.List
	sections := reelSections(&p, loadFonts(t), &problems)
	require.Empty(t, problems)
	said := strings.Join(wordsOn(sections[0].pages[0]), "|")
	at := -1
	for _, words := range []string{"E22W", "white", "need 41.8 m with set-up scrap, 9 pieces, longest piece 2663 mm", "1. R2", "lot A1", "rack 4", "use 30.0 m",
		"end 1.0 m: scrap", "2. R1", "left 9.0 m", "ORDER", "7.4 m for 3 pieces, no reel shorter than 2663 mm and its set-up scrap", "E22K", "reel|id"} {
		next := strings.Index(said, words)
		require.Greater(t, next, at, words)
		at = next
	}
	require.Empty(t, reelSections(&plan.Plan{}, loadFonts(t), &problems), "a job that cuts nothing has no list")
}
