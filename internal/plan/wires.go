package plan

import (
	"slices"
	"strings"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
	"loomleaf/internal/words"
)

// wireRows returns every wire, pigtails and cores among them, and every cable, in natural order of their ids, complete but for
// their homes and codes. With errors in the list the rows are not to be used.
func wireRows(h *harness.Harness) ([]Wire, []Cable, problem.List) {
	problems := append(lineProblems(&h.Line), legendProblems(h)...)
	if problems.Errors() > 0 {
		return nil, nil, problems
	}
	lengths := newMeasurer(h)
	if lengths.faults.Errors() > 0 {
		return nil, nil, append(problems, lengths.faults...)
	}
	byType, warnings := markings(h)
	planner := wirePlanner{
		h: h, lengths: lengths, types: typesByID(h), byType: byType, rules: rulesOf(h), legends: legendRulesOf(h), sleever: newSleever(h),
		twists: twistsByWire(h), laid: laidByWire(h), cores: coresByCable(h), cables: map[string]cableLength{},
	}
	problems = append(problems, warnings...)
	cables := make([]Cable, 0, len(h.Cables))
	for _, c := range cablesInOrder(h) {
		row, found := planner.cable(c)
		cables = append(cables, row)
		problems = append(problems, found...)
	}
	rows := make([]Wire, 0, len(h.Wires))
	for _, w := range wiresInOrder(h) {
		row, found := planner.row(w)
		rows = append(rows, row)
		problems = append(problems, found...)
	}
	problems = append(append(problems, sleeveWarnings(rows, cables)...), planner.longWarnings()...)
	return rows, cables, append(problems, separationProblems(planner.ways)...)
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

// twistsByWire returns the twist of each wire that is in one.
func twistsByWire(h *harness.Harness) map[string]string {
	twists := map[string]string{}
	for _, twist := range h.Twists {
		for _, wire := range twist.Wires {
			twists[wire] = twist.ID
		}
	}
	return twists
}

// wirePlanner holds what the rows of all wires share.
type wirePlanner struct {
	h       *harness.Harness
	lengths *measurer
	types   map[string]*harness.WireType
	byType  map[string]marking
	rules   markRules
	legends legendRules
	sleever sleever
	twists  map[string]string          // by wire
	laid    map[string]string          // by wire, in words
	cores   map[string][]*harness.Wire // by cable, in the order of its type
	cables  map[string]cableLength     // of the cables planned so far
	ways    []wayOf                    // of the wires planned so far that are kept apart from others
	long    []string                   // wires and cables whose first legend is longer than the line marks
}

// row plans one wire. Its cable, where it has one, is planned already.
func (p *wirePlanner) row(w *harness.Wire) (Wire, problem.List) {
	length, problems := p.lengths.measure(w)
	if problems.Errors() > 0 {
		return Wire{}, problems
	}
	if w.Separation != "" {
		p.ways = append(p.ways, wayOf{w, length.way.used()})
	}
	from, to := w.A.Written(), w.B.Written()
	row := Wire{
		ID: w.ID, Type: w.Type, Cable: w.Cable, Core: w.Core, Twist: p.twists[w.ID], Laid: p.laid[w.ID], Supply: string(supplyOf(w.Supply)),
		Separation: w.Separation, From: from, To: to,
		CutUM: int64(length.cut), FinishedUM: int64(length.finished), Status: string(length.status),
		Terms: length.terms, beyond: bothUM(length.ends), Nodes: length.way.nodes,
		Method: string(harness.MethodNone), Marks: []Mark{}, Turned: p.h.Line.Leading == "b",
		A: p.end(&w.A, from), B: p.end(&w.B, to), Note: w.Note, Place: w.At, given: int64(w.Given),
		Tolerance: toleranceOf(p.h.Job.Tolerance, int64(length.finished)),
	}
	if row.Nodes == nil {
		row.Nodes = []string{}
	}
	switch {
	case w.Cable != "":
		p.core(w, &row)
	case row.Supply != string(harness.SupplyReel):
	case w.Measure:
		p.sleeveAtA(w, &row)
	default:
		return row, append(problems, p.mark(w, &row, length.cut)...)
	}
	return row, problems
}

// core fills in what a core takes from its cable: supply, status and what it is cut back by.
func (p *wirePlanner) core(w *harness.Wire, row *Wire) {
	length, cable := p.cables[w.Cable], p.lengths.cables[w.Cable]
	row.Type, row.Status, row.Supply = coreTypeID(cable.Type, w.Core), string(length.status), string(supplyOf(cable.Supply))
	row.A.TrimUM += int64(length.trims[w.ID][0])
	row.B.TrimUM += int64(length.trims[w.ID][1])
	row.Note = joinNotes(w.Note, length.notes[w.ID])
	if row.Supply == string(harness.SupplyReel) {
		p.sleeveCore(w, row, coreDiameter(p.lengths.cableTypes[cable.Type], w.Core))
	}
}

// coreDiameter returns the diameter of a core over its insulation; 0 where the job does not say it.
func coreDiameter(t *harness.CableType, core string) units.Length {
	for _, c := range t.Cores {
		if c.ID == core {
			return c.Diameter
		}
	}
	return 0
}

// sleeveAtA gives a wire that is cut at the bench its legend at end a. Where its end b will be nobody knows yet.
func (p *wirePlanner) sleeveAtA(w *harness.Wire, row *Wire) {
	if w.Mark == "none" {
		return
	}
	row.Method = string(harness.MethodSleeve)
	row.A.Legend = p.texts(w, row)[0].a
	row.sleeves = []Sleeve{p.sleever.atEnd(w, "a", row.From, row.A.Legend, p.types[w.Type].Diameter, p.h.Marks.Wanted, p.keepOut(&w.A))}
}

// texts returns the texts of a wire, the longest first.
func (p *wirePlanner) texts(w *harness.Wire, row *Wire) []legends {
	t := p.types[w.Type]
	return p.legends.ladder(legendWords{w.ID, row.From, row.To, t.ID, t.AWG, w.Note})
}

// keepOut returns what has to stay clear at an end: what is stripped, crimped or covered, and the margin.
func (p *wirePlanner) keepOut(end *harness.End) units.Length {
	return p.covered(end) + p.h.Marks.Margin
}

func (p *wirePlanner) covered(end *harness.End) units.Length {
	return p.lengths.strip(end) + p.lengths.barrel(end) + end.Covered
}

// sleeveCore gives a core its legends on sleeves, where the shop does not go by colour alone.
func (p *wirePlanner) sleeveCore(w *harness.Wire, row *Wire, diameter units.Length) {
	if p.h.Marks.Cores != "sleeves" {
		return
	}
	texts := p.legends.ladder(legendWords{w.ID, row.From, row.To, row.Type, "", w.Note})[0]
	row.Method, row.A.Legend, row.B.Legend = string(harness.MethodSleeve), texts.a, texts.b
	row.sleeves = []Sleeve{
		p.sleever.atEnd(w, "a", row.From, texts.a, diameter, p.h.Marks.Wanted, p.keepOut(&w.A)),
		p.sleever.atEnd(w, "b", row.To, texts.b, diameter, p.h.Marks.Wanted, p.keepOut(&w.B)),
	}
}

// mark fills in method, legends and marks of a wire that the line cuts.
func (p *wirePlanner) mark(w *harness.Wire, row *Wire, cut units.Length) problem.List {
	marked, problems := p.markSubject(markSubject{
		noun: "wire", id: w.ID, place: w.At, mark: w.Mark, at: [2]string{row.From, row.To}, diameter: p.types[w.Type].Diameter, ladder: p.texts(w, row), how: p.byType[w.Type],
		span: p.rules.spanFor(cut, [2]units.Length{w.A.Trim, w.B.Trim}, [2]units.Length{p.covered(&w.A), p.covered(&w.B)}, w.Mark == "full"),
		off:  w.A.Trim,
	})
	row.Method, row.Ink, row.HeightUM = marked.method, marked.ink, int64(marked.height)
	row.Legend, row.A.Legend, row.B.Legend, row.Marks = marked.legend, marked.a, marked.b, marked.marks
	row.sleeves = marked.sleeves
	return problems
}

// end returns an end, which references write as at, as printed. An end that the board terminates leaves the bench unstripped.
func (p *wirePlanner) end(end *harness.End, at string) End {
	row := End{At: at, Stage: string(end.Stage), TrimUM: int64(end.Trim), Contact: end.Contact, Finish: end.Finish,
		Loose: end.NotLanded, Note: end.Note}
	if end.Stage != harness.StageBoard {
		row.StripUM = int64(p.lengths.strip(end))
		row.Steps = p.steps(end)
		return row
	}
	row.board = boardWords(p.h.Paper.Spoken(), end.Trim, p.lengths.strip(end), p.steps(end))
	return row
}

// boardWords says what the board takes off an end: "trim 20 mm, strip 5.8 mm"; of a coax end each layer.
func boardWords(said words.Words, trim, strip units.Length, steps []StripStep) string {
	var work []string
	if trim > 0 {
		work = append(work, said.Say("ends.trim", "length", said.Decimal(trim.String())))
	}
	for _, step := range steps {
		work = append(work, said.Say("ends.strip_layer", "layer", step.Layer, "length", said.Decimal(units.Length(step.UM).String())))
	}
	if strip > 0 && len(steps) == 0 {
		work = append(work, said.Say("ends.strip", "length", said.Decimal(strip.String())))
	}
	return strings.Join(work, ", ")
}

// steps returns how an end is stripped layer by layer: as its contact says, unless the end has a strip length of its own.
func (p *wirePlanner) steps(end *harness.End) []StripStep {
	contact, found := p.lengths.contacts[end.Contact]
	if !found || end.Strip != contact.Strip {
		return nil
	}
	var steps []StripStep
	for _, step := range contact.Steps {
		steps = append(steps, StripStep{Layer: step.Layer, UM: int64(step.Length)})
	}
	return steps
}
