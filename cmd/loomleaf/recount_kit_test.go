package main

import (
	"fmt"
	"math"
	"strings"

	"loomleaf/internal/plan"
)

// kit counts the parts of the job from its cavities, joints, sleeves and segments, and compares every row of the kit list: what it
// needs, its spare, and that the row adds up.
func (r *recount) kit(packet []paper) {
	need := r.kitNeed()
	printed := map[string]bool{}
	for i := range packet {
		p := &packet[i]
		if p.title() != "Kit list" {
			continue
		}
		lefts, is := p.columns("part", "for", "hand out")
		if !is {
			r.report(p, "the kit list has no heads")
			continue
		}
		for _, row := range p.kitRows(lefts) {
			if len(row) != 3 {
				r.report(p, "a row of the kit list says %q", row)
				continue
			}
			r.kitRow(p, row[0], row[1], row[2], need)
			printed[row[0]], printed[strings.Fields(row[0])[0]] = true, true
		}
	}
	for name := range need {
		if !printed[name] {
			r.found = append(r.found, fmt.Sprintf("the kit list has no row for %s", name))
		}
	}
}

// kitRows returns part, sum and what is handed out of every row; a part may take two lines.
func (p *paper) kitRows(lefts []float64) [][]string {
	var rows [][]string
	for _, w := range p.where(func(w word) bool { return w.face == "Go-Mono-Bold" && w.size == 11 && math.Abs(w.left-lefts[0]) < 1 }) {
		level := func(face string, from, to float64) (texts []string) {
			for _, o := range p.where(func(o word) bool {
				return o.face == face && o.left > from-1 && o.left < to && math.Abs(o.middle()-w.middle()) < 5
			}) {
				texts = append(texts, o.text)
			}
			return texts
		}
		out := level("Go-Bold", lefts[2], lefts[2]+2)
		if last := len(rows) - 1; len(out) == 0 && last >= 0 {
			rows[last][0] += " " + w.text
			continue
		}
		rows = append(rows, append(append([]string{w.text}, level("Go-Medium", lefts[1], lefts[2])...), out...))
	}
	return rows
}

// kitRow checks the figures of one row.
func (r *recount) kitRow(p *paper, name, sum, out string, need map[string]int64) {
	var figures []int64
	for _, part := range strings.Split(strings.TrimSuffix(sum, " mm"), " + ") {
		var n int64
		if _, err := fmt.Sscan(part, &n); err != nil {
			r.report(p, "the row of %s says %q", name, sum)
			return
		}
		figures = append(figures, n)
	}
	var total, printed int64
	for _, n := range figures {
		total += n
	}
	if _, err := fmt.Sscan(out, &printed); err != nil || printed != total {
		r.report(p, "the row of %s hands out %s, and %s is %d", name, out, sum, total)
	}
	want, known := need[name]
	if !known {
		want, known = need[strings.Fields(name)[0]]
	}
	if !known || want != figures[0] {
		r.report(p, "the row of %s needs %d, and the job takes %d", name, figures[0], want)
	}
	if spare := figures[len(figures)-1]; spare != 0 && spare != (want*r.shop.attrition+999_999)/1_000_000 {
		r.report(p, "the row of %s has a spare of %d", name, spare)
	}
}

// kitNeed counts what the job takes of each part, for all units; covers in millimetres.
func (r *recount) kitNeed() map[string]int64 {
	need, units := map[string]int64{}, int64(len(r.plan.Packet.Units))
	seen := map[string]bool{}
	for _, g := range r.plan.Strips {
		for _, row := range g.Rows {
			wire, known := r.wires[row.Wire]
			if !known || wire.Supply != "reel" || row.Contact == "" || !strings.Contains(row.At, ":") && !strings.HasPrefix(row.At, "leaves@") {
				continue
			}
			end := wire.A
			if row.End == "b" {
				end = wire.B
			}
			at := row.At
			if end.Loose || strings.HasPrefix(at, "leaves@") {
				at += " " + row.Wire
			}
			if !seen[at] {
				seen[at] = true
				need[row.Part] += units
			}
		}
	}
	for _, c := range r.plan.Connectors {
		need[c.Part] += units
		for _, name := range c.SlideOnFirst {
			need[name] += units
		}
	}
	for _, s := range r.plan.Spares {
		if s.Plugs > 0 {
			need[s.Seal] += units * int64(s.Plugs)
		}
		for _, id := range s.Contacts {
			need[r.shop.contacts[id]] += units // of which the bench may crimp none
		}
	}
	r.kitJoints(need, units)
	for _, s := range r.plan.Sleeves {
		if s.Kind == "sleeve" && s.Part != "" {
			need[s.Part] += int64(s.Count)
		}
	}
	for _, s := range r.plan.Segments {
		for _, c := range s.Covers {
			need[c.Part] += units * (c.ToUM - c.FromUM) / 1000
		}
	}
	return need
}

func (r *recount) kitJoints(need map[string]int64, units int64) {
	for _, j := range r.plan.Joints {
		if j.Kind != "stud" {
			need[j.Part] += units
		}
		for _, name := range append(append([]string{}, j.SlideOn...), stackParts(j, r.kinds)...) {
			need[name] += units
		}
	}
}

// stackParts returns the loose parts of a stud.
func stackParts(j plan.Joint, kinds map[string]string) []string {
	var parts []string
	for _, name := range j.Stack {
		if kinds[name] == "" {
			parts = append(parts, name)
		}
	}
	return parts
}
