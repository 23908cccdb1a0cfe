package sheet

import (
	"fmt"
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

// kitSections lays what stores hand out besides wire, a row an item with its lot and a box; nothing where the job needs none.
func kitSections(p *plan.Plan, m composer, problems *problem.List) []section {
	if len(p.Kit) == 0 {
		return nil
	}
	rows := make([]gridRow, 0, len(p.Kit))
	for _, item := range p.Kit {
		rows = append(rows, kitRow(item, m))
	}
	g := newTable(p, m, problems, []string{""}, []gridColumn{
		{title: m.Say("kit.part"), style: monoBold(11), least: mm(30), share: 3}, {title: m.Say("kit.for"), style: mono(10), least: mm(14), share: 2},
		{title: m.Say("kit.sum"), style: medium(11), least: mm(28)}, {title: m.Say("kit.hand_out"), style: bold(12), least: mm(20)},
		{title: m.Say("common.lot"), style: regular(10), least: mm(30), write: true}, {title: m.Say("kit.by"), style: regular(10), least: mm(12), write: true}}, rows)
	g.head = func() {
		g.y = g.paragraph(live.X, g.y+mm(4), medium(10), live.W, mm10(46), m.Say("kit.how", "share", m.Decimal(p.Attrition))) - mm(3)
	}
	g.turn()
	for i, row := range rows {
		if kind := p.Kit[i].Kind; i == 0 || p.Kit[i-1].Kind != kind {
			g.heading(m.Say("kit.kind."+strings.ReplaceAll(kind, " ", "_")), kitKeep(p.Kit[i:], rows[i:], g))
		}
		follow := page.Pt(0)
		if i == len(rows)-1 {
			follow = rolesHeight(1)
		}
		g.row(row, follow)
	}
	g.signed(m.Say("common.picked_by"))
	return []section{{sheet: "kit", title: m.Say("kit.title"), pages: g.finish()}}
}

// kitKeep is the height of the rows that a heading keeps with it: three, or all of a kind that has fewer.
func kitKeep(items []plan.KitItem, rows []gridRow, g *table) page.Pt {
	height := page.Pt(0)
	for i := 0; i < len(rows) && i < 3 && items[i].Kind == items[0].Kind; i++ {
		height += g.height(rows[i])
		if i == len(rows)-1 {
			height += rolesHeight(1)
		}
	}
	return height
}

// kitRow sets an item: counted, or measured in whole millimetres.
func kitRow(item plan.KitItem, m composer) gridRow {
	part := joined(" ", item.Part, differs(item.Words, item.Part))
	if part == "" {
		part = m.Say("kit.no_part")
	}
	sum := fmt.Sprintf("%d + %d + %d", item.Need, item.Samples, item.Spare)
	handOut := fmt.Sprint(item.HandOut)
	if item.NeedUM > 0 {
		mm := func(um int64) string { return units.Length(um).Millimetres() }
		sum, handOut = mm(item.NeedUM)+" + "+mm(item.SpareUM)+" mm", mm(item.HandOutUM)+" mm"
	}
	return gridRow{cells: []string{part, strings.Join(item.For, " "), sum, handOut, "", ""}}
}

// differs returns a text unless it says the same as another.
func differs(text, other string) string {
	if text == other {
		return ""
	}
	return text
}
