package plan

import (
	"cmp"
	"slices"
)

// noWay is more than any pass costs.
const noWay = int64(1) << 60

// path returns points in the order of the cheapest walk from one of them to another; -1 leaves an end open. Where both ends are of
// one class that others are not, the class is parted: the walk comes back to it.
func (c *chart) path(points []int, first, last, rung int) []int {
	if len(points) < 2 || rung == len(c.ladder) {
		return points
	}
	classes := c.split(points, rung)
	head := slices.IndexFunc(classes, func(class []int) bool { return slices.Contains(class, first) })
	tail := slices.IndexFunc(classes, func(class []int) bool { return slices.Contains(class, last) })
	switch {
	case len(classes) == 1:
		return c.path(points, first, last, rung+1)
	case head >= 0 && head == tail:
		below := rung + 1
		for c.classes[first][below] == c.classes[last][below] {
			below++
		}
		apart := func(p int) bool { return c.classes[p][below] == c.classes[last][below] }
		front := slices.DeleteFunc(slices.Clone(classes[head]), apart)
		back := slices.DeleteFunc(slices.Clone(classes[head]), func(p int) bool { return !apart(p) })
		order := c.path(front, first, -1, rung+1)
		for i, class := range classes {
			if i != head {
				order = append(order, c.path(class, -1, -1, rung+1)...)
			}
		}
		return append(order, c.path(back, -1, last, rung+1)...)
	}
	var order, end []int
	if head >= 0 {
		order = append(order, c.path(classes[head], first, -1, rung+1)...)
	}
	for i, class := range classes {
		switch i {
		case head:
		case tail:
			end = c.path(class, -1, last, rung+1)
		default:
			order = append(order, c.path(class, -1, -1, rung+1)...)
		}
	}
	return append(order, end...)
}

// split returns the classes of points on a rung, in the order of their first points.
func (c *chart) split(points []int, rung int) [][]int {
	var classes [][]int
	at := map[int32]int{}
	for _, p := range points {
		class := c.classes[p][rung]
		if _, known := at[class]; !known {
			at[class] = len(classes)
			classes = append(classes, nil)
		}
		classes[at[class]] = append(classes[at[class]], p)
	}
	return classes
}

// pass returns what it costs to leave a group by each of its places, given what it costs to enter by each, the layers of the search
// where there was one, and whether that is exact. A group without units is entered by one point and left by another; to come back to the first would cost a change more at
// least, which is all that a next group could win by it.
func (c *chart) pass(k *course, entry []int64, width int) (exit []int64, layers [][]standing, exact bool) {
	exit = make([]int64, len(k.points))
	switch {
	case k.fixed != nil:
		for i := range exit {
			exit[i] = noWay
		}
		exit[k.fixed[len(k.fixed)-1].last] = entry[k.fixed[0].first] + c.given(k) + k.beyond
		return exit, nil, !k.rough
	case k.items != nil:
		layers, exact = c.search(k, entry, width)
		for i := range exit {
			exit[i] = noWay
		}
		for _, n := range layers[len(layers)-1] {
			exit[n.last] = min(exit[n.last], n.cost+k.beyond)
		}
		return exit, layers, exact
	case len(k.points) == 1:
		exit[0] = entry[0]
		return exit, nil, true
	}
	for l := range exit {
		exit[l] = noWay
		for f := range entry {
			if f != l {
				exit[l] = min(exit[l], entry[f]+k.least+c.again(k.points[f], k.points[l], k.parted))
			}
		}
	}
	return exit, nil, true
}

// given returns the cost of a given walk.
func (c *chart) given(k *course) int64 {
	var cost int64
	for i, v := range k.fixed {
		if i > 0 {
			cost += c.between(k.points[k.fixed[i-1].last], k.points[v.first])
		}
		if k.items != nil {
			cost += c.way(k, &k.items[v.item], v.first, v.last)
		}
	}
	return cost
}

// nearest walks from the first item to the nearest one left, and so on: for a group with more items than a search can tell apart.
func (c *chart) nearest(k *course) []visit {
	var walk []visit
	done := make([]bool, len(k.items))
	here := k.items[0].at[0]
	for range k.items {
		best, cost := visit{}, noWay
		for i := range k.items {
			if done[i] {
				continue
			}
			for _, way := range k.items[i].ways() {
				if total := c.between(k.points[here], k.points[way[0]]) + c.way(k, &k.items[i], way[0], way[1]); total < cost {
					best, cost = visit{item: i, first: way[0], last: way[1], run: k.items[i].run()}, total
				}
			}
		}
		walk, here = append(walk, best), best.last
		done[best.item] = true
	}
	return walk
}

// trace returns a walk over a group that ends at a place at the cost that pass gives, read from the layers of its search, or searched
// once more without them.
func (c *chart) trace(k *course, entry []int64, layers [][]standing, last, width int) []visit {
	switch {
	case k.fixed != nil:
		return k.fixed
	case k.items != nil:
		if layers == nil {
			layers, _ = c.search(k, entry, width)
		}
		return c.traced(k, entry, layers, last)
	case len(k.points) == 1:
		return []visit{{}}
	}
	first, best := -1, noWay
	for f := range entry {
		if cost := entry[f] + c.again(k.points[f], k.points[last], k.parted); f != last && cost < best {
			first, best = f, cost
		}
	}
	var walk []visit
	for _, p := range c.path(slices.Clone(k.points), k.points[first], k.points[last], 0) {
		place, _ := slices.BinarySearch(k.points, p)
		walk = append(walk, visit{item: place, first: place, last: place})
	}
	return walk
}

