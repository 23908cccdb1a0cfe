package sheet

import (
	"fmt"
	"slices"

	"loomleaf/internal/page"
)

// operation is a line of the route card.
type operation struct {
	name string
	hold string // what the inspector looks at before the work goes on; "" for no hold point
}

// operations lists the work in order. The hold points are common practice; the drawing and the contract have the last word.
func (c *cover) operations() []operation {
	mark := "mark, measure and cut"
	if !slices.ContainsFunc(c.packet.Method, func(method string) bool { return method != "none" && method != "sleeve" }) {
		mark = "measure and cut"
	}
	return []operation{
		{name: "issue material"},
		{name: mark, hold: "first piece: length, mark"},
		{name: "strip and crimp", hold: "crimp samples: pull test"},
		{name: "form board: lay in, insert", hold: "cavities, before closing"},
		{name: "continuity test"},
		{name: "final inspection", hold: "before release"},
	}
}

// scaleLength is what both lines of the print-scale check measure: 100 mm.
func scaleLength() page.Pt { return mm(100) }

// route prints the operations beside the print-scale check.
func (c *cover) route() {
	c.need(scaleLength() + mm(6))
	top := c.y + mm(2)
	c.scale(live.X+mm(2), top)
	x := live.X + mm(9)
	columns := []ledgerColumn{{"no.", mm(9)}, {"operation, hold point", mm(61)}, {"good", mm(13)}, {"reject", mm(13)},
		{"operator", mm(24)}, {"date", mm(23)}, {"inspector", mm(28)}}
	pitch := mm10(125)
	bottom := c.ledger(x, top, columns, len(c.operations()), pitch)
	y := bottom - page.Pt(len(c.operations()))*pitch
	for i, o := range c.operations() {
		c.operation(x, y, (i+1)*10, o)
		y += pitch
	}
	c.diamond(x+mm(2), bottom+mm10(37))
	c.text(x+mm(6), bottom+mm(5), medium(9), live.X+live.W-x-mm(6), "hold point: go on only when the inspector has signed. The drawing and the contract come first.")
	c.y = top + scaleLength() + mm(3)
}

func (c *cover) operation(x, y page.Pt, number int, o operation) {
	c.text(x, y+mm(6), mono(10), mm(9), fmt.Sprint(number))
	c.text(x+mm10(105), y+mm(6), bold(11), mm(58), o.name)
	if o.hold != "" {
		c.diamond(x+mm10(125), y+mm10(93))
		c.text(x+mm10(165), y+mm(10), medium(10), mm(53), "HOLD  "+o.hold)
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
	c.text(x+mm(4), low-mm(4), medium(9), scaleLength(), "100 mm across and 100 mm down, from tick to tick")
	c.scaleWords(end+mm(5), low-mm(9))
}

func (c *cover) scaleWords(x, y page.Pt) {
	room := live.X + live.W - x
	c.text(x, y-mm(1), bold(10), room, "PRINT SCALE")
	c.line(x, y+mm10(54), room, []span{{style: medium(9), text: "measured", blank: mm(17), after: "/"},
		{style: medium(9), blank: mm(17), after: "mm"}})
	c.text(x, y+mm10(104), regular(9), room, "limit 99.5 to 100.5; outside:")
	c.text(x, y+mm10(143), regular(9), room, "print again at 100 %, do not use")
}
