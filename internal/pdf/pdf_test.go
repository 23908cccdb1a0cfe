package pdf

import (
	"bytes"
	"compress/zlib"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
	"github.com/stretchr/testify/require"

	"loomleaf/fonts"
	"loomleaf/internal/page"
)

// scanTest is a string that symbols hold.
const scanTest = "X0123456789012345678919"

// document returns an A4 document with one page for each list of items.
func document(pages ...[]page.Item) page.Document {
	width, height := page.A4()
	doc := page.Document{Name: "MOR-0412-B.packet.pdf", Title: "MOR-0412 B", Subject: "Größe, Ice-survey sled", Width: width, Height: height}
	for i, items := range pages {
		doc.Pages = append(doc.Pages, page.Page{Name: fmt.Sprintf("cutlist/J1/%d", i+1), Number: i + 1, Of: len(pages), Body: items})
	}
	return doc
}

// everyItem returns one item of every kind and form.
func everyItem() []page.Item {
	return []page.Item{
		page.Text{X: 6000, Y: 6000, Face: page.Mono, Size: 900, Room: 20000, String: "W101 J1:1>P2:7"},
		page.Text{X: 53000, Y: 6000, Face: page.Bold, Size: 1450, Align: page.Right, Room: 20000, String: "Ice-survey sled"},
		page.Text{X: 30000, Y: 8000, Face: page.Regular, Size: 700, Align: page.Centre, Room: 20000, String: "Größe Ωμ ПУТЬ ± 0,34 mm² – × → \\()<>"},
		page.Rule{X1: 6000, Y1: 9000, X2: 53000, Y2: 9000, Weight: 50},
		page.Rule{X1: 6000, Y1: 9500, X2: 53000, Y2: 9505, Weight: 100, Dash: []page.Pt{200, 150}},
		page.Box{Rect: page.Rect{X: 6000, Y: 11000, W: 1417, H: 1417}, Weight: 100},
		page.Box{Rect: page.Rect{X: 9000, Y: 11000, W: 1417, H: 1417}, Filled: true},
		page.Disc{X: 13000, Y: 11700, R: 700, Weight: 50},
		page.Disc{X: 16000, Y: 11700, R: 700, Weight: 50, Dash: []page.Pt{100}},
		page.Path{Points: [][2]page.Pt{{19000, 11000}, {20417, 11000}, {19700, 12417}}, Weight: 75},
		page.Path{Points: [][2]page.Pt{{22000, 11000}, {23417, 11000}, {22700, 12417}}, Filled: true},
		page.Symbol{X: 6000, Y: 15000, Symbology: page.DataMatrix, Module: 120, String: scanTest},
		page.Symbol{X: 12000, Y: 15000, Symbology: page.Code128, Module: 96, Height: 2600, String: scanTest},
	}
}

func written(t testing.TB, doc page.Document) []byte {
	var out bytes.Buffer
	require.NoError(t, Write(&out, doc, fonts.Files))
	return out.Bytes()
}

// contents returns the content stream of every page, in order.
func contents(t *testing.T, file []byte) []string {
	head := regexp.MustCompile(`/Filter/FlateDecode/Length (\d+)\n>>\nstream\n`)
	var streams []string
	for _, match := range head.FindAllSubmatchIndex(file, -1) {
		length, err := strconv.Atoi(string(file[match[2]:match[3]]))
		require.NoError(t, err)
		reader, err := zlib.NewReader(bytes.NewReader(file[match[1] : match[1]+length]))
		require.NoError(t, err)
		stream, err := io.ReadAll(reader)
		require.NoError(t, err)
		streams = append(streams, string(stream))
	}
	return streams
}

// requireValid asks a PDF library of another project.
func requireValid(t *testing.T, file []byte, pages int) {
	api.DisableConfigDir()
	for _, mode := range []int{model.ValidationRelaxed, model.ValidationStrict} {
		conf := model.NewDefaultConfiguration()
		conf.ValidationMode = mode
		conf.Offline = true
		require.NoError(t, api.Validate(bytes.NewReader(file), conf))
		count, err := api.PageCount(bytes.NewReader(file), conf)
		require.NoError(t, err)
		require.Equal(t, pages, count)
	}
}

func TestWriteIsValidAndRepeats(t *testing.T) {
	doc := document(everyItem(), everyItem()[:3], everyItem()[3:])
	first := written(t, doc)
	require.Equal(t, first, written(t, doc))
	requireValid(t, first, 3)
	require.Len(t, contents(t, first), 3)
}

func TestWriteWithoutText(t *testing.T) {
	file := written(t, document(everyItem()[11:]))
	requireValid(t, file, 1)
	require.NotContains(t, string(file), "/FontFile2")
}

func TestPapers(t *testing.T) {
	for want, paper := range map[string]func() (page.Pt, page.Pt){
		"/MediaBox [ 0 0 595.28 841.89 ]": page.A4,
		"/MediaBox [ 0 0 612.00 792.00 ]": page.Letter,
	} {
		doc := document(everyItem())
		doc.Width, doc.Height = paper()
		file := written(t, doc)
		require.Contains(t, string(file), want)
		requireValid(t, file, 1)
	}
}

func TestProperties(t *testing.T) {
	file := string(written(t, document(everyItem()[:1])))
	for key, text := range map[string]string{"Title": "MOR-0412 B", "Subject": "Größe, Ice-survey sled", "Author": "loomleaf", "Creator": "loomleaf"} {
		var hex strings.Builder
		for _, r := range text {
			fmt.Fprintf(&hex, "%04X", r)
		}
		require.Contains(t, file, "/"+key+" <FEFF"+hex.String()+">")
	}
	for _, absent := range []string{"CreationDate", "ModDate", "/Producer"} {
		require.NotContains(t, file, absent)
	}
}

