package job

import (
	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

func readSafety(h *harness.Harness, t *table) {
	s := &h.Safety
	s.Officer, s.Emergency = t.blankText("officer"), t.blankText("emergency")
	s.Deference = t.texts("deference", t.array("deference"))
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
	t.texts("wording", t.array("wording")) // the files themselves are read beside the job
	s.Origin = t.done()
}

// readQuote reads a copied value. Without its source it would be a claim of this program.
func readQuote(t *table) harness.Quote {
	t.require("what", "value", "source")
	q := harness.Quote{What: t.text("what"), Value: t.text("value"), Source: t.text("source")}
	q.Origin = t.done()
	return q
}

// readMeasurement reads one spectral line. Who, when and where belong to every measurement.
func readMeasurement(t *table) harness.Measurement {
	t.require("what", "nm", "irradiance", "by", "on", "at")
	m := harness.Measurement{What: t.text("what"), By: t.text("by"), At: t.text("at"), On: t.day("on")}
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
	m := harness.OzoneMeasurement{What: t.text("what"), PPM: t.factor("ppm"), By: t.text("by"), At: t.text("at"), On: t.day("on")}
	m.Origin = t.done()
	return m
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
