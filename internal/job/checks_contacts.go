package job

import (
	"loomleaf/internal/handbook"
	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

// eachContact walks the ends that have both a known contact and a known wire type.
func eachContact(h *harness.Harness, visit func(e wireEnd, c *harness.Contact, t *harness.WireType)) {
	l := newLookup(h)
	for _, e := range wireEnds(h) {
		contact, wireType := l.contacts[e.end.Contact], l.types[e.wire.Type]
		if contact != nil && wireType != nil {
			visit(e, contact, wireType)
		}
	}
}

// checkGauges finds wires too thick or too thin for a contact. Where wires share one, their sum counts.
func checkGauges(h *harness.Harness) problem.List {
	in := wired(h)
	var found problem.List
	eachContact(h, func(e wireEnd, c *harness.Contact, t *harness.WireType) {
		if c.AWGFrom == "" || len(in[e.where()]) > 1 || conductorFits(t, c) {
			return
		}
		p := about(fault(gaugeOutside, e.at, "wire %s of %s lands in %s, where contact %s takes %s to %s AWG",
			quoted(e.wire.ID), conductor(t), quoted(e.where()), quoted(c.ID), c.AWGFrom, c.AWGTo), e.wire.ID, "choose another wire type or another contact")
		found = append(found, with(p, c.Of("awg"), "the range of the contact stands here"))
	})
	return found
}

func conductor(t *harness.WireType) string {
	if t.AWG != "" {
		return t.AWG + " AWG"
	}
	return t.Section.String()
}

// conductorFits compares gauges where both are gauges. A metric section fits where the gauge nearest to it does.
func conductorFits(t *harness.WireType, c *harness.Contact) bool {
	if t.AWG != "" {
		thickest, _ := handbook.CompareGauge(t.AWG, c.AWGFrom)
		thinnest, _ := handbook.CompareGauge(t.AWG, c.AWGTo)
		return thickest <= 0 && thinnest >= 0
	}
	thickest, _ := handbook.WireSizeOf(c.AWGFrom)
	thinnest, _ := handbook.WireSizeOf(c.AWGTo)
	return halfGauge(int64(t.Section), int64(thickest.Area)) && halfGauge(int64(thinnest.Area), int64(t.Section))
}

// halfGauge reports whether one section is at most half a gauge larger than another. Sections of neighbouring gauges
// differ by 92^(2/39) = 1.261 (ASTM B258, definition of the scale; derived); half of that step is the factor 1.123.
func halfGauge(larger, than int64) bool { return larger*1000 <= than*1123 }

// checkDiameters finds insulation that a contact does not take.
func checkDiameters(h *harness.Harness) problem.List {
	var found problem.List
	eachContact(h, func(e wireEnd, c *harness.Contact, t *harness.WireType) {
		if c.InsulationTo == 0 || t.Diameter >= c.InsulationFrom && t.Diameter <= c.InsulationTo {
			return
		}
		p := about(fault(diameterOutside, e.at, "wire %s with a diameter of %s lands in %s, where contact %s takes %s to %s",
			quoted(e.wire.ID), t.Diameter, quoted(e.where()), quoted(c.ID), c.InsulationFrom, c.InsulationTo), e.wire.ID,
			"choose another wire type or another contact")
		found = append(found, with(p, c.Of("insulation"), "the range of the contact stands here"))
	})
	return found
}

// checkSections finds shared cavities whose wires together are too thick or too thin for the contact.
func checkSections(h *harness.Harness) problem.List {
	l := newLookup(h)
	in := wired(h)
	var found problem.List
	for _, c := range h.Connectors {
		for _, s := range c.Shared {
			where := c.ID + ":" + s.Cavity
			if p := sectionFault(l, where, in[where]); p != nil {
				p.Place, p.ID = s.Of("shared.cavity"), c.ID
				found = append(found, *p)
			}
		}
	}
	return found
}

// sectionFault compares what lands in a cavity with what its contact takes.
func sectionFault(l *lookup, where string, ends []wireEnd) *problem.Problem {
	if len(ends) < 2 {
		return nil
	}
	contact := l.contacts[ends[0].end.Contact]
	sum, known := combined(l, ends)
	if contact == nil || contact.AWGFrom == "" || !known {
		return nil
	}
	most, _ := handbook.WireSizeOf(contact.AWGFrom)
	least, _ := handbook.WireSizeOf(contact.AWGTo)
	if halfGauge(int64(sum), int64(most.Area)) && halfGauge(int64(least.Area), int64(sum)) {
		return nil
	}
	p := fault(sectionOutside, problem.Place{}, "the wires in %s have %s mm2 together, and contact %s takes %s to %s AWG, %s to %s mm2",
		quoted(where), sum.SquareMillimetres(), quoted(contact.ID), contact.AWGFrom, contact.AWGTo,
		most.Area.SquareMillimetres(), least.Area.SquareMillimetres())
	p.Hint = "choose another contact, or join the wires elsewhere"
	p = with(p, contact.Of("awg"), "the range of the contact stands here")
	return &p
}

// combined sums the sections of wires, of gauges as the gauge scale defines them.
func combined(l *lookup, ends []wireEnd) (sum units.Area, known bool) {
	for _, e := range ends {
		t := l.types[e.wire.Type]
		if t == nil {
			return 0, false
		}
		section := t.Section
		if size, listed := handbook.WireSizeOf(t.AWG); listed {
			section = size.Area
		}
		sum += section
	}
	return sum, true
}

// checkStrips finds ends for which nothing says how far to strip.
func checkStrips(h *harness.Harness) problem.List {
	l := newLookup(h)
	var found problem.List
	for _, e := range wireEnds(h) {
		known := l.connectors[e.end.Connector] != nil && l.cavity(e.end.Connector, e.end.Cavity) != nil
		if known && e.end.Contact == "" && !set(e.wire.Origin, e.side+".strip") {
			found = append(found, about(fault(noStrip, e.at, "end %s of wire %s has neither a contact nor a strip length", e.side, quoted(e.wire.ID)),
				e.wire.ID, "write contact in the connector, or strip in the end of the wire"))
		}
	}
	return found
}
