package main

import (
	"cmp"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"loomleaf/internal/units"
)

// sums compares every count and total that is printed with what stands on the pages: rows of lists, boxes of checklists, pages, pieces
// and metres of each type.
func (r *recount) sums(packet []paper, lines []cutLine) {
	r.listEnds(packet, lines)
	r.tens(packet, lines)
	for i := range packet {
		p := &packet[i]
		switch p.title() {
		case "Cover and route card":
			r.sumIs(p, "pages counted", len(packet), false)
		case "Contents":
			r.sumIs(p, "Pages: "+fmt.Sprint(len(packet)-len(titled(packet, "Contents")))+" and this list", 0, p.name != "contents/1")
		}
	}
	r.wireTotals(packet, lines)
}

// titled returns the pages of a kind of sheet.
func titled(packet []paper, title string) []*paper {
	var pages []*paper
	for i := range packet {
		if packet[i].title() == title {
			pages = append(pages, &packet[i])
		}
	}
	return pages
}

// sumIs asks that a text stands on a page, followed by "of" and a number; 0 asks for the text alone.
func (r *recount) sumIs(p *paper, text string, want int, free bool) {
	words := p.where(func(w word) bool { return w.text == text })
	if free || p.name == "cover/1" && len(words) == 0 { // the cover goes on
		return
	}
	if len(words) != 1 {
		r.report(p, "%q stands %d times", text, len(words))
		return
	}
	if after, _ := p.after(words[0]); want > 0 && after.text != fmt.Sprintf("of %d", want) {
		r.report(p, "%q is followed by %q, there are %d", text, after.text, want)
	}
}

// listEnds compares the counts at the head and the end of each cut list with its rows.
func (r *recount) listEnds(packet []paper, lines []cutLine) {
	rows := map[string]map[string]bool{} // by list and unit
	heads := map[string]map[string]bool{}
	for _, l := range lines {
		for _, unit := range l.units {
			if l.kind == "wire" {
				key := l.list() + " of unit " + unit
				if rows[key] == nil {
					rows[key] = map[string]bool{}
				}
				rows[key][l.name] = true
				if heads[l.list()] == nil {
					heads[l.list()] = map[string]bool{}
				}
				heads[l.list()][l.name] = true
			}
		}
	}
	ended := map[string]bool{}
	for _, p := range titled(packet, "Cut list") {
		list := p.name[:strings.LastIndex(p.name, "/")]
		for _, w := range p.where(func(w word) bool { return w.is("Go-Regular", 11) && strings.HasSuffix(w.text, " per unit") }) {
			if n := countIn(w.text); n != len(heads[list]) {
				r.report(p, "it says %q, the list has %d rows", w.text, len(heads[list]))
			}
		}
		for _, w := range p.where(func(w word) bool { return w.is("Go-Mono-Bold", 10) && strings.HasSuffix(w.text, " counted") }) {
			key := list + " of unit " + strings.TrimSuffix(w.text, " counted")
			ended[key] = true
			if of, _ := p.after(w); of.text != fmt.Sprintf("of %d", len(rows[key])) {
				r.report(p, "the list ends %q %q, it has %d rows", w.text, of.text, len(rows[key]))
			}
		}
	}
	for _, key := range sortedKeys(rows) {
		if !ended[key] {
			r.found = append(r.found, key+": the rows are not counted at the end")
		}
	}
}

// countIn adds up the numbers before "wire" and "cable" in a text: "21 wires and 2 cables per unit".
func countIn(text string) int {
	sum := 0
	for _, match := range regexp.MustCompile(`(\d+) (wire|cable|piece)s?\b`).FindAllStringSubmatch(text, -1) {
		n, _ := strconv.Atoi(match[1])
		sum += n
	}
	return sum
}

// tens asks that rows are numbered in turn, and that the count after every ten names them.
func (r *recount) tens(packet []paper, lines []cutLine) {
	number, list, name := 0, "", ""
	for _, l := range lines {
		if l.kind != "wire" {
			continue
		}
		if l.list() != list {
			number, list, name = 0, l.list(), ""
		}
		if l.name != name {
			number, name = number+1, l.name
		}
		head, _ := l.page.head("no.")
		if printed := l.page.where(func(w word) bool {
			return w.is("Go-Mono", 9) && sameLine(w, l.print) && math.Abs(w.right-head.right) < 3
		}); len(printed) != 1 || printed[0].text != fmt.Sprint(number) {
			r.report(l.page, "the row of %s does not say that it is number %d", l.name, number)
		}
	}
	for _, p := range titled(packet, "Cut list") {
		for _, w := range p.where(func(w word) bool { return strings.HasPrefix(w.text, "of 10 counted") }) {
			var from, to int
			fmt.Sscanf(w.text, "of 10 counted, each unit, rows %d to %d", &from, &to)
			above := slices.ContainsFunc(p.words, func(o word) bool { return o.is("Go-Mono", 9) && o.text == fmt.Sprint(to) && o.top < w.top })
			if to%10 != 0 || from != to-9 || !above {
				r.report(p, "a count says %q", w.text)
			}
		}
	}
}

