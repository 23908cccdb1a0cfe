package plan

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
)

// legends holds the texts of one wire: near end a, near end b, and between.
type legends struct{ a, b, middle string }

// legendFields lists what a template may hold.
func legendFields() []string {
	return []string{"wire", "job", "part", "revision", "serial", "here", "there", "type", "awg", "note"}
}

// legendTemplate is a template with the key that it stands under.
type legendTemplate struct{ key, text string }

func legendTemplates(marks *harness.Marks) []legendTemplate {
	templates := []legendTemplate{{"legend", marks.Legend}, {"end_legend", marks.EndLegend}}
	for _, text := range marks.Shorter {
		templates = append(templates, legendTemplate{"shorter", text})
	}
	return templates
}

// legendProblems checks the templates against what the job can fill in.
func legendProblems(h *harness.Harness) problem.List {
	var problems problem.List
	for _, template := range legendTemplates(&h.Marks) {
		fields, fault := fieldsOf(template.text)
		if fault != "" {
			problems = append(problems, legendProblem(h, template, "legend-field", fault,
				"the fields are {"+strings.Join(legendFields(), "}, {")+"}"))
			continue
		}
		if slices.Contains(fields, "serial") {
			problems = append(problems, serialProblems(h, template)...)
		}
		if slices.Contains(fields, "awg") {
			problems = append(problems, gaugeProblems(h, template)...)
		}
	}
	return problems
}

// fieldsOf returns the fields of a template, or what is wrong with it.
func fieldsOf(template string) (fields []string, fault string) {
	known := legendFields()
	for rest := template; ; {
		open := strings.IndexAny(rest, "{}")
		if open < 0 {
			return fields, ""
		}
		shut := strings.IndexByte(rest[open:], '}')
		if rest[open] == '}' || shut < 0 {
			return nil, fmt.Sprintf("the legend %q has a brace without its partner", template)
		}
		field := rest[open+1 : open+shut]
		if !slices.Contains(known, field) {
			return nil, fmt.Sprintf("the legend %q has an unknown field {%s}", template, field)
		}
		fields = append(fields, field)
		rest = rest[open+shut+1:]
	}
}

// serialProblems says where a serial cannot be marked: one row of the cut list stands for a wire of every unit.
func serialProblems(h *harness.Harness, template legendTemplate) problem.List {
	switch {
	case !h.Job.Serials:
		return problem.List{legendProblem(h, template, "serial-legend",
			fmt.Sprintf("the legend %q holds {serial}, and the job gives no serials", template.text), "give serials in [job], or drop {serial}")}
	case len(h.Job.Units) != 1:
		return problem.List{legendProblem(h, template, "serial-legend",
			fmt.Sprintf("the legend %q holds {serial}, and the job builds %d units", template.text, len(h.Job.Units)),
			"drop {serial}, or make one job a unit")}
	}
	return nil
}

// gaugeProblems names the types in use that have no AWG to mark.
func gaugeProblems(h *harness.Harness, template legendTemplate) problem.List {
	var problems problem.List
	for _, t := range typesInUse(h) {
		if t.AWG == "" {
			p := legendProblem(h, template, "legend-awg",
				fmt.Sprintf("the legend %q holds {awg}, and wire type %s is given in mm2", template.text, t.ID), "use {type} in place of {awg}")
			p.Also = &problem.Related{Place: t.At, Text: "the wire type stands here"}
			p.ID = t.ID
			problems = append(problems, p)
		}
	}
	return problems
}

func legendProblem(h *harness.Harness, template legendTemplate, check, text, hint string) problem.Problem {
	return problem.Problem{Check: check, Place: h.Marks.Of(template.key), Text: text, Hint: hint}
}

// legendLadder returns the texts of a wire, then the shorter ones to fall back to, each at least one character shorter
// somewhere. The middle legend reads from a to b: {here} is end a.
func legendLadder(h *harness.Harness, w *harness.Wire, t *harness.WireType) []legends {
	whole := expandLegends(h, w, t, h.Marks.EndLegend, h.Marks.Legend)
	ladder := []legends{whole}
	for _, template := range h.Marks.Shorter {
		last := ladder[len(ladder)-1]
		next := last.shortened(expandLegends(h, w, t, template, template))
		if next != last {
			ladder = append(ladder, next)
		}
	}
	return ladder
}

func expandLegends(h *harness.Harness, w *harness.Wire, t *harness.WireType, end, middle string) legends {
	return legends{
		a:      expandLegend(h, w, t, end, &w.A, &w.B),
		b:      expandLegend(h, w, t, end, &w.B, &w.A),
		middle: expandLegend(h, w, t, middle, &w.A, &w.B),
	}
}

// expandLegend fills a template in for one wire. Blanks left by an empty field are closed up.
func expandLegend(h *harness.Harness, w *harness.Wire, t *harness.WireType, template string, here, there *harness.End) string {
	serial := ""
	if len(h.Job.Units) == 1 && h.Job.Serials {
		serial = h.Job.Units[0]
	}
	text := strings.NewReplacer("{wire}", w.ID, "{job}", h.Job.Number, "{part}", h.Job.Part, "{revision}", h.Job.Revision,
		"{serial}", serial, "{here}", endAt(here), "{there}", endAt(there), "{type}", t.ID, "{awg}", t.AWG,
		"{note}", w.Note).Replace(template)
	return strings.Join(strings.Fields(text), " ")
}

// endAt names an end as people write it: "J1:1".
func endAt(end *harness.End) string { return end.Connector + ":" + end.Cavity }

// shortened takes each text of the other set where it is shorter and not blank.
func (l legends) shortened(by legends) legends {
	return legends{shorterText(l.a, by.a), shorterText(l.b, by.b), shorterText(l.middle, by.middle)}
}

func shorterText(text, by string) string {
	if by != "" && utf8.RuneCountInString(by) < utf8.RuneCountInString(text) {
		return by
	}
	return text
}
