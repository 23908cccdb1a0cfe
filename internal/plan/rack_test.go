package plan

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// fewestLoads tries every choice of the position that gives way.
func fewestLoads(types []string, rack []string) int {
	if len(types) == 0 {
		return 0
	}
	if slices.Contains(rack, types[0]) {
		return fewestLoads(types[1:], rack)
	}
	best := 1 << 30
	for i := range rack {
		was := rack[i]
		rack[i] = types[0]
		best = min(best, 1+fewestLoads(types[1:], rack))
		rack[i] = was
	}
	return best
}

func loadsOf(steps []mount) int {
	loads := 0
	for _, step := range steps {
		loads += one(step.load)
	}
	return loads
}

func TestRackLoadsAreFewest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		types := rapid.SliceOfN(rapid.SampledFrom([]string{"a", "b", "c", "d", "e"}), 0, 9).Draw(t, "types")
		positions := rapid.IntRange(1, 3).Draw(t, "positions")
		steps := mounts(types, positions, "")
		require.Equal(t, fewestLoads(types, make([]string, positions)), loadsOf(steps))
		on := make([]string, positions)
		for i, step := range steps {
			if step.load {
				require.NotContains(t, on, types[i])
				on[step.position-1] = types[i]
			}
			require.Equal(t, types[i], on[step.position-1])
		}
	})
}

func TestRackPositions(t *testing.T) {
	steps := mounts(strings.Split("abcab", ""), 2, "")
	require.Equal(t, []mount{{1, true}, {2, true}, {2, true}, {1, false}, {1, true}}, steps,
		"c takes the place of b, which is needed after a; of a and c, never needed again, the lowest position gives way")
}
