package sheet

import (
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/units"
)

// Sizes of the cut list. A box is 5 mm with at least 2 mm clear; ids and lengths are read from half a metre.
func boxSide() page.Pt   { return mm(5) }
func codeWidth() page.Pt { return mm10(286) }

// Widths of ids and figures grow in steps, so that one longer id seldom moves the columns of every page.
const (
	leastID  = 5
	leastCut = 4
	stepID   = 2
)

// endColumns is where an end of a wire stands in a row.
type endColumns struct {
	tag    page.Pt // left edge of "A" or "B" where both ends share the columns; 0 for none
	strip  page.Pt // right edge
	legend page.Pt // left edge
	room   page.Pt
	line   page.Pt // base line below the top of the row
}

// cutColumns is where everything stands in a row of the cut list: the same on every page of a packet.
type cutColumns struct {
	boxes   []page.Pt // left edge of the box of each unit of a list
	pitch   page.Pt   // from box to box
	stacked bool      // END B stands under END A
	below   bool      // both ends stand below the wire id
	number  page.Pt   // right edge
	wire    page.Pt   // left edge
	cut     page.Pt   // right edge
	ends    [2]endColumns
	code    page.Pt // left edge
	height  page.Pt // of a row without further lines
	lower   page.Pt // how much lower than in a plain row the wire id stands
}

// measureColumns decides the columns by what the whole packet has to print.
func measureColumns(p plan.Plan, pen *pen) cutColumns {
	c := cutColumns{pitch: mm10(85), code: live.X + live.W - codeWidth()}
	x := live.X
	for range longestList(p.Packet.Lists) {
		c.boxes = append(c.boxes, x+(c.pitch-boxSide())/2)
		x += c.pitch
	}
	c.number = x + mm10(57)
	c.wire = c.number + mm10(17)
	pieces := piecesOf(p, pen.metrics)
	c.cut = c.wire + pen.width(monoBold(12), strings.Repeat("0", idCharacters(pieces))) +
		mm(2) + pen.width(monoBold(12), strings.Repeat("0", cutCharacters(pieces)))
	c.placeEnds(longestLegend(pieces, pen))
	return c
}

// piecesOf returns what the cut lists of a packet print.
func piecesOf(p plan.Plan, m composer) []cutPiece {
	goods := stockOf(&p, m)
	var pieces []cutPiece
	for _, g := range p.Groups {
		for _, id := range g.Wires {
			pieces = append(pieces, goods.piece(id))
		}
	}
	return pieces
}

// placeEnds sets both ends side by side, or stacked in one column, or below the wire id, by the widest legend.
func (c *cutColumns) placeEnds(legend page.Pt) {
	right := c.code - mm10(15)
	end := func(x, room, line page.Pt) endColumns {
		return endColumns{strip: x + stripWidth(), legend: x + stripWidth() + arrowWidth(), room: room, line: line}
	}
	overhead := stripWidth() + arrowWidth()
	free := right - c.cut - mm(2)
	if half := (free-mm(2))/2 - overhead; half >= legend {
		c.height = mm(9)
		c.ends[0] = end(c.cut+mm(2), half, mm(6))
		c.ends[1] = end(c.cut+mm(4)+half+overhead, half, mm(6))
		return
	}
	c.stacked = true
	x, first := c.cut+mm(2), mm10(45)
	c.height, c.lower = mm10(115), mm10(10)
	if free-mm(3)-overhead < legend {
		c.below = true
		x, first = c.wire, mm10(115)
		c.height, c.lower = mm(19), 0
	}
	for i := range c.ends {
		c.ends[i] = end(x+mm(3), right-x-mm(3)-overhead, first+page.Pt(i)*mm10(50))
		c.ends[i].tag = x
	}
}

func stripWidth() page.Pt { return mm10(77) }
func arrowWidth() page.Pt { return mm10(44) }

func longestList(lists [][]string) int {
	longest := 0
	for _, list := range lists {
		longest = max(longest, len(list))
	}
	return longest
}

func idCharacters(pieces []cutPiece) int {
	longest := leastID
	for _, piece := range pieces {
		for longest < len([]rune(piece.id)) {
			longest += stepID
		}
	}
	return longest
}

func cutCharacters(pieces []cutPiece) int {
	longest := leastCut
	for _, piece := range pieces {
		longest = max(longest, len(exactMM(piece.cutUM)))
	}
	return longest
}

func longestLegend(pieces []cutPiece, pen *pen) page.Pt {
	widest := page.Pt(0)
	for _, head := range []string{pen.say("cutlist.end_a"), pen.say("cutlist.end_b"), pen.say("cutlist.leaves_first")} { // what stands above the legends
		widest = max(widest, pen.width(bold(9), head))
	}
	for _, piece := range pieces {
		for _, end := range piece.ends {
			widest = max(widest, pen.legendWidth(end.legend))
		}
	}
	return widest
}

// exactMM returns micrometres as millimetres without the unit: "1432", "4.5".
func exactMM(um int64) string {
	return strings.TrimSuffix(units.Length(um).String(), " mm")
}
