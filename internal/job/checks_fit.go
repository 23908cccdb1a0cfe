package job

import (
	"loomleaf/internal/handbook"
	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
)

// landed is an end in what takes it, and whether the two fit.
type landed struct {
	wireEnd
	taker taker
	c     conductor
	fits  bool
}

// sizing is one thing that must fit between a conductor and what takes it.
type sizing struct {
	check, key string                 // name of the check; key of the range in what takes the conductor
	ofKey      func(conductor) string // key of the size in the type
	of         func(conductor) string // "of 22 AWG", "with a diameter of 1.27 mm"
	takes      func(taker) string     // "20 to 24 AWG"
}

// checkGauges finds wires too thick or too thin for what takes them. Where wires share one, their sum counts.
func checkGauges(h *harness.Harness) problem.List {
	in := wired(h)
	var all []landed
	eachTaker(h, func(e wireEnd, t taker, c conductor) {
		if t.from != "" && !together(in, e) {
			all = append(all, landed{e, t, c, c.fits(t.from, t.to)})
		}
	})
	return sizing{gaugeOutside, "awg", conductor.sizeKey,
		func(c conductor) string { return "of " + c.String() },
		func(t taker) string { return t.from + " to " + t.to + " AWG" }}.misfits(all)
}

// fits reports whether a range of gauges takes the conductor.
func (c conductor) fits(from, to string) bool { return handbook.Takes(c.awg, c.section, from, to) }

// checkDiameters finds insulation that a contact or terminal does not take.
func checkDiameters(h *harness.Harness) problem.List {
	var all []landed
	eachTaker(h, func(e wireEnd, t taker, c conductor) {
		if t.insulation[1] > 0 && c.diameter > 0 {
			all = append(all, landed{e, t, c, c.diameter >= t.insulation[0] && c.diameter <= t.insulation[1]})
		}
	})
	return sizing{diameterOutside, "insulation", func(conductor) string { return "diameter" },
		func(c conductor) string { return "with a diameter of " + c.diameter.String() },
		func(t taker) string { return t.insulation[0].String() + " to " + t.insulation[1].String() }}.misfits(all)
}

// record counts the ends of a type, or those in what takes them.
type record struct {
	ends, misfits int
	other         string // the first that it met: a taker of a type, a type in a taker
	several       bool   // it met more than one
	fitElsewhere  bool   // of a taker: a type that does not fit in it fits somewhere
}

func (r *record) meets(other string, fits bool) {
	r.ends++
	if !fits {
		r.misfits++
	}
	if r.other == "" {
		r.other = other
	}
	r.several = r.several || r.other != other
}

// none reports whether nothing fits, and more than once: then the fault is more likely here than at each end.
func (r *record) none() bool { return r.misfits == r.ends && r.ends > 1 }

func recordOf(records map[string]*record, key string) *record {
	if records[key] == nil {
		records[key] = &record{}
	}
	return records[key]
}

// Keys of types and takers; no id holds a colon.
func (l landed) typeKey() string  { return l.c.typeID + ":" + l.c.core }
func (l landed) takerKey() string { return l.taker.kind + ":" + l.taker.id }

// misfits reports what does not fit, where it most likely is wrong: once for a contact that fits none of several types, or none
// whose type fits elsewhere; once for a type that fits nowhere; else at each end.
func (s sizing) misfits(all []landed) problem.List {
	types, takers := map[string]*record{}, map[string]*record{}
	for _, one := range all {
		recordOf(types, one.typeKey()).meets(one.takerKey(), one.fits)
		recordOf(takers, one.takerKey()).meets(one.typeKey(), one.fits)
	}
	for _, one := range all {
		if t := types[one.typeKey()]; !one.fits && t.misfits < t.ends {
			takers[one.takerKey()].fitElsewhere = true
		}
	}
	var found problem.List
	said := map[*record]bool{}
	for _, one := range all {
		t, k := types[one.typeKey()], takers[one.takerKey()]
		switch {
		case one.fits, said[t], said[k]:
		case k.none() && (k.several || k.fitElsewhere):
			said[k] = true
			found = append(found, s.atTaker(one, k))
		case t.none():
			said[t] = true
			found = append(found, s.atType(one, t))
		default:
			found = append(found, s.atEnd(one))
		}
	}
	return found
}

func (s sizing) atTaker(one landed, k *record) problem.Problem {
	p := about(fault(s.check, one.taker.origin.Of(s.key), "%s takes %s, and none of the %d ends in it fits, such as that of wire %s %s in %s", one.taker.name(),
		s.takes(one.taker), k.ends, quoted(one.wire.ID), s.of(one.c), quoted(one.where())), one.taker.id,
		"correct the range, or choose another "+one.taker.kind)
	return with(p, one.at, "this end lands in it")
}

func (s sizing) atType(one landed, t *record) problem.Problem {
	p := about(fault(s.check, one.c.of(s.ofKey(one.c)), "%s %s fits at none of its %d ends: wire %s lands in %s, where %s takes %s", one.c.name(),
		s.of(one.c), t.ends, quoted(one.wire.ID), quoted(one.where()), one.taker.name(), s.takes(one.taker)), one.wire.ID,
		"correct the type, or choose another one, or other contacts")
	if !t.several {
		return with(p, one.taker.origin.Of(s.key), "the range of the "+one.taker.kind+" stands here")
	}
	return with(p, one.at, "the wire lands here")
}

func (s sizing) atEnd(one landed) problem.Problem {
	p := about(fault(s.check, one.at, "wire %s %s lands in %s, where %s takes %s", quoted(one.wire.ID), s.of(one.c), quoted(one.where()),
		one.taker.name(), s.takes(one.taker)), one.wire.ID, "choose another wire type or another contact")
	return with(p, one.taker.origin.Of(s.key), "the range of the "+one.taker.kind+" stands here")
}
