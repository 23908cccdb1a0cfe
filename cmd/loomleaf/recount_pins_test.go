package main

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"loomleaf/internal/plan"
)

// pinLine is a row of a pin checklist as printed.
type pinLine struct {
	cavity word
	wires  []word
	others []string
	trays  []string
	words  string  // "SEAL" or "OPEN" where no wire goes
	top    float64 // of the row
}

// landings returns the wires of every cavity, by "J1:1", as the ends of the wires say.
func (r *recount) landings() map[string][]string {
	landings := map[string][]string{}
	for _, w := range r.plan.Wires {
		landings[w.From] = append(landings[w.From], w.ID)
		landings[w.To] = append(landings[w.To], w.ID)
	}
	return landings
}

// pins asks that every cavity of every unit stands exactly once, with the wires that end there.
func (r *recount) pins(packet []paper) {
	landings, seen := r.landings(), map[string]int{}
	rows, heads := map[string][]pinLine{}, map[string]*paper{}
	var lists []string
	for i := range packet {
		p := &packet[i]
		if p.title() != "Pin checklist" {
			continue
		}
		connector, unit := r.pinHead(p)
		lines := r.pinPage(p)
		if len(lines) > 0 {
			setTops(p, lines)
		}
		for i, l := range lines {
			at := connector + ":" + l.cavity.text
			seen[at+" of unit "+unit]++
			r.pinRow(p, l, at, unit, landings[at])
			r.pinSymbol(p, lines, i, at, unit)
			r.pinWords(p, lines, i, at)
			r.pinTicks(p, lines, i, at)
		}
		list := connector + " " + unit
		if heads[list] == nil {
			heads[list], lists = p, append(lists, list)
		}
		rows[list] = append(rows[list], lines...)
		r.pinTens(p, connector, rows[list])
		r.pinSums(p, connector, rows[list])
	}
	for _, list := range lists {
		connector, _, _ := strings.Cut(list, " ")
		r.pinHeadCounts(heads[list], connector, rows[list])
	}
	for _, c := range r.plan.Connectors {
		for _, unit := range r.plan.Packet.Units {
			for _, cavity := range c.Cavities {
				if n := seen[c.ID+":"+cavity.Name+" of unit "+unit]; n != 1 {
					r.found = append(r.found, fmt.Sprintf("cavity %s:%s of unit %s stands %d times in the checklists", c.ID, cavity.Name, unit, n))
				}
			}
		}
	}
}

// pinHead reads connector and unit, and checks the symbol of the pair on the first page of a checklist.
func (r *recount) pinHead(p *paper) (connector, unit string) {
	names := p.where(func(w word) bool { return w.face == "Go-Bold" && w.size >= 28 })
	serials := p.where(func(w word) bool { return w.is("Go-Mono-Bold", 22) })
	if len(names) != 1 || len(serials) != 1 {
		r.report(p, "connector and unit stand %d and %d times", len(names), len(serials))
		return "", ""
	}
	connector, unit = names[0].text, serials[0].text
	if names[0].size < 36 {
		return connector, unit
	}
	for _, s := range r.take(p, "connector", func(scan) bool { return true }, 1) {
		if row := r.codes[s.text]; row.Name != connector || row.Unit != unit {
			r.report(p, "the symbol beside %s of unit %s names %s of unit %s", connector, unit, row.Name, row.Unit)
		}
		r.keyIn(p, s)
	}
	return connector, unit
}

