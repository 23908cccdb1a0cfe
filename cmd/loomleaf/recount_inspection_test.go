package main

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"loomleaf/internal/plan"
)

// inspection recounts what bench and tester read: ends at the bench, crimps with their forces, nets with their ends.
func (r *recount) inspection(packet []paper) {
	r.benchEnds(packet)
	r.crimps(packet)
	r.nets(packet)
	r.tags(packet)
}

// tags finds the symbol of every reject tag on its own tag.
func (r *recount) tags(packet []paper) {
	for i := range packet {
		p := &packet[i]
		if p.title() != "Reject tags" {
			continue
		}
		for _, name := range p.where(func(w word) bool { return w.is("Go-Bold", 20) }) {
			for _, s := range r.take(p, "reject tag", func(s scan) bool { return math.Abs(s.top-name.top) < 20 }, 1) {
				if row := r.codes[s.text]; row.Name != strings.ToLower(name.text) {
					r.report(p, "the symbol on %s names %s", name.text, row.Name)
				}
				r.keyIn(p, s)
			}
		}
	}
}

// columns returns the left edges of columns by their heads, of which a page may repeat the line; narrow columns wrap them.
func (p *paper) columns(heads ...string) ([]float64, bool) {
	var lefts []float64
	for _, head := range heads {
		words := p.where(func(w word) bool { return w.is("Go-Bold", 9) && (w.text == head || p.wrapped(w) == head) })
		if len(words) == 0 {
			return nil, false
		}
		lefts = append(lefts, words[0].left)
	}
	return lefts, true
}

// wrapped returns the words of a head of two lines by the first.
func (p *paper) wrapped(first word) string {
	for _, w := range p.where(func(w word) bool {
		return w.is("Go-Bold", 9) && math.Abs(w.left-first.left) < 1 && w.top > first.top+4 && w.top < first.bottom+6
	}) {
		return first.text + " " + w.text
	}
	return ""
}

// cells returns the words of a column in one of some faces, between two heights, joined as they were before they were wrapped.
func (p *paper) cells(left, top, bottom float64, faces ...string) string {
	var texts []string
	for _, w := range p.where(func(w word) bool {
		return math.Abs(w.left-left) < 1 && w.middle() > top && w.middle() < bottom && slices.Contains(faces, w.face)
	}) {
		texts = append(texts, w.text)
	}
	return strings.Join(texts, " ")
}

// sized returns the words of a column in Mono at a size, joined as they were before they were wrapped.
func (p *paper) sized(left, top, bottom, size float64) string {
	var texts []string
	for _, w := range p.where(func(w word) bool {
		return w.is("Go-Mono", size) && math.Abs(w.left-left) < 1 && w.middle() > top && w.middle() < bottom
	}) {
		texts = append(texts, w.text)
	}
	return strings.Join(texts, " ")
}

// agree compares what the paper holds with what the plan asks for, each as often as there are lists of units.
func (r *recount) agree(what string, found map[string]int, want []string) {
	expected := map[string]int{}
	for _, row := range want {
		expected[row] += len(r.plan.Packet.Lists)
	}
	for _, row := range slices.Sorted(slices.Values(want)) {
		if found[row] != expected[row] {
			r.found = append(r.found, fmt.Sprintf("%s %q stands %d times, the plan says %d", what, row, found[row], expected[row]))
			found[row] = expected[row]
		}
	}
	for row, count := range found {
		if expected[row] == 0 && count > 0 {
			r.found = append(r.found, fmt.Sprintf("%s %q is not in the plan", what, row))
		}
	}
}

// benchEnds reads wire, end, destination and strip length of every row of the bench.
func (r *recount) benchEnds(packet []paper) {
	found := map[string]int{}
	for i := range packet {
		p := &packet[i]
		if p.title() != "Strip and crimp" {
			continue
		}
		lefts, is := p.columns("wire", "END", "goes to")
		strip, also := p.columns("strip")
		if !is || !also {
			continue // a page of counts and signatures alone
		}
		ids := p.where(func(w word) bool {
			return w.face == "Go-Mono-Bold" && math.Abs(w.left-lefts[0]) < 1 && w.top > 130 && w.size <= 12
		})
		for k, id := range ids {
			bottom := id.bottom + 26
			if k+1 < len(ids) {
				bottom = ids[k+1].top - 3
			}
			length := ""
			for _, w := range p.where(func(w word) bool { return w.face == "Go-Mono-Bold" && math.Abs(w.left-strip[0]) < 1 && sameLine(w, id) }) {
				length = w.text
			}
			found[joinRow(id.text, p.cells(lefts[1], id.top-2, id.bottom+2, "Go-Bold"), strings.ReplaceAll(strings.ReplaceAll(p.cells(lefts[2], id.top-2, bottom, "Go-Mono"), " + ", ""), "+", ""), length)]++
		}
	}
	var want []string
	for _, g := range r.plan.Strips {
		for _, row := range g.Rows {
			length := ""
			if row.StripUM > 0 {
				length = strings.TrimSuffix(strings.TrimSuffix(fmt.Sprintf("%.3f", float64(row.StripUM)/1000), "0"), "0")
				length = strings.TrimSuffix(strings.TrimSuffix(length, "0"), ".")
			}
			if len(row.Steps) > 0 {
				length = "steps"
			}
			want = append(want, joinRow(row.Wire, strings.ToUpper(row.End), strings.ReplaceAll(row.At, "+", ""), length))
		}
	}
	r.agree("end at the bench", found, want)
}

