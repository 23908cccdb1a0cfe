package main

import (
	"strings"

	"loomleaf/internal/page"
)

// listed rows of one list in a section, page by page.
type rowList struct {
	pages []page.Page
	rows  [][]page.Row // of each page
	all   []page.Row
}

// section names what a page is a page of.
func sectionOf(pg page.Page) string { return pg.Name[:strings.LastIndex(pg.Name, "/")] }

// lists gathers the rows of every list of the packet, in the order of the pages.
func (r *rules) lists() (names []string, lists map[string]*rowList) {
	lists = map[string]*rowList{}
	for _, pg := range r.packet.Pages.Pages {
		for _, row := range pg.Rows {
			name := sectionOf(pg) + " " + row.List
			l := lists[name]
			if l == nil {
				l = &rowList{}
				names, lists[name] = append(names, name), l
			}
			if last := len(l.pages) - 1; last < 0 || l.pages[last].Name != pg.Name {
				l.pages, l.rows = append(l.pages, pg), append(l.rows, nil)
			}
			last := len(l.rows) - 1
			if n := len(l.rows[last]); n > 0 && l.rows[last][n-1].Number == row.Number {
				l.rows[last][n-1].H += row.H // parts of one row
				continue
			}
			l.rows[last] = append(l.rows[last], row)
		}
	}
	return names, lists
}

// breaks asks where pages end: every row of a list stands once and in turn, three rows or more with what heads a list, two at least on
// its last page, and the picture of a face with its first rows. Rows that take most of a page are free.
func (r *rules) breaks() {
	names, lists := r.lists()
	first := map[string][]page.Row{} // rows of each section that belong with its heading
	for _, name := range names {
		l := lists[name]
		for _, rows := range l.rows {
			if n := len(l.all); n > 0 && l.all[n-1].Number == rows[0].Number {
				rows = rows[1:] // a row that fills more than a page
			}
			l.all = append(l.all, rows...)
		}
		if section := sectionOf(l.pages[0]); first[section] == nil {
			first[section] = l.all[:min(3, len(l.all))]
		}
		for i, row := range l.all {
			if row.Number != i+1 {
				r.report(l.pages[0], "row %d of %q stands where row %d belongs", row.Number, name, i+1)
			}
		}
		least := min(3, len(l.all))
		if len(l.all) == 4 || len(l.all) == 3 && l.pages[0].Sheet == "cutlist" {
			least = len(l.all) - 2 // the last page holds two, and loads stand between the rows of a cut list
		}
		if first := l.rows[0]; len(first) < least && heightOf(l.all[:least]) < keptMost() {
			r.report(l.pages[0], "%d rows of %q stand with their heading, of %d", len(first), name, len(l.all))
		}
		last := len(l.rows) - 1
		if len(l.rows[last]) < 2 && len(l.all) > 1 && heightOf(l.all[len(l.all)-2:]) < keptMost() && (l.pages[last].Sheet != "cutlist" || l.fits()) {
			r.report(l.pages[last], "the last row of %q stands alone", name)
		}
	}
	r.faces(first)
}

// fits reports whether the last row of a page before the last would have found room on the last page of a cut list, with the load above it
// and with what closes the list: loads are no rows, and with two of them the last rows may be more than a page.
func (l *rowList) fits() bool {
	last := len(l.pages) - 1
	before, above := l.rows[last-1], l.pages[last-1].Live.Y
	row := before[len(before)-1]
	if len(before) > 1 {
		above = before[len(before)-2].Y + before[len(before)-2].H
	}
	lowest := page.Pt(0)
	for _, item := range l.pages[last].Body {
		if t, is := item.(page.Text); is {
			lowest = max(lowest, t.Y)
		}
	}
	return lowest+page.MM(3000)+row.Y+row.H-above <= page.MM(255000) // lines to write on go on 3 mm below their words
}

// keptMost is the height of rows that may ask for a page of their own.
func keptMost() page.Pt { return page.MM(100000) }

