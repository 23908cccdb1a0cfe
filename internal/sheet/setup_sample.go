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
	b.heading("Sample of "+s.Type+": prove it before the run", mm(60))
	y := b.flow(live.X, b.y+mm(8), live.W, loadPitch(), b.present(append(b.stock.typeWords(s.Type),
		span{style: medium(11), text: b.stock.types[s.Type].Insulation}, span{style: medium(11), text: labelled("reels", strings.Join(s.Reels, ", "))},
		span{style: bold(11), text: plural(s.Pieces, "piece") + " of the run wait for it"}))...)
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
		how = append(how, "with the laser")
	}
	for _, ink := range s.Inks {
		how = append(how, "with "+ink+" ink")
	}
	lines := []string{
		"Write the colour that you see and the lot of the reel below; do not guess the type.",
		fmt.Sprintf("Mark a piece of the reel %s, %s mm high, by every way of this line: %s.", quotedText(s.Text), exactMM(s.HeightUM), strings.Join(how, ", ")),
		"Give it the time that its maker asks for, read it at arm's length all round, rub it as the shop's procedure says.",
		"Staple the piece here, tick one outcome, sign. Until then the line does not run this type.",
	}
	for i, line := range lines {
		b.text(live.X, y, monoBold(11), mm(8), fmt.Sprint(i+1))
		y = b.paragraph(live.X+mm(8), y, medium(11), live.W-mm(8), mm(5), line) + mm10(15)
	}
	return y
}

func quotedText(text string) string { return "\u201c" + text + "\u201d" }

// staple draws the place for the piece of wire.
func (b *setupBook) staple(y page.Pt) {
	b.y = y
	b.items = append(b.items, page.Rule{X1: live.X, Y1: y, X2: live.X + live.W, Y2: y, Weight: groupRule, Dash: []page.Pt{400, 300}},
		page.Rule{X1: live.X, Y1: y + mm(52), X2: live.X + live.W, Y2: y + mm(52), Weight: groupRule, Dash: []page.Pt{400, 300}})
	b.text(live.X+mm(2), y+mm(6), regular(10), mm(80), "staple the marked piece here")
	b.line(live.X+mm(2), y+mm(48), live.W-mm(4), []span{{style: medium(10), text: "colour seen", blank: mm(50)}, {style: medium(10), text: "lot", blank: mm(40)}})
	b.y = y + mm(54)
}

// outcomes prints the four that there are; a way that the line lacks says so.
func (b *setupBook) outcomes(s plan.MarkSample) {
	b.heading("Outcome: one", mm(50))
	b.y += mm(3)
	ink := func(colour string) string {
		if slices.Contains(s.Inks, colour) {
			return ""
		}
		return "not on this line"
	}
	laser := ""
	if !s.Laser {
		laser = "not on this line"
	}
	for _, o := range [][3]string{
		{"UV LASER is read and stays", laser, `laser = "yes"`}, {"BLACK ink is read and stays", ink("black"), `ink = "black"`},
		{"WHITE ink is read and stays", ink("white"), `ink = "white"`}, {"NONE is: sleeves", "", `ink = "none"`},
	} {
		if o[1] == "" {
			b.tick(live.X, b.y, loadSide())
		}
		b.text(live.X+mm(11), b.y+mm(5), bold(12), mm(72), o[0])
		if o[1] != "" {
			b.text(live.X+mm(84), b.y+mm(5), regular(10), mm(90), o[1])
		} else {
			b.line(live.X+mm(84), b.y+mm(5), mm(96), []span{{style: regular(10), text: "into the job:"}, {style: mono(10), text: o[2]}})
		}
		b.y += mm10(95)
	}
}

// decided asks who decided, and says what the planner writes into the job.
func (b *setupBook) decided(s plan.MarkSample) {
	b.line(live.X, b.y+mm(7), live.W, []span{{style: bold(11), text: "decided by", blank: mm(45)}, {style: medium(11), text: "date", blank: mm(28)},
		{style: medium(11), text: "record no.", blank: mm(35)}})
	b.y = b.paragraph(live.X, b.y+mm(14), regular(10), live.W, mm10(45), fmt.Sprintf("Planner: write the outcome into type %s with "+
		"proved = { on = date, by = who decided, record = number }, and print the set-up sheet and the cut lists anew.", s.Type))
}
