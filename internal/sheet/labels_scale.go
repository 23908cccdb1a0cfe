package sheet

import (
	"loomleaf/internal/page"
	"loomleaf/internal/plan"
)

// Where the line for measuring stands: as far from the labels as print on them from their die cut, and no nearer to the edge of the paper
// than printers print for sure; common practice.
const (
	scaleInUM    int64   = 3000 // from the left of the labels
	scaleBelowUM int64   = 6500 // below the last labels: ticks and words are at most 3.5 mm tall
	scaleFoot    page.Pt = 284  // 1 mm: from the line to the lowest of its words
	scaleEdge    page.Pt = 1417 // 5 mm: from the edge of the paper
)

// labelScale returns a line of 100 mm, corrected as the labels are, by which the print of a sheet is measured. There is none on a roll, and
// none where the margin below the labels is too low for it or its words.
func labelScale(s plan.Stock, printer plan.LabelPrint, m composer) []page.Item {
	if s.Paper == "roll" {
		return nil
	}
	width, height := stockPaper(s)
	left, low := s.LeftUM+scaleInUM, farYUM(s)+scaleBelowUM
	at := func(x int64) page.Pt { // where to draw what is to land there
		return page.MM(int(x - offUM(printer.OffsetXUM, printer.DriftXUM, x-s.LeftUM, farXUM(s)-s.LeftUM)))
	}
	from, to := at(left), at(left+100_000)
	y := page.MM(int(low - offUM(printer.OffsetYUM, printer.DriftYUM, low-s.TopUM, farYUM(s)-s.TopUM)))
	words, x := m.Say("labels.scale", "least", m.Decimal("99.5"), "most", m.Decimal("100.5")), to+mm(3)
	room := min(width-scaleEdge, page.MM(int(farXUM(s)))-labelInset) - x
	if y+scaleFoot > height-scaleEdge || m.Width(page.Regular, 9*page.Point, words) > room {
		return nil
	}
	items := []page.Item{page.Rule{X1: from, Y1: y, X2: to, Y2: y, Weight: groupRule},
		page.Text{X: x, Y: y, Face: page.Regular, Size: 9 * page.Point, Room: room, String: words}}
	for i := range page.Pt(11) {
		tick := from + (to-from)*i/10
		items = append(items, page.Rule{X1: tick, Y1: y - mm10(15), X2: tick, Y2: y, Weight: rowRule})
	}
	return items
}
