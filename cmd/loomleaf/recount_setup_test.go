package main

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"loomleaf/internal/plan"
	"loomleaf/internal/units"
)

// setups reads the blocks of the set-up sheet: every reel once, in the order of the run, with its method, its first piece and its marks.
func (r *recount) setups(packet []paper) {
	at := 0
	for i := range packet {
		p := &packet[i]
		if p.title() != "Marker set-up" {
			continue
		}
		loads := p.where(func(w word) bool { return w.is("Go-Bold", 12) && w.text == "LOAD" })
		for n, load := range loads {
			bottom := math.Inf(1)
			if n+1 < len(loads) {
				bottom = loads[n+1].top - 4
			}
			if at == len(r.plan.Setups) {
				r.report(p, "more reels are set up than the plan has")
				return
			}
			r.setup(p, load, bottom, r.plan.Setups[at])
			at++
		}
	}
	if at != len(r.plan.Setups) {
		r.found = append(r.found, fmt.Sprintf("%d reels are set up, the plan has %d", at, len(r.plan.Setups)))
	}
}

// setup reads one block.
func (r *recount) setup(p *paper, load word, bottom float64, s plan.Setup) {
	name, _ := p.after(load)
	if want := cmp.Or(s.Reel, s.Type); name.text != want {
		r.report(p, "%q is set up where %q belongs", name.text, want)
	}
	within := p.where(func(w word) bool { return w.top > load.top-2 && w.top < bottom })
	has := func(face string, size float64, text string) bool {
		for _, w := range within {
			if w.is(face, size) && w.text == text {
				return true
			}
		}
		return false
	}
	method := map[string]string{"laser": "UV laser", "black": "BLACK ink", "white": "WHITE ink", "test first": "TEST FIRST: as proved", "none": "NO MARK",
		"sleeve": "SLEEVES: no mark on the line"}[cmp.Or(s.Ink, s.Method)]
	if !has("Go-Bold", 12, method) {
		r.report(p, "the block of %s does not say %q", name.text, method)
	}
	wire := r.wires[s.First.Wire]
	for _, c := range r.plan.Cables {
		if c.ID == s.First.Wire {
			wire = plan.Wire{CutUM: c.CutUM, HeightUM: c.HeightUM, Marks: c.Marks}
		}
	}
	cut := strings.TrimSuffix(units.Length(wire.CutUM).String(), " mm")
	if !has("Go-Mono-Bold", 11, s.First.Wire) || !has("Go-Bold", 10, "cut "+cut+" mm") {
		r.report(p, "the block of %s lacks its first piece %s of %s mm", name.text, s.First.Wire, cut)
	}
	if len(wire.Marks) > 0 && !has("Go-Bold", 12, "marks "+units.Length(wire.HeightUM).MillimetresTenths()+" mm high") {
		r.report(p, "the block of %s does not say how high its first piece is marked", name.text)
	}
	for _, mark := range wire.Marks {
		if !has("Go-Mono", 10, mark.Text) {
			r.report(p, "the block of %s lacks the text %q", name.text, mark.Text)
		}
	}
	if n := len(wire.Marks); n > 1 && !strings.Contains(sentences(paper{words: within}), strconv.Itoa(n)+" marks;") {
		r.report(p, "the block of %s does not count %d marks", name.text, n)
	}
}

// sleeves reads every row of the sleeves, in the order of the plan, and the labels.
func (r *recount) sleeves(packet []paper) {
	var rows []string
	labels := 0
	for i := range packet {
		p := &packet[i]
		if p.title() != "Sleeves and labels" {
			continue
		}
		counts := p.where(func(w word) bool { return w.is("Go-Regular", 10) && strings.HasPrefix(w.text, "of ") })
		if _, is := p.head("slid on"); !is && len(p.where(func(w word) bool { return w.text == "Labels" })) > 0 {
			labels += len(counts)
			continue
		}
		for _, w := range counts {
			rows = append(rows, r.sleeveRow(p, w))
		}
	}
	if labels != len(r.plan.Labels) {
		r.found = append(r.found, fmt.Sprintf("%d labels are listed, the plan has %d", labels, len(r.plan.Labels)))
	}
	if len(rows) != len(r.plan.Sleeves) {
		r.found = append(r.found, fmt.Sprintf("%d sleeves are listed, the plan has %d", len(rows), len(r.plan.Sleeves)))
		return
	}
	for i, s := range r.plan.Sleeves {
		from := units.Length(s.FromUM).Millimetres()
		if s.Kind == "tag" {
			from = "–"
		}
		want := strings.TrimSpace(strings.Join(strings.Fields(fmt.Sprintf("%s %s %s %s of %d", s.Wire, map[string]string{"a": "A", "b": "B"}[s.End], s.At,
			from, s.Count)), " "))
		if rows[i] != want {
			r.found = append(r.found, fmt.Sprintf("the sleeve %q stands where %q belongs", rows[i], want))
		}
	}
}

// sleeveRow returns a row without its text: wire, end, where it goes, distance and count.
func (r *recount) sleeveRow(p *paper, count word) string {
	heads := p.where(func(w word) bool { return w.is("Go-Bold", 9) && w.text == "wire" })
	if len(heads) == 0 {
		r.report(p, "the columns of the sleeves have no heads")
		return ""
	}
	found := false
	for _, s := range r.plan.Sleeves {
		found = found || len(p.where(func(w word) bool { return w.is("Go-Mono-Bold", 11) && w.text == s.Text })) > 0
	}
	if !found {
		r.report(p, "a row of the sleeves prints no text of the plan")
	}
	var words []string
	line := p.where(func(w word) bool { return sameLine(w, count) && w.left >= heads[0].left-2 && w.left <= count.left })
	slices.SortStableFunc(line, func(a, b word) int { return cmp.Compare(a.left, b.left) })
	for _, w := range line {
		words = append(words, w.text)
	}
	return strings.Join(words, " ")
}
