package plan

import (
	"cmp"

	"loomleaf/internal/harness"
)

// outcome is what the order of a run costs, in milliseconds, and what no order is below.
type outcome struct {
	cost, floor int64
	reels       int // reel changes that no order is below
}

// runOrder puts groups in the order of cheapestPass, or in that of the plan that is kept to, and bounds the cost and the reel changes
// of every order.
func runOrder(h *harness.Harness, groups []ownWires) ([]ownWires, outcome) {
	t := tableOf(groups)
	ordered, out := cheapestPass(h, groups, t)
	out.reels = fewestReelChanges(t, mountedType(h), h.Policy.Order == "free", chainsOf(groups, h.Policy.Chains))
	if h.Policy.Kept != nil {
		ordered, out.cost = keptPass(h, groups)
	}
	return ordered, out
}

// cheapestPass puts the groups, where their order is free, and the rows of every group in the order of the run: the cheapest pass.
// Rows of one unit stay together. The table is that of the groups. Its outcome has no bound of the reel changes.
func cheapestPass(h *harness.Harness, groups []ownWires, t table) ([]ownWires, outcome) {
	free, mounted := h.Policy.Order == "free", mountedType(h)
	c, courses := charted(ladderOfLine(&h.Line), t)
	var out outcome
	if free && len(groups) > 0 {
		order, floor := c.freely(courses, chainsOf(groups, h.Policy.Chains), mounted)
		groups, courses, out.floor = picked(groups, order), picked(courses, order), floor
	}
	p := c.run(courses, mounted)
	ordered := make([]ownWires, len(groups))
	for i, walk := range c.walks(courses, p) {
		ordered[i] = ownWires{connector: groups[i].connector, wires: c.rows(&courses[i], walk)}
	}
	out.cost = p.cost
	switch {
	case free:
	case p.exact:
		out.floor = p.cost
	default:
		out.floor = c.floorOf(courses, mounted, p.width)
	}
	return ordered, out
}

// mountedType returns the type that is on the line when the run starts, "" for none.
func mountedType(h *harness.Harness) string {
	for _, reel := range h.Reels {
		if reel.ID == h.Line.Mounted {
			return reel.Type
		}
	}
	return h.Line.Mounted
}

// freely orders groups, and returns a cost that no order is below: that of the cheapest where it was searched to the end.
func (c *chart) freely(courses []course, chains [][]int, mounted string) (order []int, floor int64) {
	g := newFreeGroups(c, courses, chains)
	if len(courses) > mostExact {
		return g.good(mounted), c.freeFloor(courses)
	}
	order, floor = g.exact(mounted)
	if !c.run(courses, mounted).exact {
		floor = c.freeFloor(courses)
	}
	return order, floor
}

// picked returns items in an order.
func picked[T any](items []T, order []int) []T {
	all := make([]T, len(order))
	for i, at := range order {
		all[i] = items[at]
	}
	return all
}

// chainsOf finds the groups of chains; a connector without a group has no place in one.
func chainsOf(groups []ownWires, chains [][]string) [][]int {
	at := map[string]int{}
	for i, group := range groups {
		at[group.connector] = i
	}
	var all [][]int
	for _, chain := range chains {
		var found []int
		for _, id := range chain {
			if i, owns := at[id]; owns {
				found = append(found, i)
			}
		}
		if len(found) > 1 {
			all = append(all, found)
		}
	}
	return all
}

// charted returns the courses of groups on a chart of their states.
func charted(costs ladder, t table) (*chart, []course) {
	c := chartOf(costs, t.states)
	courses := make([]course, len(t.groups))
	for i, group := range t.groups {
		courses[i] = c.courseOf(group.units, picked(c.points, group.states))
	}
	return c, courses
}

// fewestReelChanges returns reel changes that no pass over the groups is below; the first load is not counted. In a fixed order it is
// the fewest there are unless a group has too many units to be searched to the end, in a free order up to mostExact groups.
func fewestReelChanges(t table, mounted string, free bool, chains [][]int) int {
	c, courses := charted(reelLadder(), t)
	if free && len(courses) > 0 {
		if len(courses) > mostExact {
			return int(c.freeFloor(courses))
		}
		_, floor := c.freely(courses, chains, mounted)
		return int(floor)
	}
	p := c.run(courses, mounted)
	if p.exact {
		return int(p.cost)
	}
	return int(c.floorOf(courses, mounted, p.width))
}

// countChanges recounts the changes from a finished sequence. Loads and Bound are left to the caller.
func countChanges(groups []ownWires) Changes {
	var changes Changes
	var before *Wire
	var ink string
	var height int64
	for _, group := range groups {
		for _, wire := range group.wires {
			if before != nil {
				changes.Reel += one(wire.Type != before.Type)
				changes.Method += one(wire.Method != before.Method)
				changes.Ink += one(wire.Ink != "" && ink != "" && wire.Ink != ink)
				changes.Height += one(wire.HeightUM != 0 && height != 0 && wire.HeightUM != height)
			}
			before, ink, height = wire, cmp.Or(wire.Ink, ink), cmp.Or(wire.HeightUM, height)
		}
	}
	return changes
}
