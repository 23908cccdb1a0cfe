package sheet

import (
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
)

// measureColumns decides size and columns by the longest ids and figures of the job: first the type gives way, then from and to
// take a line of their own.
func (l *lengthList) measureColumns() {
	for _, try := range []struct {
		size int
		deep bool
	}{{10, false}, {9, false}, {10, true}, {9, true}} {
		l.size, l.deep = try.size, try.deep
		if l.place() {
			return
		}
	}
}

// idWidth returns the width of ids, and that of ends: each of the widest that is not broken.
func (l *lengthList) idWidth() (id, words page.Pt) {
	id, words = l.width(bold(9), l.say("common.wire")), l.width(bold(9), l.say("common.from"))
	for _, row := range l.plan.Lengths {
		id = max(id, l.indent(row)+l.width(monoBold(l.size), row.ID))
		for _, word := range strings.Fields(l.breakable(row.From) + " " + l.breakable(row.To)) {
			words = max(words, l.width(mono(l.size), word))
		}
	}
	return id, words
}

// indent sets cores below their cable.
func (l *lengthList) indent(row plan.LengthRow) page.Pt {
	if row.Kind == "core" {
		return mm(2)
	}
	return 0
}

// place gives every column its place and reports whether they all fit. What is left over stands between the columns.
func (l *lengthList) place() bool {
	id, words := l.idWidth()
	status := max(l.width(medium(9), l.say("lengths.status.given")), l.width(medium(9), l.say("lengths.status.board")), l.width(medium(9), l.say("lengths.status.measure")))
	l.figures = l.sumColumns()
	sum := status + sumApart
	if !l.deep {
		sum += id + 2*words
	}
	for i := range l.figures {
		l.measureFigures(&l.figures[i])
		sum += l.figures[i].width
	}
	gaps := page.Pt(len(l.figures))
	if !l.deep {
		gaps += 3
	}
	gap := min((live.W-sum)/gaps, mm(4))
	x := live.X + live.W
	for i := len(l.figures) - 1; i >= 0; i-- {
		l.figures[i].right = x
		x -= l.figures[i].width + gap
		if i == finishedColumn {
			l.apart, x = x+(gap-sumApart)/2, x-sumApart
		}
	}
	l.status = x - status
	l.id, l.from, l.to, l.words = live.X, live.X+id+gap, live.X+id+gap+words+gap, words
	if spare := l.status - gap - l.to - words; !l.deep && spare > 0 {
		l.words += spare / 2
		l.to += spare / 2
	}
	return gap >= sumGap
}

// measureFigures finds how wide a column of figures is.
func (l *lengthList) measureFigures(c *sumColumn) {
	whole, s := page.Pt(0), mono(l.size)
	for _, row := range l.plan.Lengths {
		text := c.of(row)
		if strings.Contains(text, " ") { // a tolerance
			whole = max(whole, l.width(s, text))
			continue
		}
		number, fraction, found := strings.Cut(text, l.decimal("."))
		whole = max(whole, l.width(s, number))
		if found {
			c.fraction = max(c.fraction, l.width(s, l.decimal(".")+fraction))
		}
	}
	c.width = whole + c.fraction
	for _, line := range c.title {
		c.width = max(c.width, l.width(bold(9), line))
	}
}

// figure prints a figure with its decimal point in the line of all others of its column.
func (l *lengthList) figure(c sumColumn, y page.Pt, s style, text string) {
	right := c.right
	if strings.Trim(text, "-0123456789.,") == "" {
		_, fraction, found := strings.Cut(text, l.decimal("."))
		right -= c.fraction
		if found {
			right += l.width(s, l.decimal(".")+fraction)
		}
	}
	l.right(right, y, s, c.width, text)
}

// heads prints the heads of the columns.
func (l *lengthList) heads() {
	lines := 1
	for _, c := range l.figures {
		lines = max(lines, len(c.title))
	}
	s := bold(9)
	low := l.y + cellPitch()*page.Pt(lines)
	if l.deep {
		l.text(l.id, l.y+cellPitch(), s, mm(60), l.say("lengths.wire_from_to"))
		low += cellPitch()
	} else {
		l.text(l.id, low, s, mm(20), l.say("common.wire"))
		l.text(l.from, low, s, l.words, l.say("common.from"))
		l.text(l.to, low, s, l.words, l.say("common.to"))
	}
	l.text(l.status, low, s, mm(14), l.say("lengths.by"))
	for _, c := range l.figures {
		for i, line := range c.title {
			l.right(c.right, low-cellPitch()*page.Pt(len(c.title)-1-i), s, c.width, line)
		}
	}
	l.y = low + mm10(15)
	l.across(live.X, live.X+live.W, l.y, groupRule*3/2)
}

// height returns what a row takes.
func (l *lengthList) height(row plan.LengthRow) page.Pt {
	return sumFirst + sumPitch*page.Pt(l.rowLines(row)-1) + sumFoot
}

func (l *lengthList) rowLines(row plan.LengthRow) int {
	words := 1
	if !l.cut(row) {
		words = len(l.wrap(medium(9), l.insteadRoom(), l.instead(row)))
	}
	if l.deep {
		return words + len(l.lines(live.W-l.indent(row), l.head(row)))
	}
	s := mono(l.size)
	return max(words, len(l.wrap(s, l.words, l.breakable(row.From))), len(l.wrap(s, l.words, l.breakable(row.To))))
}

// insteadRoom is the width of what stands in place of a sum.
func (l *lengthList) insteadRoom() page.Pt {
	return l.figures[cutColumn].right - l.figures[0].right + l.figures[0].width
}

// head is what stands above the figures where the ids are long.
func (l *lengthList) head(row plan.LengthRow) []span {
	s := mono(l.size)
	return []span{{style: monoBold(l.size), text: row.ID}, {style: s, text: l.breakable(row.From)}, {style: medium(9), text: l.say("common.to")},
		{style: s, text: l.breakable(row.To)}}
}

// row prints one row, on a new page where this one does not hold it and what has to follow it there.
func (l *lengthList) row(number int, row plan.LengthRow, follow page.Pt) {
	l.at = row.Place
	height := l.height(row)
	l.need(height + follow)
	l.mark("", number, l.y, height, 0)
	y, x := l.y+sumFirst, live.X+l.indent(row)
	if l.deep {
		y = l.flow(x, y, live.W-l.indent(row), sumPitch, l.head(row)...)
	} else {
		s := mono(l.size)
		l.text(x, y, monoBold(l.size), l.from-x, row.ID)
		l.paragraph(l.from, y, s, l.words, sumPitch, l.breakable(row.From))
		l.paragraph(l.to, y, s, l.words, sumPitch, l.breakable(row.To))
	}
	l.text(l.status, y, medium(9), mm(16), l.statusWords(row))
	for i, c := range l.figures {
		switch s := mono(l.size); {
		case i >= finishedColumn:
			l.figure(c, y, s, c.of(row))
		case !l.cut(row):
			if i == 0 {
				l.paragraph(c.right-c.width, y, medium(9), l.insteadRoom(), sumPitch, l.instead(row))
			}
		case i == cutColumn:
			l.figure(c, y, monoBold(l.size), c.of(row))
		default:
			l.figure(c, y, s, c.of(row))
		}
	}
	l.items = append(l.items, page.Rule{X1: l.apart, Y1: l.y, X2: l.apart, Y2: l.y + height, Weight: rowRule})
	l.y += height
	l.across(live.X, live.X+live.W, l.y, rowRule)
	l.at = problem.Place{}
}
