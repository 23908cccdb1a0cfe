package sheet

import (
	"slices"
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
)

// gridColumn is a column of a table with words in it, or one to write in.
type gridColumn struct {
	title string
	style style
	least page.Pt // narrowest
	share int     // of what the narrowest widths leave over
	write bool    // a value is written here: rules stand on both sides
}

// gridRow is a row of a table.
type gridRow struct {
	cells []string
	first []string // boxes and words above the cells: what comes before them
	notes []span   // below the cells, beside the columns to write in
	open  bool     // no boxes for the units
	place problem.Place
}

// table is a table whose rows are as tall as their words need.
type table struct {
	book
	units   []string // boxes at the left of each row, one a unit
	columns []gridColumn
	x, w    []page.Pt
	head    func() // prints what every page opens with, above the heads of the columns; moves y
	last    lastRow
	list    string // what the rows are rows of
	count   int    // rows of the list so far
}

// lastRow is the row that was printed last, and where on its page it began.
type lastRow struct {
	row    gridRow
	begins int // items of the page before it
	pages  int // of the table before its page
	before int // rows of its page above it
	ends   int // items of the page with it
	list   string
	number int // in its list
}

const (
	gridTop   page.Pt = 1503 // 5.3 mm: from the rule above a row to its first base line
	gridPitch page.Pt = 1247 // 4.4 mm
	gridFoot  page.Pt = 680  // 2.4 mm: from the last base line to the rule below
	gridGap   page.Pt = 567  // 2 mm: between two columns
	gridFirst page.Pt = 1984 // 7 mm: a line of boxes above the cells
	gridBoxes page.Pt = 2409 // 8.5 mm: from the box of a unit to the next
)

// newTable starts a table. Its widths follow the words of the rows: an id is never broken. Where the longest do not fit beside
// one another the columns give way, then the type, down to 9 pt.
func newTable(p *plan.Plan, m composer, problems *problem.List, units []string, columns []gridColumn, rows []gridRow) *table {
	g := &table{book: *newBook(m, problems), units: units, columns: slices.Clone(columns)}
	g.draft = p.Packet.Draft
	left := live.X + gridBoxes*page.Pt(len(units))
	if len(units) > 0 {
		left += mm(1)
	}
	whole := live.X + live.W - left - gridGap*page.Pt(len(columns)-1)
	room := whole - g.measure(rows, figures)
	if room < 0 {
		room = whole - g.measure(rows, single)
	}
	for size := 11; room < 0 && size >= 9; size-- {
		for i := range g.columns {
			g.columns[i].least = 0
			g.columns[i].style.size = min(g.columns[i].style.size, page.Pt(size)*page.Point)
		}
		room = whole - g.measure(rows, single)
	}
	shares := 0
	for _, c := range columns {
		shares += c.share
	}
	for i, c := range columns {
		if shares > 0 && room > 0 {
			g.w[i] += room * page.Pt(c.share) / page.Pt(shares)
		}
		g.x = append(g.x, left)
		left += g.w[i] + gridGap
	}
	g.open = func() {
		g.head()
		g.heads()
	}
	return g
}

// single parts a text at every blank.
func single(_ style, text string) []string { return strings.Fields(text) }

// measure returns the width that the columns need, each as wide as the longest word, or figure, that parts finds in it.
func (g *table) measure(rows []gridRow, parts func(style, string) []string) page.Pt {
	g.w = nil
	sum := page.Pt(0)
	for i, c := range g.columns {
		width := c.least
		for _, word := range strings.Fields(c.title) {
			width = max(width, g.width(bold(9), word))
		}
		for _, row := range rows {
			for _, word := range parts(c.style, row.cells[i]) {
				width = max(width, g.width(c.style, word))
			}
		}
		g.w = append(g.w, width)
		sum += width
	}
	return sum
}

// unitBox is the left edge of the box of a unit.
func unitBox(unit int) page.Pt { return live.X + gridBoxes*page.Pt(unit) + (gridBoxes-boxSide())/2 }

// headLines returns how many lines the heads of the columns take, long serials among them.
func (g *table) headLines() page.Pt {
	lines := 1
	for i, c := range g.columns {
		lines = max(lines, len(g.wrap(bold(9), g.w[i], c.title)))
	}
	if g.stackedSerials() {
		lines = max(lines, len(g.units)+1)
	}
	return page.Pt(lines)
}

