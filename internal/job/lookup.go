package job

import (
	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

// lookup finds the items of a harness by id; of doubled ids the first.
type lookup struct {
	types      map[string]*harness.WireType
	cableTypes map[string]*harness.CableType
	contacts   map[string]*harness.Contact
	connectors map[string]*harness.Connector
	cavities   map[string]map[string]*harness.Cavity
	splices    map[string]*harness.Splice
	terminals  map[string]*harness.Terminal
	nodes      map[string]*harness.Node
	wires      map[string]*harness.Wire
	cables     map[string]*harness.Cable
}

func newLookup(h *harness.Harness) *lookup {
	l := &lookup{
		types:      byID(h.WireTypes, func(t *harness.WireType) string { return t.ID }),
		cableTypes: byID(h.CableTypes, func(t *harness.CableType) string { return t.ID }),
		contacts:   byID(h.Contacts, func(c *harness.Contact) string { return c.ID }),
		connectors: byID(h.Connectors, func(c *harness.Connector) string { return c.ID }),
		splices:    byID(h.Splices, func(s *harness.Splice) string { return s.ID }),
		terminals:  byID(h.Terminals, func(t *harness.Terminal) string { return t.ID }),
		nodes:      byID(h.Board.Nodes, func(n *harness.Node) string { return n.ID }),
		wires:      byID(h.Wires, func(w *harness.Wire) string { return w.ID }),
		cables:     byID(h.Cables, func(c *harness.Cable) string { return c.ID }),
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
		if _, doubled := found[id(&items[i])]; !doubled && id(&items[i]) != "" {
			found[id(&items[i])] = &items[i]
		}
	}
	return found
}

// cavity returns a cavity of a connector, or nil.
func (l *lookup) cavity(connector, name string) *harness.Cavity { return l.cavities[connector][name] }

// core returns a core of a cable type by its id, or nil.
func core(t *harness.CableType, id string) *harness.Core {
	for i := range t.Cores {
		if t.Cores[i].ID == id {
			return &t.Cores[i]
		}
	}
	return nil
}

// typeOf returns the type of the cable that a wire is a core of, or nil.
func (l *lookup) typeOf(w *harness.Wire) *harness.CableType {
	if c := l.cables[w.Cable]; c != nil {
		return l.cableTypes[c.Type]
	}
	return nil
}

// supplyOf returns where a wire comes from: a core comes with its cable.
func (l *lookup) supplyOf(w *harness.Wire) harness.Supply {
	if c := l.cables[w.Cable]; c != nil {
		return c.Supply
	}
	return w.Supply
}

// conductor is what a wire or core brings to a contact, splice or terminal.
type conductor struct {
	typeID   string
	core     string // of a cable type; empty for a wire type
	awg      string
	section  units.Area   // where awg is empty
	diameter units.Length // over the insulation; 0 for a core that does not say it
	origin   *harness.Origin
	prefix   string // of the keys in the origin
}

// conductor returns the conductor of a wire or core; false where its type is not known.
func (l *lookup) conductor(w *harness.Wire) (conductor, bool) {
	if w.Cable != "" {
		if t := l.typeOf(w); t != nil {
			if c := core(t, w.Core); c != nil {
				return conductor{t.ID, c.ID, c.AWG, c.Section, c.Diameter, &c.Origin, "cores."}, c.AWG != "" || c.Section > 0
			}
		}
		return conductor{}, false
	}
	if t := l.types[w.Type]; t != nil {
		return conductor{t.ID, "", t.AWG, t.Section, t.Diameter, &t.Origin, ""}, t.AWG != "" || t.Section > 0
	}
	return conductor{}, false
}

// name names the type: `wire type "E22W"`, `core "BU" of cable type "QM05"`.
func (c conductor) name() string {
	if c.core != "" {
		return "core " + quoted(c.core) + " of cable type " + quoted(c.typeID)
	}
	return "wire type " + quoted(c.typeID)
}

// of returns where the type sets a key.
func (c conductor) of(key string) problem.Place { return c.origin.Of(c.prefix + key) }

// sizeKey is the key that says how thick the conductor is.
func (c conductor) sizeKey() string {
	if c.awg != "" {
		return "awg"
	}
	return "section"
}

func (c conductor) String() string {
	if c.awg != "" {
		return c.awg + " AWG"
	}
	return c.section.String()
}

// cableSide is an end of a cable by its key.
type cableSide struct {
	name string // "a" or "b"
	end  *harness.CableEnd
}

func cableSides(c *harness.Cable) []cableSide { return []cableSide{{"a", &c.A}, {"b", &c.B}} }
