package job

import (
	"slices"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
)

// checkSubstitutes finds substitutes that are not there, and those that are another wire: the installer tells a wire by gauge and
// colour, and bundles, trays, coils and twists are worked out from the diameter of the type that the wires name.
func checkSubstitutes(h *harness.Harness) problem.List {
	l := newLookup(h)
	var found problem.List
	for i := range h.WireTypes {
		t := &h.WireTypes[i]
		first := map[string]problem.Place{}
		for _, s := range t.Substitutes {
			if s.Type == "" {
				continue
			}
			at, other := s.Of("substitutes.type"), l.types[s.Type]
			report := func(check, hint, format string, args ...any) problem.Problem {
				return about(fault(check, at, "wire type %s names the substitute %s"+format, append([]any{quoted(t.ID), quoted(s.Type)}, args...)...), t.ID, hint)
			}
			before, twice := first[s.Type]
			switch {
			case s.Type == t.ID:
				found = append(found, report(badSubstitute, "name another wire type", ", which is itself"))
			case twice:
				found = append(found, with(report(badSubstitute, "leave one of them", " twice"), before, "the other one stands here"))
			case l.cableTypes[s.Type] != nil:
				found = append(found, report(badSubstitute, "name a wire type: what takes the place of a cable is a change of the job", ", which is a cable type"))
			case other == nil:
				others := slices.DeleteFunc(typeIDs(h), func(id string) bool { return id == t.ID })
				found = append(found, report(unknownType, newSpeller(others).hint(s.Type, "add a [[wire_type]] with this id"), ", which the job does not have"))
			default:
				found = append(found, differences(t, other, report)...)
			}
			if !twice {
				first[s.Type] = at
			}
		}
	}
	return found
}

// differences reports what keeps one type from being cut in place of another.
func differences(t, other *harness.WireType, report func(check, hint, format string, args ...any) problem.Problem) problem.List {
	const instead = "what differs so is a change of the wires: give them that type, or leave the substitute out"
	var found problem.List
	if t.AWG != other.AWG || t.Section != other.Section {
		p := report(substituteDiffers, instead, " of %s in place of %s", conductorOf(other), conductorOf(t))
		found = append(found, with(p, other.Of(conductorOf(other).sizeKey()), "the conductor of the substitute stands here"))
	}
	if t.Colour != other.Colour {
		p := report(substituteDiffers, instead, " of the colour %s in place of %s: the installer tells wires by their colour", quoted(other.Colour), quoted(t.Colour))
		found = append(found, with(p, other.Of("colour"), "the colour of the substitute stands here"))
	} else if t.Colour == "?" {
		found = append(found, report(substituteDiffers, "write the colour of both types, or leave the substitute out", ", and nobody knows whether both have the same colour"))
	}
	if other.Diameter > t.Diameter {
		p := report(substituteDiffers, "give the wires that type, or leave the substitute out: bundles, trays and twists have room for the thinner one alone",
			", %s thick in place of %s", other.Diameter, t.Diameter)
		found = append(found, with(p, other.Of("diameter"), "the diameter of the substitute stands here"))
	}
	return found
}

func conductorOf(t *harness.WireType) conductor {
	return conductor{typeID: t.ID, awg: t.AWG, section: t.Section, diameter: t.Diameter, origin: &t.Origin}
}

// checkSubstituteContacts finds substitutes too thin for what their wires land in, once for each contact or terminal. Wires that do not
// fit themselves are somebody else's.
func checkSubstituteContacts(h *harness.Harness) problem.List {
	l := newLookup(h)
	seen := map[string]bool{}
	var found problem.List
	eachTaker(h, func(e wireEnd, t taker, c conductor) {
		own := l.types[c.typeID]
		if own == nil || c.core != "" || t.insulation[1] == 0 || c.diameter < t.insulation[0] || c.diameter > t.insulation[1] {
			return
		}
		for _, s := range own.Substitutes {
			other, key := l.types[s.Type], own.ID+":"+s.Type+":"+t.name()
			if other == nil || other.Diameter >= t.insulation[0] || other.Diameter > own.Diameter || seen[key] {
				continue
			}
			seen[key] = true
			p := about(fault(substituteOutside, s.Of("substitutes.type"), "wire type %s names the substitute %s with a diameter of %s, and wire %s lands in %s, where %s takes %s to %s",
				quoted(own.ID), quoted(s.Type), other.Diameter, quoted(e.wire.ID), quoted(e.where()), t.name(), t.insulation[0], t.insulation[1]), own.ID,
				"leave the substitute out, or choose another contact")
			found = append(found, with(p, t.origin.Of("insulation"), "the range of the "+t.kind+" stands here"))
		}
	})
	return found
}
