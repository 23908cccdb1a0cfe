package sheet

import (
	"loomleaf/internal/page"
)

// head opens every page: whose wires these are, what is on the line, and what the columns hold.
func (c *cutList) head() {
	g, top := c.group, c.y
	c.at = g.Place
	id := monoBold(36)
	if c.width(id, g.Connector) > live.W/2 {
		id = monoBold(24)
	}
	c.text(live.X, top+mm10(105), id, live.W*2/3, g.Connector)
	x := live.X + c.width(id, g.Connector) + mm(6)
	c.text(x, top+mm10(45), medium(14), live.X+live.W-x, g.Title)
	c.text(x, top+mm10(105), regular(11), live.X+live.W-x, c.subject())
	y := c.flow(live.X, top+mm10(180), live.W, mm(6), c.stillOn()...) - mm(1)
	y = c.columnHeads(y) + mm(2)
	c.across(live.X, live.X+live.W, y, groupRule*3/2)
	c.y = y + mm(1)
	c.top = c.y
}

func (c *cutList) subject() string {
	return c.say("cutlist.per_unit", "pieces", c.stock.piecesWords(c.group.Wires))
}

// columnHeads prints the heads from base line y on, and returns the lowest base line.
func (c *cutList) columnHeads(y page.Pt) page.Pt {
	col, s := c.columns, bold(9)
	tray := c.say("cutlist.tray_of_unit", "tray", c.group.Connector)
	home := max(col.ends[0].legend, live.X+c.width(s, tray)+mm(4)) // over the legends, unless the words before reach there
	c.text(live.X, y, s, home-mm(4)-live.X, tray)
	c.arrow(home-mm10(12), y-mm10(12))
	c.text(home, y, regular(9), col.code-col.ends[0].legend, c.say("cutlist.home_end", "connector", c.group.Connector))
	lines := c.serialLines()
	middle := y + lines*headPitch()
	low := middle + headPitch()
	bottom := low
	if col.below {
		bottom = low + 2*headPitch()
	}
	c.serials(y+headPitch(), bottom)
	c.right(col.number, low, s, mm(6), c.say("common.no"))
	c.text(col.wire, low, s, mm(18), c.say("common.wire"))
	c.right(col.cut, middle, s, mm(20), c.say("cutlist.cut"))
	c.right(col.cut, low, s, mm(20), "-0 / +"+c.exact(c.plan.Line.StepUM))
	if !c.draft {
		c.text(col.code+mm(1), low, s, codeWidth(), c.say("common.scan"))
	}
	c.endHeads(bottom-headPitch(), bottom)
	return bottom
}

func headPitch() page.Pt { return mm(4) }

func (c *cutList) endHeads(middle, low page.Pt) {
	col, s := c.columns, bold(9)
	first := [2]string{c.say("cutlist.leaves_first"), ""}
	if c.plan.Packet.Leading == "b" {
		first[0], first[1] = "", first[0]
	}
	names := [2]string{c.say("cutlist.end_a"), c.say("cutlist.end_b")}
	if col.stacked {
		c.right(col.ends[0].strip, middle, s, mm(15), c.say("cutlist.strip"))
		c.right(col.ends[0].strip, low, s, mm(15), "mm")
		c.text(col.ends[0].legend, middle, s, col.ends[0].room, joined(", ", names[0], first[0]))
		c.text(col.ends[1].legend, low, s, col.ends[1].room, joined(", ", names[1], first[1]))
		return
	}
	for i, name := range names {
		c.right(col.ends[i].strip, middle, s, stripWidth(), c.say("cutlist.strip"))
		c.right(col.ends[i].strip, low, s, stripWidth(), "mm")
		c.text(col.ends[i].legend, middle, s, col.ends[i].room, name)
		c.text(col.ends[i].legend, low, s, col.ends[i].room, first[i])
	}
}

// serialLines returns how many lines the serials take above the lowest head: serials wider than a column stand one
// below the other, each led down to its column.
func (c *cutList) serialLines() page.Pt {
	for _, unit := range c.units {
		if c.width(monoBold(9), unit) > c.columns.pitch-mm10(5) {
			return page.Pt(len(c.units)) + 1
		}
	}
	return 1
}

// serials heads the box column of each unit.
func (c *cutList) serials(y, low page.Pt) {
	s, stacked := monoBold(9), c.serialLines() > 1
	for i, unit := range c.units {
		x := c.columns.boxes[i]
		if !stacked {
			c.centre(x+boxSide()/2, low, s, c.columns.pitch, unit)
			continue
		}
		c.text(x, y, s, live.X+live.W-x, unit)
		c.items = append(c.items, page.Rule{X1: x + mm(1), Y1: y + mm(1), X2: x + mm(1), Y2: low + mm(1), Weight: rowRule})
		y += headPitch()
	}
}
