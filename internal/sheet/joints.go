package sheet

import (
	"fmt"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
)

// jointList writes the splices, terminals, studs and shields of one unit.
type jointList struct {
	book
	plan     *plan.Plan
	needed   []string // trays that hold wires for the joints
	unit     int      // position from 1
	unitName string   // "0041"
	columns  jointColumns
}

// jointSections lays the joints of every unit.
func jointSections(p *plan.Plan, m composer, problems *problem.List) []section {
	if len(p.Joints) == 0 && len(shieldsOf(p, m)) == 0 {
		return nil
	}
	var sections []section
	for i, unit := range p.Packet.Units {
		own, lines := *p, p.UnitLines(i+1)
		own.Joints = lines.Joints
		l := &jointList{book: *newBook(m, problems), plan: &own, needed: lines.JointTrays, unit: i + 1, unitName: unit}
		l.draft = p.Packet.Draft
		l.columns = l.measureColumns()
		sections = append(sections, section{sheet: "joints", title: m.Say("joints.title"), name: unit, unit: i + 1, pages: l.write()})
	}
	return sections
}

// jointBlock is a part of a joint that is never split.
type jointBlock struct {
	height page.Pt
	draw   func(y page.Pt)
}

// joint is what is printed of one joint: its blocks stay together as far as a page allows.
type joint struct {
	id     string
	place  problem.Place
	blocks []jointBlock
}

func (l *jointList) write() [][]page.Item {
	l.open = l.head
	l.turn()
	l.trays()
	for _, kind := range []struct{ kind, heading string }{{"splice", l.say("joints.splices")}, {"terminal", l.say("joints.terminals")}, {"stud", l.say("joints.studs")}} {
		var joints []joint
		for _, j := range l.plan.Joints {
			if j.Kind == kind.kind {
				l.at = j.Place
				joints = append(joints, l.jointOf(j))
			}
		}
		l.part(kind.heading, joints)
	}
	l.part(l.say("joints.shields"), l.shields())
	l.sign()
	return l.finish()
}

// head opens every page.
func (l *jointList) head() {
	title := l.say("joints.title")
	l.text(live.X, l.y+mm10(85), bold(28), live.W/2, title)
	x := live.X + l.width(bold(28), title) + mm(6)
	word := l.width(medium(14), l.say("common.unit")+" ")
	l.text(x, l.y+mm10(85), medium(14), live.W/2, l.say("common.unit"))
	l.text(x+word, l.y+mm10(85), monoBold(22), live.X+live.W-x-word, l.unitName)
	l.y += mm(11)
	l.across(live.X, live.X+live.W, l.y, groupRule)
}

// trays lists the trays that hold wires for the joints.
func (l *jointList) trays() {
	if len(l.needed) > 0 {
		l.y = l.ticks(live.X, l.y+mm(1), live.W, medium(11), l.say("common.trays_needed"), monoBold(14), l.needed)
	}
}

// part prints joints of one kind under their heading.
func (l *jointList) part(heading string, joints []joint) {
	for i, j := range joints {
		whole := jointHeight(j.blocks)
		if whole > l.room() {
			whole = jointHeight(j.blocks[:min(3, len(j.blocks))])
		}
		if i == 0 {
			l.heading(heading, whole+mm(1))
			l.y += mm(1)
		}
		l.at = j.place
		l.need(whole)
		l.joint(j)
		l.at = problem.Place{}
	}
}

// room is the height that a page holds below its head and a heading.
func (l *jointList) room() page.Pt { return bodyBottom() - bodyTop() - mm(11) - mm(12) }

// joint prints the blocks of a joint. Where a page ends between them, the next one says which joint goes on.
func (l *jointList) joint(j joint) {
	heights := make([]page.Pt, len(j.blocks))
	for i, b := range j.blocks {
		heights[i] = b.height
	}
	for i, b := range j.blocks {
		if b.height > l.room() {
			l.refuse("too-tall", fmt.Sprintf("a row of %q fills more than a page", j.id), "shorten the notes of its wires")
			return
		}
		if l.left() < b.height+follow(heights, i, 0) {
			l.turn()
			l.line(live.X, l.y+mm(7), live.W, []span{{style: monoBold(16), text: j.id}, {style: medium(11), text: l.say("common.goes_on")}})
			l.y += mm(9)
		}
		l.marked(j.id, i+1, l.y, b.height, b.draw)
		l.y += b.height
	}
	l.across(live.X, live.X+live.W, l.y, groupRule)
}

func jointHeight(blocks []jointBlock) page.Pt {
	height := page.Pt(0)
	for _, b := range blocks {
		height += b.height
	}
	return height
}

// sign closes the list.
func (l *jointList) sign() {
	l.need(signHeight + mm(12))
	l.signatures(l.y + mm(4))
	l.y += signHeight + mm(12)
}
