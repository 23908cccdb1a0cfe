package plan

import (
	"fmt"
	"slices"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

// wireRows returns every wire in natural order of its id, complete but for its home connector and its code. With errors
// in the list the rows are not to be used.
func wireRows(h *harness.Harness) ([]Wire, problem.List) {
	problems := append(lineProblems(&h.Line), legendProblems(h)...)
	if problems.Errors() > 0 {
		return nil, problems
	}
	byType, warnings := markings(h)
	planner := wirePlanner{
		h: h, lengths: newMeasurer(h), types: typesByID(h), byType: byType,
		rules: markRules{&h.Marks, h.Line.PitchToHeight},
	}
	problems = append(problems, warnings...)
	rows := make([]Wire, 0, len(h.Wires))
	for _, w := range wiresInOrder(h) {
		row, found := planner.row(w)
		rows = append(rows, row)
		problems = append(problems, found...)
	}
	return rows, problems
}

// wiresInOrder returns the wires in natural order of their ids.
func wiresInOrder(h *harness.Harness) []*harness.Wire {
	wires := make([]*harness.Wire, len(h.Wires))
	for i := range h.Wires {
		wires[i] = &h.Wires[i]
	}
	slices.SortFunc(wires, func(a, b *harness.Wire) int { return naturalCompare(a.ID, b.ID) })
	return wires
}

// wirePlanner holds what the rows of all wires share.
type wirePlanner struct {
	h       *harness.Harness
	lengths *measurer
	types   map[string]*harness.WireType
	byType  map[string]marking
	rules   markRules
}

// row plans one wire.
func (p *wirePlanner) row(w *harness.Wire) (Wire, problem.List) {
	length, problems := p.lengths.measure(w)
	if problems.Errors() > 0 {
		return Wire{}, problems
	}
	row := Wire{
		ID: w.ID, Type: w.Type, From: endAt(&w.A), To: endAt(&w.B),
		CutUM: int64(length.cut), FinishedUM: int64(length.finished), Status: string(length.status),
		Terms: length.terms, Nodes: length.nodes,
		Method: string(harness.MethodNone), Marks: []Mark{}, Turned: p.h.Line.Leading == "b",
		A: endRow(&w.A), B: endRow(&w.B), Note: w.Note, Place: w.At,
	}
	if row.Nodes == nil {
		row.Nodes = []string{}
	}
	if w.Mark == "none" {
		return row, problems
	}
	return row, append(problems, p.mark(w, &row, length.cut)...)
}

// mark fills in method, legends and marks of a row.
func (p *wirePlanner) mark(w *harness.Wire, row *Wire, cut units.Length) problem.List {
	ladder := legendLadder(p.h, w, p.types[w.Type])
	if blank := ladder[0]; blank.a == "" || blank.b == "" || blank.middle == "" {
		return problem.List{{Check: "legend-blank", Place: w.At, ID: w.ID,
			Text: fmt.Sprintf("a legend of wire %s comes out blank", w.ID),
			Hint: `put {wire} into the legend, or set mark = "none" for this wire`}}
	}
	how := p.byType[w.Type]
	span := p.rules.spanFor(w, cut, p.barrel(&w.A), p.barrel(&w.B))
	fit := p.rules.fit(span, ladder, how.heights)
	if fit.way == wayUnmarked {
		return nil
	}
	row.Legend = fit.texts.middle
	if fit.way != wayCentred { // sleeves go on both ends, on short wires too
		row.A.Legend, row.B.Legend = fit.texts.a, fit.texts.b
		if w.Mark == "ends" {
			row.Legend = ""
		}
	}
	if fit.way == waySleeve {
		row.Method = string(harness.MethodSleeve)
		if how.method == harness.MethodSleeve {
			return nil // told once for the type
		}
		return fit.warnings(p.rules, w)
	}
	row.Method, row.Ink, row.HeightUM = string(how.method), how.ink, int64(fit.height)
	row.Marks = fit.rows(w.A.Trim)
	return fit.warnings(p.rules, w)
}

// barrel returns the depth of the wire barrel at an end, 0 where no contact is crimped on.
func (p *wirePlanner) barrel(end *harness.End) units.Length {
	contact, found := p.lengths.contacts[end.Contact]
	if !found {
		return 0
	}
	return contact.Barrel
}

// endRow returns an end as printed. An end that the board terminates leaves the bench unstripped.
func endRow(end *harness.End) End {
	row := End{At: endAt(end), Stage: string(end.Stage), TrimUM: int64(end.Trim), Contact: end.Contact, Note: end.Note}
	if end.Stage != harness.StageBoard {
		row.StripUM = int64(end.Strip)
	}
	return row
}
