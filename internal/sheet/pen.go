package sheet

import (
	"fmt"
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
)

// mm returns whole millimetres as page units.
func mm(millimetres int) page.Pt { return page.MM(millimetres * 1000) }

// mm10 returns tenths of a millimetre as page units.
func mm10(tenths int) page.Pt { return page.MM(tenths * 100) }

// The page grid, the same for A4 and Letter: 20 mm binding side, 12 mm on top, 180 x 255 mm live.
var live = page.Rect{X: mm(20), Y: mm(12), W: mm(180), H: mm(255)}

// style is a face at a size.
type style struct {
	face page.Face
	size page.Pt
}

func regular(points int) style  { return style{page.Regular, page.Pt(points) * page.Point} }
func medium(points int) style   { return style{page.Medium, page.Pt(points) * page.Point} }
func bold(points int) style     { return style{page.Bold, page.Pt(points) * page.Point} }
func mono(points int) style     { return style{page.Mono, page.Pt(points) * page.Point} }
func monoBold(points int) style { return style{page.MonoBold, page.Pt(points) * page.Point} }

// Rule weights: rows, and everything that groups or is ticked. Thinner rules vanish on copies.
const (
	rowRule   = page.Point * 3 / 4
	groupRule = page.Point
)

// section is the pages of one kind of sheet about one thing, before they are numbered and framed.
type section struct {
	sheet string // "cutlist"
	title string // "Cut list"
	name  string // "J1"; may be empty
	said  string // the name in the language of the floor, where it is a word
	part  string // part of the name: "batch 2"; may be empty
	unit  int    // position of the unit from 1; 0 for all
	pages [][]page.Item
}

// pen puts items on the current page of a section. A text that does not fit or cannot be printed becomes a problem.
type pen struct {
	metrics  composer
	items    []page.Item
	problems *problem.List
	at       problem.Place // where the thing being printed was written
	draft    bool          // texts that stand in for what is missing are boxed
}

// text prints a line that starts at x; it may take room.
func (p *pen) text(x, y page.Pt, s style, room page.Pt, text string) {
	p.put(x, y, s, page.Left, room, text)
}

// right prints a line that ends at x.
func (p *pen) right(x, y page.Pt, s style, room page.Pt, text string) {
	p.put(x, y, s, page.Right, room, text)
}

// centre prints a line around x.
func (p *pen) centre(x, y page.Pt, s style, room page.Pt, text string) {
	p.put(x, y, s, page.Centre, room, text)
}

func (p *pen) put(x, y page.Pt, s style, align page.Align, room page.Pt, text string) {
	if text == "" {
		return
	}
	if r, missing := p.metrics.Missing(s.face, text); missing {
		p.refuse("unprintable", fmt.Sprintf("the character %q (U+%04X) in %q cannot be printed", r, r, text),
			"use Latin, Greek or Cyrillic letters, digits and common signs")
		return
	}
	if width := p.width(s, text); width > room {
		p.tooLong(text, width, room)
		return
	}
	item := page.Text{X: x, Y: y, Face: s.face, Size: s.size, Align: align, Room: room, String: text, Place: p.at}
	p.items = append(p.items, item)
	if p.draft && undecided(text) {
		p.boxed(page.Extent(item, p.metrics.Metrics))
	}
}

func (p *pen) tooLong(text string, width, room page.Pt) {
	p.refuse("too-long", fmt.Sprintf("%q takes %.1f mm, and its place on the sheet holds %.1f mm", text, millimetres(width), millimetres(room)),
		"shorten it, or what stands beside it, or part it with blanks")
}

func (p *pen) refuse(check, text, hint string) {
	*p.problems = append(*p.problems, problem.Problem{Check: check, Place: p.at, Text: text, Hint: hint})
}

func (p *pen) width(s style, text string) page.Pt { return p.metrics.Width(s.face, s.size, text) }

func millimetres(d page.Pt) float64 { return float64(d) * 25.4 / 7200 }

