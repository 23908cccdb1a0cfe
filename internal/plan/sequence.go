package plan

import (
	"cmp"
	"slices"

	"loomleaf/internal/harness"
)

// methodOrder is the order in which marking methods are run and listed.
var methodOrder = []harness.Method{
	harness.MethodLaser, harness.MethodInk, harness.MethodTestFirst, harness.MethodSleeve, harness.MethodNone,
}

// methodRank is the place of a method in methodOrder.
func methodRank(method string) int { return slices.Index(methodOrder, harness.Method(method)) }

// kind is a wire type of a group, which is one reel on the line. Its method is the first, in methodOrder, of its wires.
type kind struct{ wireType, method string }

// kindsOf returns the wire types of a group in the order taken where reel changes do not decide.
func kindsOf(wires []Wire) []kind {
	byType := map[string]int{}
	var kinds []kind
	for _, wire := range wires {
		i, known := byType[wire.Type]
		if !known {
			byType[wire.Type] = len(kinds)
			kinds = append(kinds, kind{wire.Type, wire.Method})
		} else if methodRank(wire.Method) < methodRank(kinds[i].method) {
			kinds[i].method = wire.Method
		}
	}
	slices.SortFunc(kinds, func(a, b kind) int {
		return cmp.Or(cmp.Compare(methodRank(a.method), methodRank(b.method)), naturalCompare(a.wireType, b.wireType))
	})
	return kinds
}

// runOrder puts the wires of every group in the order of the run. Groups keep their order. The types of a group are arranged
// with the fewest reel changes over the whole pass; within a type, wires of one method, ink and height follow each other.
func runOrder(groups []ownWires) []ownWires {
	kinds := make([][]kind, len(groups))
	for i, group := range groups {
		kinds[i] = kindsOf(group.wires)
	}
	ordered := make([]ownWires, len(groups))
	var last Wire
	for i, arranged := range arrange(kinds) {
		ordered[i] = ownWires{connector: groups[i].connector, wires: make([]Wire, 0, len(groups[i].wires))}
		byType := map[string][]Wire{}
		for _, wire := range groups[i].wires {
			byType[wire.Type] = append(byType[wire.Type], wire)
		}
		for _, kind := range arranged {
			ordered[i].wires = append(ordered[i].wires, orderWithin(byType[kind.wireType], last)...)
			last = ordered[i].wires[len(ordered[i].wires)-1]
		}
	}
	return ordered
}

// setting is how the marker is set for a wire.
type setting struct {
	method, ink string
	height      int64
}

// settingOf returns the setting of a wire.
func settingOf(wire Wire) setting { return setting{wire.Method, wire.Ink, wire.HeightUM} }

// orderWithin orders the wires of one type: those with the setting of the wire before them first, then by method, ink,
// height from large to small, and id.
func orderWithin(wires []Wire, before Wire) []Wire {
	ordered := slices.Clone(wires)
	fresh := func(wire Wire) int {
		if settingOf(wire) == settingOf(before) {
			return 0
		}
		return 1
	}
	slices.SortFunc(ordered, func(a, b Wire) int {
		return cmp.Or(cmp.Compare(fresh(a), fresh(b)), cmp.Compare(methodRank(a.Method), methodRank(b.Method)),
			cmp.Compare(a.Ink, b.Ink), cmp.Compare(b.HeightUM, a.HeightUM), naturalCompare(a.ID, b.ID))
	})
	return ordered
}

// arrange orders the types inside every group so that the pass over the groups, in the order given, has the fewest reel
// changes. It is exact: going forward it keeps the types that can end a group at the least cost, and going back it picks
// the last and the first type of each group; the types between them cost one change each in any order.
func arrange(groups [][]kind) [][]kind {
	enders := bestEnders(groups)
	arranged := make([][]kind, len(groups))
	var next kind
	for i := len(groups) - 1; i >= 0; i-- {
		last := chooseLast(groups[i], enders[i], next)
		first := chooseFirst(groups[i], freeEntries(groups, enders, i), last)
		arranged[i] = between(groups[i], first, last)
		next = groups[i][first]
	}
	return arranged
}

// bestEnders marks, for every group, the types that can be mounted last at the fewest reel changes so far. Where exactly one
// of several types enters free (it is mounted already), that one cannot end the group as well.
func bestEnders(groups [][]kind) [][]bool {
	enders := make([][]bool, len(groups))
	for i, kinds := range groups {
		enders[i] = make([]bool, len(kinds))
		free := freeEntries(groups, enders, i)
		for j := range kinds {
			enders[i][j] = len(free) != 1 || len(kinds) == 1 || free[0] != j
		}
	}
	return enders
}

// freeEntries returns the types of group i that the group before it can leave mounted at the fewest reel changes.
func freeEntries(groups [][]kind, enders [][]bool, i int) []int {
	if i == 0 {
		return nil
	}
	mounted := map[string]bool{}
	for j, kind := range groups[i-1] {
		mounted[kind.wireType] = enders[i-1][j]
	}
	var free []int
	for j, kind := range groups[i] {
		if mounted[kind.wireType] {
			free = append(free, j)
		}
	}
	return free
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

// chooseFirst picks the first free entry that does not end the group; without a free entry the first type that does not.
func chooseFirst(kinds []kind, free []int, last int) int {
	if len(kinds) == 1 {
		return 0
	}
	for _, j := range free {
		if j != last {
			return j
		}
	}
	if last == 0 {
		return 1
	}
	return 0
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

// fewestReelChanges returns the fewest reel changes of any pass over the groups in their order, the first load not counted.
// It is the plain dynamic programme over the type mounted at the end of each group, and so a check on arrange.
func fewestReelChanges(groups [][]kind) int {
	cost := map[string]int{} // reel changes so far, by the type mounted last
	cheapest := 0
	for i, kinds := range groups {
		enter := func(k kind) int {
			stay, mounted := cost[k.wireType]
			switch {
			case i == 0:
				return 0
			case mounted:
				return min(stay, cheapest+1)
			}
			return cheapest + 1
		}
		after := map[string]int{}
		for l, last := range kinds {
			for f, first := range kinds {
				if f == l && len(kinds) > 1 {
					continue
				}
				total := enter(first) + len(kinds) - 1
				if known, found := after[last.wireType]; !found || total < known {
					after[last.wireType] = total
				}
			}
		}
		cost, cheapest = after, after[kinds[0].wireType]
		for _, kind := range kinds {
			cheapest = min(cheapest, cost[kind.wireType])
		}
	}
	return cheapest
}

// countChanges recounts the changes from a finished sequence. Loads and Bound are left to the caller.
func countChanges(groups []ownWires) Changes {
	var changes Changes
	var before *Wire
	var ink string
	var height int64
	for _, group := range groups {
		for i := range group.wires {
			wire := &group.wires[i]
			if before != nil {
				changes.Reel += one(wire.Type != before.Type)
				changes.Method += one(wire.Method != before.Method)
				changes.Ink += one(wire.Ink != "" && ink != "" && wire.Ink != ink)
				changes.Height += one(wire.HeightUM != 0 && height != 0 && wire.HeightUM != height)
			}
			before, ink, height = wire, cmp.Or(wire.Ink, ink), cmp.Or(wire.HeightUM, height)
		}
	}
	return changes
}

// one counts a condition.
func one(condition bool) int {
	if condition {
		return 1
	}
	return 0
}
