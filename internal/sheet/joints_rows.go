package sheet

import (
	"slices"
	"strconv"
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/units"
)

// Heights of the blocks of a joint.
const (
	jointName page.Pt = 4252 // 15 mm: id, what it is and where, symbol
	jointWire page.Pt = 2041 // 7.2 mm: a wire
	jointMore page.Pt = 1275 // 4.5 mm: a further line of a wire
	jointNote page.Pt = 1474 // 5.2 mm: line pitch of notes and sums
)

// jointColumns is where the parts of a wire stand: the same in every joint of a packet.
type jointColumns struct {
	side, wire, words, tray, other page.Pt

	deep bool // long ids: gauge and colour stand on a line of their own
}

func (l *jointList) measureColumns() jointColumns {
	side, wire, tray, other := mm(31), mm(17), mm(12), mm(24)
	for _, j := range l.plan.Joints {
		for _, s := range j.Sides {
			side = max(side, l.width(bold(11), s.Words)+mm(4))
			for _, line := range s.Lines {
				wire = max(wire, l.width(monoBold(13), line.Wire)+mm(3))
				tray = max(tray, l.width(mono(11), l.fromTray(line.Tray))+mm(4))
				other = max(other, l.width(mono(12), l.toOther(line)))
			}
		}
	}
	c := jointColumns{side: live.X + mm(2), wire: live.X + side}
	c.other = live.X + live.W - other
	c.tray = c.other - tray
	c.words = c.wire + wire
	c.deep = c.tray-c.words < leastWords
	if c.deep {
		c.words = c.wire
	}
	return c
}

// fromTray names the tray of a wire, one of several that a group fills too. What comes from no tray says so itself.
func (l *jointList) fromTray(tray string) string {
	if !slices.ContainsFunc(l.plan.Groups, func(g plan.Group) bool { return g.Connector == tray || strings.HasPrefix(tray, g.Connector+"/") }) {
		return l.metrics.trayWords(tray)
	}
	return l.say("common.tray_of", "tray", tray)
}

func (p *pen) toOther(line plan.CavityLine) string {
	return p.say("joints.to", "place", p.metrics.placeWords(line.Other))
}

// wordsRoom is the width for gauge and colour.
func (c jointColumns) wordsRoom() page.Pt {
	if c.deep {
		return live.X + live.W - c.words
	}
	return c.tray - c.words - mm(2)
}

// jointOf returns the blocks of a splice, a terminal or a stud.
func (l *jointList) jointOf(j plan.Joint) joint {
	out := joint{id: j.ID, place: j.Place, blocks: []jointBlock{l.nameBlock(j)}}
	if len(j.SlideOn) > 0 {
		out.blocks = append(out.blocks, l.ticksBlock(l.say("common.slide_on_first"), bold(11), medium(11), j.SlideOn))
	}
	for _, side := range j.Sides {
		out.blocks = append(out.blocks, l.sideBlocks(side)...)
	}
	out.blocks = append(out.blocks, l.stackBlocks(j)...)
	if j.Note != "" {
		note := l.say("common.note", "note", j.Note)
		lines := l.wrap(medium(11), live.W-mm(2), note)
		out.blocks = append(out.blocks, jointBlock{height: page.Pt(len(lines))*jointNote + mm(1), draw: func(y page.Pt) {
			l.paragraph(live.X+mm(2), y+mm10(45), medium(11), live.W-mm(2), jointNote, note)
		}})
	}
	out.blocks = append(out.blocks, l.doneBlock(l.doneWords(j)))
	return out
}

// nameBlock prints the id large, what the joint is, where it stands, where it is made, and its symbol.
func (l *jointList) nameBlock(j plan.Joint) jointBlock {
	what := []span{{style: bold(12), text: l.say("joints.kind." + j.Kind)}}
	if j.Kind == "terminal" {
		what = append(what, span{style: bold(12), text: j.Words})
	}
	what = l.present(append(what, span{style: bold(12), text: l.stageWords(j.Stage)}))
	part := ""
	if j.Part != "" {
		part = l.say("joints.part", "part", j.Part)
	}
	where := l.present([]span{{style: bold(12), text: j.Where}, {style: regular(11), text: part}})
	return jointBlock{height: jointName, draw: func(y page.Pt) {
		edge := live.X + live.W - mm(30)
		if len(j.Codes) > 0 {
			code := j.Codes[l.unit-1]
			l.matrix(live.X+live.W-symbolQuiet-matrixSide, y+mm10(17), code)
			l.right(live.X+live.W, y+mm10(126), mono(9), mm(30), keyIn(code))
		}
		large := monoBold(24)
		for large.size > 14*page.Point && l.width(large, j.ID) > live.W/3 {
			large.size -= 2 * page.Point
		}
		l.text(live.X, y+mm10(95), large, live.W/3, j.ID)
		x := live.X + max(l.width(large, j.ID)+mm(6), mm(31))
		l.line(x, y+mm10(60), edge-x, what)
		l.line(x, y+mm10(118), edge-x, where)
		if j.Part == "" && j.Kind != "stud" {
			after := x + l.spansWidth(where)
			l.missingPart(after, y+mm10(118), edge-after, 0, "")
		}
	}}
}

