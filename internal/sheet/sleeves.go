package sheet

import (
	"slices"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

// sleeveBook writes what is slid or tied on, and the labels.
type sleeveBook struct {
	book
	plan  *plan.Plan
	group string
}

// sleeveSections lays the sleeves with their sums, and the labels of connectors and harnesses.
func sleeveSections(p *plan.Plan, m composer, problems *problem.List) []section {
	var sections []section
	fresh := func() *sleeveBook {
		b := &sleeveBook{book: *newBook(m, problems), plan: p}
		b.draft = p.Packet.Draft
		return b
	}
	if len(p.Sleeves) > 0 {
		sections = append(sections, section{sheet: "sleeves", title: m.Say("sleeves.title"), pages: fresh().sleeves()})
	}
	if len(p.Labels) > 0 {
		sections = append(sections, section{sheet: "sleeves", title: m.Say("sleeves.title"), name: "labels", said: m.Say("sleeves.labels_section"), pages: fresh().labels()})
	}
	return sections
}

// columns is where the columns of the sheet stand, from the left of the live area.
func (b *sleeveBook) columns() []wireColumn {
	return []wireColumn{{b.say("sleeves.printed"), 0, false}, {b.say("sleeves.text"), mm(16), false}, {b.say("common.wire"), mm(82), false}, {b.say("common.end"), mm(103), false},
		{b.say("sleeves.at"), mm(112), false}, {b.say("sleeves.from_end"), mm(149), true}, {b.say("sleeves.slid_on"), mm(152), false}}
}

// sleeves writes a row for each sleeve, by tray, then what it takes of each part.
func (b *sleeveBook) sleeves() [][]page.Item {
	b.y = b.paragraph(live.X, b.y+mm(4), medium(10), live.W, mm10(45), b.say("sleeves.how")) - mm(1)
	b.open = b.heads
	for from := 0; from < len(b.plan.Sleeves); {
		group, to := b.plan.Sleeves[from].Group, from+1
		for to < len(b.plan.Sleeves) && b.plan.Sleeves[to].Group == group {
			to++
		}
		b.tray(group, b.plan.Sleeves[from:to])
		from = to
	}
	b.open = nil
	b.sums()
	return b.finish()
}

// tray writes the rows of one tray under its name.
func (b *sleeveBook) tray(group string, rows []plan.Sleeve) {
	heights := make([]page.Pt, len(rows))
	for i, row := range rows {
		heights[i] = b.rowHeight(row)
	}
	b.group = group
	b.need(mm(9) + mm(7) + heights[0] + follow(heights, 0, 0))
	b.groupHead()
	b.heads()
	for i, row := range rows {
		b.need(heights[i] + follow(heights, i, 0))
		b.mark(group, i+1, b.y, heights[i], 1)
		b.row(row)
	}
}

func sleevePitch() page.Pt { return mm10(95) }

func (b *sleeveBook) groupHead() {
	if b.group == "" {
		b.heading(b.say("sleeves.no_tray"), 0)
		return
	}
	if most := b.mostTrays(); most.Of > 1 {
		b.heading(b.say("common.trays_of", "first", b.group+"/1", "last", most.Name()), 0)
		return
	}
	b.heading(b.say("common.tray_of", "tray", b.group), 0)
}

// mostTrays returns the last tray of the unit in which the group fills most.
func (b *sleeveBook) mostTrays() plan.Tray {
	var most plan.Tray
	for _, tray := range b.plan.Trays {
		if tray.Group == b.group && tray.Part > most.Part {
			most = tray
		}
	}
	return most
}

// heads prints the heads of the columns.
func (b *sleeveBook) heads() {
	b.y += mm(5)
	for _, c := range b.columns() {
		if c.right {
			b.right(live.X+c.edge, b.y, bold(9), mm(24), c.title)
		} else {
			b.text(live.X+c.edge, b.y, bold(9), mm(40), c.title)
		}
	}
	b.y += mm10(15)
	b.across(live.X, live.X+live.W, b.y, groupRule)
}

// rowHeight is that of a row whose text may take a line of its own.
func (b *sleeveBook) rowHeight(row plan.Sleeve) page.Pt {
	if b.wideText(row) {
		return sleevePitch() + mm10(95)
	}
	return sleevePitch() + mm(4)
}

// wideText reports whether the text takes a line of its own.
func (b *sleeveBook) wideText(row plan.Sleeve) bool {
	c := b.columns()
	return b.width(monoBold(11), row.Text) > c[2].edge-c[1].edge-mm(2)
}

func (b *sleeveBook) row(row plan.Sleeve) {
	c := b.columns()
	at := func(i int) page.Pt { return live.X + c[i].edge }
	base := b.y + mm10(62)
	b.tick(at(0)+mm(3), b.y+mm10(15), boxSide())
	room := c[2].edge - c[1].edge - mm(2)
	if b.wideText(row) {
		b.text(at(1), base, monoBold(11), live.W-c[1].edge, row.Text)
		base += mm10(55)
	} else {
		b.text(at(1), base, monoBold(11), room, row.Text)
	}
	b.text(at(2), base, monoBold(11), c[3].edge-c[2].edge-mm(1), row.Wire)
	b.text(at(3), base, bold(11), mm(9), endLetter(row.End))
	b.text(at(4), base, mono(10), mm(25), row.At)
	from := "–"
	if row.Kind == "sleeve" {
		from = b.decimal(units.Length(row.FromUM).Millimetres())
	}
	b.right(at(5), base, monoBold(11), mm(15), from)
	b.line(at(6), base, live.W-c[6].edge, []span{{style: regular(10), blank: mm(10), after: b.say("common.of", "n", row.Count)}})
	b.text(at(1), base+mm10(42), regular(9), live.W-c[1].edge, b.sleeveWords(row))
	b.y += b.rowHeight(row)
	b.across(live.X, live.X+live.W, b.y, rowRule)
}

// endLetter names an end, or says that it is none.
func endLetter(end string) string {
	return map[string]string{"a": "A", "b": "B"}[end]
}

// sleeveWords says what to take.
func (b *sleeveBook) sleeveWords(row plan.Sleeve) string {
	where := ""
	if row.End == "" {
		where = b.say("sleeves.between_ends")
	}
	if row.Kind == "tag" {
		return b.say("sleeves.tag") + where
	}
	if row.Part == "" {
		return b.say("sleeves.no_size", "diameter", b.decimal(exactMM(row.Diameter))) + " ____________" + where
	}
	return b.say("sleeves.take", "part", row.Part, "length", b.decimal(exactMM(row.LengthUM)), "diameter", b.decimal(exactMM(row.Diameter))) + where
}

// sums prints what the job takes of each part.
func (b *sleeveBook) sums() {
	b.heading(b.say("sleeves.sums"), mm(16))
	for _, sum := range b.plan.SleeveSums {
		b.need(writePitch())
		part := sum.Part
		if part == "" {
			part = b.say("sleeves.no_part")
		}
		b.line(live.X, b.y+mm(6), live.W, []span{{style: monoBold(11), text: part}, {style: medium(11), text: b.sayCount("common.pieces", sum.Count)},
			{style: regular(10), text: b.say("common.lot"), blank: mm(30)}, {style: regular(10), text: b.say("common.picked_by"), blank: mm(30)}})
		b.y += writePitch()
	}
}

// labels writes a row for each label.
func (b *sleeveBook) labels() [][]page.Item {
	b.heading(b.say("sleeves.labels"), mm(40))
	b.open = b.labelHeads
	b.labelHeads()
	heights := slices.Repeat([]page.Pt{sleevePitch()}, len(b.plan.Labels))
	for i, label := range b.plan.Labels {
		b.need(heights[i] + follow(heights, i, 0))
		b.mark("", i+1, b.y, heights[i], 1)
		base := b.y + mm10(62)
		where := b.say("sleeves.where_connector", "connector", label.At)
		if label.Kind == "harness" {
			where = b.say("sleeves.where_harness")
		}
		b.tick(live.X+mm(3), b.y+mm10(20), boxSide())
		b.text(live.X+mm(16), base, monoBold(11), mm(64), label.Text)
		b.text(live.X+mm(82), base, medium(10), mm(72), where)
		b.line(live.X+mm(156), base, mm(24), []span{{style: regular(10), blank: mm(10), after: b.say("common.of", "n", label.Count)}})
		b.y += sleevePitch()
		b.across(live.X, live.X+live.W, b.y, rowRule)
	}
	return b.finish()
}

func (b *sleeveBook) labelHeads() {
	b.y += mm(5)
	for _, c := range []wireColumn{{b.say("sleeves.printed"), 0, false}, {b.say("sleeves.text"), mm(16), false}, {b.say("sleeves.where"), mm(82), false}, {b.say("sleeves.fitted"), mm(156), false}} {
		b.text(live.X+c.edge, b.y, bold(9), mm(40), c.title)
	}
	b.y += mm10(15)
	b.across(live.X, live.X+live.W, b.y, groupRule)
}
