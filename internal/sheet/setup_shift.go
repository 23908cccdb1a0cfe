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
func shiftChecks(p *plan.Plan) []shiftCheck {
	laser, ink := slices.Contains(p.Line.Methods, "laser"), slices.Contains(p.Line.Methods, "ink")
	checks := []shiftCheck{{words: "Interlock and emergency stop tried: the line stops"}, {words: "Extraction runs"}}
	switch {
	case laser && ink:
		checks = append(checks, shiftCheck{"Hours of laser and curing lamp, within the maker's limits", true})
	case laser:
		checks = append(checks, shiftCheck{"Hours of the laser, within the maker's limits", true})
	case ink:
		checks = append(checks, shiftCheck{"Hours of the curing lamp, within the maker's limits", true})
	}
	if ink {
		checks = append(checks, shiftCheck{words: "Ink heads cleaned today"},
			shiftCheck{words: "Right ink in every head: " + strings.Join(p.Marking.Inks, ", ")})
	}
	checks = append(checks, shiftCheck{words: "Job and revision on the line are those at the head of this page"},
		shiftCheck{words: "Blade and strip sample: clean cut, no strand hurt"})
	if laser || ink {
		checks = append(checks, shiftCheck{words: "Contrast strip marked, read and taped to the back"})
	}
	return append(checks, shiftCheck{words: "Test lengths below measured, none too short"})
}

// shift writes the checks with a column for each of several shifts, and the test lengths below.
func (b *setupBook) shift() [][]page.Item {
	b.heading("Start of shift", mm(60))
	b.y = b.paragraph(live.X, b.y+mm(6), medium(10), live.W, mm10(45),
		"The maker's list comes first; where it asks for more, do that too. Do not start with a box empty: call the lead.") - mm(1)
	columns := []ledgerColumn{{"no.", mm(9)}, {"before the first piece", mm(96)}}
	for i := range shifts {
		columns = append(columns, ledgerColumn{fmt.Sprintf("shift %d", i+1), mm(25)})
	}
	checks := shiftChecks(b.plan)
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
	for _, words := range []string{"date, time", "name"} {
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
	b.heading("Test lengths", mm(40))
	b.y = b.paragraph(live.X, b.y+mm(6), regular(10), live.W, mm10(45), "scale = measured / commanded. Cut lengths count on no piece shorter than the least; "+
		"where one is, correct the scale as the maker's manual says and cut again. Measure under no pull.") - mm(1)
	rows := len(b.plan.Marking.TestLengths)
	columns := []ledgerColumn{{"commanded mm", mm(26)}, {"least mm", mm(22)}}
	for i := range shifts {
		columns = append(columns, ledgerColumn{fmt.Sprintf("shift %d measured", i+1), mm(22)}, ledgerColumn{"scale", mm(22)})
	}
	const pitch = 2693 // 9.5 mm
	bottom := b.ledger(live.X, b.y, columns, rows, pitch)
	y := bottom - page.Pt(rows)*pitch
	for _, length := range b.plan.Marking.TestLengths {
		b.right(live.X+mm(20), y+mm(6), monoBold(11), mm(20), exactMM(length.UM))
		b.right(live.X+mm(26)+mm(18), y+mm(6), mono(11), mm(18), exactMM(length.LeastUM))
		y += pitch
	}
	b.y = bottom
}

// log writes the table of changes of settings.
func (b *setupBook) log() [][]page.Item {
	b.heading("Log of changes", mm(60))
	b.y = b.paragraph(live.X, b.y+mm(6), medium(10), live.W, mm10(45),
		"Every change of a setting, an ink, a head, a blade or a reel that this packet does not plan. Check a first piece after each.") - mm(1)
	b.y = b.ledger(live.X, b.y, []ledgerColumn{{"date, time", mm(24)}, {"reel, row", mm(26)}, {"what, why", mm(54)}, {"was", mm(18)}, {"is", mm(18)},
		{"first piece checked by", mm(22)}, {"by", mm(18)}}, 17, mm10(105))
	return b.finish()
}