// headHeight is what the heads of the columns take.
func (g *table) headHeight() page.Pt { return cellPitch()*g.headLines() + mm10(25) }

// heads prints the serials over the boxes and the heads of the columns.
func (g *table) heads() {
	low := g.y + cellPitch()*g.headLines() + mm(1)
	g.serials(low, g.stackedSerials())
	for i, c := range g.columns {
		titles := len(g.wrap(bold(9), g.w[i], c.title))
		g.paragraph(g.x[i], low-cellPitch()*page.Pt(titles-1), bold(9), g.w[i], cellPitch(), c.title)
	}
	g.y = low + mm10(15)
	g.across(live.X, live.X+live.W, g.y, groupRule*3/2)
}

// stackedSerials reports whether a serial is wider than the column of its boxes.
func (g *table) stackedSerials() bool {
	for _, unit := range g.units {
		if g.width(monoBold(9), unit) > gridBoxes-mm10(5) {
			return true
		}
	}
	return false
}

// serials heads the boxes of each unit. Long ones stand one below the other, each led down to its column.
func (g *table) serials(low page.Pt, stacked bool) {
	y := low - cellPitch()*page.Pt(len(g.units))
	for i, unit := range g.units {
		x := unitBox(i)
		if !stacked {
			g.centre(x+boxSide()/2, low, monoBold(9), gridBoxes, unit)
			continue
		}
		g.text(x, y, monoBold(9), live.X+live.W-x, unit)
		g.items = append(g.items, page.Rule{X1: x + mm(1), Y1: y + mm(1), X2: x + mm(1), Y2: low + mm(1), Weight: rowRule})
		y += cellPitch()
	}
}

// height returns what a row takes.
func (g *table) height(row gridRow) page.Pt {
	lines := 1
	for i, c := range g.columns {
		lines = max(lines, len(g.wrap(c.style, g.w[i], row.cells[i])))
	}
	height := max(writePitch(), gridTop+gridPitch*page.Pt(lines-1)+gridFoot)
	if len(row.first) > 0 {
		height += g.firstHeight(row.first)
	}
	return height + g.notesHeight(row)
}

// notesHeight is what the words below the cells take.
func (g *table) notesHeight(row gridRow) page.Pt {
	return gridPitch * page.Pt(len(g.lines(g.notesRoom(), row.notes)))
}

// notesRoom is how wide the words below the cells are: up to the columns to write in, which are the last, and stay clear down to the
// rule below the row.
func (g *table) notesRoom() page.Pt {
	for i, c := range g.columns {
		if c.write {
			return g.x[i] - gridGap - g.x[0]
		}
	}
	return live.X + live.W - g.x[0]
}

// rolesHeight is what the lines of so many signatures take.
func rolesHeight(roles int) page.Pt { return writePitch()*page.Pt(roles) + mm(2) }

// firstHeight is the height of the boxes above the cells.
func (g *table) firstHeight(labels []string) page.Pt {
	return page.Pt(g.firsts(0, labels, false)) * gridFirst
}

// firsts prints a box and words for each label, and returns how many lines they take.
func (g *table) firsts(y page.Pt, labels []string, draw bool) int {
	lines, start := 1, g.x[0]
	x := start + g.width(bold(11), g.say("common.slide_on_first")) + mm(3)
	if draw {
		g.text(start, y+mm10(52), bold(11), live.X+live.W-start, g.say("common.slide_on_first"))
	}
	for _, label := range labels {
		need := boxSide() + mm(2) + g.width(medium(11), label)
		if x+need > live.X+live.W && x > start {
			lines, x = lines+1, start
		}
		if base := y + gridFirst*page.Pt(lines-1); draw {
			g.tick(x, base+mm10(13), boxSide())
			g.text(x+boxSide()+mm(2), base+mm10(52), medium(11), live.X+live.W-x-boxSide()-mm(2), label)
		}
		x += need + mm(5)
	}
	return lines
}

// rows prints the rows of a list; closing is the height of what has to stand on the page of its end.
func (g *table) rows(list string, rows []gridRow, closing page.Pt) {
	g.begin(list)
	heights := g.heights(rows)
	for i, row := range rows {
		g.row(row, follow(heights, i, closing))
	}
}

