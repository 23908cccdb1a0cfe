package job

import (
	"strings"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
)

func readMarks(h *harness.Harness, t *table) {
	t.require("legend", "end_legend", "first", "wanted", "interval", "gap", "margin", "shorter", "unmarked_below", "centred_below",
		"reads", "wire_numbers", "cores", "sleeve_interval", "sleeve_length", "connector_label", "harness_label", "rub_check")
	m := &h.Marks
	m.Legend, m.EndLegend = t.legend("legend"), t.legend("end_legend")
	m.First, m.Wanted = t.length("first", positive), t.length("wanted", notNegative)
	m.Interval = t.length("interval", positive)
	m.Gap, m.Margin = t.length("gap", notNegative), t.length("margin", notNegative)
	for at, text := range t.texts("shorter", t.array("shorter")) {
		t.fineLegend("shorter", text, t.origin.Of(elementKey("shorter", at)), legendWords())
		m.Shorter = append(m.Shorter, text)
	}
	m.UnmarkedBelow, m.CentredBelow = t.length("unmarked_below", notNegative), t.length("centred_below", notNegative)
	m.Reads = t.word("reads", "one way", "from each end")
	m.WireNumbers, m.Cores = t.word("wire_numbers", "plain", "significant"), t.word("cores", "colour", "sleeves")
	m.SleeveInterval, m.SleeveLength = t.length("sleeve_interval", positive), t.length("sleeve_length", positive)
	m.ConnectorLabel = t.labelTemplate("connector_label", "connector", "title", "job", "part", "revision")
	m.HarnessLabel = t.labelTemplate("harness_label", "job", "part", "revision", "serial", "title")
	m.RubCheck = t.truth("rub_check")
	m.Origin = t.done()
}

// labelTemplate returns the template of a label; "" where the shop wants none.
func (t *table) labelTemplate(key string, words ...string) string {
	text := t.blankText(key)
	if text == "" || !t.fineLegend(key, text, t.origin.Of(key), words) {
		return ""
	}
	return text
}

// legend returns the template of a legend.
func (t *table) legend(key string) string {
	text := t.name(key)
	if text == "" || !t.fineLegend(key, text, t.origin.Of(key), legendWords()) {
		return ""
	}
	return text
}

// legendWords lists what a legend may hold in braces.
func legendWords() []string {
	return []string{"wire", "job", "part", "revision", "serial", "here", "there", "type", "awg", "note"}
}

func (t *table) fineLegend(key, text string, at problem.Place, words []string) bool {
	hint := "write {" + strings.Join(words, "} {") + "} or plain text"
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
		if !contains(words, word) {
			t.fault(badLegend, key, at, hint, "a legend has nothing to put for {%s}", word)
			return false
		}
		rest = behind
	}
	return true
}

// holdsSerial reports whether a legend differs from unit to unit.
func holdsSerial(template string) bool { return strings.Contains(template, "{serial}") }
