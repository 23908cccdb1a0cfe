package plan

import "slices"

// floorOf returns a cost that no pass over groups in their order is below, for passes some of whose groups could not be searched to
// the end. For those it counts, rung by rung, the changes that any walk over a group has between its ends.
func (c *chart) floorOf(courses []course, mounted string, width int) int64 {
	var exit []int64
	for i := range courses {
		entry := c.begin(&courses[i], mounted)
		if i > 0 {
			entry = c.enter(&courses[i-1], exit, &courses[i])
		}
		k := &courses[i]
		searched, _, exact := c.pass(k, entry, width)
		if exact {
			exit = searched
			continue
		}
		exit = make([]int64, len(k.points))
		for l := range exit {
			exit[l] = noWay
			for f := range entry {
				exit[l] = min(exit[l], entry[f]+c.floor(k, f, l))
			}
		}
	}
	if len(exit) == 0 {
		return 0
	}
	return slices.Min(exit)
}

// floor returns a cost that no walk over a group from one place to another is below.
func (c *chart) floor(k *course, first, last int) int64 {
	var cost int64
	for j := range c.ladder {
		cost += c.step(j) * int64(c.fewest(k, j, first, last))
	}
	return cost
}

// fewest returns changes on a rung that every walk over a group from one place to another has. A unit of two classes is a line
// between them, one of more classes a line that may be laid between any two. Closed by a line from the last class to the first,
// the walk is a round over all lines: besides the changes in the units it needs one for every two odd ends that it has in
// a part that hangs together, and one for each part where there are several (Euler's theorem on trails).
func (c *chart) fewest(k *course, rung, first, last int) int {
	g := newKnots()
	class := func(place int) int { return int(c.classes[k.points[place]][rung]) }
	g.line(class(first), class(last))
	inside, free := 0, 0
	for _, u := range k.units {
		classes := []int{}
		for _, place := range u.at {
			classes = append(classes, class(place))
		}
		slices.Sort(classes)
		classes = slices.Compact(classes)
		inside += len(classes) - 1
		switch {
		case len(classes) == 2:
			g.line(classes[0], classes[1])
		case len(classes) > 2:
			free++
			for _, other := range classes[1:] {
				g.tie(classes[0], other)
			}
		}
	}
	for place := range k.points {
		g.tie(class(place), class(place))
	}
	return inside + g.changes(free)
}

// knots is points that hang together by lines, with the number of line ends at each.
type knots struct {
	root, ends map[int]int
}

func newKnots() *knots {
	return &knots{root: map[int]int{}, ends: map[int]int{}}
}

func (g *knots) find(a int) int {
	if _, known := g.root[a]; !known {
		g.root[a] = a
	}
	for g.root[a] != a {
		g.root[a] = g.root[g.root[a]]
		a = g.root[a]
	}
	return a
}

// tie joins two points without a line.
func (g *knots) tie(a, b int) {
	from, to := g.find(max(a, b)), g.find(min(a, b))
	g.root[from] = to
}

// line joins two points by a line.
func (g *knots) line(a, b int) {
	g.tie(a, b)
	g.ends[a]++
	g.ends[b]++
}

// changes returns how many lines must be added at least to make one round of all, where some lines may still be laid freely.
func (g *knots) changes(free int) int {
	odd, parts := map[int]int{}, map[int]bool{}
	total := 0
	for point := range g.root {
		parts[g.find(point)] = true
		odd[g.find(point)] += g.ends[point] % 2
		total += g.ends[point] % 2
	}
	if len(parts) == 1 {
		return max(0, (total-2*free+1)/2)
	}
	sum := 0
	for part := range parts {
		sum += max(1, odd[part]/2)
	}
	return max(len(parts), sum-free)
}
