package sheet

import (
	"fmt"
	"slices"
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
)

// stripSections lays the list of the crimp bench: tray by tray, for each list of units.
func stripSections(p *plan.Plan, m composer, problems *problem.List) []section {
	var sections []section
	trays := p.TraysByUnit()
	for list, units := range p.Packet.Lists {
		for _, group := range p.Strips {
			name, said := group.Group, ""
			if name == "" {
				name, said = "no-tray", m.Say("strip.no_tray_section")
			}
			sections = append(sections, section{sheet: "strip", title: m.Say("strip.title"), name: name, said: said, part: batchName(list),
				pages: stripPages(p, m, problems, group, units, trays[plan.UnitGroup{Group: group.Group, Unit: units[0]}])})
		}
	}
	return sections
}

// stripPages lays the list of one group, which fills some trays in each of the units.
func stripPages(p *plan.Plan, m composer, problems *problem.List, group plan.StripGroup, units []string, trays []plan.Tray) [][]page.Item {
	rows, stripBy := make([]gridRow, len(group.Rows)), stripByOf(p)
	for i, row := range group.Rows {
		rows[i] = m.stripRow(row)
		rows[i].notes = slices.Concat(m.trayNotes(group.Rows, i, trays), m.substituteNotes(row, units, stripBy), rows[i].notes)
	}
	g := newTable(p, m, problems, units, []gridColumn{
		{title: m.Say("common.wire"), style: monoBold(12), least: mm(16)}, {title: m.Say("common.end"), style: bold(11), least: mm(7)},
		{title: m.Say("strip.goes_to"), style: mono(11), least: mm(16)}, {title: m.Say("strip.do"), style: bold(11), least: mm(16)},
		{title: m.Say("strip.strip_mm"), style: monoBold(11), least: mm(11)},
		{title: m.Say("strip.contact_part"), style: mono(9), least: mm(30), share: 1}, {title: m.Say("strip.tool"), style: medium(11), least: mm(28), share: 4},
	}, rows)
	g.head = func() {
		g.at = group.Place
		if group.Group == "" {
			g.title(bold(20), "", m.Say("strip.no_tray"), m.Say("strip.no_tray_how"))
			return
		}
		g.title(monoBold(28), group.Group, group.Title, m.trayHow(group.Group, trays))
	}
	g.turn()
	heights, closing := g.heights(rows), g.stripClosing(group)
	for i, row := range rows {
		keep := follow(heights, i, closing)
		if i+1 < len(rows) && group.Rows[i].Wire == group.Rows[i+1].Wire {
			keep = max(keep, heights[i+1]) // both ends of a wire stand on one page
		}
		g.row(row, keep)
	}
	g.stripClose(group)
	return g.finish()
}

// trayHow says which trays of each unit a list is about.
func (m composer) trayHow(group string, trays []plan.Tray) string {
	if len(trays) < 2 {
		return m.Say("strip.tray_how", "tray", group)
	}
	return m.Say("strip.trays_how", "first", trays[0].Name(), "last", trays[len(trays)-1].Name())
}

// trayNotes says where the wires of another tray begin, in a group that fills several.
func (m composer) trayNotes(rows []plan.StripRow, i int, trays []plan.Tray) []span {
	if len(trays) < 2 {
		return nil
	}
	tray := holding(trays, rows[i])
	if tray == "" || i > 0 && tray == holding(trays, rows[i-1]) {
		return nil
	}
	return []span{{style: bold(10), text: m.Say("strip.from_here", "tray", tray)}}
}

// holding names the tray that holds the wire of a row, or its cable.
func holding(trays []plan.Tray, row plan.StripRow) string {
	for _, tray := range trays {
		if slices.Contains(tray.Wires, row.Wire) || row.Cable != "" && slices.Contains(tray.Wires, row.Cable) {
			return tray.Name()
		}
	}
	return ""
}

