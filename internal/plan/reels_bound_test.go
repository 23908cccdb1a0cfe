package plan

import (
	"math/bits"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"loomleaf/internal/units"
)

// byLength is the least number of equal reels by the sum of the wires alone.
func byLength(lengths []units.Length, reel units.Length) int {
	var sum units.Length
	for _, length := range lengths {
		sum += length
	}
	return int((sum + reel - 1) / reel)
}

// byPairs is the second bound of Martello and Toth, Knapsack Problems, chapter 8 (from memory): wires that leave no room for a
// short one of length a need a reel each, and the others fill what the middle ones leave.
func byPairs(lengths []units.Length, reel units.Length) int {
	best := byLength(lengths, reel)
	for _, a := range append([]units.Length{0}, lengths...) {
		if 2*a > reel {
			continue
		}
		long, middle := 0, 0
		var middles, shorts units.Length
		for _, length := range lengths {
			switch {
			case length > reel-a:
				long++
			case 2*length > reel:
				middle, middles = middle+1, middles+length
			case length >= a:
				shorts += length
			}
		}
		rest := max(0, shorts-(units.Length(middle)*reel-middles))
		best = max(best, long+middle+int((rest+reel-1)/reel))
	}
	return best
}

// fewestReels tries every set of wires on the last reel.
func fewestReels(lengths []units.Length, reel units.Length) int {
	sums, fewest := make([]units.Length, 1<<len(lengths)), make([]int, 1<<len(lengths))
	for set := 1; set < len(fewest); set++ {
		first := bits.TrailingZeros(uint(set))
		sums[set] = sums[set&(set-1)] + lengths[first]
		fewest[set] = len(lengths) + 1
		for on := set; on > 0; on = (on - 1) & set {
			if on>>first&1 == 1 && sums[on] <= reel {
				fewest[set] = min(fewest[set], fewest[set&^on]+1)
			}
		}
	}
	return fewest[len(fewest)-1]
}

func TestBoundsOfReels(t *testing.T) {
	book := []units.Length{70, 60, 50, 33, 33, 33, 11, 7, 3} // example of that book (from memory); the figures are computed
	require.Equal(t, []int{3, 4, 4}, []int{byLength(book, 100), byPairs(book, 100), fewestReels(book, 100)})
	rapid.Check(t, func(t *rapid.T) {
		lengths := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) units.Length { return units.Length(rapid.IntRange(1, 100).Draw(t, "length")) }), 1, 9).Draw(t, "lengths")
		fewest, got := fewestReels(lengths, 100), reelsFor(lengths, 100)
		require.LessOrEqual(t, byLength(lengths, 100), byPairs(lengths, 100))
		require.LessOrEqual(t, byPairs(lengths, 100), fewest)
		require.LessOrEqual(t, fewest, got)
		require.LessOrEqual(t, got, fewest+1)
		turned := slices.Clone(lengths)
		slices.Sort(turned)
		require.LessOrEqual(t, reelsFor(turned, 100), fewest+1)
	})
}
