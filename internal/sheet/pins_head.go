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
	l.text(live.X+mm(4), y+mm(7), bold(13), live.W-mm(8), "ORDER ONLY: no picture of this face. Go by the marks on the insert.")
	return y + mm(10)
}

// headWords prints the words of the head and returns the y below them.
func (l *pinList) headWords(width page.Pt) page.Pt {
	c := l.connector
	y := l.headName(width)
	y = l.paragraph(live.X, y, bold(13), width, headLine, c.Title)
	y = l.missingPart(live.X, y, width, headLine, c.Part)
	y = l.paragraph(live.X, y, regular(11), width, headLine, joined(", ", c.Part, c.Gender, keyWords(c.Key)))
	y = l.paragraph(live.X, y, medium(11), width, headLine, countWords(c.Counts))
	y = l.paragraph(live.X, y, regular(11), width, headLine, placeWords(c, l.board))
	if len(c.InsertTools) > 0 {
		y = l.paragraph(live.X, y, regular(11), width, headLine, "insertion tools: "+strings.Join(c.InsertTools, ", "))
	}
	y -= mm10(32)
	y = l.ticks(live.X, y, width, medium(11), "trays needed at this position:", monoBold(14), c.Trays)
	if !slices.Contains(c.Trays, c.ID) {
		y = l.paragraph(live.X, y+mm10(37), medium(11), width, headLine, noOwnTray(c)) - mm10(32)
	}
	return l.ticks(live.X, y, width, bold(11), "slide on FIRST:", medium(11), c.SlideOnFirst)
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
	unit := l.width(medium(14), "unit ") + l.width(monoBold(22), l.unitName)
	if name+mm(6)+unit <= room {
		l.unitAt(live.X+name+mm(6), bodyTop()+mm(10), room)
		return bodyTop() + mm(18)
	}
	l.unitAt(live.X, bodyTop()+mm(19), width)
	return bodyTop() + mm(26)
}

func (l *pinList) unitAt(x, y, room page.Pt) {
	word := l.width(medium(14), "unit ")
	l.text(x, y, medium(14), room, "unit")
	l.text(x+word, y, monoBold(22), room, l.unitName)
}

// again opens every page after the first: the connector large, and where the rows go on.
func (l *pinList) again(row int) {
	name := l.width(bold(28), l.connector.ID)
	l.text(live.X, bodyTop()+mm10(74), bold(28), live.W, l.connector.ID)
	words := "closing steps"
	if row > 0 {
		words = fmt.Sprintf("rows go on at %d of %d", row, len(l.connector.Cavities))
	}
	unit := l.width(medium(14), "unit ") + l.width(monoBold(22), l.unitName)
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

func noOwnTray(c plan.Connector) string {
	switch wired := slices.ContainsFunc(c.Cavities, func(c plan.Cavity) bool { return len(c.Lines) > 0 }); {
	case len(c.Trays) > 0:
		return "no tray of its own, wires arrive from " + strings.Join(c.Trays, ", ")
	case wired:
		return "no tray of its own, no wire of it is cut on the line"
	}
	return "no tray of its own, no wire arrives here"
}

// cavityCount counts cavities in words.
func cavityCount(count int) string {
	if count == 1 {
		return "1 cavity"
	}
	return fmt.Sprintf("%d cavities", count)
}

func countWords(n plan.CavityCounts) string {
	words := fmt.Sprintf("%s = %d wired + %s + %d open", cavityCount(n.Cavities), n.Wired, plural(n.Sealed, "sealing plug"), n.Open)
	if n.Loose > 0 {
		words += fmt.Sprintf(" + %d not landed", n.Loose)
	}
	return words
}

// placeWords says where the connector stands, and in which order its cavities are filled: that of the list.
func placeWords(c plan.Connector, board string) string {
	order := "work down this list"
	if c.Order != "" && c.Order != "listed" {
		order += ", " + c.Order
	}
	if c.Node == "" {
		return order
	}
	return joined("; ", joined(", ", boardWords(board), "node "+c.Node), order)
}

func boardWords(board string) string {
	if board == "" {
		return ""
	}
	return "board " + board
}

func keyWords(key string) string {
	if key == "" {
		return ""
	}
	return "key " + key
}

// joined joins the parts that are not empty.
func joined(between string, parts ...string) string {
	return strings.Join(slices.DeleteFunc(parts, func(s string) bool { return s == "" }), between)
}
