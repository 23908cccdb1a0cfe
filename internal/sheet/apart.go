package sheet

import (
	"fmt"
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
)

// apartList writes the pages of what the line does not cut: it stands in no tray, and somebody has to bring it.
type apartList struct {
	cutList
	rows []apartRow
}

// apartRow is a wire or cable that the line does not cut.
type apartRow struct {
	item   plan.Apart
	code   plan.Code
	place  problem.Place
	where  [][]span // from, to and why, beside the id
	extra  [][]span // type, shields, note
	cores  []plan.Wire
	bench  bool // its length is measured, with lines to write on
	left   bool
	height page.Pt
}

// apartSections returns the pages of what is not cut on the line, for each list of units.
func apartSections(p *plan.Plan, m composer, problems *problem.List) []section {
	if len(p.Apart) == 0 {
		return nil
	}
	columns := measureColumns(*p, &pen{metrics: m})
	columns.lower = 0
	goods := stockOf(p, m)
	var sections []section
	for list, units := range p.Packet.Lists {
		a := &apartList{cutList: cutList{book: *newBook(m, problems), plan: p, stock: goods, columns: columns, units: units, list: list}}
		a.draft = p.Packet.Draft
		a.columns.cut = a.idEdge()
		sections = append(sections, section{sheet: "apart", title: m.Say("apart.title"), part: batchName(list), pages: a.write()})
	}
	return sections
}

// idEdge returns where the longest id ends.
func (a *apartList) idEdge() page.Pt {
	edge := a.columns.wire + a.pen.width(monoBold(12), strings.Repeat("0", leastID))
	for _, item := range a.plan.Apart {
		edge = max(edge, a.columns.wire+a.pen.width(monoBold(12), item.ID))
	}
	return edge
}

func (a *apartList) write() [][]page.Item {
	a.rows = a.measured()
	a.open = a.heads
	a.turn()
	heights := make([]page.Pt, len(a.rows))
	for i, row := range a.rows {
		heights[i] = row.height
	}
	for i, row := range a.rows {
		a.need(row.height + follow(heights, i, a.closeHeight()))
		a.mark("", i+1, a.y, row.height, len(a.units))
		a.print(row)
	}
	a.need(a.closeHeight())
	a.y = a.flow(live.X, a.y+mm(9), live.W, writePitch(), a.closing()...)
	return a.finish()
}

// measured measures every row.
func (a *apartList) measured() []apartRow {
	var rows []apartRow
	for i, item := range a.plan.Apart {
		row := apartRow{item: item, bench: item.Reason == "measure", left: i%2 == 0}
		if c, is := a.stock.cables[item.ID]; is {
			row.code, row.place, row.cores = c.Code, c.Place, a.stock.coresOf(c)
		} else {
			row.code, row.place = a.stock.wires[item.ID].Code, a.stock.wires[item.ID].Place
		}
		a.at = row.place
		row.where = a.lines(a.whereRoom(), a.whereSpans(item))
		row.extra = a.lines(a.extraRoom(), a.apartSpans(item))
		row.height = max(mm(9), apartPitch()*page.Pt(len(row.where))+mm(3)) + extraPitch()*page.Pt(len(row.extra)) + a.coresHeight(row.cores)
		if row.bench {
			row.height += writePitch()*page.Pt(len(a.units)) + mm(2)
		}
		if row.height > bodyBottom()-bodyTop()-mm(40) {
			a.refuse("too-tall", fmt.Sprintf("%q takes more than a page of the list of what is not cut on the line", item.ID), "shorten its notes and those of its wires")
		}
		rows = append(rows, row)
	}
	return rows
}

func apartPitch() page.Pt { return mm(5) }

func (a *apartList) whereRoom() page.Pt { return a.columns.code - a.whereLeft() - mm(2) }
func (a *apartList) whereLeft() page.Pt { return a.columns.cut + mm(4) }

// whereSpans says from where to where, and why the line does not cut it. Of a length to be measured, the lines to write on
// follow below.
func (a *apartList) whereSpans(item plan.Apart) []span {
	why := a.say("apart.why." + strings.ReplaceAll(item.Reason, " ", "_"))
	return []span{{style: mono(10), text: a.metrics.placeWords(item.From) + " > " + a.metrics.placeWords(item.To)}, {style: bold(10), text: why}}
}

