package plan

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// randomKinds draws groups of so many of the kinds, each kind one row.
func randomKinds(r *rand.Rand, groups, kinds, fewest, most int) []ownWires {
	all := make([]ownWires, groups)
	for g := range all {
		all[g].connector = fmt.Sprint("J", g)
		for _, kind := range r.Perm(kinds)[:fewest+r.IntN(most-fewest+1)] {
			all[g].wires = append(all[g].wires, &Wire{ID: fmt.Sprintf("W%d.%d", g, kind), Type: fmt.Sprint("T", kind), Method: "laser"})
		}
	}
	return all
}

// freeOf charts groups for reel changes alone.
func freeOf(groups []ownWires, chains [][]int) *freeGroups {
	c, courses := charted(reelLadder(), tableOf(groups))
	return newFreeGroups(c, courses, chains)
}

// keepsChains reports whether an order keeps chains in order.
func keepsChains(order []int, chains [][]int) bool {
	for _, chain := range chains {
		for i := 1; i < len(chain); i++ {
			if slices.Index(order, chain[i-1]) > slices.Index(order, chain[i]) {
				return false
			}
		}
	}
	return true
}

func TestFreeOrdersAreSearchedToTheEnd(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 10))
	for trial := range 60 {
		h, groups := changeLine([4]int{1 + r.IntN(9), 1 + r.IntN(9), 1 + r.IntN(9), 1 + r.IntN(9)}), randomGroups(r, 4, 4)
		for len(groups) < 4 {
			groups = append(groups, randomGroups(r, 4, 4)...)
		}
		groups = groups[:4]
		for i := range groups {
			groups[i].connector = fmt.Sprint("J", i)
		}
		mounted := []string{"", "a"}[r.IntN(2)]
		h.Policy.Order, h.Line.Mounted = "free", mounted
		var chains [][]int
		if r.IntN(2) == 0 {
			chains, h.Policy.Chains = [][]int{{2, 0, 3}}, [][]string{{"J2", "J0", "none", "J3"}}
		}
		want := int64(1) << 60
		permute([]int{0, 1, 2, 3}, func(order []int) {
			if keepsChains(order, chains) {
				want = min(want, cheapestByTrial(h, picked(groups, order), mounted))
			}
		})
		ordered, out := runOrder(h, groups)
		require.Equal(t, want, out.cost, "case %d", trial)
		require.Equal(t, want, out.floor, "case %d", trial)
		require.Equal(t, want, price(h, allRows(ordered), mounted), "case %d", trial)
		require.ElementsMatch(t, allRows(groups), allRows(ordered))
		c, courses := charted(ladderOfLine(&h.Line), tableOf(groups))
		require.LessOrEqual(t, c.freeFloor(courses), want, "case %d", trial)
		heuristic := newFreeGroups(c, courses, chains).good(mounted)
		require.True(t, keepsChains(heuristic, chains))
		require.LessOrEqual(t, want, c.run(picked(courses, heuristic), mounted).cost)
	}
}

// TestTheHeuristicAgainstTheSearch measures what orders more groups than are searched, with a small part of its tries.
func TestTheHeuristicAgainstTheSearch(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 11))
	trailsAlone, equal, worst := 0, 0, int64(0)
	for range 1000 {
		g := freeOf(randomKinds(r, 8, 6, 1, 3), nil)
		_, want := g.exact("")
		require.LessOrEqual(t, g.chart.freeFloor(g.courses), want)
		trails := g.trailOrder([]int{0, 1, 2, 3, 4, 5, 6, 7})
		trailsAlone += one(g.price(trails, "") == want)
		improved := g.price(g.improve(trails, "", 400), "")
		equal += one(improved == want)
		worst = max(worst, improved-want)
	}
	t.Logf("trails alone %d of 1000 optimal; with 400 tries %d, worst +%d", trailsAlone, equal, worst)
	require.GreaterOrEqual(t, trailsAlone, 750)
	require.GreaterOrEqual(t, equal, 980)
	require.LessOrEqual(t, worst, int64(2))
}

func TestManyGroupsOfFewKindsReachTheFloor(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 12))
	groups := randomKinds(r, 5000, 40, 1, 4)
	g := freeOf(groups, nil)
	all := make([]int, len(groups))
	for i := range all {
		all[i] = i
	}
	order := g.trailOrder(all)
	seen := slices.Clone(order)
	slices.Sort(seen)
	require.Equal(t, all, seen)
	require.Equal(t, g.chart.freeFloor(g.courses), g.price(order, ""))
}

func TestGraphsKnownByHand(t *testing.T) {
	rows := func(groups [][]int) []ownWires {
		var all []ownWires
		for g, kinds := range groups {
			own := ownWires{connector: fmt.Sprint("J", g)}
			for _, kind := range kinds {
				own.wires = append(own.wires, &Wire{ID: fmt.Sprint("W", g, ".", kind), Type: fmt.Sprint("T", kind), Method: "laser"})
			}
			all = append(all, own)
		}
		return all
	}
	h := changeLine([4]int{1, 1, 1, 1})
	h.Policy.Order = "free"
	// The complete graph of four points: six lines, four odd points, so two trails: 6 changes inside and 1 between.
	_, out := runOrder(h, rows([][]int{{1, 2}, {1, 3}, {1, 4}, {2, 3}, {2, 4}, {3, 4}}))
	require.Equal(t, outcome{7, 7, 7}, out)
	// The Petersen graph: ten groups of three lines each, which a Hamiltonian path strings without a change between: 10 x 2.
	lines := [][2]int{{0, 1}, {1, 2}, {2, 3}, {3, 4}, {4, 0}, {5, 7}, {7, 9}, {9, 6}, {6, 8}, {8, 5}, {0, 5}, {1, 6}, {2, 7}, {3, 8}, {4, 9}}
	petersen := make([][]int, 10)
	for i, line := range lines {
		petersen[line[0]] = append(petersen[line[0]], i)
		petersen[line[1]] = append(petersen[line[1]], i)
	}
	_, out = runOrder(h, rows(petersen))
	require.Equal(t, outcome{20, 20, 20}, out)
}

func TestChainsAmongManyGroups(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 13))
	equal := 0
	for range 60 {
		groups := randomKinds(r, 9, 6, 1, 3)
		chains := [][]int{{4, 1, 6}, {2, 8}}
		g := freeOf(groups, chains)
		order := g.good("")
		require.True(t, keepsChains(order, chains), "%v", order)
		_, want := g.exact("")
		equal += one(g.price(order, "") == want)
	}
	require.GreaterOrEqual(t, equal, 57, "of 60")
}
