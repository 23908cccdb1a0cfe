package plan

import (
	"fmt"

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
	span     markSpan
	start    units.Length // from the cut end a to where the span starts
}

// markedRow is how a row is marked.
type markedRow struct {
	method, ink  string
	height       units.Length
	legend, a, b string
	marks        []Mark
}

// mark works out method, legends and marks.
func (r markRules) mark(s markSubject) (markedRow, problem.List) {
	row := markedRow{method: string(harness.MethodNone), marks: []Mark{}}
	if s.mark == "none" {
		return row, nil
	}
	if blank := s.ladder[0]; blank.a == "" || blank.b == "" || blank.middle == "" {
		return row, problem.List{{Check: "legend-blank", Place: s.place, ID: s.id,
			Text: fmt.Sprintf("a legend of %s %s comes out blank", s.noun, s.id),
			Hint: fmt.Sprintf(`put {wire} into the legend, or set mark = "none" for this %s`, s.noun)}}
	}
	fit := r.fit(s.span, s.ladder, s.how.heights)
	if fit.way == wayUnmarked {
		return row, nil
	}
	row.legend = fit.texts.middle
	if fit.way != wayCentred { // sleeves go on both ends, on short wires too
		row.a, row.b = fit.texts.a, fit.texts.b
		if s.mark == "ends" {
			row.legend = ""
		}
	}
	if fit.way == waySleeve {
		row.method = string(harness.MethodSleeve)
		if s.how.method == harness.MethodSleeve {
			return row, nil // told once for the type
		}
		return row, fit.warnings(r, s)
	}
	row.method, row.ink, row.height = string(s.how.method), s.how.ink, fit.height
	row.marks = fit.rows(s.start)
	return row, fit.warnings(r, s)
}
