package sheet

import (
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

// say returns the text of a key with its fields filled.
func (p *pen) say(key string, pairs ...any) string { return p.metrics.Say(key, pairs...) }

// sayCount returns the text of a key for a number.
func (p *pen) sayCount(key string, n int, pairs ...any) string {
	return p.metrics.SayCount(key, n, pairs...)
}

// decimal writes a figure with a decimal point as the language writes it.
func (p *pen) decimal(figure string) string { return p.metrics.Decimal(figure) }