// wrap breaks text into lines of at most room at its blanks, and within a figure only where it is wider than the room.
func (p *pen) wrap(s style, room page.Pt, text string) []string {
	var lines []string
	line := ""
	for _, word := range p.words(s, room, text) {
		longer := strings.TrimSpace(line + " " + word)
		if line != "" && p.width(s, longer) > room {
			lines = append(lines, line)
			longer = word
		}
		line = longer
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// widestWord returns the width of the widest word of a text: what a column must hold at least.
func (p *pen) widestWord(s style, text string) page.Pt {
	widest := page.Pt(0)
	for _, word := range strings.Fields(text) {
		widest = max(widest, p.width(s, word))
	}
	return widest
}

// paragraph prints wrapped text from base line y on, and returns the base line after the last.
func (p *pen) paragraph(x, y page.Pt, s style, room, pitch page.Pt, text string) page.Pt {
	for _, line := range p.wrap(s, room, text) {
		p.text(x, y, s, room, line)
		y += pitch
	}
	return y
}

// across draws a horizontal rule.
func (p *pen) across(x1, x2, y, weight page.Pt) {
	p.items = append(p.items, page.Rule{X1: x1, Y1: y, X2: x2, Y2: y, Weight: weight})
}

// box draws an outline.
func (p *pen) box(x, y, w, h, weight page.Pt) {
	p.items = append(p.items, page.Box{Rect: page.Rect{X: x, Y: y, W: w, H: h}, Weight: weight})
}

// mark notes that a row of a list stands at y, with so many boxes to tick.
func (p *pen) mark(list string, number int, y, height page.Pt, ticks int) {
	p.items = append(p.items, page.Row{List: list, Number: number, Y: y, H: height, Ticks: ticks})
}

// marked draws a row of a list at y and marks it, with the boxes to tick that it draws.
func (p *pen) marked(list string, number int, y, height page.Pt, draw func(y page.Pt)) {
	from, ticks := len(p.items), 0
	draw(y)
	for _, item := range p.items[from:] {
		if b, is := item.(page.Box); is && b.W == b.H && b.Weight == groupRule {
			ticks++
		}
	}
	p.mark(list, number, y, height, ticks)
}

// drawn notes that the texts from an item on name parts of a drawing.
func (p *pen) drawn(from int) {
	for i, item := range p.items[from:] {
		if text, is := item.(page.Text); is {
			text.Drawn = true
			p.items[from+i] = text
		}
	}
}

// tick draws a square to tick, by its upper left corner.
func (p *pen) tick(x, y, side page.Pt) { p.box(x, y, side, side, groupRule) }

// blank draws a line to write on, on base line y.
func (p *pen) blank(x, y, w page.Pt) { p.across(x, x+w, y+mm10(5), groupRule*3/4) }

// matrixModule is five dots of a 300 dpi printer.
const matrixModule = page.Point * 12 / 10

// matrixSide is the side of a Data Matrix of 16 modules without its quiet zone.
const matrixSide = 16 * matrixModule

// matrix draws a Data Matrix by its upper left corner, keep one module clear around it. A draft has no codes to draw.
func (p *pen) matrix(x, y page.Pt, code plan.Code) {
	if code.Kind == 0 {
		return
	}
	p.items = append(p.items, page.Symbol{X: x, Y: y, Symbology: page.DataMatrix, Module: matrixModule,
		String: code.String(), Says: code.Words})
}

// keyIn returns what is typed when a symbol cannot be read; a draft has nothing to type.
func keyIn(code plan.Code) string {
	if code.Kind == 0 {
		return ""
	}
	return code.KeyIn()
}

// bars draws a Code 128, keep ten modules clear on both sides. A draft has no codes to draw.
func (p *pen) bars(x, y, module, height page.Pt, text, says string) {
	if text == "" {
		return
	}
	p.items = append(p.items, page.Symbol{X: x, Y: y, Symbology: page.Code128, Module: module, Height: height,
		String: text, Says: says})
}
