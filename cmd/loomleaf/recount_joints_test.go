package main

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"loomleaf/internal/plan"
)

// jointLine is a joint as printed, or the shield of a cable at one end.
type jointLine struct {
	id   word
	part string // heading it stands under: "Splices", "Terminals", "Studs", "Shields"
	page *paper
	area box
}

// joints asks that every splice, terminal, stud and shield of every unit stands exactly once, as the plan has it.
func (r *recount) joints(packet []paper) {
	seen, part := map[string]int{}, ""
	for i := range packet {
		p := &packet[i]
		if p.title() != "Joints" {
			continue
		}
		serials := p.where(func(w word) bool { return w.is("Go-Mono-Bold", 22) })
		if len(serials) != 1 {
			r.report(p, "the unit stands %d times", len(serials))
			continue
		}
		var lines []jointLine
		lines, part = jointLines(p, part)
		for _, l := range lines {
			if l.part == "Shields" {
				seen[r.shield(l)+" of unit "+serials[0].text]++
				continue
			}
			seen[l.id.text+" of unit "+serials[0].text]++
			r.joint(l, serials[0].text)
		}
	}
	for _, name := range r.jointNames() {
		for _, unit := range r.plan.Packet.Units {
			if n := seen[name+" of unit "+unit]; n != 1 {
				r.found = append(r.found, fmt.Sprintf("%s of unit %s stands %d times on the sheets of joints", name, unit, n))
			}
		}
	}
}

// jointNames lists what the sheets of joints must hold for every unit.
func (r *recount) jointNames() []string {
	var names []string
	for _, j := range r.plan.Joints {
		names = append(names, j.ID)
	}
	for _, c := range r.plan.Cables {
		for i, end := range []plan.CableEnd{c.A, c.B} {
			if end.Shield != "" {
				names = append(names, c.ID+" "+[2]string{"END A", "END B"}[i])
			}
		}
	}
	return names
}

// jointLines reads the joints of a page: large ids at the left edge, under headings that go on from the page before.
func jointLines(p *paper, part string) ([]jointLine, string) {
	left := p.where(func(w word) bool { return w.is("Go-Bold", 28) })[0].left
	edges := p.where(func(w word) bool {
		atEdge := math.Abs(w.left-left) < 3
		return atEdge && (w.is("Go-Bold", 12) || w.face == "Go-Mono-Bold" && w.size >= 14) || w.text == "installer, signature"
	})
	var lines []jointLine
	for i, w := range edges {
		switch {
		case w.is("Go-Bold", 12):
			part = w.text
		case w.face == "Go-Mono-Bold":
			bottom := p.topOf("blank = not done")
			if i+1 < len(edges) {
				bottom = edges[i+1].top - 6
			}
			lines = append(lines, jointLine{id: w, part: part, page: p, area: box{0, w.top - 6, math.Inf(1), bottom}})
		}
	}
	return lines, part
}

func (l jointLine) text(want func(word) bool) string { return l.page.textIn(l.area, want) }

func (l jointLine) in(face string, size float64) []word {
	return l.page.where(func(w word) bool { return w.is(face, size) && w.middle() > l.area.top && w.middle() < l.area.bottom })
}

// joint compares a splice, a terminal or a stud with the plan.
func (r *recount) joint(l jointLine, unit string) {
	at := slices.IndexFunc(r.plan.Joints, func(j plan.Joint) bool { return j.ID == l.id.text })
	if at < 0 {
		r.report(l.page, "there is no joint %q", l.id.text)
		return
	}
	j := r.plan.Joints[at]
	if want := map[string]string{"splice": "Splices", "terminal": "Terminals", "stud": "Studs"}[j.Kind]; l.part != want {
		r.report(l.page, "%s stands under %s, it is a %s", j.ID, l.part, j.Kind)
	}
	head := l.text(func(w word) bool { return w.is("Go-Bold", 12) })
	stage := map[string]string{"bench": "at the BENCH", "board": "at the BOARD"}[j.Stage]
	wanted := []string{strings.ToUpper(j.Kind), stage, j.Where}
	said := l.text(func(w word) bool { return w.face == "Go-Medium" || w.is("Go-Regular", 11) })
	for _, item := range append(j.SlideOn, leadBy("part", j.Part), leadBy("note:", j.Note)) {
		if !strings.Contains(said, item) {
			r.report(l.page, "%s does not say %q", j.ID, item)
		}
	}
	if j.Kind == "stud" {
		wanted = append(wanted[:1], leadBy("at", joinedIDs(r.nodesOf(j.Stack))))
		r.stack(l, j, said)
	} else {
		r.sides(l, j, unit)
		r.jointSymbol(l, unit)
	}
	for _, phrase := range wanted {
		if !strings.Contains(head, phrase) {
			r.report(l.page, "the head of %s says %q, which lacks %q", j.ID, head, phrase)
		}
	}
}

// nodesOf returns the nodes of the terminals in a stack.
func (r *recount) nodesOf(stack []string) []string {
	var nodes []string
	for _, item := range stack {
		for _, j := range r.plan.Joints {
			if j.ID == item && j.Node != "" && !slices.Contains(nodes, j.Node) {
				nodes = append(nodes, j.Node)
			}
		}
	}
	return nodes
}

// jointSymbol checks that the symbol of a joint names it.
func (r *recount) jointSymbol(l jointLine, unit string) {
	for _, s := range r.take(l.page, "landing", func(s scan) bool { return s.middle() > l.area.top && s.middle() < l.area.bottom }, 1) {
		if row := r.codes[s.text]; row.Name != l.id.text || row.Unit != unit {
			r.report(l.page, "the symbol beside %s of unit %s names %s of unit %s", l.id.text, unit, row.Name, row.Unit)
		}
		r.keyIn(l.page, s)
	}
}

