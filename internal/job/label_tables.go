package job

import (
	"slices"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

const (
	mostLabels = 100                   // columns or rows of a sheet
	mostFit    = 10 * units.Millimetre // a printer farther off than that feeds the wrong paper
)

// stocks reads the label stocks that come with the program, behind the shop's own: one of the same id gives way.
func (r *reader) stocks(h *harness.Harness, labels *value) {
	own := len(h.Stocks)
	r.each(labels, tableReader{name: "label_stock", repeats: true}, func(t *table) { readLabelStock(h, t) })
	names := idsOf(h.Stocks[:own], func(s *harness.LabelStock) string { return s.ID })
	kept := slices.Clone(h.Stocks[:own])
	for _, s := range h.Stocks[own:] {
		if !contains(names, s.ID) {
			kept = append(kept, s)
		}
	}
	h.Stocks = kept
}

// readLabelStock reads one stock: a sheet by its columns and rows, or a roll by its gap.
func readLabelStock(h *harness.Harness, t *table) {
	s := harness.LabelStock{ID: t.named("id"), Paper: t.word("paper", "a4", "letter", "roll")}
	t.require("id", "paper", "width", "height")
	s.Width, s.Height = t.length("width", positive), t.length("height", positive)
	s.Columns, _ = t.whole("columns", 1, mostLabels)
	s.Rows, _ = t.whole("rows", 1, mostLabels)
	s.Left, s.Top, s.Gap = t.length("left", notNegative), t.length("top", notNegative), t.length("gap", notNegative)
	if pitch := t.lengths("pitch", 2, positive); pitch != nil {
		s.PitchX, s.PitchY = pitch[0], pitch[1]
	}
	sheet, roll := []string{"columns", "rows", "left", "top", "pitch"}, []string{"gap"}
	switch s.Paper {
	case "roll":
		t.require(roll...)
		t.idle(sheet, "a roll has one label a page; take the key out")
		s.Columns, s.Rows, s.PitchX, s.PitchY = 1, 1, s.Width, s.Height
	case "a4", "letter":
		t.require(sheet...)
		t.idle(roll, "the gap of a sheet is in its pitch; take the key out")
	}
	s.Origin = t.done()
	h.Stocks = append(h.Stocks, s)
}

// idle reports keys that say nothing where they stand.
func (t *table) idle(keys []string, hint string) {
	for _, key := range keys {
		if e := t.get(key); e != nil {
			t.fault(idleKey, key, e.place(), hint, "the key means nothing for this stock")
		}
	}
}

func readLabelPrinter(h *harness.Harness, t *table) {
	t.require("offset", "drift")
	p := &h.Printer
	p.OffsetX, p.OffsetY = t.fit("offset")
	p.DriftX, p.DriftY = t.fit("drift")
	p.Origin = t.done()
}

// fit returns how far print stands off to the right and down.
func (t *table) fit(key string) (right, down units.Length) {
	both := t.lengths(key, 2, anySign)
	if len(both) != 2 {
		return 0, 0
	}
	for _, one := range both {
		if one > mostFit || one < -mostFit {
			t.fault(outOfRange, key, t.get(key).place(), "write what the fit sheet shows, from -10 mm to 10 mm", "%s is more than a printer is off", one)
			return 0, 0
		}
	}
	return both[0], both[1]
}
