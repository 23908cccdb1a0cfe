package sheet

import (
	"fmt"
	"slices"
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
)

// firstPieceSections lays the record of the first piece: each characteristic with what is asked for, and a place for what was found.
func firstPieceSections(p *plan.Plan, m composer, problems *problem.List) []section {
	if len(p.FirstPiece) == 0 {
		return nil
	}
	var sources []string
	rows := make([]gridRow, len(p.FirstPiece))
	for i, f := range p.FirstPiece {
		rows[i] = featureRow(f, &sources)
	}
	g := newTable(p, m, problems, nil, []gridColumn{
		{title: m.Say("common.no"), style: mono(10), least: mm(9)}, {title: m.Say("firstpiece.characteristic"), style: bold(11), least: mm(30), share: 1},
		{title: m.Say("firstpiece.requirement"), style: medium(11), least: mm(34), share: 3}, {title: m.Say("firstpiece.found"), style: mono(10), least: mm(22), write: true},
		{title: m.Say("firstpiece.with"), style: mono(10), least: mm(14), write: true}, {title: m.Say("firstpiece.good"), style: mono(10), least: mm(8), write: true},
		{title: m.Say("common.tag_no"), style: mono(10), least: mm(12), write: true}}, rows)
	g.head = func() {}
	g.open = nil
	g.turn()
	g.reasons(p)
	closing := min(g.sourcesHeight(sources)+rolesHeight(2), mm(80))
	for from := 0; from < len(rows); {
		name, to := p.FirstPiece[from].Group, from+1
		for to < len(rows) && p.FirstPiece[to].Group == name {
			to++
		}
		below := page.Pt(0)
		if to == len(rows) {
			below = closing
		}
		g.features(m.Say("firstpiece.group."+strings.ReplaceAll(name, " ", "_")), rows[from:to], below)
		from = to
	}
	g.open = nil
	g.needWithRow(closing)
	g.notes(sources)
	g.signed(m.Say("common.inspector"), m.Say("firstpiece.accepted_by"))
	return []section{{sheet: "firstpiece", title: m.Say("firstpiece.title"), pages: g.finish()}}
}

// features prints the characteristics of one group under its name; closing is the height of what has to stand on the page of its end.
func (g *table) features(name string, rows []gridRow, closing page.Pt) {
	heights := g.heights(rows)
	g.open = nil
	g.need(mm(11) + g.headHeight() + heights[0] + follow(heights, 0, closing))
	g.y += mm(3)
	g.text(live.X, g.y+mm(5), bold(13), live.W, name)
	g.y += mm(6)
	g.heads()
	g.open = g.heads
	g.rows(name, rows, closing)
}

// featureRow puts a characteristic into cells; a number behind the requirement names its source.
func featureRow(f plan.Feature, sources *[]string) gridRow {
	requirement := f.Requirement
	if f.Source != "" {
		at := slices.Index(*sources, f.Source)
		if at < 0 {
			at = len(*sources)
			*sources = append(*sources, f.Source)
		}
		requirement += fmt.Sprintf(" [%d]", at+1)
	}
	return gridRow{cells: []string{fmt.Sprint(f.Number), f.What, requirement, f.Write, "", "", ""}}
}

// reasons says which unit is looked at and why.
func (g *table) reasons(p *plan.Plan) {
	g.y = g.paragraph(live.X, g.y+mm(4), medium(10), live.W, mm10(44), g.say("firstpiece.how")) - mm(2)
	s := medium(10)
	g.line(live.X, g.y+mm(6), live.W, []span{{style: s, text: g.say("common.unit"), blank: mm(26)}, {style: s, text: g.say("firstpiece.report_no"), blank: mm(34)}, {style: s, text: g.say("firstpiece.drawing"), blank: mm(44)}})
	g.y += writePitch()
	x := live.X
	for i, reason := range []string{"part", "design", "process", "program", "idle", "partial"} {
		if i == 3 {
			x, g.y = live.X, g.y+mm(8)
		}
		g.tick(x, g.y+mm(1), boxSide())
		g.text(x+mm(7), g.y+mm(5), medium(11), mm(44), g.say("firstpiece.reason."+reason))
		x += mm(52)
	}
	g.blank(live.X+mm(150), g.y+mm(5), mm(30))
	g.y += mm(9)
}

// sourcesHeight is what the sources take.
func (g *table) sourcesHeight(sources []string) page.Pt {
	height := mm(9)
	for i, source := range sources {
		height += mm10(46) * page.Pt(len(g.wrap(medium(9), live.W, sourceWords(i, source))))
	}
	return height
}

func sourceWords(i int, source string) string { return fmt.Sprintf("[%d] %s", i+1, source) }

// notes spells out sources by their numbers.
func (g *table) notes(sources []string) {
	g.y += mm(2)
	for i, source := range sources {
		words := sourceWords(i, source)
		g.need(mm10(46) * page.Pt(len(g.wrap(medium(9), live.W, words))))
		g.y = g.paragraph(live.X, g.y+mm(4), medium(9), live.W, mm10(42), words) - mm10(38)
	}
	if strings.Join(sources, "") != "" {
		words := g.say("firstpiece.drawing_first")
		g.need(mm(5))
		g.y = g.paragraph(live.X, g.y+mm(4), bold(9), live.W, mm10(42), words) - mm10(38)
	}
}