// pinPage reads the rows of a page by the heads of its columns.
func (r *recount) pinPage(p *paper) []pinLine {
	var lines []pinLine
	cavity, found := p.head("cavity")
	if !found {
		return nil // closing steps alone
	}
	wire, _ := p.head("wire")
	tray, beside := p.head("tray")
	if !beside {
		tray, _ = p.head("from tray")
	}
	other, also := p.head("other end")
	if !also {
		r.report(p, "the head of the other end is missing")
	}
	in := func(w word, face string, size float64, column word) bool {
		return w.is(face, size) && math.Abs(w.left-column.left) < 3
	}
	below := p.where(func(w word) bool { return w.top > cavity.bottom })
	for _, w := range below {
		if in(w, "Go-Mono-Bold", 14, cavity) {
			lines = append(lines, pinLine{cavity: w})
		}
	}
	for _, w := range below {
		at := -1
		for i := range lines {
			if lines[i].cavity.middle() < w.middle()+4 {
				at = i
			}
		}
		if at < 0 {
			continue
		}
		switch l := &lines[at]; {
		case in(w, "Go-Mono-Bold", 13, wire):
			l.wires = append(l.wires, w)
		case in(w, "Go-Bold", 13, wire):
			l.words = w.text
		case in(w, "Go-Mono", 11, tray):
			l.trays = append(l.trays, strings.TrimPrefix(w.text, "tray "))
		case in(w, "Go-Mono", 12, other):
			l.others = append(l.others, w.text)
		}
	}
	return lines
}

// pinRow compares a row with the wires that end in its cavity.
func (r *recount) pinRow(p *paper, l pinLine, at, unit string, ends []string) {
	var printed, trays, others []string
	for _, w := range l.wires {
		printed = append(printed, w.text)
		wire := r.wires[w.text]
		trays = append(trays, r.trayOf(wire, unit))
		others = append(others, otherEnd(wire, at))
	}
	want := slices.Clone(ends)
	slices.Sort(want)
	if sorted := slices.Sorted(slices.Values(printed)); !slices.Equal(sorted, want) {
		r.report(p, "cavity %s holds %v, the wires that end there are %v", at, printed, want)
	} else if !slices.Equal(l.trays, trays) || !slices.Equal(l.others, others) {
		r.report(p, "cavity %s: trays %v and other ends %v, the plan says %v and %v", at, l.trays, l.others, trays, others)
	}
	if fill := r.fillWord(at); l.words != fill {
		r.report(p, "cavity %s says %q, the plan %q", at, l.words, fill)
	}
}

// setTops finds where every row starts: a fixed height above the middle of its symbol, else at its cavity.
func setTops(p *paper, lines []pinLine) {
	const above = 14.2 // half of 10 mm
	for i := range lines {
		lines[i].top = lines[i].cavity.top - 2
	}
	for _, s := range p.scans {
		if i := nearest(lines, s.middle()); !s.bars && math.Abs(lines[i].cavity.middle()-s.middle()) < 3*above {
			lines[i].top = s.middle() - above
		}
	}
}

// pinTicks asks for one box of each kind in a row, whatever the number of wires: what stays empty is not inserted, and only what
// holds a wire is pulled.
func (r *recount) pinTicks(p *paper, lines []pinLine, i int, at string) {
	landed := 0
	for _, w := range lines[i].wires {
		if end := endHere(r.wires[w.text], at); !end.Loose {
			landed++
		}
	}
	want := map[string]int{"inserted": min(landed, 1), "pulled": min(landed, 1), "checked": 1}
	if lines[i].words == "SEAL" {
		want["inserted"] = 1
	}
	for _, name := range sortedKeys(want) {
		head, _ := p.head(name)
		const half = 12
		middle, bottom := (head.left+head.right)/2, math.Inf(1)
		if i+1 < len(lines) {
			bottom = lines[i+1].top
		}
		if n := p.ticksIn(box{middle - half, lines[i].top, middle + half, bottom}); n != want[name] {
			r.report(p, "cavity %s has %d boxes %q, of %d wires in it", at, n, name, landed)
		}
	}
}

// nearest returns the row whose cavity stands next to a height.
func nearest(lines []pinLine, y float64) int {
	at := 0
	for i := range lines {
		if math.Abs(lines[i].cavity.middle()-y) < math.Abs(lines[at].cavity.middle()-y) {
			at = i
		}
	}
	return at
}

// pinSymbol checks that a row has one symbol, and that it names cavity and unit.
func (r *recount) pinSymbol(p *paper, lines []pinLine, i int, at, unit string) {
	for _, s := range r.take(p, "landing", func(s scan) bool { return nearest(lines, s.middle()) == i }, 1) {
		if row := r.codes[s.text]; row.Name != at || row.Unit != unit {
			r.report(p, "the symbol beside %s of unit %s names %s of unit %s", at, unit, row.Name, row.Unit)
		}
		r.keyIn(p, s)
	}
}

