package job

import (
	"fmt"
	"strings"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
)

// idSet holds the ids of items that references cannot tell apart, with their places.
type idSet struct{ ids []placedID }

type placedID struct {
	kind   string // "wire"
	plural string
	id     string
	at     problem.Place
}

func (s *idSet) add(kind, plural, id string, o harness.Origin) {
	if id != "" {
		s.ids = append(s.ids, placedID{kind, plural, id, o.Of("id")})
	}
}

// plurals names the kinds of items in a set: "connectors and splices".
func (s *idSet) plurals() string {
	var plurals []string
	for _, one := range s.ids {
		if !contains(plurals, one.plural) {
			plurals = append(plurals, one.plural)
		}
	}
	if last := len(plurals) - 1; last > 0 {
		return strings.Join(plurals[:last], ", ") + " and " + plurals[last]
	}
	return strings.Join(plurals, "")
}

// idSets returns the ids of all tables that have them. Types of wires and cables share one set, as do wires and cables, and
// everything that a wire can end at.
func idSets(h *harness.Harness) []idSet {
	var types, reels, contacts, bodies, wires, nodes, studs, twists, stocks idSet
	for _, t := range h.WireTypes {
		types.add("wire type", "wire types", t.ID, t.Origin)
	}
	for _, t := range h.CableTypes {
		types.add("cable type", "cable types", t.ID, t.Origin)
	}
	for _, r := range h.Reels {
		reels.add("reel", "reels", r.ID, r.Origin)
	}
	for _, c := range h.Contacts {
		contacts.add("contact", "contacts", c.ID, c.Origin)
	}
	for _, c := range h.Connectors {
		bodies.add("connector", "connectors", c.ID, c.Origin)
	}
	for _, s := range h.Splices {
		bodies.add("splice", "splices", s.ID, s.Origin)
	}
	for _, t := range h.Terminals {
		bodies.add("terminal", "terminals", t.ID, t.Origin)
	}
	for _, w := range h.Wires {
		wires.add("wire", "wires", w.ID, w.Origin)
	}
	for _, c := range h.Cables {
		wires.add("cable", "cables", c.ID, c.Origin)
	}
	for _, n := range h.Board.Nodes {
		nodes.add("node", "nodes", n.ID, n.Origin)
	}
	for _, s := range h.Studs {
		studs.add("stud", "studs", s.ID, s.Origin)
	}
	for _, t := range h.Twists {
		twists.add("twist", "twists", t.ID, t.Origin)
	}
	for _, s := range h.Stocks {
		stocks.add("label stock", "label stocks", s.ID, s.Origin)
	}
	return []idSet{types, reels, contacts, bodies, wires, nodes, studs, twists, stocks}
}

// checkDoubled finds ids given twice, in one file or in two, and ids that a pigtail needs.
func checkDoubled(h *harness.Harness) problem.List {
	var found problem.List
	for _, set := range idSets(h) {
		first := make(map[string]placedID, len(set.ids))
		for _, one := range set.ids {
			other, doubled := first[one.id]
			if !doubled {
				first[one.id] = one
				continue
			}
			text := fmt.Sprintf("%s %s is given twice", one.kind, quoted(one.id))
			if other.kind != one.kind {
				text = fmt.Sprintf("%s %s has the id of a %s", one.kind, quoted(one.id), other.kind)
			}
			p := about(fault(doubledID, one.at, "%s", text), one.id, "give one of them another id")
			found = append(found, with(p, other.at, "it is given here already"))
		}
	}
	return append(found, doubledPigtails(h)...)
}

