package sheet

import (
	"fmt"
	"slices"
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
)

// sample writes the page on which a type is proved before the run.
func (b *setupBook) sample(s plan.MarkSample) [][]page.Item {
	b.heading(b.say("sample.head", "type", s.Type), mm(60))
	y := b.flow(live.X, b.y+mm(8), live.W, loadPitch(), b.present(append(b.stock.typeWords(s.Type),
		span{style: medium(11), text: b.stock.types[s.Type].Insulation}, span{style: medium(11), text: labelled(b.say("sample.reels"), strings.Join(s.Reels, ", "))},
		span{style: bold(11), text: b.sayCount("sample.wait", s.Pieces)}))...)
	y = b.steps(y+mm(2), s)
	b.staple(y)
	b.outcomes(s)
	b.decided(s)
	return b.finish()
}

// steps says what to do, line by line.
func (b *setupBook) steps(y page.Pt, s plan.MarkSample) page.Pt {
	how := []string{}
	if s.Laser {
		how = append(how, b.say("sample.with_laser"))
	}
	for _, ink := range s.Inks {
		how = append(how, b.say("sample.with_ink_"+ink))
	}
	lines := []string{
		b.say("sample.step_colour"), b.say("sample.step_mark", "text", s.Text, "height", b.exact(s.HeightUM), "ways", strings.Join(how, ", ")),
		b.say("sample.step_time"), b.say("sample.step_staple"),
	}
	for i, line := range lines {
		b.text(live.X, y, monoBold(11), mm(8), fmt.Sprint(i+1))
		y = b.paragraph(live.X+mm(8), y, medium(11), live.W-mm(8), mm(5), line) + mm10(15)
	}
	return y
}

// staple draws the place for the piece of wire.
func (b *setupBook) staple(y page.Pt) {
	b.y = y
	b.items = append(b.items, page.Rule{X1: live.X, Y1: y, X2: live.X + live.W, Y2: y, Weight: groupRule, Dash: []page.Pt{400, 300}},
		page.Rule{X1: live.X, Y1: y + mm(52), X2: live.X + live.W, Y2: y + mm(52), Weight: groupRule, Dash: []page.Pt{400, 300}})
	b.text(live.X+mm(2), y+mm(6), regular(10), mm(80), b.say("sample.staple"))
	b.line(live.X+mm(2), y+mm(48), live.W-mm(4), []span{{style: medium(10), text: b.say("sample.colour"), blank: mm(50)}, {style: medium(10), text: b.say("common.lot"), blank: mm(40)}})
	b.y = y + mm(54)
}

// outcomes prints the four that there are; a way that the line lacks says so.
func (b *setupBook) outcomes(s plan.MarkSample) {
	b.heading(b.say("sample.outcome"), mm(50))
	b.y += mm(3)
	ink := func(colour string) string {
		if slices.Contains(s.Inks, colour) {
			return ""
		}
		return b.say("sample.not_here")
	}
	laser := ""
	if !s.Laser {
		laser = b.say("sample.not_here")
	}
	for _, o := range [][3]string{
		{b.say("sample.laser"), laser, `laser = "yes"`}, {b.say("sample.black"), ink("black"), `ink = "black"`},
		{b.say("sample.white"), ink("white"), `ink = "white"`}, {b.say("sample.none"), "", `ink = "none"`},
	} {
		if o[1] == "" {
			b.tick(live.X, b.y, loadSide())
		}
		b.text(live.X+mm(11), b.y+mm(5), bold(12), mm(72), o[0])
		if o[1] != "" {
			b.text(live.X+mm(84), b.y+mm(5), regular(10), mm(90), o[1])
		} else {
			b.line(live.X+mm(84), b.y+mm(5), mm(96), []span{{style: regular(10), text: b.say("sample.into_job")}, {style: mono(10), text: o[2]}})
		}
		b.y += mm10(95)
	}
}

// decided asks who decided, and says what the planner writes into the job.
func (b *setupBook) decided(s plan.MarkSample) {
	b.line(live.X, b.y+mm(7), live.W, []span{{style: bold(11), text: b.say("sample.decided_by"), blank: mm(45)}, {style: medium(11), text: b.say("common.date"), blank: mm(28)},
		{style: medium(11), text: b.say("sample.record"), blank: mm(35)}})
	key := fmt.Sprintf("proved = { on = %s, by = %s, record = %s }", b.say("common.date"), b.say("sample.proved_by"), b.say("sample.proved_record"))
	b.y = b.paragraph(live.X, b.y+mm(14), regular(10), live.W, mm10(45), b.say("sample.planner", "type", s.Type, "key", key))
}
