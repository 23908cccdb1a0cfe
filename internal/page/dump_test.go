package page

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/problem"
)

// everyItem returns one item of every kind and form.
func everyItem() []Item {
	return []Item{
		Text{X: 5670, Y: 10000, Face: Mono, Size: 900, Room: 6000, String: "W101 \"a\"", Place: problem.Place{File: "job.toml", Line: 3}},
		Text{X: 5670, Y: 11050, Face: Bold, Size: 1450, Align: Right, Room: 10, String: "Größe"},
		Text{X: 5670, Y: 12005, Face: Regular, Size: 700, Align: Centre, Room: 0, String: "-"},
		Rule{X1: 5670, Y1: 10400, X2: 56693, Y2: 10400, Weight: 50},
		Rule{X1: 5670, Y1: 10400, X2: 56693, Y2: 10400, Weight: 50, Dash: []Pt{200, 150}},
		Box{Rect: Rect{6000, 9000, 1417, 1417}, Weight: 100},
		Box{Rect: Rect{6000, 9000, 1417, 1417}, Filled: true},
		Disc{X: 8000, Y: 9000, R: 700, Weight: 50},
		Path{Points: [][2]Pt{{-5, 1000}, {2000, 1000}, {1500, 2000}}, Weight: 50},
		Path{Points: [][2]Pt{{1000, 1000}, {2000, 1000}, {1500, 2000}}, Filled: true},
		Symbol{X: 50000, Y: 9000, Symbology: DataMatrix, Module: 120, String: scanTest, Says: "wire W101"},
		Symbol{X: 10000, Y: 9000, Symbology: Code128, Module: 96, Height: 2552, String: scanTest},
	}
}

func TestDump(t *testing.T) {
	items := everyItem()
	doc := Document{
		Name: "MOR-0412-B.packet.pdf", Title: "MOR-0412 B", Subject: "Ice-survey sled", Width: 59528, Height: 84189,
		Pages: []Page{
			{Name: "cutlist/J1/1", Sheet: "cutlist", Section: "J1", Number: 1, Of: 2, Unit: 3, Frame: items[:1], Body: items[1:],
				Live: Rect{5669, 3402, 51024, 72283}, Hash: "4b68"},
			{Name: "contents/1", Sheet: "contents", Number: 1, Of: 1, Live: Rect{0, 0, 100, 100}},
		},
	}
	const want = `document "MOR-0412-B.packet.pdf" 595.28 x 841.89 title "MOR-0412 B" subject "Ice-survey sled"

page cutlist/J1/1 sheet cutlist section "J1" number 1 of 2 unit 3 live 56.69 34.02 510.24 722.83 hash 4b68
text 56.70 100.00 Go-Mono 9.00 left 60.00 "W101 \"a\""
body
text 56.70 110.50 Go-Bold 14.50 right 0.10 "Größe"
text 56.70 120.05 Go-Regular 7.00 centre 0.00 "-"
rule 56.70 104.00 566.93 104.00 0.50
rule 56.70 104.00 566.93 104.00 0.50 dash 2.00 1.50
box 60.00 90.00 14.17 14.17 1.00
box 60.00 90.00 14.17 14.17 filled
disc 80.00 90.00 7.00 0.50
path 0.50 -0.05 10.00 20.00 10.00 15.00 20.00
path filled 10.00 10.00 20.00 10.00 15.00 20.00
symbol datamatrix 498.80 88.80 21.60 21.60 1.20 "X0123456789012345678919" "wire W101"
symbol code128 90.40 89.04 190.08 27.44 0.96 "X0123456789012345678919" ""

page contents/1 sheet contents section "" number 1 of 1 unit 0 live 0.00 0.00 1.00 1.00 hash ` + `
body
`
	var got strings.Builder
	require.NoError(t, Dump(&got, doc))
	require.Equal(t, want, got.String())
}

// TestHashIsOfTheDumpLines pins the value: it stands on paper, so it may not drift. The figure is the SHA-256 of the line
// with its line feed, by the command line tool sha256sum.
func TestHashIsOfTheDumpLines(t *testing.T) {
	require.Equal(t, "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855", Hash(nil))
	line := "rule 56.70 104.00 566.93 104.00 0.50"
	require.Equal(t, line, itemLine(everyItem()[3]))
	require.Equal(t, "5db242dbe5fe93c5db29e68cb40408f001e4f983bca189463995c405a4afea02", Hash(everyItem()[3:4]))
}

func TestHashSeesEverythingButPlaces(t *testing.T) {
	items := everyItem()
	whole := Hash(items)
	for i := range items {
		require.NotEqual(t, whole, Hash(append(append([]Item{}, items[:i]...), items[i+1:]...)))
	}
	moved := everyItem()
	moved[0] = with(moved[0].(Text), func(t *Text) { t.Place.Line++ })
	require.Equal(t, whole, Hash(moved))
	moved[0] = with(moved[0].(Text), func(t *Text) { t.X++ })
	require.NotEqual(t, whole, Hash(moved))
}

type brokenWriter struct{}

func (brokenWriter) Write([]byte) (int, error) { return 0, errors.New("disk full") }

func TestDumpReportsWriteErrors(t *testing.T) {
	require.EqualError(t, Dump(brokenWriter{}, sheet(everyItem()...)), "disk full")
}
