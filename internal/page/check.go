package page

import (
	"cmp"
	"fmt"
	"slices"

	"loomleaf/internal/problem"
)

const (
	smallestText = 7 * Point // common practice: print below this is not read at arm's length
	thinnestRule = Point / 2 // common practice: thinner lines vanish on copies

	// overhang is how far an item may stand outside the live area: half of the heaviest rule that runs on its edge.
	overhang = Point
)

// Check returns what is wrong with a document: texts that are too wide, too small or unprintable, items outside the live
// area or of no size, symbols that cannot be drawn, ink in the quiet zone of a symbol, texts over each other, pages
// without items and pages of the same name. Every problem is an error and carries the name of the page as its ID; it
// has the Place of the text where it speaks of one.
func Check(doc Document, m Metrics) problem.List {
	c := checker{doc: doc, metrics: m}
	if doc.Width <= 0 || doc.Height <= 0 {
		c.report("bad-size", problem.Place{}, "set the size of the paper", "document %s has paper of %v x %v pt", doc.Name, doc.Width, doc.Height)
	}
	if len(doc.Pages) == 0 {
		c.report("empty-document", problem.Place{}, "leave the document out", "document %s has no page", doc.Name)
	}
	names := map[string]bool{}
	for _, p := range doc.Pages {
		c.page = p
		if names[p.Name] {
			c.report("same-page", problem.Place{}, "give every page a name of its own", "two pages have the name %s", p.Name)
		}
		names[p.Name] = true
		c.checkPage()
	}
	return c.problems
}

// checker walks over the pages of a document.
type checker struct {
	doc      Document
	metrics  Metrics
	page     Page
	problems problem.List
}

func (c *checker) report(check string, place problem.Place, hint, format string, values ...any) {
	c.problems = append(c.problems, problem.Problem{
		Check: check, Place: place, Text: fmt.Sprintf(format, values...), Hint: hint, ID: c.page.Name,
	})
}

func (c *checker) checkPage() {
	items := c.page.Items()
	if len(items) == 0 {
		c.report("empty-page", problem.Place{}, "leave the page out", "page %s has nothing on it", c.page.Name)
	}
	if paper := (Rect{W: c.doc.Width, H: c.doc.Height}); c.page.Live.W <= 0 || c.page.Live.H <= 0 || !paper.holds(c.page.Live) {
		c.report("bad-size", problem.Place{}, "set the live area inside the paper", "page %s has a live area of %s pt",
			c.page.Name, rectWords(c.page.Live))
	}
	extents := make([]Rect, len(items))
	for i, item := range items {
		extents[i] = Extent(item, c.metrics)
		c.checkItem(item)
		c.checkInside(item, extents[i])
	}
	c.checkQuiet(items, extents)
	c.checkOverlaps(items, extents)
}

// checkItem looks at one item by itself.
func (c *checker) checkItem(item Item) {
	switch i := item.(type) {
	case Text:
		c.checkText(i)
	case Rule:
		c.checkSize(item, i.X1 != i.X2 || i.Y1 != i.Y2)
		c.checkLine(item, i.Weight, i.Dash)
	case Box:
		c.checkSize(item, i.W > 0 && i.H > 0)
		c.checkOutline(item, i.Weight, i.Filled)
	case Disc:
		c.checkSize(item, i.R > 0)
		c.checkLine(item, i.Weight, i.Dash)
	case Path:
		c.checkSize(item, len(i.Points) > 2)
		c.checkOutline(item, i.Weight, i.Filled)
	case Symbol:
		if _, err := i.grid(); err != nil {
			c.report("bad-symbol", problem.Place{}, "", "page %s: %v", c.page.Name, err)
		}
	default:
		c.report("bad-item", problem.Place{}, "use the items of a page", "page %s has an item of no known kind, %T", c.page.Name, item)
	}
}

