package main

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"loomleaf/internal/units"
)

// cutLine is a row of a cut list as printed: a wire, or a reel that is loaded or runs on.
type cutLine struct {
	kind    string // "wire", "LOAD", "SWITCH to"
	name    string // wire id or reel id
	group   string
	cut     units.Length
	units   []string // cut in this row
	rack    string   // "rack place 3"
	instead string   // "SUBSTITUTE for E24W, approved by ..": what a reel that is loaded or runs on takes the place of
	how     string   // "UV laser", "WHITE ink", "NO MARK", "as proved": of a reel that is loaded or runs on
	high    string   // "marks 1.3 mm high", or ""
	part    int      // tray of the group that it goes into, from 1
	page    *paper
	row     box // from the top of its words to those of the next row
	print   word
}

// cutLines reads the rows of all cut lists, in the order of the paper.
func (r *recount) cutLines(packet []paper) []cutLine {
	var lines []cutLine
	for i := range packet {
		if p := &packet[i]; p.title() == "Cut list" {
			read := r.cutPage(p)
			r.stillOn(p, lines)
			lines = append(lines, read...)
		}
	}
	inTrays(lines)
	return lines
}

// list names the cut list that a row stands on.
func (l cutLine) list() string { return l.page.name[:strings.LastIndex(l.page.name, "/")] }

// inTrays numbers the tray of every row: a list begins with the first, and a TRAY row puts the next one under.
func inTrays(lines []cutLine) {
	part := 1
	for i := range lines {
		if i > 0 && lines[i].list() != lines[i-1].list() {
			part = 1
		}
		if lines[i].kind == "TRAY" {
			part++
		}
		lines[i].part = part
	}
}

// partsOf returns, by unit and by wire or cable, the tray that holds it, where a list fills several.
func partsOf(lines []cutLine) map[string]map[string]int {
	most, parts := map[string]int{}, map[string]map[string]int{}
	for _, l := range lines {
		most[l.list()] = max(most[l.list()], l.part)
	}
	for _, l := range lines {
		if l.kind != "wire" || most[l.list()] < 2 {
			continue
		}
		for _, unit := range l.units {
			if parts[unit] == nil {
				parts[unit] = map[string]int{}
			}
			parts[unit][l.name] = l.part
		}
	}
	return parts
}

// cutPage reads the rows of one page by the heads of its columns.
func (r *recount) cutPage(p *paper) []cutLine {
	wire, found := p.head("wire")
	cut, also := p.head("cut mm")
	group := p.where(func(w word) bool { return w.face == "Go-Mono-Bold" && w.size >= 24 })
	if !found || !also || len(group) != 1 {
		r.report(p, "the heads of the columns or the connector are missing")
		return nil
	}
	all := r.listUnits(p, "wire")
	var lines []cutLine
	for _, w := range p.where(func(w word) bool { return w.top > wire.bottom }) {
		switch {
		case w.is("Go-Mono-Bold", 12) && math.Abs(w.left-wire.left) < 3:
			lines = append(lines, cutLine{kind: "wire", name: w.text, units: all, print: w})
		case w.is("Go-Bold", 12) && (w.text == "LOAD" || w.text == "SWITCH to"):
			reel, _ := p.after(w)
			lines = append(lines, cutLine{kind: w.text, name: reel.text, print: w})
		case w.is("Go-Bold", 12) && strings.HasPrefix(w.text, "TRAY "):
			lines = append(lines, cutLine{kind: "TRAY", name: w.text, print: w})
		}
	}
	for i := range lines {
		bottom := min(p.topOf("change of reel here: from row"), p.topOf("blank = not done"))
		if i+1 < len(lines) {
			bottom = lines[i+1].print.top - 4
		}
		lines[i].page, lines[i].group = p, group[0].text
		lines[i].row = box{0, lines[i].print.top - 4, math.Inf(1), bottom}
		r.finishLine(&lines[i], cut)
	}
	return lines
}

