package plan

import (
	"cmp"
	"container/heap"
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

// boardRouter finds shortest ways along a board. Of ways of equal length it takes the one with fewer segments, then the
// one whose node before the last has the smaller name, so that the order of nodes and segments in the file has no say.
type boardRouter struct {
	names    []string // in natural order: a smaller number is a smaller name
	numbers  map[string]int
	segments [][]boardSegment    // by node
	trees    map[int][]boardStep // by source, filled as they are asked for
}

// boardSegment leads from a node to its neighbour.
type boardSegment struct {
	to     int
	length units.Length
}

// boardStep is how a node is best reached from the source of a tree.
type boardStep struct {
	reached  bool
	length   units.Length
	segments int
	before   int // node before this one
}

// newBoardRouter takes the graph of a checked board, on which every segment joins two nodes that exist.
func newBoardRouter(board *harness.Board) *boardRouter {
	nodes := slices.Clone(board.Nodes)
	slices.SortFunc(nodes, func(a, b harness.Node) int { return naturalCompare(a.ID, b.ID) })
	r := &boardRouter{
		numbers:  make(map[string]int, len(nodes)),
		segments: make([][]boardSegment, len(nodes)),
		trees:    make(map[int][]boardStep),
	}
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
	return r
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

// leg returns the best way between two nodes. It is always searched from the smaller name, so that wires to and fro
// between the same nodes share their branches.
func (r *boardRouter) leg(from, to string) (boardPath, bool) {
	source, target := r.numbers[from], r.numbers[to]
	turned := target < source
	if turned {
		source, target = target, source
	}
	tree := r.tree(source)
	if !tree[target].reached {
		return boardPath{}, false
	}
	way := boardPath{length: tree[target].length, nodes: []string{r.names[target]}}
	for at := target; at != source; {
		at = tree[at].before
		way.nodes = append(way.nodes, r.names[at])
	}
	if !turned {
		slices.Reverse(way.nodes)
	}
	return way, true
}

// tree returns the best step to every node from a source: Dijkstra's method over (length, segments, name before).
func (r *boardRouter) tree(source int) []boardStep {
	if tree, known := r.trees[source]; known {
		return tree
	}
	tree := make([]boardStep, len(r.names))
	tree[source] = boardStep{reached: true, before: source}
	queue := &boardQueue{{node: source}}
	for queue.Len() > 0 {
		next := heap.Pop(queue).(boardVisit)
		here := tree[next.node]
		if next.length != here.length || next.segments != here.segments {
			continue // a better way was found since
		}
		for _, segment := range r.segments[next.node] {
			step := boardStep{true, here.length + segment.length, here.segments + 1, next.node}
			if step.beats(tree[segment.to]) {
				tree[segment.to] = step
				heap.Push(queue, boardVisit{segment.to, step.length, step.segments})
			}
		}
	}
	r.trees[source] = tree
	return tree
}

// beats reports whether a step is better than the one known.
func (s boardStep) beats(known boardStep) bool {
	return !known.reached || cmp.Or(cmp.Compare(s.length, known.length),
		cmp.Compare(s.segments, known.segments), cmp.Compare(s.before, known.before)) < 0
}

// namedNodes is how many nodes of a part of the board a message names.
const namedNodes = 4

// part says which nodes stand on the same part of the board as a node: "N1 stands with N2, N3 and 12 more".
func (r *boardRouter) part(name string) string {
	var others []string
	for number, step := range r.tree(r.numbers[name]) {
		if step.reached && r.names[number] != name {
			others = append(others, r.names[number])
		}
	}
	switch {
	case len(others) == 0:
		return name + " stands alone"
	case len(others) > namedNodes:
		return fmt.Sprintf("%s stands with %s and %d more", name, strings.Join(others[:namedNodes], ", "), len(others)-namedNodes)
	}
	return fmt.Sprintf("%s stands with %s", name, strings.Join(others, ", "))
}

// boardVisit is a node waiting in the queue.
type boardVisit struct {
	node     int
	length   units.Length
	segments int
}

// boardQueue is a heap of nodes, nearest first.
type boardQueue []boardVisit

func (q boardQueue) Len() int      { return len(q) }
func (q boardQueue) Swap(i, j int) { q[i], q[j] = q[j], q[i] }
func (q boardQueue) Less(i, j int) bool {
	return cmp.Or(cmp.Compare(q[i].length, q[j].length),
		cmp.Compare(q[i].segments, q[j].segments), cmp.Compare(q[i].node, q[j].node)) < 0
}

// Push appends a visit, for package heap.
func (q *boardQueue) Push(visit any) { *q = append(*q, visit.(boardVisit)) }

// Pop takes the last visit, for package heap.
func (q *boardQueue) Pop() any {
	last := len(*q) - 1
	visit := (*q)[last]
	*q = (*q)[:last]
	return visit
}
