package sheet

import (
	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/units"
)

// row prints one row: a box, the wire, from where to where, what it has to spare, and the parts of a twist or cable below it.
func (l *routingList) row(row plan.Laid) {
	c := l.columns
	l.rows++
	l.inWay++
	l.mark(l.wayName, l.inWay, l.y, l.rowHeight(row), 1)
	y := l.y + mm10(65)
	l.tick(live.X, l.y+mm10(15), gloveTick)
	l.text(c.wire, y, monoBold(13), c.finished-c.finishedRoom-c.wire, row.ID)
	l.finished(y, row.Kind, row.FinishedUM, row.Tolerance)
	l.right(c.slack, y, mono(12), c.slackRoom, l.slackWords(row))
	y = l.ends(y, l.rowWords(row), row.From, row.To, 0)
	for _, part := range row.Parts {
		y += laidMore
		l.text(c.wire+mm(2), y, monoBold(11), c.finished-c.finishedRoom-c.wire, part.Wire)
		l.finished(y, "part", part.FinishedUM, part.Tolerance)
		y = l.ends(y, part.Words, part.From, part.To, mm(2))
	}
	l.y += l.rowHeight(row)
	l.across(live.X, live.X+live.W, l.y, rowRule)
}

// ends prints what a wire is and where it goes, beside or below its id, and returns the base line of its last line.
func (l *routingList) ends(y page.Pt, words, from, to string, inset page.Pt) page.Pt {
	c := l.columns
	if c.deep {
		return l.flow(c.wire+inset, y+laidMore, l.deepRoom()-inset, laidMore, l.deepSpans(words, from, to)...) - laidMore
	}
	l.text(c.from, y, mono(11), c.to-c.from, l.metrics.placeWords(from))
	l.text(c.to, y, mono(11), c.finished-c.finishedRoom-c.to, l.metrics.placeWords(to))
	if words == "" {
		return y
	}
	return l.paragraph(c.words, y, regular(10), c.from-c.words-mm(2), laidMore, words) - laidMore
}

// finished prints the finished length; a twist has none of its own.
func (l *routingList) finished(y page.Pt, kind string, um int64, t *plan.Tolerance) {
	if kind != "twist" {
		l.right(l.columns.finished, y, mono(10), l.columns.finishedRoom, l.laidFinished(um, t))
	}
}

// laidFinished prints a finished length with its tolerance: "1660.8 -0 +100".
func (p *pen) laidFinished(um int64, t *plan.Tolerance) string {
	return joined(" ", p.decimal(finishedMM(um)), p.toleranceWords(t))
}

// onTray reports whether a row lies in the tray of its home.
func onTray(row plan.Laid) bool {
	switch row.Tray {
	case "existing", "bought", "with part", "measured":
		return false
	}
	return true
}

// slackWords prints slack in whole millimetres, rounded down; what is missing is rounded up.
func (p *pen) slackWords(row plan.Laid) string {
	switch {
	case !row.Known:
		return "-"
	case row.SlackUM < 0:
		return p.say("routing.short", "length", exactMM(int64(units.Length(-row.SlackUM).CeilTo(units.Millimetre))))
	}
	return exactMM(row.SlackUM / 1000 * 1000)
}
