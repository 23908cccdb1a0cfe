package sheet

import (
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
)

// contents writes the planner's pages: which pages are valid, what the job takes, what was warned of.
type contents struct {
	book
	plan   *plan.Plan
	stock  stock
	listed []sheet // every other page of the packet
}

// contentsSections lays the list of every other page of the packet, and the planner's figures.
func contentsSections(p *plan.Plan, pages []sheet, m composer, problems *problem.List) []section {
	c := &contents{book: *newBook(m, problems), plan: p, stock: stockOf(p, m), listed: pages}
	c.draft = p.Packet.Draft
	c.pageList()
	c.copies()
	c.wireTable()
	c.changes()
	c.kept()
	c.prices()
	c.time()
	c.notReady()
	c.warnings()
	c.defaults()
	c.identity()
	return []section{{sheet: "contents", title: m.Say("contents.title"), pages: c.finish()}}
}

// listPitch is the line pitch of the lists of this sheet.
func listPitch() page.Pt { return mm10(45) }

// pageList names every valid page. Two columns where the names leave room, else one.
func (c *contents) pageList() {
	rule := c.say("contents.rule")
	if c.draft {
		rule = c.say("contents.draft_rule")
	}
	c.y = c.paragraph(live.X, c.y+mm(4), medium(10), live.W, mm(5), rule) - mm(2)
	c.heading(c.say("contents.pages", "n", len(c.listed)), mm(20))
	columns := 2
	for _, s := range c.listed {
		if c.width(mono(9), s.Name) > live.W/2-hashWidth()-mm(6) {
			columns = 1
		}
	}
	heads := func(x, width page.Pt) {
		c.text(x, c.y, bold(9), mm(30), c.say("contents.page"))
		c.text(x+width-hashWidth(), c.y, bold(9), mm(27), c.say("contents.hash"))
		c.text(x+width-hashWidth()+mm(29), c.y, bold(9), mm(14), c.say("contents.rev"))
	}
	c.columns(len(c.listed), columns, heads, func(i int, x, width page.Pt) {
		s := c.listed[i]
		hash := x + width - hashWidth()
		c.text(x, c.y, mono(9), hash-x-mm(2), s.Name)
		c.text(hash, c.y, mono(9), mm(27), shortHash(s.Hash))
		c.text(hash+mm(29), c.y, medium(9), mm(14), c.plan.Packet.Revision)
	})
}

// hashWidth holds a short hash and a revision.
func hashWidth() page.Pt { return mm(42) }

// section prints a heading, and from now on opens every further page with it, until the next heading.
func (c *contents) section(text string, keep page.Pt) {
	c.open = nil
	c.heading(text, keep)
	c.open = func() { c.heading(c.say("contents.continued", "heading", text), 0) }
}

// columns prints a list in columns, each read from top to bottom, over as many pages as it takes. Heads, which may be nil,
// heads a column and entry prints one entry, both on base line c.y.
func (c *contents) columns(count, columns int, heads func(x, width page.Pt), entry func(i int, x, width page.Pt)) {
	width := (live.W - mm(6)*page.Pt(columns-1)) / page.Pt(columns)
	column := func(i int) page.Pt { return live.X + (width+mm(6))*page.Pt(i) }
	for first := 0; first < count; {
		c.need(mm(3) + 2*listPitch())
		if heads != nil {
			c.y += mm10(45)
			for i := range columns {
				heads(column(i), width)
			}
		}
		rows := min(int((c.left()-mm(3))/listPitch()), (count-first+columns-1)/columns)
		top := c.y + mm10(45)
		for i := range min(rows*columns, count-first) {
			c.y = top + listPitch()*page.Pt(i%rows)
			entry(first+i, column(i/rows), width)
		}
		c.y = top + listPitch()*page.Pt(rows) - mm(3)
		first += rows * columns
	}
}

func (c *contents) copies() {
	c.heading(c.say("contents.copies"), 4*writePitch())
	for i := range 4 {
		c.line(live.X, c.y+mm(7), live.W, []span{{style: medium(10), text: c.say("contents.copy", "n", i+1), blank: mm(54)},
			{style: medium(10), text: c.say("common.date"), blank: mm(26)}, {style: medium(10), text: c.say("contents.recalled"), blank: mm(26)}})
		c.y += writePitch()
	}
	c.y += mm(1)
}

