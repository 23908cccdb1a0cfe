package sheet

import (
	"slices"
	"strings"

	"loomleaf/internal/plan"
)

// substituteWords says what a wire is cut from in place of its type; "" where it is cut from its own.
func (m composer) substituteWords(s *plan.InPlace) string {
	if s == nil {
		return ""
	}
	return m.Say("substitute.wire", "type", s.Type, "for", s.For, "approved", s.Approved)
}

// substituteFor says what a reel takes the place of.
func (m composer) substituteFor(s *plan.InPlace) string {
	if s == nil {
		return ""
	}
	return m.Say("substitute.reel", "for", s.For, "approved", s.Approved)
}

// placesSpans says what a reel takes the place of, for each type.
func (m composer) placesSpans(s style, places []plan.InPlace) []span {
	var spans []span
	for i := range places {
		spans = append(spans, span{style: s, text: m.substituteFor(&places[i])})
	}
	return spans
}

// substituteNotes says at the crimp bench which units of a list are cut from another type, and how that is stripped.
func (m composer) substituteNotes(row plan.StripRow, listed []string, stripBy map[string]string) []span {
	var spans []span
	for i := range row.Substitutes {
		place := row.Substitutes[i].InPlace
		var units []string
		for _, other := range row.Substitutes {
			if other.InPlace == place && slices.Contains(listed, other.Unit) {
				units = append(units, other.Unit)
			}
		}
		if len(units) == 0 || slices.ContainsFunc(row.Substitutes[:i], func(u plan.UnitInPlace) bool { return u.InPlace == place }) {
			continue
		}
		words := m.Say("substitute.units", "units", strings.Join(units, ", "), "wire", m.substituteWords(&place))
		spans = append(spans, span{style: bold(10), text: joined(", ", words, labelled(m.Say("common.strip_by"), m.stripBy(stripBy[place.Type])))})
	}
	return spans
}

// stripByOf says how each type is stripped.
func stripByOf(p *plan.Plan) map[string]string {
	how := map[string]string{}
	for _, t := range p.Types {
		how[t.ID] = t.StripBy
	}
	return how
}