// finishLine reads what else stands in a row.
func (r *recount) finishLine(l *cutLine, cut word) {
	within := func(w word) bool { return w.middle() > l.row.top && w.middle() < l.row.bottom }
	if l.kind != "wire" {
		for _, w := range l.page.where(func(w word) bool { return within(w) && strings.HasPrefix(w.text, "rack place ") }) {
			l.rack = w.text
		}
		for _, w := range l.page.where(func(w word) bool { return within(w) && w.is("Go-Bold", 12) && w.text != l.kind }) {
			if strings.HasPrefix(w.text, "SUBSTITUTE ") {
				l.instead = w.text
				continue
			}
			l.how = strings.TrimPrefix(w.text, "TEST FIRST: ")
		}
		for _, w := range l.page.where(func(w word) bool {
			return within(w) && strings.HasPrefix(w.text, "marks ") && strings.HasSuffix(w.text, " high")
		}) {
			l.high = w.text
		}
		return
	}
	lengths := l.page.where(func(w word) bool {
		return w.is("Go-Mono-Bold", 12) && sameLine(w, l.print) && math.Abs(w.right-cut.right) < 3
	})
	if len(lengths) != 1 {
		r.report(l.page, "wire %s has %d cut lengths", l.name, len(lengths))
		return
	}
	length, err := strconv.ParseFloat(lengths[0].text, 64)
	if err != nil {
		r.report(l.page, "wire %s has the cut length %q", l.name, lengths[0].text)
	}
	l.cut = units.Length(math.Round(length * float64(units.Millimetre)))
	for _, w := range l.page.where(func(w word) bool { return within(w) && strings.HasPrefix(w.text, "this row: unit ") }) {
		only := strings.TrimSuffix(strings.TrimPrefix(w.text, "this row: unit "), " only")
		l.units = strings.Split(only, ", ")
	}
}

// listUnits returns the units that head the box columns of a page, left of the column with the ids; they must be those of one
// cut list.
func (r *recount) listUnits(p *paper, ids string) []string {
	head, _ := p.head(ids)
	var serials []string
	for _, w := range p.where(func(w word) bool { return w.is("Go-Mono-Bold", 9) && w.right < head.left+40 }) {
		if slices.Contains(r.plan.Packet.Units, w.text) {
			serials = append(serials, w.text)
		}
	}
	for _, list := range r.plan.Packet.Lists {
		if slices.Equal(list, serials) {
			return list
		}
	}
	r.report(p, "the units %v over the boxes are no cut list", serials)
	return serials
}

// stillOn checks the reel that a page says is running against the rows before it.
func (r *recount) stillOn(p *paper, before []cutLine) {
	lead := p.where(func(w word) bool { return w.is("Go-Bold", 11) && w.text == "STILL ON:" })
	if len(lead) != 1 {
		r.report(p, "STILL ON stands %d times", len(lead))
		return
	}
	says, _ := p.after(lead[0])
	running, how, instead := "nothing", "nothing", ""
	for _, l := range before {
		if l.kind != "wire" && l.kind != "TRAY" {
			running, how, instead = l.name, l.how, l.instead
		}
	}
	line := p.where(func(w word) bool {
		return sameLine(w, lead[0]) && w.is("Go-Bold", 11) && !strings.HasPrefix(w.text, "SUBSTITUTE ")
	})
	above := ""
	for _, w := range p.where(func(w word) bool { return w.is("Go-Bold", 11) && strings.HasPrefix(w.text, "SUBSTITUTE for ") }) {
		above = w.text
	}
	if above != instead {
		r.report(p, "above the rows stands %q, the rows before say %q", above, instead)
	}
	if last := slices.MaxFunc(line, func(a, b word) int { return cmp.Compare(a.left, b.left) }); last.text != how {
		r.report(p, "the line marks %q, the rows before say %q", last.text, how)
	}
	if !strings.HasPrefix(says.text, running) {
		r.report(p, "still on %q, the rows before leave %q", says.text, running)
	}
}