func (a *apartList) apartSpans(item plan.Apart) []span {
	t := a.stock.types[item.Type]
	spans := []span{{style: mono(10), text: item.Type}, {style: medium(10), text: t.ColourWords}, {style: medium(10), text: t.Gauge}}
	if item.UM > 0 {
		spans = append(spans, span{style: bold(10), text: a.say("apart.length", "length", a.exact(item.UM))})
	}
	if c, is := a.stock.cables[item.ID]; is {
		spans = append(spans, span{style: bold(10), text: a.say("apart.cable")})
		for i, end := range []plan.CableEnd{c.A, c.B} {
			spans = append(spans, span{style: medium(9), text: a.say("apart.jacket_off", "end", a.stock.endName(i), "length", a.exact(end.JacketOffUM))},
				span{style: medium(9), text: labelled(a.say("common.shield"), end.Shield)})
		}
	} else {
		w := a.stock.wires[item.ID]
		spans = append(spans, span{style: medium(9), text: w.Laid})
		for i, end := range []plan.End{w.A, w.B} {
			spans = append(spans, span{style: medium(9), text: labelled(a.stock.endName(i)+":", joined(", ", a.stock.endWords(end), end.Note))},
				span{style: mono(10), text: labelled(a.say("apart.sleeve"), end.Legend)})
		}
	}
	return a.present(append(spans, span{style: regular(9), text: labelled(a.say("common.note_label"), item.Note)}))
}

func (a *apartList) coresHeight(cores []plan.Wire) page.Pt {
	height := page.Pt(0)
	for _, core := range cores {
		height += page.Pt(len(a.coreLines(core)))*extraPitch() + coreAir()
	}
	return height
}

// heads opens every page: what it is about, and the serials over the boxes.
func (a *apartList) heads() {
	s := bold(9)
	a.text(live.X, a.y+mm10(85), bold(24), live.W, a.say("apart.title"))
	a.text(live.X, a.y+mm10(150), regular(11), live.W, a.say("apart.how", "pieces", a.subject()))
	y := a.y + mm10(200)
	low := y + a.serialLines()*headPitch() + mm(1)
	a.serials(y+headPitch(), low)
	a.text(a.columns.wire, low, s, a.whereLeft()-a.columns.wire, a.say("apart.id"))
	a.text(a.whereLeft(), low, s, mm(60), a.say("apart.from_to"))
	if !a.draft {
		a.text(a.columns.code+mm(1), low, s, codeWidth(), a.say("common.scan"))
	}
	a.y = low + mm(2)
	a.across(live.X, live.X+live.W, a.y, groupRule*3/2)
	a.y += mm(1)
	a.top = a.y
}

func (a *apartList) subject() string {
	var ids []string
	for _, item := range a.plan.Apart {
		ids = append(ids, item.ID)
	}
	return a.say("cutlist.per_unit", "pieces", a.stock.piecesWords(ids))
}

// print prints one row.
func (a *apartList) print(row apartRow) {
	a.at = row.place
	top, bottom := a.y, a.y+row.height
	for i := range a.units {
		a.tick(a.columns.boxes[i], a.y+mm(2), boxSide())
	}
	a.text(a.columns.wire, a.y+mm(6), monoBold(12), a.columns.cut-a.columns.wire, row.item.ID)
	a.code(row.left, row.code)
	y := a.y + mm(6)
	for _, line := range row.where {
		a.line(a.whereLeft(), y, a.whereRoom(), line)
		y += apartPitch()
	}
	y = max(a.y+mm(9), y-mm10(30)) + mm10(28)
	for _, line := range row.extra {
		a.line(a.columns.wire, y, a.extraRoom(), line)
		y += extraPitch()
	}
	a.y = y - mm10(28)
	for i, core := range row.cores {
		core := cutRow{core: true, key: core.Code, open: true, extra: a.coreLines(core), piece: cutPiece{place: core.Place}, number: i}
		a.coreRow(core)
		a.y += page.Pt(len(core.extra))*extraPitch() + coreAir()
	}
	if row.bench {
		a.measure(row.item)
	}
	a.y = bottom
	a.across(live.X, live.X+live.W, max(a.y, top), rowRule)
	a.at = problem.Place{}
}

// measure prints what is written where a length is taken at the bench, a line a unit.
func (a *apartList) measure(item plan.Apart) {
	for _, unit := range a.units {
		a.y += writePitch()
		a.line(a.columns.wire, a.y-mm10(15), a.extraRoom(), []span{{style: monoBold(10), text: item.ID},
			{style: regular(10), text: a.say("common.unit")}, {style: monoBold(10), text: unit},
			{style: medium(10), text: a.say("apart.measured"), blank: mm(24), after: "mm,"},
			{style: medium(10), text: a.say("apart.cut"), blank: mm(24), after: "mm"}})
	}
}

// closing ends the list: how many were found, and who looked.
func (a *apartList) closing() []span {
	spans := []span{{style: bold(11), text: a.say("apart.end")}}
	for _, unit := range a.units {
		spans = append(spans, span{style: monoBold(10), text: a.say("apart.at_hand", "unit", unit), blank: mm(12), after: a.say("common.of", "n", len(a.plan.Apart))})
	}
	return append(spans, span{style: medium(10), text: a.say("common.by"), blank: mm(35)}, span{style: medium(10), text: a.say("common.date"), blank: mm(26)})
}

func (a *apartList) closeHeight() page.Pt {
	return mm(9) + writePitch()*page.Pt(len(a.lines(live.W, a.closing())))
}
