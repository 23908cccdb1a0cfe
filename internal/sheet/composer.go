package sheet

import (
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/words"
)

// composer knows how wide texts are, and what the paper says in its language.
type composer struct {
	page.Metrics
	words.Words
}

// composerOf composes in the language of the floor.
func composerOf(paper plan.Paper, metrics page.Metrics) composer {
	c := composer{Metrics: metrics}
	if len(paper.Words) > 0 {
		c.Words = paper.Words[0]
	}
	return c
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

// placeWords names what an end goes to. A cavity, splice or terminal has its id; what has none is said in words.
func (m composer) placeWords(at string) string {
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

// say returns the text of a key with its fields filled.
func (p *pen) say(key string, pairs ...any) string { return p.metrics.Say(key, pairs...) }

// sayCount returns the text of a key for a number.
func (p *pen) sayCount(key string, n int, pairs ...any) string {
	return p.metrics.SayCount(key, n, pairs...)
}

// decimal writes a figure with a decimal point as the language writes it.
func (p *pen) decimal(figure string) string { return p.metrics.Decimal(figure) }
