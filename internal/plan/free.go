package plan

import (
	"math/bits"
	"slices"
)

// mostExact is the number of groups up to which a free order is searched to the end.
const mostExact = 12

// freeGroups is groups whose order is free, but for chains that keep a mutual order.
type freeGroups struct {
	chart   *chart
	courses []course
	over    []crossing
	before  []int // by group: the one that must come before it, -1 for none
	after   []int
}

// crossing is what it costs to cross a group, by the places where it is entered and left.
type crossing [][]int64

// newFreeGroups works out what it costs to cross every group.
func newFreeGroups(c *chart, courses []course, chains [][]int) *freeGroups {
	g := &freeGroups{chart: c, courses: courses, before: make([]int, len(courses)), after: make([]int, len(courses))}
	for i := range courses {
		g.before[i], g.after[i] = -1, -1
	}
	for _, chain := range chains {
		for i := 1; i < len(chain); i++ {
			g.before[chain[i]], g.after[chain[i-1]] = chain[i-1], chain[i]
		}
	}
	width := searchWidth(courses)
	for i := range courses {
		g.over = append(g.over, c.cross(&courses[i], width))
	}
	return g
}

// cross returns what it costs to cross a group.
func (c *chart) cross(k *course, width int) crossing {
	over := make(crossing, len(k.points))
	for first := range over {
		entry := make([]int64, len(k.points))
		for i := range entry {
			if i != first {
				entry[i] = noWay
			}
		}
		over[first], _, _ = c.pass(k, entry, width)
		for l := range over[first] {
			over[first][l] = min(over[first][l], noWay)
		}
	}
	return over
}

// onto returns the least cost of being at each place of a group when it is done, given the cost at each place of the one before.
func (g *freeGroups) onto(from int, exit []int64, to int) []int64 {
	return g.over[to].after(g.chart.enter(&g.courses[from], exit, &g.courses[to]))
}

// after returns what it costs to leave a group, given what it costs to enter it.
func (over crossing) after(entry []int64) []int64 {
	exit := make([]int64, len(over))
	for l := range exit {
		exit[l] = noWay
		for f := range entry {
			exit[l] = min(exit[l], entry[f]+over[f][l])
		}
	}
	return exit
}

// alone returns what it costs to start with a group.
func (g *freeGroups) alone(i int, mounted string) []int64 {
	return g.over[i].after(g.chart.begin(&g.courses[i], mounted))
}

// exact returns the cheapest order, by dynamic programming over the groups done and the last of them (after Held and Karp, J. SIAM
// 10 (1962) 196-210, from memory). It takes mostExact groups at most.
func (g *freeGroups) exact(mounted string) (order []int, cost int64) {
	n := len(g.courses)
	best := make([][][]int64, 1<<n)
	for done := 1; done < 1<<n; done++ {
		best[done] = make([][]int64, n)
		for last := range n {
			if done>>last&1 == 0 || !g.follows(done, last) {
				continue
			}
			rest := done &^ (1 << last)
			if rest == 0 {
				best[done][last] = g.alone(last, mounted)
				continue
			}
			for prior := range n {
				if rest>>prior&1 == 1 && best[rest][prior] != nil {
					best[done][last] = cheaper(best[done][last], g.onto(prior, best[rest][prior], last))
				}
			}
		}
	}
	return g.readBack(best)
}

// follows reports whether a group may come last of those done.
func (g *freeGroups) follows(done, last int) bool {
	early := g.before[last] < 0 || done>>g.before[last]&1 == 1
	return early && (g.after[last] < 0 || done>>g.after[last]&1 == 0)
}

// cheaper takes the lower cost place by place.
func cheaper(a, b []int64) []int64 {
	if a == nil {
		return b
	}
	for i := range a {
		a[i] = min(a[i], b[i])
	}
	return a
}

// readBack follows the cheapest order from its end: at each step the first group that explains the costs of the one after it.
func (g *freeGroups) readBack(best [][][]int64) (order []int, cost int64) {
	n, done := len(g.courses), len(best)-1
	last, place := -1, 0
	cost = noWay
	for i := range n {
		for l, c := range best[done][i] {
			if c < cost {
				last, place, cost = i, l, c
			}
		}
	}
	order = []int{last}
	for total := cost; bits.OnesCount(uint(done)) > 1; {
		done &^= 1 << last
		last, place, total = g.reached(best[done], last, place, total)
		order = append(order, last)
	}
	slices.Reverse(order)
	return order, cost
}

// reached returns the group and place from which a place of the next group is reached at a cost.
func (g *freeGroups) reached(best [][]int64, next, place int, total int64) (group, from int, cost int64) {
	for i := range best {
		for l, c := range best[i] {
			for f, p := range g.courses[next].points {
				if c+g.chart.between(g.courses[i].points[l], p)+g.over[next][f][place] == total {
					return i, l, c
				}
			}
		}
	}
	panic("plan: an order without a beginning") // every cost in the table came from one of these sums
}
