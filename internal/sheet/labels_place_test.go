package sheet

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
	"loomleaf/internal/words"
)

var rollStock = plan.Stock{ID: "roll-100x60", Paper: "roll", Columns: 1, Rows: 1, WidthUM: 100000, HeightUM: 60000,
	PitchXUM: 100000, PitchYUM: 60000, GapUM: 3000}

func someStocks() []plan.Stock {
	letterThirds := plan.Stock{ID: "letter-2x3", Paper: "letter", Columns: 2, Rows: 3, WidthUM: 101600, HeightUM: 84670,
		LeftUM: 3970, TopUM: 12700, PitchXUM: 106360, PitchYUM: 84670}
	return []plan.Stock{a4Stock, letterStock, letterThirds, rollStock}
}

// TestLabelsLandOnTheirDieCut prints on a printer that is off as measured: every label must land within 0.05 mm.
func TestLabelsLandOnTheirDieCut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom(someStocks()).Draw(t, "stock")
		off := rapid.Int64Range(-3000, 3000)
		drift := rapid.Int64Range(-2000, 2000)
		printer := plan.LabelPrint{OffsetXUM: off.Draw(t, "right"), OffsetYUM: off.Draw(t, "down"),
			DriftXUM: drift.Draw(t, "drift right"), DriftYUM: drift.Draw(t, "drift down")}
		for i := range s.Columns * s.Rows {
			r := labelRect(s, printer, i)
			wantX := s.LeftUM + int64(i%s.Columns)*s.PitchXUM
			wantY := s.TopUM + int64(i/s.Columns)*s.PitchYUM
			landsX := landing(r.X, printer.OffsetXUM, printer.DriftXUM, s.LeftUM, s.LeftUM+int64(s.Columns-1)*s.PitchXUM+s.WidthUM)
			landsY := landing(r.Y, printer.OffsetYUM, printer.DriftYUM, s.TopUM, s.TopUM+int64(s.Rows-1)*s.PitchYUM+s.HeightUM)
			require.InDelta(t, wantX, landsX, 50)
			require.InDelta(t, wantY, landsY, 50)
		}
	})
}

// landing is where a point lands on a printer that stands off by offset everywhere, and by drift more at the far mark.
func landing(at page.Pt, offset, drift, near, far int64) float64 {
	um := float64(at) * 25400 / 7200
	return um + float64(offset) + float64(drift)*(um-float64(near))/float64(far-near)
}

func TestPartSheetsOfLabelsAreUsedUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		each := a4Stock.Columns * a4Stock.Rows
		printer := plan.LabelPrint{Start: rapid.IntRange(1, each).Draw(t, "start"),
			Skip: rapid.SliceOf(rapid.IntRange(1, each)).Draw(t, "skip")}
		count := rapid.IntRange(0, 25).Draw(t, "labels")
		places := labelPlaces(a4Stock, printer, count)
		require.Len(t, places, count)
		free := 0
		for n := printer.Start; n <= each; n++ {
			if !slices.Contains(printer.Skip, n) {
				free++
			}
		}
		for i, place := range places {
			if i > 0 {
				before := places[i-1]
				require.Less(t, before.sheet*each+before.label, place.sheet*each+place.label)
			}
			if free == 0 {
				require.Equal(t, labelPlace{i / each, i % each}, place, "a sheet with no label left is not printed")
				continue
			}
			require.Equal(t, i < free, place.sheet == 0, "the first sheet is filled")
			if place.sheet == 0 {
				require.GreaterOrEqual(t, place.label+1, printer.Start)
				require.False(t, slices.Contains(printer.Skip, place.label+1))
			}
		}
	})
}

