package plan

import (
	"cmp"
	"slices"
)

// tie is a wire whose home may be at either of two places: a line of a graph whose points are homes. A place that owns wires of a
// type costs a reel change, so few places should own them.
type tie struct {
	family int
	ends   [2]string
}

// fewestHomes chooses homes so that each type has few: for every type a small set of places that touches all of its wires. Wires
// with both ends in the set go to the place that the board reaches first. Forced holds, by type, places that own wires of it anyway.
func fewestHomes(byType map[string][]tie, forced map[string]map[string]bool, ranks map[string]rank, choose func(family int, home string)) {
	types := make([]string, 0, len(byType))
	for wireType := range byType {
		types = append(types, wireType)
	}
	slices.SortFunc(types, naturalCompare)
	for _, wireType := range types {
		owners := coverOf(byType[wireType], forced[wireType], ranks)
		for _, t := range byType[wireType] {
			home := t.ends[0]
			if !owners[home] || owners[t.ends[1]] && ranks[t.ends[1]].position < ranks[home].position {
				home = t.ends[1]
			}
			choose(t.family, home)
		}
	}
}

// coverOf returns a small set of places that touches every tie (a vertex cover). Where the graph has two sides it is a smallest one,
// by a largest matching (Koenig's theorem); else it is found by taking neighbours of lone places first, then the best connected.
func coverOf(ties []tie, forced map[string]bool, ranks map[string]rank) map[string]bool {
	g := newCover(ties, forced, ranks)
	g.leaves(slices.Clone(g.places))
	if sides, two := g.sides(); two {
		g.koenig(sides)
	} else {
		g.greedy()
		g.drop(forced)
	}
	return g.owners
}

// cover is a graph of places that still have wires without an owner.
type cover struct {
	places []string // in build order
	next   map[string][]string
	whole  map[string][]string // all neighbours, owned or not
	owners map[string]bool
}

func newCover(ties []tie, forced map[string]bool, ranks map[string]rank) *cover {
	g := &cover{next: map[string][]string{}, whole: map[string][]string{}, owners: map[string]bool{}}
	for place := range forced {
		g.owners[place] = true
	}
	join := func(a, b string) {
		if g.whole[a] == nil {
			g.places = append(g.places, a)
		}
		g.whole[a] = append(g.whole[a], b)
	}
	for _, t := range ties {
		join(t.ends[0], t.ends[1])
		join(t.ends[1], t.ends[0])
	}
	slices.SortFunc(g.places, func(a, b string) int { return cmp.Compare(ranks[a].position, ranks[b].position) })
	for _, place := range g.places {
		slices.SortFunc(g.whole[place], func(a, b string) int { return cmp.Compare(ranks[a].position, ranks[b].position) })
		g.whole[place] = slices.Compact(g.whole[place])
		if !g.owners[place] {
			g.next[place] = slices.DeleteFunc(slices.Clone(g.whole[place]), func(other string) bool { return g.owners[other] })
		}
	}
	return g
}

// take makes a place an owner: its wires need no other.
func (g *cover) take(place string) {
	g.owners[place] = true
	for _, other := range g.next[place] {
		g.next[other] = slices.DeleteFunc(g.next[other], func(id string) bool { return id == place })
	}
	g.next[place] = nil
}

// leaves takes the neighbour of every place that has one neighbour alone: no smaller set leaves it out without taking the place.
func (g *cover) leaves(queue []string) {
	for len(queue) > 0 {
		place := queue[0]
		queue = queue[1:]
		if len(g.next[place]) == 1 {
			owner := g.next[place][0]
			around := slices.Clone(g.next[owner])
			g.take(owner)
			queue = append(queue, around...)
		}
	}
}

// sides parts the places that are left in two, so that every tie goes across, where that can be done.
func (g *cover) sides() (side map[string]int, two bool) {
	side = map[string]int{}
	for _, start := range g.places {
		if _, done := side[start]; done || len(g.next[start]) == 0 {
			continue
		}
		side[start] = 0
		for queue := []string{start}; len(queue) > 0; queue = queue[1:] {
			for _, other := range g.next[queue[0]] {
				known, done := side[other]
				switch {
				case !done:
					side[other] = 1 - side[queue[0]]
					queue = append(queue, other)
				case known == side[queue[0]]:
					return nil, false
				}
			}
		}
	}
	return side, true
}

// koenig takes a smallest set from a largest matching: what paths from unmatched places of the first side reach is left on that
// side and taken on the other.
func (g *cover) koenig(side map[string]int) {
	match := map[string]string{}
	for _, place := range g.places {
		if s, left := side[place]; left && s == 0 {
			g.augment(place, match, map[string]bool{})
		}
	}
	reached := map[string]bool{}
	var reach func(place string)
	reach = func(place string) {
		reached[place] = true
		for _, other := range g.next[place] {
			if partner := match[other]; !reached[other] {
				reached[other] = true
				if partner != "" && !reached[partner] {
					reach(partner)
				}
			}
		}
	}
	for _, place := range g.places {
		if s, left := side[place]; left && s == 0 && match[place] == "" {
			reach(place)
		}
	}
	for _, place := range g.places {
		if s, left := side[place]; left && (s == 1) == reached[place] {
			g.owners[place] = true
		}
	}
}

// augment finds a partner for a place of the first side, moving others on where they can be moved.
func (g *cover) augment(place string, match map[string]string, seen map[string]bool) bool {
	for _, other := range g.next[place] {
		if seen[other] {
			continue
		}
		seen[other] = true
		if match[other] == "" || g.augment(match[other], match, seen) {
			match[place], match[other] = other, place
			return true
		}
	}
	return false
}

// greedy takes the place with most wires left, and the neighbours of places that this leaves alone, until every wire has an owner.
func (g *cover) greedy() {
	byCount := map[int][]string{} // the counts of some have fallen since they were put here
	most := 0
	for _, place := range g.places {
		count := len(g.next[place])
		byCount[count] = append(byCount[count], place)
		most = max(most, count)
	}
	for count := most; count > 0; count-- {
		for at := 0; at < len(byCount[count]); at++ {
			place := byCount[count][at]
			if now := len(g.next[place]); now < count {
				byCount[now] = append(byCount[now], place)
				continue
			}
			around := slices.Clone(g.next[place])
			g.take(place)
			g.leaves(around)
		}
	}
}

// drop gives up owners that are not needed, the last in build order first.
func (g *cover) drop(forced map[string]bool) {
	for _, place := range slices.Backward(g.places) {
		if !g.owners[place] || forced[place] {
			continue
		}
		if !slices.ContainsFunc(g.whole[place], func(other string) bool { return !g.owners[other] || other == place }) {
			delete(g.owners, place)
		}
	}
}
