package plan

import "slices"

// Limits of the searches of a whole pass.
const (
	mostStandings = 4_000_000 // in the layers of all
	mostHeld      = 200_000   // held until the pass is read back; what was not held is searched once more
)

// pass is a pass over groups in their order: what it costs to enter and to leave each group by each of its places.
type pass struct {
	entry, exit [][]int64
	layers      [][][]standing // by group: those of its search, nil where it was not searched or they are not held
	cost        int64
	exact       bool
	width       int
}

// run works out the pass over groups in their order. Going forward it keeps, for every point of a group, the least cost at which
// the line can stand there when the group is done.
func (c *chart) run(courses []course, mounted string) pass {
	p := pass{exact: true, width: searchWidth(courses)}
	held := 0
	for i := range courses {
		entry := c.begin(&courses[i], mounted)
		if i > 0 {
			entry = c.enter(&courses[i-1], p.exit[i-1], &courses[i])
		}
		exit, layers, exact := c.pass(&courses[i], entry, p.width)
		if held += standingsIn(layers); held > mostHeld {
			layers = nil
		}
		p.entry, p.exit, p.layers = append(p.entry, entry), append(p.exit, exit), append(p.layers, layers)
		p.exact = p.exact && exact
	}
	if len(courses) > 0 {
		p.cost = slices.Min(p.exit[len(courses)-1])
	}
	return p
}

// standingsIn counts the standings of layers.
func standingsIn(layers [][]standing) int {
	count := 0
	for _, layer := range layers {
		count += len(layer)
	}
	return count
}

// searchWidth shares the standings among the layers of all groups with units.
func searchWidth(courses []course) int {
	layers := 1
	for i := range courses {
		layers += len(courses[i].items)
	}
	return min(max(mostStandings/layers, 50), 5000)
}

// begin returns what it costs to start the pass at each place: a reel change where another reel is on. The marker is set anew in
// any case.
func (c *chart) begin(k *course, mounted string) []int64 {
	entry := make([]int64, len(k.points))
	if mounted == "" {
		return entry
	}
	for i, p := range k.points {
		for _, rung := range c.ladder {
			if rung.part == partReel && c.states[p].wireType != mounted {
				entry[i] = rung.cost
			}
		}
	}
	return entry
}

// enter returns what it costs to enter a group by each of its places, after the one before it.
func (c *chart) enter(before *course, exit []int64, k *course) []int64 {
	entry := make([]int64, len(k.points))
	for i, p := range k.points {
		entry[i] = noWay
		for j, cost := range exit {
			entry[i] = min(entry[i], cost+c.between(before.points[j], p))
		}
	}
	return entry
}

// walks reads the cheapest pass back, from its last group to its first.
func (c *chart) walks(courses []course, p pass) [][]visit {
	all := make([][]visit, len(courses))
	for i := len(courses) - 1; i >= 0; i-- {
		last, best := 0, noWay
		for l, cost := range p.exit[i] {
			if i+1 < len(courses) {
				next := all[i+1][0].first
				cost += c.between(courses[i].points[l], courses[i+1].points[next])
			}
			if cost <= best { // of equal ones the last in the preferred order
				last, best = l, cost
			}
		}
		all[i] = c.trace(&courses[i], p.entry[i], p.layers[i], last, p.width)
	}
	return all
}

// rows returns the rows of a group in the order of a walk.
func (c *chart) rows(k *course, walk []visit) []*Wire {
	if k.items == nil {
		if len(walk) == 1 {
			return k.plain[walk[0].item]
		}
		var rows []*Wire
		for _, v := range walk {
			rows = append(rows, k.plain[v.item]...)
		}
		return rows
	}
	taker := rowTaker{c: c, k: k, plain: make([]bool, len(k.plain)), used: map[int]bool{}}
	for _, v := range walk {
		taker.take(v)
	}
	return taker.rows
}

// rowTaker turns visits to items into rows.
type rowTaker struct {
	c     *chart
	k     *course
	plain []bool // by place: its rows are taken
	used  map[int]bool
	rows  []*Wire
}

func (t *rowTaker) take(v visit) {
	if v.run != nil {
		t.run(v)
		return
	}
	t.point(v.first)
	i := &t.k.items[v.item]
	standIns, waiting := 0, []int{}
	for at := range t.k.items {
		standIns += one(slices.Equal(t.k.items[at].at, i.at))
	}
	for _, u := range i.alike {
		if !t.used[u] {
			waiting = append(waiting, u)
		}
	}
	if len(waiting) == 0 {
		return
	}
	taken := 1
	if len(waiting) == len(i.alike) { // the first visit takes what the others do not stand for
		taken += len(i.alike) - standIns
	}
	first, last := v.first, v.last
	for _, u := range waiting[:taken] {
		t.unit(u, first, last)
		first, last = last, first
		t.used[u] = true
	}
	t.point(v.last)
}

// run takes the plain rows of the places of a run.
func (t *rowTaker) run(v visit) {
	ends := [2]int{v.first, v.last}
	for i, place := range ends {
		if place >= 0 {
			ends[i] = t.k.points[place]
		}
	}
	for _, p := range t.c.path(t.k.pointsAt(v.run), ends[0], ends[1], 0) {
		place, _ := slices.BinarySearch(t.k.points, p)
		t.point(place)
	}
}

// point takes the plain rows of a place, once.
func (t *rowTaker) point(place int) {
	if !t.plain[place] {
		t.rows = append(t.rows, t.k.plain[place]...)
		t.plain[place] = true
	}
}

// unit takes the rows of a unit from one place to another.
func (t *rowTaker) unit(u, first, last int) {
	for _, p := range t.c.path(t.k.pointsAt(t.k.units[u].at), t.k.points[first], t.k.points[last], 0) {
		place, _ := slices.BinarySearch(t.k.points, p)
		at, _ := slices.BinarySearch(t.k.units[u].at, place)
		t.rows = append(t.rows, t.k.units[u].rows[at]...)
	}
}