// wiresCut asks that every piece that the line cuts is cut in exactly one row, and that each row agrees with the plan.
func (r *recount) wiresCut(lines []cutLine) {
	cut := map[string]int{}
	for _, l := range lines {
		if l.kind != "wire" {
			continue
		}
		g, known := r.goods[l.name]
		if !known {
			r.report(l.page, "there is no wire %q", l.name)
			continue
		}
		for _, unit := range l.units {
			cut[g.id+" of unit "+unit]++
		}
		if l.cut != g.cut {
			r.report(l.page, "wire %s is cut to %s, the plan says %s", g.id, l.cut, g.cut)
		}
		if l.group != g.home {
			r.report(l.page, "wire %s stands in the list of %s, its home is %s", g.id, l.group, g.home)
		}
		r.legends(l)
		r.strips(l, g)
		r.rowTicks(l, "wire")
		r.rowSays(l, g)
		r.rowSymbol(l)
	}
	r.onceEach("wire %s of unit %s stands %d times in the cut lists", cut, func(g good) bool { return g.reason == "" })
}

// onceEach asks that every piece of a kind was counted once for every unit, and no other.
func (r *recount) onceEach(words string, counted map[string]int, here func(good) bool) {
	for _, id := range sortedKeys(r.goods) {
		want := 0
		if here(r.goods[id]) {
			want = 1
		}
		for _, unit := range r.plan.Packet.Units {
			if n := counted[id+" of unit "+unit]; n != want {
				r.found = append(r.found, fmt.Sprintf(words, id, unit, n))
			}
		}
	}
}

// rowTicks asks for a box for every unit that a row is about.
func (r *recount) rowTicks(l cutLine, ids string) {
	head, _ := l.page.head(ids)
	if n := l.page.ticksIn(box{0, l.row.top, head.left, l.row.bottom}); n != len(l.units) {
		r.report(l.page, "the row of %s has %d boxes for %d units", l.name, n, len(l.units))
	}
}

// strips checks how far both ends are stripped, or how much jacket comes off; END A stands left of END B or above it.
func (r *recount) strips(l cutLine, g good) {
	var printed []string
	heads := l.page.headsOf("strip")
	words := l.page.where(func(w word) bool {
		return w.is("Go-Mono", 10) && w.middle() > l.row.top && w.middle() < l.row.bottom && !strings.Contains(w.text, " > ") && // a core's way
			slices.ContainsFunc(heads, func(head word) bool { return math.Abs(w.right-head.right) < 2 })
	})
	if len(words) == 2 && sameLine(words[0], words[1]) { // a dash hangs lower than figures
		slices.SortStableFunc(words, func(a, b word) int { return cmp.Compare(a.left, b.left) })
	}
	for _, w := range words {
		printed = append(printed, w.text)
	}
	if !slices.Equal(printed, g.strips[:]) {
		r.report(l.page, "the ends of %s are stripped %v, the plan says %v", g.id, printed, g.strips)
	}
}

// legends checks both legends of a row, END A before END B.
func (r *recount) legends(l cutLine) {
	wire := r.goods[l.name]
	texts := l.page.where(func(w word) bool {
		return w.is("Go-Mono", 10) && w.middle() > l.row.top && w.middle() < l.row.bottom
	})
	at := 0
	for _, legend := range wire.legends {
		if legend == "" {
			continue
		}
		i := slices.IndexFunc(texts[min(at, len(texts)):], func(w word) bool { return w.text == legend })
		if i < 0 {
			r.report(l.page, "wire %s lacks the legend %q in its place", wire.id, legend)
			return
		}
		at += i + 1
	}
}

// rowSymbol checks that the symbol of a row names its wire.
func (r *recount) rowSymbol(l cutLine) {
	const near = 10
	for _, s := range r.take(l.page, "wire", func(s scan) bool { return math.Abs(s.middle()-l.print.middle()) < near }, 1) {
		if row := r.codes[s.text]; row.Name != l.name || row.Unit != "" {
			r.report(l.page, "the symbol beside wire %s names %s", l.name, row.Name)
		}
		r.keyIn(l.page, s)
	}
}