func (c *checker) checkText(t Text) {
	if t.Size <= 0 || t.String == "" {
		c.report("bad-size", t.Place, "set a size and a text", "page %s has a text %q of %v pt", c.page.Name, t.String, t.Size)
		return
	}
	if t.Size < smallestText && !t.Picture {
		c.report("small-text", t.Place, fmt.Sprintf("set it in %v pt or more", smallestText),
			"%q on page %s is set in %v pt", t.String, c.page.Name, t.Size)
	}
	if r, missing := c.metrics.Missing(t.Face, t.String); missing {
		c.report("unprintable", t.Place, "use Latin, Greek or Cyrillic letters, digits and common signs",
			"the character %q (U+%04X) in %q on page %s cannot be printed in %s", r, r, t.String, c.page.Name, t.Face)
		return
	}
	if width := c.metrics.Width(t.Face, t.Size, t.String); width > t.Room {
		c.report("too-long", t.Place, "shorten it", "%q on page %s takes %v pt, its place holds %v pt",
			t.String, c.page.Name, width, t.Room)
	}
}

func (c *checker) checkSize(item Item, good bool) {
	if !good {
		c.report("bad-size", problem.Place{}, "give it a size", "page %s has an item of no size: %s", c.page.Name, itemLine(item))
	}
}

func (c *checker) checkOutline(item Item, weight Pt, filled bool) {
	if !filled {
		c.checkLine(item, weight, nil)
	}
}

func (c *checker) checkLine(item Item, weight Pt, dash []Pt) {
	if weight < thinnestRule {
		c.report("thin-rule", problem.Place{}, fmt.Sprintf("draw it with %v pt or more", thinnestRule),
			"page %s has a line of %v pt: %s", c.page.Name, weight, itemLine(item))
	}
	for _, d := range dash {
		if d <= 0 {
			c.report("bad-size", problem.Place{}, "give every dash and gap a length", "page %s has a dash of %v pt: %s",
				c.page.Name, d, itemLine(item))
		}
	}
}

// checkInside asks that an item stands in the live area. The quiet zone of a symbol needs white paper only, so it may
// reach beyond.
func (c *checker) checkInside(item Item, extent Rect) {
	place := problem.Place{}
	within := c.page.Live.grow(overhang, overhang)
	switch i := item.(type) {
	case Text:
		place, within = i.Place, c.page.Live
	case Symbol:
		extent, within = i.Area(), c.page.Live
		if within.holds(extent) {
			extent, within = i.Quiet(), Rect{W: c.doc.Width, H: c.doc.Height}
		}
	}
	if !within.holds(extent) {
		c.report("outside", place, fmt.Sprintf("it takes %s pt of %s pt", rectWords(extent), rectWords(within)),
			"page %s has an item outside its live area: %s", c.page.Name, itemLine(item))
	}
}

// checkQuiet asks that nothing else puts ink into the quiet zone of a symbol.
func (c *checker) checkQuiet(items []Item, extents []Rect) {
	for at, item := range items {
		symbol, is := item.(Symbol)
		if !is {
			continue
		}
		quiet := symbol.Quiet()
		for other, near := range items {
			if other == at || !extents[other].overlaps(quiet) || !blackens(near, quiet) {
				continue
			}
			c.report("quiet-zone", placeOf(near), fmt.Sprintf("keep %s pt free", rectWords(quiet)),
				"the symbol %s on page %s has ink in its quiet zone: %s", symbol.String, c.page.Name, itemLine(near))
		}
	}
}

// checkOverlaps asks that no two texts stand over each other.
func (c *checker) checkOverlaps(items []Item, extents []Rect) {
	type placed struct {
		text   Text
		extent Rect
	}
	var texts []placed
	for i, item := range items {
		if t, is := item.(Text); is {
			texts = append(texts, placed{t, extents[i]})
		}
	}
	slices.SortStableFunc(texts, func(a, b placed) int { return cmp.Compare(a.extent.Y, b.extent.Y) })
	for i, upper := range texts {
		for _, lower := range texts[i+1:] {
			if lower.extent.Y >= upper.extent.bottom() {
				break
			}
			if upper.extent.overlaps(lower.extent) {
				c.report("overlap", lower.text.Place, "move one of them", "%q and %q stand over each other on page %s",
					upper.text.String, lower.text.String, c.page.Name)
			}
		}
	}
}

func placeOf(item Item) problem.Place {
	if t, is := item.(Text); is {
		return t.Place
	}
	return problem.Place{}
}
