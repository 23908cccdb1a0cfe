package job

import (
	"fmt"

	"loomleaf/internal/handbook"
	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

// taker is what takes wires: a contact, a splice or a terminal.
type taker struct {
	kind, id   string // "contact", "S22"
	from, to   string // thickest and thinnest gauge; empty when not given
	insulation [2]units.Length
	crimps     []harness.Crimp
	origin     *harness.Origin
}

// name names a taker for messages: `contact "S22"`.
func (t taker) name() string { return t.kind + " " + quoted(t.id) }

// taker returns what takes an end; false where that is not known.
func (l *lookup) taker(e wireEnd) (taker, bool) {
	contact, splice, terminal := l.contacts[e.end.Contact], l.splices[e.end.Splice], l.terminals[e.end.Terminal]
	switch {
	case contact != nil && e.is(harness.EndCavity, harness.EndLeaves):
		return taker{"contact", contact.ID, contact.AWGFrom, contact.AWGTo,
			[2]units.Length{contact.InsulationFrom, contact.InsulationTo}, contact.Crimps, &contact.Origin}, true
	case splice != nil:
		return taker{"splice", splice.ID, splice.AWGFrom, splice.AWGTo, [2]units.Length{}, nil, &splice.Origin}, true
	case terminal != nil:
		return taker{"terminal", terminal.ID, terminal.AWGFrom, terminal.AWGTo, terminal.Insulation, terminal.Crimps, &terminal.Origin}, true
	}
	return taker{}, false
}

// eachTaker walks the ends of which both the taker and the conductor are known.
func eachTaker(h *harness.Harness, visit func(e wireEnd, t taker, c conductor)) {
	l := newLookup(h)
	for _, e := range wireEnds(h) {
		t, taken := l.taker(e)
		c, known := l.conductor(e.wire)
		if taken && known {
			visit(e, t, c)
		}
	}
}

// together reports whether an end shares one barrel with others; each side of a splice is a matter of its own.
func together(in map[string][]wireEnd, e wireEnd) bool {
	return e.is(harness.EndCavity, harness.EndTerminal) && len(in[e.where()]) > 1
}

// checkSections finds shared cavities, and terminals, whose wires together are too thick or too thin.
func checkSections(h *harness.Harness) problem.List {
	l := newLookup(h)
	in := wired(h)
	var found problem.List
	check := func(where, id string, at func([]wireEnd) problem.Place) {
		if p := sectionFault(l, where, in[where]); p != nil {
			p.Place, p.ID = at(in[where]), id
			found = append(found, *p)
		}
	}
	for _, c := range h.Connectors {
		for _, s := range c.Shared {
			check(c.ID+":"+s.Cavity, c.ID, func([]wireEnd) problem.Place { return s.Of("shared.cavity") })
		}
	}
	for _, t := range h.Terminals {
		check(t.ID, t.ID, func(ends []wireEnd) problem.Place { return ends[len(ends)-1].at })
	}
	return found
}

// sectionFault compares what lands together with what takes it.
func sectionFault(l *lookup, where string, ends []wireEnd) *problem.Problem {
	if len(ends) < 2 {
		return nil
	}
	t, taken := l.taker(ends[0])
	sum, known := combined(l, ends)
	if !taken || t.from == "" || !known || handbook.TakesTogether(sum, t.from, t.to) {
		return nil
	}
	most, _ := handbook.WireSizeOf(t.from)
	least, _ := handbook.WireSizeOf(t.to)
	p := fault(sectionOutside, problem.Place{}, "the wires in %s have %s mm2 together, and %s takes %s to %s AWG, %s to %s mm2",
		quoted(where), sum.SquareMillimetres(), t.name(), t.from, t.to, most.Area.SquareMillimetres(), least.Area.SquareMillimetres())
	p.Hint = "choose another contact, or join the wires elsewhere"
	p = with(p, t.origin.Of("awg"), "the range of the "+t.kind+" stands here")
	return &p
}

// combined sums the sections of wires, of gauges as the gauge scale defines them.
func combined(l *lookup, ends []wireEnd) (sum units.Area, known bool) {
	for _, e := range ends {
		c, known := l.conductor(e.wire)
		if !known {
			return 0, false
		}
		sum += c.area()
	}
	return sum, true
}

// area returns the section, of a gauge as the scale defines it.
func (c conductor) area() units.Area {
	if size, listed := handbook.WireSizeOf(c.awg); listed {
		return size.Area
	}
	return c.section
}

// checkSpliceSections finds sides of splices whose wires together are too thick or too thin.
func checkSpliceSections(h *harness.Harness) problem.List {
	l := newLookup(h)
	var found problem.List
	for _, s := range h.Splices {
		for i, side := range s.Sides {
			sum, known := l.sumOf(side)
			if s.Section[1] == 0 || !known || sum >= s.Section[0] && sum <= s.Section[1] {
				continue
			}
			p := about(fault(sectionOutside, s.Of(elementKey("sides", i)), "side %d of splice %s has %s mm2 together, and the splice takes %s to %s mm2",
				i+1, quoted(s.ID), sum.SquareMillimetres(), s.Section[0].SquareMillimetres(), s.Section[1].SquareMillimetres()), s.ID,
				"choose another splice, or join fewer wires in it")
			found = append(found, with(p, s.Of("section"), "the range of the splice stands here"))
		}
	}
	return found
}

// sumOf sums the sections of wires by their ids.
func (l *lookup) sumOf(ids []string) (sum units.Area, known bool) {
	for _, id := range ids {
		w := l.wires[id]
		if w == nil {
			return 0, false
		}
		c, known := l.conductor(w)
		if !known {
			return 0, false
		}
		sum += c.area()
	}
	return sum, len(ids) > 0
}

// checkCrimps warns of wires for which a contact or terminal lists no tool setting, once for each size. A list that is not
// there at all is somebody else's.
func checkCrimps(h *harness.Harness) problem.List {
	l := newLookup(h)
	in := wired(h)
	seen := map[string]bool{}
	var found problem.List
	for _, e := range wireEnds(h) {
		t, taken := l.taker(e)
		ends := []wireEnd{e}
		if together(in, e) {
			ends = in[e.where()]
			if ends[0] != e { // the first one speaks for all
				continue
			}
		}
		size, set := l.settingFor(ends, t)
		if !taken || set || seen[t.name()+size] {
			continue
		}
		seen[t.name()+size] = true
		p := about(fault(noCrimp, e.at, "wire %s lands in %s, and %s has no crimp setting for %s", quoted(e.wire.ID), quoted(e.where()), t.name(), size),
			e.wire.ID, "add the setting to crimp, as the maker of the contact gives it")
		found = append(found, warning(with(p, t.origin.Of("crimp"), "the settings stand here")))
	}
	return found
}

// settingFor reports whether a setting covers what lands together, and names its size.
func (l *lookup) settingFor(ends []wireEnd, t taker) (size string, set bool) {
	sum, known := combined(l, ends)
	if !known || len(t.crimps) == 0 {
		return "", true
	}
	one, _ := l.conductor(ends[0].wire)
	if size = one.String(); len(ends) > 1 {
		size = fmt.Sprintf("%d wires of %s mm2 together", len(ends), sum.SquareMillimetres())
	}
	from, to := t.crimps[0].AWGFrom, t.crimps[0].AWGTo
	for _, setting := range t.crimps {
		if len(ends) == 1 && one.fits(setting.AWGFrom, setting.AWGTo) {
			return size, true
		}
		from, to = thicker(from, setting.AWGFrom), thinner(to, setting.AWGTo)
	}
	return size, len(ends) > 1 && handbook.TakesTogether(sum, from, to) // several wires take the setting of the next larger size
}

func thicker(a, b string) string {
	if compared, _ := handbook.CompareGauge(a, b); compared < 0 {
		return b
	}
	return a
}

func thinner(a, b string) string {
	if compared, _ := handbook.CompareGauge(a, b); compared > 0 {
		return b
	}
	return a
}

// checkStrips finds ends for which nothing says how far to strip. What comes ready made is stripped already.
func checkStrips(h *harness.Harness) problem.List {
	l := newLookup(h)
	var found problem.List
	for _, e := range wireEnds(h) {
		if supply := l.supplyOf(e.wire); e.sets("strip") || supply != harness.SupplyReel {
			continue
		}
		if why, hint := l.unstripped(e); why != "" {
			found = append(found, about(fault(noStrip, e.at, "end %s of wire %s has %s", e.side, quoted(e.wire.ID), why), e.wire.ID, hint))
		}
	}
	return found
}

// unstripped says why nothing says how far to strip an end; "" where something does, or where the place is not known.
func (l *lookup) unstripped(e wireEnd) (why, hint string) {
	splice, terminal := l.splices[e.end.Splice], l.terminals[e.end.Terminal]
	switch {
	case e.is(harness.EndCavity) && l.cavity(e.end.Connector, e.end.Cavity) != nil && e.end.Contact == "":
		return "neither a contact nor a strip length", "write contact in the connector, or strip in the end of the wire"
	case splice != nil && !set(splice.Origin, "strip"):
		return "no strip length, and splice " + quoted(splice.ID) + " gives none", "write strip in the splice, or in the end of the wire"
	case terminal != nil && !set(terminal.Origin, "strip"):
		return "no strip length, and terminal " + quoted(terminal.ID) + " gives none", "write strip in the terminal, or in the end of the wire"
	}
	return "", ""
}
