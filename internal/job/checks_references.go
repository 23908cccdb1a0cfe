package job

import (
	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
)

// checkTypes finds wires and reels of a type that the job does not have.
func checkTypes(h *harness.Harness) problem.List {
	l := newLookup(h)
	spell := newSpeller(typeIDs(h))
	var found problem.List
	check := func(kind, id, name string, at problem.Place) {
		if name != "" && l.types[name] == nil {
			found = append(found, about(fault(unknownType, at, "%s %s has the type %s, which the job does not have", kind, quoted(id), quoted(name)),
				id, spell.hint(name, "add a [[wire_type]] with this id")))
		}
	}
	for _, r := range h.Reels {
		check("reel", r.ID, r.Type, r.Of("type"))
	}
	for _, w := range h.Wires {
		check("wire", w.ID, w.Type, w.Of("type"))
	}
	return found
}

func typeIDs(h *harness.Harness) []string {
	ids := make([]string, len(h.WireTypes))
	for i, t := range h.WireTypes {
		ids[i] = t.ID
	}
	return ids
}

// checkContacts finds contacts that the job does not have, where they are named.
func checkContacts(h *harness.Harness) problem.List {
	l := newLookup(h)
	ids := make([]string, len(h.Contacts))
	for i, c := range h.Contacts {
		ids[i] = c.ID
	}
	spell := newSpeller(ids)
	var found problem.List
	seen := map[problem.Place]bool{}
	check := func(kind, id, name string, at problem.Place) {
		if name != "" && l.contacts[name] == nil && !seen[at] {
			seen[at] = true
			found = append(found, about(fault(unknownContact, at, "%s %s names the contact %s, which the job does not have", kind, quoted(id), quoted(name)),
				id, spell.hint(name, "add a [[contact]] with this id")))
		}
	}
	for _, c := range h.Connectors {
		check("connector", c.ID, c.Contact, c.Of("contact"))
		for _, cavity := range c.Cavities {
			if set(cavity.Origin, "cavity.contact") { // of a [[connector.cavity]]
				check("connector", c.ID, cavity.Contact, cavity.Of("cavity.contact"))
			}
		}
	}
	for _, e := range wireEnds(h) {
		if set(e.wire.Origin, e.side+".contact") {
			check("wire", e.wire.ID, e.end.Contact, e.own("contact"))
		}
	}
	return found
}

// checkConnectors finds ends at a connector that the job does not have.
func checkConnectors(h *harness.Harness) problem.List {
	l := newLookup(h)
	ids := make([]string, len(h.Connectors))
	for i, c := range h.Connectors {
		ids[i] = c.ID
	}
	spell := newSpeller(ids)
	var found problem.List
	for _, e := range wireEnds(h) {
		if l.connectors[e.end.Connector] == nil {
			found = append(found, about(fault(unknownConnector, e.at, "wire %s lands in connector %s, which the job does not have",
				quoted(e.wire.ID), quoted(e.end.Connector)), e.wire.ID, spell.hint(e.end.Connector, "add a [[connector]] with this id")))
		}
	}
	return found
}

// checkCavities finds ends in a cavity that their connector lacks.
func checkCavities(h *harness.Harness) problem.List {
	l := newLookup(h)
	var found problem.List
	for _, e := range wireEnds(h) {
		c := l.connectors[e.end.Connector]
		if c == nil || l.cavity(c.ID, e.end.Cavity) != nil {
			continue
		}
		p := about(fault(unknownCavity, e.at, "wire %s lands in cavity %s, which connector %s does not have",
			quoted(e.wire.ID), quoted(e.end.Cavity), quoted(c.ID)), e.wire.ID, cavityHint(c, e.end.Cavity))
		found = append(found, with(p, c.Of("cavities"), "its cavities are listed here"))
	}
	return found
}

func cavityNames(c *harness.Connector) []string {
	names := make([]string, len(c.Cavities))
	for i, cavity := range c.Cavities {
		names[i] = cavity.Name
	}
	return names
}

// cavityHint offers the same name in another case or padding only; a neighbouring number would be a guess.
func cavityHint(c *harness.Connector, name string) string {
	for _, cavity := range c.Cavities {
		if plainForm(cavity.Name) == plainForm(name) {
			return "did you mean " + quoted(c.ID+":"+cavity.Name) + "?"
		}
	}
	return ""
}

// checkHomes finds home connectors at neither end of their wire.
func checkHomes(h *harness.Harness) problem.List {
	var found problem.List
	for _, w := range h.Wires {
		if w.Home == "" || w.A.Connector == "" || w.B.Connector == "" || w.Home == w.A.Connector || w.Home == w.B.Connector {
			continue
		}
		found = append(found, about(fault(homeElsewhere, w.Of("home"), "wire %s has the home %s and goes from %s to %s",
			quoted(w.ID), quoted(w.Home), quoted(w.A.Connector), quoted(w.B.Connector)), w.ID, "write one of its two connectors, or take home out"))
	}
	return found
}

// checkNodes finds nodes that the board does not have.
func checkNodes(h *harness.Harness) problem.List {
	l := newLookup(h)
	ids := make([]string, len(h.Board.Nodes))
	for i, n := range h.Board.Nodes {
		ids[i] = n.ID
	}
	spell := newSpeller(ids)
	var found problem.List
	check := func(what, id, node string, at problem.Place) {
		if node != "" && l.nodes[node] == nil {
			found = append(found, about(fault(unknownNode, at, "%s names the node %s, which the board does not have", what, quoted(node)),
				id, spell.hint(node, "add a [[node]] with this id")))
		}
	}
	for _, c := range h.Connectors {
		check("connector "+quoted(c.ID), c.ID, c.Node, c.Of("node"))
	}
	for _, w := range h.Wires {
		for i, node := range w.Via {
			check("wire "+quoted(w.ID), w.ID, node, w.Of(elementKey("via", i)))
		}
	}
	for _, s := range h.Board.Segments {
		check("a segment", s.From, s.From, s.Of("between.0"))
		check("a segment", s.To, s.To, s.Of("between.1"))
	}
	return found
}

// checkLabels finds a label stock that is not known.
func checkLabels(h *harness.Harness) problem.List {
	var ids []string
	for _, s := range h.Stocks {
		ids = append(ids, s.ID)
	}
	if h.Paper.Labels == "" || contains(ids, h.Paper.Labels) {
		return nil
	}
	return problem.List{about(fault(unknownLabels, h.Paper.Of("labels"), "label stock %s is not known", quoted(h.Paper.Labels)),
		h.Paper.Labels, "write "+alternatives(ids))}
}
