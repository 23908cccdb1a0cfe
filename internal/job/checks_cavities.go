package job

import (
	"fmt"
	"slices"
	"strings"

	"loomleaf/internal/handbook"
	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
)

// checkDrawn compares the cavities of a connector with those that its face draws.
func checkDrawn(h *harness.Harness) problem.List {
	var found problem.List
	for i := range h.Connectors {
		c := &h.Connectors[i]
		switch c.Face.Kind {
		case harness.FaceRings:
			found = append(found, drawnRings(c)...)
		case harness.FaceRows:
			found = append(found, drawn(c, slices.Concat(c.Face.Rows...))...)
		case harness.FacePlaces:
			names := make([]string, len(c.Face.Places))
			for i, place := range c.Face.Places {
				names[i] = place.Cavity
			}
			found = append(found, drawn(c, names)...)
			found = append(found, apart(c)...)
		}
	}
	return found
}

// checkArrangements compares the cavities of a connector with the contacts of the insert that it names.
func checkArrangements(h *harness.Harness) problem.List {
	var found problem.List
	for i := range h.Connectors {
		c := &h.Connectors[i]
		contacts, source, listed := handbook.ContactsOf(c.Arrangement)
		if !listed {
			if c.Arrangement != "" {
				found = append(found, warning(about(fault(arrangementDiffers, c.Of("arrangement"), "arrangement %s of connector %s is not listed, and nothing counted its cavities",
					quoted(c.Arrangement), quoted(c.ID)), c.ID, "compare the cavities with the drawing of the insert")))
			}
			continue
		}
		sum := 0
		for _, size := range contacts {
			sum += size.Count
		}
		if sum != len(c.Cavities) {
			found = append(found, about(fault(arrangementDiffers, c.Of("cavities"), "connector %s has %d cavities, and arrangement %s has %d contacts",
				quoted(c.ID), len(c.Cavities), c.Arrangement, sum), c.ID, "compare the cavities with the drawing of the insert; "+source.String()))
		}
	}
	return found
}

// drawnRings can compare counts only: rings take the cavities in the order listed.
func drawnRings(c *harness.Connector) problem.List {
	sum := 0
	for _, count := range c.Face.Rings {
		sum += count
	}
	if sum == len(c.Cavities) {
		return nil
	}
	return problem.List{about(fault(undrawnCavity, c.Face.At, "the rings of connector %s have %d places for %d cavities",
		quoted(c.ID), sum, len(c.Cavities)), c.ID, "compare counts and cavities with the drawing of the insert")}
}

func drawn(c *harness.Connector, names []string) problem.List {
	var found problem.List
	report := func(text string) {
		found = append(found, about(fault(undrawnCavity, c.Face.At, "%s", text), c.ID, "compare face and cavities with the drawing of the insert"))
	}
	listed, seen := map[string]bool{}, map[string]bool{}
	for _, cavity := range c.Cavities {
		listed[cavity.Name] = true
	}
	for _, name := range names {
		switch {
		case !listed[name]:
			report(fmt.Sprintf("the face of connector %s draws cavity %s, which the connector does not have", quoted(c.ID), quoted(name)))
		case seen[name]:
			report(fmt.Sprintf("the face of connector %s draws cavity %s twice", quoted(c.ID), quoted(name)))
		}
		seen[name] = true
	}
	for _, cavity := range c.Cavities {
		if !seen[cavity.Name] {
			report(fmt.Sprintf("the face of connector %s does not draw cavity %s", quoted(c.ID), quoted(cavity.Name)))
		}
	}
	return found
}

// apart finds cavities drawn in the same place.
func apart(c *harness.Connector) problem.List {
	var found problem.List
	type spot struct{ x, y int64 }
	taken := map[spot]string{}
	for _, place := range c.Face.Places {
		here := spot{int64(place.X), int64(place.Y)}
		if other, is := taken[here]; is {
			found = append(found, about(fault(badFace, c.Face.At, "the face of connector %s draws cavities %s and %s in the same place",
				quoted(c.ID), quoted(other), quoted(place.Cavity)), c.ID, "compare the places with the drawing of the insert"))
			continue
		}
		taken[here] = place.Cavity
	}
	return found
}

// checkTaken finds several wires in a cavity that is not declared shared.
func checkTaken(h *harness.Harness) problem.List {
	shared := map[string]bool{}
	for _, c := range h.Connectors {
		for _, s := range c.Shared {
			shared[c.ID+":"+s.Cavity] = true
		}
	}
	first := map[string]wireEnd{}
	var found problem.List
	for _, e := range cavityEnds(h) {
		other, taken := first[e.where()]
		if !taken {
			first[e.where()] = e
			continue
		}
		if shared[e.where()] || other.wire == e.wire {
			continue
		}
		p := about(fault(cavityTaken, e.at, "wires %s and %s both land in %s", quoted(other.wire.ID), quoted(e.wire.ID), quoted(e.where())),
			e.wire.ID, "correct one of them, or declare the cavity in [[connector.shared]]")
		found = append(found, with(p, other.at, "the other wire lands here"))
	}
	return found
}

