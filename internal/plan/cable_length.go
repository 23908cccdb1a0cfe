package plan

import (
	"cmp"
	"fmt"
	"slices"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

// coreLength is a core of a cable: what it needs from a common point of all cores to either end.
type coreLength struct {
	wire         *harness.Wire
	stretch      stretch
	needA, needB units.Length
}

// cableLength is the length of a cable, and what its cores are cut back by.
type cableLength struct {
	measured
	trims map[string][2]units.Length // by wire, beyond its own trim, at ends a and b
	notes map[string]string          // by wire, where no end can be named

	stretch stretch
	most    [2]*harness.Wire // cores that need most at ends a and b; nil without cores
}

// measureCable returns the length of a cable. The cores lie fixed in their jacket: the cable takes, from a node that all of them
// pass, the most that any core needs to end a and the most that any needs to end b. Without such a node the core that needs most
// in all decides. A core without a way has its problem told by its own row.
func (m *measurer) measureCable(c *harness.Cable, cores []*harness.Wire) (cableLength, problem.List) {
	lengths := make([]coreLength, len(cores))
	for i, core := range cores {
		s, problems := m.stretchOf(core)
		if len(problems) > 0 {
			return cableLength{}, nil
		}
		lengths[i] = coreLength{wire: core, stretch: s}
	}
	if turned := turnedCore(cores); turned != nil {
		return cableLength{}, problem.List{{Check: "core-turned", Place: turned.Of("from"), ID: turned.ID,
			Text: fmt.Sprintf("wire %q runs from end b of cable %q to end a, against wire %q", turned.ID, c.ID, cores[0].ID),
			Hint: "exchange its from and to, so that all cores of the cable run from end a to end b"}}
	}
	s := stretch{noun: "cable", id: c.ID, origin: c.Origin, given: c.Given, givenIs: m.h.Job.LengthIs, loop: m.h.Allowance.Loop}
	result := cableLength{trims: map[string][2]units.Length{}, notes: map[string]string{}}
	result.decide(m.router, &s, lengths)
	switch {
	case c.Measure:
		return cableLength{measured: measured{status: harness.LengthMeasure, way: s.way}}, nil
	case supplyOf(c.Supply) != harness.SupplyReel:
		return cableLength{measured: m.uncut(s)}, m.checkReady(s)
	}
	length, problems := m.length(s)
	result.measured, result.stretch = length, s
	return result, problems
}

// turnedCore returns the first core whose ends go to the same two things as those of the first core, the other way round.
func turnedCore(cores []*harness.Wire) *harness.Wire {
	for _, core := range cores {
		a, b := cores[0].A.Body(), cores[0].B.Body()
		if a != b && a != "" && b != "" && core.A.Body() == b && core.B.Body() == a {
			return core
		}
	}
	return nil
}

// decide fills in way and ends of a cable from its cores, and what each core is cut back by.
func (l *cableLength) decide(router *boardRouter, s *stretch, cores []coreLength) {
	if len(cores) == 0 {
		return
	}
	bare := slices.IndexFunc(cores, func(c coreLength) bool { return !c.stretch.onBoard })
	s.onBoard = bare < 0
	node := ""
	if s.onBoard {
		if node = meeting(cores); node == "" {
			l.decideWhole(s, cores)
			return
		}
	}
	for i := range cores {
		cores[i].split(router, node)
	}
	a := slices.MaxFunc(cores, func(a, b coreLength) int { return cmp.Compare(a.needA, b.needA) })
	b := slices.MaxFunc(cores, func(a, b coreLength) int { return cmp.Compare(a.needB, b.needB) })
	for _, core := range cores {
		l.trims[core.wire.ID] = [2]units.Length{a.needA - core.needA, b.needB - core.needB}
	}
	s.a, s.b, s.way = a.stretch.a, b.stretch.b, a.stretch.way
	l.most = [2]*harness.Wire{a.wire, b.wire}
	s.way.length = a.needA - a.stretch.a.beyond() + b.needB - b.stretch.b.beyond()
	if bare >= 0 { // for the message alone
		s.a.place, s.a.noun, s.a.id = cores[bare].stretch.a.place, cores[bare].stretch.a.noun, cores[bare].stretch.a.id
		s.b.place, s.b.noun, s.b.id = cores[bare].stretch.b.place, cores[bare].stretch.b.noun, cores[bare].stretch.b.id
	}
}

// decideWhole lets the core that needs most in all decide. Where the others are longer than they need nobody can say.
func (l *cableLength) decideWhole(s *stretch, cores []coreLength) {
	longest := slices.MaxFunc(cores, func(a, b coreLength) int { return cmp.Compare(a.whole(), b.whole()) })
	s.way, s.a, s.b = longest.stretch.way, longest.stretch.a, longest.stretch.b
	l.most = [2]*harness.Wire{longest.wire, longest.wire}
	for _, core := range cores {
		if spare := longest.whole() - core.whole(); spare > 0 {
			l.notes[core.wire.ID] = fmt.Sprintf("the cable is %s longer than this core needs", spare)
		}
	}
}

// meeting returns the first node along the first core that all cores pass, "" where there is none.
func meeting(cores []coreLength) string {
	for _, node := range cores[0].stretch.way.nodes {
		if !slices.ContainsFunc(cores, func(c coreLength) bool { return !slices.Contains(c.stretch.way.nodes, node) }) {
			return node
		}
	}
	return ""
}

// whole returns the need of a core from end to end.
func (c coreLength) whole() units.Length {
	return c.stretch.way.length + c.stretch.a.beyond() + c.stretch.b.beyond()
}

// split divides the need of a core at a node that it passes; without a node its ends alone count.
func (c *coreLength) split(router *boardRouter, node string) {
	way := c.stretch.way
	var toA, toB units.Length
	if at := slices.Index(way.nodes, node); at >= 0 {
		toA = way.before + router.along(way.nodes[:at+1])
		toB = way.length - toA
	}
	c.needA, c.needB = toA+c.stretch.a.beyond(), toB+c.stretch.b.beyond()
}
