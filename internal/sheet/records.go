package sheet

import (
	"fmt"
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
)

// tagsOnPage is how many reject tags stand on a page, to be torn off.
const tagsOnPage = 4

// recordSections lays what anybody on the floor may need: reject tags, rework log, shift hand-over and red-line log.
func recordSections(p *plan.Plan, m composer, problems *problem.List) []section {
	open := func() *book {
		b := newBook(m, problems)
		b.draft = p.Packet.Draft
		return b
	}
	return []section{
		{sheet: "tags", title: "Reject tags", pages: open().tags(p)},
		{sheet: "rework", title: "Rework log", pages: open().rework(p.Rework)},
		{sheet: "handover", title: "Shift hand-over", pages: open().handover()},
		{sheet: "redline", title: "Red-line log", pages: open().redline()},
	}
}

// tags prints numbered tags to tear off. Each names its packet, since it leaves the page.
func (b *book) tags(p *plan.Plan) [][]page.Item {
	height := (bodyBottom() - bodyTop()) / tagsOnPage
	for i, tag := range p.Tags {
		if i > 0 && i%tagsOnPage == 0 {
			b.turn()
		}
		b.tag(p.Packet, tag)
		if b.y += height; i%tagsOnPage < tagsOnPage-1 {
			b.tear(b.y - mm(1))
		}
	}
	return b.finish()
}

func (b *book) tag(packet plan.Packet, tag plan.Tag) {
	s, top := medium(10), b.y
	name := "TAG " + tag.Number
	b.text(live.X+mm(2), top+mm(8), bold(20), mm(40), name)
	x := live.X + mm(2) + b.width(bold(20), name) + mm(5)
	b.line(x, top+mm(8), live.X+live.W-x, []span{{style: monoBold(12), text: packet.Number}, {style: mono(11), text: packet.Part},
		{style: s, text: "unit", blank: mm(24)}})
	if key := keyIn(tag.Code); key != "" {
		b.matrix(live.X+live.W-symbolQuiet-matrixSide, top+mm(2), tag.Code)
		b.right(live.X+live.W, top+mm10(130), mono(9), mm(30), key)
	}
	y := top + mm(8)
	for _, line := range [][]span{
		{{style: s, text: "page and row", blank: mm(42)}, {style: s, text: "wire, cavity", blank: mm(38)}, {style: s, text: "pieces", blank: mm(12)}},
		{{style: bold(10), text: "is", blank: mm(78)}, {style: bold(10), text: "should be", blank: mm(66)}},
		{{style: s, text: "set aside where", blank: mm(48)}, {style: s, text: "found by", blank: mm(32)}, {style: s, text: "date", blank: mm(26)}},
	} {
		y += writePitch()
		b.line(live.X+mm(2), y, live.W-mm(4), line)
	}
	y += writePitch()
	x = live.X + mm(2)
	for _, words := range []string{"rework", "use as is", "scrap", "return"} {
		b.tick(x, y-mm10(42), boxSide())
		b.text(x+mm(7), y, medium(11), mm(22), words)
		x += mm(10) + b.width(medium(11), words)
	}
	b.line(x, y, live.X+live.W-mm(2)-x, []span{{style: s, text: "decided by", blank: mm(36)}, {style: s, text: "cause", blank: mm(12)}})
	y += writePitch()
	b.line(live.X+mm(2), y, live.W-mm(4), []span{{style: s, text: "done", blank: mm(52)}, {style: s, text: "inspected again", blank: mm(34)},
		{style: s, text: "closed", blank: mm(30)}})
}

// tear draws the line along which a tag is torn off.
func (b *book) tear(y page.Pt) {
	for x := live.X; x+mm(3) <= live.X+live.W; x += mm(5) {
		b.across(x, x+mm(3), y, groupRule)
	}
}

// rework logs what was crimped anew, against what the planned lengths leave for it.
func (b *book) rework(r plan.Rework) [][]page.Item {
	words := "The cut lengths leave nothing for crimping anew: an end that is cut off is reported before it is made again."
	if r.Times > 0 {
		words = fmt.Sprintf("The planned lengths leave room to crimp each end anew %s: its strip length and %s mm each time. Count here; beyond that the wire is too short.",
			plural(r.Times, "time"), exactMM(r.TrimBackUM))
	}
	b.y = b.paragraph(live.X, b.y+mm(4), medium(11), live.W, mm10(48), words) - mm(3)
	if len(r.Others) > 0 {
		b.y = b.flow(live.X, b.y+mm(5), live.W, mm10(46), append([]span{{style: bold(10), text: "other numbers:"}}, monoSpans(r.Others)...)...) - mm(4)
	}
	columns := []ledgerColumn{{"date", mm(20)}, {"unit", mm(17)}, {"wire, END", mm(33)}, {"cavity", mm(20)}, {"crimped anew, time no.", mm(22)}, {"why, tag no.", mm(34)},
		{"by", mm(17)}, {"inspected", mm(17)}}
	rows := int((b.left() - mm(18)) / writePitch())
	b.y = b.ledger(live.X, b.y+mm(3), columns, rows, writePitch())
	return b.finish()
}

func monoSpans(words []string) []span {
	spans := make([]span, len(words))
	for i, word := range words {
		spans[i] = span{style: mono(10), text: strings.TrimSpace(word)}
	}
	return spans
}

// handover prints the blocks of some shifts.
func (b *book) handover() [][]page.Item {
	s := medium(10)
	for i := range 3 {
		b.y += mm(2)
		b.text(live.X, b.y+mm(6), bold(14), live.W, "Shift")
		b.line(live.X+mm(22), b.y+mm(6), live.W-mm(22), []span{{style: s, text: "date", blank: mm(28)}, {style: s, text: "from", blank: mm(18)}, {style: s, text: "to", blank: mm(18)},
			{style: s, text: "place", blank: mm(40)}})
		b.y += mm(6)
		for _, line := range [][]span{
			{{style: s, text: "last row finished: page", blank: mm(44)}, {style: s, text: "row", blank: mm(18)}, {style: s, text: "next row", blank: mm(18)}},
			{{style: s, text: "reels and tools left mounted", blank: mm(116)}},
			{{style: s, text: "loose parts, trays out of place", blank: mm(112)}},
			{{style: s, text: "open tags", blank: mm(60)}, {style: s, text: "pages missing", blank: mm(48)}},
			{{style: bold(10), text: "not sure of", blank: mm(146)}},
			{{style: s, blank: mm(166)}},
			{{style: bold(10), text: "handed over by", blank: mm(56)}, {style: bold(10), text: "taken over by", blank: mm(56)}},
		} {
			b.y += writePitch()
			b.line(live.X, b.y, live.W, line)
		}
		b.y += mm(3)
		if i < 2 {
			b.across(live.X, live.X+live.W, b.y, groupRule)
		}
	}
	return b.finish()
}

// redline logs what was written into the packet by hand.
func (b *book) redline() [][]page.Item {
	b.y = b.paragraph(live.X, b.y+mm(4), medium(11), live.W, mm10(48), "A change by pen counts only when it stands here, approved, and in every copy. The planner takes it into the next revision or strikes it.") - mm(3)
	columns := []ledgerColumn{{"no.", mm(10)}, {"page", mm(32)}, {"what was changed, from and to", mm(60)}, {"by, date", mm(24)}, {"approved", mm(22)},
		{"copies", mm(14)}, {"next revision yes / no", mm(18)}}
	rows := int((b.left() - mm(18)) / (2 * writePitch()))
	b.y = b.ledger(live.X, b.y+mm(3), columns, rows, 2*writePitch())
	return b.finish()
}
