package plan

import (
	"cmp"
	"container/heap"
)

// boardLoops is what is left of a board without its trees: joints, at which more than two ways meet, and chains between them. A way
// over the loops leaves its first chain at one of two joints and enters its last one at another.
type boardLoops struct {
	joint  []int // by node; -1 of a node within a chain
	chain  []int // by node; -1 of a node that is in none, or a joint
	place  []int // by node, in its chain
	chains []boardChain
	ends   [][]chainEnd   // by joint
	search []*jointSearch // by joint; begun when it is asked for
}

// boardChain is a way from joint to joint over nodes that have no other neighbours on the loops.
type boardChain struct {
	nodes    []int
	up       []boardCost // by place, from the first node
	from, to int         // joints; one joint where the chain is a ring
}

func (c *boardChain) whole() boardCost { return c.up[len(c.up)-1] }

// chainEnd is a chain as it leaves a joint.
type chainEnd struct {
	chain  int
	turned bool // from its last node to its first
}

// jointExit is a joint that a node can be left by.
type jointExit struct {
	joint int
	cost  boardCost
}

// findLoops takes the nodes without a parent. A ring without joints is given one, its node with the smallest name.
func findLoops(segments [][]boardSegment, parent []int) *boardLoops {
	count := len(segments)
	l := &boardLoops{joint: make([]int, count), chain: make([]int, count), place: make([]int, count)}
	var inner []int
	for node := range segments {
		l.joint[node], l.chain[node] = -1, -1
		if parent[node] >= 0 {
			continue
		}
		if degree := len(onLoops(segments[node], parent)); degree != 2 {
			l.addJoint(node)
		} else {
			inner = append(inner, node)
		}
	}
	for node, joint := range l.joint {
		if joint >= 0 {
			l.addChains(segments, parent, node)
		}
	}
	for _, node := range inner {
		if l.chain[node] < 0 {
			l.addJoint(node)
			l.addChains(segments, parent, node)
		}
	}
	l.search = make([]*jointSearch, len(l.ends))
	return l
}

// onLoops returns the segments that lead to nodes on loops.
func onLoops(segments []boardSegment, parent []int) []boardSegment {
	var found []boardSegment
	for _, s := range segments {
		if parent[s.to] < 0 {
			found = append(found, s)
		}
	}
	return found
}

func (l *boardLoops) addJoint(node int) {
	l.joint[node] = len(l.ends)
	l.ends = append(l.ends, nil)
}

// addChains adds the chains of a joint that are not known from their other ends.
func (l *boardLoops) addChains(segments [][]boardSegment, parent []int, joint int) {
	for _, first := range onLoops(segments[joint], parent) {
		direct := l.joint[first.to] >= 0
		if direct && first.to < joint || !direct && l.chain[first.to] >= 0 {
			continue
		}
		chain := boardChain{nodes: []int{joint}, up: []boardCost{{}}, from: l.joint[joint]}
		before, next := joint, first
		for {
			chain.nodes = append(chain.nodes, next.to)
			chain.up = append(chain.up, chain.whole().plus(boardCost{next.length, 1}))
			if l.joint[next.to] >= 0 {
				break
			}
			l.chain[next.to], l.place[next.to] = len(l.chains), len(chain.nodes)-1
			onward := onLoops(segments[next.to], parent)
			if onward[0].to == before {
				onward = onward[1:]
			}
			before, next = next.to, onward[0]
		}
		chain.to = l.joint[next.to]
		l.ends[chain.from] = append(l.ends[chain.from], chainEnd{len(l.chains), false})
		l.ends[chain.to] = append(l.ends[chain.to], chainEnd{len(l.chains), true})
		l.chains = append(l.chains, chain)
	}
}

// exits returns the joints that a node can be left by, and how many: a joint is left by itself.
func (l *boardLoops) exits(node int) ([2]jointExit, int) {
	if joint := l.joint[node]; joint >= 0 {
		return [2]jointExit{{joint: joint}}, 1
	}
	chain := &l.chains[l.chain[node]]
	up := chain.up[l.place[node]]
	return [2]jointExit{{chain.from, up}, {chain.to, chain.whole().minus(up)}}, 2
}

// cost returns what the best way between two nodes on the loops of one part costs.
func (l *boardLoops) cost(a, b int) boardCost {
	best, found := boardCost{}, false
	if chain := l.chain[a]; chain >= 0 && chain == l.chain[b] {
		up := l.chains[chain].up
		low, high := min(l.place[a], l.place[b]), max(l.place[a], l.place[b])
		best, found = up[high].minus(up[low]), true
	}
	outs, outCount := l.exits(a)
	ins, inCount := l.exits(b)
	for _, out := range outs[:outCount] {
		for _, in := range ins[:inCount] {
			// the row of the joint at b: a walk to b asks for it again and again
			whole := out.cost.plus(in.cost).plus(l.between(in.joint, out.joint))
			if !found || whole.compare(best) < 0 {
				best, found = whole, true
			}
		}
	}
	return best
}

