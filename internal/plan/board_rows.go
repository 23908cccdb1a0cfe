package plan

import (
	"cmp"
	"slices"

	"loomleaf/internal/harness"
)

// boardRow returns the board with everything that stands on it.
func boardRow(h *harness.Harness, t *trunk) Board {
	board := Board{ID: h.Board.ID, WidthUM: int64(h.Board.Width), HeightUM: int64(h.Board.Height), Trunk: t.nodes,
		Items: append(itemRows(h, t), looseRows(h)...)}
	taken := map[string]bool{}
	for _, item := range board.Items {
		taken[item.Node] = true
	}
	for _, n := range h.Board.Nodes {
		fixing := n.Fixing == harness.FixingHere || n.Fixing == harness.FixingUnsaid && !taken[n.ID] && len(t.neighbours[n.ID]) == 2
		board.Nodes = append(board.Nodes, BoardNode{ID: n.ID, XUM: int64(n.X), YUM: int64(n.Y), Fixing: fixing, Place: n.At})
		first := h.Board.Nodes[0]
		board.Drawn = board.Drawn || n.X != first.X || n.Y != first.Y
	}
	slices.SortFunc(board.Nodes, func(a, b BoardNode) int { return naturalCompare(a.ID, b.ID) })
	return board
}

// itemRows returns what wires can have their home at, as far as it has a place on the board.
func itemRows(h *harness.Harness, t *trunk) []BoardItem {
	keys := map[string]string{}
	for _, c := range h.Connectors {
		keys[c.ID] = c.Key
	}
	var rows []BoardItem
	for _, b := range bodies(h) {
		if b.node == "" {
			continue
		}
		item := BoardItem{ID: b.id, Kind: b.noun, Node: b.node, XUM: int64(b.x), YUM: int64(b.y), Title: b.title, Place: b.at}
		if b.noun == "connector" {
			item.Key = keys[b.id]
		}
		if near := t.neighbours[b.node]; len(near) == 1 && b.noun != "splice" {
			item.After = near[0]
		}
		rows = append(rows, item)
	}
	return rows
}

// looseRows counts the wires that are capped or leave at each node.
func looseRows(h *harness.Harness) []BoardItem {
	nodes := nodesByID(h.Board)
	type spot struct{ node, kind string }
	counts := map[spot]int{}
	var spots []spot
	count := func(s spot) {
		if counts[s]++; counts[s] == 1 {
			spots = append(spots, s)
		}
	}
	for _, w := range h.Wires {
		for _, end := range []*harness.End{&w.A, &w.B} {
			switch end.Kind {
			case harness.EndCapped:
				count(spot{end.Node, "capped"})
			case harness.EndLeaves:
				count(spot{end.Node, "leaves"})
			}
		}
	}
	slices.SortFunc(spots, func(a, b spot) int { return cmp.Or(naturalCompare(a.node, b.node), cmp.Compare(a.kind, b.kind)) })
	var rows []BoardItem
	for _, s := range spots {
		words := h.Paper.Spoken().SayCount("board.capped", counts[s])
		if s.kind == "leaves" {
			words = h.Paper.Spoken().SayCount("board.leaves", counts[s])
		}
		at := nodes[s.node]
		rows = append(rows, BoardItem{Kind: s.kind, Node: s.node, XUM: int64(at.X), YUM: int64(at.Y), Title: words, Place: at.At})
	}
	return rows
}
