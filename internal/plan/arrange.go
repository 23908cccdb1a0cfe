package plan

import (
	"cmp"
	"math"
	"slices"
)

// kindGraph is a group as the reels see it: its types as points, and the units of several types as lines between the types that
// they start and end with. A pass over the group is a walk over all points and lines.
type kindGraph struct {
	kinds  []kind
	alone  map[string][][]Wire // by type: the units of that type alone
	blocks []block
}

// block is a unit of several types. It may be cut in either direction.
type block struct {
	first, last int // indexes of kinds
	changes     int // reel changes inside
	rows        []Wire
}

// graphOf sorts the rows of a group into units of one type and blocks of several.
func graphOf(wires []Wire) kindGraph {
	graph := kindGraph{alone: map[string][][]Wire{}}
	ends := map[string]bool{}
	var blocks [][]Wire
	for _, unit := range unitsOf(wires) {
		first, last := unit[0].Type, unit[len(unit)-1].Type
		ends[first], ends[last] = true, true
		if first == last {
			graph.alone[first] = append(graph.alone[first], unit)
			continue
		}
		blocks = append(blocks, unit)
	}
	place := map[string]int{}
	for _, k := range kindsOf(wires) {
		if ends[k.wireType] {
			place[k.wireType] = len(graph.kinds)
			graph.kinds = append(graph.kinds, k)
		}
	}
	for _, rows := range blocks {
		graph.blocks = append(graph.blocks, block{
			first: place[rows[0].Type], last: place[rows[len(rows)-1].Type], changes: len(kindsOf(rows)) - 1, rows: rows,
		})
	}
	return graph
}

// unitsOf returns the units of a group in natural order of their first rows. In a unit a cable comes first; the wires follow by
// type, and then as they are set on the marker.
func unitsOf(wires []Wire) [][]Wire {
	sorted := slices.Clone(wires)
	slices.SortFunc(sorted, func(a, b Wire) int {
		return cmp.Or(cmp.Compare(one(!a.isCable()), one(!b.isCable())), naturalCompare(a.Type, b.Type), compareSettings(a, b, Wire{}))
	})
	index := map[string]int{}
	var units [][]Wire
	for _, wire := range sorted {
		at, known := index[wire.unit]
		if wire.unit == "" || !known {
			index[wire.unit], at = len(units), len(units)
			units = append(units, nil)
		}
		units[at] = append(units[at], wire)
	}
	slices.SortFunc(units, func(a, b []Wire) int { return naturalCompare(a[0].ID, b[0].ID) })
	return units
}

// span is the type that a group starts with and the one that it ends with, as indexes of its kinds.
type span struct{ first, last int }

// arrange chooses what every group starts and ends with, so that the pass over the groups, in the order given, has the fewest
// reel changes. It is exact for blocks as they stand: going forward it keeps the types that can end a group at the least cost, and
// going back it picks the last and the first type of each group. To end a group with another type costs one change more at least,
// and a next group that starts with it wins back one at most.
func arrange(groups []kindGraph) []span {
	enders, _ := bestEnders(groups)
	spans := make([]span, len(groups))
	var next kind
	for i := len(groups) - 1; i >= 0; i-- {
		last := chooseLast(groups[i].kinds, enders[i], next)
		first := chooseFirst(groups[i], entryCosts(groups, enders, i), last)
		spans[i] = span{first, last}
		next = groups[i].kinds[first]
	}
	return spans
}

// bestEnders marks, for every group, the types that can be mounted last at the fewest reel changes so far, and returns the fewest
// of the whole pass.
func bestEnders(groups []kindGraph) (enders [][]bool, fewest int) {
	enders = make([][]bool, len(groups))
	for i, group := range groups {
		costs := make([]int, len(group.kinds))
		entry := entryCosts(groups, enders, i)
		for l := range costs {
			costs[l] = math.MaxInt
			for f := range group.kinds {
				costs[l] = min(costs[l], entry[f]+group.cost(span{f, l}))
			}
		}
		least := slices.Min(costs)
		enders[i] = make([]bool, len(costs))
		for l, cost := range costs {
			enders[i][l] = cost == least
		}
		fewest += least
	}
	return enders, fewest
}

// entryCosts returns for each type of group i whether starting with it costs a reel change: not where the group before can leave it
// mounted at the fewest changes. The first load of all is not counted.
func entryCosts(groups []kindGraph, enders [][]bool, i int) []int {
	costs := make([]int, len(groups[i].kinds))
	if i == 0 {
		return costs
	}
	mounted := map[string]bool{}
	for j, kind := range groups[i-1].kinds {
		mounted[kind.wireType] = enders[i-1][j]
	}
	for j, kind := range groups[i].kinds {
		costs[j] = one(!mounted[kind.wireType])
	}
	return costs
}

// chooseLast picks the best ender that the next group starts with, else one with the method of the next group's start, else
// the last in the preferred order.
func chooseLast(kinds []kind, enders []bool, next kind) int {
	best, bestScore := 0, -1
	for j, kind := range kinds {
		score := 0
		switch {
		case !enders[j]:
			continue
		case kind.wireType == next.wireType:
			score = 2
		case kind.method == next.method:
			score = 1
		}
		if score >= bestScore {
			best, bestScore = j, score
		}
	}
	return best
}

// chooseFirst picks the cheapest first type, one that does not end the group where there is a choice, the first of several.
func chooseFirst(group kindGraph, entry []int, last int) int {
	best, bestCost := 0, math.MaxInt
	for j := range group.kinds {
		cost := 2*(entry[j]+group.cost(span{j, last})) + one(j == last)
		if cost < bestCost {
			best, bestCost = j, cost
		}
	}
	return best
}

// between returns the types with first and last at the ends and types of their methods beside them.
func between(kinds []kind, first, last int) []kind {
	arranged := []kind{kinds[first]}
	place := func(k kind) int {
		switch k.method {
		case kinds[first].method:
			return 0
		case kinds[last].method:
			return 2
		}
		return 1
	}
	var middle []kind
	for j, kind := range kinds {
		if j != first && j != last {
			middle = append(middle, kind)
		}
	}
	slices.SortStableFunc(middle, func(a, b kind) int { return cmp.Compare(place(a), place(b)) })
	arranged = append(arranged, middle...)
	if last != first {
		arranged = append(arranged, kinds[last])
	}
	return arranged
}
