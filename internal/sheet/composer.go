package sheet

import (
	"regexp"
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/words"
)

// composer knows how wide texts are, and what the paper says in its language.
type composer struct {
	page.Metrics
	words.Words
	twoSided bool // pages are printed on both sides
}

// composerOf composes in the language of the floor.
func composerOf(paper plan.Paper, metrics page.Metrics) composer {
	m := composer{Metrics: metrics, twoSided: paper.Sides == "two"}
	if len(paper.Words) > 0 {
		m.Words = paper.Words[0]
	}
	return m
}

// trayWords names the home of a wire, or says why it comes from no tray.
func (m composer) trayWords(tray string) string {
	switch tray {
	case "existing":
		return m.Say("tray.existing")
	case "bought":
		return m.Say("tray.bought")
	case "with part":
		return m.Say("tray.with_part")
	case "measured":
		return m.Say("tray.measured")
	}
	return tray
}

// placeWords names what an end goes to, or what the cores of a cable go to: "E4+capped@N6". A cavity, splice or terminal has
// its id; what has none is said in words.
func (m composer) placeWords(at string) string {
	if first, others, several := strings.Cut(at, "+"); several {
		return m.placeWords(first) + "+" + m.placeWords(others)
	}
	if node, is := strings.CutPrefix(at, "capped@"); is {
		return m.Say("ends.capped", "node", node)
	}
	if node, is := strings.CutPrefix(at, "leaves@"); is {
		return m.Say("ends.leaves", "node", node)
	}
	if cable, is := strings.CutSuffix(at, " shield"); is {
		return m.Say("ends.shield", "cable", cable)
	}
	return at
}

// batchWords says the name of a batch, which pages bear in any language: "batch 2".
func (m composer) batchWords(name string) string {
	if number, is := strings.CutPrefix(name, "batch "); is {
		return m.Say("common.batch", "n", number)
	}
	return name
}

// endName names an end of a wire or cable: "END A".
func (m composer) endName(i int) string { return m.Say("common.end") + [2]string{" A", " B"}[i] }

// listed joins names for reading: "A", "A and B", "A and B and C".
func (m composer) listed(names []string) string {
	text := ""
	for i, name := range names {
		if i == 0 {
			text = name
			continue
		}
		text = m.Say("common.and", "first", text, "last", name)
	}
	return text
}

// exact writes micrometres as millimetres without the unit, as the language does: "4.5", "4,5".
func (m composer) exact(um int64) string { return m.Decimal(exactMM(um)) }

// endOf names the end "a" or "b".
func (m composer) endOf(end string) string {
	if end == "b" {
		return m.endName(1)
	}
	return m.endName(0)
}

// stripBy says what strips a type; nothing where the type asks for none.
func (m composer) stripBy(how string) string {
	if how == "" {
		return ""
	}
	return m.Say("strip_by." + how)
}

// decimals writes every figure of a text as the language does.
func (m composer) decimals(text string) string {
	return regexp.MustCompile(`\d+\.\d+`).ReplaceAllStringFunc(text, m.Decimal)
}

// typeNames lists types; that of a core is named by its cable.
func (m composer) typeNames(ids []string) string {
	var names []string
	for _, id := range ids {
		if cable, core, is := strings.Cut(id, " core "); is {
			id = m.Say("common.core_of", "cable", cable, "core", core)
		}
		names = append(names, id)
	}
	return strings.Join(names, ", ")
}

// exact writes micrometres as the composer does.
func (p *pen) exact(um int64) string { return p.metrics.exact(um) }

// say returns the text of a key with its fields filled.
func (p *pen) say(key string, pairs ...any) string { return p.metrics.Say(key, pairs...) }

// sayCount returns the text of a key for a number.
func (p *pen) sayCount(key string, n int, pairs ...any) string {
	return p.metrics.SayCount(key, n, pairs...)
}

// decimal writes a figure with a decimal point as the language writes it.
func (p *pen) decimal(figure string) string { return p.metrics.Decimal(figure) }