// checkShared compares each declaration of a shared cavity with the wires that land there.
func checkShared(h *harness.Harness) problem.List {
	l := newLookup(h)
	in := wired(h)
	var found problem.List
	for _, c := range h.Connectors {
		first := map[string]problem.Place{}
		for _, s := range c.Shared {
			at := s.Of("shared.cavity")
			other, doubled := first[s.Cavity]
			switch {
			case l.cavity(c.ID, s.Cavity) == nil:
				found = append(found, about(fault(unknownCavity, at, "connector %s has no cavity %s to share", quoted(c.ID), quoted(s.Cavity)), c.ID, ""))
			case doubled:
				p := about(fault(doubledID, at, "cavity %s of connector %s is declared shared twice", quoted(s.Cavity), quoted(c.ID)), c.ID, "put all its wires into one declaration")
				found = append(found, with(p, other, "it is declared here already"))
			default:
				first[s.Cavity] = at
				found = append(found, sharedBy(l, c.ID, s, in[c.ID+":"+s.Cavity])...)
			}
		}
	}
	return found
}

func sharedBy(l *lookup, connector string, s harness.Shared, ends []wireEnd) problem.List {
	var found problem.List
	pigtails := map[string]bool{}
	for _, e := range ends {
		pigtails[e.wire.ID] = e.wire.A.Kind == harness.EndShield
	}
	for i, id := range s.Wires {
		if l.wires[id] == nil && !pigtails[id] {
			found = append(found, about(fault(unknownWire, s.Of(elementKey("shared.wires", i)), "cavity %s of connector %s is shared by wire %s, which the job does not have",
				quoted(s.Cavity), quoted(connector), quoted(id)), id, ""))
		}
	}
	if found != nil {
		return found
	}
	var landed []string
	for _, e := range ends {
		if !contains(landed, e.wire.ID) {
			landed = append(landed, e.wire.ID)
		}
	}
	if len(landed) > 1 && slices.Equal(slices.Sorted(slices.Values(landed)), slices.Sorted(slices.Values(s.Wires))) {
		return nil
	}
	return problem.List{about(fault(sharedMismatch, s.Of("shared.wires"), "cavity %s of connector %s is declared for %s and holds %s",
		quoted(s.Cavity), quoted(connector), wireNames(s.Wires), wireNames(landed)), connector, "a shared cavity names all its wires, two at least, and no others")}
}

func wireNames(ids []string) string {
	if len(ids) == 0 {
		return "no wire"
	}
	names := make([]string, len(ids))
	for i, id := range ids {
		names[i] = quoted(id)
	}
	return strings.Join(names, ", ")
}

// checkSameEnds finds wires with both ends in one place.
func checkSameEnds(h *harness.Harness) problem.List {
	var found problem.List
	for i := range h.Wires {
		w := &h.Wires[i]
		if isRead(&w.A) && isRead(&w.B) && w.A.Written() == w.B.Written() {
			p := about(fault(sameEnds, w.Of("to"), "wire %s has both ends in %s", quoted(w.ID), quoted(w.A.Written())), w.ID, "correct one of its ends")
			found = append(found, with(p, w.Of("from"), "the other end is here"))
		}
	}
	return found
}

// unwiredCavities returns the cavities of a connector in which no wire lands.
func unwiredCavities(c *harness.Connector, in map[string][]wireEnd) []harness.Cavity {
	var unwired []harness.Cavity
	for _, cavity := range c.Cavities {
		if len(in[c.ID+":"+cavity.Name]) == 0 {
			unwired = append(unwired, cavity)
		}
	}
	return unwired
}

// checkSpareRules finds connectors with unwired cavities that do not say what fills them.
func checkSpareRules(h *harness.Harness) problem.List {
	in := wired(h)
	var found problem.List
	for i := range h.Connectors {
		c := &h.Connectors[i]
		unwired := unwiredCavities(c, in)
		if c.Spare == "" && len(unwired) > 0 {
			found = append(found, about(fault(noSpareRule, c.At, "connector %s has unwired cavities and no rule for them: %d, the first is %s",
				quoted(c.ID), len(unwired), quoted(unwired[0].Name)), c.ID, `write spare = "seal", "contact and seal" or "open", unless a wire is missing`))
		}
	}
	return found
}

// checkSeals finds connectors whose unwired cavities get a sealing plug or a contact that is not named.
func checkSeals(h *harness.Harness) problem.List {
	in := wired(h)
	var found problem.List
	for i := range h.Connectors {
		c := &h.Connectors[i]
		unwired := unwiredCavities(c, in)
		if len(unwired) == 0 || c.Spare == "" || c.Spare == "open" {
			continue
		}
		if c.Seal == "" {
			found = append(found, about(fault(noSeal, c.Of("spare"), "connector %s seals unwired cavities and names no sealing plug", quoted(c.ID)), c.ID, `write seal = "..."`))
		}
		bare := slices.IndexFunc(unwired, func(cavity harness.Cavity) bool { return cavity.Contact == "" })
		if c.Spare == "contact and seal" && bare >= 0 {
			found = append(found, about(fault(noSpareContact, c.Of("spare"), "connector %s fills unwired cavities with contacts and names none for cavity %s",
				quoted(c.ID), quoted(unwired[bare].Name)), c.ID, "write contact = ... in the connector"))
		}
	}
	return found
}
