package sheet

import (
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
)

// draftHead takes the place of the page head: the words in a band, then what names the page. A draft has no code, and no
// page of it is ever valid.
func (p *pen) draftHead(packet plan.Packet, pg page.Page) {
	const lines = 2
	p.band(live.Y, mm(10), 28)
	spans := []span{{style: bold(14), text: pg.Title}}
	if pg.Unit > 0 {
		spans = append(spans, span{style: bold(14), text: p.say("common.unit")}, span{style: monoBold(14), text: packet.Units[pg.Unit-1]})
	}
	p.line(live.X, mm10(277), live.W, append(spans, span{style: monoBold(12), text: packet.Number},
		span{style: bold(12), text: p.say("frame.revision", "revision", packet.Revision)}))
	s, y := regular(9), mm10(320)
	words := p.present([]span{{style: mono(9), text: packet.Part}, {style: bold(9), text: pg.Section},
		{style: bold(9), text: p.say("frame.page", "page", pg.Number, "of", pg.Of)}, {style: monoBold(9), text: pg.Name},
		{style: s, text: p.say("frame.issued", "date", packet.Issued)}, {style: s, text: packet.Title}})
	if len(p.lines(live.W, words)) > lines {
		p.longTitle(packet)
		return
	}
	p.flow(live.X, y, live.W, mm10(37), words...)
}

// draftFoot takes the place of the words on how boxes are filled in: nobody fills in a draft.
func (p *pen) draftFoot(foot string) {
	p.band(mm10(2555), mm10(72), 18)
	p.text(live.X, mm10(2662), regular(9), live.W, foot)
}

// band prints the words of a draft in a heavy frame across the page, black on white.
func (p *pen) band(y, height page.Pt, size int) {
	const frame = 2 * page.Point
	p.box(live.X+frame/2, y+frame/2, live.W-frame, height-frame, frame)
	capital := p.metrics.CapHeight(page.Bold, page.Pt(size)*page.Point)
	p.centre(live.X+live.W/2, y+(height+capital)/2, bold(size), live.W-2*frame, p.say("frame.draft"))
}

// undecided reports whether a text stands in for one still to be found: a question mark, or a word for "to be determined" or
// "to be confirmed".
func undecided(text string) bool {
	words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return (r < 'a' || r > 'z') && (r < '0' || r > '9') })
	for _, word := range words {
		if word == "tbd" || word == "tbc" {
			return true
		}
	}
	return strings.Contains(text, "?")
}

// boxed draws a box around a text, clear of its letters.
func (p *pen) boxed(r page.Rect) {
	const clear, ascender = 120, 220 // 0.4 mm; above capitals, where some small letters reach, 0.8 mm
	left, right := max(r.X-clear, live.X), min(r.X+r.W+clear, live.X+live.W)
	p.box(left, r.Y-ascender, right-left, r.H+ascender+clear, groupRule)
}

// missingPart prints an empty box where a draft lacks a part number, and returns the base line after it.
func (p *pen) missingPart(x, y, room, pitch page.Pt, part string) page.Pt {
	if !p.draft || part != "" {
		return y
	}
	words := p.say("common.part_number")
	p.text(x, y, bold(11), room, words)
	left := x + p.width(bold(11), words) + mm(2)
	p.box(left, y-mm10(36), min(mm(50), x+room-left), mm10(46), groupRule)
	return y + pitch + mm10(5)
}
