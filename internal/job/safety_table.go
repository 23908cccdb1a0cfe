package job

import (
	"strings"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

func readSafety(h *harness.Harness, t *table) {
	s := &h.Safety
	s.Officer, s.Emergency = t.whom("officer"), t.whom("emergency")
	s.Deference = t.texts("deference", t.array("deference"))
	for i, line := range s.Deference {
		if claim := claimIn(line); claim != "" {
			t.fault(safetyClaim, "deference", t.origin.Of(elementKey("deference", i)), claimHint, "the line uses the words %s", quoted(claim))
		}
	}
	if lamp := t.inner("lamp"); lamp != nil {
		s.Ozone, s.Mercury = lamp.truth("ozone"), lamp.truth("mercury")
		lamp.done()
	}
	s.HighPotential = t.truth("high_potential")
	for _, q := range t.list("quote") {
		s.Quotes = append(s.Quotes, readQuote(q.separate()))
	}
	for _, m := range t.list("measured") {
		s.Measured = append(s.Measured, readMeasurement(m.separate()))
	}
	for _, m := range t.list("measured_ozone") {
		s.MeasuredOzone = append(s.MeasuredOzone, readOzone(m.separate()))
	}
	t.measuredOnce(s.Measured)
	t.wordingFiles()
	s.Origin = t.done()
}

// whom returns who is to be called, or "" where the shop leaves it to the page's blank.
func (t *table) whom(key string) string {
	text := t.blankText(key)
	if text != "" && (saysNothing(text) || strings.Contains(text, "?") || undecided(text)) {
		t.fault(badQuote, key, t.origin.Of(key), "leave the text empty: a blank for the qualified person is printed", "%s is no value", quoted(text))
		return ""
	}
	return text
}

// wordingFiles takes note of the files that hold the shop's own wording; they are read beside the job.
func (t *table) wordingFiles() {
	if e := t.get("wording"); e != nil && e.value.kind != kindText {
		t.texts("wording", t.array("wording"))
		return
	}
	t.text("wording")
}

// readQuote reads a copied value. Without its source it would be a claim of this program.
func readQuote(t *table) harness.Quote {
	t.require("what", "value", "source")
	q := harness.Quote{What: t.text("what"), Value: t.settled("value"), Source: t.settled("source")}
	at := t.origin.Of("quote.value")
	switch claim := claimIn(q.Value); {
	case q.Value != "" && saysNothing(q.Value):
		t.fault(badQuote, "value", at, "take the quote out: a blank for the qualified person is printed in its place", "%s is no value", quoted(q.Value))
	case claim != "":
		t.fault(safetyClaim, "value", at, "quote the figure or the marking; a page cannot judge an exposure", "the value uses the words %s", quoted(claim))
	case q.Source != "" && saysNothing(q.Source):
		t.fault(badQuote, "source", t.origin.Of("quote.source"), "name the document, with page or revision", "%s is no source", quoted(q.Source))
	}
	q.Origin = t.done()
	return q
}

// settled returns a text that stands for itself and not for one still to be found: what is not known stays a blank on the
// page, and a measurement without who and where is none.
func (t *table) settled(key string) string {
	text := t.text(key)
	if strings.Contains(text, "?") || undecided(text) {
		t.fault(placeholder, key, t.origin.Of(t.prefix+key), "write it, or take the entry out", "%s is a placeholder", quoted(text))
		return ""
	}
	return text
}

// readMeasurement reads one spectral line. Who, when and where belong to every measurement.
func readMeasurement(t *table) harness.Measurement {
	t.require("what", "nm", "irradiance", "by", "on", "at")
	m := harness.Measurement{What: t.settled("what"), By: t.settled("by"), At: t.settled("at"), On: t.day("on")}
	const shortest, longest = 180_000, 400_000 // thousandths of a nanometre
	if m.Nanometres = t.factor("nm"); m.Nanometres != 0 && (m.Nanometres < shortest || m.Nanometres > longest) {
		t.fault(outOfRange, "nm", t.origin.Of(t.prefix+"nm"), "the limits hold from 180 to 400 nm", "%s nm is outside 180 to 400 nm", m.Nanometres)
	}
	m.Irradiance = measure(t, "irradiance", units.ParseIrradiance, positive)
	m.Origin = t.done()
	return m
}

// readOzone reads ozone in air.
func readOzone(t *table) harness.OzoneMeasurement {
	t.require("what", "ppm", "by", "on", "at")
	m := harness.OzoneMeasurement{What: t.settled("what"), PPM: t.factor("ppm"), By: t.settled("by"), At: t.settled("at"), On: t.day("on")}
	m.Origin = t.done()
	return m
}

// measuredOnce refuses a line of one source that is given twice for a place: added up it would count double.
func (t *table) measuredOnce(measured []harness.Measurement) {
	type key struct {
		what, at   string
		nanometres units.Factor
	}
	first := map[key]problem.Place{}
	for _, m := range measured {
		if m.What == "" || m.At == "" || m.Nanometres == 0 {
			continue // at fault, and reported
		}
		k, at := key{m.What, m.At, m.Nanometres}, m.Of("measured.nm")
		if other, doubled := first[k]; doubled {
			t.add(with(about(fault(doubledElement, at, "%s nm of %s at %s is measured twice", m.Nanometres, quoted(m.What), quoted(m.At)),
				"", "leave the measurement that holds"), other, "it is given here already"), "measured")
			continue
		}
		first[k] = at
	}
}

// checkQuotes finds quotes of something that the safety page has no place for, and values quoted twice.
func checkQuotes(h *harness.Harness) problem.List {
	var names []string
	for _, b := range h.Safety.Wordings[0].Blanks {
		if b.What != "officer" && b.What != "emergency" { // these have keys of their own
			names = append(names, b.What)
		}
	}
	var found problem.List
	first := map[string]problem.Place{}
	for _, q := range h.Safety.Quotes {
		at := q.Of("quote.what")
		other, doubled := first[q.What]
		switch {
		case q.What == "":
		case !contains(names, q.What):
			found = append(found, about(fault(badQuote, at, "the safety page has no place for a quote of %s", quoted(q.What)), "",
				"write "+alternatives(names)))
		case doubled:
			found = append(found, with(about(fault(badQuote, at, "%s is quoted twice", quoted(q.What)), "", "leave one of the quotes"),
				other, "it is quoted here already"))
		}
		if !doubled {
			first[q.What] = at
		}
	}
	return found
}
