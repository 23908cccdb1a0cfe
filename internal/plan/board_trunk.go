package plan

import (
	"cmp"
	"slices"

	"loomleaf/internal/harness"
)

// trunk is the thickest way through the board, and the branches that leave it.
type trunk struct {
	nodes      []string
	neighbours map[string][]string    // by node, in natural order
	thickness  map[[2]string]Segment  // by segment
	places     map[string]branchPlace // by node
}

// branchPlace says where a node comes in the order of laying.
type branchPlace struct {
	branch int // number of the branch, in the order along the trunk
	step   int // order within the branch: nearer to the trunk first
	leaves string
	nodes  []string // of the branch; none for a node of the trunk
}

// trunkOf finds the trunk: the way with the largest sum of diameters, over the thickest segments that join all nodes without a loop.
// Ties go to the smaller names.
func trunkOf(h *harness.Harness, segments []Segment) *trunk {
	t := &trunk{neighbours: map[string][]string{}, thickness: map[[2]string]Segment{}, places: map[string]branchPlace{}}
	for _, s := range segments {
		a, b := s.Between[0], s.Between[1]
		t.neighbours[a], t.neighbours[b] = append(t.neighbours[a], b), append(t.neighbours[b], a)
		t.thickness[segmentName(a, b)] = s
	}
	for _, node := range h.Board.Nodes {
		slices.SortFunc(t.neighbours[node.ID], naturalCompare)
	}
	t.nodes = heaviestWay(h, thickestTree(segments))
	if len(t.nodes) > 0 {
		t.turn(h)
	}
	t.place(h)
	return t
}

// thickestTree returns, by node, the neighbours over the thickest segments that make no loop (Kruskal's method), with their diameters.
func thickestTree(segments []Segment) map[string][]boughTo {
	root := map[string]string{}
	find := func(node string) string {
		for root[node] != "" {
			if above := root[root[node]]; above != "" {
				root[node] = above // keeps the chains short
			}
			node = root[node]
		}
		return node
	}
	tree := map[string][]boughTo{}
	for _, s := range slices.SortedStableFunc(slices.Values(segments), func(a, b Segment) int { return cmp.Compare(b.DiameterUM, a.DiameterUM) }) {
		a, b := find(s.Between[0]), find(s.Between[1])
		if s.DiameterUM == 0 || a == b {
			continue
		}
		root[b] = a
		tree[s.Between[0]] = append(tree[s.Between[0]], boughTo{s.Between[1], s.DiameterUM})
		tree[s.Between[1]] = append(tree[s.Between[1]], boughTo{s.Between[0], s.DiameterUM})
	}
	return tree
}

// boughTo leads to a neighbour over a segment of a diameter.
type boughTo struct {
	node     string
	diameter int64
}

// heaviestWay returns the way with the largest sum of diameters in a forest: in each tree the farthest node from any node is one end.
func heaviestWay(h *harness.Harness, tree map[string][]boughTo) []string {
	var best []string
	most := int64(0)
	seen := map[string]bool{}
	for _, node := range slices.SortedFunc(slices.Values(h.Board.Nodes), compareNodes) {
		if seen[node.ID] || len(tree[node.ID]) == 0 {
			continue
		}
		first, _ := farthest(tree, node.ID, seen)
		way, sum := farthest(tree, first[len(first)-1], map[string]bool{})
		if sum > most {
			best, most = way, sum
		}
	}
	return best
}

// farthest returns the way from a node with the largest sum of diameters, and marks what it has seen.
func farthest(tree map[string][]boughTo, from string, seen map[string]bool) ([]string, int64) {
	type visit struct {
		node, before string
		sum          int64
	}
	before := map[string]string{}
	best := visit{node: from}
	for open := []visit{best}; len(open) > 0; open = open[1:] {
		v := open[0]
		before[v.node], seen[v.node] = v.before, true
		if v.sum > best.sum || v.sum == best.sum && naturalCompare(v.node, best.node) < 0 {
			best = v
		}
		for _, to := range tree[v.node] {
			if to.node != v.before {
				open = append(open, visit{to.node, v.node, v.sum + to.diameter})
			}
		}
	}
	var way []string
	for node := best.node; node != ""; node = before[node] {
		way = append(way, node)
	}
	slices.Reverse(way)
	return way, best.sum
}

// turn lets the trunk begin at the end further left, then lower, then of the smaller name.
func (t *trunk) turn(h *harness.Harness) {
	nodes := nodesByID(h.Board)
	if compareNodes(nodes[t.nodes[len(t.nodes)-1]], nodes[t.nodes[0]]) < 0 {
		slices.Reverse(t.nodes)
	}
}

func compareNodes(a, b harness.Node) int {
	return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y), naturalCompare(a.ID, b.ID))
}

// place numbers the branches along the trunk: a node of the trunk first, then what leaves it. What hangs together with no trunk comes last.
func (t *trunk) place(h *harness.Harness) {
	for _, node := range t.nodes {
		t.places[node] = branchPlace{} // so that no branch runs over it
	}
	branch := 0
	for _, node := range t.nodes {
		t.places[node] = branchPlace{branch: branch, leaves: node}
		branch++
		for _, to := range t.neighbours[node] {
			if _, placed := t.places[to]; !placed {
				t.flood(to, node, branch)
				branch++
			}
		}
	}
	rest := slices.SortedFunc(slices.Values(h.Board.Nodes), compareNodes)
	for _, node := range rest {
		if _, placed := t.places[node.ID]; !placed {
			t.flood(node.ID, "", branch)
			branch++
		}
	}
}

// flood gives a node, and all that hang together with it off the trunk, to one branch: nearer ones first.
func (t *trunk) flood(from, leaves string, branch int) {
	found := []string{from}
	t.places[from] = branchPlace{}
	for i := 0; i < len(found); i++ {
		for _, to := range t.neighbours[found[i]] {
			if _, placed := t.places[to]; !placed {
				t.places[to] = branchPlace{}
				found = append(found, to)
			}
		}
	}
	for step, node := range found {
		t.places[node] = branchPlace{branch: branch, step: step, leaves: leaves, nodes: found}
	}
}