// wireTotals compares the pieces of each wire type in the table of the contents with the rows of the cut lists, and the metres with what
// they take, set-up scrap of every load included.
func (r *recount) wireTotals(packet []paper, lines []cutLine) {
	types := map[string]string{}
	for _, reel := range r.plan.Reels {
		types[reel.ID] = reel.Type
	}
	pieces, taken := map[string]int{}, map[string]units.Length{}
	on := ""
	for _, l := range lines {
		switch l.kind {
		case "LOAD":
			if on = types[l.name]; on == "" {
				on = l.name
			}
			taken[on] += r.shop.scrap
		case "SWITCH to":
			if on = types[l.name]; on == "" {
				on = l.name
			}
		case "wire":
			pieces[on] += len(l.units)
			taken[on] += l.cut * units.Length(len(l.units))
		}
	}
	for _, p := range titled(packet, "Contents") {
		for _, total := range r.plan.Totals {
			for _, w := range p.where(func(w word) bool { return w.is("Go-Mono-Bold", 10) && w.text == total.Type }) {
				line := fromLeft(p.where(func(o word) bool {
					return o.is("Go-Medium", 10) && sameLine(o, w) && strings.Trim(o.text, "0123456789.–") == ""
				}))
				if len(line) != 4 || line[0].text != fmt.Sprint(pieces[total.Type]) || line[1].text != taken[total.Type].Metres() {
					r.report(p, "the wire of type %s is summed up as %v, the cut lists take %d pieces and %s m", total.Type, texts(line), pieces[total.Type], taken[total.Type].Metres())
				}
			}
		}
	}
}

// fromLeft orders the words of a line.
func fromLeft(words []word) []word {
	slices.SortFunc(words, func(a, b word) int { return cmp.Compare(a.left, b.left) })
	return words
}

func texts(words []word) []string {
	var said []string
	for _, w := range words {
		said = append(said, w.text)
	}
	return said
}

// pinSums compares the counts of a checklist with its rows: at its head, after every ten and at its end. Rows hold what the pages of
// one connector and unit hold so far.
func (r *recount) pinSums(p *paper, at string, rows []pinLine) {
	wired, sealed := 0, 0
	for _, row := range rows {
		if r.landedIn(row, at) > 0 {
			wired++
		}
		if row.words == "SEAL" {
			sealed++
		}
	}
	if len(rows) == 0 {
		return
	}
	for _, w := range p.where(func(w word) bool {
		return w.is("Go-Bold", 10) && strings.HasPrefix(w.text, "all ") && strings.HasSuffix(w.text, ":")
	}) {
		r.boxesCounted(p, w, len(rows), wired+sealed, wired)
		if w.text != fmt.Sprintf("all %d cavities:", len(rows)) && w.text != "all 1 cavity:" {
			r.report(p, "the end says %q, there are %d rows", w.text, len(rows))
		}
	}
}

// landedIn counts the wires of a row that are landed.
func (r *recount) landedIn(row pinLine, connector string) int {
	landed := 0
	for _, w := range row.wires {
		if end := endHere(r.wires[w.text], connector+":"+row.cavity.text); !end.Loose {
			landed++
		}
	}
	return landed
}

// boxesCounted compares the three numbers behind a count with the boxes of its rows.
func (r *recount) boxesCounted(p *paper, lead word, rows, inserted, pulled int) {
	want := []string{fmt.Sprintf("of %d", inserted), fmt.Sprintf("of %d", pulled), fmt.Sprintf("of %d", rows)}
	said := texts(fromLeft(p.where(func(w word) bool { return w.is("Go-Bold", 10) && sameLine(w, lead) && strings.HasPrefix(w.text, "of ") })))
	if !slices.Equal(said, want) {
		r.report(p, "%s counts %v boxes, the rows have %v", lead.text, said, want)
	}
}

// pinTens compares the count after every ten rows, and pinHeadCounts the sum at the head, with the rows.
func (r *recount) pinTens(p *paper, at string, rows []pinLine) {
	for _, w := range p.where(func(w word) bool { return w.is("Go-Bold", 10) && strings.HasPrefix(w.text, "rows ") }) {
		var from, to, of int
		fmt.Sscanf(w.text, "rows %d to %d of %d:", &from, &to, &of)
		if from < 1 || to > len(rows) || to != from+9 {
			r.report(p, "a count says %q of %d rows", w.text, len(rows))
			continue
		}
		wired, sealed := 0, 0
		for _, row := range rows[from-1 : to] {
			if r.landedIn(row, at) > 0 {
				wired++
			}
			if row.words == "SEAL" {
				sealed++
			}
		}
		r.boxesCounted(p, w, 10, wired+sealed, wired)
	}
}

// pinHeadCounts adds up the cavities as the head of a checklist sums them.
func (r *recount) pinHeadCounts(p *paper, at string, rows []pinLine) {
	counted := map[string]int{}
	for _, row := range rows {
		switch {
		case row.words == "SEAL":
			counted["plugs"]++
		case row.words == "OPEN":
			counted["open"]++
		case r.landedIn(row, at) > 0:
			counted["wired"]++
		default:
			counted["loose"]++
		}
	}
	said := p.textIn(box{0, 0, math.Inf(1), math.Inf(1)}, func(w word) bool { return w.is("Go-Medium", 11) })
	noun := func(n int, one, more string) string {
		if n == 1 {
			return "1 " + one
		}
		return fmt.Sprintf("%d %s", n, more)
	}
	want := fmt.Sprintf("%s = %d wired + %s + %d open", noun(len(rows), "cavity", "cavities"), counted["wired"], noun(counted["plugs"], "sealing plug", "sealing plugs"), counted["open"])
	if counted["loose"] > 0 {
		want += fmt.Sprintf(" + %d not landed", counted["loose"])
	}
	if !strings.Contains(said, want) {
		r.report(p, "the head does not say %q", want)
	}
}
