package plan

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
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
			fmt.Sprintf("the legend %q holds {serial}, and the job gives no serials", template.text), "write serials in [job], or take {serial} out")}
	case len(h.Job.Units) != 1:
		return problem.List{legendProblem(h, template, "serial-legend",
			fmt.Sprintf("the legend %q holds {serial}, and the job builds %d units", template.text, len(h.Job.Units)),
			"take {serial} out, or make one job a unit")}
	}
	return nil
}

// gaugeProblems names the types in use that have no AWG to mark: those given in mm2, and cables.
func gaugeProblems(h *harness.Harness, template legendTemplate) problem.List {
	var problems problem.List
	add := func(noun, id, why string, at problem.Place) {
		p := legendProblem(h, template, "legend-awg",
			fmt.Sprintf("the legend %q holds {awg}, and %s type %q %s", template.text, noun, id, why), "write {type} in place of {awg}, or take it out")
		p.Also = &problem.Related{Place: at, Text: "the " + noun + " type stands here"}
		p.ID = id
		problems = append(problems, p)
	}
	for _, t := range typesInUse(h) {
		if t.AWG == "" {
			add("wire", t.ID, "is given in mm2", t.At)
		}
	}
	for _, t := range cableTypesInUse(h) {
		add("cable", t.ID, "has several cores", t.At)
	}
	return problems
}

func legendProblem(h *harness.Harness, template legendTemplate, check, text, hint string) problem.Problem {
	return problem.Problem{Check: check, Place: h.Marks.Of(template.key), Text: text, Hint: hint}
}

// legendText is a template cut at its fields: texts at even places, names of fields at odd ones.
type legendText []string

// cutLegend cuts a template whose braces have their partners.
func cutLegend(template string) legendText {
	var pieces legendText
	for {
		before, rest, found := strings.Cut(template, "{")
		if !found {
			return append(pieces, template)
		}
		field, after, _ := strings.Cut(rest, "}")
		pieces, template = append(pieces, before, field), after
	}
}

// filled fills the fields in. Blanks left by an empty field are closed up.
func (t legendText) filled(value func(field string) string) string {
	pieces := append(make([]string, 0, 16), t...)
	for i := 1; i < len(pieces); i += 2 {
		pieces[i] = value(pieces[i])
	}
	return closedUp(strings.Join(pieces, ""))
}

// legendRules is the templates of a job, and what their fields hold for all of its wires.
type legendRules struct {
	end, middle legendText
	shorter     []legendText
	job         *harness.Job
	serial      string
}

func legendRulesOf(h *harness.Harness) legendRules {
	r := legendRules{end: cutLegend(h.Marks.EndLegend), middle: cutLegend(h.Marks.Legend), job: &h.Job}
	for _, template := range h.Marks.Shorter {
		r.shorter = append(r.shorter, cutLegend(template))
	}
	if len(h.Job.Units) == 1 && h.Job.Serials {
		r.serial = h.Job.Units[0]
	}
	return r
}

// legendWords is what the fields hold for one wire or cable.
type legendWords struct{ id, a, b, wireType, awg, note string }

// ladder returns the texts of a wire or cable, then the shorter ones to fall back to, each at least one character shorter somewhere. The
// middle legend reads from a to b: {here} is end a.
func (r *legendRules) ladder(w legendWords) []legends {
	ladder := make([]legends, 1, 1+len(r.shorter))
	ladder[0] = r.expand(w, r.end, r.middle)
	for _, template := range r.shorter {
		last := ladder[len(ladder)-1]
		next := last.shortened(r.expand(w, template, template))
		if next != last {
			ladder = append(ladder, next)
		}
	}
	return ladder
}

func (r *legendRules) expand(w legendWords, end, middle legendText) legends {
	there := func(field string) string { return r.value(w, w.a, w.b, field) }
	back := func(field string) string { return r.value(w, w.b, w.a, field) }
	return legends{a: end.filled(there), b: end.filled(back), middle: middle.filled(there)}
}

// value returns what a field holds for a wire or cable, read from one of its ends.
func (r *legendRules) value(w legendWords, here, there, field string) string {
	switch field {
	case "wire":
		return w.id
	case "job":
		return r.job.Number
	case "part":
		return r.job.Part
	case "revision":
		return r.job.Revision
	case "serial":
		return r.serial
	case "here":
		return here
	case "there":
		return there
	case "type":
		return w.wireType
	case "awg":
		return w.awg
	}
	return w.note
}

// closedUp leaves one blank between words and none around them. Nearly every text stands so already.
func closedUp(text string) string {
	between := false // behind a word
	for _, r := range text {
		blank := unicode.IsSpace(r)
		if blank && (r != ' ' || !between) {
			return strings.Join(strings.Fields(text), " ")
		}
		between = !blank
	}
	if !between {
		return strings.TrimRight(text, " ")
	}
	return text
}

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
