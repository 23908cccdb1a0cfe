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

// row prints a step and what follows it.
func (c *cutList) row(row cutRow) {
	if row.step.Kind == plan.StepWire {
		c.at = row.wire.Place
		c.wireRow(row)
		c.at = c.group.Place
	} else {
		c.load(row)
	}
	c.y += row.height
}

func (c *cutList) wireRow(row cutRow) {
	col, w := c.columns, row.wire
	base := c.y + col.lower + mm10(60)
	for i, unit := range c.units {
		if len(row.step.Units) == 0 || slices.Contains(row.step.Units, unit) {
			c.tick(col.boxes[i], c.y+col.lower+mm(2), boxSide())
		}
	}
	c.right(col.number, base, mono(9), mm(7), strconv.Itoa(row.number))
	c.text(col.wire, base, monoBold(12), col.cut-col.wire, w.ID)
	c.right(col.cut, base, monoBold(12), mm(25), exactMM(w.CutUM))
	c.end(col.ends[0], "A", w, w.A)
	c.end(col.ends[1], "B", w, w.B)
	c.code(row.left, w.Code)
	c.further(row)
	c.below(row)
}

// end prints how an end is stripped and what is marked near it.
func (c *cutList) end(col endColumns, tag string, w plan.Wire, end plan.End) {
	y := c.y + col.line
	if col.tag > 0 {
		c.text(col.tag, y, bold(10), mm(3), tag)
	}
	strip := exactMM(end.StripUM)
	if end.Stage == "board" {
		strip = "–"
	}
	c.right(col.strip, y, mono(10), stripWidth(), strip)
	if end.At == w.Home || strings.HasPrefix(end.At, w.Home+":") {
		c.arrow(col.legend-mm10(12), y-mm10(12))
	}
	c.endLegend(col.legend, y, col.room, end)
}

// endLegend prints the text near an end exactly as it stands on the wire, or says in words that there is none.
func (c *cutList) endLegend(x, y, room page.Pt, end plan.End) {
	if end.Legend == "" {
		c.text(x, y, regular(10), room, noMark)
		return
	}
	c.text(x, y, mono(10), room, end.Legend)
}

// noMark stands where an end carries no legend.
const noMark = "no mark"

func (p *pen) legendWidth(end plan.End) page.Pt {
	if end.Legend == "" {
		return p.width(regular(10), noMark)
	}
	return p.width(mono(10), end.Legend)
}

// code prints the symbol at the left and the right of its column in turn, so that a scanner never sees two at once, with
// the key in beside it.
func (c *cutList) code(onLeft bool, code plan.Code) {
	left, quiet := c.columns.code, 2*matrixModule
	y, base := c.y+c.columns.lower+mm10(11), c.y+c.columns.lower+mm10(57)
	room := codeWidth() - matrixSide - 2*quiet
	if onLeft {
		c.matrix(left+quiet, y, code)
		c.right(left+codeWidth(), base, mono(9), room, code.KeyIn())
		return
	}
	c.matrix(left+codeWidth()-quiet-matrixSide, y, code)
	c.text(left, base, mono(9), room, code.KeyIn())
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
		c.refuse("too-long", fmt.Sprintf("the notes of wire %s take %d lines of the cut list; a row holds %d",
			row.wire.ID, len(lines), mostLines), "shorten the notes of the wire and its ends")
	}
	return lines
}

func (c *cutList) furtherSpans(row cutRow) []span {
	w, s := row.wire, regular(9)
	var spans []span
	if units := row.step.Units; len(units) > 0 && len(units) < len(c.units) {
		spans = append(spans, span{style: bold(9), text: "this row: unit " + strings.Join(units, ", ") + " only"})
	}
	spans = append(spans, span{style: medium(9), text: boardEnds(w)}, span{style: s, text: middleWords(w)})
	if w.Method == "sleeve" {
		spans = append(spans, span{style: medium(9), text: "on sleeves: no mark by the line"})
	}
	if w.Turned {
		spans = append(spans, span{style: s, text: "the text reads from END B to END A"})
	}
	spans = append(spans, span{style: s, text: labelled("END A:", w.A.Note)}, span{style: s, text: labelled("END B:", w.B.Note)},
		span{style: s, text: labelled("note:", w.Note)})
	return c.present(spans)
}

// boardEnds says which ends are stripped at the board only.
func boardEnds(w plan.Wire) string {
	a, b := w.A.Stage == "board", w.B.Stage == "board"
	switch {
	case a && b:
		return "both ends at the board: do not strip"
	case a:
		return "END A at the board: do not strip"
	case b:
		return "END B at the board: do not strip"
	}
	return ""
}

// middleWords gives the legend between the ends where it is not the bare wire id.
func middleWords(w plan.Wire) string {
	for _, mark := range w.Marks {
		switch {
		case mark.End != "":
		case w.A.Legend == "" && w.B.Legend == "":
			return "mark in the middle only: " + mark.Text
		case mark.Text != w.ID:
			return "marks between the ends: " + mark.Text
		}
	}
	return ""
}

// below prints the rule under a row, and a count after every ten.
func (c *cutList) below(row cutRow) {
	y := c.y + c.columns.height + page.Pt(len(row.extra))*extraPitch()
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
	c.text(c.columns.wire, base, medium(10), live.W/2, fmt.Sprintf("of 10 counted, each unit, rows %d to %d", row.number-9, row.number))
}
