package sheet

import (
	"slices"

	"loomleaf/internal/page"
)

// symbolQuiet is two modules: what stands clear around the symbol of a row (ISO/IEC 16022 asks for one; from memory).
const symbolQuiet = 2 * matrixModule

// keyClear stands between the symbol and the number to key in.
const keyClear = 3 * matrixModule

const columnHeadHeight page.Pt = 2494 // 8.8 mm

// pinColumns holds where the columns of a checklist start. Widths follow the longest id of the connector.
type pinColumns struct {
	wire, words, tray, other, code, inserted, pulled, checked, slip page.Pt

	key   page.Pt // width of the widest number to key in
	mixed bool    // contacts of more than one kind: every row names its own
	deep  bool    // long ids: gauge, colour and tray stand on a second line, under wire and other end
}

func (c pinColumns) wireRoom() page.Pt {
	if c.deep {
		return c.other - c.wire - mm(2)
	}
	return c.words - c.wire - mm(2)
}

func (c pinColumns) wordsRoom() page.Pt { return c.tray - c.words - mm(2) }

func (c pinColumns) trayRoom() page.Pt {
	if c.deep {
		return c.code - c.tray - mm10(15)
	}
	return c.other - c.tray - mm10(15)
}

func (c pinColumns) otherRoom() page.Pt { return c.code - c.other - mm10(15) }

// natural holds the widths that the ids of a connector ask for.
// deep is the width of other end and tray under each other.
type natural struct{ cavity, wire, tray, other, deep, key page.Pt }

// deepTray names the tray where it stands under the other end and could be taken for one. What comes from no tray says so itself.
func (l *pinList) deepTray(tray string) string {
	if !slices.Contains(l.connector.Trays, tray) {
		return l.metrics.trayWords(tray)
	}
	return l.say("common.tray_of", "tray", tray)
}

func (l *pinList) natural() natural {
	s := bold(9)
	n := natural{cavity: max(mm(13), l.widestWord(s, l.say("common.cavity"))+mm(1)), wire: mm(17),
		tray: max(mm(9), l.widestWord(s, l.say("common.tray"))+mm10(15)), other: max(mm(17), l.widestWord(s, l.say("pins.other_end"))+mm10(15))}
	for _, c := range l.connector.Cavities {
		n.cavity = max(n.cavity, l.width(monoBold(14), c.Name)+mm(3))
		n.key = max(n.key, l.width(mono(9), keyIn(c.Codes[l.unit-1])))
		if len(c.Lines) == 0 {
			n.wire = max(n.wire, l.width(bold(13), l.unwiredWord(c.Fill))+mm(2))
		}
		for _, line := range c.Lines {
			n.wire = max(n.wire, l.width(monoBold(13), line.Wire)+mm(3))
			n.tray = max(n.tray, l.width(mono(11), l.metrics.trayWords(line.Tray))+mm10(25))
			n.other = max(n.other, l.width(mono(12), l.metrics.placeWords(line.Other))+mm10(25))
			n.deep = max(n.deep, n.other, l.width(mono(11), l.deepTray(line.Tray))+mm10(25))
		}
	}
	return n
}

// leastWords is the width that "22 AWG white" takes on one line.
const leastWords page.Pt = 7937 // 28 mm

func (l *pinList) measureColumns() pinColumns {
	n := l.natural()
	c := pinColumns{key: n.key, mixed: l.mixedContacts()}
	c.slip = live.X + live.W - mm(15)
	if head := l.widestWord(bold(9), l.say("common.tag_no")) + mm10(15); head > mm(15) {
		c.slip = live.X + live.W - head
	}
	c.checked = c.slip - mm10(25) - gloveTick
	c.pulled = c.checked - mm10(45) - gloveTick
	c.inserted = c.pulled - mm10(30) - gloveTick
	c.code = c.inserted - mm10(20) - n.key - matrixSide - symbolQuiet - keyClear
	c.wire = live.X + n.cavity
	c.other = c.code - n.other
	c.tray = c.other - n.tray
	c.words = c.wire + n.wire
	if c.tray-c.words < leastWords {
		c.deep = true
		c.other = c.code - n.deep
		c.words, c.tray = c.wire, c.other
		if c.wireRoom() < n.wire-mm(3) { // a long id of a wire beside a long one of a tray: each line has its own column
			c.other = c.code - n.other
		}
	}
	return c
}

// columnHeads prints the heads of the columns and moves below them. The heads of neighbouring boxes stand on two levels.
func (l *pinList) columnHeads() {
	c, s := l.columns, bold(9)
	high, low := l.y+mm10(35), l.y+mm10(73)
	l.headWord(live.X, s, c.wire-live.X-mm(1), l.say("common.cavity"))
	words := l.say("common.gauge_colour")
	if c.mixed {
		words = l.say("pins.gauge_contact")
	}
	if c.deep {
		l.text(c.wire, high, s, c.wireRoom(), l.say("common.wire"))
		l.text(c.other, high, s, c.otherRoom(), l.say("pins.other_end"))
		l.text(c.words, low, s, c.wordsRoom(), words)
		l.text(c.tray, low, s, c.trayRoom(), l.say("pins.from_tray"))
	} else {
		l.headWord(c.wire, s, c.wireRoom(), l.say("common.wire"))
		l.headWord(c.other, s, c.otherRoom(), l.say("pins.other_end"))
		l.headWord(c.words, s, c.wordsRoom(), words)
		l.headWord(c.tray, s, c.trayRoom(), l.say("common.tray"))
	}
	if l.connector.Codes[l.unit-1].Kind != 0 {
		l.headWord(c.code+symbolQuiet, s, c.inserted-c.code, l.say("pins.symbol"))
	}
	l.centre(c.inserted+gloveTick/2, high, s, mm(20), l.say("pins.inserted"))
	l.centre(c.pulled+gloveTick/2, low, s, mm(20), l.say("pins.pulled"))
	l.centre(c.checked+gloveTick/2, high, s, mm(20), l.say("pins.checked"))
	slip := c.slip
	if live.X+live.W-slip > mm(15) {
		slip += mm10(15)
	}
	l.headWord(slip, s, live.X+live.W-slip, l.say("common.tag_no"))
	l.y += columnHeadHeight
	l.across(live.X, live.X+live.W, l.y, groupRule)
}

// headWord prints the head of a column, in two lines where one does not hold it.
func (l *pinList) headWord(x page.Pt, s style, room page.Pt, head string) {
	lines := l.wrap(s, room, head)
	l.paragraph(x, l.y+mm10(73)-page.Pt(len(lines)-1)*mm10(38), s, room, mm10(38), head)
}
