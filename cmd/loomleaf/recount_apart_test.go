package main

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// apart asks that every piece that the line does not cut stands once on every list of those, with the reason.
func (r *recount) apart(packet []paper) {
	seen := map[string]int{}
	for i := range packet {
		p := &packet[i]
		if p.title() != "Not cut on the line" {
			continue
		}
		lines := r.apartLines(p)
		for _, l := range lines {
			for _, unit := range l.units {
				seen[l.name+" of unit "+unit]++
			}
			r.apartLine(l)
		}
	}
	r.onceEach("%s of unit %s stands %d times in the lists of what is not cut", seen, func(g good) bool { return g.reason != "" })
}

// apartLines reads the rows of a page by the head of its ids.
func (r *recount) apartLines(p *paper) []cutLine {
	id, found := p.head("id")
	if !found {
		r.report(p, "the head of the ids is missing")
		return nil
	}
	var lines []cutLine
	units := r.listUnits(p, "id")
	ends := p.where(func(w word) bool { return w.is("Go-Bold", 11) && w.text == "end of list:" })
	bottom := p.topOf("blank = not done")
	if len(ends) == 1 {
		bottom = ends[0].top
		r.apartCount(p, ends[0], units)
	}
	for _, w := range p.where(func(w word) bool {
		return w.is("Go-Mono-Bold", 12) && w.top > id.bottom && math.Abs(w.left-id.left) < 3
	}) {
		lines = append(lines, cutLine{kind: "apart", name: w.text, units: units, page: p, print: w})
	}
	for i := range lines {
		lines[i].row = box{0, lines[i].print.top - 4, math.Inf(1), bottom}
		if i+1 < len(lines) {
			lines[i].row.bottom = lines[i+1].print.top - 4
		}
	}
	return lines
}

// apartCount checks how many pieces are to be at hand.
func (r *recount) apartCount(p *paper, end word, units []string) {
	want := 0
	for _, g := range r.goods {
		if g.reason != "" {
			want++
		}
	}
	said := p.textIn(box{0, end.top - 2, math.Inf(1), math.Inf(1)}, func(w word) bool { return w.is("Go-Mono-Bold", 10) })
	for _, unit := range units {
		if !strings.Contains(said, fmt.Sprintf("%s at hand of %d", unit, want)) {
			r.report(p, "the end of the list says %q, to be at hand are %d for unit %s", said, want, unit)
		}
	}
}

// apartLine compares a row with the plan.
func (r *recount) apartLine(l cutLine) {
	g, known := r.goods[l.name]
	if !known {
		r.report(l.page, "there is no wire %q", l.name)
		return
	}
	ways := l.page.where(func(w word) bool { return w.is("Go-Mono", 10) && sameLine(w, l.print) && w.left > l.print.right })
	if len(ways) != 1 || ways[0].text != g.from+" > "+g.to {
		r.report(l.page, "%s goes %v, the plan says %s > %s", g.id, ways, g.from, g.to)
	}
	bold := l.page.textIn(l.row, func(w word) bool { return w.is("Go-Bold", 10) })
	if !strings.HasPrefix(bold, g.reason+": ") || strings.Contains(bold, "length") != (r.lengthGiven(g) != "") ||
		!strings.Contains(bold, r.lengthGiven(g)) {
		r.report(l.page, "the row of %s says %q; it is %s, %s", g.id, bold, g.reason, r.lengthGiven(g))
	}
	said := l.page.textIn(l.row, func(w word) bool { return small(w) || w.is("Go-Bold", 10) })
	for _, phrase := range g.phrases {
		if phrase != "board: do not strip" && !strings.Contains(said, phrase) { // said to the line, which strips
			r.report(l.page, "the row of %s does not say %q", g.id, phrase)
		}
	}
	if g.cable && (!strings.Contains(said, "END A: jacket off "+g.strips[0]+" mm") || !strings.Contains(said, "END B: jacket off "+g.strips[1]+" mm")) {
		r.report(l.page, "the row of %s does not say how much jacket comes off", g.id)
	}
	if g.reason == "MEASURE" {
		r.writeIns(l)
	}
	r.coresSay(l, g)
	r.rowTicks(l, "id")
	r.rowSymbol(l)
}

// lengthGiven is what a row says of the length that a piece comes with.
func (r *recount) lengthGiven(g good) string {
	for _, a := range r.plan.Apart {
		if a.ID == g.id && a.UM > 0 {
			return "length " + bare(a.UM) + " mm"
		}
	}
	return ""
}

// writeIns asks for a line to write on for every unit of a length that is measured.
func (r *recount) writeIns(l cutLine) {
	var units []string
	for _, w := range l.page.where(func(w word) bool {
		return w.is("Go-Mono-Bold", 10) && w.text == l.name && w.middle() > l.row.top && w.middle() < l.row.bottom
	}) {
		line := l.page.where(func(o word) bool { return sameLine(w, o) && o.is("Go-Mono-Bold", 10) && o.left > w.right })
		for _, unit := range line {
			units = append(units, unit.text)
		}
	}
	if !slices.Equal(units, l.units) {
		r.report(l.page, "%s is measured for units %v, the list is of %v", l.name, units, l.units)
	}
}
