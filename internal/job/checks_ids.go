package job

import (
	"fmt"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
)

// idSet holds the ids of one table with their places.
type idSet struct {
	kind, plural string
	ids          []placedID
}

type placedID struct {
	id string
	at problem.Place
}

// idSets returns the ids of all tables that have them.
func idSets(h *harness.Harness) []idSet {
	sets := []idSet{{kind: "wire type", plural: "wire types"}, {kind: "reel", plural: "reels"}, {kind: "contact", plural: "contacts"},
		{kind: "connector", plural: "connectors"}, {kind: "wire", plural: "wires"}, {kind: "node", plural: "nodes"}}
	add := func(set int, id string, o harness.Origin) {
		if id != "" {
			sets[set].ids = append(sets[set].ids, placedID{id, o.Of("id")})
		}
	}
	for _, t := range h.WireTypes {
		add(0, t.ID, t.Origin)
	}
	for _, r := range h.Reels {
		add(1, r.ID, r.Origin)
	}
	for _, c := range h.Contacts {
		add(2, c.ID, c.Origin)
	}
	for _, c := range h.Connectors {
		add(3, c.ID, c.Origin)
	}
	for _, w := range h.Wires {
		add(4, w.ID, w.Origin)
	}
	for _, n := range h.Board.Nodes {
		add(5, n.ID, n.Origin)
	}
	return sets
}

// checkDoubled finds ids given twice, in one file or in two.
func checkDoubled(h *harness.Harness) problem.List {
	var found problem.List
	for _, set := range idSets(h) {
		first := make(map[string]problem.Place, len(set.ids))
		for _, one := range set.ids {
			other, doubled := first[one.id]
			if !doubled {
				first[one.id] = one.at
				continue
			}
			p := about(fault(doubledID, one.at, "%s %s is given twice", set.kind, quoted(one.id)), one.id, "give one of them another id")
			found = append(found, with(p, other, "it is given here already"))
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
				p := about(fault(retiredID, one.at, "%s %s has a retired id", set.kind, quoted(one.id)), one.id, "give it an id that was never used")
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

// checkParts warns of stock items without a part number, once a table.
func checkParts(h *harness.Harness) problem.List {
	sets := []idSet{{kind: "wire type", plural: "wire types"}, {kind: "contact", plural: "contacts"}, {kind: "connector", plural: "connectors"}}
	add := func(set int, id, part string, at problem.Place) {
		if part == "" && id != "" {
			sets[set].ids = append(sets[set].ids, placedID{id, at})
		}
	}
	for _, t := range h.WireTypes {
		add(0, t.ID, t.Part, t.At)
	}
	for _, c := range h.Contacts {
		add(1, c.ID, c.Part, c.At)
	}
	for _, c := range h.Connectors {
		add(2, c.ID, c.Part, c.At)
	}
	var found problem.List
	for _, set := range sets {
		if len(set.ids) > 0 {
			p := about(fault(missingPart, set.ids[0].at, "%s", partless(set)), set.kind, `write part = "..." in each of them`)
			p.Severity = problem.Warning
			found = append(found, p)
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
		return set.kind + " " + names + " has no part number"
	}
	return fmt.Sprintf("%d %s have no part number: %s", len(set.ids), set.plural, names)
}