// doubledPigtails finds wires and cables with the id that a pigtail gets.
func doubledPigtails(h *harness.Harness) problem.List {
	needs := map[string]*harness.Cable{}
	for i := range h.Cables {
		c := &h.Cables[i]
		for _, side := range cableSides(c) {
			if side.end.Pigtail != nil && c.ID != "" {
				needs[pigtailID(c.ID, side.name)] = c
			}
		}
	}
	var found problem.List
	for _, set := range idSets(h) {
		for _, one := range set.ids {
			if c := needs[one.id]; c != nil && (one.kind == "wire" || one.kind == "cable") {
				p := about(fault(doubledID, one.at, "%s %s has the id that the pigtail of cable %s gets", one.kind, quoted(one.id), quoted(c.ID)), one.id, "give it another id")
				found = append(found, with(p, c.At, "the cable stands here"))
			}
		}
	}
	return found
}

// checkRetired finds ids that may not come back.
func checkRetired(h *harness.Harness) problem.List {
	retired := make(map[string]problem.Place, len(h.Job.Retired))
	for i, id := range h.Job.Retired {
		retired[id] = h.Job.Of(elementKey("retired", i))
	}
	var found problem.List
	for _, set := range idSets(h) {
		for _, one := range set.ids {
			if at, is := retired[one.id]; is {
				p := about(fault(retiredID, one.at, "%s %s has a retired id", one.kind, quoted(one.id)), one.id, "give it an id that was never used")
				found = append(found, with(p, at, "it is retired here"))
			}
		}
	}
	return found
}

// checkWires finds a job without wires.
func checkWires(h *harness.Harness) problem.List {
	if len(h.Wires) > 0 {
		return nil
	}
	return problem.List{about(fault(noWires, h.Job.At, "the job has no wires"), "", "write a [[wire]] for each, with its id, type, from and to")}
}

// checkExpected compares the counts that the job expects.
func checkExpected(h *harness.Harness) problem.List {
	var found problem.List
	for _, count := range []struct {
		key              string
		expected, actual int
	}{{"wires", h.Job.Expect.Wires, len(h.Wires)}, {"ends", h.Job.Expect.Ends, 2 * len(h.Wires)}} {
		if count.expected >= 0 && count.expected != count.actual && set(h.Job.Origin, "expect."+count.key) {
			found = append(found, about(fault(expectDiffers, h.Job.Of("expect."+count.key), "the job expects %d %s and has %d",
				count.expected, count.key, count.actual), "", "compare the job with the wire list it was written from"))
		}
	}
	return found
}

// checkParts finds stock items without a part number, once a table. A draft can do without.
func checkParts(h *harness.Harness) problem.List {
	var sets [6]idSet
	add := func(set int, kind, plural, id, part string, at problem.Place) {
		if part == "" && id != "" {
			sets[set].ids = append(sets[set].ids, placedID{kind, plural, id, at})
		}
	}
	for _, t := range h.WireTypes {
		add(0, "wire type", "wire types", t.ID, t.Part, t.At)
	}
	for _, t := range h.CableTypes {
		add(1, "cable type", "cable types", t.ID, t.Part, t.At)
	}
	for _, c := range h.Contacts {
		add(2, "contact", "contacts", c.ID, c.Part, c.At)
	}
	for _, c := range h.Connectors {
		add(3, "connector", "connectors", c.ID, c.Part, c.At)
	}
	for _, s := range h.Splices {
		add(4, "splice", "splices", s.ID, s.Part, s.At)
	}
	for _, t := range h.Terminals {
		add(5, "terminal", "terminals", t.ID, t.Part, t.At)
	}
	var found problem.List
	for _, set := range sets {
		if len(set.ids) > 0 {
			found = append(found, release(about(fault(missingPart, set.ids[0].at, "%s", partless(set)), set.ids[0].kind, `write part = "..." in each of them`)))
		}
	}
	return found
}

// partless names the first few items without a part number.
func partless(set idSet) string {
	const most = 3
	names := ""
	for i, one := range set.ids {
		if i == most {
			names += fmt.Sprintf(" and %d more", len(set.ids)-most)
			break
		}
		if i > 0 {
			names += ", "
		}
		names += quoted(one.id)
	}
	if len(set.ids) == 1 {
		return set.ids[0].kind + " " + names + " has no part number"
	}
	return fmt.Sprintf("%d %s have no part number: %s", len(set.ids), set.ids[0].plural, names)
}
