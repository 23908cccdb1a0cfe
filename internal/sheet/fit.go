package sheet

import (
	"fmt"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

const (
	fitReach page.Pt = 850  // 3 mm: arms of a cross
	fitInset page.Pt = 1417 // 5 mm: crosses of a roll, from its edges
)

// fitSheet draws the outlines of a label stock as the printer would print on it.
type fitSheet struct {
	pen
	paper plan.Paper
}

// Fit returns the sheet that shows how far the print stands off the die cut: the outline of every label with its number, a
// cross at every corner, and where to write what is read. It is printed on plain paper, with what is in force for the printer.
func Fit(paper plan.Paper, metrics page.Metrics) (page.Document, problem.List) {
	m := composerOf(paper, metrics)
	var problems problem.List
	s := paper.Labels
	doc := page.Document{Name: "labels-" + s.ID + ".fit.pdf", Title: m.Say("fit.title", "stock", s.ID), Language: m.Language}
	doc.Width, doc.Height = stockPaper(s)
	cards := fitCards(paper, m)
	each := s.Columns * s.Rows
	for start := 0; start == 0 || start < len(cards); start += each {
		f := &fitSheet{pen: pen{metrics: m, problems: &problems}, paper: paper}
		for i := range each {
			f.outline(i)
			if start+i < len(cards) {
				f.card(labelRect(s, paper.Print, i), cards[start+i])
			}
		}
		f.crosses()
		pg := page.Page{Name: fmt.Sprintf("fit/%d", start/each+1), Sheet: "fit", Number: start/each + 1, Body: f.items,
			Live: page.Rect{W: doc.Width, H: doc.Height}, Hash: page.Hash(f.items)}
		doc.Pages = append(doc.Pages, pg)
	}
	for i := range doc.Pages {
		doc.Pages[i].Of = len(doc.Pages)
	}
	return doc, problems.Sorted()
}

// fitCard is what one label of the sheet says.
type fitCard struct {
	head  string
	lines []fitLine
}

// fitLine is a line of a card; one with a blank is filled in, in millimetres.
type fitLine struct {
	text  string
	blank bool
}

func fitCards(paper plan.Paper, m composer) []fitCard {
	p := paper.Print
	cross := []fitLine{{text: m.Say("fit.cross_label")}}
	if paper.Labels.Paper == "roll" {
		cross = []fitLine{{text: m.Say("fit.cross_roll")}, {text: m.Say("fit.gap", "gap", m.Decimal(units.Length(paper.Labels.GapUM).String()))}}
	}
	print := append([]fitLine{{text: m.Say("fit.full_size")}}, cross...)
	print = append(print, fitLine{text: m.Say("fit.arms")}, fitLine{text: m.Say("fit.offset_in_force", "both", m.both(p.OffsetXUM, p.OffsetYUM))},
		fitLine{text: m.Say("fit.drift_in_force", "both", m.both(p.DriftXUM, p.DriftYUM))})
	return []fitCard{
		{m.Say("fit.head", "stock", paper.Labels.ID), print},
		{m.Say("fit.read"), []fitLine{{text: m.Say("fit.read_hold")}, {text: m.Say("fit.read_at")}, {text: m.Say("fit.read_right")}, {text: m.Say("fit.read_negative")}}},
		{m.Say("fit.shows"), []fitLine{{m.Say("fit.right_at", "cross", "A"), true}, {m.Say("fit.below_at", "cross", "A"), true},
			{m.Say("fit.right_at", "cross", "D"), true}, {m.Say("fit.below_at", "cross", "D"), true}}},
		{m.Say("fit.write"), []fitLine{{text: m.Say("fit.write_offset")}, {text: m.Say("fit.write_drift")}, {text: "[label_printer]"},
			{text: m.Say("fit.key_offset")}, {text: m.Say("fit.key_drift")}, {text: m.Say("fit.again")}}},
	}
}

// both says how far the print stands off, to the right and down.
func (m composer) both(right, down int64) string {
	return m.Say("fit.both", "right", m.Decimal(units.Length(right).String()), "down", m.Decimal(units.Length(down).String()))
}

// outline draws a label and its number, which --start-label and --skip-labels count.
func (f *fitSheet) outline(i int) {
	r := labelRect(f.paper.Labels, f.paper.Print, i)
	if f.paper.Labels.Paper != "roll" { // the edge of the paper is the outline
		f.box(r.X, r.Y, r.W, r.H, rowRule)
	}
	f.right(r.X+r.W-mm(12), r.Y+r.H-mm(8), bold(28), r.W/2, fmt.Sprint(i+1))
}

func (f *fitSheet) card(r page.Rect, c fitCard) {
	x, y, room := r.X+mm(8), r.Y+mm(10), r.W-mm(16)
	if f.paper.Labels.Paper == "roll" {
		x, room = x+mm(7), room-mm(7) // clear of the crosses
	}
	f.text(x, y, bold(12), room, c.head)
	for _, line := range c.lines {
		texts := []string{line.text} // with the blanks that it was written with
		if f.width(medium(9), line.text) > room {
			texts = f.wrap(medium(9), room, line.text)
		}
		for _, text := range texts {
			y += mm10(52)
			f.text(x, y, medium(9), room, text)
		}
		if line.blank {
			f.blank(x+f.width(medium(9), line.text)+mm(2), y, mm(20))
			y += mm10(30)
		}
	}
}

// crosses draws a cross at each outer corner: A at the upper left, D at the lower right.
func (f *fitSheet) crosses() {
	s := f.paper.Labels
	first, last := labelRect(s, f.paper.Print, 0), labelRect(s, f.paper.Print, s.Columns*s.Rows-1)
	left, top, right, bottom := first.X, first.Y, last.X+last.W, last.Y+last.H
	if s.Paper == "roll" {
		left, top, right, bottom = left+fitInset, top+fitInset, right-fitInset, bottom-fitInset
	}
	for i, at := range [][2]page.Pt{{left, top}, {right, top}, {left, bottom}, {right, bottom}} {
		f.cross(at[0], at[1])
		x, y := at[0]+mm(4), at[1]-mm10(12)
		if i%2 == 1 {
			x = at[0] - mm(7)
		}
		if i < 2 {
			y = at[1] + mm(5)
		}
		f.text(x, y, bold(12), mm(5), string(rune('A'+i)))
	}
}

func (f *fitSheet) cross(x, y page.Pt) {
	f.items = append(f.items, page.Rule{X1: x - fitReach, Y1: y, X2: x + fitReach, Y2: y, Weight: rowRule},
		page.Rule{X1: x, Y1: y - fitReach, X2: x, Y2: y + fitReach, Weight: rowRule})
	for i := -3; i <= 3; i++ {
		step, tick := mm(i), mm10(6)
		f.items = append(f.items, page.Rule{X1: x + step, Y1: y - tick, X2: x + step, Y2: y + tick, Weight: rowRule},
			page.Rule{X1: x - tick, Y1: y + step, X2: x + tick, Y2: y + step, Weight: rowRule})
	}
}
