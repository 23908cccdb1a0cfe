package job

import (
	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
)

// checkTypes finds wires, cables and reels of a type that the job does not have.
func checkTypes(h *harness.Harness) problem.List {
	l := newLookup(h)
	wires, cables := newSpeller(typeIDs(h)), newSpeller(cableTypeIDs(h))
	var found problem.List
	report := func(kind, id, name string, at problem.Place, hint string) {
		found = append(found, about(fault(unknownType, at, "%s %s has the type %s, which the job does not have", kind, quoted(id), quoted(name)), id, hint))
	}
	wire := func(w *harness.Wire) {
		switch {
		case w.Type == "" || l.types[w.Type] != nil:
		case l.cableTypes[w.Type] != nil:
			found = append(found, about(fault(unknownType, w.Of("type"), "wire %s has the type %s, which is that of a cable", quoted(w.ID), quoted(w.Type)),
				w.ID, "write cable and core in place of type, and a [[cable]] of this type"))
		default:
			report("wire", w.ID, w.Type, w.Of("type"), wires.hint(w.Type, "add a [[wire_type]] with this id"))
		}
	}
	for _, r := range h.Reels {
		if r.Type != "" && l.types[r.Type] == nil && l.cableTypes[r.Type] == nil {
			report("reel", r.ID, r.Type, r.Of("type"), wires.hint(r.Type, "add a [[wire_type]] with this id"))
		}
	}
	for i := range h.Wires {
		wire(&h.Wires[i])
	}
	for i := range h.Cables {
		c := &h.Cables[i]
		if c.Type != "" && l.cableTypes[c.Type] == nil {
			report("cable", c.ID, c.Type, c.Of("type"), cables.hint(c.Type, "add a [[cable_type]] with this id"))
		}
		for _, side := range cableSides(c) {
			if p := side.end.Pigtail; p != nil {
				wire(pigtailWire(c, side.name, p))
			}
		}
	}
	return found
}

func typeIDs(h *harness.Harness) []string {
	return idsOf(h.WireTypes, func(t *harness.WireType) string { return t.ID })
}

func cableTypeIDs(h *harness.Harness) []string {
	return idsOf(h.CableTypes, func(t *harness.CableType) string { return t.ID })
}

func idsOf[T any](items []T, id func(*T) string) []string {
	ids := make([]string, len(items))
	for i := range items {
		ids[i] = id(&items[i])
	}
	return ids
}

func connectorIDs(h *harness.Harness) []string {
	return idsOf(h.Connectors, func(c *harness.Connector) string { return c.ID })
}

func jointIDs(h *harness.Harness) []string {
	return append(idsOf(h.Splices, func(s *harness.Splice) string { return s.ID }), terminalIDs(h)...)
}

func terminalIDs(h *harness.Harness) []string {
	return idsOf(h.Terminals, func(t *harness.Terminal) string { return t.ID })
}

// checkContacts finds contacts that the job does not have, where they are named.
func checkContacts(h *harness.Harness) problem.List {
	l := newLookup(h)
	spell := newSpeller(idsOf(h.Contacts, func(c *harness.Contact) string { return c.ID }))
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
		if e.sets("contact") {
			check("wire", e.wire.ID, e.end.Contact, e.own("contact"))
		}
	}
	return found
}

