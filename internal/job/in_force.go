package job

import "loomleaf/internal/harness"

// putInForce gives every end the contact, strip length and count of re-terminations that hold for it: its own, else the
// cavity's and the contact's, else those of the connector and the allowance.
func putInForce(h *harness.Harness) {
	l := newLookup(h)
	for i := range h.Wires {
		w := &h.Wires[i]
		l.fill(w, &w.A, "a", h.Allowance.Retermination)
		l.fill(w, &w.B, "b", h.Allowance.Retermination)
	}
}

func (l *lookup) fill(w *harness.Wire, end *harness.End, side string, retermination int) {
	if end.Contact == "" {
		if cavity := l.cavity(end.Connector, end.Cavity); cavity != nil {
			end.Contact = cavity.Contact
		}
	}
	if contact := l.contacts[end.Contact]; contact != nil && !set(w.Origin, side+".strip") {
		end.Strip = contact.Strip
	}
	if end.Retermination == unsetRetermination {
		end.Retermination = retermination
	}
}

// set reports whether the job sets a key of an item.
func set(o harness.Origin, key string) bool {
	_, found := o.Keys[key]
	return found
}

// lookup finds the items of a harness by id; of doubled ids the first.
type lookup struct {
	types      map[string]*harness.WireType
	contacts   map[string]*harness.Contact
	connectors map[string]*harness.Connector
	cavities   map[string]map[string]*harness.Cavity
	nodes      map[string]*harness.Node
	wires      map[string]*harness.Wire
}

func newLookup(h *harness.Harness) *lookup {
	l := &lookup{
		types:      byID(h.WireTypes, func(t *harness.WireType) string { return t.ID }),
		contacts:   byID(h.Contacts, func(c *harness.Contact) string { return c.ID }),
		connectors: byID(h.Connectors, func(c *harness.Connector) string { return c.ID }),
		nodes:      byID(h.Board.Nodes, func(n *harness.Node) string { return n.ID }),
		wires:      byID(h.Wires, func(w *harness.Wire) string { return w.ID }),
		cavities:   make(map[string]map[string]*harness.Cavity, len(h.Connectors)),
	}
	for i := range h.Connectors {
		c := &h.Connectors[i]
		if _, doubled := l.cavities[c.ID]; !doubled {
			l.cavities[c.ID] = byID(c.Cavities, func(cavity *harness.Cavity) string { return cavity.Name })
		}
	}
	return l
}

func byID[T any](items []T, id func(*T) string) map[string]*T {
	found := make(map[string]*T, len(items))
	for i := range items {
		if _, doubled := found[id(&items[i])]; !doubled {
			found[id(&items[i])] = &items[i]
		}
	}
	return found
}

// cavity returns a cavity of a connector, or nil.
func (l *lookup) cavity(connector, name string) *harness.Cavity { return l.cavities[connector][name] }
