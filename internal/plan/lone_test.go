package plan

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// cheapestBySets finds the cheapest pass row by row: over the rows of a group that are done and the last of them.
func cheapestBySets(price func(a, b *Wire) int64, groups []ownWires) int64 {
	var before []*Wire
	var costs []int64
	for _, group := range groups {
		n := len(group.wires)
		best := make([][]int64, 1<<n)
		for done := 1; done < 1<<n; done++ {
			best[done] = slices.Repeat([]int64{noWay}, n)
			for last := range n {
				rest := done &^ (1 << last)
				if rest == done {
					continue
				}
				if rest == 0 {
					best[done][last] = entered(price, before, costs, group.wires[last])
				}
				for prior := range n {
					if rest>>prior&1 == 1 && mayFollow(group.wires, rest, prior, last) {
						best[done][last] = min(best[done][last], best[rest][prior]+price(group.wires[prior], group.wires[last]))
					}
				}
			}
		}
		before, costs = group.wires, best[1<<n-1]
	}
	return slices.Min(costs)
}

// entered returns what it costs to start a group with a row.
func entered(price func(a, b *Wire) int64, before []*Wire, costs []int64, first *Wire) int64 {
	if before == nil {
		return 0
	}
	least := noWay
	for i := range before {
		least = min(least, costs[i]+price(before[i], first))
	}
	return least
}

// mayFollow reports whether a row may come next: a unit that was begun is ended first.
func mayFollow(rows []*Wire, done, last, next int) bool {
	unit := rows[last].unit
	if unit == "" || rows[next].unit == unit {
		return true
	}
	for i := range rows {
		if rows[i].unit == unit && done>>i&1 == 0 {
			return false
		}
	}
	return true
}

// aroundUnits draws groups of one or two units among rows of many kinds and two inks, so that most rows stand apart from the units.
func aroundUnits(r *rand.Rand, rows int) []ownWires {
	groups := make([]ownWires, 1+r.IntN(3))
	for g := range groups {
		groups[g].connector = fmt.Sprint("J", g)
		units := 1 + r.IntN(2)
		for i := range units*2 + r.IntN(rows-units*2+1) {
			w := &Wire{ID: fmt.Sprintf("W%d.%d", g, i), Type: string(rune('a' + r.IntN(5))), Method: "ink", Ink: []string{"black", "white"}[r.IntN(2)],
				HeightUM: int64(1 + r.IntN(2))}
			if i < units*2 {
				w.unit = fmt.Sprint("unit ", i/2)
			}
			groups[g].wires = append(groups[g].wires, w)
		}
	}
	return groups
}

func TestRowsAroundUnitsAreOrderedExactly(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 9))
	kept := 0
	for trial := range 1500 {
		prices := [4]int{1 + r.IntN(30), 1 + r.IntN(30), 1 + r.IntN(30), 1 + r.IntN(30)}
		h, groups := changeLine(prices), aroundUnits(r, 8)
		between := func(a, b *Wire) int64 { return price(h, []*Wire{a, b}, "") }
		ordered, out := runOrder(h, groups)
		want := cheapestBySets(between, groups)
		require.Equal(t, want, out.cost, "case %d: %v", trial, groups)
		require.Equal(t, want, out.floor, "case %d", trial)
		require.Equal(t, want, price(h, allRows(ordered), ""), "case %d", trial)
		for i := range groups {
			require.ElementsMatch(t, groups[i].wires, ordered[i].wires, "case %d", trial)
			require.True(t, together(ordered[i].wires), "case %d", trial)
		}
		c, courses := charted(ladderOfLine(&h.Line), tableOf(groups))
		for _, walk := range c.walks(courses, c.run(courses, "")) {
			end := walk[len(walk)-1]
			kept += one(end.run != nil && end.first < 0)
		}
	}
	require.Greater(t, kept, 20, "rows kept for the end of their group")
}

// TestAClassIsKeptForTheEnd runs a group whose first and last reels are given by its neighbours: both rows of the last reel wait for the end.
func TestAClassIsKeptForTheEnd(t *testing.T) {
	row := func(id, kind, ink, unit string) *Wire {
		return &Wire{ID: id, Type: kind, Method: "ink", Ink: ink, HeightUM: 1, unit: unit}
	}
	groups := []ownWires{
		{connector: "J1", wires: []*Wire{row("W1", "z", "black", "")}},
		{connector: "J2", wires: []*Wire{row("W2", "z", "black", ""), row("W3", "a", "black", ""), row("W4", "a", "white", ""),
			row("W5", "x", "black", "T1"), row("W6", "y", "black", "T1")}},
		{connector: "J3", wires: []*Wire{row("W7", "a", "white", "")}},
	}
	ordered, out := runOrder(changeLine([4]int{30, 30, 5, 5}), groups)
	require.EqualValues(t, 95, out.cost)
	var ids []string
	for _, w := range ordered[1].wires {
		ids = append(ids, w.ID)
	}
	require.Equal(t, "W2", ids[0])
	require.Equal(t, []string{"W3", "W4"}, ids[3:])
}
