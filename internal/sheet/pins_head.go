package sheet

import (
	"fmt"
	"slices"
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
)

const (
	gloveTick  page.Pt = 1984  // 7 mm: box that a gloved hand can hit
	tickPitch  page.Pt = 2608  // 9.2 mm: from box to box down the page
	headLine   page.Pt = 1474  // 5.2 mm: line pitch of the words in the head
	faceColumn page.Pt = 18709 // 66 mm: width beside the words of the head
	faceTall   page.Pt = 20126 // 71 mm: height of a face beside the words, with its own words

)

// head opens the first page: what the connector is, what must lie ready, and its face. The height of the first rows is
// kept free, so that they stand on the page of the face.
func (l *pinList) head(first page.Pt) {
	width := live.W
	face := l.connector.Face
	picture, beside := l.fitFace(face, faceColumn, faceTall)
	if face.Kind != "" && beside {
		width -= faceColumn + mm(4)
	}
	bottom := l.headWords(width)
	switch {
	case face.Kind == "":
		bottom = l.orderOnly(bottom)
	case beside:
		bottom = max(bottom, l.faceBlock(picture, live.X+live.W-faceColumn, bodyTop(), faceColumn))
	default:
		bottom = l.wideFace(face, bottom+mm(2), first)
	}
	l.y = bottom + mm(1)
	if l.left() < columnHeadHeight+first {
		l.y = bodyBottom() // the rows start on the next page
		return
	}
	l.columnHeads()
}

// wideFace prints a face that needs the whole width. A face that leaves the first rows no room has its page to itself.
func (l *pinList) wideFace(face plan.Face, y, first page.Pt) page.Pt {
	picture, fits := l.fitFace(face, live.W, bodyBottom()-y-first-columnHeadHeight-mm(1))
	if !fits {
		picture, fits = l.fitFace(face, live.W, bodyBottom()-y-mm(1))
	}
	if !fits {
		l.refuse("face-too-large", fmt.Sprintf("the face of connector %q cannot be drawn with cavity names of 7 pt on a sheet", l.connector.ID),
			`set face = "schematic": the checklist then says ORDER ONLY`)
		return y
	}
	return l.faceBlock(picture, live.X, y, live.W)
}

func (l *pinList) orderOnly(y page.Pt) page.Pt {
	l.box(live.X, y+mm(1), live.W, mm(9), groupRule)
	l.text(live.X+mm(4), y+mm(7), bold(13), live.W-mm(8), l.say("pins.order_only"))
	return y + mm(10)
}

// headWords prints the words of the head and returns the y below them.
func (l *pinList) headWords(width page.Pt) page.Pt {
	c := l.connector
	y := l.headName(width)
	y = l.paragraph(live.X, y, bold(13), width, headLine, c.Title)
	y = l.missingPart(live.X, y, width, headLine, c.Part)
	y = l.paragraph(live.X, y, regular(11), width, headLine, joined(", ", c.Part, c.Gender, l.keyWords(c.Key)))
	y = l.paragraph(live.X, y, medium(11), width, headLine, l.countWords(c.Counts))
	y = l.paragraph(live.X, y, regular(11), width, headLine, l.positionWords(c))
	if len(c.InsertTools) > 0 {
		y = l.paragraph(live.X, y, regular(11), width, headLine, l.say("pins.insertion_tools", "tools", strings.Join(c.InsertTools, ", ")))
	}
	y -= mm10(32)
	y = l.ticks(live.X, y, width, medium(11), l.say("common.trays_needed"), monoBold(14), c.Trays)
	if !l.ownTray {
		y = l.paragraph(live.X, y+mm10(37), medium(11), width, headLine, l.noOwnTray(c)) - mm10(32)
	}
	return l.ticks(live.X, y, width, bold(11), l.say("common.slide_on_first"), medium(11), c.SlideOnFirst)
}

// headName prints the connector in 36 pt, a long name smaller down to 24 pt, its unit and the symbol of the two, and
// returns the base line after them.
func (l *pinList) headName(width page.Pt) page.Pt {
	code := l.connector.Codes[l.unit-1]
	keyWidth := max(l.width(mono(9), keyIn(code)), matrixSide)
	edge := live.X + width
	l.matrix(edge-matrixSide-matrixModule, bodyTop()+mm10(6), code)
	l.right(edge, bodyTop()+mm10(113), mono(9), keyWidth, keyIn(code))
	room := width - keyWidth - mm(3)
	large := bold(36)
	for large.size > 24*page.Point && l.width(large, l.connector.ID) > room {
		large.size -= 4 * page.Point
	}
	name := l.width(large, l.connector.ID)
	l.text(live.X, bodyTop()+mm(10), large, room, l.connector.ID)
	unit := l.width(medium(14), l.say("common.unit")+" ") + l.width(monoBold(22), l.unitName)
	if name+mm(6)+unit <= room {
		l.unitAt(live.X+name+mm(6), bodyTop()+mm(10), room)
		return bodyTop() + mm(18)
	}
	l.unitAt(live.X, bodyTop()+mm(19), width)
	return bodyTop() + mm(26)
}

