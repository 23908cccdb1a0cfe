package job

import (
	"strings"

	"loomleaf/internal/handbook"
	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
)

const (
	mostSamples = 100
	mostLot     = 10_000_000
)

func readInspection(h *harness.Harness, t *table) {
	t.require("samples", "hold")
	i := &h.Inspection
	i.Samples, _ = t.whole("samples", 1, mostSamples)
	i.Continuity = t.blankText("continuity")
	for _, word := range t.words("hold", string(harness.OperationCut), string(harness.OperationCrimp), string(harness.OperationSplice),
		string(harness.OperationBoard), string(harness.OperationTest), string(harness.OperationFinal)) {
		i.Hold = append(i.Hold, harness.Operation(word))
	}
	for _, e := range t.list("exclude") {
		i.Exclusions = append(i.Exclusions, readExclusion(e.separate()))
	}
	for _, s := range t.list("sampling") {
		i.Sampling = append(i.Sampling, readSampling(s.separate()))
	}
	i.Origin = t.done()
}

func readExclusion(t *table) harness.Exclusion {
	t.require("at", "why")
	e := harness.Exclusion{At: t.ids("at", t.filled("at")), Why: t.text("why")}
	e.Origin = t.done()
	return e
}

// sampled lists what may be inspected by samples: what every piece is looked at for anyway, with more care.
func sampled() []string { return []string{"cut length", "mark", "strip", "crimp", "workmanship"} }

func readSampling(t *table) harness.Sampling {
	t.require("what", "lot", "level", "aql")
	s := harness.Sampling{}
	what := t.name("what")
	if word := strings.ToLower(what); strings.Contains(word, "continuity") || strings.Contains(word, "cavit") {
		t.fault(neverSampled, "what", t.origin.Of(t.prefix+"what"), "take the entry out: every cavity and every net is tested in every unit",
			"%s is never sampled", quoted(what))
	} else {
		s.What = t.word("what", sampled()...)
	}
	s.Lot, _ = t.whole("lot", 2, mostLot)
	s.Level = t.word("level", handbook.InspectionLevels()...)
	s.AQL = t.word("aql", handbook.AcceptanceLimits()...)
	s.Origin = t.done()
	return s
}

// checkSampling finds lots for which no plan is at hand, and what is sampled twice.
func checkSampling(h *harness.Harness) problem.List {
	var found problem.List
	first := map[string]problem.Place{}
	for _, s := range h.Inspection.Sampling {
		if _, listed := handbook.SamplePlanOf(s.Lot, s.Level, s.AQL); !listed {
			found = append(found, about(fault(noSamplePlan, s.At, "no sampling plan is at hand for a lot of %d at level %s and AQL %s", s.Lot, s.Level, s.AQL),
				s.What, "split the lot, or leave the sampling out: then every piece is inspected"))
		}
		if other, doubled := first[s.What]; doubled {
			found = append(found, with(about(fault(doubledElement, s.Of("sampling.what"), "%s is sampled by two plans", quoted(s.What)), s.What,
				"leave one of them"), other, "the other one stands here"))
			continue
		}
		first[s.What] = s.Of("sampling.what")
	}
	return found
}

// checkExclusions finds exclusions at what the job does not have.
func checkExclusions(h *harness.Harness) problem.List {
	var known []string
	for _, ids := range [][]string{connectorIDs(h), jointIDs(h)} {
		known = append(known, ids...)
	}
	spell := newSpeller(known)
	var found problem.List
	for _, e := range h.Inspection.Exclusions {
		for i, id := range e.At {
			if !contains(known, id) {
				found = append(found, about(fault(unknownExcluded, e.Of(elementKey("exclude.at", i)),
					"the high-potential test is to leave out %s, which the job does not have", quoted(id)), id,
					spell.hint(id, "name connectors, splices and terminals")))
			}
		}
	}
	return found
}
