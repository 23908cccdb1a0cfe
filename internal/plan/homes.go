package plan

import (
	"cmp"
	"slices"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

// body is what a wire can have its home at.
type body struct {
	id, noun string // noun: "connector"
	title    string
	class    int // connectors come before splices, splices before terminals
	node     string
	x, y     units.Length
	at       problem.Place
}

// bodies returns what wires can have their home at in the order in which the board is built: connectors, then splices, then
// terminals, each by place from left to right, then from the bottom up, then by id; in the order of the job file where the policy
// says "listed".
func bodies(h *harness.Harness) []body {
	all := bodiesListed(h)
	if h.Policy.Order != "listed" {
		slices.SortFunc(all, func(a, b body) int {
			return cmp.Or(cmp.Compare(a.class, b.class), cmp.Compare(a.x, b.x), cmp.Compare(a.y, b.y), naturalCompare(a.id, b.id))
		})
	}
	return all
}

// bodiesListed returns what wires can have their home at as the job lists it: connectors, splices, terminals.
func bodiesListed(h *harness.Harness) []body {
	nodes := nodesByID(h.Board)
	all := make([]body, 0, len(h.Connectors)+len(h.Splices)+len(h.Terminals))
	for _, c := range h.Connectors {
		all = append(all, body{id: c.ID, noun: "connector", title: c.Title, node: c.Node, x: nodes[c.Node].X, y: nodes[c.Node].Y, at: c.At})
	}
	for _, s := range h.Splices {
		x, y := pointOf(nodes, s)
		all = append(all, body{id: s.ID, noun: "splice", title: h.Paper.Spoken().Say("strips.part_splice"), class: 1, node: s.Node, x: x, y: y, at: s.At})
	}
	for _, t := range h.Terminals {
		all = append(all, body{id: t.ID, noun: "terminal", title: t.Kind, class: 2, node: t.Node, x: nodes[t.Node].X, y: nodes[t.Node].Y, at: t.At})
	}
	return all
}

// pointOf returns where a splice is drawn.
func pointOf(nodes map[string]harness.Node, s harness.Splice) (x, y units.Length) {
	from := nodes[s.Node]
	to, found := nodes[s.Towards]
	if !found {
		return from.X, from.Y
	}
	drawn := max(units.Distance(to.X-from.X, to.Y-from.Y), 1)
	return from.X + (to.X-from.X)*s.Offset/drawn, from.Y + (to.Y-from.Y)*s.Offset/drawn
}

// bodiesByID indexes what wires can have their home at.
func bodiesByID(h *harness.Harness) map[string]body {
	all := bodiesListed(h)
	byID := make(map[string]body, len(all))
	for _, b := range all {
		byID[b.id] = b
	}
	return byID
}

// buildOrder returns the ids of everything that wires can have their home at, in the order in which the board is built.
func buildOrder(h *harness.Harness) []string {
	all := bodies(h)
	ids := make([]string, 0, len(all))
	for _, b := range all {
		ids = append(ids, b.id)
	}
	return ids
}

// nodesByID indexes the nodes of the board.
func nodesByID(board harness.Board) map[string]harness.Node {
	nodes := make(map[string]harness.Node, len(board.Nodes))
	for _, node := range board.Nodes {
		nodes[node.ID] = node
	}
	return nodes
}

// ownWires holds the rows of one home: wires, and cables as lineRow gives them.
type ownWires struct {
	connector string
	wires     []*Wire
}

// groupWires sorts rows to their homes, in build order. A connector without own wires has no group.
func groupWires(rows []*Wire, home map[string]string, build []string) []ownWires {
	byHome := make(map[string][]*Wire, len(build))
	for _, row := range rows {
		byHome[home[row.ID]] = append(byHome[home[row.ID]], row)
	}
	var groups []ownWires
	for _, id := range build {
		if own := byHome[id]; len(own) > 0 {
			groups = append(groups, ownWires{connector: id, wires: own})
		}
	}
	return groups
}
