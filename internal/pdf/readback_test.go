package pdf

import (
	"image"
	"image/color"
	"image/draw"
	"math/rand/v2"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/klippa-app/go-pdfium"
	"github.com/klippa-app/go-pdfium/references"
	"github.com/klippa-app/go-pdfium/requests"
	"github.com/klippa-app/go-pdfium/webassembly"
	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/datamatrix"
	"github.com/makiuchi-d/gozxing/oned"
	"github.com/stretchr/testify/require"

	"loomleaf/fonts"
	"loomleaf/internal/page"
)

// viewer is a PDF viewer of another project. Starting it takes seconds, so all tests share one.
var viewer = sync.OnceValues(func() (pdfium.Pdfium, error) {
	pool, err := webassembly.Init(webassembly.Config{MinIdle: 1, MaxIdle: 1, MaxTotal: 1})
	if err != nil {
		return nil, err
	}
	return pool.GetInstance(0)
})

// view opens a written file.
func view(t *testing.T, file []byte) (pdfium.Pdfium, references.FPDF_DOCUMENT) {
	instance, err := viewer()
	require.NoError(t, err)
	opened, err := instance.OpenDocument(&requests.OpenDocument{File: &file})
	require.NoError(t, err)
	return instance, opened.Document
}

func pageOf(document references.FPDF_DOCUMENT, index int) requests.Page {
	return requests.Page{ByIndex: &requests.PageByIndex{Document: document, Index: index}}
}

// TestTextCanBeCopiedOut sets every printable character of every face, one line of text each, and reads them back.
func TestTextCanBeCopiedOut(t *testing.T) {
	metrics, err := page.LoadMetrics(fonts.Files)
	require.NoError(t, err)
	for _, face := range page.Faces() {
		var items []page.Item
		var want []string
		for chunk := range slices.Chunk(copied(metrics, face), 8) {
			// Letters on both sides keep blanks and marks inside the line.
			line := "a" + string(chunk) + "z"
			want = append(want, line)
			items = append(items, page.Text{X: 6000, Y: page.Pt(3000 + 850*len(items)), Face: face, Size: 700, Room: 50000, String: line})
		}
		instance, opened := view(t, written(t, document(items)))
		text, err := instance.GetPageText(&requests.GetPageText{Page: pageOf(opened, 0)})
		require.NoError(t, err)
		require.Equal(t, want, strings.Split(strings.TrimSpace(text.Text), "\r\n"), "%s", face)
	}
}

// copied leaves out the two ligatures, which the viewer copies as two letters.
func copied(m page.Metrics, face page.Face) []rune {
	return slices.DeleteFunc(printable(m, face), func(r rune) bool { return r == '\ufb01' || r == '\ufb02' })
}

// TestSymbolsCanBeRead draws a page of symbols at the sizes in use, lets the viewer raster it and reads each: one right
// read at least on the ladder, and no wrong one.
func TestSymbolsCanBeRead(t *testing.T) {
	symbols := randomSymbols()
	var items []page.Item
	for _, s := range symbols {
		items = append(items, s)
	}
	instance, opened := view(t, written(t, document(items)))
	for _, s := range symbols {
		right := 0
		for _, step := range ladder {
			img := crop(t, instance, pageOf(opened, 0), s, step)
			switch text, err := decode(s.Symbology, img); {
			case err != nil:
			case text == s.String:
				right++
			default:
				require.Fail(t, "wrong read", "%s as %s at %d dpi", s.String, text, step.dpi)
			}
		}
		require.Positive(t, right, "%s %s of %v pt", s.Symbology, s.String, s.Module)
	}
}

// ladder holds the resolutions and white margins, in modules, that a symbol is tried with.
var ladder = []rung{{300, 1}, {300, 1.5}, {300, 3}, {400, 1.5}, {400, 3}, {600, 1}, {600, 3}}

type rung struct {
	dpi    int
	margin float64
}

// randomSymbols fills a page with symbols of every size in use, at places that no raster grid favours.
func randomSymbols() []page.Symbol {
	random := rand.New(rand.NewPCG(1, 2))
	text := func() string {
		digits := []byte{"CPTHKRX"[random.IntN(7)]}
		for range 22 {
			digits = append(digits, byte('0'+random.IntN(10)))
		}
		return string(digits)
	}
	var symbols []page.Symbol
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

// crop rasters a symbol with a margin, and puts white paper around it.
func crop(t *testing.T, instance pdfium.Pdfium, on requests.Page, s page.Symbol, step rung) image.Image {
	margin := step.margin * points(s.Module)
	area := s.Area()
	rendered, err := instance.RenderPageInDPI(&requests.RenderPageInDPI{
		Page: on, DPI: step.dpi, ImageFormat: requests.RenderImageFormatGrayscale,
		Crop: &requests.RenderPageCrop{X: points(area.X) - margin, Y: points(area.Y) - margin,
			Width: points(area.W) + 2*margin, Height: points(area.H) + 2*margin},
	})
	require.NoError(t, err)
	defer rendered.Cleanup()
	raster := rendered.Result.RenderedImage
	white := 10 * int(points(s.Module)*float64(step.dpi)/72+1)
	if s.Symbology == page.DataMatrix {
		white = 0
	}
	size := raster.Bounds().Size()
	img := image.NewGray(image.Rect(0, 0, size.X+2*white, size.Y))
	draw.Draw(img, img.Bounds(), image.NewUniform(color.White), image.Point{}, draw.Src)
	draw.Draw(img, image.Rect(white, 0, white+size.X, size.Y), raster, raster.Bounds().Min, draw.Src)
	return img
}

func decode(s page.Symbology, img image.Image) (string, error) {
	bitmap, err := gozxing.NewBinaryBitmapFromImage(img)
	if err != nil {
		return "", err
	}
	var reader gozxing.Reader = datamatrix.NewDataMatrixReader()
	if s == page.Code128 {
		reader = oned.NewCode128Reader()
	}
	result, err := reader.Decode(bitmap, nil)
	if err != nil {
		return "", err
	}
	return result.GetText(), nil
}
