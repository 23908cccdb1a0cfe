package main

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/fonts"
	"loomleaf/internal/page"
)

// sheetOf is an A4 document of one page that may be printed on to its edges.
func sheetOf(items []page.Item) page.Document {
	width, height := page.A4()
	live := page.Rect{W: width, H: height}
	return page.Document{Name: "sheet.pdf", Width: width, Height: height, Pages: []page.Page{{Name: "sheet/1", Body: items, Live: live}}}
}

// TestTextCanBeCopiedOut sets every character of every face, eight a line, and reads them back.
func TestTextCanBeCopiedOut(t *testing.T) {
	t.Parallel()
	metrics, err := page.LoadMetrics(fonts.Files)
	require.NoError(t, err)
	for _, face := range page.Faces() {
		var items []page.Item
		var want []string
		for chunk := range slices.Chunk(copied(metrics, face), 8) {
			line := "a" + string(chunk) + "z" // letters on both sides keep blanks and marks inside the line
			want = append(want, line)
			x, y := page.Pt(6000+26000*(len(items)%2)), page.Pt(3000+1600*(len(items)/2))
			items = append(items, page.Text{X: x, Y: y, Face: face, Size: 700, Room: 20000, String: line})
		}
		require.Greater(t, len(want), 50, "%s", face)
		var lines []string
		for _, w := range readDocument(t, sheetOf(items), false)[0].words {
			lines = append(lines, w.text)
		}
		require.Equal(t, want, lines, "%s", face)
	}
}

// copied lists the characters that a face prints, without the two ligatures, which the reader copies as two letters.
func copied(m page.Metrics, face page.Face) []rune {
	var runes []rune
	for r := rune(0); r <= 0x10FFFF; r++ {
		if _, missing := m.Missing(face, string(r)); !missing && r != '\ufb01' && r != '\ufb02' {
			runes = append(runes, r)
		}
	}
	return runes
}

// TestSymbolsOfEverySizeCanBeRead draws symbols at places that no raster grid favours and tries every step of the ladder.
func TestSymbolsOfEverySizeCanBeRead(t *testing.T) {
	t.Parallel()
	symbols := randomSymbols()
	read := readDocument(t, sheetOf(symbols), true)[0]
	require.Empty(t, read.faults)
	require.Len(t, read.scans, len(symbols))
	for i, s := range symbols {
		require.Equal(t, s.(page.Symbol).String, read.scans[i].text)
	}
}

func randomSymbols() []page.Item {
	random := rand.New(rand.NewPCG(1, 2))
	text := func() string {
		digits := []byte{"CPTHKRXG"[random.IntN(8)]}
		for range 22 {
			digits = append(digits, byte('0'+random.IntN(10)))
		}
		return string(digits)
	}
	var symbols []page.Item
	for row := range 12 {
		y := page.Pt(4000 + 6500*row + random.IntN(100))
		bars := []page.Symbol{{Module: 72, Height: 1840}, {Module: 96, Height: 2560}, {Module: 120, Height: 3210}}[row%3]
		bars.X, bars.Y, bars.Symbology, bars.String = page.Pt(5000+random.IntN(100)), y, page.Code128, text()
		symbols = append(symbols, bars)
		for column := range 4 {
			module := []page.Pt{96, 120, 144}[random.IntN(3)]
			symbols = append(symbols, page.Symbol{X: page.Pt(31000 + 6500*column + random.IntN(100)), Y: y, Symbology: page.DataMatrix,
				Module: module, String: text()})
		}
	}
	return symbols
}
