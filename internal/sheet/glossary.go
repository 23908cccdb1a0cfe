package sheet

import (
	"regexp"
	"slices"
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
	"loomleaf/internal/words"
)

// meaning is a text of the paper in two languages.
type meaning struct{ first, second string }

// glossarySections sets what the packet says in its first language beside what it means in the second, for whoever reads it
// after the floor has: by sheet, in the order of the alphabet. A packet in one language has none.
func glossarySections(p *plan.Plan, work []section, m composer, problems *problem.List) []section {
	if len(p.Paper.Words) < 2 {
		return nil
	}
	g := &glossary{book: *newBook(m, problems), second: p.Paper.Words[1], keys: m.Keys(), field: regexp.MustCompile(`\{[a-z_]+\}`), seen: map[meaning]bool{}}
	g.draft = p.Packet.Draft
	g.y = g.paragraph(live.X, g.y+mm(4), medium(10), live.W, mm10(46), g.say("glossary.how")) - mm(2)
	for _, table := range append([]string{"frame"}, tablesOf(work)...) {
		g.table(table, g.meanings(table))
	}
	return []section{{sheet: "glossary", title: m.Say("glossary.title"), pages: g.finish()}}
}

// tablesOf names the sheets that are printed, then what is in the words and no sheet.
func tablesOf(work []section) []string {
	var tables []string
	for _, s := range work {
		if s.sheet != "safety" && !slices.Contains(tables, s.sheet) {
			tables = append(tables, s.sheet)
		}
	}
	return append(tables, "")
}

// glossary writes texts in two columns.
type glossary struct {
	book
	second words.Words
	keys   []string // of the words, in order
	field  *regexp.Regexp
	seen   map[meaning]bool
}

// meanings returns the texts of a table of the words, those of no sheet for the empty name; each pair once in the packet. The fit
// sheet is no part of a packet.
func (g *glossary) meanings(table string) []meaning {
	var meanings []meaning
	for _, key := range g.keys {
		of, _, _ := strings.Cut(key, ".")
		if of == "number" || of == "glossary" || of == "fit" || of != table && (table != "" || of == "frame" || slices.Contains(sheetNames(), of)) {
			continue
		}
		first, _ := g.metrics.Text(key)
		second, _ := g.second.Text(key)
		e := meaning{g.opened(first), g.opened(second)}
		if !g.seen[e] && e.first != e.second {
			meanings = append(meanings, e)
		}
		g.seen[e] = true
	}
	slices.SortFunc(meanings, func(a, b meaning) int {
		return strings.Compare(strings.ToLower(a.first), strings.ToLower(b.first))
	})
	return meanings
}

// opened writes the fields of a text as something to come.
func (g *glossary) opened(text string) string {
	return strings.TrimSpace(g.field.ReplaceAllString(strings.Join(strings.Fields(text), " "), "…"))
}

// glossaryPitch parts the lines of a text.
const glossaryPitch page.Pt = 1049 // 3.7 mm

// table writes the texts of one sheet under its title.
func (g *glossary) table(name string, meanings []meaning) {
	if len(meanings) == 0 {
		return
	}
	title := g.say("glossary.others")
	switch name {
	case "":
	case "frame":
		title = g.say("frame.title")
	default:
		title, _ = g.metrics.Text(name + ".title")
	}
	room := live.W/2 - mm(3)
	heights := make([]page.Pt, len(meanings))
	for i, e := range meanings {
		heights[i] = glossaryPitch*page.Pt(max(len(g.wrap(medium(9), room, e.first)), len(g.wrap(regular(9), room, e.second)))) + mm10(10)
	}
	g.heading(title, heights[0]+follow(heights, 0, 0))
	for i, e := range meanings {
		g.need(heights[i] + follow(heights, i, 0))
		g.mark(name, i+1, g.y, heights[i], 0)
		g.paragraph(live.X, g.y+mm10(35), medium(9), room, glossaryPitch, e.first)
		g.paragraph(live.X+live.W/2+mm(1), g.y+mm10(35), regular(9), room, glossaryPitch, e.second)
		g.y += heights[i]
		g.across(live.X, live.X+live.W, g.y, rowRule)
	}
	g.y += mm(2)
}
