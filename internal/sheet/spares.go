package sheet

import (
	"fmt"
	"slices"
	"strings"

	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
)

// spareSections lays what goes into the cavities that no wire reaches, a row a connector, for each list of units.
func spareSections(p *plan.Plan, m composer, problems *problem.List) []section {
	var rows []gridRow
	source := ""
	for _, s := range p.Spares {
		if len(s.Cavities) == 0 {
			continue
		}
		rows, source = append(rows, spareRow(s, m)), s.Source
	}
	if len(rows) == 0 {
		return nil
	}
	var sections []section
	for list, units := range p.Packet.Lists {
		g := newTable(p, m, problems, units, []gridColumn{
			{title: m.Say("common.connector"), style: monoBold(12), least: mm(20)}, {title: m.Say("spares.cavities"), style: mono(11), least: mm(30), share: 3},
			{title: m.Say("spares.gets"), style: medium(11), least: mm(34), share: 2}, {title: m.Say("spares.plugs"), style: monoBold(11), least: mm(10)},
			{title: m.Say("spares.contacts"), style: mono(11), least: mm(14), share: 1}, {title: m.Say("spares.advised_head"), style: mono(11), least: mm(15)}}, rows)
		g.head = func() {
			g.y = g.paragraph(live.X, g.y+mm(4), medium(10), live.W, mm10(46), m.Say("spares.how")) - mm(4)
		}
		g.turn()
		g.rows("", rows, mm(16)+rolesHeight(2))
		g.need(mm(6))
		g.y = g.paragraph(live.X, g.y+mm(5), medium(9), live.W, mm10(42), m.Say("spares.advised", "source", source)) - mm(4)
		g.signed(m.Say("common.installer"), m.Say("common.inspector"))
		sections = append(sections, section{sheet: "spares", title: m.Say("spares.title"), part: batchName(list), pages: g.finish()})
	}
	return sections
}

// fewCavities stand in their column; more get lines of their own.
const fewCavities = 12

func spareRow(s plan.Spare, m composer) gridRow {
	gets := m.Say("spares.left_open")
	switch s.Rule {
	case "seal":
		gets = s.Seal
	case "contact and seal":
		gets = m.Say("spares.contact_and_seal", "seal", s.Seal)
	}
	plugs := "–"
	if s.Plugs > 0 {
		plugs = fmt.Sprint(s.Plugs)
	}
	contacts := "–"
	if len(s.Contacts) > 0 {
		contacts = countedParts(s.Contacts)
	}
	row, cavities := gridRow{}, strings.Join(s.Cavities, " ")
	if len(s.Cavities) > fewCavities {
		row.notes, cavities = []span{{style: mono(11), text: cavities}}, m.Say("spares.below", "n", len(s.Cavities))
	}
	row.cells = []string{s.Connector, cavities, gets, plugs, contacts, fmt.Sprintf("%d, %d", len(s.Cavities), s.Advised)}
	return row
}

// countedParts counts parts by their ids: "3 S22".
func countedParts(ids []string) string {
	var words []string
	for _, id := range slices.Compact(slices.Sorted(slices.Values(ids))) {
		count := 0
		for _, other := range ids {
			if other == id {
				count++
			}
		}
		words = append(words, fmt.Sprintf("%d %s", count, id))
	}
	return strings.Join(words, ", ")
}
