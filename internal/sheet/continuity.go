package sheet

import (
	"slices"
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
)

// continuitySections lays the test of every net, connector by connector, for each list of units.
func continuitySections(p *plan.Plan, m composer, problems *problem.List) []section {
	if len(p.Nets) == 0 {
		return nil
	}
	var rows []gridRow
	for _, group := range p.Continuity.Groups {
		for _, row := range group.Rows {
			rows = append(rows, netRows(row, m)...)
		}
	}
	var sections []section
	for list, units := range p.Packet.Lists {
		g := newTable(p, m, problems, units, []gridColumn{
			{title: m.Say("continuity.from"), style: monoBold(12), least: mm(17)}, {title: m.Say("continuity.connected"), style: mono(12), least: mm(26), share: 2},
			{title: m.Say("continuity.wires"), style: mono(10), least: mm(20), share: 2}, {title: m.Say("continuity.isolated"), style: medium(10), least: mm(32), share: 2},
			{title: m.Say("common.tag_no"), style: mono(10), least: mm(13), write: true}}, rows)
		g.head = func() {}
		g.open = nil
		g.turn()
		g.test(&p.Continuity, slices.ContainsFunc(p.Connectors, func(c plan.Connector) bool { return c.Face.Kind != "" }))
		for i, group := range p.Continuity.Groups {
			closing := g.othersHeight(group)
			if i == len(p.Continuity.Groups)-1 {
				closing += rolesHeight(2)
			}
			g.group(group, closing)
		}
		g.signed(m.Say("continuity.tester"), m.Say("common.inspector"))
		sections = append(sections, section{sheet: "continuity", title: m.Say("continuity.title"), name: "", part: batchName(list), pages: g.finish()})
	}
	return append(sections, matingSections(p, m, problems)...)
}

// Ends and wires that stand in their columns, and ends that stand in one row: a ground can hold hundreds.
const (
	fewEnds  = 6
	mostEnds = 90
)

// netRows puts a net into rows: one, unless it has more ends than a page can hold together.
func netRows(row plan.ContinuityRow, m composer) []gridRow {
	var rows []gridRow
	for from := 0; from == 0 || from < max(len(row.To), len(row.Wires)); from += mostEnds {
		part := row
		part.To, part.Wires = partOf(row.To, from), partOf(row.Wires, from)
		if from > 0 {
			part.Through, part.Note = nil, m.Say("common.goes_on")
		}
		rows = append(rows, netRow(part, m))
	}
	return rows
}

// partOf returns what of a list stands in one row.
func partOf(list []string, from int) []string {
	from = min(from, len(list))
	return list[from:min(from+mostEnds, len(list))]
}

// netRow puts a net, or a part of one, into cells. A net without another end is only looked at for what it may not touch.
func netRow(row plan.ContinuityRow, m composer) gridRow {
	to, wires := strings.Join(row.To, " "), strings.Join(row.Wires, " ")
	cells := gridRow{place: row.Place}
	if len(row.To) > fewEnds {
		cells.notes, to = append(cells.notes, span{style: mono(11), text: to}), m.Say("continuity.ends_below", "n", len(row.To))
	}
	if len(row.Wires) > fewEnds {
		cells.notes, wires = append(cells.notes, span{style: mono(10), text: m.Say("continuity.wires_are", "wires", wires)}), m.Say("continuity.wires_below", "n", len(row.Wires))
	}
	if to == "" {
		to = "–"
	}
	cells.cells = []string{row.From, to, wires, row.Isolated, ""}
	if len(row.Through) > 0 {
		cells.notes = append(cells.notes, span{style: medium(10), text: m.Say("continuity.through", "through", strings.Join(row.Through, ", "))})
	}
	if row.Note != "" {
		cells.notes = append(cells.notes, span{style: bold(10), text: row.Note})
	}
	if row.Excluded {
		cells.notes = append(cells.notes, span{style: bold(10), text: m.Say("continuity.no_high_potential")})
	}
	return cells
}

// test prints how the test is made, and what is left to the responsible engineer.
func (g *table) test(c *plan.Continuity, faces bool) {
	s, paragraphs := medium(10), []string{g.say("continuity.how"), g.say("continuity.every_net")}
	if faces {
		paragraphs = append(paragraphs, g.say("continuity.faces_at"))
	}
	for _, words := range paragraphs {
		g.y = g.paragraph(live.X, g.y+mm(4), s, live.W, mm10(44), words) - mm(3)
	}
	limit := span{style: bold(10), text: g.say("continuity.limit_before"), blank: mm(20), after: g.say("continuity.limit_after")}
	if c.Limit != "" {
		limit = span{style: bold(10), text: g.say("continuity.limit", "limit", c.Limit)}
	}
	g.y += mm(1)
	for _, line := range [][]span{{{style: s, text: g.say("continuity.test_set"), blank: mm(30)}, {style: s, text: g.say("continuity.calibration_due"), blank: mm(24)},
		{style: s, text: g.say("continuity.program"), blank: mm(32)}}, {limit}} {
		g.y = g.flow(live.X, g.y+mm(6), live.W, writePitch(), line...) - mm(6)
	}
	g.highPotential(c)
}

