package sheet

import "loomleaf/internal/page"

// ledgerColumn is a column of a table to write in.
type ledgerColumn struct {
	title string
	width page.Pt
}

// cell is the line pitch of print inside a table, cellInset its distance from the rules.
func cellPitch() page.Pt { return mm10(42) }
func cellInset() page.Pt { return mm10(15) }

// ledger draws an empty table from y on and returns its lower edge. Rules part the cells, so that every figure stays where
// it was written.
func (p *pen) ledger(x, y page.Pt, columns []ledgerColumn, rows int, pitch page.Pt) page.Pt {
	width, lines := page.Pt(0), p.ledgerLines(columns)
	for _, c := range columns {
		width += c.width
	}
	top := y + p.ledgerHead(columns)
	bottom := top + pitch*page.Pt(rows)
	at := x
	for i, c := range columns {
		titles := len(p.wrap(bold(9), c.width-cellInset(), c.title))
		inset := cellInset()
		if i == 0 {
			inset = 0
		} else {
			p.items = append(p.items, page.Rule{X1: at, Y1: top, X2: at, Y2: bottom, Weight: rowRule})
		}
		p.paragraph(at+inset, y+mm(3)+cellPitch()*page.Pt(lines-titles), bold(9), c.width-inset, cellPitch(), c.title)
		at += c.width
	}
	p.across(x, x+width, top, groupRule)
	for i := range rows {
		p.across(x, x+width, top+pitch*page.Pt(i+1), rowRule)
	}
	return bottom
}

// ledgerLines is how many lines the heads of the columns take.
func (p *pen) ledgerLines(columns []ledgerColumn) int {
	lines := 1
	for _, c := range columns {
		lines = max(lines, len(p.wrap(bold(9), c.width-cellInset(), c.title)))
	}
	return lines
}

// ledgerHead is the height of the heads of the columns.
func (p *pen) ledgerHead(columns []ledgerColumn) page.Pt {
	return cellPitch()*page.Pt(p.ledgerLines(columns)) + mm(1)
}
