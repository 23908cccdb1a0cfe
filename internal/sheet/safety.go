package sheet

import (
	"fmt"
	"slices"
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
)

const (
	safetyLine  page.Pt = 1417 // 5 mm: line pitch of 11 pt text
	blockGap    page.Pt = 567  // 2 mm: above a panel
	panelHeight page.Pt = 2778 // 9.8 mm: a panel and the clear below it
	writeLine   page.Pt = 2948 // 10.4 mm: line pitch of lines to write on
	blankPitch  page.Pt = 4025 // 14.2 mm: label, line to write on, and what stands under it
)

// crew is how many people the page holds room for.
const crew = 8

// safetyBook writes the safety page in one language.
type safetyBook struct {
	book
	safety plan.Safety
	opened bool // the first page, with the deference in full, has been opened
}

// safetySections lays the safety page in each language: who decides, the hazards that the job calls for, what the
// qualified person fills in, who has read it. It quotes and counts; it judges nothing.
func safetySections(p plan.Plan, m page.Metrics, problems *problem.List) []section {
	var sections []section
	for i, safety := range p.Safety {
		b := &safetyBook{book: *newBook(m, problems), safety: safety}
		b.refuseClaims()
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

// claims are words that call something harmless or approved: no program can know that.
func claims() []string {
	return []string{"safe", "safely", "eyesafe", "compliant", "certified", "harmless", "sicher", "augensicher", "konform",
		"zertifiziert", "ungefährlich", "unbedenklich"}
}

// refuseClaims refuses wording that makes one of them.
func (b *safetyBook) refuseClaims() {
	texts := slices.Concat(b.safety.Deference, []string{b.safety.Short, b.safety.Heading})
	for _, block := range b.safety.Blocks {
		texts = append(append(texts, block.Title, block.Count), block.Lines...)
	}
	for _, text := range texts {
		for _, word := range strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !strings.ContainsRune("abcdefghijklmnopqrstuvwxyzäöüß", r) }) {
			if slices.Contains(claims(), word) {
				b.refuse("safety-claim", fmt.Sprintf("the safety wording %q uses the word %q", text, word),
					"say what to do and who decides; a page cannot judge an exposure")
			}
		}
	}
}

// deference opens every page: what comes before this page. On the first it stands line by line, then as a paragraph.
func (b *safetyBook) deference() {
	s, pitch, lines := bold(11), safetyLine, b.safety.Deference
	if b.opened {
		s, pitch, lines = medium(10), mm10(45), []string{strings.Join(b.safety.Deference, " ")}
	}
	b.opened = true
	count := 0
	for _, line := range lines {
		count += len(b.wrap(s, live.W-mm(8), line))
	}
	if count == 0 {
		return
	}
	height := page.Pt(count)*pitch + mm(3)
	b.box(live.X, b.y, live.W, height, 2*groupRule)
	y := b.y + mm10(53)
	for _, line := range lines {
		y = b.paragraph(live.X+mm(4), y, s, live.W-mm(8), pitch, line)
	}
	b.y += height + mm(1)
}

// block prints one hazard whole; its panel stays with its lines.
func (b *safetyBook) block(block plan.SafetyBlock) {
	lines := block.Lines
	height := blockGap + panelHeight
	for _, sentence := range append(slices.Clone(lines), block.Count) {
		height += page.Pt(len(b.wrap(regular(11), live.W-mm(6), sentence))) * safetyLine
	}
	b.need(min(height, bodyBottom()-bodyTop()-mm(60)))
	b.y += blockGap
	b.panel(block)
	if block.Count != "" {
		b.y = b.paragraph(live.X+mm(6), b.y+mm10(40), medium(11), live.W-mm(6), safetyLine, block.Count) - mm10(40)
	}
	for _, sentence := range lines {
		b.sentence(sentence)
	}
}

// sentence prints one line of a hazard behind its mark; it is never split from it.
func (b *safetyBook) sentence(sentence string) {
	lines := b.wrap(regular(11), live.W-mm(6), sentence)
	b.need(page.Pt(len(lines)) * safetyLine)
	b.items = append(b.items, page.Box{Rect: page.Rect{X: live.X + mm10(12), Y: b.y + mm10(20), W: mm10(16), H: mm10(16)}, Filled: true})
	for _, line := range lines {
		b.text(live.X+mm(6), b.y+mm10(40), regular(11), live.W-mm(6), line)
		b.y += safetyLine
	}
}