// TestFacesStandInFixedOrder: only what is used, in the order of page.Faces, whatever the order of use.
func TestFacesStandInFixedOrder(t *testing.T) {
	file := written(t, document(everyItem()))
	var names []string
	for _, match := range regexp.MustCompile(`/FontName /(\S+)`).FindAllSubmatch(file, -1) {
		names = append(names, string(match[1]))
	}
	require.Equal(t, []string{"Go-Regular", "Go-Bold", "Go-Mono"}, names)
}

func TestWriteRefuses(t *testing.T) {
	text := page.Text{X: 6000, Y: 6000, Face: page.Mono, Size: 900, Room: 20000, String: "W101"}
	with := func(change func(*page.Text)) []page.Item {
		changed := text
		change(&changed)
		return []page.Item{changed}
	}
	good := []page.Item{text}
	for want, items := range map[string][]page.Item{
		"there is nothing on it":      nil,
		`the text "W101" has no size`: with(func(t *page.Text) { t.Size = 0 }),
		`the character '日' (U+65E5) of "日" cannot be printed in Go-Mono`:    with(func(t *page.Text) { t.String = "日" }),
		`the character 'W' (U+0057) of "W101" cannot be printed in Nothing`: with(func(t *page.Text) { t.Face = "Nothing" }),
		`a symbol holds one letter of CPTHKRXG and 22 digits, not "W101"`:   {page.Symbol{Symbology: page.DataMatrix, Module: 120, String: "W101"}},
		"a polygon of 2 points":           {page.Path{Points: [][2]page.Pt{{0, 0}, {100, 100}}, Weight: 50}},
		"an item of no known kind, <nil>": {nil},
	} {
		err := Write(io.Discard, document(good, items), fonts.Files)
		require.EqualError(t, err, "MOR-0412-B.packet.pdf: page cutlist/J1/2: "+want)
	}
}

func TestWriteRefusesDocuments(t *testing.T) {
	require.EqualError(t, Write(io.Discard, document(), fonts.Files), "MOR-0412-B.packet.pdf: the document has no page")
	doc := document(everyItem())
	doc.Height = 0
	require.EqualError(t, Write(io.Discard, doc, fonts.Files), "MOR-0412-B.packet.pdf: the paper has no size: 595.28 x 0.00 pt")
	doc = document(everyItem())
	doc.Title = "sled 😀"
	require.EqualError(t, Write(io.Discard, doc, fonts.Files),
		`MOR-0412-B.packet.pdf: the character '😀' (U+1F600) of "sled 😀" cannot stand in the file properties`)
	require.ErrorContains(t, Write(io.Discard, document(everyItem()), fstest.MapFS{}), "face Go-Regular")
}

func TestGuardTurnsPanicsIntoErrors(t *testing.T) {
	require.EqualError(t, guard(func() error { panic("nil map") }), "the PDF library failed: nil map")
	fault := errors.New("fault")
	require.ErrorIs(t, guard(func() error { return fault }), fault)
	require.NoError(t, guard(func() error { return nil }))
}

// fullDisk takes some bytes and fails from then on.
type fullDisk struct{ left int }

var errFull = errors.New("no space left on device")

func (d *fullDisk) Write(p []byte) (int, error) {
	if len(p) > d.left {
		n := d.left
		d.left = 0
		return n, errFull
	}
	d.left -= len(p)
	return len(p), nil
}

func TestWriteErrorsReachTheCaller(t *testing.T) {
	doc := document(everyItem())
	size := len(written(t, doc))
	for _, left := range []int{0, 5000, size - 1} {
		require.ErrorIs(t, Write(&fullDisk{left}, doc, fonts.Files), errFull, "%d of %d bytes", left, size)
	}
	require.NoError(t, Write(&fullDisk{size}, doc, fonts.Files))
}

func TestBookmarksLanguageAndScale(t *testing.T) {
	doc := document(everyItem(), everyItem(), everyItem(), everyItem(), everyItem())
	doc.Language = "en"
	for i, names := range [][2]string{{"Cover", ""}, {"Cut list", "J1"}, {"Cut list", "J1"}, {"Cut list", "P2, Größe"}, {"Pin checklist", "J1 unit 0041"}} {
		doc.Pages[i].Title, doc.Pages[i].Section = names[0], names[1]
	}
	file := written(t, doc)
	requireValid(t, file, 5)
	marks, err := api.Bookmarks(bytes.NewReader(file), model.NewDefaultConfiguration())
	require.NoError(t, err)
	var got []string
	for _, mark := range marks {
		got = append(got, fmt.Sprintf("%s %d", mark.Title, mark.PageFrom))
		for _, kid := range mark.Kids {
			got = append(got, fmt.Sprintf("- %s %d", kid.Title, kid.PageFrom))
		}
	}
	require.Equal(t, []string{"Cover 1", "Cut list 2", "- J1 2", "- P2, Größe 4", "Pin checklist 5", "- J1 unit 0041 5"}, got)
	for _, want := range []string{"/PrintScaling /None", "/Lang (en)", "/PageMode /UseOutlines"} {
		require.Contains(t, string(file), want)
	}
	require.NotContains(t, string(written(t, document(everyItem()))), "/Outlines 1")
}

func TestFileIDFollowsWhatIsPrinted(t *testing.T) {
	id := regexp.MustCompile(`/ID \[<([0-9A-F]{32})>`)
	of := func(items ...[]page.Item) string {
		return string(id.FindSubmatch(written(t, document(items...)))[1])
	}
	require.Equal(t, of(everyItem()), of(everyItem()))
	require.NotEqual(t, of(everyItem()), of(everyItem()[1:]))
}
