package plan

import (
	"cmp"
	"slices"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// lying is a wire or a cable on a stretch of a segment, counted from the first node of the segment.
type lying struct {
	id         string
	cable      bool
	diameter   units.Length
	times      int // smallest bend radius, in its diameters
	separation string
	from, to   units.Length
}

// loom lays wires along the segments of the board.
type loom struct {
	h       *harness.Harness
	lengths []units.Length             // by segment
	onward  map[string][]segmentTo     // by node
	splices map[string]*harness.Splice // that lie on a segment, off its nodes
}

// segmentTo is a segment as it leaves a node.
type segmentTo struct {
	node    string
	segment int
}

func newLoom(h *harness.Harness) *loom {
	l := &loom{h: h, onward: make(map[string][]segmentTo, len(h.Board.Nodes)), splices: map[string]*harness.Splice{}}
	nodes := nodesByID(h.Board)
	for i := range h.Board.Segments {
		s := &h.Board.Segments[i]
		from, to := nodes[s.From], nodes[s.To]
		l.lengths = append(l.lengths, cmp.Or(s.Length, units.Distance(from.X-to.X, from.Y-to.Y)))
		l.onward[s.From] = append(l.onward[s.From], segmentTo{s.To, i})
		l.onward[s.To] = append(l.onward[s.To], segmentTo{s.From, i})
	}
	for i := range h.Splices {
		if s := &h.Splices[i]; s.Towards != "" && s.Offset > 0 {
			l.splices[s.ID] = s
		}
	}
	return l
}

// cableOn is a cable on a segment.
type cableOn struct {
	segment int
	id      string
}

// stretchOn is a part of a segment, counted from its first node.
type stretchOn struct {
	segment  int
	from, to units.Length
}

// stretches returns what a wire takes of each segment. The nodes that it passes say the way; a splice off the nodes adds a part.
func (l *loom) stretches(w *Wire) []stretchOn {
	a, onA := l.spot(w.From)
	b, onB := l.spot(w.To)
	if len(w.Nodes) == 0 {
		if !onA || !onB || a.segment != b.segment {
			return nil
		}
		return []stretchOn{{a.segment, min(a.from, b.from), max(a.from, b.from)}}
	}
	parts := make([]stretchOn, 0, len(w.Nodes)+1)
	if onA {
		parts = append(parts, l.upTo(a, w.Nodes[0]))
	}
	for i := 1; i < len(w.Nodes); i++ {
		if s, found := l.segment(w.Nodes[i-1], w.Nodes[i]); found {
			parts = append(parts, stretchOn{s, 0, l.lengths[s]})
		}
	}
	if onB {
		parts = append(parts, l.upTo(b, w.Nodes[len(w.Nodes)-1]))
	}
	return parts
}

// segment finds the segment between two nodes, the last listed of several.
func (l *loom) segment(a, b string) (int, bool) {
	for _, on := range slices.Backward(l.onward[a]) {
		if on.node == b {
			return on.segment, true
		}
	}
	return 0, false
}

// spot returns where an end lies on a segment, as a stretch of no length; false for an end at a node.
func (l *loom) spot(at string) (stretchOn, bool) {
	splice := l.splices[at]
	if splice == nil {
		return stretchOn{}, false
	}
	s, found := l.segment(splice.Node, splice.Towards)
	if !found {
		return stretchOn{}, false
	}
	offset := splice.Offset
	if splice.Node != l.h.Board.Segments[s].From {
		offset = l.lengths[s] - offset
	}
	return stretchOn{s, offset, offset}, true
}

// upTo stretches a spot to a node of its segment.
func (l *loom) upTo(spot stretchOn, node string) stretchOn {
	if node == l.h.Board.Segments[spot.segment].From {
		return stretchOn{spot.segment, 0, spot.from}
	}
	return stretchOn{spot.segment, spot.from, l.lengths[spot.segment]}
}

// lay returns what lies on each segment, in natural order of the ids. The cores of a cable lie in its jacket: it takes every stretch
// that one of them takes. Where a segment is taken twice, all between counts.
func (l *loom) lay(wires []Wire) [][]lying {
	limits, types, cableTypes := l.limits(wires), typesByID(l.h), cableTypesByID(l.h)
	cableType := map[string]*harness.CableType{}
	for i := range l.h.Cables {
		cableType[l.h.Cables[i].ID] = cableTypes[l.h.Cables[i].Type]
	}
	on := make([][]lying, len(l.lengths))
	at := map[cableOn]int{}
	for i := range wires {
		w := &wires[i]
		one := lying{id: cmp.Or(w.Cable, w.ID), cable: w.Cable != "", separation: w.Separation}
		if t := cableType[w.Cable]; t != nil {
			one.diameter, one.times = t.Diameter, limits[t.ID]
		} else if t := types[w.Type]; t != nil {
			one.diameter, one.times = t.Diameter, limits[t.ID]
		}
		for _, part := range l.stretches(w) {
			if part.from == part.to {
				continue
			}
			lies := &on[part.segment]
			before := len(*lies) - 1 // the parts of a wire come one after another, those of the cores of a cable do not
			if one.cable {
				if known, twice := at[cableOn{part.segment, one.id}]; twice {
					before = known
				}
			}
			if before >= 0 && (*lies)[before].id == one.id {
				known := &(*lies)[before]
				known.from, known.to = min(known.from, part.from), max(known.to, part.to)
				continue
			}
			one.from, one.to = part.from, part.to
			if one.cable {
				at[cableOn{part.segment, one.id}] = len(*lies)
			}
			*lies = append(*lies, one)
		}
	}
	for _, lies := range on {
		slices.SortFunc(lies, func(a, b lying) int { return cmp.Or(naturalCompare(a.id, b.id), compareBools(a.cable, b.cable)) })
	}
	return on
}

func compareBools(a, b bool) int { return cmp.Compare(one(a), one(b)) }
