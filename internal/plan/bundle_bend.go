package plan

import (
	"cmp"
	"strings"

	"loomleaf/internal/handbook"
	"loomleaf/internal/harness"
)

// bendKinds names the kinds that a bend radius is asked for.
func bendKinds() []string { return []string{"wire", "polyimide", "coax"} }

// bundleRule says what the diameters and bend radii rest on.
func bundleRule(h *harness.Harness) BundleRule {
	rule := BundleRule{Nominal: "1.2", Room: "1.25", Over: h.Bundle.BendOver}
	for kind, name := range bendKinds() {
		if times, source, listed := handbook.BendRadius(bendDocument(h, handbook.BendKind(kind)), handbook.BendKind(kind)); listed {
			rule.Bends = append(rule.Bends, BendLimit{Kind: name, Times: times, Source: sourceWords(h.Paper.Spoken(), source)})
		}
	}
	return rule
}

// bendDocument returns the document that the shop goes by for a kind.
func bendDocument(h *harness.Harness, kind handbook.BendKind) string {
	if kind == handbook.BendCoax {
		return h.Bundle.BendCoax
	}
	return h.Bundle.Bend
}

// limits returns the smallest bend radius of every wire and cable type in its diameters. A type is coax where one of its wires ends
// in a coax contact; a document that lists polyimide apart counts for it.
func (l *loom) limits(wires []Wire) map[string]int {
	coax := l.coaxTypes(wires)
	limits := map[string]int{}
	limit := func(id, insulation string) {
		kind := handbook.BendWire
		switch {
		case coax[id]:
			kind = handbook.BendCoax
		case strings.Contains(strings.ToLower(insulation), "polyimide"):
			kind = handbook.BendPolyimide
		}
		times, _, _ := handbook.BendRadius(bendDocument(l.h, kind), kind)
		plain, _, _ := handbook.BendRadius(bendDocument(l.h, handbook.BendWire), handbook.BendWire)
		limits[id] = cmp.Or(times, plain)
	}
	for _, t := range l.h.WireTypes {
		limit(t.ID, t.Insulation)
	}
	for _, t := range l.h.CableTypes {
		limit(t.ID, t.Insulation)
	}
	return limits
}

// coaxTypes returns the wire and cable types of which a wire ends in a coax contact.
func (l *loom) coaxTypes(wires []Wire) map[string]bool {
	contacts := map[string]bool{}
	for _, c := range l.h.Contacts {
		contacts[c.ID] = c.Kind == "coax"
	}
	cableType := map[string]string{}
	for _, c := range l.h.Cables {
		cableType[c.ID] = c.Type
	}
	coax := map[string]bool{}
	for i := range wires {
		w := &wires[i]
		if contacts[w.A.Contact] || contacts[w.B.Contact] {
			coax[cmp.Or(cableType[w.Cable], w.Type)] = true
		}
	}
	return coax
}
