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
	for from := 0; from < len(rows); {
		kind, to := p.Kit[from].Kind, from+1
		for to < len(rows) && p.Kit[to].Kind == kind {
			to++
		}
		closing := page.Pt(0)
		if to == len(rows) {
			closing = rolesHeight(1)
		}
		heights := g.heights(rows[from:to])
		g.heading(m.Say("kit.kind."+strings.ReplaceAll(kind, " ", "_")), heights[0]+follow(heights, 0, closing))
		g.rows(kind, rows[from:to], closing)
		from = to
	}
	g.signed(m.Say("common.picked_by"))
	return []section{{sheet: "kit", title: m.Say("kit.title"), pages: g.finish()}}
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