// spansWidth returns what spans on one line take, with the gap after them.
func (p *pen) spansWidth(spans []span) page.Pt {
	width := page.Pt(0)
	for _, s := range spans {
		width += p.spanWidth(s) + spanGap
	}
	return width
}

// stageWords says where a joint is made.
func (p *pen) stageWords(stage string) string {
	switch stage {
	case "bench":
		return p.say("joints.at_bench")
	case "board":
		return p.say("joints.at_board")
	}
	return ""
}

// ticksBlock prints a lead and a box for each label.
func (l *jointList) ticksBlock(lead string, leadStyle, s style, labels []string) jointBlock {
	height := (&pen{metrics: l.metrics, problems: l.problems, at: l.at}).ticks(live.X+mm(2), 0, live.W-mm(2), leadStyle, lead, s, labels)
	return jointBlock{height: height, draw: func(y page.Pt) { l.ticks(live.X+mm(2), y, live.W-mm(2), leadStyle, lead, s, labels) }}
}

// sideBlocks prints the wires of one side, the first with the name of the side, and below them what they make together.
func (l *jointList) sideBlocks(side plan.JointSide) []jointBlock {
	var blocks []jointBlock
	for i, line := range side.Lines {
		name := ""
		if i == 0 {
			name = side.Words
		}
		blocks = append(blocks, l.wireBlock(name, line))
	}
	if len(side.Lines) > 1 && side.Section > 0 {
		words := l.sayCount("joints.together", len(side.Lines), "section", l.decimal(units.Area(side.Section).SquareMillimetres()))
		blocks = append(blocks, jointBlock{height: jointNote, draw: func(y page.Pt) {
			l.text(l.columns.wire, y+mm10(35), bold(10), live.W/2, words)
		}})
	}
	return blocks
}

// wireBlock prints one wire of a joint.
func (l *jointList) wireBlock(side string, line plan.CavityLine) jointBlock {
	c, s := l.columns, medium(11)
	words := l.wrap(s, c.wordsRoom(), joined(", ", l.coreWords(line), joined(" ", line.Gauge, line.Words)))
	notes := l.wrap(medium(10), live.X+live.W-c.wire, joined("; ", l.metrics.substituteWords(line.Substitute), l.lineNotes(line)))
	beside := len(words) - 1
	if c.deep {
		beside = len(words)
	}
	height := jointWire + page.Pt(beside)*jointMore + page.Pt(len(notes))*jointMore
	if line.Loose != "" {
		height += jointMore
	}
	return jointBlock{height: height, draw: func(y page.Pt) {
		base := y + mm10(53)
		l.text(c.side, base, bold(11), c.wire-c.side-mm(1), side)
		l.text(c.wire, base, monoBold(13), c.tray-c.wire-mm(2), line.Wire)
		l.text(c.tray, base, mono(11), c.other-c.tray-mm(1), l.fromTray(line.Tray))
		l.text(c.other, base, mono(12), live.X+live.W-c.other, l.toOther(line))
		if c.deep {
			base += jointMore
		}
		for i, word := range words {
			l.text(c.words, base+page.Pt(i)*jointMore, s, c.wordsRoom(), word)
		}
		base += page.Pt(len(words)) * jointMore
		if line.Loose != "" {
			l.text(c.wire, base, bold(11), live.X+live.W-c.wire, l.say("ends.not_landed"))
			base += jointMore
		}
		for i, note := range notes {
			l.text(c.wire, base+page.Pt(i)*jointMore, medium(10), live.X+live.W-c.wire, note)
		}
	}}
}

// stackBlocks prints the stack of a stud in fitting order, a box each.
func (l *jointList) stackBlocks(j plan.Joint) []jointBlock {
	if len(j.Stack) == 0 {
		return nil
	}
	blocks := []jointBlock{{height: jointNote + mm(1), draw: func(y page.Pt) {
		l.text(live.X+mm(2), y+mm10(43), bold(11), live.W, l.say("joints.stack"))
	}}}
	for i, item := range j.Stack {
		blocks = append(blocks, jointBlock{height: tickPitch, draw: func(y page.Pt) {
			l.right(live.X+mm(9), y+mm10(62), mono(11), mm(7), strconv.Itoa(i+1))
			l.tick(live.X+mm(12), y+mm(1), gloveTick)
			x := live.X + mm(22)
			l.line(x, y+mm10(62), live.X+live.W-x, l.stackSpans(item))
		}})
	}
	return blocks
}

