package main

import (
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

// black asks that no text stands on black, and that no two outlines cut each other. In a drawing shapes may cross, names never lie on
// black.
func (r *rules) black(pg page.Page) {
	var black []page.Rect
	for _, item := range pg.Items() {
		switch i := item.(type) {
		case page.Box:
			if i.Filled {
				black = append(black, i.Rect)
			}
		case page.Path:
			if i.Filled {
				black = append(black, page.Extent(i, r.metrics))
			}
		}
	}
	for _, item := range pg.Items() {
		text, is := item.(page.Text)
		if !is {
			continue
		}
		at := page.Extent(text, r.metrics)
		for _, b := range black {
			if over(at, b, 0) {
				r.report(pg, "%q stands on black", text.String)
			}
		}
	}
}

// over reports whether two rectangles share more than a margin.
func over(a, b page.Rect, margin page.Pt) bool {
	return a.X+margin < b.X+b.W && b.X+margin < a.X+a.W && a.Y+margin < b.Y+b.H && b.Y+margin < a.Y+a.H
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
