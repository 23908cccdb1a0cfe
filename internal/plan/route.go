package plan

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// boardPath is a way along the board.
type boardPath struct {
	length units.Length
	nodes  []string // first and last included; one node where both are the same
}

// boardCost is what a way costs: of two ways the shorter one is better, of equal ones the one over fewer segments.
type boardCost struct {
	length   units.Length
	segments int
}

func (c boardCost) plus(other boardCost) boardCost {
	return boardCost{c.length + other.length, c.segments + other.segments}
}

func (c boardCost) minus(other boardCost) boardCost {
	return boardCost{c.length - other.length, c.segments - other.segments}
}

func (c boardCost) compare(other boardCost) int {
	return cmp.Or(cmp.Compare(c.length, other.length), cmp.Compare(c.segments, other.segments))
}

// boardRouter finds shortest ways along a board. Of ways of equal length it takes the one with fewer segments, then the
// one whose node before the last has the smaller name, so that the order of nodes and segments in the file has no say.
//
// Trees hang on the loops of a board; without loops the whole board is one tree. A way goes up its tree to the loops, over these,
// and down another tree.
type boardRouter struct {
	names    []string // in natural order: a smaller number is a smaller name
	numbers  map[string]int
	segments [][]boardSegment // by node, one to each neighbour, by neighbour
	parts    [][]int          // nodes that hang together
	partOf   []int            // by node
	trees    boardTrees
	loops    *boardLoops
	legs     map[[2]int]boardPath // found so far: wires side by side share theirs
}

// boardSegment leads from a node to its neighbour.
type boardSegment struct {
	to     int
	length units.Length
}

// newBoardRouter takes the graph of a checked board, on which every segment joins two nodes that exist.
func newBoardRouter(board *harness.Board) *boardRouter {
	nodes := slices.Clone(board.Nodes)
	slices.SortFunc(nodes, func(a, b harness.Node) int { return naturalCompare(a.ID, b.ID) })
	r := &boardRouter{numbers: make(map[string]int, len(nodes)), segments: make([][]boardSegment, len(nodes)), legs: map[[2]int]boardPath{}}
	for number, node := range nodes {
		r.names = append(r.names, node.ID)
		r.numbers[node.ID] = number
	}
	for _, segment := range board.Segments {
		from, to := r.numbers[segment.From], r.numbers[segment.To]
		length := segment.Length
		if length == 0 {
			length = units.Distance(nodes[from].X-nodes[to].X, nodes[from].Y-nodes[to].Y)
		}
		r.segments[from] = append(r.segments[from], boardSegment{to, length})
		r.segments[to] = append(r.segments[to], boardSegment{from, length})
	}
	for number := range r.segments {
		r.segments[number] = shortestToEach(r.segments[number], number)
	}
	r.findParts()
	r.trees = growTrees(r.segments)
	r.loops = findLoops(r.segments, r.trees.parent)
	return r
}

// shortestToEach keeps the shortest of several segments to one neighbour, in the order of the neighbours.
func shortestToEach(segments []boardSegment, from int) []boardSegment {
	slices.SortFunc(segments, func(a, b boardSegment) int { return cmp.Or(cmp.Compare(a.to, b.to), cmp.Compare(a.length, b.length)) })
	segments = slices.CompactFunc(segments, func(a, b boardSegment) bool { return a.to == b.to })
	return slices.DeleteFunc(segments, func(s boardSegment) bool { return s.to == from })
}

// findParts finds out which nodes hang together.
func (r *boardRouter) findParts() {
	r.partOf = make([]int, len(r.names))
	for i := range r.partOf {
		r.partOf[i] = -1
	}
	for first := range r.names {
		if r.partOf[first] >= 0 {
			continue
		}
		number := len(r.parts)
		r.partOf[first] = number
		nodes := []int{first}
		for at := 0; at < len(nodes); at++ {
			for _, s := range r.segments[nodes[at]] {
				if r.partOf[s.to] < 0 {
					r.partOf[s.to] = number
					nodes = append(nodes, s.to)
				}
			}
		}
		slices.Sort(nodes)
		r.parts = append(r.parts, nodes)
	}
}

// route returns the way through all stops in turn. Its error names the two nodes that no segments join, and their parts
// of the board.
func (r *boardRouter) route(stops ...string) (boardPath, error) {
	way := boardPath{nodes: stops[:1:1]}
	for i := 1; i < len(stops); i++ {
		leg, found := r.leg(stops[i-1], stops[i])
		if !found {
			return boardPath{}, fmt.Errorf("no segments join node %s to node %s: %s, %s",
				stops[i-1], stops[i], r.part(stops[i-1]), r.part(stops[i]))
		}
		way.length += leg.length
		way.nodes = append(way.nodes, leg.nodes[1:]...)
	}
	return way, nil
}

// leg returns the best way between two nodes; its nodes are not to be written to. It is always searched from the smaller name, so that
// wires to and fro between the same nodes share their branches.
func (r *boardRouter) leg(from, to string) (boardPath, bool) {
	source, target := r.numbers[from], r.numbers[to]
	if r.partOf[source] != r.partOf[target] {
		return boardPath{}, false
	}
	between := [2]int{source, target}
	way, known := r.legs[between]
	if !known {
		way = r.search(source, target)
		r.legs[between] = way
	}
	return way, true
}

// search finds the best way between two nodes of one part.
func (r *boardRouter) search(source, target int) boardPath {
	cost := r.cost(source, target)
	way := boardPath{length: cost.length, nodes: make([]string, 0, cost.segments+1)}
	for _, number := range r.walk(min(source, target), max(source, target), make([]int, 0, cost.segments+1)) {
		way.nodes = append(way.nodes, r.names[number])
	}
	if source < target {
		slices.Reverse(way.nodes)
	}
	return way
}

// cost returns what the best way between two nodes of one part costs.
func (r *boardRouter) cost(a, b int) boardCost {
	t := &r.trees
	whole := t.up[a].plus(t.up[b])
	if t.root[a] == t.root[b] {
		shared := t.up[t.meet(a, b)]
		return whole.minus(shared).minus(shared)
	}
	return whole.plus(r.loops.cost(t.root[a], t.root[b]))
}

// walk appends the nodes of the best way back from target to source.
func (r *boardRouter) walk(source, target int, nodes []int) []int {
	t := &r.trees
	up, down := t.root[target], t.root[source]
	if up == down {
		up = t.meet(source, target)
		down = up
	}
	nodes = append(t.climb(target, up, nodes), up)
	nodes = r.loops.walk(up, down, nodes)
	top := len(nodes)
	nodes = t.climb(source, down, nodes)
	slices.Reverse(nodes[top:])
	return nodes
}

// namedNodes is how many nodes of a part of the board a message names.
const namedNodes = 4

// part says which nodes stand on the same part of the board as a node: "N1 stands with N2, N3 and 12 more".
func (r *boardRouter) part(name string) string {
	part := r.parts[r.partOf[r.numbers[name]]]
	var others []string
	for _, number := range part[:min(len(part), namedNodes+1)] {
		if r.names[number] != name && len(others) < namedNodes {
			others = append(others, r.names[number])
		}
	}
	switch more := len(part) - 1 - len(others); {
	case len(others) == 0:
		return name + " stands alone"
	case more > 0:
		return fmt.Sprintf("%s stands with %s and %d more", name, strings.Join(others, ", "), more)
	}
	return fmt.Sprintf("%s stands with %s", name, strings.Join(others, ", "))
}
