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

// runOrder puts the rows of every group in the order of the run. Groups keep their order. The types of a group are arranged with
// the fewest reel changes over the whole pass; within a type, rows of one method, ink and height follow each other. Rows of one
// unit stay together.
func runOrder(groups []ownWires) []ownWires {
	graphs := make([]kindGraph, len(groups))
	for i, group := range groups {
		graphs[i] = graphOf(group.wires)
	}
	ordered := make([]ownWires, len(groups))
	var last Wire
	for i, ends := range arrange(graphs) {
		ordered[i] = ownWires{connector: groups[i].connector, wires: make([]Wire, 0, len(groups[i].wires))}
		for _, stop := range graphs[i].stops(ends) {
			rows := slices.Clone(stop.rows)
			if stop.turned {
				slices.Reverse(rows)
			}
			if stop.rows == nil {
				rows = orderWithin(graphs[i].alone[stop.kind], last)
			}
			ordered[i].wires = append(ordered[i].wires, rows...)
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

// compareSettings orders rows of one type: those with the setting of the row before them first, then by method, ink, height from
// large to small, and id.
func compareSettings(a, b, before Wire) int {
	changed := func(wire Wire) int { return one(settingOf(wire) != settingOf(before)) }
	return cmp.Or(cmp.Compare(changed(a), changed(b)), cmp.Compare(methodRank(a.Method), methodRank(b.Method)),
		cmp.Compare(a.Ink, b.Ink), cmp.Compare(b.HeightUM, a.HeightUM), naturalCompare(a.ID, b.ID))
}

// orderWithin orders the units of one type and the rows of each.
func orderWithin(units [][]Wire, before Wire) []Wire {
	ordered := make([][]Wire, len(units))
	for i, unit := range units {
		ordered[i] = slices.Clone(unit)
		slices.SortFunc(ordered[i], func(a, b Wire) int { return compareSettings(a, b, before) })
	}
	slices.SortFunc(ordered, func(a, b []Wire) int { return compareSettings(a[0], b[0], before) })
	return slices.Concat(ordered...)
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
