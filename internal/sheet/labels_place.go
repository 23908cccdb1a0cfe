package sheet

import (
	"slices"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
)

// labelPlace is where a label stands: sheet from 0, label on it from 0, counted along the rows.
type labelPlace struct{ sheet, label int }

// labelPlaces returns the places of so many labels. The first sheet begins at a given label and leaves out those that are gone.
func labelPlaces(s plan.Stock, printer plan.LabelPrint, count int) []labelPlace {
	each := max(s.Columns*s.Rows, 1)
	var places []labelPlace
	for at := 0; len(places) < count; at++ {
		if at < each && (at+1 < printer.Start || slices.Contains(printer.Skip, at+1)) {
			continue
		}
		places = append(places, labelPlace{at / each, at % each})
	}
	if len(places) > 0 && places[0].sheet > 0 { // a sheet without a free label is not printed
		skipped := places[0].sheet
		for i := range places {
			places[i].sheet -= skipped
		}
	}
	return places
}

// stockPaper returns the size of the sheet, or of one label of a roll.
func stockPaper(s plan.Stock) (width, height page.Pt) {
	switch s.Paper {
	case "roll":
		return page.MM(int(s.WidthUM)), page.MM(int(s.HeightUM))
	case "letter":
		return page.Letter()
	default:
		return page.A4()
	}
}

// labelRect returns where label i, counted along the rows, must be drawn so that it lands on its die cut.
func labelRect(s plan.Stock, printer plan.LabelPrint, i int) page.Rect {
	column, row := int64(i%s.Columns), int64(i/s.Columns)
	x, y := s.LeftUM+column*s.PitchXUM, s.TopUM+row*s.PitchYUM
	return page.Rect{X: page.MM(int(x - offUM(printer.OffsetXUM, printer.DriftXUM, x-s.LeftUM, farXUM(s)-s.LeftUM))), Y: page.MM(int(y - offUM(printer.OffsetYUM, printer.DriftYUM, y-s.TopUM, farYUM(s)-s.TopUM))),
		W: page.MM(int(s.WidthUM)), H: page.MM(int(s.HeightUM))}
}

// stockArea returns what the labels of a sheet may be printed on.
func stockArea(s plan.Stock, printer plan.LabelPrint) page.Rect {
	first, last := labelRect(s, printer, 0), labelRect(s, printer, s.Columns*s.Rows-1)
	return inset(page.Rect{X: first.X, Y: first.Y, W: last.X + last.W - first.X, H: last.Y + last.H - first.Y}, labelInset)
}

func inset(r page.Rect, by page.Pt) page.Rect {
	return page.Rect{X: r.X + by, Y: r.Y + by, W: r.W - 2*by, H: r.H - 2*by}
}

// farXUM and farYUM are where the last label ends.
func farXUM(s plan.Stock) int64 { return s.LeftUM + int64(s.Columns-1)*s.PitchXUM + s.WidthUM }
func farYUM(s plan.Stock) int64 { return s.TopUM + int64(s.Rows-1)*s.PitchYUM + s.HeightUM }

// offUM returns how much nearer a point must be drawn so that it lands at a distance from the near mark: the printer adds the
// offset, and the drift by the share of the way.
func offUM(offset, drift, distance, whole int64) int64 {
	return distance - (distance-offset)*whole/max(whole+drift, 1)
}
