package sheet

import (
	"fmt"
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
	for i, row := range p.Lengths {
		l.row(row, l.follow(i))
	}
	l.text(live.X, l.y+mm(7), bold(12), live.W, "END OF LIST: "+plural(len(p.Lengths), "row"))
	return []section{{sheet: "lengths", title: "Length sums", pages: l.finish()}}
}

// follow returns the height of what has to stand on the page of a row: the first core of a cable, the end of the list.
func (l *lengthList) follow(i int) page.Pt {
	rows := l.plan.Lengths
	switch {
	case i+1 == len(rows):
		return mm(9)
	case rows[i].Kind == "cable" && rows[i+1].Kind == "core":
		return l.height(rows[i+1])
	}
	return 0
}

// explain says once how the rows are read and where the tolerance comes from.
func (l *lengthList) explain() {
	for _, words := range []string{
		"Each row adds up, from left to right, to the cut length. END A, END B: what an end takes beyond its reference plane, which is barrel, strip, " +
			"crimping anew, trim and extra. line: what the line may cut short. round up: to the step of the line, " + exactMM(l.plan.Line.StepUM) + " mm. " +
			"The running total is rounded to 0.1 mm at every column: a figure may stand 0.1 mm off its own value, and the row still adds up exactly.",
		"finished: from reference plane to reference plane, by the board or as given; it is no part of the sum. Tolerance of the finished length: " +
			l.plan.Tolerance + ". The drawing comes before it.",
	} {
		l.y = l.paragraph(live.X, l.y+mm(4), medium(9), live.W, sumPitch, words) - mm(3)
	}
	l.y += mm(1)
}

// sumColumns are the figures of a row, from left to right.
func sumColumns() []sumColumn {
	figure := func(of func(plan.LengthRow) int64) func(plan.LengthRow) string {
		return func(row plan.LengthRow) string { return exactMM(of(row)) }
	}
	return []sumColumn{
		{title: []string{"route,", "given", "mm"}, of: figure(func(r plan.LengthRow) int64 { return r.BaseUM })},
		{title: []string{"+", "tails", "mm"}, of: figure(func(r plan.LengthRow) int64 { return r.TailsUM })},
		{title: []string{"+", "END", "A", "mm"}, of: figure(func(r plan.LengthRow) int64 { return r.EndAUM })},
		{title: []string{"+", "END", "B", "mm"}, of: figure(func(r plan.LengthRow) int64 { return r.EndBUM })},
		{title: []string{"+", "loop", "mm"}, of: figure(func(r plan.LengthRow) int64 { return r.LoopUM })},
		{title: []string{"+", "twist", "mm"}, of: figure(func(r plan.LengthRow) int64 { return r.TwistUM })},
		{title: []string{"+", "line", "mm"}, of: figure(func(r plan.LengthRow) int64 { return r.LineUM })},
		{title: []string{"+", "round", "up", "mm"}, of: figure(func(r plan.LengthRow) int64 { return r.RoundingUM })},
		{title: []string{"=", "cut", "mm"}, of: figure(func(r plan.LengthRow) int64 { return r.CutUM })},
		{title: []string{"finished", "mm"}, of: finishedWords},
		{title: []string{"toler-", "ance", "mm"}, of: func(r plan.LengthRow) string { return toleranceWords(r.Tolerance) }},
	}
}

// cutColumn and finishedColumn are places among the figures.
const (
	cutColumn      = 8
	finishedColumn = 9
)

// finishedWords prints a finished length; - where it is not known.
func finishedWords(row plan.LengthRow) string { return finishedMM(row.FinishedUM) }

func finishedMM(um int64) string {
	if um == 0 {
		return "-"
	}
	return exactMM(um)
}

// toleranceWords says by how much a finished length may miss its figure: "-0 +50".
func toleranceWords(t *plan.Tolerance) string {
	if t == nil {
		return ""
	}
	return "-" + exactMM(t.ShorterUM) + " +" + exactMM(t.LongerUM)
}

// cut reports whether the line cuts what a row is about.
func (l *lengthList) cut(row plan.LengthRow) bool { return row.Kind != "core" && row.Apart == "" }

// instead says why a row has no sum.
func instead(row plan.LengthRow) string {
	switch {
	case row.Kind == "core" && row.TrimUM == [2]int64{}:
		return "cut with its cable, nothing cut off"
	case row.Kind == "core":
		return fmt.Sprintf("cut with its cable; cut off: END A %s, END B %s mm", exactMM(row.TrimUM[0]), exactMM(row.TrimUM[1]))
	case row.Apart == "measure":
		return "to be measured at the bench"
	}
	return "not cut on the line: " + row.Apart
}

// statusWords says where a length comes from.
func statusWords(row plan.LengthRow) string {
	return strings.ReplaceAll(row.Status, "measure", "bench")
}

// breakable lets the ends of a cable stand on several lines.
func breakable(end string) string { return strings.ReplaceAll(end, "+", "+ ") }
