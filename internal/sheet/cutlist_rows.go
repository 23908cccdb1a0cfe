package sheet

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
)

// mostLines is the number of further lines that a row may take.
const mostLines = 6

func extraPitch() page.Pt  { return mm10(42) }
func fiveGap() page.Pt     { return mm(2) }
func countHeight() page.Pt { return mm(9) }

// coreAir stands between the cores of a cable.
func coreAir() page.Pt { return mm10(6) }

// row prints a step and what follows it.
func (c *cutList) row(row cutRow) {
	switch {
	case row.core:
		c.at = row.piece.place
		c.mark("", c.printed, c.y, page.Pt(len(row.extra))*extraPitch()+coreAir(), 0)
		c.coreRow(row)
	case cuts(row.step):
		c.at = row.piece.place
		c.printed++
		c.mark("", c.printed, c.y, c.columns.height+page.Pt(len(row.extra))*extraPitch(), c.ticksOf(row.step))
		c.pieceRow(row)
	default:
		c.load(row)
	}
	c.at = c.group.Place
	c.y += row.height
}

// ticksOf counts the units of a list for which a step cuts.
func (c *cutList) ticksOf(step plan.Step) int {
	if len(step.Units) == 0 {
		return len(c.units)
	}
	return len(slices.DeleteFunc(slices.Clone(c.units), func(unit string) bool { return !slices.Contains(step.Units, unit) }))
}

func (c *cutList) pieceRow(row cutRow) {
	col, piece := c.columns, row.piece
	base := c.y + col.lower + mm10(60)
	for i, unit := range c.units {
		if len(row.step.Units) == 0 || slices.Contains(row.step.Units, unit) {
			c.tick(col.boxes[i], c.y+col.lower+mm(2), boxSide())
		}
	}
	c.right(col.number, base, mono(9), mm(7), strconv.Itoa(row.number))
	c.text(col.wire, base, monoBold(12), col.cut-col.wire, piece.id)
	c.right(col.cut, base, monoBold(12), mm(25), c.exact(piece.cutUM))
	c.end(col.ends[0], "A", piece.ends[0])
	c.end(col.ends[1], "B", piece.ends[1])
	c.code(row.left, piece.code)
	c.further(row)
	if !row.open {
		c.below(row, c.columns.height+page.Pt(len(row.extra))*extraPitch())
	}
}

// end prints how an end is stripped and what is marked near it.
func (c *cutList) end(col endColumns, tag string, end cutEnd) {
	y := c.y + col.line
	if col.tag > 0 {
		c.text(col.tag, y, bold(10), mm(3), tag)
	}
	c.right(col.strip, y, mono(10), stripWidth(), end.strip)
	if end.home {
		c.arrow(col.legend-mm10(12), y-mm10(12))
	}
	c.endLegend(col.legend, y, col.room, end.legend)
}

// endLegend prints the text near an end exactly as it stands on the wire, or says in words that there is none.
func (c *cutList) endLegend(x, y, room page.Pt, legend string) {
	if legend == "" {
		c.text(x, y, regular(10), room, c.say("cutlist.no_mark"))
		return
	}
	c.text(x, y, mono(10), room, legend)
}

func (p *pen) legendWidth(legend string) page.Pt {
	if legend == "" {
		return p.width(regular(10), p.say("cutlist.no_mark"))
	}
	return p.width(mono(10), legend)
}

// coreIndent is how far the cores of a cable stand in from its id, beside the line that ties them to it; coreHang is how much
// further the second line of a core stands in.
func coreIndent() page.Pt { return mm(5) }
func coreHang() page.Pt   { return mm(8) }

// coreLines breaks what is said of a core into lines.
func (c *cutList) coreLines(w plan.Wire) [][]span {
	lines := c.lines(c.extraRoom()-coreIndent()-coreHang()-c.coreKeyRoom(w), c.coreSpans(w))
	if len(lines) > mostLines {
		c.refuse("too-long", fmt.Sprintf("wire %q takes %d lines of the cut list; a core holds %d", w.ID, len(lines), mostLines),
			"shorten the notes of the wire and its ends")
	}
	return lines
}

// coreKeyRoom is what the key in of a core takes at the right edge. A symbol is too tall for its line: the row of the cavity
// has one.
func (c *cutList) coreKeyRoom(w plan.Wire) page.Pt {
	if w.Code.Kind == 0 {
		return 0
	}
	return c.width(mono(9), keyIn(w.Code)) + mm(3)
}

