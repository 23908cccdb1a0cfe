package sheet

import (
	"fmt"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/units"
)

// metres returns micrometres in metres with one decimal, rounded up: never less than the job takes.
func metres(um int64) string { return units.Length(um).Metres() }

// metresDown returns micrometres in metres with one decimal, rounded down: never more than is left.
func metresDown(um int64) string {
	return units.Length(um - um%100_000).Metres()
}

// wireColumn is a column of the table of wire.
type wireColumn struct {
	title string
	edge  page.Pt // right edge for figures, left edge for words, from the left of the live area
	right bool
}

func (c *contents) wireColumns() []wireColumn {
	return []wireColumn{{c.say("contents.type"), 0, false}, {c.say("contents.colour"), mm(28), false}, {c.say("contents.gauge"), mm(74), false}, {c.say("contents.pieces"), mm(124), true},
		{c.say("contents.metres"), mm(142), true}, {c.say("contents.longest"), mm(162), true}, {c.say("contents.order"), mm(180), true}}
}

// wireTable sums every wire type over all units.
func (c *contents) wireTable() {
	c.heading(c.say("contents.wire"), mm(24)+cellPitch()*page.Pt(c.wireHeadLines()-1))
	c.wireHeads()
	orders := map[string]int64{}
	for _, o := range c.plan.ToOrder {
		orders[o.Type] += o.UM
	}
	for _, t := range c.plan.Totals {
		c.wireTotal(t, orders[t.Type])
	}
}

// figureHead returns the lines of the head of a column of figures, clear of the column before it.
func (c *contents) figureHead(columns []wireColumn, i int) []string {
	return c.wrap(bold(9), columns[i].edge-columns[i-1].edge-mm10(15), columns[i].title)
}

// wireHeadLines is how many lines the heads of the table take.
func (c *contents) wireHeadLines() int {
	lines, columns := 1, c.wireColumns()
	for i, col := range columns {
		if col.right {
			lines = max(lines, len(c.figureHead(columns, i)))
		}
	}
	return lines
}

func (c *contents) wireHeads() {
	lines := c.wireHeadLines()
	c.y += mm(5) + cellPitch()*page.Pt(lines-1)
	columns := c.wireColumns()
	for i, col := range columns {
		if col.right {
			titles := c.figureHead(columns, i)
			for line, title := range titles {
				c.right(live.X+col.edge, c.y-cellPitch()*page.Pt(len(titles)-1-line), bold(9), mm(20), title)
			}
		} else {
			c.text(live.X+col.edge, c.y, bold(9), mm(40), col.title)
		}
	}
	c.y += mm10(15)
	c.across(live.X, live.X+live.W, c.y, rowRule)
}

func (c *contents) wireTotal(t plan.Total, order int64) {
	wireType := c.stock.types[t.Type]
	reels := c.wrap(regular(9), live.W-mm(28), c.reelWords(c.plan.Reels, t.Type))
	colour := c.wrap(medium(10), mm(45), wireType.ColourWords)
	lines := page.Pt(max(1, len(colour)) + len(reels))
	if c.left() < lines*listPitch()+mm(2) {
		c.turn()
		c.wireHeads()
	}
	base := c.y + mm10(45)
	columns := c.wireColumns()
	c.text(live.X, base, monoBold(10), mm(27), t.Type)
	next := c.paragraph(live.X+columns[1].edge, base, medium(10), mm(45), listPitch(), wireType.ColourWords)
	c.text(live.X+columns[2].edge, base, medium(10), mm(38), wireType.Gauge)
	ordered := "–"
	if order > 0 {
		ordered = c.decimal(metres(order))
	}
	for i, figure := range []string{fmt.Sprint(t.Pieces), c.decimal(metres(t.UM)), c.exact(t.LongestUM), ordered} {
		c.right(live.X+columns[3+i].edge, base, medium(10), mm(18), figure)
	}
	c.flowReels(max(next, base+listPitch()), reels)
	c.y += lines*listPitch() + mm10(17)
	c.across(live.X, live.X+live.W, c.y, rowRule)
}

func (c *contents) flowReels(y page.Pt, lines []string) {
	for _, line := range lines {
		c.text(live.X+mm(28), y, regular(9), live.W-mm(28), line)
		y += listPitch()
	}
}
