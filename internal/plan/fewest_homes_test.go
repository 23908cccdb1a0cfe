package plan

import (
	"fmt"
	"math/bits"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/units"
)

// smallestCover tries every set of places.
func smallestCover(n int, ties [][2]int, forced uint) int {
	best := n
	for set := range uint(1) << n {
		if set&forced != forced {
			continue
		}
		covers := true
		for _, t := range ties {
			covers = covers && (set>>t[0]&1 == 1 || set>>t[1]&1 == 1)
		}
		if covers {
			best = min(best, bits.OnesCount(set))
		}
	}
	return best
}

func TestFewPlacesOwnAType(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 20))
	equal, twoSided := 0, 0
	for trial := range 1500 {
		n := 3 + r.IntN(7)
		ranks, place := map[string]rank{}, func(i int) string { return fmt.Sprint("J", i) }
		for i := range n {
			ranks[place(i)] = rank{0, i}
		}
		var ties []tie
		var pairs [][2]int
		sides := r.IntN(2) == 0
		for range 2 + r.IntN(14) {
			a, b := r.IntN(n), r.IntN(n)
			if a == b || sides && a%2 == b%2 {
				continue
			}
			ties, pairs = append(ties, tie{len(ties), [2]string{place(a), place(b)}}), append(pairs, [2]int{a, b})
		}
		forced, mask := map[string]bool{}, uint(0)
		if r.IntN(2) == 0 {
			forced[place(1)], mask = true, 2
		}
		owners := coverOf(ties, forced, ranks)
		for _, t2 := range ties {
			require.True(t, owners[t2.ends[0]] || owners[t2.ends[1]], "case %d", trial)
		}
		want := smallestCover(n, pairs, mask)
		require.GreaterOrEqual(t, len(owners), want)
		if sides {
			twoSided++
			require.Equal(t, want, len(owners), "case %d: exact where all ties go from one side to the other", trial)
		}
		equal += one(len(owners) == want)
	}
	require.Greater(t, twoSided, 500)
	require.Greater(t, equal, 1450, "of 1500")
}

func TestFewestChangesHoldsLocksAndGivesEachWireAnEnd(t *testing.T) {
	h := surveyHarness()
	addWire(h, "W1", "E22W", 0, 2, units.Metre)
	addWire(h, "W2", "E22W", 1, 2, units.Metre)
	addWire(h, "W3", "E22W", 3, 2, units.Metre)
	addWire(h, "W4", "E22K", 0, 1, units.Metre)
	h.Wires[3].Home = "J1"
	h.Policy.Home = "fewest-changes"
	p := made(t, h)
	homes := map[string]string{}
	for _, w := range p.Wires {
		homes[w.ID] = w.Home
	}
	require.Equal(t, map[string]string{"W1": "P1", "W2": "P1", "W3": "P1", "W4": "J1"}, homes, "P1 touches every white wire")
}
