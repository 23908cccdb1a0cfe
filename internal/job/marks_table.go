package job

import (
	"strings"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
)

func readMarks(h *harness.Harness, t *table) {
	t.require("legend", "end_legend", "first", "wanted", "interval", "gap", "margin", "shorter", "unmarked_below", "centred_below")
	m := &h.Marks
	m.Legend, m.EndLegend = t.legend("legend"), t.legend("end_legend")
	m.First, m.Wanted = t.length("first", positive), t.length("wanted", notNegative)
	m.Interval = t.length("interval", positive)
	m.Gap, m.Margin = t.length("gap", notNegative), t.length("margin", notNegative)
	for at, text := range t.texts("shorter", t.array("shorter")) {
		t.fineLegend("shorter", text, t.origin.Of(elementKey("shorter", at)))
		m.Shorter = append(m.Shorter, text)
	}
	m.UnmarkedBelow, m.CentredBelow = t.length("unmarked_below", notNegative), t.length("centred_below", notNegative)
	m.Origin = t.done()
}

// legend returns the template of a legend.
func (t *table) legend(key string) string {
	text := t.name(key)
	if text == "" || !t.fineLegend(key, text, t.origin.Of(key)) {
		return ""
	}
	return text
}

// legendWords lists what a legend may hold in braces.
func legendWords() []string {
	return []string{"wire", "job", "part", "revision", "serial", "here", "there", "type", "awg", "note"}
}

func (t *table) fineLegend(key, text string, at problem.Place) bool {
	hint := "write {" + strings.Join(legendWords(), "} {") + "} or plain text"
	for rest := text; rest != ""; {
		open := strings.IndexAny(rest, "{}")
		if open < 0 {
			return true
		}
		word, behind, closed := strings.Cut(rest[open+1:], "}")
		if rest[open] == '}' || !closed || strings.Contains(word, "{") {
			t.fault(badLegend, key, at, hint, "the braces of %s do not match", quoted(text))
			return false
		}
		if !contains(legendWords(), word) {
			t.fault(badLegend, key, at, hint, "a legend has nothing to put for {%s}", word)
			return false
		}
		rest = behind
	}
	return true
}

// holdsSerial reports whether a legend differs from unit to unit.
func holdsSerial(template string) bool { return strings.Contains(template, "{serial}") }
