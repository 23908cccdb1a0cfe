package sheet

import (
	"fmt"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
)

// scaleLength is what both lines of the print-scale check measure: 100 mm.
func scaleLength() page.Pt { return mm(100) }

// route prints the operations beside the print-scale check, whose corner lies below them.
func (c *cover) route() {
	pitch := routePitch(len(c.work))
	height := max(scaleLength(), mm(28)+pitch*page.Pt(len(c.work)))
	c.need(height + mm(6))
	top := c.y + mm(2)
	c.scale(live.X+mm(2), top+height-scaleLength())
	x := live.X + mm(9)
	columns := []ledgerColumn{{c.say("common.no"), mm(9)}, {c.say("route.operation"), mm(61)}, {c.say("cover.good"), mm(13)}, {c.say("route.reject"), mm(13)},
		{c.say("common.operator"), mm(24)}, {c.say("common.date"), mm(23)}, {c.say("common.inspector"), mm(28)}}
	bottom := c.ledger(x, top, columns, len(c.work), pitch)
	y := bottom - page.Pt(len(c.work))*pitch
	for _, o := range c.work {
		c.operation(x, y, o)
		y += pitch
	}
	c.diamond(x+mm(2), bottom+mm10(37))
	c.text(x+mm(6), bottom+mm(5), medium(9), live.X+live.W-x-mm(6), c.say("route.hold_rule"))
	c.y = top + height + mm(3)
}

// routePitch is the height of an operation, with room to sign; of a long route it is less, so that the approvals stay below it.
func routePitch(operations int) page.Pt {
	switch {
	case operations <= 6:
		return mm10(125)
	case operations <= 8:
		return mm10(105)
	}
	return mm10(95)
}

func (c *cover) operation(x, y page.Pt, o plan.Operation) {
	base := y + mm10(45)
	c.text(x, base, mono(10), mm(9), fmt.Sprint(o.Number))
	c.text(x+mm10(105), base, bold(11), mm(58), o.Name)
	if o.Hold != "" {
		c.diamond(x+mm10(125), base+mm10(30))
		c.text(x+mm10(165), base+mm10(40), medium(10), mm(53), c.say("route.hold", "what", o.Hold))
	}
}

// scale draws two lines of 100 mm that meet in a corner: paper is stretched differently across and down.
func (c *cover) scale(x, y page.Pt) {
	end, low := x+scaleLength(), y+scaleLength()
	c.items = append(c.items, page.Rule{X1: x, Y1: y, X2: x, Y2: low, Weight: groupRule},
		page.Rule{X1: x, Y1: low, X2: end, Y2: low, Weight: groupRule})
	for i := range 11 {
		tick := mm10(12)
		if i%10 == 0 {
			tick = mm(2)
		}
		step := scaleLength() * page.Pt(i) / 10
		c.items = append(c.items, page.Rule{X1: x - tick, Y1: y + step, X2: x + tick, Y2: y + step, Weight: rowRule},
			page.Rule{X1: x + step, Y1: low - tick, X2: x + step, Y2: low + tick, Weight: rowRule})
	}
	c.text(x+mm(4), low-mm(4), medium(9), scaleLength(), c.say("route.scale"))
	c.scaleWords(end+mm(5), low-mm(9))
}

func (c *cover) scaleWords(x, y page.Pt) {
	room := live.X + live.W - x
	c.text(x, y-mm(1), bold(10), room, c.say("route.print_scale"))
	c.line(x, y+mm10(54), room, []span{{style: medium(9), text: c.say("route.measured"), blank: mm(17), after: "/"},
		{style: medium(9), blank: mm(17), after: "mm"}})
	c.text(x, y+mm10(104), regular(9), room, c.say("route.limit", "least", c.decimal("99.5"), "most", c.decimal("100.5")))
	c.text(x, y+mm10(143), regular(9), room, c.say("route.print_again"))
}
