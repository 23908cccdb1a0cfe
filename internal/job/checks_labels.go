package job

import (
	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

// checkStockFits finds a label stock whose labels lie over each other or off their paper.
func checkStockFits(h *harness.Harness) problem.List {
	var found problem.List
	for _, s := range h.Stocks {
		if s.At.Line == 0 || s.Paper == "roll" || s.Columns == 0 || s.Rows == 0 {
			continue
		}
		wide, tall := 210*units.Millimetre, 297*units.Millimetre
		if s.Paper == "letter" {
			wide, tall = 8*units.Inch+units.Inch/2, 11*units.Inch
		}
		across := s.Left + units.Length(s.Columns-1)*s.PitchX + s.Width
		down := s.Top + units.Length(s.Rows-1)*s.PitchY + s.Height
		switch {
		case s.PitchX < s.Width && s.Columns > 1, s.PitchY < s.Height && s.Rows > 1:
			found = append(found, about(fault(stockOverlaps, s.Of("pitch"), "the labels of stock %s lie over each other", quoted(s.ID)), s.ID,
				"the pitch is the distance from one label to the next: width and height and the gap between them"))
		case across > wide || down > tall:
			found = append(found, about(fault(stockOverlaps, s.Of("pitch"), "stock %s takes %s by %s, its paper is %s by %s", quoted(s.ID), across, down, wide, tall), s.ID,
				"check left, top, pitch and the number of columns and rows"))
		}
	}
	return found
}

// checkLabels finds a label stock that is not known.
func checkLabels(h *harness.Harness) problem.List {
	ids := idsOf(h.Stocks, func(s *harness.LabelStock) string { return s.ID })
	if h.Paper.Labels == "" || contains(ids, h.Paper.Labels) {
		return nil
	}
	return problem.List{about(fault(unknownLabels, h.Paper.Of("labels"), "label stock %s is not known", quoted(h.Paper.Labels)),
		h.Paper.Labels, "write "+alternatives(ids))}
}
