package plan

import (
	"cmp"
	"fmt"
	"slices"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// boardPlace is a node of the board, or a point on the segment from that node to a neighbour. Without a node it is no place.
type boardPlace struct {
	node    string
	offset  units.Length // from node; 0 at the node itself
	towards string       // neighbour; "" at the node itself
	segment units.Length // length of that segment
}

// boardWay is a way between two places of the board.
type boardWay struct {
	boardPath              // the nodes alone: none for two points on one segment
	before    units.Length // from the first place to the first node
	after     units.Length // from the last node to the last place
	pieces    [][2]string  // segments of which a part is used, at either end
}

// place returns the point at an offset from a node towards its neighbour. The shortest of several segments between them counts.
func (r *boardRouter) place(node string, offset units.Length, towards string) (boardPlace, error) {
	if offset == 0 {
		return boardPlace{node: node}, nil
	}
	segment, found := units.Length(0), false
	for _, s := range r.segments[r.numbers[node]] {
		if r.names[s.to] == towards && (!found || s.length < segment) {
			segment, found = s.length, true
		}
	}
	switch {
	case !found:
		return boardPlace{}, fmt.Errorf("no segment joins node %s to node %s", node, towards)
	case offset > segment:
		return boardPlace{}, fmt.Errorf("the segment from node %s to node %s is %s long, less than %s", node, towards, segment, offset)
	case offset == segment:
		return boardPlace{node: towards}, nil
	}
	return boardPlace{node, offset, towards, segment}, nil
}

// exit is a node that a place is left by, and how far it is.
type exit struct {
	node   string
	length units.Length
}

// exits returns the nodes that a place is left by.
func (p boardPlace) exits() []exit {
	if p.offset == 0 {
		return []exit{{p.node, 0}}
	}
	return []exit{{p.node, p.offset}, {p.towards, p.segment - p.offset}}
}

// pieces names the segment on which a place stands, if any.
func (p boardPlace) pieces() [][2]string {
	if p.offset == 0 {
		return nil
	}
	return [][2]string{segmentName(p.node, p.towards)}
}

// segmentName names a segment by its nodes in natural order.
func segmentName(a, b string) [2]string {
	if naturalCompare(b, a) < 0 {
		a, b = b, a
	}
	return [2]string{a, b}
}

// way returns the shortest way between two places over the nodes in between, with the rules of route.
func (r *boardRouter) way(from boardPlace, via []string, to boardPlace) (boardWay, error) {
	if len(via) == 0 {
		return r.between(from, to)
	}
	first, err := r.between(from, boardPlace{node: via[0]})
	if err != nil {
		return boardWay{}, err
	}
	middle, err := r.route(via...)
	if err != nil {
		return boardWay{}, err
	}
	last, err := r.between(boardPlace{node: via[len(via)-1]}, to)
	if err != nil {
		return boardWay{}, err
	}
	whole := boardWay{before: first.before, after: last.after, pieces: append(first.pieces, last.pieces...)}
	whole.length = first.length + middle.length + last.length
	whole.nodes = slices.Concat(first.nodes, middle.nodes[1:], last.nodes[1:])
	return whole, nil
}

// between returns the shortest way between two places. It is always searched from the smaller place, so that wires to and fro
// share their branches.
func (r *boardRouter) between(from, to boardPlace) (boardWay, error) {
	if from.offset == 0 && to.offset == 0 {
		if leg, found := r.leg(from.node, to.node); found {
			return boardWay{boardPath: leg}, nil
		}
	}
	if comparePlaces(to, from) < 0 {
		way, err := r.between(to, from)
		if err == nil {
			way.nodes = slices.Clone(way.nodes)
			slices.Reverse(way.nodes)
			way.before, way.after = way.after, way.before
		}
		return way, err
	}
	var best boardWay
	if from.offset > 0 && to.offset > 0 && segmentName(from.node, from.towards) == segmentName(to.node, to.towards) {
		best = boardWay{boardPath: boardPath{length: apart(from, to), nodes: []string{}}, pieces: from.pieces()}
	}
	for _, out := range from.exits() {
		for _, in := range to.exits() {
			leg, found := r.leg(out.node, in.node)
			if !found {
				_, err := r.route(out.node, in.node)
				return boardWay{}, err
			}
			leg.length += out.length + in.length
			way := boardWay{boardPath: leg, before: out.length, after: in.length, pieces: append(from.pieces(), to.pieces()...)}
			if best.nodes == nil || way.beats(best) {
				best = way
			}
		}
	}
	return best, nil
}

// beats prefers the shorter way, then fewer segments, then smaller names.
func (w boardWay) beats(other boardWay) bool {
	return cmp.Or(cmp.Compare(w.length, other.length), cmp.Compare(len(w.nodes), len(other.nodes)),
		slices.CompareFunc(w.nodes, other.nodes, naturalCompare)) < 0
}

func comparePlaces(a, b boardPlace) int {
	return cmp.Or(naturalCompare(a.node, b.node), cmp.Compare(a.offset, b.offset), naturalCompare(a.towards, b.towards))
}

// apart returns the distance of two points along their one segment.
func apart(a, b boardPlace) units.Length {
	at := b.offset
	if a.node != b.node {
		at = b.segment - b.offset
	}
	return max(a.offset-at, at-a.offset)
}

// along returns the length of a way from node to node.
func (r *boardRouter) along(nodes []string) units.Length {
	var length units.Length
	for i := 1; i < len(nodes); i++ {
		length += r.cost(r.numbers[nodes[i-1]], r.numbers[nodes[i]]).length
	}
	return length
}

// used returns the segments that a way takes, whole or in part.
func (w boardWay) used() [][2]string {
	used := slices.Clone(w.pieces)
	for i := 1; i < len(w.nodes); i++ {
		used = append(used, segmentName(w.nodes[i-1], w.nodes[i]))
	}
	slices.SortFunc(used, func(a, b [2]string) int { return cmp.Or(naturalCompare(a[0], b[0]), naturalCompare(a[1], b[1])) })
	return slices.Compact(used)
}

// splicePlaces returns the place of every splice on the board by its id, and what is wrong with one.
func splicePlaces(r *boardRouter, splices []harness.Splice) (map[string]boardPlace, map[string]error) {
	places, faults := make(map[string]boardPlace, len(splices)), map[string]error{}
	for i := range splices {
		s := &splices[i]
		if s.Node == "" {
			continue
		}
		place, err := r.place(s.Node, s.Offset, s.Towards)
		if err != nil {
			faults[s.ID] = err
			continue
		}
		places[s.ID] = place
	}
	return places, faults
}