// notReady prints what keeps a draft from being a packet.
func (c *contents) notReady() {
	if !c.draft {
		return
	}
	c.heading(c.say("contents.not_ready"), mm(14))
	c.y += mm(6)
	c.draft = false // the list tells of what is boxed elsewhere
	defer func() { c.draft = true }()
	open := 0
	for _, p := range c.plan.Problems {
		if p.Severity != "release" {
			continue
		}
		open++
		lines := c.wrap(medium(10), live.W-mm(9), p.Text)
		c.need(mm(6) * page.Pt(len(lines)))
		c.tick(live.X, c.y-mm10(42), boxSide())
		c.y = c.paragraph(live.X+mm(9), c.y, medium(10), live.W-mm(9), mm(5), p.Text) + mm10(25)
	}
	if open == 0 {
		c.text(live.X, c.y, regular(10), live.W, c.say("contents.ready"))
		return
	}
	c.y -= mm(6)
}

// warnings prints each warning with a line for the planner's answer.
func (c *contents) warnings() {
	keep := mm(14)
	if len(c.plan.Warnings) > 0 {
		keep = c.warningHeight(c.plan.Warnings[0])
	}
	c.section(c.say("contents.warnings"), keep)
	if len(c.plan.Warnings) == 0 {
		c.y += mm(6)
		c.text(live.X, c.y, regular(10), live.W, c.say("contents.none"))
		return
	}
	for _, w := range c.plan.Warnings {
		c.need(c.warningHeight(w))
		c.y = c.paragraph(live.X, c.y+mm(6), medium(10), live.W, mm(5), w.Text)
		c.line(live.X, c.y+mm(2), live.W, []span{{style: regular(10), text: c.say("contents.answer"), blank: mm(86)},
			{style: regular(10), text: c.say("common.by"), blank: mm(28)}, {style: regular(10), text: c.say("common.date"), blank: mm(22)}})
		c.y += mm(4)
	}
}

// warningHeight is what a warning takes with the line for its answer.
func (c *contents) warningHeight(w plan.Warning) page.Pt {
	return mm(5)*page.Pt(len(c.wrap(medium(10), live.W, w.Text))) + writePitch()
}

// defaults prints what neither the job nor its shop file set.
func (c *contents) defaults() {
	if len(c.plan.Defaults) == 0 {
		return
	}
	c.section(c.say("contents.defaults"), mm(3)+2*listPitch()+mm(1))
	var short, long []string
	for _, d := range c.plan.Defaults {
		text := d.Key + " = " + d.Value
		if c.width(mono(9), text) <= (live.W-mm(6))/2 {
			short = append(short, text)
		} else {
			long = append(long, text)
		}
	}
	c.columns(len(short), 2, nil, func(i int, x, width page.Pt) { c.text(x, c.y, mono(9), width, short[i]) })
	for _, text := range long {
		lines := len(c.wrap(mono(9), live.W, text))
		c.need(mm(3) + listPitch()*page.Pt(lines))
		c.y = c.paragraph(live.X, c.y+mm10(45), mono(9), live.W, listPitch(), text) - mm10(45)
	}
}

// identity prints the identity of the whole packet.
func (c *contents) identity() {
	c.section(c.say("contents.identity"), mm(8))
	c.y += mm(5)
	c.text(live.X, c.y, mono(9), live.W, grouped(c.plan.Packet.Content))
	c.y += mm(2)
}

// reelWords lists the reels of a type with what the job leaves on them.
func (c *contents) reelWords(reels []plan.Reel, wireType string) string {
	var words []string
	for _, r := range reels {
		if r.Type == wireType {
			words = append(words, c.say("contents.reel", "reel", r.ID, "used", c.decimal(metres(r.UsedUM)), "left", c.decimal(metresDown(r.LeftUM))))
		}
	}
	for _, s := range c.plan.Substitutes {
		if s.For == wireType {
			words = append(words, c.say("contents.substitute", "pieces", c.sayCount("common.pieces", s.Pieces), "metres", c.decimal(metres(s.UM)), "type", s.Type))
		}
	}
	return strings.Join(words, "; ")
}