// coreRow prints a core under its cable.
func (c *cutList) coreRow(row cutRow) {
	tie, x, y := c.columns.wire+mm(2), c.columns.wire+coreIndent(), c.y+mm10(30)
	c.right(live.X+live.W, y, mono(9), codeWidth(), keyIn(row.key))
	for _, line := range row.extra {
		c.line(x, y, live.X+live.W-x, line)
		x, y = c.columns.wire+coreIndent()+coreHang(), y+extraPitch()
	}
	height := page.Pt(len(row.extra))*extraPitch() + coreAir()
	end := c.y + height
	if !row.open {
		c.below(row, height)
		end -= coreAir()
	}
	c.items = append(c.items, page.Rule{X1: tie, Y1: c.y, X2: tie, Y2: end, Weight: groupRule})
}

// code prints the symbol at the left and the right of its column in turn, so that a scanner never sees two at once, with
// the key in beside it.
func (c *cutList) code(onLeft bool, code plan.Code) {
	left, quiet := c.columns.code, 2*matrixModule
	y, base := c.y+c.columns.lower+mm10(11), c.y+c.columns.lower+mm10(57)
	room := codeWidth() - matrixSide - 2*quiet
	if onLeft {
		c.matrix(left+quiet, y, code)
		c.right(left+codeWidth(), base, mono(9), room, keyIn(code))
		return
	}
	c.matrix(left+codeWidth()-quiet-matrixSide, y, code)
	c.text(left, base, mono(9), room, keyIn(code))
}

// further prints the lines below the first.
func (c *cutList) further(row cutRow) {
	y := c.y + c.columns.height + mm10(28)
	for _, line := range row.extra {
		c.line(c.columns.wire, y, c.extraRoom(), line)
		y += extraPitch()
	}
}

func (c *cutList) extraRoom() page.Pt { return live.X + live.W - c.columns.wire }

// furtherLines breaks what else a row says into lines.
func (c *cutList) furtherLines(row cutRow) [][]span {
	lines := c.lines(c.extraRoom(), c.furtherSpans(row))
	if len(lines) > mostLines {
		c.refuse("too-long", fmt.Sprintf("the notes of %q take %d lines of the cut list; a row holds %d",
			row.piece.id, len(lines), mostLines), "shorten the notes of the wire and its ends")
	}
	return lines
}

func (c *cutList) furtherSpans(row cutRow) []span {
	var spans []span
	if units := row.step.Units; len(units) > 0 && len(units) < len(c.units) {
		spans = append(spans, span{style: bold(9), text: c.say("cutlist.units_only", "units", strings.Join(units, ", "))})
	}
	spans = append(spans, span{style: bold(9), text: c.metrics.substituteWords(row.step.Substitute)})
	return c.present(append(spans, row.piece.words...))
}

// boardEnds says which ends are stripped at the board only.
func (s stock) boardEnds(w plan.Wire) string {
	a, b := w.A.Stage == "board", w.B.Stage == "board"
	switch {
	case a && b:
		return s.Say("cutlist.both_board")
	case a:
		return s.Say("cutlist.a_board")
	case b:
		return s.Say("cutlist.b_board")
	}
	return ""
}

// middleWords gives the legend between the ends where it is not the bare id.
func (s stock) middleWords(id string, marks []plan.Mark, bare bool) string {
	for _, mark := range marks {
		switch {
		case mark.End != "":
		case bare:
			return s.Say("cutlist.middle_only", "text", mark.Text)
		case mark.Text != id:
			return s.Say("cutlist.between", "text", mark.Text)
		}
	}
	return ""
}

// below prints the rule under a row of a height, and a count after every ten.
func (c *cutList) below(row cutRow, height page.Pt) {
	y := c.y + height
	weight := rowRule
	if row.five {
		weight = groupRule * 3 / 2
	}
	c.across(live.X, live.X+live.W, y, weight)
	if !row.ten {
		return
	}
	base := y + mm10(65)
	for i := range c.units {
		c.blank(c.columns.boxes[i]-mm(1), base, mm(7))
	}
	c.text(c.columns.wire, base, medium(10), live.W/2, c.say("cutlist.ten", "from", row.number-9, "to", row.number))
}
