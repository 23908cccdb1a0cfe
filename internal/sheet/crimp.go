package sheet

import (
	"fmt"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
)

// crimpBook writes crimp set-up and pull test: a block for each tool setting, contact and size.
type crimpBook struct {
	book
	plan *plan.Plan
}

// crimpSections lays the set-up of the crimp bench and the record of the pull test.
func crimpSections(p *plan.Plan, m composer, problems *problem.List) []section {
	if len(p.Crimps) == 0 {
		return nil
	}
	b := &crimpBook{book: *newBook(m, problems), plan: p}
	b.draft = p.Packet.Draft
	b.open = b.head
	b.turn()
	for i, row := range p.Crimps {
		b.block(i+1, row)
	}
	b.rules()
	return []section{{sheet: "crimp", title: m.Say("crimp.title"), pages: b.finish()}}
}

func (b *crimpBook) head() {
	b.y = b.paragraph(live.X, b.y+mm(4), medium(10), live.W, mm10(46), b.say("crimp.how")) - mm(2)
}

// facts are the lines of a block: what is set, what it must hold, what it must look like.
func (b *crimpBook) facts(row plan.CrimpRow) [][]span {
	s, strong := medium(11), bold(11)
	strip := b.say("crimp.strip", "length", b.exact(row.StripUM))
	if len(row.Steps) > 0 {
		strip = b.say("strip.steps", "steps", b.metrics.layerWords(row.Steps))
	}
	set := []span{{style: strong, text: row.Tool}, {style: s, text: labelled(b.say("common.locator"), row.Locator)}, {style: strong, text: labelled(b.say("common.setting"), row.Setting)},
		{style: s, text: strip}, {style: s, text: b.say("crimp.each_unit", "n", row.Crimps)}}
	if row.Tool == "" {
		set[0] = span{style: strong, text: b.say("crimp.by_maker"), blank: mm(44)}
	}
	hold := []span{{style: strong, text: b.sayCount("crimp.pull_drawing", row.Samples), blank: mm(20), after: "N"}}
	if row.Minimum != "" {
		hold = []span{{style: strong, text: b.sayCount("crimp.pull", row.Samples, "force", b.metrics.decimals(row.Minimum))}}
	}
	switch {
	case row.Seating != "":
		hold = append(hold, span{style: strong, text: b.say("crimp.seating", "force", b.metrics.decimals(row.Seating))})
	case row.Kind == "contact":
		hold = append(hold, span{style: s, text: b.say("crimp.seating_blank"), blank: mm(20), after: "N"})
	}
	var look []span
	if row.GapMostUM > 0 {
		look = append(look, span{style: s, text: b.say("crimp.gap", "least", b.exact(row.GapLeastUM), "most", b.exact(row.GapMostUM))})
	}
	look = append(look, span{style: s, text: labelled(b.say("crimp.strands"), row.Strands)})
	lines := b.lines(live.W-mm(2), b.present(set))
	lines = append(lines, b.lines(live.W-mm(2), hold)...)
	lines = append(lines, b.lines(live.W-mm(2), b.present(look))...)
	return append(lines, b.lines(live.W-mm(2), b.present([]span{{style: medium(9), text: labelled(b.say("crimp.minimum"), row.Source)}}))...)
}

// block prints one row of the plan, with the blanks of its record.
func (b *crimpBook) block(number int, row plan.CrimpRow) {
	b.at = row.Place
	facts := b.facts(row)
	name := b.lines(live.W, b.present([]span{{style: monoBold(14), text: row.Contact}, {style: mono(11), text: row.Part}, {style: bold(12), text: row.Size},
		{style: medium(11), text: labelled(b.say("crimp.samples_from"), b.metrics.typeNames(row.Types))}}))
	results := b.lines(live.W-mm(2), b.results(row.Samples))
	b.need(mm(4) + mm(6)*page.Pt(len(name)+len(facts)) + writePitch()*page.Pt(len(results)+1))
	top := b.y
	b.y += mm(2)
	for _, line := range name {
		b.y += mm(6)
		b.line(live.X, b.y, live.W, line)
	}
	for _, line := range facts {
		b.y += mm10(56)
		b.line(live.X+mm(2), b.y, live.W-mm(2), line)
	}
	for _, line := range append(results, b.made()) {
		b.y += writePitch()
		b.line(live.X+mm(2), b.y, live.W-mm(2), line)
	}
	b.y += mm(2)
	b.across(live.X, live.X+live.W, b.y, groupRule)
	b.mark(fmt.Sprintf("set-up %d", number), 1, top, b.y-top, 0)
	b.at = problem.Place{}
}

func (b *crimpBook) results(samples int) []span {
	var spans []span
	for i := range samples {
		spans = append(spans, span{style: medium(10), text: fmt.Sprintf("%d.", i+1), blank: mm(18), after: "N"},
			span{style: medium(10), text: b.say("crimp.break"), blank: mm(7)})
	}
	return spans
}

func (b *crimpBook) made() []span {
	s := medium(10)
	return []span{{style: s, text: b.say("common.tool_id"), blank: mm(22)}, {style: s, text: b.say("common.calibration_due"), blank: mm(21)}, {style: s, text: b.say("crimp.go"), blank: mm(8)},
		{style: s, text: b.say("common.by"), blank: mm(14)}, {style: s, text: b.say("common.stamp"), blank: mm(14)}}
}

// rules prints how the test is made and where its figures come from.
func (b *crimpBook) rules() {
	lines := b.rulesOf()
	b.heading(b.say("crimp.sources"), mm(20))
	for _, words := range lines {
		b.need(mm10(46)*page.Pt(len(b.wrap(medium(10), live.W, words))) + mm(1))
		b.y = b.paragraph(live.X, b.y+mm10(48), medium(10), live.W, mm10(46), words) - mm10(40)
	}
}

// rulesOf returns the words below the record.
func (b *crimpBook) rulesOf() []string {
	return append([]string{b.say("crimp.drawing_first"), b.say("crimp.breaks")}, b.plan.CrimpRules...)
}
