package job

import (
	"strings"
	"unicode"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
)

// checkSides compares the sides of each splice with the wires that end there.
func checkSides(h *harness.Harness) problem.List {
	l := newLookup(h)
	in := wired(h)
	var found problem.List
	for i := range h.Splices {
		s := &h.Splices[i]
		listed := map[string]problem.Place{}
		for side, ids := range s.Sides {
			for at, id := range ids {
				place := s.Of(elementKey(elementKey("sides", side), at))
				if p := l.sideFault(s, id, place, listed); p != nil {
					found = append(found, *p)
				}
			}
		}
		for _, e := range in[s.ID] {
			if _, known := listed[e.wire.ID]; !known && e.is(harness.EndSplice) && e.wire.A.Kind != harness.EndShield {
				p := about(fault(sideMismatch, e.at, "wire %s ends at splice %s, and no side of it lists the wire", quoted(e.wire.ID), quoted(s.ID)), e.wire.ID,
					"add it to the side on which it enters")
				found = append(found, with(p, s.Of("sides"), "the sides are listed here"))
			}
		}
	}
	return found
}

// sideFault finds what is wrong with a wire that a side lists, and notes it.
func (l *lookup) sideFault(s *harness.Splice, id string, at problem.Place, listed map[string]problem.Place) *problem.Problem {
	w := l.wires[id]
	other, doubled := listed[id]
	listed[id] = at
	var p problem.Problem
	switch {
	case w == nil:
		p = about(fault(unknownWire, at, "splice %s joins wire %s, which the job does not have", quoted(s.ID), quoted(id)), s.ID, "")
	case doubled:
		p = with(about(fault(sideMismatch, at, "wire %s enters splice %s on both sides", quoted(id), quoted(s.ID)), s.ID, "take it out on one of them"),
			other, "it is listed here already")
	case w.A.Splice != s.ID && w.B.Splice != s.ID:
		p = with(about(fault(sideMismatch, at, "splice %s joins wire %s, which goes from %s to %s", quoted(s.ID), quoted(id),
			quoted(w.A.Written()), quoted(w.B.Written())), s.ID, "let the wire end there, or take it out of the side"), w.At, "the wire stands here")
	default:
		return nil
	}
	return &p
}

// checkStuds finds stacks that name a terminal that is not there, that hold none, or a terminal that is stacked twice.
func checkStuds(h *harness.Harness) problem.List {
	l := newLookup(h)
	ids := terminalIDs(h)
	spell := newSpeller(ids)
	first := map[string]problem.Place{}
	var found problem.List
	for _, s := range h.Studs {
		terminals := false
		for i, piece := range s.Stack {
			at := s.Of(elementKey("stack", i))
			other, doubled := first[piece]
			switch {
			case l.terminals[piece] == nil && looksLikeID(ids, piece):
				terminals = true
				found = append(found, about(fault(unknownTerminal, at, "stud %s stacks %s, which is no terminal of the job", quoted(s.ID), quoted(piece)), s.ID,
					spell.hint(piece, `add a [[terminal]] with this id, or write hardware in words, such as "nut M5"`)))
			case l.terminals[piece] == nil: // hardware
			case doubled:
				terminals = true
				found = append(found, with(about(fault(terminalTaken, at, "terminal %s is stacked twice", quoted(piece)), piece, "take it out in one of them"),
					other, "it is stacked here already"))
			default:
				first[piece], terminals = at, true
			}
		}
		if !terminals && len(s.Stack) > 0 {
			found = append(found, about(fault(noTerminal, s.Of("stack"), "stud %s stacks no terminal", quoted(s.ID)), s.ID, "write the ids of its terminals in fitting order, from the base up"))
		}
	}
	return found
}

// looksLikeID tells a terminal of a stack from hardware, which is written in words: one word with a digit in it is an id, and
// so is one that differs from a terminal in nothing but case, padding or look-alikes.
func looksLikeID(ids []string, piece string) bool {
	if strings.ContainsFunc(piece, unicode.IsSpace) {
		return false
	}
	for _, id := range ids {
		if plainForm(id) == plainForm(piece) || lookForm(id) == lookForm(piece) {
			return true
		}
	}
	return strings.ContainsFunc(piece, unicode.IsDigit)
}

// checkSleeves finds sizes of sleeves with one part number.
func checkSleeves(h *harness.Harness) problem.List {
	first := map[string]problem.Place{}
	var found problem.List
	for _, s := range h.Sleeves {
		other, doubled := first[s.Part]
		if doubled && s.Part != "" {
			found = append(found, with(about(fault(doubledID, s.Of("part"), "sleeve %s is given twice", quoted(s.Part)), s.Part, "give one range for each part"),
				other, "it is given here already"))
			continue
		}
		first[s.Part] = s.Of("part")
	}
	return found
}