// begin starts a list.
func (g *table) begin(list string) { g.list, g.count = list, 0 }

func (g *table) heights(rows []gridRow) []page.Pt {
	heights := make([]page.Pt, len(rows))
	for i, row := range rows {
		heights[i] = g.height(row)
	}
	return heights
}

// row prints a row, on a new page where this one does not hold it and what has to follow it there.
func (g *table) row(row gridRow, follow page.Pt) {
	g.at = row.place
	height := g.height(row)
	if height > bodyBottom()-bodyTop()-mm(40) {
		g.refuse("too-tall", "a row takes more than a page of this sheet", "shorten its notes")
		return
	}
	g.need(height + follow)
	g.remember(row)
	g.count++
	top, ticks := g.y, len(row.first)
	if !row.open {
		ticks += len(g.units)
	}
	g.mark(g.list, g.count, top, height, ticks)
	if len(row.first) > 0 {
		g.firsts(g.y, row.first, true)
		g.y += g.firstHeight(row.first)
	}
	if !row.open {
		for i := range g.units {
			g.tick(unitBox(i), g.y+mm10(17), boxSide())
		}
	}
	base, lines := g.y+gridTop, 1
	for i, c := range g.columns {
		lines = max(lines, len(g.wrap(c.style, g.w[i], row.cells[i])))
		g.paragraph(g.x[i], base, c.style, g.w[i], gridPitch, row.cells[i])
	}
	for i, c := range g.columns {
		if c.write {
			for _, x := range []page.Pt{g.x[i] - gridGap/2, min(g.x[i]+g.w[i]+gridGap/2, live.X+live.W)} {
				g.items = append(g.items, page.Rule{X1: x, Y1: top, X2: x, Y2: top + height, Weight: rowRule})
			}
		}
	}
	g.flow(g.x[0], base+gridPitch*page.Pt(lines), g.notesRoom(), gridPitch, row.notes...)
	g.y = top + height
	g.across(live.X, live.X+live.W, g.y, rowRule)
	g.last.ends = len(g.items)
	g.at = problem.Place{}
}

// remember takes note of a row that is about to be printed.
func (g *table) remember(row gridRow) {
	before := g.last.before + 1
	if g.last.pages != len(g.pages) || g.last.row.cells == nil {
		before = 0
	}
	g.last = lastRow{row: row, begins: len(g.items), pages: len(g.pages), before: before, list: g.list, number: g.count + 1}
}

// needWithRow turns the page where it no longer holds height, and takes the last row along: what closes a table never stands alone.
func (g *table) needWithRow(height page.Pt) {
	if g.left() >= height {
		return
	}
	last := g.last
	if last.before == 0 || last.pages != len(g.pages) || last.ends != len(g.items) {
		g.turn() // its only row stays where it is, and one that more is printed under
		return
	}
	g.items = g.items[:last.begins]
	g.turn()
	if g.open == nil { // no page was to come that needs heads
		g.heads()
	}
	g.list, g.count = last.list, last.number-1
	g.row(last.row, 0)
}

// title prints what a page of a table is about, large, and a line below it.
func (g *table) title(name style, id, words, below string) {
	for name.size > 14*page.Point && g.width(name, id) > live.W/2 {
		name.size -= 2 * page.Point
	}
	g.text(live.X, g.y+mm(9), name, live.W*2/3, id)
	x := live.X
	if id != "" {
		x += g.width(name, id) + mm(5)
	}
	g.text(x, g.y+mm(9), medium(14), live.X+live.W-x, words)
	g.y += mm(11)
	if below != "" {
		g.y = g.paragraph(live.X, g.y+mm(4), regular(11), live.W, mm10(48), below) - mm(3)
	}
	g.y += mm(1)
}

// signed closes a record: who did it, when, the stamp.
func (g *table) signed(roles ...string) {
	g.needWithRow(rolesHeight(len(roles)))
	g.y += mm(2)
	for _, role := range roles {
		g.line(live.X, g.y+mm(6), live.W, []span{{style: bold(10), text: role, blank: mm(62)},
			{style: medium(10), text: g.say("common.date"), blank: mm(28)}, {style: medium(10), text: g.say("common.stamp"), blank: mm(24)}})
		g.y += writePitch()
	}
}
