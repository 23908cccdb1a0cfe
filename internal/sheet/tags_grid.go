package sheet

import (
	"math"

	"loomleaf/internal/page"
)

// grid finds rectangles and pieces of strokes near a rectangle without looking at all of them.
type grid struct {
	rects  []page.Rect
	pieces []stroke
	cells  [][]entry
}

// entry is a rectangle or a piece of a stroke, by its index.
type entry struct {
	index int
	piece bool
}

// A grid has 48 x 48 cells of 10 mm; what lies beyond belongs to the cells at its edge.
const (
	gridCells         = 48
	cellSide  page.Pt = 2835
)

func newGrid() *grid { return &grid{cells: make([][]entry, gridCells*gridCells)} }

// each calls back for every cell that a rectangle touches, until it returns true.
func each(r page.Rect, visit func(cell page.Pt) bool) bool {
	for x := cellOf(r.X); x <= cellOf(r.X+r.W); x++ {
		for y := cellOf(r.Y); y <= cellOf(r.Y+r.H); y++ {
			if visit(y*gridCells + x) {
				return true
			}
		}
	}
	return false
}

func cellOf(p page.Pt) page.Pt { return min(max(p, 0)/cellSide, gridCells-1) }

func (g *grid) add(r page.Rect, e entry) {
	each(r, func(cell page.Pt) bool {
		g.cells[cell] = append(g.cells[cell], e)
		return false
	})
}

func (g *grid) addRect(r page.Rect) {
	g.rects = append(g.rects, r)
	g.add(r, entry{index: len(g.rects) - 1})
}

// addStroke adds a stroke piece by piece, so that a long slanting one does not fill all cells of the rectangle around it.
func (g *grid) addStroke(s stroke) {
	for piece := range s.pieces {
		g.pieces = append(g.pieces, piece)
		g.add(piece.around(), entry{len(g.pieces) - 1, true})
	}
}

// pieces yields a stroke piece by piece.
func (s stroke) pieces(yield func(stroke) bool) {
	long := max(s.b.x-s.a.x, s.a.x-s.b.x) + max(s.b.y-s.a.y, s.a.y-s.b.y)
	n := long/pieceLong + 1
	at := func(i page.Pt) point { return point{s.a.x + (s.b.x-s.a.x)*i/n, s.a.y + (s.b.y-s.a.y)*i/n} }
	for i := range n {
		if !yield(stroke{at(i), at(i + 1)}) {
			return
		}
	}
}

func (s stroke) around() page.Rect {
	x, y := min(s.a.x, s.b.x), min(s.a.y, s.b.y)
	return page.Rect{X: x, Y: y, W: max(s.a.x, s.b.x) - x, H: max(s.a.y, s.b.y) - y}
}

// hits reports whether anything of the grid lies in a rectangle.
func (g *grid) hits(r page.Rect) bool {
	return each(r, func(cell page.Pt) bool {
		for _, e := range g.cells[cell] {
			if e.piece && strokeHits(g.pieces[e.index], r) || !e.piece && rectsOverlap(g.rects[e.index], r) {
				return true
			}
		}
		return false
	})
}

// crossed reports whether a stroke crosses anything of the grid, or passes a rectangle nearer than the clearance.
func (g *grid) crossed(s stroke, clear page.Pt) bool {
	for piece := range s.pieces {
		if each(inset(piece.around(), -clear), func(cell page.Pt) bool {
			for _, e := range g.cells[cell] {
				if e.piece && strokesCross(piece, g.pieces[e.index]) || !e.piece && strokeHits(piece, inset(g.rects[e.index], -clear)) {
					return true
				}
			}
			return false
		}) {
			return true
		}
	}
	return false
}

// followed reports whether a stroke crosses a piece of the grid so flatly that it seems to run along it: at less than about 25 degrees.
func (g *grid) followed(s stroke) bool {
	for piece := range s.pieces {
		if each(piece.around(), func(cell page.Pt) bool {
			for _, e := range g.cells[cell] {
				if e.piece && flat(piece, g.pieces[e.index]) && strokesCross(piece, g.pieces[e.index]) {
					return true
				}
			}
			return false
		}) {
			return true
		}
	}
	return false
}

// flat reports whether two strokes lie within about 25 degrees of each other.
func flat(s, t stroke) bool {
	ax, ay, bx, by := float64(s.b.x-s.a.x), float64(s.b.y-s.a.y), float64(t.b.x-t.a.x), float64(t.b.y-t.a.y)
	cross, along := float64(ax*by)-float64(ay*bx), float64(ax*bx)+float64(ay*by)
	return math.Abs(cross) < 0.47*math.Abs(along)
}

func rectsOverlap(a, b page.Rect) bool {
	return a.X < b.X+b.W && b.X < a.X+a.W && a.Y < b.Y+b.H && b.Y < a.Y+a.H
}

// strokeHits reports whether a stroke passes through a rectangle or touches it.
func strokeHits(s stroke, r page.Rect) bool {
	box := s.around()
	if box.X > r.X+r.W || r.X > box.X+box.W || box.Y > r.Y+r.H || r.Y > box.Y+box.H {
		return false
	}
	left, right := false, false
	for _, c := range []point{{r.X, r.Y}, {r.X + r.W, r.Y}, {r.X, r.Y + r.H}, {r.X + r.W, r.Y + r.H}} {
		side := s.side(c)
		left, right = left || side <= 0, right || side >= 0
	}
	return left && right
}

// side is above zero for points on one side of the stroke, and below zero on the other.
func (s stroke) side(p point) page.Pt {
	return (s.b.x-s.a.x)*(p.y-s.a.y) - (s.b.y-s.a.y)*(p.x-s.a.x)
}

// strokesCross reports whether two strokes share a point.
func strokesCross(s, t stroke) bool {
	a, b := s.around(), t.around()
	if a.X > b.X+b.W || b.X > a.X+a.W || a.Y > b.Y+b.H || b.Y > a.Y+a.H {
		return false
	}
	split := func(s, t stroke) bool {
		one, other := s.side(t.a), s.side(t.b)
		return one <= 0 && other >= 0 || one >= 0 && other <= 0
	}
	return split(s, t) && split(t, s)
}