// loads counts the reels again from the printed rows: what is mounted, what each reel gives, what is left on it.
func (r *recount) loads(lines []cutLine) {
	types, left := map[string]string{}, map[string]units.Length{}
	for _, reel := range r.plan.Reels {
		types[reel.ID], left[reel.ID] = reel.Type, units.Length(reel.UsedUM+reel.LeftUM)
	}
	for _, t := range r.plan.Types {
		types[t.ID] = t.ID // where no reel is known, the type itself is loaded
	}
	used, mounted := map[string]units.Length{}, map[string]string{}
	on, count := "", 0
	for _, l := range lines {
		switch {
		case l.kind == "TRAY":
			continue
		case l.kind == "wire":
			r.running(l, on, types)
			used[on] += l.cut * units.Length(len(l.units))
			continue
		case types[l.name] == "":
			r.report(l.page, "%s %q: there is no such reel", l.kind, l.name)
		case l.kind == "LOAD":
			count++
			used[l.name] += r.shop.scrap
			mounted[l.rack] = l.name
		case mounted[l.rack] != l.name:
			r.report(l.page, "runs on with %s in %s, where %q is mounted", l.name, l.rack, mounted[l.rack])
		}
		on = l.name
	}
	if count != r.plan.Changes.Loads {
		r.found = append(r.found, fmt.Sprintf("%d reels are loaded, the plan says %d", count, r.plan.Changes.Loads))
	}
	if len(mounted) > max(r.plan.Line.Rack, 1) {
		r.found = append(r.found, fmt.Sprintf("reels are loaded in %d places of a rack of %d", len(mounted), r.plan.Line.Rack))
	}
	for _, reel := range r.plan.Reels {
		if used[reel.ID] != units.Length(reel.UsedUM) || used[reel.ID] > left[reel.ID] {
			r.found = append(r.found, fmt.Sprintf("the rows take %s from reel %s, the plan %s of %s", used[reel.ID], reel.ID,
				units.Length(reel.UsedUM), left[reel.ID]))
		}
	}
}

// running checks the reel that is on when a row is cut.
func (r *recount) running(l cutLine, on string, types map[string]string) {
	wire, says := r.goods[l.name], l.page.textIn(l.row, func(w word) bool { return w.is("Go-Bold", 9) })
	words := fmt.Sprintf("SUBSTITUTE %s in place of %s, approved by ", types[on], wire.wireType)
	approved, is := r.shop.approved[[2]string{wire.wireType, types[on]}]
	switch {
	case types[on] == wire.wireType && strings.Contains(says, "SUBSTITUTE"):
		r.report(l.page, "wire %s is cut from its own type, and its row speaks of a substitute", l.name)
	case types[on] != wire.wireType && !is:
		r.report(l.page, "wire %s of type %s is cut from reel %q of type %q", l.name, wire.wireType, on, types[on])
	case types[on] != wire.wireType && !strings.Contains(says, words+approved):
		r.report(l.page, "the row of %s does not say %q", l.name, words+approved)
	}
	for _, piece := range r.plan.Pieces {
		if piece.Wire == l.name && slices.Contains(l.units, piece.Unit) && cmp.Or(piece.Reel, wire.wireType) != on {
			r.report(l.page, "wire %s of unit %s is cut from reel %q, the plan says %q", l.name, piece.Unit, on, piece.Reel)
		}
	}
}

// groupLines returns the rows of a tray of a group and unit, in the order of their wires.
func groupLines(lines []cutLine, group, unit string, part int) []cutLine {
	var of []cutLine
	for _, l := range lines {
		if l.kind == "wire" && l.group == group && l.part == part && slices.Contains(l.units, unit) {
			of = append(of, l)
		}
	}
	slices.SortStableFunc(of, func(a, b cutLine) int { return cmp.Compare(a.name, b.name) })
	return of
}
