package main

import (
	"regexp"
	"strings"

	"loomleaf/internal/page"
)

// margins asks that the live area leaves 20 mm for the binding and 8 mm, where printers print nothing sure, at every other edge: so far
// in, all items lie (page.Check).
func (r *rules) margins(pg page.Page, document page.Document) {
	binding, edge := page.MM(20000), page.MM(8000)
	left, right := pg.Live.X, document.Width-pg.Live.X-pg.Live.W
	if max(left, right) < binding || min(left, right) < edge || pg.Live.Y < edge || document.Height-pg.Live.Y-pg.Live.H < edge {
		r.report(pg, "the live area %v leaves too little of the paper", pg.Live)
	}
}

// black asks that no text stands on black, on a page or in a drawing.
func (r *rules) black(pg page.Page) {
	type shape struct {
		corners [][2]page.Pt
		extent  page.Rect
	}
	var shapes []shape
	for _, item := range pg.Items() {
		extent := page.Extent(item, r.metrics)
		switch i := item.(type) {
		case page.Box:
			if i.Filled {
				shapes = append(shapes, shape{[][2]page.Pt{{i.X, i.Y}, {i.X + i.W, i.Y}, {i.X + i.W, i.Y + i.H}, {i.X, i.Y + i.H}}, extent})
			}
		case page.Path:
			if i.Filled {
				shapes = append(shapes, shape{i.Points, extent})
			}
		}
	}
	for _, item := range pg.Items() {
		text, is := item.(page.Text)
		if !is {
			continue
		}
		at := page.Extent(text, r.metrics)
		for _, s := range shapes {
			apart := s.extent.X > at.X+at.W || at.X > s.extent.X+s.extent.W || s.extent.Y > at.Y+at.H || at.Y > s.extent.Y+s.extent.H
			if !apart && blackens(s.corners, at) {
				r.report(pg, "%q stands on black", text.String)
			}
		}
	}
}

// blackens reports whether a shape holds one of some points of a rectangle, a few to each side.
func blackens(shape [][2]page.Pt, at page.Rect) bool {
	const few = 8
	for i := range page.Pt(few) {
		for k := range page.Pt(few) {
			if inside(shape, at.X+at.W*(2*i+1)/(2*few), at.Y+at.H*(2*k+1)/(2*few)) {
				return true
			}
		}
	}
	return false
}

// inside reports whether a point lies in a polygon: a line from it to the right crosses an odd number of edges.
func inside(shape [][2]page.Pt, x, y page.Pt) bool {
	odd := false
	for i, a := range shape {
		b := shape[(i+1)%len(shape)]
		if (a[1] > y) != (b[1] > y) && x < a[0]+(b[0]-a[0])*(y-a[1])/(b[1]-a[1]) {
			odd = !odd
		}
	}
	return odd
}

// The end of a line that a number ends, and the beginning of one that its unit begins.
var (
	endsInNumber = regexp.MustCompile(`(^| )[(+-]?[0-9][0-9.,]*$`)
	unitBegins   = regexp.MustCompile(`^(mm²?|m|s|min|h|g/m|N|lbf|AWG|%|ohm|Ohm)([ ,.:;)]|$)`)
)

// figures asks that no line of wrapped words ends between a number and its unit.
func (r *rules) figures(pg page.Page) {
	var words []page.Text
	for _, item := range pg.Items() {
		if t, is := item.(page.Text); is && t.Face != page.Mono && t.Face != page.MonoBold {
			words = append(words, t)
		}
	}
	for _, t := range words {
		if strings.HasSuffix(t.String, ",") || !endsInNumber.MatchString(t.String) {
			continue
		}
		for _, next := range words {
			if next.X == t.X && next.Align == t.Align && next.Face == t.Face && next.Size == t.Size && next.Y > t.Y && next.Y < t.Y+2*t.Size && unitBegins.MatchString(next.String) {
				r.report(pg, "%q is parted from %q", t.String, next.String)
			}
		}
	}
}

// symbols asks that a module of every symbol is a whole number of dots at 300 and 600 to the inch, and 3 dots at 300 at least.
func (r *rules) symbols(pg page.Page) {
	const dot = 72 * page.Point / 300
	for _, item := range pg.Items() {
		if s, is := item.(page.Symbol); is && (s.Module%dot != 0 || s.Module < 3*dot) {
			r.report(pg, "the symbol of %q has modules of %v pt", s.Says, s.Module)
		}
	}
}

// scale asks for the lines of 100 mm by which a print is measured: across and down on the cover, across on every drawing of the map.
func (r *rules) scale(pg page.Page) {
	const line = 28346 // 283.46 pt
	across, down := false, false
	for _, item := range pg.Body {
		if l, is := item.(page.Rule); is {
			across = across || l.Y1 == l.Y2 && l.X2-l.X1 == line
			down = down || l.X1 == l.X2 && l.Y2-l.Y1 == line
		}
	}
	said := placed(pg.Body, r.say("map.measured")) != nil
	switch {
	case pg.Sheet == "cover" && pg.Number == 1 && !(across && down):
		r.report(pg, "the lines of 100 mm are not there")
	case pg.Sheet == "map" && said && !across:
		r.report(pg, "the line of 100 mm is not there")
	}
}

// say returns a text of the packet in the language of the floor.
func (r *rules) say(key string, pairs ...any) string { return r.plan.Paper.Words[0].Say(key, pairs...) }
