package job

import (
	"fmt"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

// checkTwistWires finds twists of less than two wires, of wires that are not there, of cores, and wires of two twists.
func checkTwistWires(h *harness.Harness) problem.List {
	l := newLookup(h)
	type use struct {
		twist string
		at    problem.Place
	}
	first := map[string]use{}
	var found problem.List
	for _, t := range h.Twists {
		if len(t.Wires) < 2 && set(t.Origin, "wires") {
			found = append(found, about(fault(tooFewTwisted, t.Of("wires"), "twist %s has %s", quoted(t.ID), []string{"no wires", "one wire"}[len(t.Wires)]), t.ID, "name two wires at least"))
		}
		for i, id := range t.Wires {
			at := t.Of(elementKey("wires", i))
			w, other := l.wires[id], first[id]
			switch {
			case w == nil:
				found = append(found, about(fault(unknownWire, at, "twist %s lays wire %s, which the job does not have", quoted(t.ID), quoted(id)), t.ID, ""))
			case w.Cable != "":
				p := about(fault(twistedCore, at, "twist %s lays wire %s, which is a core of cable %s", quoted(t.ID), quoted(id), quoted(w.Cable)), t.ID,
					"take it out: a cable comes as it is laid")
				found = append(found, with(p, w.At, "the wire stands here"))
			case other.twist != "":
				p := about(fault(twistedTwice, at, "wire %s is in the twists %s and %s", quoted(id), quoted(other.twist), quoted(t.ID)), id, "take it out of one of them")
				found = append(found, with(p, other.at, "it is in the other one here"))
			default:
				first[id] = use{t.ID, at}
			}
		}
	}
	return found
}

// checkTwistEnds warns of twists whose wires do not all go from one thing to another. They can split near their ends, but
// that is seldom meant.
func checkTwistEnds(h *harness.Harness) problem.List {
	l := newLookup(h)
	var found problem.List
	for _, t := range h.Twists {
		var one *harness.Wire
		for i, id := range t.Wires {
			w := l.wires[id]
			switch {
			case w == nil || w.Cable != "" || !isRead(&w.A) || !isRead(&w.B):
			case one == nil:
				one = w
			case bodyOrPlace(&w.A) != bodyOrPlace(&one.A) || bodyOrPlace(&w.B) != bodyOrPlace(&one.B):
				p := about(fault(twistApart, t.Of(elementKey("wires", i)), "twist %s lays wire %s from %s to %s with wire %s from %s to %s", quoted(t.ID),
					quoted(one.ID), quoted(bodyOrPlace(&one.A)), quoted(bodyOrPlace(&one.B)),
					quoted(w.ID), quoted(bodyOrPlace(&w.A)), quoted(bodyOrPlace(&w.B))), t.ID,
					"exchange from and to where one runs the other way; else make sure that untwist says where they part")
				found = append(found, warning(p))
			}
		}
	}
	return found
}

// checkTwistPitch finds twists whose helix nothing describes: the pitch circle of two or three equal wires follows from
// their diameter, any other must be given.
func checkTwistPitch(h *harness.Harness) problem.List {
	l := newLookup(h)
	var found problem.List
	for _, t := range h.Twists {
		if t.Pitch > 0 || set(t.Origin, "pitch") {
			continue
		}
		if why := unequal(l, t.Wires); why != "" {
			found = append(found, about(fault(noPitch, t.At, "twist %s has no pitch, and %s", quoted(t.ID), why), t.ID,
				`write pitch = "...", the diameter of the circle on which the centres of its wires lie`))
		}
	}
	return found
}

// unequal says why the pitch circle of wires does not follow from their diameters; "" where it does, or where they are not known.
func unequal(l *lookup, ids []string) string {
	var diameter units.Length
	for _, id := range ids {
		w := l.wires[id]
		if w == nil || l.types[w.Type] == nil {
			return ""
		}
		if d := l.types[w.Type].Diameter; diameter != 0 && d != diameter {
			return fmt.Sprintf("its wires have diameters of %s and %s", diameter, d)
		}
		diameter = l.types[w.Type].Diameter
	}
	if len(ids) > 3 {
		return fmt.Sprintf("it lays %d wires together", len(ids))
	}
	return ""
}
