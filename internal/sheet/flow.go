package sheet

import (
	"slices"

	"loomleaf/internal/page"
)

// span is a piece of a line that stays together: words, a line to write on, words after it.
type span struct {
	style style
	text  string
	blank page.Pt // width of the line to write on; 0 for none
	after string
}

// spanGap stands between two spans, blankGap between the words of a span and its line.
const (
	spanGap  = 11 * page.Point
	blankGap = 4 * page.Point
)

func (p *pen) spanWidth(s span) page.Pt {
	width := p.width(s.style, s.text)
	if s.blank > 0 {
		width += blankGap + s.blank
	}
	if s.after != "" {
		width += blankGap + p.width(s.style, s.after)
	}
	return width
}

// lines breaks spans into lines of at most room. A span of words alone that is wider is broken at its blanks.
func (p *pen) lines(room page.Pt, spans []span) [][]span {
	var lines [][]span
	used := room
	for _, s := range p.broken(room, spans) {
		width := p.spanWidth(s)
		if len(lines) == 0 || used+spanGap+width > room {
			lines, used = append(lines, nil), -spanGap
		}
		lines[len(lines)-1] = append(lines[len(lines)-1], s)
		used += spanGap + width
	}
	return lines
}

func (p *pen) broken(room page.Pt, spans []span) []span {
	var pieces []span
	for _, s := range spans {
		if p.spanWidth(s) <= room || s.blank > 0 {
			pieces = append(pieces, s)
			continue
		}
		for _, line := range p.wrap(s.style, room, s.text) {
			pieces = append(pieces, span{style: s.style, text: line})
		}
	}
	return pieces
}

// flow prints spans from base line y on in lines of at most room, and returns the base line after the last.
func (p *pen) flow(x, y, room, pitch page.Pt, spans ...span) page.Pt {
	for _, line := range p.lines(room, spans) {
		p.line(x, y, room, line)
		y += pitch
	}
	return y
}

// leastBlank is the share of a line to write on, in per cent, that longer words of another language leave of it at least.
const leastBlank = 60

// fitted returns spans with shorter lines to write on where the words would not fit beside them.
func (p *pen) fitted(room page.Pt, spans []span) []span {
	over, blanks := -room-spanGap, page.Pt(0)
	for _, s := range spans {
		over += spanGap + p.spanWidth(s)
		blanks += s.blank
	}
	if over <= 0 || over > blanks*(100-leastBlank)/100 {
		return spans
	}
	shorter := slices.Clone(spans)
	for i := range shorter {
		shorter[i].blank -= (over*shorter[i].blank + blanks - 1) / blanks
	}
	return shorter
}

// line prints spans on one base line.
func (p *pen) line(x, y, room page.Pt, spans []span) {
	start := x
	spans = p.fitted(room, spans)
	for _, s := range spans {
		p.text(x, y, s.style, start+room-x, s.text)
		x += p.width(s.style, s.text)
		if s.blank > 0 {
			p.blank(x+blankGap, y, s.blank)
			x += blankGap + s.blank
		}
		if s.after != "" {
			x += blankGap
			p.text(x, y, s.style, start+room-x, s.after)
			x += p.width(s.style, s.after)
		}
		x += spanGap
	}
}

// arrow draws a small filled triangle that points right, its tip at x, y.
func (p *pen) arrow(x, y page.Pt) {
	p.items = append(p.items, page.Path{Filled: true, Points: [][2]page.Pt{
		{x, y}, {x - mm10(22), y - mm10(13)}, {x - mm10(22), y + mm10(13)}}})
}

// diamond draws a filled diamond around x, y: the sign of a hold point.
func (p *pen) diamond(x, y page.Pt) {
	d := mm10(19)
	p.items = append(p.items, page.Path{Filled: true, Points: [][2]page.Pt{{x, y - d}, {x + d, y}, {x, y + d}, {x - d, y}}})
}
