package sheet

import (
	"fmt"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
)

// cutRow is one step of the cut list with its height and what follows it.
type cutRow struct {
	step   plan.Step
	piece  cutPiece
	core   bool // a core, under the row of its cable
	key    plan.Code
	number int      // of the wire or cable within the group, from 1; 0 for loads and switches
	left   bool     // its symbol stands on the left
	extra  [][]span // further lines of a wire row, or the lines of a core
	open   bool     // cores follow
	height page.Pt
	five   bool // a gap follows
	ten    bool // a count follows
}

// cutList writes the pages of one group and one list of units.
type cutList struct {
	book
	plan    *plan.Plan
	stock   stock
	columns cutColumns
	group   plan.Group
	units   []string
	list    int
	still   string  // reel, or type where no reels are known, that runs
	setting string  // how the line marks
	place   string  // what the reel takes the place of, in words
	top     page.Pt // of the rows, below the head
	printed int     // wires and cables so far
}

// cutSections returns the cut lists: groups in the order of the run, each with its lists of units.
func cutSections(p *plan.Plan, m composer, problems *problem.List) []section {
	goods := stockOf(p, m)
	columns := measureColumns(*p, &pen{metrics: m})
	var sections []section
	setting, place := "", ""
	for list, units := range p.Packet.Lists {
		for _, group := range p.Groups {
			c := &cutList{book: *newBook(m, problems), plan: p, stock: goods, columns: columns, group: group, units: units,
				list: list, still: group.StillOn[list], setting: setting, place: place}
			c.draft = p.Packet.Draft
			sections = append(sections, section{sheet: "cutlist", title: m.Say("cutlist.title"), name: group.Connector,
				part: batchName(list), pages: c.write()})
			setting, place = c.setting, c.place
		}
	}
	return sections
}

// batchName tells the lists of a group apart where the job has several. The first keeps the bare name, so that a job
// that grows by a batch keeps its pages.
func batchName(list int) string {
	if list == 0 {
		return ""
	}
	return fmt.Sprintf("batch %d", list+1)
}

func (c *cutList) write() [][]page.Item {
	c.open = c.head
	c.turn()
	rows := c.rows()
	for len(rows) > 0 {
		block := blockOf(rows)
		c.block(rows[:block], block == len(rows))
		rows = rows[block:]
	}
	c.ending()
	return c.finish()
}

// rows measures every step.
func (c *cutList) rows() []cutRow {
	steps := c.group.Steps[c.list]
	rows := make([]cutRow, 0, len(steps))
	numbers, last, scattered, left := map[string]int{}, "", false, false
	for _, step := range steps {
		row := cutRow{step: step}
		if !cuts(step) {
			row.height = c.loadHeight(step)
			rows = append(rows, row)
			continue
		}
		if numbers[step.Wire] == 0 {
			numbers[step.Wire] = len(numbers) + 1
		} else if step.Wire != last {
			scattered = true
		}
		last, left = step.Wire, !left
		row.number, row.piece, row.left = numbers[step.Wire], c.stock.piece(step.Wire), left
		c.at = row.piece.place
		row.extra, row.open = c.furtherLines(row), len(row.piece.cores) > 0
		row.height = c.columns.height + page.Pt(len(row.extra))*extraPitch()
		rows = append(append(rows, row), c.coreRows(row)...)
	}
	c.at = c.group.Place
	if scattered { // units of a wire come later: no count of ten would be true
		return rows
	}
	return withGaps(rows)
}

// cuts reports whether a step cuts a wire or a cable.
func cuts(step plan.Step) bool { return step.Kind == plan.StepWire || step.Kind == plan.StepCable }

// coreRows measures the cores of a cable.
func (c *cutList) coreRows(of cutRow) []cutRow {
	var rows []cutRow
	for i, core := range of.piece.cores {
		c.at = core.Place
		row := cutRow{step: of.step, piece: of.piece, core: true, key: core.Code, number: of.number,
			open: i < len(of.piece.cores)-1, extra: c.coreLines(core)}
		row.piece.place = core.Place
		row.height = page.Pt(len(row.extra))*extraPitch() + coreAir()
		rows = append(rows, row)
	}
	return rows
}

// withGaps sets a gap after every fifth wire and a count after every tenth, where another wire follows.
func withGaps(rows []cutRow) []cutRow {
	following := 0
	for i := len(rows) - 1; i >= 0; i-- {
		n := rows[i].number
		if n == 0 {
			continue
		}
		rows[i].five = n%5 == 0 && following > n
		rows[i].ten = n%10 == 0 && following > n
		if rows[i].five {
			rows[i].height += fiveGap()
		}
		if rows[i].ten {
			rows[i].height += countHeight()
		}
		following = n
	}
	return rows
}

// blockOf returns how many rows belong together: up to a gap. A single last wire joins the block before it, so that it
// never stands alone on a page.
func blockOf(rows []cutRow) int {
	last := rows[len(rows)-1].number
	for i, row := range rows {
		if row.five && row.number+1 < last {
			return i + 1
		}
	}
	return len(rows)
}

// mostWaste is the share of a page, in per cent, that may stay empty to keep rows of a block together.
const mostWaste = 25

// block prints rows on one page where that leaves little of a page empty, else breaks between them: never between a load
// and its first wire, and never before the last row alone.
func (c *cutList) block(rows []cutRow, last bool) {
	height := heightOf(rows)
	if last {
		height += c.endingHeight()
	}
	if height > c.left() && height <= bodyBottom()-c.top && c.left() < page.Pt(mostWaste)*(bodyBottom()-bodyTop())/100 {
		c.turn()
	}
	for i, row := range rows {
		loaded := i > 0 && rows[i-1].number == 0 // its load has kept room for it
		if !loaded && c.left() < c.keep(rows[i:], last) {
			c.turn()
		}
		c.row(row)
	}
}

// keep returns the height that must be left for the page to take the next row: that of a load with its first wire, of a cable
// with its cores, or of the last two wires with the ending. A cable that fills more than a page is parted between cores, the last
// two with the ending.
func (c *cutList) keep(rows []cutRow, last bool) page.Pt {
	whole, ending := bodyBottom()-c.top, heightOf(rows)+c.endingHeight()
	if rows[0].core {
		if last && len(rows) <= 2 {
			return ending
		}
		return rows[0].height
	}
	if last && wireRows(rows) <= 2 && ending <= whole {
		return ending
	}
	first := 0
	for first < len(rows)-1 && rows[first].number == 0 {
		first++
	}
	end := first + 1
	for end < len(rows) && rows[end].core {
		end++
	}
	if height := heightOf(rows[:end]); height <= whole {
		return height
	}
	return heightOf(rows[:min(end, first+3)])
}

// wireRows counts wires and cables.
func wireRows(rows []cutRow) int {
	count := 0
	for _, row := range rows {
		if row.number > 0 && !row.core {
			count++
		}
	}
	return count
}

func heightOf(rows []cutRow) page.Pt {
	sum := page.Pt(0)
	for _, row := range rows {
		sum += row.height
	}
	return sum
}
