package sheet

import (
	"slices"
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
)

const (
	safetyLine  page.Pt = 1191 // 4.2 mm: line pitch of the hazards
	blockGap    page.Pt = 510  // 1.8 mm: above a panel
	panelBox    page.Pt = 2155 // 7.6 mm
	panelHeight page.Pt = 2325 // 8.2 mm: a panel and the clear below it
	signLine    page.Pt = 1389 // 4.9 mm
	signSide    page.Pt = 1191 // 4.2 mm
)

func hazardStyle() style { return regular(10) }

// safetyBook writes the safety page in one language.
type safetyBook struct {
	book
	safety plan.Safety
	opened bool // the first page, with the deference in full, has been opened
}

// safetySections lays the safety page in each language: who decides, the hazards that the job calls for, what the
// qualified person fills in, who has read it. It quotes and counts; it judges nothing.
func safetySections(p *plan.Plan, m composer, problems *problem.List) []section {
	var sections []section
	for i, safety := range p.Safety {
		b := &safetyBook{book: *newBook(m, problems), safety: safety}
		b.open = b.deference
		b.open()
		for _, block := range safety.Blocks {
			b.block(block)
		}
		b.blanks()
		b.crewTicks()
		s := section{sheet: "safety", title: safety.Title, pages: b.finish()}
		if i > 0 {
			s.name = safety.Language
		}
		sections = append(sections, s)
	}
	return sections
}

// deference opens every page: what comes before this page. On the first it stands line by line, then as a paragraph.
func (b *safetyBook) deference() {
	s, pitch, lines := bold(11), mm10(46), b.safety.Deference
	if b.opened {
		s, pitch, lines = medium(9), mm10(38), []string{strings.Join(b.safety.Deference, " ")}
	}
	b.opened = true
	count := 0
	for _, line := range lines {
		count += len(b.wrap(s, live.W-mm(8), line))
	}
	if count == 0 {
		return
	}
	height := page.Pt(count)*pitch + mm10(25)
	b.box(live.X, b.y, live.W, height, 2*groupRule)
	y := b.y + pitch + mm10(2)
	for _, line := range lines {
		y = b.paragraph(live.X+mm(4), y, s, live.W-mm(8), pitch, line)
	}
	b.y += height + mm(1)
}

// block prints one hazard whole; its panel stays with its lines.
func (b *safetyBook) block(block plan.SafetyBlock) {
	height := blockGap + panelHeight + page.Pt(len(b.signLines(block.Signs)))*signLine
	for _, sentence := range append(slices.Clone(block.Lines), block.Count) {
		height += page.Pt(len(b.wrap(hazardStyle(), live.W-mm(6), sentence))) * safetyLine
	}
	b.need(min(height, bodyBottom()-bodyTop()-mm(60)))
	b.y += blockGap
	b.panel(block)
	b.signs(block.Signs)
	if block.Count != "" {
		b.y = b.paragraph(live.X+mm(6), b.y+mm10(36), medium(10), live.W-mm(6), safetyLine, block.Count) - mm10(36)
	}
	for _, sentence := range block.Lines {
		b.sentence(sentence)
	}
}

// sentence prints one line of a hazard behind its mark; it is never split from it.
func (b *safetyBook) sentence(sentence string) {
	lines := b.wrap(hazardStyle(), live.W-mm(6), sentence)
	b.need(page.Pt(len(lines)) * safetyLine)
	b.items = append(b.items, page.Box{Rect: page.Rect{X: live.X + mm10(12), Y: b.y + mm10(15), W: mm10(16), H: mm10(16)}, Filled: true})
	for _, line := range lines {
		b.text(live.X+mm(6), b.y+mm10(34), hazardStyle(), live.W-mm(6), line)
		b.y += safetyLine
	}
}

// panel prints signal word and title. Words that speak of injury carry the alert triangle, a notice does not (signal words as
// ANSI Z535.4-2007 defines them, second-hand).
func (b *safetyBook) panel(block plan.SafetyBlock) {
	b.box(live.X, b.y, live.W, panelBox, 2*groupRule)
	x := live.X + mm(4)
	if block.Alert {
		b.triangle(x, b.y+mm10(7), mm10(74), mm10(62))
		x += mm(11)
	}
	b.text(x, b.y+mm10(58), bold(16), mm(40), block.Signal)
	b.text(live.X+mm(54), b.y+mm10(56), bold(13), live.W-mm(57), block.Title)
	b.y += panelHeight
}

// signs prints the signs of a hazard, each as its shape with number and title.
func (b *safetyBook) signs(signs []plan.SafetySign) {
	for _, line := range b.signLines(signs) {
		x := live.X + mm(6)
		for _, sign := range line {
			b.sign(x, b.y+mm10(3), sign)
			b.text(x+signSide+mm(1), b.y+mm10(37), mono(9), mm(12), sign.Number)
			words := signSide + mm(2) + b.width(mono(9), sign.Number)
			b.text(x+words, b.y+mm10(37), regular(9), live.X+live.W-x-words, sign.Title)
			x += b.signWidth(sign)
		}
		b.y += signLine
	}
}

// signLines breaks signs into lines, each sign whole.
func (b *safetyBook) signLines(signs []plan.SafetySign) [][]plan.SafetySign {
	var lines [][]plan.SafetySign
	left := page.Pt(0)
	for _, sign := range signs {
		width := b.signWidth(sign)
		if len(lines) == 0 || left < width {
			lines, left = append(lines, nil), live.W-mm(6)
		}
		lines[len(lines)-1] = append(lines[len(lines)-1], sign)
		left -= width
	}
	return lines
}

// signWidth is what a sign takes with its words and the clear behind it.
func (b *safetyBook) signWidth(sign plan.SafetySign) page.Pt {
	return signSide + mm(8) + b.width(mono(9), sign.Number) + b.width(regular(9), sign.Title)
}

// sign draws the shape of a registered sign by its upper left corner. The artwork is the standard's, so the shape is plain.
func (b *safetyBook) sign(x, y page.Pt, sign plan.SafetySign) {
	middle := page.Disc{X: x + signSide/2, Y: y + signSide/2, R: signSide / 2, Weight: groupRule}
	switch sign.Shape {
	case "warning":
		b.items = append(b.items, page.Path{Points: [][2]page.Pt{{x + signSide/2, y}, {x + signSide, y + signSide}, {x, y + signSide}}, Weight: groupRule})
	case "prohibition":
		const slash = signSide * 35 / 100
		b.items = append(b.items, middle, page.Rule{X1: middle.X - slash, Y1: middle.Y - slash, X2: middle.X + slash, Y2: middle.Y + slash, Weight: groupRule})
	case "rescue":
		b.box(x, y, signSide, signSide, groupRule)
	default:
		b.items = append(b.items, middle)
	}
}

// triangle draws the alert sign in a box of w by h: an outline with an exclamation mark.
func (p *pen) triangle(x, y, w, h page.Pt) {
	middle := x + w/2
	p.items = append(p.items,
		page.Path{Points: [][2]page.Pt{{middle, y}, {x + w, y + h}, {x, y + h}}, Weight: groupRule * 3 / 2},
		page.Path{Filled: true, Points: [][2]page.Pt{{middle - w*6/100, y + h*34/100}, {middle + w*6/100, y + h*34/100},
			{middle + w*4/100, y + h*68/100}, {middle - w*4/100, y + h*68/100}}},
		page.Box{Rect: page.Rect{X: middle - w*5/100, Y: y + h*76/100, W: w * 10 / 100, H: h * 11 / 100}, Filled: true})
}