func joinRow(cells ...string) string { return strings.Join(cells, "|") }

// crimps reads the force that each crimp must hold.
func (r *recount) crimps(packet []paper) {
	var found, want []string
	for i := range packet {
		p := &packet[i]
		if p.title() != "Crimp set-up and pull test" {
			continue
		}
		words := p.where(func(w word) bool {
			return w.top > 108 && (w.is("Go-Mono-Bold", 14) || w.is("Go-Bold", 12) && !strings.HasPrefix(w.text, "How, and") ||
				w.is("Go-Bold", 11) && (strings.HasPrefix(w.text, "pull apart") || strings.HasPrefix(w.text, "seating pull: at most ")))
		})
		slices.SortStableFunc(words, func(a, b word) int { // a larger letter has its middle higher on the same line
			if sameLine(a, b) {
				return cmp.Compare(a.left, b.left)
			}
			return cmp.Compare(a.middle(), b.middle())
		})
		for _, w := range words {
			found = append(found, w.text)
		}
	}
	for _, c := range r.plan.Crimps {
		want = append(want, c.Contact, c.Size)
		samples := fmt.Sprintf("pull apart %d samples: at least", c.Samples)
		if c.Samples == 1 {
			samples = "pull apart 1 sample: at least"
		}
		if c.Minimum == "" {
			want = append(want, samples+", as the drawing says")
		} else {
			want = append(want, samples+" "+c.Minimum)
		}
		if c.Seating != "" {
			want = append(want, "seating pull: at most "+c.Seating)
		}
	}
	if !slices.Equal(found, want) {
		r.found = append(r.found, fmt.Sprintf("the crimps on paper are %q, the plan says %q", found, want))
	}
}

// nets reads every row of the continuity record: from where to where, and what a connector leaves open.
func (r *recount) nets(packet []paper) {
	found := map[string]int{}
	for i := range packet {
		p := &packet[i]
		if p.title() != "Continuity and isolation" {
			continue
		}
		lefts, is := p.columns("from", "connected to", "isolated from")
		if !is {
			continue
		}
		firsts := p.where(func(w word) bool {
			return w.face == "Go-Mono-Bold" && w.size <= 12 && math.Abs(w.left-lefts[0]) < 1 && w.top > 118 &&
				slices.ContainsFunc(p.words, func(o word) bool { return sameLine(w, o) && math.Abs(o.left-lefts[1]) < 1 })
		})
		for k, from := range firsts {
			bottom := from.bottom + 60
			if k+1 < len(firsts) {
				bottom = firsts[k+1].top - 3
			}
			to := p.sized(lefts[1], from.top-2, bottom, from.size)
			if from.text == "open" { // its cavities may take many lines
				to, bottom = openWords(p, firsts[k:]), from.bottom+2
			} else if below := p.cells(lefts[0], from.bottom, bottom, "Go-Mono"); strings.HasSuffix(to, " ends below") {
				to, _, _ = strings.Cut(below, " wires ")
			}
			found[joinRow(from.text, to, p.cells(lefts[2], from.top-2, bottom, "Go-Medium"))]++
		}
	}
	r.agree("net", found, wantedNets(r.plan))
}

// openWords returns the cavities that the first of some rows says are open.
func openWords(p *paper, rows []word) string {
	from, bottom := rows[0], math.Inf(1)
	if len(rows) > 1 {
		bottom = rows[1].top - 3
	}
	var texts []string
	for _, w := range p.where(func(w word) bool { return w.is("Go-Mono-Bold", 10) && w.top > from.top && w.top < bottom }) {
		texts = append(texts, w.text)
	}
	return strings.Join(texts, " ")
}

// wantedNets is what the rows of one list must say.
func wantedNets(p plan.Plan) []string {
	var want []string
	for _, g := range p.Continuity.Groups {
		for _, row := range g.Rows {
			to := strings.Join(row.To, " ")
			if to == "" {
				to = "–"
			}
			want = append(want, joinRow(row.From, to, row.Isolated))
		}
		if len(g.Open) > 0 {
			want = append(want, joinRow("open", strings.Join(g.Open, " "), "everything"))
		}
	}
	return want
}
