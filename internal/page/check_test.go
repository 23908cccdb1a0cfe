package page

import (
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/problem"
)

// sheet returns a document of one A4 page that holds items.
func sheet(items ...Item) Document {
	width, height := A4()
	return Document{Name: "MOR-0412-B.packet.pdf", Width: width, Height: height, Pages: []Page{{
		Name: "cutlist/J1/1", Sheet: "cutlist", Section: "J1", Number: 1, Of: 1, Body: items, Live: Rect{5669, 3402, 51024, 72283},
	}}}
}

func goodText() Text {
	return Text{X: 6000, Y: 10000, Face: Mono, Size: 900, Room: 6000, String: "W101", Place: problem.Place{File: "job.toml", Line: 7, Column: 1}}
}

func goodMatrix() Symbol {
	return Symbol{X: 20000, Y: 20000, Symbology: DataMatrix, Module: 120, String: scanTest}
}

// with returns a changed copy.
func with[T any](item T, change func(*T)) T {
	change(&item)
	return item
}

func TestCheckAcceptsGoodPages(t *testing.T) {
	m := loadMetrics(t)
	symbol := goodMatrix()
	around := symbol.Quiet()
	doc := sheet(goodText(), symbol,
		with(goodText(), func(t *Text) { t.X, t.Align, t.Y = 6000+6000, Right, 11000 }),
		Rule{X1: 5669, Y1: 3402, X2: 56693, Y2: 3402, Weight: 100}, // on the live edge
		Rule{X1: 6000, Y1: around.Y - 25, X2: 50000, Y2: around.Y - 25, Weight: 50},
		Box{Rect: around.grow(50, 50), Weight: 100}, // a symbol in a box
		Disc{X: 20960, Y: 20960, R: 3000, Weight: 50, Dash: []Pt{100, 100}},
		Path{Points: [][2]Pt{{30000, 30000}, {31000, 30000}, {30500, 31000}}, Filled: true},
		// The quiet zone may leave the live area; the symbol stands on its edge.
		with(symbol, func(s *Symbol) { s.X, s.Y = 56693-1920, 40000 }),
	)
	require.Empty(t, Check(doc, m))
}