// panel prints signal word, title and signs. Words that speak of injury carry the alert triangle, a notice does not
// (signal words as ANSI Z535.4-2007 defines them, second-hand).
func (b *safetyBook) panel(block plan.SafetyBlock) {
	b.box(live.X, b.y, live.W, mm10(86), 2*groupRule)
	x := live.X + mm(4)
	if block.Alert {
		b.triangle(x, b.y+mm10(9), mm10(80), mm10(68))
		x += mm(11)
	}
	b.text(x, b.y+mm10(64), bold(16), mm(40), block.Signal)
	edge := live.X + live.W - mm(3)
	for i := len(block.Signs) - 1; i >= 0; i-- {
		edge = b.sign(edge, block.Signs[i]) - mm(3)
	}
	b.text(live.X+mm(54), b.y+mm10(62), bold(13), edge-live.X-mm(54), block.Title)
	b.y += panelHeight
}

// sign prints the shape and the number of a registered sign, ending at the right edge, and returns where it starts. The
// artwork is the standard's, so the shape is plain.
func (b *safetyBook) sign(edge page.Pt, sign plan.SafetySign) page.Pt {
	width := b.width(mono(9), sign.Number)
	b.right(edge, b.y+mm10(55), mono(9), width, sign.Number)
	const side = 1417 // 5 mm
	x, y := edge-width-mm(1)-side, b.y+mm10(18)
	middle := page.Disc{X: x + side/2, Y: y + side/2, R: side / 2, Weight: groupRule}
	switch sign.Shape {
	case "warning":
		b.items = append(b.items, page.Path{Points: [][2]page.Pt{{x + side/2, y}, {x + side, y + side}, {x, y + side}}, Weight: groupRule})
	case "prohibition":
		const slash = side * 35 / 100
		b.items = append(b.items, middle, page.Rule{X1: middle.X - slash, Y1: middle.Y - slash, X2: middle.X + slash, Y2: middle.Y + slash, Weight: groupRule})
	case "rescue":
		b.box(x, y, side, side, groupRule)
	default:
		b.items = append(b.items, middle)
	}
	return x
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

// blanks prints, in columns, what the shop quotes with its source, and a line to write on for what it does not quote.
func (b *safetyBook) blanks() {
	const columns = 3
	rows := (len(b.safety.Blanks) + columns - 1) / columns
	b.need(min(mm(14)+page.Pt(rows)*blankPitch, bodyBottom()-bodyTop()-mm(60)))
	b.y += mm(2)
	b.text(live.X, b.y+mm(6), bold(13), live.W, b.safety.Heading)
	b.y += mm(9)
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
}

// quotedLine is the line pitch of a quoted value and its source.
const quotedLine page.Pt = 1247 // 4.4 mm

// fieldHeight is what a quoted value takes with its label and source.
func (b *safetyBook) fieldHeight(blank plan.SafetyBlank, room page.Pt) page.Pt {
	lines := len(b.wrap(bold(11), room, blank.Value)) + len(b.wrap(regular(9), room, blank.Source))
	return mm10(54) + page.Pt(lines)*quotedLine
}

func (b *safetyBook) blankField(x, room page.Pt, blank plan.SafetyBlank) {
	b.text(x, b.y+mm10(36), medium(9), room, blank.Label)
	if blank.Value == "" {
		b.blank(x, b.y+mm10(92), room)
		b.right(x+room, b.y+mm10(131), regular(9), room, b.safety.Ask)
		return
	}
	y := b.paragraph(x, b.y+mm10(84), bold(11), room, quotedLine, blank.Value)
	b.paragraph(x, y-mm10(2), regular(9), room, quotedLine, blank.Source)
}

// crewTicks prints a box, a name and a date for each of the crew, in two columns.
func (b *safetyBook) crewTicks() {
	half := (live.W - mm(6)) / 2
	b.need(mm(12) + crew/2*writeLine)
	b.y += mm(3)
	b.text(live.X, b.y+mm(6), bold(13), live.W, b.safety.Read)
	b.y += mm(9)
	for i := range crew {
		x := live.X + page.Pt(i/(crew/2))*(half+mm(6))
		y := b.y + page.Pt(i%(crew/2))*writeLine
		b.tick(x, y+mm10(12), gloveTick)
		b.text(x+mm(9), y+mm(7), regular(9), mm(10), b.safety.Name)
		b.blank(x+mm(19), y+mm10(72), mm(43))
		b.text(x+half-mm(22), y+mm(7), mono(9), mm(22), "20__-__-__")
	}
	b.y += crew / 2 * writeLine
}
