package sheet

import (
	"strings"

	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
)

// samplingSections lays the sampling plans that the job asks for, and nothing where it asks for none.
func samplingSections(p *plan.Plan, m composer, problems *problem.List) []section {
	if len(p.Sampling) == 0 {
		return nil
	}
	b := newBook(m, problems)
	b.draft = p.Packet.Draft
	b.y = b.paragraph(live.X, b.y+mm(4), medium(10), live.W, mm10(46), b.say("sampling.how")) - mm(2)
	for _, s := range p.Sampling {
		b.sample(s)
	}
	return []section{{sheet: "sampling", title: m.Say("sampling.title"), pages: b.finish()}}
}

// sample prints one plan with the blanks of its record.
func (b *book) sample(s plan.Sample) {
	b.need(mm(62))
	b.y += mm(4)
	b.text(live.X, b.y+mm(6), bold(16), live.W, b.say("sampling.what."+strings.ReplaceAll(s.What, " ", "_")))
	b.y += mm(13)
	b.line(live.X, b.y, live.W, []span{{style: medium(11), text: b.say("sampling.lot", "n", s.Lot)}, {style: medium(11), text: b.say("sampling.level", "level", s.Level)},
		{style: medium(11), text: "AQL " + b.decimal(s.AQL)}, {style: medium(11), text: b.say("sampling.letter", "letter", s.Letter)}, {style: medium(11), text: b.letterWords(s)}})
	b.y += mm(9)
	if s.All {
		b.line(live.X, b.y, live.W, []span{{style: bold(14), text: b.say("sampling.all", "n", s.Lot)}})
	} else {
		b.line(live.X, b.y, live.W, []span{{style: bold(14), text: b.say("sampling.inspect", "n", s.Count)},
			{style: bold(14), text: b.say("sampling.accept", "n", s.Accept)}, {style: bold(14), text: b.say("sampling.reject", "n", s.Reject)}})
	}
	b.y += mm(1)
	w := medium(10)
	for _, line := range [][]span{{{style: w, text: b.say("sampling.drawn"), blank: mm(60)}, {style: w, text: b.say("sampling.inspected"), blank: mm(20)}, {style: w, text: b.say("sampling.bad"), blank: mm(20)}},
		{{style: w, text: b.say("sampling.tags"), blank: mm(44)}, {style: w, text: b.say("common.by"), blank: mm(30)}, {style: w, text: b.say("common.date"), blank: mm(26)}, {style: w, text: b.say("common.stamp"), blank: mm(20)}}} {
		b.y += writePitch()
		b.line(live.X, b.y, live.W, line)
	}
	x := live.X
	b.y += mm(3)
	for _, words := range []string{b.say("sampling.accepted"), b.say("sampling.rejected")} {
		b.tick(x, b.y, boxSide())
		b.text(x+mm(7), b.y+mm10(42), medium(11), mm(70), words)
		x += mm(60)
	}
	b.y += mm(10)
	b.text(live.X, b.y, medium(9), live.W, s.Source)
	b.y += mm(2)
	b.across(live.X, live.X+live.W, b.y, groupRule)
}

// letterWords says where the arrows of the table lead.
func (b *book) letterWords(s plan.Sample) string {
	if s.Used == s.Letter {
		return ""
	}
	return b.say("sampling.arrow", "letter", s.Used)
}
