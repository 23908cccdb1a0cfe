package sheet

import (
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
)

// cover writes the cover and route card: what the job is, how far it has come, what is open.
type cover struct {
	book
	packet plan.Packet
	work   []plan.Operation
	total  int // pages of the packet
}

// coverSections lays the cover of a packet of total pages.
func coverSections(p *plan.Plan, total int, m composer, problems *problem.List) []section {
	c := &cover{book: *newBook(m, problems), packet: p.Packet, work: p.Operations, total: total}
	c.draft = p.Packet.Draft
	c.identity()
	c.route()
	c.approvals()
	rows := 6
	if len(c.pages) > 0 { // a long route: the approvals stand on the second page already
		rows--
	} else {
		c.turn()
	}
	c.ledgers(rows)
	c.closeOut()
	return []section{{sheet: "cover", title: m.Say("cover.title"), pages: c.finish()}}
}

// identity says what the job is, and holds the first symbol of the packet: the scanner test.
func (c *cover) identity() {
	bars := live.X + live.W - (code128Quiet+code128Modules)*headerModule
	room := bars - code128Quiet*headerModule - live.X
	if !c.packet.Draft {
		c.scanTest(bars)
	}
	c.text(live.X, c.y+mm(10), monoBold(24), room, c.packet.Number)
	y := c.paragraph(live.X, c.y+mm(18), medium(14), room, mm(6), c.packet.Title)
	c.y = max(y-mm(1), c.y+mm(28))
	top := c.y
	c.facts()
	facts := c.y
	c.y = top
	c.documents()
	c.y = max(c.y, facts)
	c.unitList()
	c.fact(c.say("cover.content"), mono(9), grouped(c.packet.Content), live.X, live.W)
	c.y += mm(3)
}

func (c *cover) scanTest(x page.Pt) {
	room := live.X + live.W - x
	c.text(x, c.y+mm(4), bold(10), room, c.say("cover.scan_first"))
	c.bars(x, c.y+mm10(55), headerModule, headerBars, plan.ScanTest, "scanner test")
	c.text(x, c.y+mm10(185), mono(9), room, spaced(plan.ScanTest))
	c.text(x, c.y+mm10(225), regular(9), room, c.say("cover.station"))
	c.text(x, c.y+mm10(263), regular(9), room, c.say("cover.else"))
}

// factPitch is the line pitch of the facts of the job.
func factPitch() page.Pt { return mm10(58) }

// fact prints a label and its value, broken at blanks where one line does not hold it.
func (c *cover) fact(label string, s style, value string, x, width page.Pt) {
	if value == "" {
		return
	}
	c.text(x, c.y+mm(4), regular(9), mm(26), label)
	c.y = c.paragraph(x+mm(27), c.y+mm(4), s, width-mm(27), factPitch(), value) - mm(4)
}

func (c *cover) facts() {
	width := mm(86)
	c.y = c.missingPart(live.X, c.y+mm(4), width, factPitch(), c.packet.Part) - mm(4)
	c.fact(c.say("cover.part"), monoBold(11), c.packet.Part, live.X, width)
	c.fact(c.say("cover.revision"), bold(11), c.packet.Revision, live.X, width)
	c.fact(c.say("cover.supersedes"), medium(11), c.packet.Supersedes, live.X, width)
	if c.packet.Class > 0 {
		c.fact(c.say("cover.class"), medium(11), c.say("cover.class_words", "class", c.packet.Class), live.X, width)
	}
	c.fact(c.say("cover.board"), mono(11), c.packet.Board, live.X, width)
}

func (c *cover) documents() {
	x, width := live.X+mm(92), live.W-mm(92)
	c.fact(c.say("cover.issued"), medium(11), c.packet.Issued, x, width)
	c.fact(c.say("cover.due"), medium(11), c.packet.Due, x, width)
	for _, d := range c.packet.Documents {
		c.fact(d.Kind, mono(11), d.Number+" "+c.say("frame.revision", "revision", d.Revision), x, width)
	}
}

func (c *cover) unitList() {
	units := c.packet.Units
	words := strings.Join(units, " ")
	if !c.packet.Serials && len(units) > 1 {
		words = c.say("cover.units_to", "first", units[0], "last", units[len(units)-1])
	}
	c.fact(c.sayCount("common.units", len(units)), monoBold(11), words, live.X, live.W)
}

func (c *cover) approvals() {
	c.y += mm(2)
	c.need(3 * writePitch())
	for _, role := range []string{c.say("cover.prepared"), c.say("cover.checked"), c.say("cover.approved")} {
		c.need(writePitch())
		c.text(live.X, c.y+mm(6), medium(10), mm(25), role)
		c.blank(live.X+mm(25), c.y+mm(6), mm(58))
		c.line(live.X+mm(88), c.y+mm(6), live.W-mm(88), []span{{style: medium(10), text: c.say("common.date"), blank: mm(30)},
			{style: medium(10), text: c.say("common.stamp"), blank: mm(30)}})
		c.y += writePitch()
	}
}

func (c *cover) ledgers(rows int) {
	c.heading(c.say("cover.quantity"), mm(60))
	c.y = c.ledger(live.X, c.y+mm(1), []ledgerColumn{{c.say("common.date"), mm(24)}, {c.say("cover.happened"), mm(66)},
		{c.say("cover.started"), mm(18)}, {c.say("cover.good"), mm(18)}, {c.say("cover.scrap"), mm(18)}, {c.say("common.by"), mm(36)}}, rows, mm10(95))
	c.heading(c.say("cover.open_tags"), mm(60))
	c.y = c.ledger(live.X, c.y+mm(1), []ledgerColumn{{c.say("common.tag_no"), mm(18)}, {c.say("common.page_row"), mm(36)}, {c.say("cover.wrong"), mm(60)},
		{c.say("cover.opened"), mm(33)}, {c.say("cover.closed"), mm(33)}}, rows+1, mm10(95))
}

// closeOut asks for what an auditor asks later.
func (c *cover) closeOut() {
	c.heading(c.say("cover.close_out"), mm(40))
	c.line(live.X, c.y+mm(8), live.W, []span{{style: bold(11), text: c.say("cover.pages_counted"), blank: mm(16),
		after: c.say("common.of", "n", c.total)}, {style: medium(11), text: c.say("common.by"), blank: mm(40)}})
	c.y += mm(12)
	x := live.X
	for _, words := range []string{c.say("cover.boxes"), c.say("cover.no_tag"), c.say("cover.record")} {
		c.tick(x, c.y, boxSide())
		c.text(x+mm(8), c.y+mm(4), medium(11), mm(48), words)
		x += mm(60)
	}
	c.y += mm(7)
	c.line(live.X, c.y+mm(7), live.W, []span{{style: medium(11), text: c.say("cover.filed"), blank: mm(45)},
		{style: medium(11), text: c.say("common.date"), blank: mm(28)}, {style: medium(11), text: c.say("cover.where"), blank: mm(48)}})
	c.y += mm(9)
}