// stripRow puts an end into cells.
func (m composer) stripRow(row plan.StripRow) gridRow {
	cells := gridRow{place: row.Place, first: row.SlideOn, open: row.Do == plan.DoNone,
		cells: []string{row.Wire, endLetter(row.End), m.goesTo(row), m.stripWords(row), m.stripLength(row), joined(" ", row.Contact, row.Part), ""}}
	switch {
	case row.Do == plan.DoCrimp && row.Tool == "":
		cells.cells[6] = m.Say("strip.by_maker")
	case row.Do == plan.DoCrimp || row.Do == plan.DoLeave:
		cells.cells[6] = joined(", ", row.Tool, row.Locator, strings.ReplaceAll(labelled(m.Say("common.setting"), row.Setting), " ", noBreak))
	}
	if len(row.Steps) > 0 {
		cells.notes = append(cells.notes, span{style: bold(11), text: m.Say("strip.steps", "steps", m.layerWords(row.Steps))})
	}
	cutBack := "bench"
	if row.Do == plan.DoLeave {
		cutBack = "board"
	}
	if row.TrimUM > 0 {
		cells.notes = append(cells.notes, span{style: bold(10), text: m.Say("strip.cut_back."+cutBack, "length", m.exact(row.TrimUM))})
	}
	for _, other := range row.With {
		cells.notes = append(cells.notes, span{style: bold(10), text: m.Say("strip.together")}, span{style: monoBold(10), text: other})
	}
	if len(row.With) > 0 {
		cells.notes = append(cells.notes, span{style: bold(10), text: m.Say("strip.one_barrel")})
	}
	for _, words := range []string{labelled(m.Say("strip.finish"), row.Finish), labelled(m.Say("strip.shield"), row.Shield), labelled(m.Say("common.note_label"), row.Note)} {
		if words != "" {
			cells.notes = append(cells.notes, span{style: medium(10), text: words})
		}
	}
	if row.Cable != "" && row.End == "a" {
		cells.notes = append(cells.notes, span{style: medium(10), text: m.Say("strip.core", "core", row.Core, "cable", row.Cable, "colour", row.Words)})
	}
	return cells
}

// goesTo names what an end goes to; what the cores of a cable go to may stand on several lines.
func (m composer) goesTo(row plan.StripRow) string {
	if row.Do == plan.DoJacket || row.Do == plan.DoNone && row.Gauge == "" {
		return strings.ReplaceAll(m.placeWords(row.At), "+", " + ")
	}
	return m.placeWords(row.At)
}

// stripWords says what is done to an end.
func (m composer) stripWords(row plan.StripRow) string { return m.Say("strip.what." + row.Do) }

// stripLength says how far an end is stripped; the steps of a coax end stand below it.
func (m composer) stripLength(row plan.StripRow) string {
	switch {
	case len(row.Steps) > 0:
		return m.Say("strip.in_steps")
	case row.StripUM == 0:
		return ""
	}
	return m.exact(row.StripUM)
}

// layerWords lists the steps of a coax end, outermost first: "jacket 12 mm, braid 8 mm".
func (m composer) layerWords(steps []plan.StripStep) string {
	var words []string
	for _, step := range steps {
		words = append(words, step.Layer+" "+m.exact(step.UM)+" mm")
	}
	return strings.Join(words, ", ")
}

// contactSpans count the contacts of a tray, for one unit.
func (g *table) contactSpans(group plan.StripGroup) []span {
	var spans []span
	for i, c := range group.Contacts {
		if i == 0 {
			spans = append(spans, span{style: bold(11), text: g.say("strip.one_unit")})
		}
		spans = append(spans, span{style: medium(11), text: joined(" ", fmt.Sprintf("%d x %s", c.Count, c.Words), c.Part)})
	}
	return spans
}

// stripClosing is the height of what closes the list of a tray.
func (g *table) stripClosing(group plan.StripGroup) page.Pt {
	return mm(8)*page.Pt(len(g.lines(live.W, g.contactSpans(group)))) + 3*writePitch() + mm(8)
}

// stripClose counts what the bench uses up, and asks for the tools and who worked.
func (g *table) stripClose(group plan.StripGroup) {
	g.needWithRow(g.stripClosing(group))
	g.y = g.flow(live.X, g.y+mm(7), live.W, mm(6), g.contactSpans(group)...) - mm(2)
	for range 2 {
		g.line(live.X, g.y+mm(6), live.W, []span{{style: medium(10), text: g.say("common.tool_id"), blank: mm(34)}, {style: medium(10), text: g.say("common.calibration_due"), blank: mm(28)},
			{style: medium(10), text: g.say("strip.blade"), blank: mm(34)}})
		g.y += writePitch()
	}
	g.signed(g.say("common.crimp_bench"))
}