func heightOf(rows []page.Row) page.Pt {
	sum := page.Pt(0)
	for _, row := range rows {
		sum += row.H
	}
	return sum
}

// faces asks that the picture of a connector, or the word that there is none, stands on the first page of its checklist, and its first
// rows with it.
func (r *rules) faces(first map[string][]page.Row) {
	cavities, drawn := map[string]int{}, map[string]bool{}
	for _, c := range r.plan.Connectors {
		cavities[c.ID], drawn[c.ID] = len(c.Cavities), c.Face.Kind != ""
	}
	for _, pg := range r.packet.Pages.Pages {
		if pg.Sheet != "pins" || pg.Number != 1 {
			continue
		}
		connector := strings.Split(pg.Name, "/")[1]
		names, smallest, low, high := 0, page.Pt(0), page.Pt(0), pg.Live.Y+pg.Live.H
		for _, item := range pg.Body {
			if t, is := item.(page.Text); is && t.Drawn {
				names, smallest, low, high = names+1, t.Size, max(low, t.Y), min(high, t.Y)
			}
		}
		if drawn[connector] && names != cavities[connector] {
			r.report(pg, "the picture of the face names %d cavities of %d", names, cavities[connector])
		}
		// a picture that fills the page even with the smallest names has the page to itself
		alone := names > 0 && high+(low-high)*pictured/smallest+heightOf(first[sectionOf(pg)]) > page.MM(215000)
		if len(pg.Rows) < min(3, cavities[connector]) && !alone {
			r.report(pg, "%d rows stand with the picture of the face", len(pg.Rows))
		}
	}
}

// rows asks that every row of a page is whole: what stands at its height stands within it, it holds the boxes that it asks for, and rows
// do not run into each other.
func (r *rules) rows(pg page.Page) {
	boxes := ticks(pg)
	for i, row := range pg.Rows {
		if i > 0 && pg.Rows[i-1].Y+pg.Rows[i-1].H > row.Y {
			r.report(pg, "row %d of %q runs into the row before", row.Number, row.List)
		}
		texts, held := 0, 0
		for _, b := range boxes {
			if middle := b.Y + b.H/2; middle > row.Y && middle < row.Y+row.H {
				held++
				if b.Y < row.Y || b.Y+b.H > row.Y+row.H {
					r.report(pg, "a box hangs out of row %d of %q", row.Number, row.List)
				}
			}
		}
		for _, item := range pg.Body {
			if t, is := item.(page.Text); is && t.Y > row.Y && t.Y < row.Y+row.H {
				texts++
				if high := t.Y - r.metrics.CapHeight(t.Face, t.Size); high < row.Y {
					r.report(pg, "%q hangs out of row %d of %q", t.String, row.Number, row.List)
				}
			}
			if s, is := item.(page.Symbol); is {
				area := s.Area()
				if middle := area.Y + area.H/2; middle > row.Y && middle < row.Y+row.H && (area.Y < row.Y || area.Y+area.H > row.Y+row.H) {
					r.report(pg, "the symbol of %q hangs out of row %d of %q", s.Says, row.Number, row.List)
				}
			}
		}
		if texts == 0 {
			r.report(pg, "row %d of %q says nothing", row.Number, row.List)
		}
		if held != row.Ticks {
			r.report(pg, "row %d of %q has %d boxes, not %d", row.Number, row.List, held, row.Ticks)
		}
	}
}

// columns asks that a thin line down from the top of a row, beside what is written into it, ends where the row ends; what ties wires
// together is heavier.
func (r *rules) columns(pg page.Page) {
	for _, row := range pg.Rows {
		for _, item := range pg.Body {
			if l, is := item.(page.Rule); is && l.X1 == l.X2 && l.Weight < page.Point && l.Y1 == row.Y && l.Y2 != row.Y+row.H {
				r.report(pg, "a line down row %d of %q ends before the row", row.Number, row.List)
			}
		}
	}
}