// standing is a step of a search: the items visited so far, the place where the line stands, and how it came there.
type standing struct {
	visited uint64
	last    int     // of a run that is left open any of its places: it is as far to the others from each
	kept    keptSet // what is left for the end
	cost    int64
	from    int // in the layer before
	by      visit
}

// mostItems is the number of items that a search can tell apart.
const mostItems = 64

// search finds the cheapest walks over the items of a group by dynamic programming over the items visited and the place where the
// line stands. A standing that another with the same items reaches by one more change is left out: whatever follows costs no more
// from the other. It is exact unless a layer held more than width standings; then the cheapest were kept. In the last layer all is
// done.
func (c *chart) search(k *course, entry []int64, width int) (layers [][]standing, exact bool) {
	layers, exact = append(layers, []standing{{last: -1, from: -1}}), true
	cheapest := cheapest{at: map[stood]int{}}
	for n := range k.items {
		cheapest.clear()
		for from, here := range layers[n] {
			enter := entry
			if here.last >= 0 {
				enter = c.onward(k, here)
			}
			for i := range k.items {
				switch {
				case here.visited>>i&1 == 1 || c.twin(k, here.visited, i):
				case k.items[i].run() != nil:
					c.take(k, here, from, enter, i, &cheapest)
				default:
					c.advance(k, here, from, enter, i, &cheapest)
				}
			}
		}
		next := c.fittest(k, cheapest.standings)
		if len(next) > width {
			slices.SortFunc(next, func(a, b standing) int {
				return cmp.Or(cmp.Compare(a.cost, b.cost), cmp.Compare(a.visited, b.visited), a.kept.compare(b.kept), cmp.Compare(a.last, b.last))
			})
			next, exact = next[:width:width], false
		}
		layers = append(layers, next)
	}
	return append(layers, c.ended(k, layers[len(k.items)])), exact
}

// stood is what tells two standings apart.
type stood struct {
	visited uint64
	last    int
	kept    keptSet
}

// cheapest keeps the cheapest of the standings with the same items and place, the first of equals.
type cheapest struct {
	at        map[stood]int
	standings []standing
}

func (c *cheapest) clear() {
	clear(c.at)
	c.standings = c.standings[:0]
}

func (c *cheapest) add(s standing) {
	key := stood{s.visited, s.last, s.kept}
	at, known := c.at[key]
	switch {
	case !known:
		c.at[key] = len(c.standings)
		c.standings = append(c.standings, s)
	case s.cost < c.standings[at].cost:
		c.standings[at] = s
	}
}

// onward returns what it costs to enter each place from a standing.
func (c *chart) onward(k *course, here standing) []int64 {
	enter := make([]int64, len(k.points))
	for i := range enter {
		enter[i] = here.cost + c.between(k.points[here.last], k.points[i])
	}
	return enter
}

// twin reports whether an item of the same class before this one is still to be visited.
func (c *chart) twin(k *course, visited uint64, i int) bool {
	return i > 0 && visited>>(i-1)&1 == 0 && slices.Equal(k.items[i].at, k.items[i-1].at)
}

// advance visits an item in every way.
func (c *chart) advance(k *course, here standing, from int, enter []int64, i int, found *cheapest) {
	for _, way := range k.items[i].ways() {
		found.add(standing{
			visited: here.visited | 1<<i, last: way[1], kept: here.kept, cost: enter[way[0]] + c.way(k, &k.items[i], way[0], way[1]),
			from: from, by: visit{item: i, first: way[0], last: way[1]},
		})
	}
}

// fittest leaves out every standing that another with the same items done and kept reaches as cheaply.
func (c *chart) fittest(k *course, all []standing) []standing {
	slices.SortFunc(all, func(a, b standing) int {
		return cmp.Or(cmp.Compare(a.visited, b.visited), a.kept.compare(b.kept), cmp.Compare(a.cost, b.cost), cmp.Compare(a.last, b.last))
	})
	fit := all[:0] // never ahead of what is read
	start := 0
	for _, s := range all {
		if len(fit) > start && (fit[start].visited != s.visited || fit[start].kept != s.kept) {
			start = len(fit)
		}
		if !slices.ContainsFunc(fit[start:], func(other standing) bool {
			return s.cost >= other.cost+c.between(k.points[other.last], k.points[s.last])
		}) {
			fit = append(fit, s)
		}
	}
	return slices.Clone(fit)
}

// traced reads a walk back from its last layer.
func (c *chart) traced(k *course, entry []int64, layers [][]standing, last int) []visit {
	end := layers[len(layers)-1]
	at := slices.IndexFunc(end, func(s standing) bool { return s.last == last })
	var walk []visit
	for n := len(layers) - 1; n > 0; n-- {
		s := layers[n][at]
		if at = s.from; s.by.item < 0 {
			continue
		}
		if k.items[s.by.item].run() != nil && s.by.run == nil { // all but what the last visit takes
			enter := entry
			if before := layers[n-1][at]; before.last >= 0 {
				enter = c.onward(k, before)
			}
			rest := k.splits[walk[0].split].rest
			s.by.first, s.by.last, s.by.run = nearestOf(rest, enter), -1, rest
		}
		walk = append(walk, s.by)
	}
	slices.Reverse(walk)
	return walk
}
