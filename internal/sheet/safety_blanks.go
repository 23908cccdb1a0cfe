package sheet

import (
	"loomleaf/internal/page"
	"loomleaf/internal/plan"
)

const (
	signHere   page.Pt = 2211 // 7.8 mm: the line for whoever copied the values
	crewLine   page.Pt = 2553 // 9 mm: boxes stand 2 mm apart
	blankPitch page.Pt = 3884 // 13.7 mm: label, line to write on, and what stands under it
	dateRoom   page.Pt = 6236 // 22 mm
	writeDate          = "20__-__-__"
)

// crew is how many people the page holds room for.
const crew = 9

// blanks prints, in columns, what the shop quotes with its source, and a line to write on for what it does not quote.
func (b *safetyBook) blanks() {
	const columns = 3
	rows := (len(b.safety.Blanks) + columns - 1) / columns
	b.need(min(mm(9)+page.Pt(rows)*blankPitch, bodyBottom()-bodyTop()-mm(60)))
	b.y += mm(2)
	b.text(live.X, b.y+mm10(44), bold(12), live.W, b.safety.Heading)
	b.y += mm(7)
	width := (live.W - mm(8)) / columns
	for row := range rows {
		height := blankPitch
		var fields []plan.SafetyBlank
		for i := row; i < len(b.safety.Blanks); i += rows {
			fields = append(fields, b.safety.Blanks[i])
			height = max(height, b.fieldHeight(b.safety.Blanks[i], width))
		}
		b.need(height)
		for column, field := range fields {
			b.blankField(live.X+page.Pt(column)*(width+mm(4)), width, field)
		}
		b.y += height
	}
	b.signature()
}

// signature is for whoever copied the quoted values and checked them against their documents.
func (b *safetyBook) signature() {
	b.need(signHere)
	words := b.width(medium(9), b.safety.Copied) + mm(2)
	b.text(live.X, b.y+mm10(62), medium(9), live.W-dateRoom-mm(20), b.safety.Copied)
	b.blank(live.X+words, b.y+mm10(64), live.W-dateRoom-mm(2)-words)
	b.right(live.X+live.W, b.y+mm10(62), mono(9), dateRoom, writeDate)
	b.y += signHere
}

// quotedLine is the line pitch of a quoted value and its source.
const quotedLine page.Pt = 1162 // 4.1 mm

// fieldHeight is what a quoted value takes with its label and source.
func (b *safetyBook) fieldHeight(blank plan.SafetyBlank, room page.Pt) page.Pt {
	lines := len(b.wrap(bold(11), room, blank.Value)) + len(b.wrap(regular(9), room, blank.Source))
	return mm10(46) + page.Pt(lines)*quotedLine
}

func (b *safetyBook) blankField(x, room page.Pt, blank plan.SafetyBlank) {
	b.text(x, b.y+mm10(32), medium(9), room, blank.Label)
	if blank.Value == "" {
		b.blank(x, b.y+mm10(84), room)
		b.right(x+room, b.y+mm10(118), regular(9), room, b.safety.Ask)
		return
	}
	y := b.paragraph(x, b.y+mm10(74), bold(10), room, quotedLine, blank.Value)
	b.paragraph(x, y-mm10(2), regular(9), room, quotedLine, blank.Source)
}

// crewTicks prints a box, a line for the name and a date for each of the crew.
func (b *safetyBook) crewTicks() {
	const columns, gap = 3, 1134 // 4 mm
	rows := page.Pt(crew / columns)
	b.need(mm(7) + rows*crewLine)
	b.y += mm(1)
	b.text(live.X, b.y+mm10(44), bold(12), live.W, b.safety.Read+": "+b.safety.Name)
	b.y += mm(6)
	width := (live.W - (columns-1)*gap) / columns
	for i := range page.Pt(crew) {
		x, y := live.X+i%columns*(width+gap), b.y+i/columns*crewLine
		b.tick(x, y+mm10(6), gloveTick)
		b.blank(x+mm(9), y+mm10(66), width-mm(9)-dateRoom)
		b.right(x+width, y+mm10(64), mono(9), dateRoom, writeDate)
	}
	b.y += rows * crewLine
}
