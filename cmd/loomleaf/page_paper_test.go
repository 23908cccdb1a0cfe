package main

import (
	"strings"

	"loomleaf/internal/page"
)

// paperOf takes pages as they are meant, so that what is counted again on printed pages can be counted on many jobs without a printer.
// Every symbol reads what it holds.
func paperOf(document page.Document, m page.Metrics) []paper {
	var papers []paper
	for _, pg := range document.Pages {
		p := paper{name: pg.Name}
		for _, item := range pg.Items() {
			switch i := item.(type) {
			case page.Text:
				p.words = append(p.words, word{box: boxOf(page.Extent(i, m)), text: strings.TrimSpace(i.String), face: string(i.Face), size: points(i.Size)})
			case page.Symbol:
				p.scans = append(p.scans, scan{box: boxOf(i.Area()), text: i.String, bars: i.Symbology == page.Code128})
			}
		}
		for _, b := range ticks(pg) {
			p.ticks = append(p.ticks, boxOf(b))
		}
		papers = append(papers, p)
	}
	return papers
}