// between returns what the best way between two joints of one part costs.
func (l *boardLoops) between(a, b int) boardCost {
	if a == b {
		return boardCost{}
	}
	if l.search[a] == nil {
		l.search[a] = newJointSearch(a, len(l.ends))
	}
	return l.search[a].to(l, b)
}

// jointSearch is Dijkstra's method from one joint over chains. It goes no further than it was asked for: most wires end near where
// they start.
type jointSearch struct {
	costs        []boardCost // by joint
	known, final []bool
	queue        jointQueue
}

func newJointSearch(source, joints int) *jointSearch {
	s := &jointSearch{costs: make([]boardCost, joints), known: make([]bool, joints), final: make([]bool, joints), queue: jointQueue{{joint: source}}}
	s.known[source] = true
	return s
}

// to goes on until the cost of a joint is final.
func (s *jointSearch) to(l *boardLoops, joint int) boardCost {
	for !s.final[joint] && s.queue.Len() > 0 {
		here := s.queue.take()
		if s.final[here.joint] {
			continue // a better way was found before
		}
		s.final[here.joint] = true
		for _, end := range l.ends[here.joint] {
			chain := &l.chains[end.chain]
			next := jointExit{chain.to, here.cost.plus(chain.whole())}
			if end.turned {
				next.joint = chain.from
			}
			if !s.known[next.joint] || next.cost.compare(s.costs[next.joint]) < 0 {
				s.known[next.joint], s.costs[next.joint] = true, next.cost
				s.queue.put(next)
			}
		}
	}
	return s.costs[joint]
}

// walk appends the nodes behind from on the best way to a node on the loops: of neighbours on equal ways the one with the smaller name.
// Within a chain the way goes on as it came.
func (l *boardLoops) walk(from, to int, nodes []int) []int {
	if from == to {
		return nodes
	}
	left := l.cost(from, to)
	for at := from; at != to; at = nodes[len(nodes)-1] {
		nodes, left = l.stride(at, to, left, nodes)
	}
	return nodes
}

// stride appends the nodes from the one behind at to the end of its chain, or to the node that is looked for. It is told what the way
// from at costs and returns what is left of that.
func (l *boardLoops) stride(at, to int, left boardCost, nodes []int) ([]int, boardCost) {
	best, bestEnd := -1, chainEnd{}
	for _, end := range l.onward(at) {
		chain := &l.chains[end.chain]
		here := l.placeFrom(at, end)
		next := here + end.by()
		step := chain.up[max(here, next)].minus(chain.up[min(here, next)])
		node := chain.nodes[next]
		if (best < 0 || node < best) && step.plus(l.cost(node, to)) == left {
			best, bestEnd = node, end
		}
	}
	chain := &l.chains[bestEnd.chain]
	start := l.placeFrom(at, bestEnd)
	for place := start; ; {
		place += bestEnd.by()
		nodes = append(nodes, chain.nodes[place])
		if chain.nodes[place] == to || place == 0 || place == len(chain.nodes)-1 {
			return nodes, left.minus(chain.up[max(start, place)].minus(chain.up[min(start, place)]))
		}
	}
}

// by returns how the place in the chain changes along the way.
func (e chainEnd) by() int {
	if e.turned {
		return -1
	}
	return 1
}

// onward returns the ways on from a node: both directions of its chain, or the chains that leave a joint.
func (l *boardLoops) onward(node int) []chainEnd {
	if joint := l.joint[node]; joint >= 0 {
		return l.ends[joint]
	}
	return []chainEnd{{l.chain[node], false}, {l.chain[node], true}}
}

// placeFrom returns the place of a node in a chain, where a way along that chain starts: a joint may stand at both its ends.
func (l *boardLoops) placeFrom(node int, end chainEnd) int {
	switch {
	case l.joint[node] < 0:
		return l.place[node]
	case end.turned:
		return len(l.chains[end.chain].nodes) - 1
	}
	return 0
}

// jointQueue is a heap of joints, nearest first.
type jointQueue []jointExit

func (q jointQueue) Len() int      { return len(q) }
func (q jointQueue) Swap(i, j int) { q[i], q[j] = q[j], q[i] }
func (q jointQueue) Less(i, j int) bool {
	return cmp.Or(q[i].cost.compare(q[j].cost), cmp.Compare(q[i].joint, q[j].joint)) < 0
}

// Push and Pop are for package heap, which is not asked for them: put and take spare an interface for every joint.
func (q *jointQueue) Push(exit any) { *q = append(*q, exit.(jointExit)) }
func (q *jointQueue) Pop() any      { return q.take() }

// put adds a joint.
func (q *jointQueue) put(exit jointExit) {
	*q = append(*q, exit)
	heap.Fix(q, len(*q)-1)
}

// take removes the nearest joint.
func (q *jointQueue) take() jointExit {
	last := len(*q) - 1
	nearest := (*q)[0]
	(*q)[0] = (*q)[last]
	if *q = (*q)[:last]; last > 0 {
		heap.Fix(q, 0)
	}
	return nearest
}
