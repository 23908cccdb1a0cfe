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

// runOrder puts the rows of every group in the order of the run: the cheapest pass over the groups in their order. Rows of one unit
// stay together.
func runOrder(h *harness.Harness, groups []ownWires) ([]ownWires, outcome) {
	mounted := h.Line.Mounted
	c, courses := charted(ladderOfLine(&h.Line), groups)
	p := c.run(courses, mounted)
	ordered := make([]ownWires, len(groups))
	for i, walk := range c.walks(courses, p) {
		ordered[i] = ownWires{connector: groups[i].connector, wires: c.rows(&courses[i], walk)}
	}
	out := outcome{cost: p.cost, floor: p.cost}
	if !p.exact {
		out.floor = c.floorOf(courses, mounted)
	}
	out.reels = fewestReelChanges(groups, mounted)
	return ordered, out
}

// charted returns the courses of groups on a chart of their states.
func charted(costs ladder, groups []ownWires) (*chart, []course) {
	c := chartOf(costs, groups)
	courses := make([]course, len(groups))
	for i, group := range groups {
		courses[i] = c.courseOf(group.wires)
	}
	return c, courses
}

// fewestReelChanges returns reel changes that no pass over the groups in their order is below; the first load is not counted. It is
// the fewest there are unless a group has too many units to be searched to the end.
func fewestReelChanges(groups []ownWires, mounted string) int {
	c, courses := charted(reelLadder(), groups)
	p := c.run(courses, mounted)
	if p.exact {
		return int(p.cost)
	}
	return int(c.floorOf(courses, mounted))
}

// countChanges recounts the changes from a finished sequence. Loads and Bound are left to the caller.
func countChanges(groups []ownWires) Changes {
	var changes Changes
	var before *Wire
	var ink string
	var height int64
	for _, group := range groups {
		for i := range group.wires {
			wire := &group.wires[i]
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
