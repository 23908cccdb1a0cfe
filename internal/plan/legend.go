package plan

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/words"
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

// legendWords is what the fields of a template are filled in with.
type legendWords struct{ id, a, b, wireType, awg, note string }

// legendLadder returns the texts of a wire.
func legendLadder(h *harness.Harness, w *harness.Wire, t *harness.WireType) []legends {
	return ladderOf(h, legendWords{w.ID, w.A.Written(), w.B.Written(), t.ID, t.AWG, w.Note})
}

// ladderOf returns the texts of a wire or cable, then the shorter ones to fall back to, each at least one character shorter
// somewhere. The middle legend reads from a to b: {here} is end a.
func ladderOf(h *harness.Harness, w legendWords) []legends {
	there, back := w.fields(h, w.a, w.b), w.fields(h, w.b, w.a)
	expand := func(end, middle string) legends {
		return legends{a: filled(there[:], end), b: filled(back[:], end), middle: filled(there[:], middle)}
	}
	ladder := []legends{expand(h.Marks.EndLegend, h.Marks.Legend)}
	for _, template := range h.Marks.Shorter {
		last := ladder[len(ladder)-1]
		next := last.shortened(expand(template, template))
		if next != last {
			ladder = append(ladder, next)
		}
	}
	return ladder
}

// fields are the fields of templates and their values for one wire or cable, read from one of its ends.
func (w legendWords) fields(h *harness.Harness, here, there string) [10][2]string {
	serial := ""
	if len(h.Job.Units) == 1 && h.Job.Serials {
		serial = h.Job.Units[0]
	}
	return [10][2]string{{"wire", w.id}, {"job", h.Job.Number}, {"part", h.Job.Part}, {"revision", h.Job.Revision}, {"serial", serial},
		{"here", here}, {"there", there}, {"type", w.wireType}, {"awg", w.awg}, {"note", w.note}}
}

// filled fills a template in. Blanks left by an empty field are closed up.
func filled(fields [][2]string, template string) string {
	text := words.Fill(template, func(name string) (string, bool) {
		i := slices.IndexFunc(fields, func(field [2]string) bool { return field[0] == name })
		if i < 0 {
			return "", false
		}
		return fields[i][1], true
	})
	return closedUp(text)
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
