package sheet

import "loomleaf/internal/page"

// signHeight is the height of the boxes for a signature and a stamp.
const signHeight page.Pt = 4535 // 16 mm

// closing returns what follows the rows: the totals, the closing steps, who signs. It stays together as far as a page allows.
func (l *pinList) closing() []pinBlock {
	cavities := l.connector.Cavities
	blocks := []pinBlock{{height: mm10(90), keep: true, draw: func(y page.Pt) {
		l.count(y+mm(6), l.sayCount("pins.all", len(cavities)), cavities)
	}}}
	steps := l.connector.After
	for i, step := range steps {
		// a short list of steps stays whole; of a long one the ends stay with what stands before and after it
		keep := len(steps) <= 10 || i == 0 || i == len(steps)-1
		blocks = append(blocks, pinBlock{height: tickPitch, keep: keep, draw: func(y page.Pt) {
			l.tick(live.X, y+mm(1), gloveTick)
			l.text(live.X+mm(10), y+mm10(62), medium(12), live.W-mm(10), joined(":  ", step.Step, step.Value))
		}})
	}
	return append(blocks, pinBlock{height: signHeight + mm(8), gap: mm(2), draw: l.signatures})
}

// signatures prints the boxes of installer and inspector side by side.
func (p *pen) signatures(y page.Pt) {
	half := live.W/2 - mm(3)
	for i, who := range []string{p.say("common.installer_signature"), p.say("common.inspector_signature")} {
		x := live.X + page.Pt(i)*(half+mm(6))
		p.text(x, y+mm10(38), bold(10), half, who)
		p.box(x, y+mm(5), mm(44), signHeight, groupRule)
		p.text(x+mm(47), y+mm10(38), bold(10), mm(16), p.say("common.stamp"))
		p.box(x+mm(47), y+mm(5), mm(16), signHeight, groupRule)
		p.text(x+mm(66), y+mm10(38), bold(10), mm(21), p.say("common.date"))
		p.text(x+mm(66), y+mm(5)+signHeight-mm10(5), mono(9), mm(21), "20__-__-__")
	}
}
