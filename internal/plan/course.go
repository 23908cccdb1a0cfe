package plan

import (
	"cmp"
	"slices"
)

// course is a group as the line sees it: the points that a pass over it must visit, and what stays together on the way.
type course struct {
	points []int     // of the chart, ascending
	plain  [][]*Wire // by place in points: rows that stand alone or with rows of the same point
	units  []unit
	items  []item  // what a walk visits once each; nil where every point is visited once
	splits []split // how items without units may be parted
	fixed  []visit // the walk, where it is given; nil where it is free
	rough  bool    // the walk is given since there are too many items to search
	beyond int64   // cost of the units that items stand for besides themselves
	least  int64   // cost of the cheapest walk over the points
	parted []bool  // by rung: the points fall into several classes
}

// unit is rows of several points that stay together.
type unit struct {
	at   []int // places in points, ascending
	rows [][]*Wire
}

// item is one of the units over the same points, or a run of plain rows.
type item struct {
	at     []int
	alike  []int // units over these points that this item and the others of its class stand for; nil for plain rows
	parted []bool
	least  int64
	home   int // of a run: the innermost rung on which it is of one class with a unit, -1 for none
}

// visit is an item on a walk, with the places that it is entered and left by; -1 leaves it open where a run is entered or left. Of a
// run it has the places whose rows it takes.
type visit struct {
	item, first, last int
	run               []int
	split             int // of what was kept for the end: which split it belongs to
}

// courseOf sorts the rows of a group, given in units and with the point of each row, unit by unit, to points and units.
func (c *chart) courseOf(units [][]*Wire, points []int) course {
	k := course{points: slices.Clone(points)}
	slices.Sort(k.points)
	k.points = slices.Compact(k.points)
	k.plain = make([][]*Wire, len(k.points))
	k.least, k.parted = c.cover(k.points)
	for _, rows := range units {
		at := points[:len(rows)] // by row: now its place in the course
		for i, p := range at {
			at[i], _ = slices.BinarySearch(k.points, p)
		}
		points = points[len(rows):]
		if slices.Min(at) == slices.Max(at) {
			k.plain[at[0]] = append(k.plain[at[0]], rows...)
			continue
		}
		k.units = append(k.units, unitAt(rows, at))
	}
	k.items = c.itemsOf(&k)
	k.beyond = k.stoodFor()
	if len(k.items) > mostItems {
		k.fixed, k.rough = c.nearest(&k), true
	}
	k.splits = c.splitsOf(&k)
	return k
}

// unitAt returns a unit whose rows have places.
func unitAt(rows []*Wire, places []int) unit {
	at := slices.Compact(slices.Sorted(slices.Values(places)))
	u := unit{at: at, rows: make([][]*Wire, len(at))}
	for i, w := range rows {
		own, _ := slices.BinarySearch(at, places[i])
		u.rows[own] = append(u.rows[own], w)
	}
	return u
}

// unitsOf returns the units of a group in natural order of their first rows. In a unit a cable comes first; the others follow by id.
func unitsOf(wires []*Wire) [][]*Wire {
	sorted := slices.Clone(wires)
	slices.SortFunc(sorted, func(a, b *Wire) int {
		return cmp.Or(cmp.Compare(one(!a.isCable()), one(!b.isCable())), naturalCompare(a.ID, b.ID))
	})
	index := map[string]int{}
	units := make([][]*Wire, 0, len(sorted))
	for i, wire := range sorted {
		if at, known := index[wire.unit]; known {
			units[at] = append(units[at], wire)
			continue
		}
		if wire.unit != "" {
			index[wire.unit] = len(units)
		}
		units = append(units, sorted[i:i+1:i+1])
	}
	slices.SortFunc(units, func(a, b []*Wire) int { return naturalCompare(a[0].ID, b[0].ID) })
	return units
}

