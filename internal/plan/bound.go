package plan

import "slices"

// boundOf returns reel changes that no plan with these groups in this order can be below. Where no unit has more than two types it is
// the fewest there are. Else it is the larger of two counts: the fewest if all rows could go anywhere in their groups; and the
// changes inside the units, one for each type that stands in none of them, and one for each seam of groups without a common type.
func boundOf(groups []ownWires) int {
	graphs, kinds := make([]kindGraph, len(groups)), make([][]kind, len(groups))
	small, rigid := true, false
	for i, group := range groups {
		graphs[i], kinds[i] = graphOf(group.wires), kindsOf(group.wires)
		for _, b := range graphs[i].blocks {
			small, rigid = small && b.changes == 1, true
		}
	}
	if !rigid {
		return fewestReelChanges(kinds)
	}
	if _, fewest := bestEnders(graphs); small {
		return fewest
	}
	inside := 0
	for i, graph := range graphs {
		inside += graph.least() + one(i > 0 && !shareKind(kinds[i-1], kinds[i]))
	}
	return max(inside, fewestReelChanges(kinds))
}

// least returns reel changes that every pass over the group has.
func (g kindGraph) least() int {
	if len(g.blocks) == 0 {
		return len(g.kinds) - 1
	}
	inBlocks, changes := map[string]bool{}, 0
	for _, b := range g.blocks {
		changes += b.changes
		for _, row := range b.rows {
			inBlocks[row.Type] = true
		}
	}
	for _, kind := range g.kinds {
		changes += one(!inBlocks[kind.wireType])
	}
	return changes
}

// shareKind reports whether two groups have a type in common.
func shareKind(a, b []kind) bool {
	return slices.ContainsFunc(a, func(k kind) bool {
		return slices.ContainsFunc(b, func(other kind) bool { return other.wireType == k.wireType })
	})
}

// fewestReelChanges returns the fewest reel changes of any pass over the groups in their order, the first load not counted.
// It is the plain dynamic programme over the type mounted at the end of each group, and so a check on arrange.
func fewestReelChanges(groups [][]kind) int {
	cost := map[string]int{} // reel changes so far, by the type mounted last
	cheapest := 0
	for i, kinds := range groups {
		enter := func(k kind) int {
			stay, mounted := cost[k.wireType]
			switch {
			case i == 0:
				return 0
			case mounted:
				return min(stay, cheapest+1)
			}
			return cheapest + 1
		}
		after := map[string]int{}
		for l, last := range kinds {
			for f, first := range kinds {
				if f == l && len(kinds) > 1 {
					continue
				}
				total := enter(first) + len(kinds) - 1
				if known, found := after[last.wireType]; !found || total < known {
					after[last.wireType] = total
				}
			}
		}
		cost, cheapest = after, after[kinds[0].wireType]
		for _, kind := range kinds {
			cheapest = min(cheapest, cost[kind.wireType])
		}
	}
	return cheapest
}
