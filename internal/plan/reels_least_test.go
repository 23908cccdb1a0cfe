package plan

import (
	"cmp"
	"math/bits"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// fewestOfUnequal tries every set of reels and every way to cut the pieces from it; 0 where all reels do not hold them.
func fewestOfUnequal(pieces, rooms []units.Length) int {
	fewest := 0
	for set := 1; set < 1<<len(rooms); set++ {
		var open []units.Length
		for i, room := range rooms {
			if set>>i&1 == 1 {
				open = append(open, room)
			}
		}
		if n := bits.OnesCount(uint(set)); (fewest == 0 || n < fewest) && cutFrom(pieces, open) {
			fewest = n
		}
	}
	return fewest
}

// cutFrom reports whether pieces can be cut from reels.
func cutFrom(pieces, rooms []units.Length) bool {
	if len(pieces) == 0 {
		return true
	}
	for i, room := range rooms {
		if room < pieces[0] {
			continue
		}
		rooms[i] -= pieces[0]
		fits := cutFrom(pieces[1:], rooms)
		rooms[i] += pieces[0]
		if fits {
			return true
		}
	}
	return false
}

func TestNoPlanOpensFewerReelsThanTheBound(t *testing.T) {
	length := func(most int) *rapid.Generator[units.Length] {
		return rapid.Custom(func(t *rapid.T) units.Length { return units.Length(rapid.IntRange(1, most).Draw(t, "length")) })
	}
	met, tight := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		pieces := rapid.SliceOfN(length(60), 1, 7).Draw(t, "pieces")
		rooms := rapid.SliceOfN(length(100), 1, 5).Draw(t, "rooms")
		slices.SortFunc(rooms, func(a, b units.Length) int { return cmp.Compare(b, a) })
		fewest := fewestOfUnequal(pieces, rooms)
		if fewest == 0 {
			return
		}
		least := leastReels(pieces, rooms)
		require.LessOrEqual(t, least, fewest)
		require.Positive(t, least)
		met++
		tight += one(least == fewest)
	})
	require.Greater(t, met, 10)
	t.Logf("%d of %d", tight, met)
	require.Greater(t, 10*tight, 9*met, "the bound is met nine times out of ten: %d of %d", tight, met)
}

// Equal reels: never above the exact number, never below what the sum of the lengths asks for.
func TestTheBoundOfEqualReels(t *testing.T) {
	book := []units.Length{70, 60, 50, 33, 33, 33, 11, 7, 3} // see TestBoundsOfReels
	rooms := []units.Length{100, 100, 100, 100, 100, 100}
	require.Equal(t, 4, leastReels(book, rooms))
	rapid.Check(t, func(t *rapid.T) {
		pieces := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) units.Length { return units.Length(rapid.IntRange(1, 100).Draw(t, "length")) }), 1, 9).Draw(t, "pieces")
		equal := make([]units.Length, len(pieces))
		for i := range equal {
			equal[i] = 100
		}
		require.GreaterOrEqual(t, leastReels(pieces, equal), byPairs(pieces, 100))
		require.LessOrEqual(t, leastReels(pieces, equal), fewestReels(pieces, 100))
	})
}

// TestReelsOfAJobAreComparedWithTheBound holds random jobs to it, whatever the order of their reels.
func TestReelsOfAJobAreComparedWithTheBound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := drawShort(t)
		h.Policy.Reels = rapid.SampledFrom([]string{"fullest first", "emptiest first", "listed"}).Draw(t, "policy")
		p := made(t, h)
		short := map[string]bool{}
		for _, order := range p.ToOrder {
			short[order.Type] = true
		}
		for _, s := range p.Substitutes {
			short[s.Type], short[s.For] = true, true
		}
		opened := 0
		for _, reel := range p.Reels {
			opened += one(!short[reel.Type])
		}
		if opened == 0 {
			require.Nil(t, p.ReelCount)
			return
		}
		require.Equal(t, opened, p.ReelCount.Opened)
		require.LessOrEqual(t, p.ReelCount.Least, opened)
		require.Positive(t, p.ReelCount.Least)
	})
}

func TestReelsOpenedBecauseThePolicyAsksForIt(t *testing.T) {
	h := surveyHarness()
	h.Job.Units = []string{"1"}
	addWire(h, "W1", "E22W", 0, 1, 4*units.Metre)
	addWire(h, "W2", "E22W", 0, 1, 5*units.Metre)
	h.Reels = []harness.Reel{{ID: "R1", Type: "E22W", Left: 5 * units.Metre}, {ID: "R2", Type: "E22W", Left: 90 * units.Metre}}
	h.Policy.Reels = "emptiest first"
	require.Equal(t, &ReelCount{Opened: 2, Least: 1}, made(t, h).ReelCount)
	h.Policy.Reels = "fullest first"
	require.Equal(t, &ReelCount{Opened: 1, Least: 1}, made(t, h).ReelCount)
}
