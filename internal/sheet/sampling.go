package sheet

import (
	"fmt"

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
	b.y = b.paragraph(live.X, b.y+mm(4), medium(10), live.W, mm10(46), "Single sampling, normal inspection, as the job asks for it. Draw the sample from the whole lot, before anybody has sorted it. "+
		"Continuity and cavities are never sampled: they are tested in every unit.") - mm(2)
	for _, s := range p.Sampling {
		b.sample(s)
	}
	return []section{{sheet: "sampling", title: "Sampling", pages: b.finish()}}
}

// sample prints one plan with the blanks of its record.
func (b *book) sample(s plan.Sample) {
	b.need(mm(62))
	b.y += mm(4)
	b.text(live.X, b.y+mm(6), bold(16), live.W, s.What)
	b.y += mm(13)
	b.line(live.X, b.y, live.W, []span{{style: medium(11), text: fmt.Sprintf("lot %d", s.Lot)}, {style: medium(11), text: "level " + s.Level},
		{style: medium(11), text: "AQL " + s.AQL}, {style: medium(11), text: "code letter " + s.Letter}, {style: medium(11), text: letterWords(s)}})
	b.y += mm(9)
	if s.All {
		b.line(live.X, b.y, live.W, []span{{style: bold(14), text: fmt.Sprintf("inspect all %d: the sample would reach the lot", s.Lot)}})
	} else {
		b.line(live.X, b.y, live.W, []span{{style: bold(14), text: fmt.Sprintf("inspect %d", s.Count)},
			{style: bold(14), text: fmt.Sprintf("accept with %d or fewer", s.Accept)}, {style: bold(14), text: fmt.Sprintf("reject with %d or more", s.Reject)}})
	}
	b.y += mm(1)
	w := medium(10)
	for _, line := range [][]span{{{style: w, text: "lot drawn from", blank: mm(60)}, {style: w, text: "inspected", blank: mm(20)}, {style: w, text: "found bad", blank: mm(20)}},
		{{style: w, text: "tags", blank: mm(44)}, {style: w, text: "by", blank: mm(30)}, {style: w, text: "date", blank: mm(26)}, {style: w, text: "stamp", blank: mm(20)}}} {
		b.y += writePitch()
		b.line(live.X, b.y, live.W, line)
	}
	x := live.X
	b.y += mm(3)
	for _, words := range []string{"lot accepted", "lot rejected: inspect every piece"} {
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
func letterWords(s plan.Sample) string {
	if s.Used == s.Letter {
		return ""
	}
	return "the arrow leads to " + s.Used
}