func (l *pinList) unitAt(x, y, room page.Pt) {
	word := l.width(medium(14), l.say("common.unit")+" ")
	l.text(x, y, medium(14), room, l.say("common.unit"))
	l.text(x+word, y, monoBold(22), room, l.unitName)
}

// again opens every page after the first: the connector large, and where the rows go on.
func (l *pinList) again(row int) {
	name := l.width(bold(28), l.connector.ID)
	l.text(live.X, bodyTop()+mm10(74), bold(28), live.W, l.connector.ID)
	words := l.say("pins.closing_steps")
	if row > 0 {
		words = l.say("pins.rows_go_on", "row", row, "of", len(l.connector.Cavities))
	}
	unit := l.width(medium(14), l.say("common.unit")+" ") + l.width(monoBold(22), l.unitName)
	x := live.X + name + mm(6)
	rest := l.width(medium(11), words)
	if name+unit+rest+mm(12) > live.W { // long names: the words stand on a line of their own
		l.text(live.X, bodyTop()+mm10(134), medium(11), live.W, words)
		l.unitAt(x, bodyTop()+mm10(74), live.W-name-mm(6))
		l.y = bodyTop() + mm(15)
	} else {
		l.unitAt(x, bodyTop()+mm10(74), unit)
		l.right(live.X+live.W, bodyTop()+mm10(74), medium(11), rest, words)
		l.y = bodyTop() + mm10(92)
	}
	if row > 0 {
		l.columnHeads()
	}
}

// ticks prints a lead and a box for each label, across and then down, and returns the y below them.
func (p *pen) ticks(x, y, width page.Pt, lead style, words string, s style, labels []string) page.Pt {
	if len(labels) == 0 {
		return y
	}
	p.text(x, y+mm10(57), lead, width, words)
	at := x + p.width(lead, words) + mm(4)
	for _, label := range labels {
		need := gloveTick + mm(2) + p.width(s, label)
		if at > x && at+need > x+width {
			at, y = x, y+tickPitch
		}
		p.tick(at, y+mm(1), gloveTick)
		p.text(at+gloveTick+mm(2), y+mm10(62), s, x+width-at-gloveTick-mm(2), label)
		at += need + mm(6)
	}
	return y + tickPitch
}

func (l *pinList) noOwnTray(c plan.Connector) string {
	switch wired := slices.ContainsFunc(c.Cavities, func(c plan.Cavity) bool { return len(c.Lines) > 0 }); {
	case len(c.Trays) > 0:
		return l.say("pins.wires_from", "trays", strings.Join(c.Trays, ", "))
	case wired:
		return l.say("pins.no_wire_cut")
	}
	return l.say("pins.no_wire")
}

func (l *pinList) countWords(n plan.CavityCounts) string {
	cavities, plugs := l.sayCount("pins.cavities", n.Cavities), l.sayCount("pins.plugs", n.Sealed)
	if n.Loose > 0 {
		return l.say("pins.counts_loose", "cavities", cavities, "wired", n.Wired, "plugs", plugs, "open", n.Open, "loose", n.Loose)
	}
	return l.say("pins.counts", "cavities", cavities, "wired", n.Wired, "plugs", plugs, "open", n.Open)
}

// positionWords says where the connector stands, and in which order its cavities are filled: that of the list.
func (l *pinList) positionWords(c plan.Connector) string {
	order := l.say("pins.order_listed")
	switch c.Order {
	case "centre out":
		order = l.say("pins.order_centre_out")
	case "by row":
		order = l.say("pins.order_by_row")
	}
	switch {
	case c.Node == "":
		return order
	case l.board == "":
		return joined("; ", l.say("pins.at_node", "node", c.Node), order)
	}
	return joined("; ", l.say("pins.at_board", "board", l.board, "node", c.Node), order)
}

func (p *pen) keyWords(key string) string {
	switch key {
	case "":
		return ""
	case "up":
		return p.say("common.key_up")
	case "down":
		return p.say("common.key_down")
	}
	return p.say("common.key", "key", key)
}

// joined joins the parts that are not empty.
func joined(between string, parts ...string) string {
	return strings.Join(slices.DeleteFunc(parts, func(s string) bool { return s == "" }), between)
}
