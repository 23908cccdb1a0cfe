package sheet

import (
	"fmt"
	"slices"
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
)

// shifts is how many shifts a page of checks serves.
const shifts = 3

// shiftCheck is one thing to do before the first piece of a shift.
type shiftCheck struct {
	words string
	write bool // a figure is written in place of a tick
}

// shiftChecks lists what is done at the start of a shift, nine at most: common practice. The maker's list comes first.
func (m composer) shiftChecks(p *plan.Plan) []shiftCheck {
	laser, ink := slices.Contains(p.Line.Methods, "laser"), slices.Contains(p.Line.Methods, "ink")
	checks := []shiftCheck{{words: m.Say("shift.interlock")}, {words: m.Say("shift.extraction")}}
	switch {
	case laser && ink:
		checks = append(checks, shiftCheck{m.Say("shift.hours_both"), true})
	case laser:
		checks = append(checks, shiftCheck{m.Say("shift.hours_laser"), true})
	case ink:
		checks = append(checks, shiftCheck{m.Say("shift.hours_lamp"), true})
	}
	if ink {
		var inks []string
		for _, colour := range p.Marking.Inks {
			inks = append(inks, m.Say("shift.ink_"+colour))
		}
		checks = append(checks, shiftCheck{words: m.Say("shift.heads")}, shiftCheck{words: m.Say("shift.inks", "inks", strings.Join(inks, ", "))})
	}
	checks = append(checks, shiftCheck{words: m.Say("shift.job")},
		shiftCheck{words: m.Say("shift.blade")})
	if laser || ink {
		checks = append(checks, shiftCheck{words: m.Say("shift.contrast")})
	}
	return append(checks, shiftCheck{words: m.Say("shift.lengths")})
}

// shift writes the checks with a column for each of several shifts, and the test lengths below.
func (b *setupBook) shift() [][]page.Item {
	b.heading(b.say("shift.head"), mm(60))
	b.y = b.paragraph(live.X, b.y+mm(6), medium(10), live.W, mm10(45),
		b.say("shift.how")) - mm(1)
	columns := []ledgerColumn{{b.say("common.no"), mm(9)}, {b.say("shift.before"), mm(96)}}
	for i := range shifts {
		columns = append(columns, ledgerColumn{b.say("shift.number", "n", i+1), mm(25)})
	}
	checks := b.metrics.shiftChecks(b.plan)
	const pitch = 3118 // 11 mm
	bottom := b.ledger(live.X, b.y, columns, len(checks)+2, pitch)
	y := bottom - page.Pt(len(checks)+2)*pitch
	for i, check := range checks {
		b.text(live.X, y+mm(7), monoBold(11), mm(9), fmt.Sprint(i+1))
		lines := len(b.wrap(medium(11), mm(94), check.words))
		b.paragraph(live.X+mm(9)+cellInset(), y+mm(7)-mm10(25)*page.Pt(lines-1), medium(11), mm(94), mm10(48), check.words)
		for shift := range shifts {
			if !check.write {
				b.tick(live.X+mm(105)+mm(25)*page.Pt(shift)+mm(9), y+mm(2), loadSide())
			}
		}
		y += pitch
	}
	for _, words := range []string{b.say("common.date_time"), b.say("shift.name")} {
		b.text(live.X+mm(9)+cellInset(), y+mm(7), bold(11), mm(94), words)
		y += pitch
	}
	b.y = bottom
	b.testLengths()
	return b.finish()
}

// testLengths writes the length check: what is commanded, what it must not fall short of, and what comes of it.
func (b *setupBook) testLengths() {
	if len(b.plan.Marking.TestLengths) == 0 {
		return
	}
	b.heading(b.say("shift.test_lengths"), mm(40))
	b.y = b.paragraph(live.X, b.y+mm(6), regular(10), live.W, mm10(45), b.say("shift.test_how")) - mm(1)
	rows := len(b.plan.Marking.TestLengths)
	columns := []ledgerColumn{{b.say("shift.commanded"), mm(26)}, {b.say("shift.least"), mm(22)}}
	for i := range shifts {
		columns = append(columns, ledgerColumn{b.say("shift.measured", "n", i+1), mm(22)}, ledgerColumn{b.say("shift.scale"), mm(22)})
	}
	const pitch = 2693 // 9.5 mm
	bottom := b.ledger(live.X, b.y, columns, rows, pitch)
	y := bottom - page.Pt(rows)*pitch
	for _, length := range b.plan.Marking.TestLengths {
		b.right(live.X+mm(20), y+mm(6), monoBold(11), mm(20), b.exact(length.UM))
		b.right(live.X+mm(26)+mm(18), y+mm(6), mono(11), mm(18), b.exact(length.LeastUM))
		y += pitch
	}
	b.y = bottom
}

// log writes the table of changes of settings.
func (b *setupBook) log() [][]page.Item {
	b.heading(b.say("log.head"), mm(60))
	b.y = b.paragraph(live.X, b.y+mm(6), medium(10), live.W, mm10(45),
		b.say("log.how")) - mm(1)
	b.y = b.ledger(live.X, b.y, []ledgerColumn{{b.say("common.date_time"), mm(24)}, {b.say("log.reel_row"), mm(26)}, {b.say("log.what"), mm(54)}, {b.say("log.was"), mm(18)}, {b.say("log.is"), mm(18)},
		{b.say("log.checked"), mm(22)}, {b.say("common.by"), mm(18)}}, 17, mm10(105))
	return b.finish()
}