// cover returns the cost of the cheapest walk over points, and on which rungs they fall into several classes. A walk over K classes
// of a rung changes class K-1 times at least, and a walk that takes class after class, from the dearest rung down, does no more.
func (c *chart) cover(points []int) (least int64, parted []bool) {
	parted = make([]bool, len(c.ladder))
	seen := make([]int32, 0, len(points))
	for j := range c.ladder {
		seen = seen[:0]
		for _, p := range points {
			seen = append(seen, c.classes[p][j])
		}
		slices.Sort(seen)
		classes := len(slices.Compact(seen))
		parted[j] = classes > 1
		least += int64(classes-1) * c.step(j)
	}
	return least, parted
}

// again returns what a walk that starts at one point and ends at another costs more than the cheapest walk: a change of class on
// each rung on which both are of one class and others are not.
func (c *chart) again(first, last int, parted []bool) int64 {
	var cost int64
	for j := range c.ladder {
		if parted[j] && c.classes[first][j] == c.classes[last][j] {
			cost += c.step(j)
		}
	}
	return cost
}

// itemsOf returns what a walk over a group with units visits. Two units over the same two points lead there and back, so that one
// stands for any odd number of them, and two for any even number: the others cost what is in them wherever they stand; plain rows are taken up where a walk touches their
// point. Units over the same three points, between any two of which the way costs the same, come in threes and twos.
func (c *chart) itemsOf(k *course) []item {
	if len(k.units) == 0 {
		return nil
	}
	var items []item
	touched := make([]bool, len(k.points))
	for u := range k.units {
		at := slices.IndexFunc(items, func(i item) bool { return slices.Equal(i.at, k.units[u].at) })
		if at < 0 {
			at = len(items)
			points := make([]int, len(k.units[u].at))
			for i, place := range k.units[u].at {
				points[i] = k.points[place]
				touched[place] = touched[place] || len(points) == 2
			}
			least, parted := c.cover(points)
			items = append(items, item{at: k.units[u].at, least: least, parted: parted})
		}
		items[at].alike = append(items[at].alike, u)
	}
	var all []item
	for _, i := range items {
		for range c.standIns(k, i) {
			all = append(all, i)
		}
	}
	return append(all, c.runsOf(k, touched)...)
}

// standIns returns how many items stand for the units of a class.
func (c *chart) standIns(k *course, i item) int {
	n := len(i.alike)
	switch {
	case len(i.at) == 2:
		return 2 - n%2
	case len(i.at) == 3 && n > 3 && c.even(k, i):
		return 2 + n%2
	}
	return n
}

// stoodFor returns the cost of the units that no item is visited for: each takes its cheapest walk, wherever it stands.
func (k *course) stoodFor() int64 {
	var cost int64
	for at := range k.items {
		i := &k.items[at]
		if first := slices.IndexFunc(k.items, func(other item) bool { return slices.Equal(other.at, i.at) }); first == at && i.alike != nil {
			cost += int64(len(i.alike)) * i.least
		}
		if i.alike != nil {
			cost -= i.least
		}
	}
	return cost
}

// even reports whether the way over an item costs the same between any two of its points.
func (c *chart) even(k *course, i item) bool {
	for a := range i.at {
		for b := range a {
			if c.again(k.points[i.at[a]], k.points[i.at[b]], i.parted) != 0 {
				return false
			}
		}
	}
	return true
}

// way returns the cost of an item between two of its places.
func (c *chart) way(k *course, i *item, first, last int) int64 {
	return i.least + c.again(k.points[first], k.points[last], i.parted)
}

// run returns the places of plain rows, nil of an item that stands for units.
func (i *item) run() []int {
	if i.alike != nil {
		return nil
	}
	return i.at
}

// ways lists how an item can be visited.
func (i *item) ways() [][2]int {
	if len(i.at) == 1 {
		return [][2]int{{i.at[0], i.at[0]}}
	}
	var ways [][2]int
	for _, first := range i.at {
		for _, last := range i.at {
			if first != last {
				ways = append(ways, [2]int{first, last})
			}
		}
	}
	return ways
}
