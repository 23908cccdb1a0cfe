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
	y := l.y + mm10(65)
	l.tick(live.X, l.y+mm10(15), gloveTick)
	l.text(c.wire, y, monoBold(13), c.slack-c.slackRoom-c.wire, row.ID)
	l.right(c.slack, y, mono(12), c.slackRoom, slackWords(row))
	y = l.ends(y, rowWords(row), row.From, row.To, 0)
	for _, part := range row.Parts {
		y += laidMore
		l.text(c.wire+mm(2), y, monoBold(11), c.slack-c.wire, part.Wire)
		y = l.ends(y, part.Words, part.From, part.To, mm(2))
	}
	l.y += l.rowHeight(row)
	l.across(live.X, live.X+live.W, l.y, rowRule)
}

// ends prints what a wire is and where it goes, beside or below its id, and returns the base line of its last line.
func (l *routingList) ends(y page.Pt, words, from, to string, inset page.Pt) page.Pt {
	c := l.columns
	if c.deep {
		return l.flow(c.wire+inset, y+laidMore, l.deepRoom()-inset, laidMore, deepSpans(words, from, to)...) - laidMore
	}
	l.text(c.from, y, mono(11), c.to-c.from, from)
	l.text(c.to, y, mono(11), c.slack-c.slackRoom-c.to, to)
	if words == "" {
		return y
	}
	return l.paragraph(c.words, y, regular(10), c.from-c.words-mm(2), laidMore, words) - laidMore
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
func slackWords(row plan.Laid) string {
	switch {
	case !row.Known:
		return "-"
	case row.SlackUM < 0:
		return "short " + exactMM(int64(units.Length(-row.SlackUM).CeilTo(units.Millimetre)))
	}
	return exactMM(row.SlackUM / 1000 * 1000)
}
