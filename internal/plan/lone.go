package plan

import (
	"cmp"
	"math/bits"
	"slices"
)

// Points that no unit of a group ends at are taken in runs. Those that share their dearest class with a unit at the same rung are
// equally far from everything else, so that a walk that visits them in several stretches costs no less when the first stretch takes
// up all of them; only what the group is left by may be worth keeping for its end: a point, or a class of points around it.

// split is a run of which a class is kept for the end of the group.
type split struct {
	item  int
	rest  []int // places taken first, ascending
	least int64 // cost of the cheapest walk over them
	kept  []int // places taken at the end
	tail  int64 // cost of the cheapest walk over those
	last  int   // where it ends
}

// keptSet is splits that cost the same so far, of which one is taken at the end; the zero value stands for none. Its bits count from base.
type keptSet struct {
	base int
	bits uint64
}

// compare orders sets.
func (a keptSet) compare(b keptSet) int {
	return cmp.Or(cmp.Compare(a.base, b.base), cmp.Compare(a.bits, b.bits))
}

// runsOf returns items for the places whose plain rows no unit takes along: places are in one item where the innermost class that they
// share with a place of a unit is the same.
func (c *chart) runsOf(k *course, touched []bool) []item {
	united := make([]bool, len(k.points))
	for _, u := range k.units {
		for _, place := range u.at {
			united[place] = true
		}
	}
	type home struct {
		rung  int
		class int32
	}
	var homes []home
	var runs []item
	for place, rows := range k.plain {
		if len(rows) == 0 || touched[place] {
			continue
		}
		at := home{rung: -1}
		for rung, class := range c.classes[k.points[place]] {
			for other := range k.points {
				if united[other] && c.classes[k.points[other]][rung] == class {
					at = home{rung, class}
				}
			}
		}
		i := slices.Index(homes, at)
		if i < 0 {
			i = len(homes)
			homes, runs = append(homes, at), append(runs, item{home: at.rung})
		}
		runs[i].at = append(runs[i].at, place)
	}
	for i := range runs {
		runs[i].least, runs[i].parted = c.cover(k.pointsAt(runs[i].at))
	}
	return runs
}

// pointsAt returns the points at places.
func (k *course) pointsAt(places []int) []int {
	points := make([]int, len(places))
	for i, place := range places {
		points[i] = k.points[place]
	}
	return points
}

// splitsOf lists the ways to keep a part of a run for the end: each class below the one that its places share with a unit, but the
// whole run, ended at each of its places.
func (c *chart) splitsOf(k *course) []split {
	var splits []split
	for i := range k.items {
		run := &k.items[i]
		if run.alike != nil {
			continue
		}
		for _, last := range run.at {
			size := len(run.at)
			for rung := run.home + 1; rung < len(c.ladder); rung++ {
				s := split{item: i, last: last}
				for _, place := range run.at {
					if c.classes[k.points[place]][rung] == c.classes[k.points[last]][rung] {
						s.kept = append(s.kept, place)
					} else {
						s.rest = append(s.rest, place)
					}
				}
				if len(s.kept) == size { // as on the rung above
					continue
				}
				size = len(s.kept)
				s.least, _ = c.cover(k.pointsAt(s.rest))
				s.tail, _ = c.cover(k.pointsAt(s.kept))
				splits = append(splits, s)
			}
		}
	}
	return splits
}

// take visits a run: as the last item by way of each place that it may end at, else by way of the place that is entered at the least
// cost, whole or with a part kept.
func (c *chart) take(k *course, here standing, from int, enter []int64, i int, found *cheapest) {
	run := &k.items[i]
	visited := here.visited | 1<<i
	if visited+1 == 1<<len(k.items) {
		for _, last := range run.at {
			first := c.entrance(k, run, enter, last)
			found.add(standing{visited: visited, last: last, kept: here.kept, from: from, by: visit{item: i, first: first, last: last, run: run.at},
				cost: enter[first] + run.least + c.again(k.points[first], k.points[last], run.parted)})
		}
		return
	}
	first := nearestOf(run.at, enter)
	found.add(standing{visited: visited, last: run.at[0], kept: here.kept, from: from, by: visit{item: i, first: first, last: -1, run: run.at}, cost: enter[first] + run.least})
	if here.kept.bits == 0 {
		c.keep(k, standing{visited: visited, last: run.at[0], from: from, by: visit{item: i}}, enter, i, found)
	}
}

// keep takes a run in each way that keeps a part of it, those of equal cost as one. Which it was is settled when the walk is read back.
func (c *chart) keep(k *course, here standing, enter []int64, item int, found *cheapest) {
	type alike struct {
		cost int64
		base int
	}
	var kinds []alike
	var sets []uint64
	for s := range k.splits {
		part := &k.splits[s]
		if part.item != item {
			continue
		}
		kind := alike{enter[nearestOf(part.rest, enter)] + part.least, s / 64 * 64}
		at := slices.Index(kinds, kind)
		if at < 0 {
			at = len(kinds)
			kinds, sets = append(kinds, kind), append(sets, 0)
		}
		sets[at] |= 1 << (s - kind.base)
	}
	for i, kind := range kinds {
		here.cost, here.kept = kind.cost, keptSet{kind.base, sets[i]}
		found.add(here)
	}
}

// entrance returns the place where a run that ends at a place is best entered.
func (c *chart) entrance(k *course, run *item, enter []int64, last int) int {
	return slices.MinFunc(run.at, func(a, b int) int {
		return cmp.Compare(enter[a]+c.again(k.points[a], k.points[last], run.parted), enter[b]+c.again(k.points[b], k.points[last], run.parted))
	})
}

// nearestOf returns the first of the places that are entered at the least cost.
func nearestOf(places []int, enter []int64) int {
	return slices.MinFunc(places, func(a, b int) int { return cmp.Compare(enter[a], enter[b]) })
}

// ended adds what was kept for the end of a group, and returns the standings in which all is done. Something stands between it and the
// rest of its run, since a run that comes last is taken whole.
func (c *chart) ended(k *course, layer []standing) []standing {
	found := cheapest{at: map[stood]int{}}
	for from, here := range layer {
		end := here
		end.from, end.by, end.kept = from, visit{item: -1}, keptSet{}
		if here.kept.bits == 0 {
			found.add(end)
		}
		for rest := here.kept.bits; rest != 0; rest &= rest - 1 {
			at := here.kept.base + bits.TrailingZeros64(rest)
			s := &k.splits[at]
			end.last, end.by = s.last, visit{item: s.item, first: -1, last: s.last, run: s.kept, split: at}
			end.cost = here.cost + c.between(k.points[here.last], k.points[s.last]) + s.tail
			found.add(end)
		}
	}
	return c.fittest(k, found.standings)
}
