package sheet

import (
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
)

// block prints one reel in a heavy frame.
func (b *setupBook) block(block setupBlock) {
	s := block.setup
	top := b.y + mm(2)
	frame := block.height - mm(3)
	b.box(live.X+mm10(5), top, live.W-mm(1), frame, 2*groupRule)
	b.tick(live.X+mm(3), top+mm(2), loadSide())
	x, y := live.X+loadSide()+mm(7), top+mm(6)
	for _, line := range block.load {
		b.line(x, y, blockRoom(), line)
		y += loadPitch()
	}
	y -= mm(1)
	for _, line := range block.others {
		b.line(x, y, blockRoom(), line)
		y += firstPitch()
	}
	rule := y - mm10(25)
	b.across(live.X+mm10(5), live.X+live.W-mm10(5), rule, rowRule)
	y = rule + mm10(47)
	for _, line := range block.first {
		b.line(live.X+mm(2), y, live.W-mm(4), line)
		y += firstPitch()
	}
	for _, text := range s.First.Texts {
		b.picture(s, text, y)
		y += b.pictureHeight(s, text)
	}
	y += mm(2)
	for _, line := range block.lengths {
		b.line(live.X+mm(2), y, live.W-mm(4), line)
		y += writePitch()
	}
	b.firstChecks(y-mm(1), block.checks)
	b.y += block.height
}

// firstChecks prints the boxes of the first piece and who looked, on a base line.
func (b *setupBook) firstChecks(y page.Pt, checks []string) {
	x := live.X + mm(2)
	for _, words := range checks {
		b.tick(x, y-mm10(42), boxSide())
		b.text(x+boxSide()+mm10(15), y, medium(10), mm(40), words)
		x += boxSide() + mm(4) + b.width(medium(10), words)
	}
	room := live.X + live.W - mm(2) - x
	b.line(x+mm(1), y, room, []span{{style: medium(10), text: b.say("common.by"), blank: room - mm(10)}})
}

// picture prints a text of the first piece to be read, and beside or below it the same on a wire, in its true length and place on
// the insulation. The wire is drawn as thick as it is.
func (b *setupBook) picture(s plan.Setup, text plan.FirstText, y page.Pt) {
	label := b.say("setup.between")
	if text.End != "" {
		label = b.metrics.endOf(text.End)
	}
	x := live.X + mm(2)
	b.text(x, y, bold(9), mm(16), label)
	b.text(x+mm(17), y, mono(10), live.W-mm(21), strings.Join(text.Lines, " "))
	left, base := x+mm(17)+b.width(mono(10), strings.Join(text.Lines, " "))+mm(8), y
	if !b.beside(s, text) {
		left, base = x+mm(17), y+b.wireHeight(s)/2+mm(4)
	}
	b.wire(s, text, left, base)
}

// beside reports whether the drawn wire stands on the line of the text.
func (b *setupBook) beside(s plan.Setup, text plan.FirstText) bool {
	return mm(2)+mm(17)+b.width(mono(10), strings.Join(text.Lines, " "))+mm(8)+page.MM(int(text.WidthUM))+2*wireOverhang() <= live.W-mm(4)
}

// wireOverhang is how far a drawn wire goes on beside its text.
func wireOverhang() page.Pt { return mm(5) }

func (b *setupBook) wireHeight(s plan.Setup) page.Pt {
	return page.MM(int(b.stock.types[s.Type].DiameterUM))
}

func (b *setupBook) pictureHeight(s plan.Setup, text plan.FirstText) page.Pt {
	height := b.wireHeight(s) + mm(3)
	if !b.beside(s, text) {
		return height + mm(5)
	}
	return max(height, mm10(55))
}

// wire draws a piece of wire around a text, as thick as it is and with the text in its true length.
func (b *setupBook) wire(s plan.Setup, text plan.FirstText, x, base page.Pt) {
	width, thick := page.MM(int(text.WidthUM)), b.wireHeight(s)
	middle := base - mm10(12)
	for _, y := range []page.Pt{middle - thick/2, middle + thick/2} {
		b.across(x, x+width+2*wireOverhang(), y, rowRule)
	}
	longest := 0
	for _, line := range text.Lines {
		longest = max(longest, len([]rune(line)))
	}
	size := b.sizeFor(width, longest)
	capital := b.metrics.CapHeight(page.Mono, size)
	pitch := capital * 3 / 2
	y := middle + capital/2 - pitch*page.Pt(len(text.Lines)-1)/2
	for _, line := range text.Lines {
		b.items = append(b.items, page.Text{X: x + wireOverhang(), Y: y, Face: page.Mono, Size: size, Room: width + mm(1), String: line,
			Place: b.at, Picture: true})
		y += pitch
	}
}

// sizeFor returns the type size at which that many characters take a width.
func (b *setupBook) sizeFor(width page.Pt, characters int) page.Pt {
	const whole = 100 * page.Point // widths at a large size carry no rounding
	advance := b.width(style{page.Mono, whole}, strings.Repeat("0", characters))
	return width * whole / advance
}
