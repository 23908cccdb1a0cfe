package pdf

import (
	"fmt"
	"io"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/fonts"
	"loomleaf/internal/page"
)

// cutList returns a synthetic document: on every page 25 rows of twelve texts, a rule, a box and a symbol each.
func cutList(pages int) page.Document {
	var bodies [][]page.Item
	for number := range pages {
		var items []page.Item
		for row := range 25 {
			y := page.Pt(5000 + 2800*row)
			for column := range 12 {
				face := []page.Face{page.Mono, page.Regular, page.Bold}[column%3]
				items = append(items, page.Text{X: page.Pt(6000 + 3500*column), Y: y, Face: face, Size: 900, Room: 3400,
					String: fmt.Sprintf("W%d %d", 25*number+row, column)})
			}
			items = append(items,
				page.Rule{X1: 6000, Y1: y + 500, X2: 52000, Y2: y + 500, Weight: 50},
				page.Box{Rect: page.Rect{X: 48000, Y: y - 1400, W: 1417, H: 1417}, Weight: 100},
				page.Symbol{X: 50000, Y: y - 1500, Symbology: page.DataMatrix, Module: 120,
					String: fmt.Sprintf("C%011d%03d%06d%02d", number, 0, 100000+row, 12)})
		}
		bodies = append(bodies, items)
	}
	return document(bodies...)
}

func BenchmarkWrite(b *testing.B) {
	for _, pages := range []int{10, 40, 100} {
		doc := cutList(pages)
		b.Run(fmt.Sprintf("pages=%d", pages), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				require.NoError(b, Write(io.Discard, doc, fonts.Files))
			}
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*pages), "µs/page")
		})
	}
}
