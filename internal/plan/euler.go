package plan

import (
	"cmp"
	"slices"
)

// reelRung is the rung of the ladder on which reels part.
func (c *chart) reelRung() int {
	return slices.IndexFunc(c.ladder, func(r rung) bool { return r.part == partReel })
}

// classesOf returns the classes of a group on a rung, each once, ascending.
func (c *chart) classesOf(k *course, rung int) []int {
	var classes []int
	for _, p := range k.points {
		classes = append(classes, int(c.classes[p][rung]))
	}
	slices.Sort(classes)
	return slices.Compact(classes)
}

// trailGraph is groups as lines between the reels that they start and end with. Groups that follow each other without a change make
// a trail: a walk over lines, each once. A group of one reel is a line from a point to itself, one of two a line between them;
// of more reels it picks two.
type trailGraph struct {
	kinds [][]int  // by group: its points
	picks [][2]int // by group: the ends of its line
	odd   map[int]bool
}

// trailOrder orders groups in as few trails as it finds.
func (g *freeGroups) trailOrder(groups []int) []int {
	rung := g.chart.reelRung()
	t := trailGraph{odd: map[int]bool{}}
	for _, i := range groups {
		t.kinds = append(t.kinds, g.chart.classesOf(&g.courses[i], rung))
	}
	t.pick()
	t.mend()
	var order []int
	for _, trail := range t.trails() {
		for _, i := range trail {
			order = append(order, groups[i])
		}
	}
	return order
}

// toggle adds or takes away a line end.
func (t *trailGraph) toggle(point int) {
	if t.odd[point] {
		delete(t.odd, point)
		return
	}
	t.odd[point] = true
}

// pick lays the lines: first those that have no choice, then the others, those of few reels first, so that few points are left with
// an odd number of ends, and parts hang together.
func (t *trailGraph) pick() {
	knots := newKnots()
	t.picks = make([][2]int, len(t.kinds))
	order := make([]int, len(t.kinds))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(len(t.kinds[a]), len(t.kinds[b])) })
	for _, i := range order {
		kinds, best := t.kinds[i], -1
		for a := range kinds {
			for b := a + min(1, len(kinds)-1); b < len(kinds); b++ {
				x, y := kinds[a], kinds[b]
				score := 2*(one(t.odd[x])+one(t.odd[y])) + one(knots.find(x) != knots.find(y))
				if score > best {
					t.picks[i], best = [2]int{x, y}, score
				}
			}
		}
		t.toggle(t.picks[i][0])
		t.toggle(t.picks[i][1])
		knots.tie(t.picks[i][0], t.picks[i][1])
	}
}

// mend takes away odd points in pairs: a group that picks another of its reels moves an odd end from one point to another, and a chain
// of such moves may bring it to a second odd point.
func (t *trailGraph) mend() {
	holders := map[int][]int{} // by point: groups of three reels or more that hold it
	for i, kinds := range t.kinds {
		if len(kinds) > 2 {
			for _, kind := range kinds {
				holders[kind] = append(holders[kind], i)
			}
		}
	}
	tried := map[int]bool{}
	for {
		start, found := -1, false
		for point := range t.odd {
			if !tried[point] && (!found || point < start) {
				start, found = point, true
			}
		}
		if !found {
			return
		}
		tried[start] = true
		t.mendFrom(start, holders)
	}
}

// move is a group that gives up one end of its line for another point.
type move struct{ group, from, to int }

// mendFrom looks for a chain of moves from an odd point to another, the shortest first.
func (t *trailGraph) mendFrom(start int, holders map[int][]int) {
	came := map[int][]move{start: {}}
	for queue := []int{start}; len(queue) > 0; queue = queue[1:] {
		here := queue[0]
		for _, i := range holders[here] {
			if slices.Contains(t.picks[i][:], here) || slices.ContainsFunc(came[here], func(m move) bool { return m.group == i }) {
				continue
			}
			for _, end := range t.picks[i] {
				if _, known := came[end]; known {
					continue
				}
				came[end] = append(slices.Clone(came[here]), move{i, end, here})
				if t.odd[end] {
					t.apply(came[end])
					return
				}
				queue = append(queue, end)
			}
		}
	}
}

func (t *trailGraph) apply(moves []move) {
	for _, m := range moves {
		at := slices.Index(t.picks[m.group][:], m.from)
		t.picks[m.group][at] = m.to
		t.toggle(m.from)
		t.toggle(m.to)
	}
}

// trails walks each part that hangs together, with as many jumps between odd points as it needs, and parts the walk there.
func (t *trailGraph) trails() [][]int {
	knots := newKnots()
	points := []int{}
	for _, pick := range t.picks {
		knots.tie(pick[0], pick[1])
		points = append(points, pick[0], pick[1])
	}
	slices.Sort(points)
	at := map[int][]int{} // line ends by point; a jump is a number below zero
	ends := slices.Clone(t.picks)
	for i, pick := range t.picks {
		at[pick[0]] = append(at[pick[0]], i)
		if pick[0] != pick[1] {
			at[pick[1]] = append(at[pick[1]], i)
		}
	}
	odd, parts := map[int][]int{}, []int{}
	for _, p := range slices.Compact(points) {
		root := knots.find(p)
		if root == p {
			parts = append(parts, p)
		}
		if t.odd[p] {
			odd[root] = append(odd[root], p)
		}
	}
	var trails [][]int
	for _, root := range parts {
		start := root
		if len(odd[root]) > 0 {
			start = odd[root][0]
			for pair := range slices.Chunk(odd[root][1:len(odd[root])-1], 2) {
				at[pair[0]], at[pair[1]] = append(at[pair[0]], len(ends)), append(at[pair[1]], len(ends))
				ends = append(ends, [2]int{pair[0], pair[1]})
			}
		}
		trails = append(trails, parted(tour(at, ends, start), len(t.picks))...)
	}
	return trails
}

// parted cuts a walk at its jumps: the lines from a number on.
func parted(walk []int, jumps int) [][]int {
	var trails [][]int
	open := false
	for _, line := range walk {
		switch {
		case line >= jumps:
			open = false
		case open:
			trails[len(trails)-1] = append(trails[len(trails)-1], line)
		default:
			trails, open = append(trails, []int{line}), true
		}
	}
	return trails
}

// tour takes every line of a part once, starting at a point from which that can be done (Hierholzer's method).
func tour(at map[int][]int, ends [][2]int, start int) []int {
	type stand struct{ point, by int }
	taken := map[int]bool{}
	open := []stand{{start, -1}}
	var back []int
	for len(open) > 0 {
		here := open[len(open)-1]
		lines := at[here.point]
		for len(lines) > 0 && taken[lines[0]] {
			lines = lines[1:]
		}
		if at[here.point] = lines; len(lines) == 0 {
			back, open = append(back, here.by), open[:len(open)-1]
			continue
		}
		line := lines[0]
		taken[line] = true
		next := ends[line][0]
		if next == here.point {
			next = ends[line][1]
		}
		open = append(open, stand{next, line})
	}
	slices.Reverse(back)
	return back[1:] // without the start
}
