package sheet

import (
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
)

// Heights of the list of length sums.
const (
	sumFirst page.Pt = 1304 // 4.6 mm: from the rule above a row to its first base line
	sumPitch page.Pt = 1162 // 4.1 mm
	sumFoot  page.Pt = 510  // 1.8 mm: from the last base line to the rule below
	sumGap   page.Pt = 510  // 1.8 mm: least between two columns
	sumApart page.Pt = 567  // 2 mm: more between the sum and what is no part of it
)

// lengthList writes how each length comes about: a row a wire, cable or pigtail, cores under their cable.
type lengthList struct {
	book
	plan *plan.Plan

	id, from, to page.Pt // left edges
	words        page.Pt // room of from, and of to
	status       page.Pt // left edge
	apart        page.Pt // rule between the sum and the finished length
	size         int     // of all figures, in points
	figures      []sumColumn
	deep         bool // long ids: from and to stand on a line of their own
}

// sumColumn is a column of figures, aligned at their decimal points.
type sumColumn struct {
	title    []string // a line each
	of       func(plan.LengthRow) string
	right    page.Pt // right edge
	width    page.Pt
	fraction page.Pt // width of the longest fraction
}

// lengthSections lays the sums of all lengths; they are the same for every unit.
func lengthSections(p *plan.Plan, m composer, problems *problem.List) []section {
	if len(p.Lengths) == 0 {
		return nil
	}
	l := &lengthList{book: *newBook(m, problems), plan: p}
	l.draft = p.Packet.Draft
	l.measureColumns()
	l.open = l.heads
	l.explain()
	l.heads()
	heights := make([]page.Pt, len(p.Lengths))
	for i, row := range p.Lengths {
		heights[i] = l.height(row)
	}
	for i, row := range p.Lengths {
		keep := follow(heights, i, mm(9))
		if row.Kind == "cable" && i+1 < len(heights) && p.Lengths[i+1].Kind == "core" {
			keep = max(keep, heights[i+1])
		}
		l.row(i+1, row, keep)
	}
	l.text(live.X, l.y+mm(7), bold(12), live.W, l.sayCount("lengths.end", len(p.Lengths)))
	return []section{{sheet: "lengths", title: m.Say("lengths.title"), pages: l.finish()}}
}

// explain says once how the rows are read and where the tolerance comes from.
func (l *lengthList) explain() {
	for _, words := range []string{
		l.say("lengths.how", "step", l.decimal(exactMM(l.plan.Line.StepUM)), "tenth", l.decimal("0.1")),
		l.say("lengths.finished_how", "tolerance", l.plan.Tolerance),
	} {
		l.y = l.paragraph(live.X, l.y+mm(4), medium(9), live.W, sumPitch, words) - mm(3)
	}
	l.y += mm(1)
}

// sumColumns are the figures of a row, from left to right.
func (l *lengthList) sumColumns() []sumColumn {
	// a word a line
	head := func(key string) []string { return strings.Fields(l.say("lengths.head." + key)) }
	figure := func(of func(plan.LengthRow) int64) func(plan.LengthRow) string {
		return func(row plan.LengthRow) string { return l.decimal(exactMM(of(row))) }
	}
	return []sumColumn{
		{title: head("route"), of: figure(func(r plan.LengthRow) int64 { return r.BaseUM })},
		{title: head("tails"), of: figure(func(r plan.LengthRow) int64 { return r.TailsUM })},
		{title: head("end_a"), of: figure(func(r plan.LengthRow) int64 { return r.EndAUM })},
		{title: head("end_b"), of: figure(func(r plan.LengthRow) int64 { return r.EndBUM })},
		{title: head("loop"), of: figure(func(r plan.LengthRow) int64 { return r.LoopUM })},
		{title: head("twist"), of: figure(func(r plan.LengthRow) int64 { return r.TwistUM })},
		{title: head("line"), of: figure(func(r plan.LengthRow) int64 { return r.LineUM })},
		{title: head("round_up"), of: figure(func(r plan.LengthRow) int64 { return r.RoundingUM })},
		{title: head("cut"), of: figure(func(r plan.LengthRow) int64 { return r.CutUM })},
		{title: head("finished"), of: func(r plan.LengthRow) string { return l.decimal(finishedMM(r.FinishedUM)) }},
		{title: head("tolerance"), of: func(r plan.LengthRow) string { return l.toleranceWords(r.Tolerance) }},
	}
}

// cutColumn and finishedColumn are places among the figures.
const (
	cutColumn      = 8
	finishedColumn = 9
)

// finishedMM prints a finished length; - where it is not known.
func finishedMM(um int64) string {
	if um == 0 {
		return "-"
	}
	return exactMM(um)
}

// toleranceWords says by how much a finished length may miss its figure: "-0 +50".
func (p *pen) toleranceWords(t *plan.Tolerance) string {
	if t == nil {
		return ""
	}
	return "-" + p.decimal(exactMM(t.ShorterUM)) + " +" + p.decimal(exactMM(t.LongerUM))
}

// cut reports whether the line cuts what a row is about.
func (l *lengthList) cut(row plan.LengthRow) bool { return row.Kind != "core" && row.Apart == "" }

// instead says why a row has no sum.
func (l *lengthList) instead(row plan.LengthRow) string {
	switch {
	case row.Kind == "core" && row.TrimUM == [2]int64{}:
		return l.say("lengths.core")
	case row.Kind == "core":
		return l.say("lengths.core_cut", "a", l.decimal(exactMM(row.TrimUM[0])), "b", l.decimal(exactMM(row.TrimUM[1])))
	case row.Apart == "measure":
		return l.say("lengths.measured")
	}
	return l.say("lengths.apart", "why", l.say("tray."+strings.ReplaceAll(row.Apart, " ", "_")))
}

// statusWords says where a length comes from.
func (l *lengthList) statusWords(row plan.LengthRow) string {
	return l.say("lengths.status." + row.Status)
}

// breakable lets the ends of a cable stand on several lines.
func (l *lengthList) breakable(end string) string {
	return strings.ReplaceAll(l.metrics.placeWords(end), "+", "+ ")
}
