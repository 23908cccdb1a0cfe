package sheet

import (
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
		{sheet: "tags", title: m.Say("tags.title"), pages: open().tags(p)},
		{sheet: "rework", title: m.Say("rework.title"), pages: open().rework(p.Rework)},
		{sheet: "handover", title: m.Say("handover.title"), pages: open().handover()},
		{sheet: "redline", title: m.Say("redline.title"), pages: open().redline()},
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
	name := b.say("tags.tag", "number", tag.Number)
	b.text(live.X+mm(2), top+mm(8), bold(20), mm(40), name)
	x := live.X + mm(2) + b.width(bold(20), name) + mm(5)
	b.line(x, top+mm(8), live.X+live.W-x, []span{{style: monoBold(12), text: packet.Number}, {style: mono(11), text: packet.Part},
		{style: s, text: b.say("common.unit"), blank: mm(24)}})
	if key := keyIn(tag.Code); key != "" {
		b.matrix(live.X+live.W-symbolQuiet-matrixSide, top+mm(2), tag.Code)
		b.right(live.X+live.W, top+mm10(130), mono(9), mm(30), key)
	}
	y := top + mm(8)
	for _, line := range [][]span{
		{{style: s, text: b.say("common.page_row"), blank: mm(42)}, {style: s, text: b.say("tags.wire_cavity"), blank: mm(38)}, {style: s, text: b.say("tags.pieces"), blank: mm(12)}},
		{{style: bold(10), text: b.say("tags.is"), blank: mm(78)}, {style: bold(10), text: b.say("tags.should"), blank: mm(66)}},
		{{style: s, text: b.say("tags.aside"), blank: mm(48)}, {style: s, text: b.say("tags.found"), blank: mm(32)}, {style: s, text: b.say("common.date"), blank: mm(26)}},
	} {
		y += writePitch()
		b.line(live.X+mm(2), y, live.W-mm(4), line)
	}
	y += writePitch()
	x = live.X + mm(2)
	for _, words := range []string{b.say("tags.rework"), b.say("tags.use"), b.say("tags.scrap"), b.say("tags.return")} {
		b.tick(x, y-mm10(42), boxSide())
		b.text(x+mm(7), y, medium(11), mm(30), words)
		x += mm(10) + b.width(medium(11), words)
	}
	b.line(x, y, live.X+live.W-mm(2)-x, []span{{style: s, text: b.say("tags.decided"), blank: mm(36)}, {style: s, text: b.say("tags.cause"), blank: mm(12)}})
	y += writePitch()
	b.line(live.X+mm(2), y, live.W-mm(4), []span{{style: s, text: b.say("tags.done"), blank: mm(52)}, {style: s, text: b.say("tags.again"), blank: mm(34)},
		{style: s, text: b.say("tags.closed"), blank: mm(30)}})
}

// tear draws the line along which a tag is torn off.
func (b *book) tear(y page.Pt) {
	for x := live.X; x+mm(3) <= live.X+live.W; x += mm(5) {
		b.across(x, x+mm(3), y, groupRule)
	}
}

// rework logs what was crimped anew, against what the planned lengths leave for it.
func (b *book) rework(r plan.Rework) [][]page.Item {
	words := b.say("rework.nothing")
	if r.Times > 0 {
		words = b.sayCount("rework.room", r.Times, "length", b.exact(r.TrimBackUM))
	}
	b.y = b.paragraph(live.X, b.y+mm(4), medium(11), live.W, mm10(48), words) - mm(3)
	if len(r.Others) > 0 {
		b.y = b.flow(live.X, b.y+mm(5), live.W, mm10(46), append([]span{{style: bold(10), text: b.say("rework.others")}}, monoSpans(r.Others)...)...) - mm(4)
	}
	columns := []ledgerColumn{{b.say("common.date"), mm(20)}, {b.say("common.unit"), mm(17)}, {b.say("rework.wire_end"), mm(33)}, {b.say("common.cavity"), mm(20)}, {b.say("rework.times"), mm(22)}, {b.say("rework.why"), mm(34)},
		{b.say("common.by"), mm(17)}, {b.say("rework.inspected"), mm(17)}}
	rows := b.ledgerRows(columns, writePitch())
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
		b.text(live.X, b.y+mm(6), bold(14), live.W, b.say("handover.shift"))
		b.line(live.X+mm(22), b.y+mm(6), live.W-mm(22), []span{{style: s, text: b.say("common.date"), blank: mm(28)}, {style: s, text: b.say("common.from"), blank: mm(18)}, {style: s, text: b.say("handover.to"), blank: mm(18)},
			{style: s, text: b.say("handover.place"), blank: mm(40)}})
		b.y += mm(6)
		for _, line := range [][]span{
			{{style: s, text: b.say("handover.last"), blank: mm(44)}, {style: s, text: b.say("handover.row"), blank: mm(18)}, {style: s, text: b.say("handover.next"), blank: mm(18)}},
			{{style: s, text: b.say("handover.mounted"), blank: mm(116)}},
			{{style: s, text: b.say("handover.loose"), blank: mm(112)}},
			{{style: s, text: b.say("handover.tags"), blank: mm(60)}, {style: s, text: b.say("handover.missing"), blank: mm(48)}},
			{{style: bold(10), text: b.say("handover.unsure"), blank: mm(146)}},
			{{style: s, blank: mm(166)}},
			{{style: bold(10), text: b.say("handover.over"), blank: mm(56)}, {style: bold(10), text: b.say("handover.taken"), blank: mm(56)}},
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

// ledgerRows is how many rows of a ledger this page still holds below its heads.
func (b *book) ledgerRows(columns []ledgerColumn, pitch page.Pt) int {
	return int((b.left() - max(mm(18), mm(3)+b.ledgerHead(columns))) / pitch)
}

// redline logs what was written into the packet by hand.
func (b *book) redline() [][]page.Item {
	b.y = b.paragraph(live.X, b.y+mm(4), medium(11), live.W, mm10(48), b.say("redline.how")) - mm(3)
	columns := []ledgerColumn{{b.say("common.no"), mm(10)}, {b.say("contents.page"), mm(32)}, {b.say("redline.what"), mm(60)}, {b.say("redline.by"), mm(24)}, {b.say("redline.approved"), mm(22)},
		{b.say("redline.copies"), mm(14)}, {b.say("redline.next"), mm(18)}}
	rows := b.ledgerRows(columns, 2*writePitch())
	b.y = b.ledger(live.X, b.y+mm(3), columns, rows, 2*writePitch())
	return b.finish()
}