// stackSpans names an item of a stack: hardware in words, a terminal by its id and what it is.
func (l *jointList) stackSpans(item string) []span {
	at := slices.IndexFunc(l.plan.Joints, func(j plan.Joint) bool { return j.ID == item && j.Kind == "terminal" })
	if at < 0 {
		return []span{{style: medium(12), text: item}}
	}
	j := l.plan.Joints[at]
	var wires []string
	for _, side := range j.Sides {
		for _, line := range side.Lines {
			wires = append(wires, line.Wire)
		}
	}
	return l.present([]span{{style: monoBold(14), text: item}, {style: medium(11), text: j.Words}, {style: mono(11), text: strings.Join(wires, " ")}})
}

// doneWords names the boxes of a joint in the order of the work.
func (l *jointList) doneWords(j plan.Joint) []string {
	crimped, pulled, checked := l.say("joints.crimped"), l.say("joints.pulled"), l.say("joints.checked")
	switch {
	case j.Kind == "stud":
		return []string{l.say("joints.torque", "torque", j.Words), checked}
	case !landed(j):
		return []string{checked}
	case len(j.SlideOn) > 0:
		return []string{crimped, pulled, l.say("joints.shrunk"), checked}
	case j.Kind == "terminal" && !l.stacked(j.ID):
		return []string{crimped, pulled, l.say("joints.inserted"), checked}
	}
	return []string{crimped, pulled, checked}
}

// landed reports whether any wire is joined in this job.
func landed(j plan.Joint) bool {
	for _, side := range j.Sides {
		if slices.ContainsFunc(side.Lines, func(line plan.CavityLine) bool { return line.Loose == "" }) {
			return true
		}
	}
	return false
}

// stacked reports whether a terminal goes on a stud, where it has a box of its own.
func (l *jointList) stacked(id string) bool {
	return slices.ContainsFunc(l.plan.Joints, func(j plan.Joint) bool { return slices.Contains(j.Stack, id) })
}

// doneBlock prints the boxes, and a line for the number of a reject tag.
func (l *jointList) doneBlock(labels []string) jointBlock {
	block := l.ticksBlock("", bold(11), medium(11), labels)
	draw := block.draw
	tag := span{style: regular(10), text: l.say("common.tag_no"), blank: mm(20)}
	room := max(mm(36), l.spanWidth(tag))
	base := mm10(62)
	if l.firstBoxes(labels) > live.W-room { // the tag takes a line of its own
		base += block.height
		block.height += tickPitch
	}
	block.draw = func(y page.Pt) {
		draw(y)
		l.line(live.X+live.W-room, y+base, room, []span{tag})
	}
	block.height += mm(1)
	return block
}

// firstBoxes returns how far the boxes of a joint reach on their first line, from the left edge.
func (l *jointList) firstBoxes(labels []string) page.Pt {
	end, at := page.Pt(0), mm(6)
	for _, label := range labels {
		if at += gloveTick + mm(2) + l.width(medium(11), label); end > 0 && at > live.W {
			break
		}
		end = at
		at += mm(6)
	}
	return end
}

// shield is what is done to the shield of a cable at one end.
type shield struct {
	cable plan.Cable
	end   plan.CableEnd
	name  string // "END A"
}

// shieldsOf returns the ends of cables with a shield.
func shieldsOf(p *plan.Plan, m composer) []shield {
	var shields []shield
	for _, c := range p.Cables {
		for i, end := range []plan.CableEnd{c.A, c.B} {
			if end.Shield != "" {
				shields = append(shields, shield{c, end, m.endName(i)})
			}
		}
	}
	return shields
}

// shields returns a row for every end with a shield.
func (l *jointList) shields() []joint {
	var rows []joint
	for _, s := range shieldsOf(l.plan, l.metrics) {
		spans := []span{{style: monoBold(14), text: s.cable.ID}, {style: bold(11), text: s.name},
			{style: mono(11), text: l.say("joints.at", "place", s.end.At)},
			{style: regular(11), text: l.say("joints.jacket_off", "length", l.decimal(exactMM(s.end.JacketOffUM)))},
			{style: bold(11), text: l.say("joints.shield", "shield", s.end.Shield)}}
		room := live.W - mm(58)
		lines := l.lines(room, l.present(spans))
		height := max(mm(10), page.Pt(len(lines))*jointNote+mm(4))
		rows = append(rows, joint{id: s.cable.ID, place: s.cable.Place, blocks: []jointBlock{{height: height, draw: func(y page.Pt) {
			for i, line := range lines {
				l.line(live.X, y+mm10(62)+page.Pt(i)*jointNote, room, line)
			}
			x := live.X + live.W - mm(54)
			for _, words := range []string{l.say("common.done"), l.say("joints.checked")} {
				l.tick(x, y+mm10(15), gloveTick)
				l.text(x+mm(9), y+mm10(66), medium(11), mm(18), words)
				x += mm(26)
			}
		}}}})
	}
	return rows
}
