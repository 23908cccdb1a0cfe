package plan

import (
	"cmp"
	"slices"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// setting is how the marker is set for a wire.
type setting struct {
	method, ink string
	height      int64
}

// settingOf returns the setting of a wire.
func settingOf(wire *Wire) setting { return setting{wire.Method, wire.Ink, wire.HeightUM} }

// state is how the line is set for a row of the cut list: the reel that runs, and the marker.
type state struct {
	wireType string
	setting
}

func stateOf(wire *Wire) state { return state{wire.Type, settingOf(wire)} }

// part is one part of a state, which a change touches or leaves.
type part uint8

const (
	partReel part = iota
	partMethod
	partInk
	partHeight
)

// same reports whether two states agree in a part.
func (p part) same(a, b state) bool {
	switch p {
	case partReel:
		return a.wireType == b.wireType
	case partMethod:
		return a.method == b.method
	case partInk:
		return a.ink == b.ink
	}
	return a.height == b.height
}

// rung is what it costs to change one part, in milliseconds.
type rung struct {
	part part
	cost int64
}

// ladder holds what the changes cost, the dearest first. A stop of the line costs as much as its dearest change: the others are
// made meanwhile. So the cost between states is an ultrametric: no way round over a third state is cheaper than the dearer half of it.
type ladder []rung

// ladderOfLine returns the costs of the changes on a line. Where the line has one place for a reel, a change is a load. A change
// counts for a millisecond at least, so that fewer are better even where the shop says that they take no time.
func ladderOfLine(line *harness.Line) ladder {
	times := line.ChangeTime
	reel := times.Reel
	if line.Rack <= 1 {
		reel = times.Load
	}
	rungs := ladder{
		{partReel, inMS(reel)}, {partMethod, inMS(times.Method)}, {partInk, inMS(times.Ink)}, {partHeight, inMS(times.Height)},
	}
	slices.SortStableFunc(rungs, func(a, b rung) int { return cmp.Compare(b.cost, a.cost) })
	return rungs
}

// between returns what it costs to go from one state to another.
func (l ladder) between(a, b state) int64 {
	for _, rung := range l {
		if !rung.part.same(a, b) {
			return rung.cost
		}
	}
	return 0
}

func inMS(t units.Time) int64 { return max(int64(t), 1) }

// reelLadder counts reel changes alone.
func reelLadder() ladder { return ladder{{partReel, 1}} }

// table is groups in units, and the states of their rows: each once, in the order taken where costs do not decide, which is by method,
// type, ink and height.
type table struct {
	states []state
	groups []tabled
}

// tabled is a group in units, with the places of the states of its rows in the table.
type tabled struct {
	units  [][]*Wire
	states []int // unit by unit
}

// tableOf tables groups.
func tableOf(groups []ownWires) table {
	t := table{groups: make([]tabled, len(groups))}
	seen := map[state]int{}
	for i, group := range groups {
		units, states := unitsOf(group.wires), make([]int, 0, len(group.wires))
		for _, rows := range units {
			for _, w := range rows {
				s := stateOf(w)
				at, known := seen[s]
				if !known {
					at = len(t.states)
					seen[s], t.states = at, append(t.states, s)
				}
				states = append(states, at)
			}
		}
		t.groups[i] = tabled{units, states}
	}
	t.sort(seen)
	return t
}

// sort brings the states, which stand as they were first seen, into their order.
func (t *table) sort(seen map[state]int) {
	first := t.states
	t.states = slices.SortedFunc(slices.Values(first), compareStates)
	at := make([]int, len(first))
	for place, s := range t.states {
		at[seen[s]] = place
	}
	for _, group := range t.groups {
		for i, s := range group.states {
			group.states[i] = at[s]
		}
	}
}

// chart numbers the states of a job that differ on a ladder, and knows their classes: states of one class on a rung agree in the
// part of this rung and of every dearer one.
type chart struct {
	ladder  ladder
	point   map[state]int
	points  []int     // by place in the table
	states  []state   // by point, the first of several that do not differ
	classes [][]int32 // by point, then by rung
}

// chartOf charts the states of a table.
func chartOf(costs ladder, all []state) *chart {
	c := &chart{ladder: costs, point: make(map[state]int, len(all)), points: make([]int, len(all))}
	type class struct {
		above int32
		like  int // first state of the class
	}
	numbers := map[class]int32{}
	points := map[int32]int{}
	for i, s := range all {
		classes := make([]int32, len(costs))
		above := int32(-1)
		for j, rung := range costs {
			key := class{above, slices.IndexFunc(all[:i+1], func(other state) bool { return rung.part.same(other, s) })}
			if _, known := numbers[key]; !known {
				numbers[key] = int32(len(numbers))
			}
			above = numbers[key]
			classes[j] = above
		}
		if _, known := points[above]; !known {
			points[above] = len(c.states)
			c.states, c.classes = append(c.states, s), append(c.classes, classes)
		}
		c.point[s], c.points[i] = points[above], points[above]
	}
	return c
}

func compareStates(a, b state) int {
	return cmp.Or(cmp.Compare(methodRank(a.method), methodRank(b.method)), naturalCompare(a.wireType, b.wireType),
		cmp.Compare(a.ink, b.ink), cmp.Compare(b.height, a.height))
}

// between returns what it costs to go from one point to another.
func (c *chart) between(a, b int) int64 {
	for j, rung := range c.ladder {
		if c.classes[a][j] != c.classes[b][j] {
			return rung.cost
		}
	}
	return 0
}

// step returns what a change on a rung costs more than one on the next cheaper rung.
func (c *chart) step(j int) int64 {
	if j+1 < len(c.ladder) {
		return c.ladder[j].cost - c.ladder[j+1].cost
	}
	return c.ladder[j].cost
}

// methodOrder is the order in which marking methods are run and listed.
var methodOrder = []harness.Method{
	harness.MethodLaser, harness.MethodInk, harness.MethodTestFirst, harness.MethodSleeve, harness.MethodNone,
}

// methodRank is the place of a method in methodOrder.
func methodRank(method string) int { return slices.Index(methodOrder, harness.Method(method)) }

// one counts a condition.
func one(condition bool) int {
	if condition {
		return 1
	}
	return 0
}