func TestCheckItems(t *testing.T) {
	m := loadMetrics(t)
	symbol := goodMatrix()
	bars := Symbol{X: 20000, Y: 20000, Symbology: Code128, Module: 72, Height: 1500, String: scanTest}
	for name, c := range map[string]struct {
		items []Item
		check string
		text  string
	}{
		"empty page":   {nil, "empty-page", "page cutlist/J1/1 has nothing on it"},
		"no text":      {[]Item{with(goodText(), func(t *Text) { t.String = "" })}, "bad-size", `page cutlist/J1/1 has a text "" of 9.00 pt`},
		"no size":      {[]Item{with(goodText(), func(t *Text) { t.Size = 0 })}, "bad-size", `page cutlist/J1/1 has a text "W101" of 0.00 pt`},
		"small text":   {[]Item{with(goodText(), func(t *Text) { t.Size = 650 })}, "small-text", `"W101" on page cutlist/J1/1 is set in 6.50 pt`},
		"unprintable":  {[]Item{with(goodText(), func(t *Text) { t.String = "W101\t" })}, "unprintable", `the character '\t' (U+0009) in "W101\t" on page cutlist/J1/1 cannot be printed in Go-Mono`},
		"unknown face": {[]Item{with(goodText(), func(t *Text) { t.Face = "Nothing" })}, "unprintable", `the character 'W' (U+0057) in "W101" on page cutlist/J1/1 cannot be printed in Nothing`},
		"too long":     {[]Item{with(goodText(), func(t *Text) { t.Room = 2159 })}, "too-long", `"W101" on page cutlist/J1/1 takes 21.60 pt, its place holds 21.59 pt`},
		"text outside": {[]Item{with(goodText(), func(t *Text) { t.Align = Centre })}, "outside", `page cutlist/J1/1 has an item outside its live area: text 60.00 100.00 Go-Mono 9.00 centre 60.00 "W101"`},
		"rule outside": {[]Item{Rule{X1: 5000, Y1: 9000, X2: 9000, Y2: 9000, Weight: 50}}, "outside", "page cutlist/J1/1 has an item outside its live area: rule 50.00 90.00 90.00 90.00 0.50"},
		"symbol outside": {[]Item{with(symbol, func(s *Symbol) { s.X = 5600 })}, "outside",
			`page cutlist/J1/1 has an item outside its live area: symbol datamatrix 54.80 198.80 21.60 21.60 1.20 "X0123456789012345678919" ""`},
		"no length":  {[]Item{Rule{X1: 6000, Y1: 9000, X2: 6000, Y2: 9000, Weight: 50}}, "bad-size", "page cutlist/J1/1 has an item of no size: rule 60.00 90.00 60.00 90.00 0.50"},
		"thin rule":  {[]Item{Rule{X1: 6000, Y1: 9000, X2: 7000, Y2: 9000, Weight: 49}}, "thin-rule", "page cutlist/J1/1 has a line of 0.49 pt: rule 60.00 90.00 70.00 90.00 0.49"},
		"no dash":    {[]Item{Rule{X1: 6000, Y1: 9000, X2: 7000, Y2: 9000, Weight: 50, Dash: []Pt{100, 0}}}, "bad-size", "page cutlist/J1/1 has a dash of 0.00 pt: rule 60.00 90.00 70.00 90.00 0.50 dash 1.00 0.00"},
		"flat box":   {[]Item{Box{Rect: Rect{6000, 9000, 100, 0}, Filled: true}}, "bad-size", "page cutlist/J1/1 has an item of no size: box 60.00 90.00 1.00 0.00 filled"},
		"thin box":   {[]Item{Box{Rect: Rect{6000, 9000, 100, 100}}}, "thin-rule", "page cutlist/J1/1 has a line of 0.00 pt: box 60.00 90.00 1.00 1.00 0.00"},
		"no disc":    {[]Item{Disc{X: 9000, Y: 9000, Weight: 50}}, "bad-size", "page cutlist/J1/1 has an item of no size: disc 90.00 90.00 0.00 0.50"},
		"two points": {[]Item{Path{Points: [][2]Pt{{9000, 9000}, {9500, 9500}}, Weight: 50}}, "bad-size", "page cutlist/J1/1 has an item of no size: path 0.50 90.00 90.00 95.00 95.00"},
		"bad symbol": {[]Item{with(symbol, func(s *Symbol) { s.String = "W101" })}, "bad-symbol", `page cutlist/J1/1: a symbol holds one letter of CPTHKRXG and 22 digits, not "W101"`},
		"text in quiet zone": {[]Item{bars, with(goodText(), func(t *Text) { t.X, t.Y, t.Align = 20000-300, 21000, Right })}, "quiet-zone",
			`the symbol X0123456789012345678919 on page cutlist/J1/1 has ink in its quiet zone: text 197.00 210.00 Go-Mono 9.00 right 60.00 "W101"`},
		"rule in quiet zone": {[]Item{symbol, Rule{X1: 6000, Y1: 19900, X2: 50000, Y2: 19900, Weight: 50}}, "quiet-zone",
			"the symbol X0123456789012345678919 on page cutlist/J1/1 has ink in its quiet zone: rule 60.00 199.00 500.00 199.00 0.50"},
		"tight box": {[]Item{symbol, Box{Rect: symbol.Quiet(), Weight: 50}}, "quiet-zone",
			"the symbol X0123456789012345678919 on page cutlist/J1/1 has ink in its quiet zone: box 198.80 198.80 21.60 21.60 0.50"},
		"black box": {[]Item{symbol, Box{Rect: symbol.Quiet().grow(100, 100), Filled: true}}, "quiet-zone",
			"the symbol X0123456789012345678919 on page cutlist/J1/1 has ink in its quiet zone: box 197.80 197.80 23.60 23.60 filled"},
		"tight circle": {[]Item{symbol, Disc{X: 20960, Y: 20960, R: 1200, Weight: 50}}, "quiet-zone",
			"the symbol X0123456789012345678919 on page cutlist/J1/1 has ink in its quiet zone: disc 209.60 209.60 12.00 0.50"},
		"slanting path": {[]Item{symbol, Path{Points: [][2]Pt{{18000, 18000}, {24000, 24000}, {24000, 18000}}, Weight: 50}}, "quiet-zone",
			"the symbol X0123456789012345678919 on page cutlist/J1/1 has ink in its quiet zone: path 0.50 180.00 180.00 240.00 240.00 240.00 180.00"},
		"overlap": {[]Item{goodText(), with(goodText(), func(t *Text) { t.Y, t.String = 10800, "W102" })}, "overlap",
			`"W101" and "W102" stand over each other on page cutlist/J1/1`},
	} {
		t.Run(name, func(t *testing.T) {
			found := Check(sheet(c.items...), m)
			require.Len(t, found, 1)
			require.Equal(t, c.check, found[0].Check)
			require.Equal(t, c.text, found[0].Text)
			require.Equal(t, "cutlist/J1/1", found[0].ID)
			require.Equal(t, problem.Error, found[0].Severity)
			if text, is := onlyItem(c.items).(Text); is {
				require.Equal(t, text.Place, found[0].Place)
			}
		})
	}
}

