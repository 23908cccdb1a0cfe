package main

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"loomleaf/internal/plan"
	"loomleaf/internal/units"
)

// sumPlaces are the columns of the length sums by the last word of their heads above the unit: eight terms, the cut length, the
// finished length and its tolerance.
var sumPlaces = []string{"given", "tails", "A", "B", "loop", "twist", "line", "up", "cut", "finished", "ance"}

// cutPlace and finishedPlace are places among them.
const (
	cutPlace      = 8
	finishedPlace = 9
)

// sumRow is a row of the length sums as it stands on paper.
type sumRow struct {
	figures [11]string
	words   string // instead of a sum
}

// lengths adds up the printed terms of every wire, cable and pigtail, to the micrometre, and compares what they make with the printed
// cut length and that with the plan.
func (r *recount) lengths(packet []paper) {
	rows := map[string][]sumRow{}
	for i := range packet {
		if p := &packet[i]; p.title() == "Length sums" {
			r.sumPage(p, rows)
		}
	}
	for _, w := range r.plan.Wires {
		r.sumOf(rows[w.ID], w.ID, w.CutUM, w.FinishedUM, w.Tolerance)
		delete(rows, w.ID)
	}
	for _, c := range r.plan.Cables {
		r.sumOf(rows[c.ID], c.ID, c.CutUM, c.FinishedUM, c.Tolerance)
		delete(rows, c.ID)
	}
	for _, id := range sortedKeys(rows) {
		r.found = append(r.found, fmt.Sprintf("%s stands in the length sums, the plan does not know it", id))
	}
}

// sumPage reads the rows of a page: an id at the left edge, or a little behind it, and the figures beside it.
func (r *recount) sumPage(p *paper, rows map[string][]sumRow) {
	columns, is := p.sumColumns()
	head, also := p.head("wire")
	deep, below := p.head("wire, from, to") // long ids have a line of their own
	if below {
		head, also = deep, true
	}
	by, _ := p.head("by")
	if !is || !also {
		r.report(p, "heads of the length sums are missing")
		return
	}
	ids := p.where(func(w word) bool {
		return w.face == "Go-Mono-Bold" && w.top > head.bottom && w.left > head.left-1 && w.left < head.left+8
	})
	for _, id := range ids {
		var row sumRow
		line, from := id, id.right
		if below {
			from = 0
			line = p.where(func(w word) bool {
				return w.is("Go-Medium", 9) && w.top > id.bottom-3 && math.Abs(w.left-by.left) < 3
			})[0]
		}
		for _, w := range p.where(func(w word) bool { return sameLine(w, line) && w.left > from }) {
			at := slices.IndexFunc(columns, func(c word) bool { return w.right > c.left && w.right < c.right+1 })
			switch {
			case strings.Contains(w.face, "Mono") && at >= 0:
				row.figures[at] = w.text
			case w.face == "Go-Medium" && w.left > by.left+3:
				row.words = w.text
			}
		}
		rows[id.text] = append(rows[id.text], row)
	}
}

// sumColumns returns where the columns of figures lie, each from the right edge of the one before to its own.
func (p *paper) sumColumns() ([]word, bool) {
	columns := make([]word, len(sumPlaces))
	for i, name := range sumPlaces {
		head, is := p.head(name)
		if !is {
			return nil, false
		}
		columns[i] = head
	}
	for i := range columns {
		if i > 0 {
			columns[i].left = columns[i-1].right
		}
	}
	return columns, true
}

// sumOf compares the rows of one id: what is cut on the line adds up, all else says why it has no sum.
func (r *recount) sumOf(rows []sumRow, id string, cutUM, finishedUM int64, tolerance *plan.Tolerance) {
	report := func(format string, values ...any) {
		r.found = append(r.found, fmt.Sprintf("the length of %s ", id)+fmt.Sprintf(format, values...))
	}
	if len(rows) != 1 {
		report("stands %d times in the length sums", len(rows))
		return
	}
	row := rows[0]
	if cutUM > 0 {
		sum := int64(0)
		for i := range cutPlace {
			um, read := micrometres(row.figures[i])
			if !read {
				report("lacks its term %q", sumPlaces[i])
			}
			sum += um
		}
		cut, _ := micrometres(row.figures[cutPlace])
		if sum != cut {
			report("adds up to %s, %q is printed", units.Length(sum), row.figures[cutPlace])
		}
		if cut != cutUM {
			report("is cut to %q, the plan says %s", row.figures[cutPlace], units.Length(cutUM))
		}
	} else if row.words == "" || row.figures[cutPlace] != "" {
		report("says %q and is cut to %q, the line does not cut it", row.words, row.figures[cutPlace])
	}
	finished, read := micrometres(row.figures[finishedPlace])
	if read != (finishedUM > 0) || math.Abs(float64(finished-finishedUM)) > 50 {
		report("is finished %q, the plan says %s", row.figures[finishedPlace], units.Length(finishedUM))
	}
	words := ""
	if tolerance != nil {
		words = fmt.Sprintf("-%s +%s", mmOf(tolerance.ShorterUM), mmOf(tolerance.LongerUM))
	}
	if row.figures[finishedPlace+1] != words {
		report("has the tolerance %q, the plan says %q", row.figures[finishedPlace+1], words)
	}
}

func mmOf(um int64) string { return strings.TrimSuffix(units.Length(um).String(), " mm") }

// micrometres reads a printed number of millimetres; false where it is none.
func micrometres(text string) (int64, bool) {
	whole, fraction, _ := strings.Cut(text, ".")
	if len(fraction) > 3 {
		return 0, false
	}
	var um int64
	digits := strings.TrimPrefix(whole, "-") + fraction + "000"[len(fraction):]
	if read, err := fmt.Sscanf(digits, "%d", &um); read != 1 || err != nil || strings.Trim(digits, "0123456789") != "" || whole == "" || whole == "-" {
		return 0, false
	}
	if strings.HasPrefix(whole, "-") {
		um = -um
	}
	return um, true
}