// sides checks the wires of a joint side by side, each with its tray and its other end, and that no wire that ends there lacks.
func (r *recount) sides(l jointLine, j plan.Joint, unit string) {
	names, wires := l.in("Go-Bold", 11), l.in("Go-Mono-Bold", 13)
	printed := map[string][]string{}
	var all []string
	for i, w := range wires {
		side := ""
		for _, name := range names {
			if name.middle() < w.middle()+4 && (strings.HasPrefix(name.text, "side ") || name.text == "in the barrel") {
				side = name.text
			}
		}
		printed[side], all = append(printed[side], w.text), append(all, w.text)
		bottom := l.area.bottom
		if i+1 < len(wires) {
			bottom = wires[i+1].top
		}
		r.jointWire(l, w, box{0, w.top - 2, math.Inf(1), bottom}, j.ID, unit)
	}
	slices.Sort(all)
	ends := slices.Sorted(slices.Values(r.landings()[j.ID]))
	if !slices.Equal(all, ends) {
		r.report(l.page, "%s holds %v, the wires that end there are %v", j.ID, all, ends)
	}
	for _, side := range j.Sides {
		var want []string
		for _, line := range side.Lines {
			want = append(want, line.Wire)
		}
		if !slices.Equal(printed[side.Words], want) {
			r.report(l.page, "%s of %s holds %v, the plan says %v", side.Words, j.ID, printed[side.Words], want)
		}
		together := fmt.Sprintf("%d wires together", len(want))
		if len(want) > 1 && !strings.Contains(l.text(func(w word) bool { return w.is("Go-Bold", 10) }), together) {
			r.report(l.page, "%s of %s does not say %q", side.Words, j.ID, together)
		}
	}
}

// jointWire checks what stands beside and under a wire of a joint.
func (r *recount) jointWire(l jointLine, w word, area box, joint, unit string) {
	wire := r.wires[w.text]
	beside := l.page.textIn(area, func(o word) bool { return sameLine(w, o) && (o.is("Go-Mono", 11) || o.is("Go-Mono", 12)) })
	tray := r.trayOf(wire, unit)
	if slices.ContainsFunc(r.plan.Groups, func(g plan.Group) bool { return g.Connector == tray || strings.HasPrefix(tray, g.Connector+"/") }) {
		tray = "tray " + tray
	}
	if want := tray + " to " + otherEnd(wire, joint); beside != want {
		r.report(l.page, "wire %s at %s says %q, the plan %q", w.text, joint, beside, want)
	}
	phrases := []string{r.boardWords(joint, wire.ID)}
	if wire.Cable != "" {
		phrases = append(phrases, wire.Cable+" core "+wire.Core)
	}
	said := l.page.textIn(area, func(o word) bool { return o.is("Go-Medium", 10) || o.is("Go-Medium", 11) })
	for _, phrase := range phrases {
		if !strings.Contains(said, phrase) {
			r.report(l.page, "wire %s at %s does not say %q", w.text, joint, phrase)
		}
	}
}

// stack checks the fitting order of a stud, with the wires of its terminals, and its torque.
func (r *recount) stack(l jointLine, j plan.Joint, said string) {
	var items, wires []string
	n := 0
	if boxes := l.page.ticksIn(l.area); boxes != len(j.Stack)+2 {
		r.report(l.page, "stud %s has %d boxes for %d pieces, torque and check", j.ID, boxes, len(j.Stack))
	}
	for _, number := range l.in("Go-Mono", 11) {
		if number.text != fmt.Sprint(n+1) {
			continue // a wire
		}
		n++
		line := l.page.where(func(o word) bool { return sameLine(number, o) && o.left > number.right })
		if len(line) > 0 {
			items = append(items, line[0].text)
		}
		for _, o := range line {
			if o.is("Go-Mono", 11) {
				wires = append(wires, line[0].text+": "+o.text)
			}
		}
	}
	if !slices.Equal(items, j.Stack) {
		r.report(l.page, "stud %s is stacked %v, the plan says %v", j.ID, items, j.Stack)
	}
	var want []string
	for _, item := range j.Stack {
		if ends := r.landings()[item]; len(ends) > 0 {
			want = append(want, item+": "+strings.Join(slices.Sorted(slices.Values(ends)), " "))
		}
	}
	if !slices.Equal(wires, want) || !strings.Contains(said, "torque: "+j.Words) {
		r.report(l.page, "stud %s holds %v and says %q, the plan %v and torque %q", j.ID, wires, said, want, j.Words)
	}
}

// shield compares the row of a shield with its cable and returns what it is about: "C1 END A".
func (r *recount) shield(l jointLine) string {
	bold := l.text(func(w word) bool { return w.is("Go-Bold", 11) })
	name := l.id.text + " " + bold[:min(len(bold), len("END A"))]
	for _, c := range r.plan.Cables {
		for i, end := range []plan.CableEnd{c.A, c.B} {
			if c.ID+" "+[2]string{"END A", "END B"}[i] != name {
				continue
			}
			want := fmt.Sprintf("at %s jacket off %s mm", end.At, bare(end.JacketOffUM))
			said := l.text(func(w word) bool { return w.is("Go-Mono", 11) || w.is("Go-Regular", 11) })
			if said != want || !strings.HasSuffix(bold, "shield "+shieldWords(c, end, r.wires)) {
				r.report(l.page, "the shield of %s says %q and %q, the plan %q and %q", name, said, bold, want, end.Shield)
			}
		}
	}
	return name
}
