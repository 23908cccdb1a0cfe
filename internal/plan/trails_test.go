package plan

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// drawRows draws a group of single rows and units of two or more types, in letters.
func drawRows(t *rapid.T, rows, types, widest int, name string) []Wire {
	letter := func() string { return string(rune('a' + rapid.IntRange(0, types-1).Draw(t, "type"))) }
	var wires []Wire
	for unit := 0; len(wires) < rows; unit++ {
		size := rapid.IntRange(1, min(widest, rows-len(wires))).Draw(t, "unit")
		for range size {
			w := Wire{ID: fmt.Sprintf("%s%d", name, len(wires)), Type: letter(), Method: "laser"}
			if size > 1 {
				w.unit = fmt.Sprintf("unit %d", unit)
			}
			wires = append(wires, w)
		}
	}
	return wires
}

// cheapestRows tries every order of the rows of every group in which units stay together.
func cheapestRows(groups [][]Wire, last string) int {
	if len(groups) == 0 {
		return 0
	}
	best := 1 << 30
	permute(groups[0], func(order []Wire) {
		if !together(order) {
			return
		}
		cost, mounted := 0, last
		for _, row := range order {
			cost += one(mounted != "" && row.Type != mounted)
			mounted = row.Type
		}
		if cost < best {
			best = min(best, cost+cheapestRows(groups[1:], mounted))
		}
	})
	return best
}

// together reports whether the rows of each unit stand side by side.
func together(rows []Wire) bool {
	closed := map[string]bool{}
	for i, row := range rows {
		if i > 0 && row.unit == rows[i-1].unit {
			continue
		}
		if row.unit != "" && closed[row.unit] {
			return false
		}
		closed[row.unit] = true
	}
	return true
}

func asGroups(groups [][]Wire) []ownWires {
	own := make([]ownWires, len(groups))
	for i, rows := range groups {
		own[i] = ownWires{connector: fmt.Sprint(i), wires: rows}
	}
	return own
}

func TestUnitsOfTwoTypesAreArrangedExactly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		groups := [][]Wire{drawRows(t, 5, 4, 2, "a"), drawRows(t, 4, 4, 2, "b")}
		ordered := runOrder(asGroups(groups))
		for i := range groups {
			require.ElementsMatch(t, groups[i], ordered[i].wires)
			require.True(t, together(ordered[i].wires), "%v", ordered[i].wires)
		}
		want := cheapestRows(groups, "")
		require.Equal(t, want, countChanges(ordered).Reel)
		require.Equal(t, want, boundOf(ordered))
	})
}

func TestTheBoundIsNeverAboveTheCheapest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		groups := [][]Wire{drawRows(t, 5, 5, 4, "a"), drawRows(t, 4, 5, 4, "b")}
		ordered := runOrder(asGroups(groups))
		require.True(t, together(ordered[0].wires) && together(ordered[1].wires))
		cheapest, bound := cheapestRows(groups, ""), boundOf(ordered)
		require.LessOrEqual(t, bound, cheapest)
		require.GreaterOrEqual(t, countChanges(ordered).Reel, cheapest)
	})
}

func TestLongGroupsOfUnitsReachTheirCost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var groups [][]Wire
		for i := range rapid.IntRange(1, 6).Draw(t, "groups") {
			groups = append(groups, drawRows(t, rapid.IntRange(1, 30).Draw(t, "rows"), 7, 2, fmt.Sprintf("g%d-", i)))
		}
		ordered := runOrder(asGroups(groups))
		for i := range groups {
			require.ElementsMatch(t, groups[i], ordered[i].wires)
			require.True(t, together(ordered[i].wires))
		}
		require.Equal(t, boundOf(ordered), countChanges(ordered).Reel)
		require.GreaterOrEqual(t, countChanges(ordered).Reel, func() int {
			kinds := make([][]kind, len(groups))
			for i := range groups {
				kinds[i] = kindsOf(groups[i])
			}
			return fewestReelChanges(kinds)
		}(), "units take no freedom that rows do not have")
	})
}

func TestPairsFollowEachOtherOnACommonReel(t *testing.T) {
	pair := func(id, from, to string) []Wire {
		return []Wire{{ID: id + "1", Type: from, Method: "laser", unit: id}, {ID: id + "2", Type: to, Method: "laser", unit: id}}
	}
	var rows []Wire
	for _, p := range [][]Wire{pair("T1", "a", "b"), pair("T2", "c", "d"), pair("T3", "b", "c")} {
		rows = append(rows, p...)
	}
	ordered := runOrder(asGroups([][]Wire{rows}))
	require.Equal(t, []string{"T11", "T12", "T31", "T32", "T21", "T22"}, wireIDs(ordered[0].wires))
	require.Equal(t, Changes{Reel: 3}, countChanges(ordered))
}
