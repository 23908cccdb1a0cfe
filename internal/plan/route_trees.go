package plan

// boardTrees are the trees that hang on the loops of a board. A node on a loop is the root of its tree; a part without loops is one
// tree, with a root in its middle.
type boardTrees struct {
	parent []int // -1 of a root
	root   []int
	up     []boardCost // to the root
	head   []int       // highest node of the line of heaviest children that a node is in
}

// growTrees takes leaves off the board until none is left: the node that a leaf hangs on is its parent.
func growTrees(segments [][]boardSegment) boardTrees {
	count := len(segments)
	t := boardTrees{parent: make([]int, count), root: make([]int, count), up: make([]boardCost, count), head: make([]int, count)}
	degree, taken, step := make([]int, count), make([]bool, count), make([]boardCost, count)
	var leaves []int // in the order in which they come off
	for node := range segments {
		t.parent[node], degree[node] = -1, len(segments[node])
		if degree[node] == 1 {
			leaves = append(leaves, node)
		}
	}
	for at := 0; at < len(leaves); at++ {
		leaf := leaves[at]
		if degree[leaf] == 0 {
			continue // the last node of a part without loops
		}
		taken[leaf] = true
		for _, s := range segments[leaf] {
			if taken[s.to] {
				continue
			}
			t.parent[leaf], step[leaf] = s.to, boardCost{s.length, 1}
			if degree[s.to]--; degree[s.to] == 1 {
				leaves = append(leaves, s.to)
			}
		}
	}
	t.measure(leaves, step)
	return t
}

// measure fills in roots, costs and heads, from the roots down; leaves come off from the tips up.
func (t *boardTrees) measure(leaves []int, step []boardCost) {
	size, heaviest := make([]int, len(t.parent)), make([]int, len(t.parent))
	for node := range t.parent {
		t.root[node], t.head[node], heaviest[node] = node, node, -1
	}
	for _, node := range leaves {
		parent := t.parent[node]
		if parent < 0 {
			continue
		}
		size[node]++
		size[parent] += size[node]
		if child := heaviest[parent]; child < 0 || size[node] > size[child] {
			heaviest[parent] = node
		}
	}
	for at := len(leaves) - 1; at >= 0; at-- {
		node := leaves[at]
		parent := t.parent[node]
		if parent < 0 {
			continue
		}
		t.root[node], t.up[node] = t.root[parent], t.up[parent].plus(step[node])
		if heaviest[parent] == node {
			t.head[node] = t.head[parent]
		}
	}
}

// meet returns the lowest common ancestor of two nodes of one tree. Of lines of heaviest children a climb crosses few: each crossing
// at least doubles the tree below.
func (t *boardTrees) meet(a, b int) int {
	for t.head[a] != t.head[b] {
		if t.up[t.head[a]].segments < t.up[t.head[b]].segments {
			a, b = b, a
		}
		a = t.parent[t.head[a]]
	}
	if t.up[a].segments < t.up[b].segments {
		return a
	}
	return b
}

// climb appends the nodes from a node up to one above it, without that one.
func (t *boardTrees) climb(from, to int, nodes []int) []int {
	for ; from != to; from = t.parent[from] {
		nodes = append(nodes, from)
	}
	return nodes
}
