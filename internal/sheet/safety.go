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
	safetyLine  page.Pt = 1559 // 5.5 mm: line pitch of 12 pt text
	blockGap    page.Pt = 709  // 2.5 mm: above a panel
	panelHeight page.Pt = 2920 // 10.3 mm: a panel and the clear below it
	writeLine   page.Pt = 2948 // 10.4 mm: line pitch of lines to write on

)

// crew is how many people the page holds room for.
const crew = 8

// safetyBook writes the safety page.
type safetyBook struct {
	book
	safety plan.Safety
}

// safetySections lays the safety page: who decides, the hazards that the job calls for, what the qualified person
// fills in, who has read it. It quotes and counts; it judges nothing.
func safetySections(p plan.Plan, m page.Metrics, problems *problem.List) []section {
	b := &safetyBook{book: *newBook(m, problems), safety: p.Safety}
	b.refuseClaims()
	b.open = b.deference
	b.open()
	b.y = b.paragraph(live.X, b.y+mm10(48), medium(12), live.W, safetyLine, markingWords(p.Wires))
	for _, block := range p.Safety.Blocks {
		b.block(block)
	}
	b.blanks()
	b.crewTicks()
	return []section{{sheet: "safety", title: "Safety", pages: b.finish()}}
}

// refuseClaims refuses wording that calls anything harmless: no program can know that.
func (b *safetyBook) refuseClaims() {
	check := func(texts ...string) {
		for _, text := range texts {
			for _, word := range strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return r < 'a' || r > 'z' }) {
				if word == "safe" || word == "safely" {
					b.refuse("safety-claim", fmt.Sprintf("the safety wording %q uses the word %q", text, word),
						"say what to do and who decides; a page cannot judge an exposure")
				}
			}
		}
	}
	check(b.safety.Deference...)
	for _, block := range b.safety.Blocks {
		check(block.Title)
		check(block.Lines...)
	}
}

// deference opens every page: what comes before this page.
func (b *safetyBook) deference() {
	lines := 0
	for _, sentence := range b.safety.Deference {
		lines += len(b.wrap(bold(12), live.W-mm(8), sentence))
	}
	if lines == 0 {
		return
	}
	height := page.Pt(lines)*safetyLine + mm(4)
	b.box(live.X, b.y, live.W, height, 2*groupRule)
	y := b.y + mm10(63)
	for _, sentence := range b.safety.Deference {
		y = b.paragraph(live.X+mm(4), y, bold(12), live.W-mm(8), safetyLine, sentence)
	}
	b.y += height + mm(3)
}

// markingWords counts the wires of the job by the way they are marked.
func markingWords(wires []plan.Wire) string {
	words := map[string]string{"laser": "UV laser marked", "ink": "ink marked", "sleeve": "marked with a sleeve",
		"test first": "test marked first", "none": "without a mark"}
	var parts []string
	for _, method := range []string{"laser", "ink", "sleeve", "test first", "none"} {
		count := 0
		for _, w := range wires {
			if w.Method == method {
				count++
			}
		}
		if count > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", count, words[method]))
		}
	}
	return fmt.Sprintf("Of the %d wires of a unit: %s.", len(wires), strings.Join(parts, ", "))
}

// block prints one hazard; its panel stays with its first lines, and a line is never split from its dash.
func (b *safetyBook) block(block plan.SafetyBlock) {
	height := blockGap + panelHeight
	for _, sentence := range block.Lines {
		height += page.Pt(len(b.wrap(regular(12), live.W-mm(6), sentence))) * safetyLine
	}
	b.need(min(height, bodyBottom()-bodyTop()-mm(60)))
	b.y += blockGap
	b.panel(block)
	for _, sentence := range block.Lines {
		lines := b.wrap(regular(12), live.W-mm(6), sentence)
		b.need(page.Pt(len(lines)) * safetyLine)
		b.items = append(b.items, page.Box{Rect: page.Rect{X: live.X + mm10(12), Y: b.y + mm10(23), W: mm10(16), H: mm10(16)}, Filled: true})
		for _, line := range lines {
			b.text(live.X+mm(6), b.y+mm10(44), regular(12), live.W-mm(6), line)
			b.y += safetyLine
		}
	}
}

// panel prints signal word and title. WARNING and CAUTION, which speak of injury, carry the triangle; NOTICE does not
// (signal words as ANSI Z535.4-2007 defines them, second-hand).
func (b *safetyBook) panel(block plan.SafetyBlock) {
	b.box(live.X, b.y, live.W, mm(9), 2*groupRule)
	x := live.X + mm(4)
	if slices.Contains([]string{"WARNING", "CAUTION"}, block.Signal) {
		b.triangle(x, b.y+mm10(9), mm10(84), mm10(72))
		x += mm(12)
	}
	b.text(x, b.y+mm10(69), bold(18), mm(44), block.Signal)
	b.text(live.X+mm(56), b.y+mm10(65), bold(14), live.W-mm(60), block.Title)
	b.y += panelHeight
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

// blanks prints what the shop quotes, and a line to write on for what it does not quote.
func (b *safetyBook) blanks() {
	b.need(mm(17) + 5*writeLine)
	b.y += mm(3)
	b.text(live.X, b.y+mm(6), bold(14), live.W, "For the qualified person to fill in or to confirm")
	b.y += mm(8)
	for _, entry := range []struct{ words, quoted string }{{"laser / UV safety officer:", b.safety.Officer},
		{"emergency number:", b.safety.Emergency}, {"equipment maker's instructions at:", ""},
		{"SDS at:", ""}, {"first aid and eyewash at:", ""}} {
		b.y += writeLine
		b.text(live.X, b.y, medium(12), mm(70), entry.words)
		x, room := live.X+mm(70), live.W-mm(70)
		if entry.quoted != "" {
			b.text(x, b.y, bold(12), room, entry.quoted)
			continue
		}
		b.blank(x, b.y, room)
		b.right(x+room, b.y+mm10(41), regular(9), room, "to be filled in by the qualified person")
	}
	b.y += mm(5)
}

// crewTicks prints a box, a name and a date for each of the crew, in two columns.
func (b *safetyBook) crewTicks() {
	half := live.W/2 - mm(3)
	b.need(mm(12) + crew/2*writeLine)
	b.y += mm(3)
	b.text(live.X, b.y+mm(6), bold(14), live.W, "Read and understood")
	b.y += mm(9)
	for i := range crew {
		x := live.X + page.Pt(i/(crew/2))*(half+mm(6))
		y := b.y + page.Pt(i%(crew/2))*writeLine
		b.tick(x, y+mm10(12), gloveTick)
		b.text(x+mm(9), y+mm(7), regular(9), mm(10), "name")
		b.blank(x+mm(19), y+mm10(72), mm(43))
		b.text(x+half-mm(22), y+mm(7), mono(9), mm(22), "20__-__-__")
	}
	b.y += crew / 2 * writeLine
}
