package job

import (
	"fmt"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
)

// checkCables finds cores of a cable that the job does not have.
func checkCables(h *harness.Harness) problem.List {
	l := newLookup(h)
	spell := newSpeller(idsOf(h.Cables, func(c *harness.Cable) string { return c.ID }))
	var found problem.List
	for _, w := range h.Wires {
		if w.Cable != "" && l.cables[w.Cable] == nil {
			found = append(found, about(fault(unknownCable, w.Of("cable"), "wire %s is a core of cable %s, which the job does not have", quoted(w.ID), quoted(w.Cable)),
				w.ID, spell.hint(w.Cable, "add a [[cable]] with this id")))
		}
	}
	return found
}

// checkCores finds cores that the type of their cable lacks, and cores used by two wires.
func checkCores(h *harness.Harness) problem.List {
	l := newLookup(h)
	type use struct{ cable, core string }
	first := map[use]*harness.Wire{}
	var found problem.List
	for i := range h.Wires {
		w := &h.Wires[i]
		t := l.typeOf(w)
		if t == nil || w.Core == "" {
			continue
		}
		other := first[use{w.Cable, w.Core}]
		switch {
		case core(t, w.Core) == nil:
			p := about(fault(unknownCore, w.Of("core"), "wire %s is core %s of cable %s, which type %s does not have",
				quoted(w.ID), quoted(w.Core), quoted(w.Cable), quoted(t.ID)), w.ID, coreHint(t, w.Core))
			found = append(found, with(p, t.Of("cores"), "its cores are listed here"))
		case other != nil:
			p := about(fault(coreTaken, w.Of("core"), "wires %s and %s are both core %s of cable %s",
				quoted(other.ID), quoted(w.ID), quoted(w.Core), quoted(w.Cable)), w.ID, "correct one of them")
			found = append(found, with(p, other.Of("core"), "the other wire names it here"))
		default:
			first[use{w.Cable, w.Core}] = w
		}
	}
	return found
}

// coreHint offers the same name in another case or padding, or says how many cores there are.
func coreHint(t *harness.CableType, name string) string {
	for _, c := range t.Cores {
		if plainForm(c.ID) == plainForm(name) {
			return "did you mean " + quoted(c.ID) + "?"
		}
	}
	if len(t.Cores) == 1 {
		return "the type has one core, " + quoted(t.Cores[0].ID)
	}
	return fmt.Sprintf("the type has %d cores, %s to %s", len(t.Cores), quoted(t.Cores[0].ID), quoted(t.Cores[len(t.Cores)-1].ID))
}

// checkShields finds ends of shielded cables that do not say what becomes of the shield, and shields that are not there.
func checkShields(h *harness.Harness) problem.List {
	l := newLookup(h)
	var found problem.List
	for i := range h.Cables {
		c := &h.Cables[i]
		t := l.cableTypes[c.Type]
		if t == nil {
			continue
		}
		made := c.Supply == harness.SupplyExisting || c.Supply == harness.SupplyWithPart // its ends are made already
		for _, side := range cableSides(c) {
			switch {
			case t.Shield != "" && side.end.Shield == "" && !made && !set(c.Origin, side.name+".shield"):
				p := about(fault(noShieldEnd, c.Of(side.name), "end %s of cable %s does not say what becomes of its shield", side.name, quoted(c.ID)), c.ID,
					`write shield = "pigtail", "cut back" or "through" in that end`)
				found = append(found, with(p, t.Of("shield"), "the type has a shield here"))
			case t.Shield == "" && side.end.Shield != "":
				p := about(fault(noShield, c.Of(side.name+".shield"), "end %s of cable %s treats a shield, and type %s has none", side.name, quoted(c.ID), quoted(t.ID)),
					c.ID, "take it out, or write the shield into the type")
				found = append(found, with(p, t.At, "the type stands here"))
			}
		}
	}
	return found
}

// checkCoreEnds finds cores that run against the others of their cable, and warns of those with both ends in one thing:
// a cable has two ends, and each core has one at either.
func checkCoreEnds(h *harness.Harness) problem.List {
	var found problem.List
	for _, r := range runs(h) {
		if r.cable == nil || len(r.ends()) < 2*len(r.wires) || len(r.wires) < 2 {
			continue
		}
		for _, w := range r.wires {
			a, b := w.A.Body(), w.B.Body()
			switch other := against(w, r.wires); {
			case a == "" || b == "":
			case a == b:
				found = append(found, warning(about(fault(coreLoops, w.Of("to"), "both ends of wire %s are at %s, and it is a core of cable %s, whose ends lie apart",
					quoted(w.ID), quoted(a), quoted(r.id)), w.ID, "make sure that it goes where its fellows go")))
			case other != nil:
				p := about(fault(coreTurned, w.Of("from"), "wire %s runs from %s to %s, against wire %s in cable %s",
					quoted(w.ID), quoted(a), quoted(b), quoted(other.ID), quoted(r.id)), w.ID,
					"exchange its from and to, with a and b, so that all cores run from end a to end b of the cable")
				found = append(found, with(p, other.Of("from"), "the other wire starts here"))
			}
		}
	}
	return found
}

// against returns the first wire before w, if any, that runs from where w ends to where w starts.
func against(w *harness.Wire, cores []*harness.Wire) *harness.Wire {
	for _, other := range cores {
		if other == w {
			return nil
		}
		if other.A.Body() == w.B.Body() && other.B.Body() == w.A.Body() && w.A.Body() != w.B.Body() {
			return other
		}
	}
	return nil
}

// checkCoreSeparations finds cores of one cable that must be kept apart.
func checkCoreSeparations(h *harness.Harness) problem.List {
	first := map[string]*harness.Wire{}
	var found problem.List
	for i := range h.Wires {
		w := &h.Wires[i]
		other := first[w.Cable]
		switch {
		case w.Cable == "" || w.Separation == "":
		case other == nil:
			first[w.Cable] = w
		case other.Separation != w.Separation:
			p := about(fault(coreSeparation, w.Of("separation"), "wires %s and %s must be kept apart, and both are cores of cable %s",
				quoted(other.ID), quoted(w.ID), quoted(w.Cable)), w.ID, "put one of them into another cable, or correct its separation")
			found = append(found, with(p, other.Of("separation"), "the other separation stands here"))
		}
	}
	return found
}
