package main

import (
	"fmt"
	"slices"
	"strings"

	"loomleaf/internal/plan"
	"loomleaf/internal/units"
)

// trays checks every label against the rows of the cut list that fill its tray.
func (r *recount) trays(labels []paper, lines []cutLine) {
	seen := map[string]int{}
	for i := range labels {
		p := &labels[i]
		for _, name := range p.where(func(w word) bool { return w.face == "Go-Bold" && w.size >= 20 }) {
			label := box{name.left - 9, name.top - 9, name.left + pointsOf(r.plan.Paper.Labels.WidthUM), name.top + pointsOf(r.plan.Paper.Labels.HeightUM) - 9}
			serials := p.where(func(w word) bool { return w.face == "Go-Mono-Bold" && w.size >= 20 && w.within(label) }) // beside or below
			if len(serials) != 1 {
				r.report(p, "the label of %s names %d units", name.text, len(serials))
				continue
			}
			serial := serials[0]
			tray, part := name.text+"/"+serial.text, 1
			for _, w := range p.where(func(w word) bool { return w.is("Go-Bold", 10) && w.within(label) && strings.HasPrefix(w.text, "tray ") }) {
				if fmt.Sscanf(w.text, "tray %d of", &part); part > 1 {
					tray = fmt.Sprintf("%s/%d", tray, part)
				}
			}
			seen[tray]++
			r.label(p, label, tray, serial.text, groupLines(lines, name.text, serial.text, part))
		}
	}
	for _, tray := range r.plan.Trays {
		if seen[tray.ID] != 1 {
			r.found = append(r.found, fmt.Sprintf("tray %s has %d labels", tray.ID, seen[tray.ID]))
		}
	}
}

// pointsOf turns micrometres into points.
func pointsOf(um int64) float64 { return float64(um) * 72 / 25400 }

func (r *recount) label(p *paper, area box, tray, unit string, rows []cutLine) {
	words := p.where(func(w word) bool { return w.within(area) })
	says := func(text string) bool {
		return slices.ContainsFunc(words, func(w word) bool { return w.text == text })
	}
	count, contents, cables := r.contentsOf(rows)
	said := p.textIn(area, func(w word) bool { return w.is("Go-Medium", 10) || w.is("Go-Bold", 12) })
	if _, named, found := strings.Cut(said, contents); !found || len(cables) > 0 && !slices.Equal(slices.Sorted(slices.Values(firstWords(named, len(cables)))), cables) {
		r.report(p, "the label of %s does not say %q", tray, strings.TrimSpace(contents+" "+strings.Join(cables, " ")))
	}
	if !says(count) || !says(fmt.Sprintf("of %d, by", len(rows))) {
		r.report(p, "the label of %s does not count the %d wires of the cut list", tray, len(rows))
	}
	r.coils(p, words, tray, rows)
	for _, s := range r.take(p, "tray", func(s scan) bool { return s.within(area) }, 2) {
		if row := r.codes[s.text]; row.Name != tray || row.Unit != unit {
			r.report(p, "a symbol on the label of %s names %s", tray, row.Name)
		}
		code, err := plan.ParseCode(s.text)
		spaced := slices.ContainsFunc(words, func(w word) bool { return strings.ReplaceAll(w.text, " ", "") == s.text })
		if err != nil || !says(code.KeyIn()) || !spaced {
			r.report(p, "the label of %s does not print its string and what to key in", tray)
		}
	}
}

// contentsOf counts the pieces in a tray, and says which of them are cables.
func (r *recount) contentsOf(rows []cutLine) (count, contents string, cables []string) {
	for _, l := range rows {
		if r.goods[l.name].cable {
			cables = append(cables, l.name)
		}
	}
	noun := func(n int, noun string) string {
		if n == 1 {
			return "1 " + noun
		}
		return fmt.Sprintf("%d %ss", n, noun)
	}
	if len(cables) == 0 {
		return noun(len(rows), "wire"), noun(len(rows), "wire"), nil
	}
	contents = noun(len(cables), "cable") + ":"
	if single := len(rows) - len(cables); single > 0 {
		contents = noun(single, "wire") + " and " + contents
	}
	return noun(len(rows), "piece"), contents, cables
}

// firstWords returns so many words of a text, or all.
func firstWords(text string, n int) []string {
	words := strings.Fields(text)
	return words[:min(n, len(words))]
}

// coils checks that the label names or counts the wires that are too long to lie straight.
func (r *recount) coils(p *paper, words []word, tray string, rows []cutLine) {
	var text []string
	for _, w := range words {
		if w.is("Go-Medium", 10) {
			text = append(text, w.text)
		}
	}
	said := strings.Join(text, " ")
	for _, lead := range []string{"all straight", "coil"} { // the cables of a tray stand before
		if at := strings.Index(said, lead); at >= 0 {
			said = said[at:]
			break
		}
	}
	var long []string
	for _, l := range rows {
		if l.cut > r.shop.straight {
			long = append(long, l.name)
		}
	}
	named, _, _ := strings.Cut(strings.TrimPrefix(said, "coil: "), ",")
	listed := strings.Fields(named)
	slices.Sort(listed)
	counted := []string{fmt.Sprintf("coil the %d longest wires", len(long)), fmt.Sprintf("coil %d wires over %d mm", len(long), r.shop.straight/units.Millimetre),
		fmt.Sprintf("coil %d pieces over %d mm", len(long), r.shop.straight/units.Millimetre)}
	switch {
	case len(long) == 0 && strings.HasPrefix(said, "all straight"):
	case len(long) > 0 && (slices.Equal(listed, long) || slices.ContainsFunc(counted, func(c string) bool { return strings.HasPrefix(said, c) })):
	default:
		r.report(p, "the label of %s says %q, to coil are %v", tray, said, long)
	}
}
