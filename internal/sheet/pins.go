package sheet

import (
	"fmt"
	"slices"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
)

// pinList writes the checklist of one connector of one unit.
type pinList struct {
	book
	connector plan.Connector
	ownTray   bool // its own group holds wires for it
	board     string
	unit      int    // position from 1
	unitName  string // "0041"
	columns   pinColumns
	fresh     bool // the page holds its heads alone
}

// pinSections lays the pin checklists: unit by unit, connectors in build order.
func pinSections(p *plan.Plan, m composer, problems *problem.List) []section {
	var sections []section
	for i, unit := range p.Packet.Units {
		for k, c := range p.UnitLines(i + 1).Connectors {
			sections = append(sections, section{sheet: "pins", title: m.Say("pins.title"), name: c.ID + "/" + unit, unit: i + 1,
				pages: pinPages(p.Packet, p.Connectors[k], c, i+1, m, problems)})
		}
	}
	return sections
}

func pinPages(packet plan.Packet, whole, c plan.Connector, unit int, m composer, problems *problem.List) [][]page.Item {
	l := &pinList{book: *newBook(m, problems), connector: c, ownTray: slices.Contains(whole.Trays, c.ID), board: packet.Board, unit: unit, unitName: packet.Units[unit-1]}
	l.at, l.draft = c.Place, packet.Draft
	l.columns = l.measureColumns()
	rows := l.rows()
	blocks := append(rows, l.closing()...)
	l.head(chainHeight(blocks[:chainEnd(blocks)]))
	l.place(blocks)
	return l.finish()
}

// pinBlock is a part of the checklist that is never split.
type pinBlock struct {
	height page.Pt
	gap    page.Pt // clear above it, unless it opens its page
	keep   bool    // stays on the page of the next block
	row    int     // number of the row from 1; 0 for what follows the rows
	draw   func(y page.Pt)
}

// place prints blocks in order and turns the page where a block, with those that it keeps, no longer fits.
func (l *pinList) place(blocks []pinBlock) {
	for len(blocks) > 0 {
		end := chainEnd(blocks)
		l.chain(blocks[:end])
		blocks = blocks[end:]
	}
}

// chainEnd returns how many blocks the first one keeps on its page, itself among them.
func chainEnd(blocks []pinBlock) int {
	end := 1
	for blocks[end-1].keep && end < len(blocks) {
		end++
	}
	return end
}

// chain prints blocks on one page: on this one, else on the next, and where they fill more than a page, half by half.
func (l *pinList) chain(blocks []pinBlock) {
	height := chainHeight(blocks)
	if l.fresh {
		height -= blocks[0].gap
	}
	switch {
	case l.left() >= height:
		for _, b := range blocks {
			l.block(b)
		}
	case !l.fresh:
		l.turn()
		l.again(blocks[0].row)
		l.fresh = true
		l.chain(blocks)
	case len(blocks) > 1:
		l.chain(blocks[:len(blocks)/2])
		l.chain(blocks[len(blocks)/2:])
	default:
		l.refuse("too-tall", fmt.Sprintf("a row of connector %q fills more than a page", l.connector.ID), "shorten the notes of its wires")
	}
}

func (l *pinList) block(b pinBlock) {
	if !l.fresh {
		l.y += b.gap
	}
	l.fresh = false
	b.draw(l.y)
	l.y += b.height
}

func chainHeight(blocks []pinBlock) page.Pt {
	height := page.Pt(0)
	for _, b := range blocks {
		height += b.gap + b.height
	}
	return height
}
