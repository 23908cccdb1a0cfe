package sheet

import (
	"loomleaf/internal/page"
	"loomleaf/internal/problem"
)

// bodyTop and bodyBottom bound the body of every page: the header stands above, the legend below.
func bodyTop() page.Pt    { return mm(39) }
func bodyBottom() page.Pt { return mm(255) }

// book writes the pages of a section from top to bottom.
type book struct {
	pen
	pages [][]page.Item
	y     page.Pt // where the next thing starts
	open  func()  // prints what every page opens with; moves y
}

// newBook starts a section.
func newBook(m composer, problems *problem.List) *book {
	return &book{pen: pen{metrics: m, problems: problems}, y: bodyTop()}
}

// turn closes the page and opens the next.
func (b *book) turn() {
	if len(b.items) > 0 {
		b.pages = append(b.pages, b.items)
	}
	b.items, b.y = nil, bodyTop()
	if b.open != nil {
		b.open()
	}
}

// left returns the height that the page still holds.
func (b *book) left() page.Pt { return bodyBottom() - b.y }

// need turns the page where it no longer holds height.
func (b *book) need(height page.Pt) {
	if b.left() < height {
		b.turn()
	}
}

// finish returns every page of the section.
func (b *book) finish() [][]page.Item {
	if len(b.items) > 0 {
		b.pages = append(b.pages, b.items)
	}
	b.items = nil
	return b.pages
}

// heading prints a heading that keeps the height after it on the same page.
func (b *book) heading(text string, keep page.Pt) {
	b.need(mm(9) + keep)
	b.y += mm10(65)
	b.text(live.X, b.y, bold(12), live.W, text)
	b.y += mm10(25)
	b.across(live.X, live.X+live.W, b.y, groupRule)
}

// follow returns the height that row i of a list keeps free on its page for those after it: the first three stay with what heads them,
// the last two with what closes the list. Rows that would fill most of a page together keep nothing.
func follow(heights []page.Pt, i int, closing page.Pt) page.Pt {
	last, end := len(heights)-1, i
	if i < 2 {
		end = min(2, last)
	}
	if end >= last-1 {
		end = last
	}
	sum := page.Pt(0)
	for _, height := range heights[i+1 : end+1] {
		sum += height
	}
	if end == last {
		sum += closing
	}
	if heights[i]+sum > keepMost() {
		return 0
	}
	return sum
}

// keepMost is the height that rows may keep together: what the heads leave of a page.
func keepMost() page.Pt { return bodyBottom() - bodyTop() - mm(50) }