// checkConnectors finds ends at a connector that the job does not have.
func checkConnectors(h *harness.Harness) problem.List {
	l := newLookup(h)
	spell := newSpeller(connectorIDs(h))
	var found problem.List
	for _, e := range cavityEnds(h) {
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
	for _, e := range cavityEnds(h) {
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
	return idsOf(c.Cavities, func(cavity *harness.Cavity) string { return cavity.Name })
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

// checkJoints finds ends that name neither a cavity nor a splice or terminal of the job, and pigtails in a splice.
func checkJoints(h *harness.Harness) problem.List {
	l := newLookup(h)
	spell := newSpeller(jointIDs(h))
	var found problem.List
	for _, e := range wireEnds(h) {
		id := e.end.Splice
		switch {
		case !e.is(harness.EndSplice):
		case l.splices[id] != nil && e.wire.A.Kind == harness.EndShield:
			found = append(found, about(fault(badEnd, e.at, "pigtail %s goes to splice %s", quoted(e.wire.ID), quoted(id)), e.wire.ID,
				"let it go to a cavity or a terminal"))
		case l.splices[id] != nil:
		case l.connectors[id] != nil:
			found = append(found, about(fault(badEnd, e.at, "wire %s goes to connector %s and names no cavity", quoted(e.wire.ID), quoted(id)), e.wire.ID,
				"write connector and cavity, such as "+quoted(id+":7")))
		default:
			found = append(found, about(fault(unknownJoint, e.at, "wire %s goes to %s, which is no splice or terminal of the job", quoted(e.wire.ID), quoted(id)),
				e.wire.ID, spell.hint(id, "add a [[splice]] or [[terminal]] with this id, or write connector and cavity")))
		}
	}
	return found
}

// checkHomes finds homes at neither end of their wire, and of a cable at no end of its cores.
func checkHomes(h *harness.Harness) problem.List {
	var found problem.List
	for i := range h.Wires {
		w := &h.Wires[i]
		if w.Home == "" || !isRead(&w.A) || !isRead(&w.B) || w.Home == w.A.Body() || w.Home == w.B.Body() {
			continue
		}
		found = append(found, about(fault(homeElsewhere, w.Of("home"), "wire %s has the home %s and goes from %s to %s",
			quoted(w.ID), quoted(w.Home), quoted(bodyOrPlace(&w.A)), quoted(bodyOrPlace(&w.B))), w.ID,
			"write the connector, splice or terminal at one of its ends, or take home out"))
	}
	for _, r := range runs(h) {
		if r.cable == nil || r.cable.Home == "" || len(r.ends()) < 2*len(r.wires) {
			continue
		}
		at := false
		for _, e := range r.ends() {
			at = at || e.end.Body() == r.cable.Home
		}
		if !at {
			found = append(found, about(fault(homeElsewhere, r.origin.Of("home"), "cable %s has the home %s, and none of its cores goes there",
				quoted(r.id), quoted(r.cable.Home)), r.id, "write the connector, splice or terminal at an end of its cores, or take home out"))
		}
	}
	return found
}

func bodyOrPlace(end *harness.End) string {
	if id := end.Body(); id != "" {
		return id
	}
	return end.Written()
}

// checkNodes finds nodes that the board does not have.
func checkNodes(h *harness.Harness) problem.List {
	l := newLookup(h)
	spell := newSpeller(idsOf(h.Board.Nodes, func(n *harness.Node) string { return n.ID }))
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
	for _, s := range h.Splices {
		check("splice "+quoted(s.ID), s.ID, s.Node, s.Of("node"))
		check("splice "+quoted(s.ID), s.ID, s.Towards, s.Of("offset"))
	}
	for _, t := range h.Terminals {
		check("terminal "+quoted(t.ID), t.ID, t.Node, t.Of("node"))
	}
	for _, e := range wireEnds(h) {
		check("wire "+quoted(e.wire.ID), e.wire.ID, e.end.Node, e.at)
	}
	for _, w := range h.Wires {
		for i, node := range w.Via {
			check("wire "+quoted(w.ID), w.ID, node, w.Of(elementKey("via", i)))
		}
	}
	for _, c := range h.Cables {
		for i, node := range c.Via {
			check("cable "+quoted(c.ID), c.ID, node, c.Of(elementKey("via", i)))
		}
	}
	for _, s := range h.Board.Segments {
		check("a segment", s.From, s.From, s.Of("between.0"))
		check("a segment", s.To, s.To, s.Of("between.1"))
	}
	return found
}
