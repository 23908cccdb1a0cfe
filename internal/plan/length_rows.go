package plan

import (
	"slices"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

// LengthRow is the length of a wire, pigtail, cable or core as a row that a person can add up: the terms make the cut length exactly.
// Each running total is rounded to a tenth of a millimetre, so that a term which is no whole number of tenths may stand up to a
// tenth off its own value. All terms are 0 where the line cuts nothing.
type LengthRow struct {
	Kind       string        `json:"kind"` // "wire", "pigtail", "cable", "core"
	ID         string        `json:"id"`
	From       string        `json:"from"`
	To         string        `json:"to"`
	Status     string        `json:"status"`   // "given", "board" or "measure"
	Apart      string        `json:"apart"`    // why the line does not cut it: "existing", "bought", "with part", "measure"; "" where it does, and of a core
	BaseUM     int64         `json:"base_um"`  // route over the board, or the given length
	TailsUM    int64         `json:"tails_um"` // both
	EndAUM     int64         `json:"end_a_um"` // barrel, strip, re-termination, trim and extra
	EndBUM     int64         `json:"end_b_um"`
	LoopUM     int64         `json:"loop_um"`
	TwistUM    int64         `json:"twist_um"`
	LineUM     int64         `json:"line_um"`
	RoundingUM int64         `json:"rounding_um"`
	CutUM      int64         `json:"cut_um"`
	FinishedUM int64         `json:"finished_um"` // to a tenth of a millimetre; 0 where it is not known
	Tolerance  *Tolerance    `json:"tolerance,omitempty"`
	TrimUM     [2]int64      `json:"trim_um"` // of a core: cut off at ends a and b once the cable is cut
	Place      problem.Place `json:"-"`
}

// lengthRows returns the length of everything that has one, by id; cores follow their cable.
func lengthRows(wires []Wire, cables []Cable) []LengthRow {
	pigtails, rows := map[string]bool{}, make([]LengthRow, 0, len(wires)+len(cables))
	for i := range cables {
		pigtails[cables[i].A.Pigtail], pigtails[cables[i].B.Pigtail] = true, true
		rows = append(rows, cableLengthRow(&cables[i]))
	}
	for i := range wires {
		if w := &wires[i]; w.Cable == "" {
			rows = append(rows, wireLengthRow(w, pigtails[w.ID]))
		}
	}
	slices.SortStableFunc(rows, func(a, b LengthRow) int { return naturalCompare(a.ID, b.ID) })
	if len(cables) == 0 {
		return rows
	}
	byID, cores := wiresByID(wires), map[string][]string{}
	for _, c := range cables {
		cores[c.ID] = c.Cores
	}
	all := make([]LengthRow, 0, cap(rows))
	for _, row := range rows {
		all = append(all, row)
		if row.Kind == "cable" {
			for _, id := range cores[row.ID] {
				all = append(all, coreLengthRow(byID[id]))
			}
		}
	}
	return all
}

func wireLengthRow(w *Wire, pigtail bool) LengthRow {
	row := LengthRow{Kind: "wire", ID: w.ID, From: w.From, To: w.To, Status: w.Status, Apart: apartReason(w.Supply, w.Status),
		FinishedUM: tenth(w.FinishedUM), Tolerance: w.Tolerance, Place: w.Place}
	if pigtail {
		row.Kind = "pigtail"
	}
	row.addUp(w.Terms, w.beyond, w.CutUM)
	return row
}

func cableLengthRow(c *Cable) LengthRow {
	row := LengthRow{Kind: "cable", ID: c.ID, From: c.A.At, To: c.B.At, Status: c.Status, Apart: apartReason(c.Supply, c.Status),
		FinishedUM: tenth(c.FinishedUM), Tolerance: c.Tolerance, Place: c.Place}
	row.addUp(c.Terms, c.beyond, c.CutUM)
	return row
}

func coreLengthRow(w *Wire) LengthRow {
	return LengthRow{Kind: "core", ID: w.ID, From: w.From, To: w.To, Status: w.Status, FinishedUM: tenth(w.FinishedUM),
		Tolerance: w.Tolerance, TrimUM: [2]int64{w.A.TrimUM, w.B.TrimUM}, Place: w.Place}
}

// apartReason says why the line does not cut something; "" where it does.
func apartReason(supply, status string) string {
	switch {
	case supply != string(harness.SupplyReel):
		return supply
	case status == string(harness.LengthMeasure):
		return status
	}
	return ""
}

// addUp fills in the terms. What both ends add together in the published terms stands at each end here.
func (r *LengthRow) addUp(terms []Term, ends [2]int64, cutUM int64) {
	sum := func(names ...string) int64 {
		total := int64(0)
		for _, term := range terms {
			if slices.Contains(names, term.Name) {
				total += term.UM
			}
		}
		return total
	}
	exact, shown := int64(0), int64(0)
	next := func(um int64) int64 {
		exact += um
		step := tenth(exact) - shown
		shown += step
		return step
	}
	r.BaseUM = next(sum("route", "given"))
	r.TailsUM = next(sum("tail_a", "tail_b"))
	r.EndAUM, r.EndBUM = next(ends[0]), next(ends[1])
	r.LoopUM, r.TwistUM, r.LineUM = next(sum("loop")), next(sum("twist")), next(sum("line"))
	r.RoundingUM, r.CutUM = cutUM-shown, cutUM
}

// tenth rounds micrometres to a tenth of a millimetre, halves up.
func tenth(um int64) int64 { return (um + 50) / 100 * 100 }

// ends returns what both ends add beyond their tails.
func (s stretch) ends() [2]units.Length {
	return [2]units.Length{s.a.beyond() - s.a.tail, s.b.beyond() - s.b.tail}
}

func bothUM(lengths [2]units.Length) [2]int64 { return [2]int64{int64(lengths[0]), int64(lengths[1])} }
