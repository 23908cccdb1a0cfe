package main

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"loomleaf/internal/plan"
)

// routing asks that every wire of every unit is laid exactly once, from where to where the plan says, along the nodes of its way.
func (r *recount) routing(packet []paper) {
	seen := map[string]int{}
	for i := range packet {
		p := &packet[i]
		if p.title() != "Routing table" {
			continue
		}
		units := p.where(func(w word) bool { return w.is("Go-Mono-Bold", 22) })
		if len(units) != 1 {
			r.report(p, "the unit stands %d times", len(units))
			continue
		}
		for _, id := range r.routingPage(p) {
			seen[id+" of unit "+units[0].text]++
		}
	}
	if len(r.plan.Board.Nodes) == 0 {
		return
	}
	pigtail := map[string]bool{}
	for _, c := range r.plan.Cables {
		pigtail[c.A.Pigtail], pigtail[c.B.Pigtail] = true, true
	}
	for _, w := range r.plan.Wires {
		for _, unit := range r.plan.Packet.Units {
			if n := seen[w.ID+" of unit "+unit]; n != 1 && !pigtail[w.ID] {
				r.found = append(r.found, fmt.Sprintf("wire %s of unit %s stands %d times in the routing table", w.ID, unit, n))
			}
		}
	}
}

// routingPage compares the rows of a page with the plan and returns their wires: twists and cables have their parts below them.
func (r *recount) routingPage(p *paper) []string {
	column, found := p.head("wire")
	if !found {
		r.report(p, "the head of the wires is missing")
		return nil
	}
	rows := p.where(func(w word) bool {
		return w.top > column.bottom && w.face == "Go-Mono-Bold" && math.Abs(w.left-column.left) < 12 && w.size <= 13
	})
	var ids []string
	for _, w := range rows {
		if wire, known := r.wires[w.text]; known {
			ids = append(ids, w.text)
			r.laidRow(p, w, r.wayAbove(p, w, rows), wire)
		}
	}
	return ids
}

// wayAbove reads the nodes of the heading above a row: between its word "along" and the first row after it.
func (r *recount) wayAbove(p *paper, row word, rows []word) []string {
	var along, first word
	for _, w := range p.where(func(w word) bool { return w.is("Go-Medium", 11) && w.text == "along" && w.middle() < row.middle() }) {
		along = w
	}
	for _, w := range rows {
		if _, known := r.wires[w.text]; known && w.middle() > along.middle() {
			first = w
			break
		}
	}
	nodes := p.where(func(w word) bool {
		behind := w.middle() > along.middle()+4 || sameLine(w, along) && w.left > along.left
		return w.is("Go-Mono-Bold", 13) && behind && w.middle() < first.middle()-4
	})
	slices.SortStableFunc(nodes, func(a, b word) int {
		if sameLine(a, b) {
			return cmp.Compare(a.left, b.left)
		}
		return cmp.Compare(a.middle(), b.middle())
	})
	var ids []string
	for _, w := range nodes {
		if slices.ContainsFunc(r.plan.Board.Nodes, func(n plan.BoardNode) bool { return n.ID == w.text }) {
			ids = append(ids, w.text)
		}
	}
	return ids
}

// laidFinished compares the finished length of a wire with the plan.
func (r *recount) laidFinished(p *paper, w word, row plan.LengthRow) {
	want := "-"
	if row.FinishedUM > 0 {
		want = fmt.Sprintf("%s -%s +%s", mmOf(row.FinishedUM), mmOf(row.Tolerance.ShorterUM), mmOf(row.Tolerance.LongerUM))
	}
	printed := p.where(func(o word) bool { return o.is("Go-Mono", 10) && o.left > w.right && sameLine(o, w) })
	switch {
	case len(printed) == 0:
		r.report(p, "wire %s is laid without its finished length", w.text)
	case printed[0].text != want:
		r.report(p, "wire %s is laid as finished %q, the plan says %q", w.text, printed[0].text, want)
	}
}

// laidRow compares the ends of a wire, and the way above it, with the plan.
func (r *recount) laidRow(p *paper, w word, way []string, wire plan.Wire) {
	ends := map[string]bool{}
	for _, o := range p.where(func(o word) bool {
		return o.is("Go-Mono", 11) && o.left > w.left-3 && o.top > w.top-6 && o.top < w.top+30
	}) {
		ends[o.text] = true
	}
	if !ends[wire.From] || !ends[wire.To] {
		r.report(p, "wire %s is laid between %v, the plan says %s and %s", w.text, sortedKeys(ends), wire.From, wire.To)
	}
	finished := plan.LengthRow{FinishedUM: wire.FinishedUM}
	if i := slices.IndexFunc(r.plan.Lengths, func(row plan.LengthRow) bool { return row.ID == w.text }); i >= 0 {
		finished = r.plan.Lengths[i]
	}
	r.laidFinished(p, w, finished)
	if wire.Cable != "" || wire.Twist != "" {
		return // it lies along the way of its cable or twist
	}
	back := slices.Clone(wire.Nodes)
	slices.Reverse(back)
	if !slices.Equal(way, wire.Nodes) && !slices.Equal(way, back) {
		r.report(p, "wire %s lies along %v, the plan says %v", w.text, way, wire.Nodes)
	}
}