// highPotential leaves every figure to the responsible engineer, and names what no such test may reach.
func (g *table) highPotential(c *plan.Continuity) {
	s, top := medium(10), g.y+mm(2)
	g.y = top + mm(1)
	g.y = g.paragraph(live.X+mm(3), g.y+mm(4), bold(11), live.W-mm(6), mm10(46), g.say("continuity.high_potential")) - mm(4)
	g.y = g.paragraph(live.X+mm(3), g.y+mm(4), s, live.W-mm(6), mm10(44), g.say("continuity.never")) - mm(4)
	for _, e := range c.Exclusions {
		g.y = g.flow(live.X+mm(3), g.y+mm(5), live.W-mm(6), mm10(46), span{style: bold(11), text: g.say("continuity.not_on")}, span{style: monoBold(11), text: strings.Join(e.At, ", ")},
			span{style: medium(11), text: e.Why}) - mm(5)
	}
	g.y = g.flow(live.X+mm(3), g.y+mm(7), live.W-mm(6), writePitch(), span{style: s, text: g.say("continuity.insulation"), blank: mm(16), after: "V"}, span{style: s, blank: mm(12), after: "s"},
		span{style: s, text: g.say("continuity.at_least"), blank: mm(18), after: g.say("continuity.megohm")}, span{style: s, text: g.say("continuity.withstand"), blank: mm(16), after: "V"},
		span{style: s, blank: mm(12), after: "s"}, span{style: s, text: g.say("continuity.at_most"), blank: mm(14), after: "mA"},
		span{style: s, text: g.say("continuity.engineer"), blank: mm(44)}, span{style: s, text: g.say("common.date"), blank: mm(26)}) - mm(5)
	g.box(live.X, top, live.W, g.y-top, groupRule)
	g.y += mm(2)
}

// group prints the rows of one connector, and what else becomes of its cavities; closing is the height of what follows the rows.
func (g *table) group(group plan.ContinuityGroup, closing page.Pt) {
	rows := g.netsOf(group)
	first := mm(10) + closing
	if heights := g.heights(rows); len(rows) > 0 {
		first = heights[0] + follow(heights, 0, closing)
	}
	g.open = nil
	g.at = group.Place
	g.need(mm(14) + g.headHeight() + first)
	g.y += mm(3)
	name := group.Connector
	if name == "" {
		g.text(live.X, g.y+mm(6), bold(14), live.W, g.say("continuity.rest"))
	} else {
		g.line(live.X, g.y+mm(6), live.W, g.present([]span{{style: monoBold(16), text: name}, {style: medium(12), text: group.Title}}))
	}
	g.y += mm(8)
	g.heads()
	g.head = func() {
		g.y += mm(1)
		g.text(live.X, g.y+mm(4), bold(11), live.W, strings.TrimSpace(g.say("continuity.goes_on", "connector", name)))
		g.y += mm(5)
	}
	g.open = func() {
		g.head()
		g.heads()
	}
	g.rows(name, rows, closing)
	g.others(group)
	g.open = nil
}

// netsOf puts the nets of a connector into rows, and what stays open into one more.
func (g *table) netsOf(group plan.ContinuityGroup) []gridRow {
	var rows []gridRow
	for _, row := range group.Rows {
		rows = append(rows, netRows(row, g.metrics)...)
	}
	if len(group.Open) > 0 {
		rows = append(rows, gridRow{place: group.Place, cells: []string{g.say("continuity.open"), "–", "", g.say("continuity.everything"), ""},
			notes: []span{{style: bold(10), text: g.say("continuity.no_connection")}, {style: monoBold(10), text: strings.Join(group.Open, " ")}}})
	}
	return rows
}

// othersHeight is the height of what others prints.
func (g *table) othersHeight(group plan.ContinuityGroup) page.Pt {
	height := page.Pt(0)
	for _, before := range group.Before {
		height += mm(5)*page.Pt(len(g.lines(live.W, g.beforeSpans(before)))) + mm(1)
	}
	return height
}

// others says where cavities that no row of a connector names are tested.
func (g *table) others(group plan.ContinuityGroup) {
	for _, before := range group.Before {
		lines := g.lines(live.W, g.beforeSpans(before))
		g.need(mm(5) * page.Pt(len(lines)))
		for _, line := range lines {
			g.y += mm10(46)
			g.line(live.X, g.y, live.W, line)
		}
		g.y += mm(1)
	}
}

func (g *table) beforeSpans(before plan.Before) []span {
	return []span{{style: medium(10), text: g.say("continuity.tested_in", "connector", before.Connector)}, {style: mono(10), text: strings.Join(before.Cavities, " ")}}
}