// pinWords checks what a row says of its wires besides: cores, what the board does, what stays loose, what shares a crimp.
func (r *recount) pinWords(p *paper, lines []pinLine, i int, at string) {
	var said []string
	for _, w := range p.where(func(w word) bool {
		return (w.face == "Go-Medium" || w.face == "Go-Bold") && w.size >= 10 && pinRowOf(lines, w) == i
	}) {
		said = append(said, w.text)
	}
	words := strings.Join(said, " ")
	landed := 0
	for _, w := range lines[i].wires {
		wire := r.wires[w.text]
		end := endHere(wire, at)
		var phrases []string
		if !end.Loose {
			landed++
			phrases = append(phrases, r.boardWords(at, wire.ID))
		} else {
			phrases = append(phrases, "NOT LANDED: leave loose")
		}
		if wire.Cable != "" {
			phrases = append(phrases, wire.Cable+" core "+wire.Core)
		}
		for _, phrase := range append(phrases, leadBy("finish:", end.Finish), end.Note, wire.Note) {
			if !strings.Contains(words, phrase) {
				r.report(p, "cavity %s does not say %q of wire %s", at, phrase, wire.ID)
			}
		}
	}
	shared := fmt.Sprintf("one crimp: %d wires in one contact", landed)
	if strings.Contains(words, "one crimp") != (landed > 1) || landed > 1 && !strings.Contains(words, shared) {
		r.report(p, "cavity %s says %q, and holds %d wires in one contact", at, words, landed)
	}
}

// pinRowOf returns the row that words belong to; -1 above the rows.
func pinRowOf(lines []pinLine, w word) int {
	at := -1
	for i := range lines {
		if lines[i].top < w.middle() {
			at = i
		}
	}
	return at
}

// boardWords is what a checklist says of an end that the board makes.
func (r *recount) boardWords(at, wire string) string {
	w := r.wires[wire]
	end, strip := w.A, "strip_a"
	if w.From != at {
		end, strip = w.B, "strip_b"
	}
	if end.Stage != "board" {
		return ""
	}
	words := "board end: "
	if end.TrimUM > 0 {
		words += "trim " + bare(end.TrimUM) + " mm, "
	}
	for _, term := range w.Terms {
		if term.Name == strip && term.UM > 0 {
			words += "strip " + bare(term.UM) + " mm"
		}
	}
	return words
}

// trayOf is where a wire of a unit comes from: its tray, with the number where a group fills several, or why it lies in none.
func (r *recount) trayOf(w plan.Wire, unit string) string {
	reason, home := reasonOf(w.Supply, w.Status), w.Home
	if cable, is := r.goods[w.Cable]; is {
		reason, home = cable.reason, cable.home
	}
	switch reason {
	case "":
		if part, is := r.parts[unit][cmp.Or(w.Cable, w.ID)]; is {
			return fmt.Sprintf("%s/%d", home, part)
		}
		return home
	case "MEASURE":
		return "measured"
	}
	return strings.ToLower(reason)
}

// otherEnd returns the end of a wire that is not here; of a strap within one cavity, that cavity.
func otherEnd(w plan.Wire, here string) string {
	if w.From == here {
		return w.To
	}
	return w.From
}

// endHere returns the end of a wire that is here.
func endHere(w plan.Wire, here string) plan.End {
	if w.From == here {
		return w.A
	}
	return w.B
}

// fillWord is what a row says in place of wires.
func (r *recount) fillWord(at string) string {
	for _, c := range r.plan.Connectors {
		for _, cavity := range c.Cavities {
			if c.ID+":"+cavity.Name != at {
				continue
			}
			switch cavity.Fill {
			case plan.FillOpen:
				return "OPEN"
			case plan.FillSeal, plan.FillContactAndSeal:
				return "SEAL"
			}
		}
	}
	return ""
}
