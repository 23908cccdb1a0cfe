package main

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"loomleaf/internal/plan"
)

// boardMap asks that every node and everything that stands on the board is named once on the drawing, that every segment stands in the
// table with its length and diameters, and that every wire is found with its nodes.
func (r *recount) boardMap(packet []paper) {
	if len(r.plan.Board.Nodes) == 0 {
		return
	}
	nodes, bodies, segments, found := map[string]int{}, map[string]int{}, map[string][]string{}, map[string][]string{}
	for i := range packet {
		p := &packet[i]
		if p.title() != "Board map" {
			continue
		}
		heads := p.where(func(w word) bool { return w.face == "Go-Bold" && (w.size == 24 || w.size == 28) })
		if len(heads) != 1 {
			r.report(p, "the page of the map has %d heads", len(heads))
			continue
		}
		key := len(p.where(func(w word) bool { return strings.Contains(w.text, "key to") })) > 0
		for _, w := range p.where(func(w word) bool { return w.face == "Go-Mono-Bold" && w.top > heads[0].bottom }) {
			switch {
			case heads[0].text == "Segments" && w.is("Go-Mono-Bold", 11):
				segments[w.text] = append(segments[w.text], rowOf(p, w, "Go-Mono", 11)...)
			case heads[0].text == "Find a wire" && w.is("Go-Mono-Bold", 12):
				found[w.text] = append(found[w.text], rowOf(p, w, "Go-Mono", 12)...)
			case key || heads[0].text != "Board map":
			case w.is("Go-Mono-Bold", 10):
				nodes[w.text]++
			case w.is("Go-Mono-Bold", 12):
				bodies[w.text]++
			}
		}
	}
	r.mapIDs(nodes, bodies)
	r.mapTables(segments, found)
}

// rowOf returns the words of a face on the line of a word, from left to right.
func rowOf(p *paper, w word, face string, size float64) []string {
	words := p.where(func(o word) bool { return o.is(face, size) && sameLine(w, o) && o.left > w.right })
	slices.SortFunc(words, func(a, b word) int { return cmp.Compare(a.left, b.left) })
	var texts []string
	for _, o := range words {
		texts = append(texts, strings.Fields(o.text)...)
	}
	return texts
}

// mapIDs compares the ids on the drawing with the board; a board that is not drawn has none.
func (r *recount) mapIDs(nodes, bodies map[string]int) {
	want := 1
	if !r.plan.Board.Drawn {
		want = 0
	}
	for _, n := range r.plan.Board.Nodes {
		if nodes[n.ID] != want {
			r.found = append(r.found, fmt.Sprintf("node %s stands %d times on the map", n.ID, nodes[n.ID]))
		}
	}
	for _, item := range r.plan.Board.Items {
		if item.ID != "" && bodies[item.ID] != want {
			r.found = append(r.found, fmt.Sprintf("%s %s stands %d times on the map", item.Kind, item.ID, bodies[item.ID]))
		}
	}
}

// mapTables compares the table of segments and the list of wires with the plan.
func (r *recount) mapTables(segments, found map[string][]string) {
	for _, s := range r.plan.Segments {
		name := s.Between[0] + " to " + s.Between[1]
		want := []string{fmt.Sprintf("%.0f", float64(s.LengthUM)/1000), fmt.Sprint(len(s.Wires) + len(s.Cables)), tenth(s.DiameterUM), tenth(s.RoomUM)}
		if got := segments[name]; len(got) < 4 || !slices.Equal(got[:4], want) {
			r.found = append(r.found, fmt.Sprintf("segment %s stands as %v in the table, the plan says %v", name, got, want))
		}
	}
	for _, f := range r.plan.Finder {
		name := f.First
		if f.Last != f.First {
			name += " to " + f.Last
		}
		if got, lists := found[name]; !lists || !slices.Equal(got, r.firstLine(got, f)) {
			r.found = append(r.found, fmt.Sprintf("wire %s is found along %v, the plan says %v", name, got, f.Nodes))
		}
	}
}

// firstLine returns as many nodes of a way as were read on its first line, and all of them where the line holds them all.
func (r *recount) firstLine(got []string, f plan.Found) []string {
	if len(got) == 0 {
		return f.Nodes
	}
	return f.Nodes[:min(len(got), len(f.Nodes))]
}

// tenth prints micrometres as millimetres to a tenth, rounded up; "-" for none.
func tenth(um int64) string {
	if um == 0 {
		return "-"
	}
	return fmt.Sprintf("%.1f", math.Ceil(float64(um)/100)/10)
}