// TestRollPrintsALabelAPage in the size of the label, with nothing within 2 mm of the die cut.
func TestRollPrintsALabelAPage(t *testing.T) {
	m := loadFonts(t)
	var problems problem.List
	doc := labelDocument(labelPlan(rollStock, someTray("J1", "0041", 13, 4), someTray("P2", "0041", 3, 0)), m, &problems)
	require.Empty(t, problems)
	require.Empty(t, page.Check(doc, m.Metrics))
	require.Len(t, doc.Pages, 2)
	require.Equal(t, []page.Pt{page.MM(100000), page.MM(60000)}, []page.Pt{doc.Width, doc.Height})
	for _, pg := range doc.Pages {
		requireInDieCuts(t, rollStock, pg.Body, m)
	}
}

// TestFitSheetShowsWhereLabelsLand: outlines and crosses of every stock, measured.
func TestFitSheetShowsWhereLabelsLand(t *testing.T) {
	m := loadFonts(t)
	for _, s := range someStocks() {
		for _, printer := range []plan.LabelPrint{{}, {OffsetXUM: 700, OffsetYUM: -400, DriftYUM: 900}} {
			doc, problems := Fit(plan.Paper{Labels: s, Print: printer, Words: []words.Words{inGerman(t).Words}}, m.Metrics)
			require.Empty(t, problems)
			require.Empty(t, page.Check(doc, m.Metrics), "in German")
			doc, problems = Fit(plan.Paper{Labels: s, Print: printer, Words: []words.Words{m.Words}}, m.Metrics)
			require.Empty(t, problems)
			require.Empty(t, page.Check(doc, m.Metrics))
			var outlines []page.Rect
			said := ""
			for _, pg := range doc.Pages {
				for _, item := range pg.Body {
					switch i := item.(type) {
					case page.Box:
						outlines = append(outlines, i.Rect)
					case page.Text:
						said += i.String + "\n"
					}
				}
			}
			if s.Paper != "roll" {
				require.Len(t, outlines, len(doc.Pages)*s.Columns*s.Rows)
			}
			for i, r := range outlines {
				require.Equal(t, labelRect(s, printer, i%(s.Columns*s.Rows)), r)
			}
			for _, want := range []string{s.ID, "A: print to the right, mm:", "D: print below, mm:", "[label_printer]", fmt.Sprint(s.Columns * s.Rows),
				m.both(printer.OffsetXUM, printer.OffsetYUM)} {
				require.Contains(t, said, want, s.ID)
			}
		}
	}
}

// TestTheScaleOfALabelSheetKeepsOffTheLabels draws it for printers that are off: it lands 100 mm long, clear of every die cut and of
// the edge of the paper. Stocks whose margin is too low have none.
func TestTheScaleOfALabelSheetKeepsOffTheLabels(t *testing.T) {
	m, drawn := loadFonts(t), map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom(someStocks()).Draw(t, "stock")
		off, drift := rapid.Int64Range(-1500, 1500), rapid.Int64Range(-1000, 1000)
		printer := plan.LabelPrint{OffsetXUM: off.Draw(t, "right"), OffsetYUM: off.Draw(t, "down"),
			DriftXUM: drift.Draw(t, "drift right"), DriftYUM: drift.Draw(t, "drift down")}
		items := labelScale(s, printer, m)
		if len(items) == 0 {
			return
		}
		drawn[s.ID]++
		line := items[0].(page.Rule)
		far := farXUM(s)
		from, to := landing(line.X1, printer.OffsetXUM, printer.DriftXUM, s.LeftUM, far), landing(line.X2, printer.OffsetXUM, printer.DriftXUM, s.LeftUM, far)
		require.InDelta(t, 100_000, to-from, 100)
		_, height := stockPaper(s)
		for _, item := range items {
			extent := page.Extent(item, m.Metrics)
			require.LessOrEqual(t, extent.Y+extent.H, height-scaleEdge)
			for i := range s.Columns * s.Rows {
				require.False(t, meet(extent, inset(labelRect(s, printer, i), -labelInset+mm10(2))), "%v by label %d", item, i+1)
			}
		}
	})
	require.NotContains(t, drawn, "roll-100x60")
	require.Contains(t, drawn, "letter-2x3")
	require.Contains(t, drawn, letterStock.ID)
}
