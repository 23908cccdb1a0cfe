package plan

import (
	"fmt"
	"strings"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

// markSubject is what is marked: a wire, or the jacket of a cable.
type markSubject struct {
	noun, id string // "wire", "W101"
	place    problem.Place
	mark     string // "full", "ends", "none"
	ladder   []legends
	how      marking
	at       [2]string // where its ends go
	diameter units.Length
	span     markSpan
	off      units.Length // what is cut off at end a: from there to where the span starts
}

// markedRow is how a row is marked.
type markedRow struct {
	method, ink  string
	height       units.Length
	legend, a, b string
	marks        []Mark
	sleeves      []Sleeve
}

// markSubject works out method, legends and marks.
func (p *wirePlanner) markSubject(s markSubject) (markedRow, problem.List) {
	row := markedRow{method: string(harness.MethodNone), marks: []Mark{}}
	if s.mark == "none" {
		return row, nil
	}
	if blank := s.ladder[0]; blank.a == "" || blank.b == "" || blank.middle == "" {
		return row, problem.List{{Check: "legend-blank", Place: s.place, ID: s.id,
			Text: fmt.Sprintf("a legend of %s %q comes out blank", s.noun, s.id),
			Hint: fmt.Sprintf(`put {wire} into the legend, or set mark = "none" for this %s`, s.noun)}}
	}
	fit := p.rules.fit(s.span, s.ladder, s.how)
	switch fit.way {
	case wayUnmarked:
		return row, nil
	case waySleeve:
		return p.sleeved(s, fit)
	}
	if !p.rules.suits(s.ladder[0]) {
		p.long = append(p.long, s.id)
	}
	row.legend = fit.texts.middle
	if fit.way == wayEnds {
		row.a, row.b = fit.texts.a, fit.texts.b
		if s.mark == "ends" {
			row.legend = ""
		}
	}
	row.method, row.ink, row.height = string(s.how.method), s.how.ink, fit.height
	row.marks = fit.rows(s.off, p.rules)
	return row, append(fit.warnings(p.rules, s), characterProblems(&p.h.Line, s, row.marks)...)
}

// longWarnings says once for the job how many wires carry a shorter legend than asked for, since the line cannot mark the long one.
func (p *wirePlanner) longWarnings() problem.List {
	if len(p.long) == 0 {
		return nil
	}
	return problem.List{{Severity: problem.Warning, Check: "legend-long", Place: p.h.Marks.Of("end_legend"), ID: p.long[0],
		Text: fmt.Sprintf("%s a shorter legend, %q the first: the one asked for is longer than the %d characters that the line marks",
			carryWords(len(p.long)), p.long[0], p.rules.longest),
		Hint: "shorten legend or end_legend, or correct line.longest_text"}}
}

func carryWords(count int) string {
	if count == 1 {
		return "1 wire carries"
	}
	return fmt.Sprintf("%d wires carry", count)
}

// sleeved is a row whose texts stand on sleeves. That a type is sleeved is told once for the type.
func (p *wirePlanner) sleeved(s markSubject, fit markFit) (markedRow, problem.List) {
	row := markedRow{method: string(harness.MethodSleeve), marks: []Mark{}, sleeves: p.sleever.of(s)}
	for _, sleeve := range row.sleeves {
		switch sleeve.End {
		case "a":
			row.a = sleeve.Text
		case "b":
			row.b = sleeve.Text
		default:
			row.legend = sleeve.Text
		}
	}
	if s.how.method == harness.MethodSleeve || row.sleeves[0].Kind == "tag" {
		return row, nil // told of the type, or of the tag
	}
	return row, fit.warnings(p.rules, s)
}

// characterProblems refuses texts that hold a character which the line cannot mark.
func characterProblems(line *harness.Line, s markSubject, marks []Mark) problem.List {
	for _, mark := range marks {
		for _, r := range mark.Text {
			if line.Characters != "" && !strings.ContainsRune(line.Characters, r) {
				return problem.List{{Check: "legend-character", Place: s.place, ID: s.id,
					Text: fmt.Sprintf("the line cannot mark the character %q in the legend %q of %s %q", r, mark.Text, s.noun, s.id),
					Hint: "change the legend, or add the character to line.characters where the marker has it"}}
			}
		}
	}
	return nil
}
