package job

import (
	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

// checkSegments finds segments that lead back to their node, or that stand twice.
func checkSegments(h *harness.Harness) problem.List {
	first := map[pair]problem.Place{}
	var found problem.List
	for _, s := range h.Board.Segments {
		at := s.Of("between")
		key := pairOf(s.From, s.To)
		other, doubled := first[key]
		switch {
		case s.From == "":
		case s.From == s.To:
			found = append(found, about(fault(segmentToItself, at, "a segment leads from node %s to itself", quoted(s.From)), s.From, "write its other node"))
		case doubled:
			p := about(fault(doubledSegment, at, "nodes %s and %s have two segments between them", quoted(key.a), quoted(key.b)), key.a,
				"take one out, or put a node into the second way")
			found = append(found, with(p, other, "the other one stands here"))
		default:
			first[key] = at
		}
	}
	return found
}

// pair names a segment by its nodes, whatever their order.
type pair struct{ a, b string }

func pairOf(from, to string) pair { return pair{min(from, to), max(from, to)} }

// segmentLength returns the length of a segment: the one given, else the distance of its nodes; false where a node is not known.
func (l *lookup) segmentLength(s *harness.Segment) (units.Length, bool) {
	from, to := l.nodes[s.From], l.nodes[s.To]
	switch {
	case from == nil || to == nil:
		return 0, false
	case s.Length > 0:
		return s.Length, true
	}
	return units.Distance(from.X-to.X, from.Y-to.Y), true
}

// checkOffsets finds splices that lie towards a node that is no neighbour of theirs, or beyond it.
func checkOffsets(h *harness.Harness) problem.List {
	l := newLookup(h)
	segments := map[pair]*harness.Segment{}
	for i := range h.Board.Segments {
		s := &h.Board.Segments[i]
		if key := pairOf(s.From, s.To); segments[key] == nil {
			segments[key] = s
		}
	}
	var found problem.List
	for _, s := range h.Splices {
		if l.nodes[s.Node] == nil || l.nodes[s.Towards] == nil {
			continue
		}
		segment := segments[pairOf(s.Node, s.Towards)]
		if segment == nil {
			found = append(found, about(fault(badOffset, s.Of("offset"), "splice %s lies from node %s towards node %s, and no segment joins them",
				quoted(s.ID), quoted(s.Node), quoted(s.Towards)), s.ID, "write a neighbour of its node, or add the segment"))
			continue
		}
		if length, known := l.segmentLength(segment); known && s.Offset > length {
			p := about(fault(badOffset, s.Of("offset"), "splice %s lies %s from node %s towards node %s, which is %s away",
				quoted(s.ID), s.Offset, quoted(s.Node), quoted(s.Towards), length), s.ID, "shorten the offset, or count from another node")
			found = append(found, with(p, segment.At, "the segment stands here"))
		}
	}
	return found
}

// checkCovers finds covers that reach beyond their segment.
func checkCovers(h *harness.Harness) problem.List {
	l := newLookup(h)
	var found problem.List
	for i := range h.Board.Segments {
		s := &h.Board.Segments[i]
		length, known := l.segmentLength(s)
		for _, cover := range s.Covers {
			if known && cover.To > length {
				found = append(found, about(fault(offSegment, s.Of("cover"), "cover %s ends at %s on the segment from %s to %s, which is %s long",
					quoted(cover.Part), cover.To, quoted(s.From), quoted(s.To), length), s.From, "end it with the segment, and go on with a cover on the next one"))
			}
		}
	}
	return found
}

// checkOnBoard finds nodes beyond the edges of the board.
func checkOnBoard(h *harness.Harness) problem.List {
	var found problem.List
	if h.Board.ID == "" {
		return nil
	}
	for _, n := range h.Board.Nodes {
		if n.X < 0 || n.Y < 0 || n.X > h.Board.Width || n.Y > h.Board.Height {
			p := about(fault(offBoard, n.Of("at"), "node %s stands beyond the edge of the board", quoted(n.ID)), n.ID, "positions count from the lower left corner: right, up")
			found = append(found, with(p, h.Board.Of("size"), "the size of the board stands here"))
		}
	}
	return found
}