func TestCheckDocument(t *testing.T) {
	m := loadMetrics(t)
	doc := sheet(goodText())
	doc.Pages = append(doc.Pages, doc.Pages[0])
	found := Check(doc, m)
	require.Len(t, found, 1)
	require.Equal(t, "two pages have the name cutlist/J1/1", found[0].Text)

	doc = sheet(goodText())
	doc.Pages[0].Live.W = doc.Width
	found = Check(doc, m)
	require.Len(t, found, 1)
	require.Equal(t, "page cutlist/J1/1 has a live area of 56.69 34.02 595.28 722.83 pt", found[0].Text)

	found = Check(Document{Name: "x.pdf"}, m)
	require.Len(t, found, 2)
	require.Equal(t, "document x.pdf has paper of 0.00 x 0.00 pt", found[0].Text)
	require.Equal(t, "document x.pdf has no page", found[1].Text)
}

// TestSymbolsMayStandClose: quiet zones may share white paper, but no symbol stands in the zone of another.
func TestSymbolsMayStandClose(t *testing.T) {
	m := loadMetrics(t)
	first := goodMatrix()
	second := with(first, func(s *Symbol) { s.Y += 1920 + 120 })
	require.Empty(t, Check(sheet(first, second), m))
	second.Y--
	require.Len(t, Check(sheet(first, second), m), 2)
}

func TestExtents(t *testing.T) {
	m := loadMetrics(t)
	text := goodText()
	require.Equal(t, Rect{6000, 10000 - m.CapHeight(Mono, 900), 2160, m.CapHeight(Mono, 900) + m.Descent(Mono, 900)}, Extent(text, m))
	text.Align = Right
	require.Equal(t, Pt(6000-2160), Extent(text, m).X)
	text.Align = Centre
	require.Equal(t, Pt(6000-1080), Extent(text, m).X)
	require.Equal(t, Rect{75, 175, 150, 250}, Extent(Rule{X1: 200, Y1: 400, X2: 100, Y2: 200, Weight: 50}, m))
	require.Equal(t, Rect{50, 150, 400, 500}, Extent(Box{Rect: Rect{100, 200, 300, 400}, Weight: 100}, m))
	require.Equal(t, Rect{100, 200, 300, 400}, Extent(Box{Rect: Rect{100, 200, 300, 400}, Weight: 100, Filled: true}, m))
	require.Equal(t, Rect{375, 475, 250, 250}, Extent(Disc{X: 500, Y: 600, R: 100, Weight: 50}, m))
	require.Equal(t, Rect{0, 0, 100, 200}, Extent(Path{Points: [][2]Pt{{0, 200}, {100, 0}, {50, 50}}, Filled: true}, m))
	require.Equal(t, goodMatrix().Quiet(), Extent(goodMatrix(), m))
}

func BenchmarkCheck(b *testing.B) {
	m := loadMetrics(b)
	var items []Item
	for row := range 25 {
		y := Pt(5000 + 2500*row)
		for column := range 12 {
			items = append(items, Text{X: Pt(6000 + 3500*column), Y: y, Face: Mono, Size: 900, Room: 3400, String: "W101"})
		}
		items = append(items, with(goodMatrix(), func(s *Symbol) { s.X, s.Y = 50000, y }))
	}
	doc := sheet(items...)
	require.Empty(b, Check(doc, m))
	for b.Loop() {
		Check(doc, m)
	}
}

// onlyItem returns the only item of a list, or nil.
func onlyItem(items []Item) Item {
	if len(items) != 1 {
		return nil
	}
	return items[0]
}
