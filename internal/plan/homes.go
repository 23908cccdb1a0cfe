package plan

import (
	"cmp"
	"fmt"
	"slices"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
)

// buildOrder returns the connector ids in the order in which the board is built: by node from left to right, then from the
// bottom up, then by id; in the order of the job file where the policy says "listed".
func buildOrder(h *harness.Harness) []string {
	connectors := slices.Clone(h.Connectors)
	if h.Policy.Order != "listed" {
		nodes := nodesByID(h.Board)
		slices.SortStableFunc(connectors, func(a, b harness.Connector) int {
			from, to := nodes[a.Node], nodes[b.Node]
			return cmp.Or(cmp.Compare(from.X, to.X), cmp.Compare(from.Y, to.Y), naturalCompare(a.ID, b.ID))
		})
	}
	ids := make([]string, len(connectors))
	for i, connector := range connectors {
		ids[i] = connector.ID
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

// homes returns the home connector of every wire by wire id: the connector that the job locks it to, else the one the
// policy says. A lock to a connector that is not at an end of the wire is an error.
func homes(h *harness.Harness, build []string) (map[string]string, problem.List) {
	position := make(map[string]int, len(build))
	for i, id := range build {
		position[id] = i
	}
	var problems problem.List
	home := make(map[string]string, len(h.Wires))
	for _, wire := range h.Wires {
		a, b := wire.A.Connector, wire.B.Connector
		switch {
		case wire.Home != "" && wire.Home != a && wire.Home != b:
			problems = append(problems, strayHome(wire))
		case wire.Home != "":
			home[wire.ID] = wire.Home
		case h.Policy.Home == "board-order" && position[b] < position[a]:
			home[wire.ID] = b
		default:
			home[wire.ID] = a
		}
	}
	return home, problems
}

// strayHome refuses a lock to a connector at neither end.
func strayHome(wire harness.Wire) problem.Problem {
	return problem.Problem{
		Severity: problem.Error, Check: "home-not-an-end", Place: wire.Of("home"), ID: wire.ID,
		Text: fmt.Sprintf("wire %s is locked to home %s, but it runs from %s to %s", wire.ID, wire.Home, wire.A.Connector, wire.B.Connector),
		Hint: "name the connector of one of its ends",
	}
}

// ownWires holds the wires of one home connector.
type ownWires struct {
	connector string
	wires     []Wire
}

// groupWires sorts the wires to their home connectors, in build order. A connector without own wires has no group.
func groupWires(wires []Wire, build []string) []ownWires {
	byHome := make(map[string][]Wire, len(build))
	for _, wire := range wires {
		byHome[wire.Home] = append(byHome[wire.Home], wire)
	}
	var groups []ownWires
	for _, id := range build {
		if own := byHome[id]; len(own) > 0 {
			groups = append(groups, ownWires{connector: id, wires: own})
		}
	}
	return groups
}
