package main

import (
	"bytes"
	"fmt"
	"image"
	"math"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/klippa-app/go-pdfium"
	"github.com/klippa-app/go-pdfium/enums"
	"github.com/klippa-app/go-pdfium/references"
	"github.com/klippa-app/go-pdfium/requests"
	"github.com/klippa-app/go-pdfium/webassembly"
	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/datamatrix"
	"github.com/makiuchi-d/gozxing/oned"
	"github.com/stretchr/testify/require"

	"loomleaf/fonts"
	"loomleaf/internal/page"
	"loomleaf/internal/pdf"
)

// box is a rectangle on paper, in points from the upper left corner.
type box struct{ left, top, right, bottom float64 }

func (b box) middle() float64 { return (b.top + b.bottom) / 2 }

// within reports whether a box lies in an area from left to right, and with its middle from top to bottom.
func (b box) within(area box) bool {
	return b.left > area.left && b.right < area.right && b.middle() > area.top && b.middle() < area.bottom
}

// word is one line of text in one face, as a reader of the PDF finds it.
type word struct {
	box
	text, face string
	size       float64
}

// scan is a symbol as it was read from the raster of the page.
type scan struct {
	box
	text string
	bars bool
	used bool
}

// paper is one printed page as read back. Of what was meant to be printed it knows the name, for messages.
type paper struct {
	name   string
	words  []word
	scans  []scan
	ticks  []box // squares to tick
	faults []string
}

// reader reads pages of one PDF.
type reader struct {
	instance pdfium.Pdfium
	document page.Document
	handle   requests.Page
	thorough bool // every step of the ladder is tried, not only up to the first right read
}

// rasteriser starts the PDF reader once: compiling it takes seconds. It has a place for every test that runs at the same time.
var rasteriser = sync.OnceValues(func() (pdfium.Pool, error) {
	return webassembly.Init(webassembly.Config{MinIdle: 1, MaxIdle: 2, MaxTotal: runtime.GOMAXPROCS(0) + 1})
})

// printed writes a document and opens it in the PDF reader, which the caller closes.
func printed(t *testing.T, document page.Document) (pdfium.Pdfium, references.FPDF_DOCUMENT) {
	t.Helper()
	var file bytes.Buffer
	require.NoError(t, pdf.Write(&file, document, fonts.Files))
	pool, err := rasteriser()
	require.NoError(t, err)
	instance, err := pool.GetInstance(time.Minute)
	require.NoError(t, err)
	data := file.Bytes()
	opened, err := instance.OpenDocument(&requests.OpenDocument{File: &data})
	require.NoError(t, err)
	return instance, opened.Document
}

// readDocument writes a document and reads it back; with pages named, only those.
func readDocument(t *testing.T, document page.Document, thorough bool, only ...string) []paper {
	t.Helper()
	instance, opened := printed(t, document)
	defer instance.Close()
	count, err := instance.FPDF_GetPageCount(&requests.FPDF_GetPageCount{Document: opened})
	require.NoError(t, err)
	require.Equal(t, len(document.Pages), count.PageCount, "pages of %s", document.Name)
	var papers []paper
	for i, p := range document.Pages {
		if len(only) > 0 && only[0] != p.Name {
			continue
		}
		handle := requests.Page{ByIndex: &requests.PageByIndex{Document: opened, Index: i}}
		r := reader{instance: instance, document: document, handle: handle, thorough: thorough}
		read, err := r.page(p)
		require.NoError(t, err, "page %s", p.Name)
		papers = append(papers, read)
	}
	return papers
}

// page reads the words and the symbols of a page, and looks for ink outside its live area.
func (r reader) page(p page.Page) (paper, error) {
	read := paper{name: p.Name}
	if err := r.readWords(&read); err != nil {
		return paper{}, err
	}
	area := boxOf(p.Live)
	for _, w := range read.words {
		over := 1 + w.size/20 // the reader gives letters a box that is up to a twentieth of their size too high
		if w.left < area.left-over || w.right > area.right+over || w.top < area.top-over || w.bottom > area.bottom+over {
			read.fault("%q stands outside the live area", w.text)
		}
	}
	if err := r.readTicks(&read); err != nil {
		return paper{}, err
	}
	if err := r.checkMargins(&read, area); err != nil {
		return paper{}, err
	}
	for _, item := range p.Items() {
		if symbol, is := item.(page.Symbol); is {
			if err := r.readSymbol(&read, symbol); err != nil {
				return paper{}, err
			}
		}
	}
	return read, nil
}

func (p *paper) fault(format string, values ...any) {
	p.faults = append(p.faults, p.name+": "+fmt.Sprintf(format, values...))
}

func boxOf(r page.Rect) box {
	return box{points(r.X), points(r.Y), points(r.X + r.W), points(r.Y + r.H)}
}

func points(p page.Pt) float64 { return float64(p) / float64(page.Point) }

// readWords takes the text of the page by its text objects: one for every line that was set.
func (r reader) readWords(read *paper) error {
	text, err := r.instance.GetPageTextStructured(&requests.GetPageTextStructured{Page: r.handle,
		Mode: requests.GetPageTextStructuredModeRects, CollectFontInformation: true})
	if err != nil {
		return err
	}
	height := points(r.document.Height)
	for _, rect := range text.Rects {
		at := rect.PointPosition
		w := word{text: strings.TrimSpace(rect.Text), face: rect.FontInformation.Name, size: rect.FontInformation.Size,
			box: box{at.Left, height - at.Top, at.Right, height - at.Bottom}}
		if strings.ContainsAny(w.text, "\r\n") {
			read.fault("texts stand over each other: %q", w.text)
		}
		read.words = append(read.words, w)
	}
	return nil
}

// readTicks finds the squares of 5 to 8 mm on sheets that people tick.
func (r reader) readTicks(read *paper) error {
	if !slices.Contains([]string{"Cut list", "Not cut on the line", "Pin checklist", "Joints"}, read.title()) {
		return nil
	}
	const least, most, square = 14, 23, 0.1 // points
	objects, err := r.instance.FPDFPage_CountObjects(&requests.FPDFPage_CountObjects{Page: r.handle})
	if err != nil {
		return err
	}
	height := points(r.document.Height)
	for i := range objects.Count {
		object, err := r.instance.FPDFPage_GetObject(&requests.FPDFPage_GetObject{Page: r.handle, Index: i})
		if err != nil {
			return err
		}
		kind, err := r.instance.FPDFPageObj_GetType(&requests.FPDFPageObj_GetType{PageObject: object.PageObject})
		if err != nil {
			return err
		}
		if kind.Type != enums.FPDF_PAGEOBJ_PATH {
			continue
		}
		at, err := r.instance.FPDFPageObj_GetBounds(&requests.FPDFPageObj_GetBounds{PageObject: object.PageObject})
		if err != nil {
			return err
		}
		tick := box{float64(at.Left), height - float64(at.Top), float64(at.Right), height - float64(at.Bottom)}
		if wide, tall := tick.right-tick.left, tick.bottom-tick.top; wide > least && wide < most && math.Abs(wide-tall) < square {
			read.ticks = append(read.ticks, tick)
		}
	}
	return nil
}

// ticksIn counts the squares in an area.
func (p *paper) ticksIn(area box) int {
	count := 0
	for _, tick := range p.ticks {
		if tick.left > area.left && tick.right < area.right && tick.middle() > area.top && tick.middle() < area.bottom {
			count++
		}
	}
	return count
}

// dots renders a part of the page, in dots of a resolution, as it would stand in the whole page, which takes a hundred times as long. What
// lies beyond the paper is white.
func (r reader) dots(dpi int, area image.Rectangle) (*image.Gray, error) {
	dot := 72 / float64(dpi)
	rendered, err := r.instance.RenderPageInDPI(&requests.RenderPageInDPI{Page: r.handle, DPI: dpi, ImageFormat: requests.RenderImageFormatGrayscale,
		Crop: &requests.RenderPageCrop{X: float64(area.Min.X) * dot, Y: float64(area.Min.Y) * dot, Width: float64(area.Dx()) * dot, Height: float64(area.Dy()) * dot}})
	if err != nil {
		return nil, err
	}
	defer rendered.Cleanup()
	return cloned(rendered.Result.RenderedImage.(*image.Gray)), nil
}

// cloned keeps a raster beyond the rendering that it belongs to.
func cloned(gray *image.Gray) *image.Gray {
	return &image.Gray{Pix: slices.Clone(gray.Pix), Stride: gray.Stride, Rect: gray.Rect}
}

// checkMargins asks that nothing is printed outside the live area, but for half a rule that runs on its edge.
func (r reader) checkMargins(read *paper, live box) error {
	const dpi = 300
	sheet := pixels(box{0, 0, points(r.document.Width), points(r.document.Height)}, dpi, 0)
	inner := pixels(live, dpi, 1).Intersect(sheet)
	for _, strip := range []image.Rectangle{
		{sheet.Min, image.Pt(sheet.Max.X, inner.Min.Y)}, {image.Pt(sheet.Min.X, inner.Min.Y), image.Pt(inner.Min.X, inner.Max.Y)},
		{image.Pt(inner.Max.X, inner.Min.Y), image.Pt(sheet.Max.X, inner.Max.Y)}, {image.Pt(sheet.Min.X, inner.Max.Y), sheet.Max},
	} {
		if strip.Empty() {
			continue
		}
		gray, err := r.dots(dpi, strip)
		if err != nil {
			return err
		}
		for y := range strip.Dy() {
			if inked(gray.Pix[y*gray.Stride : y*gray.Stride+strip.Dx()]) {
				read.fault("ink outside the live area, %.0f pt from the top", float64(strip.Min.Y+y)*72/dpi)
				return nil
			}
		}
	}
	return nil
}

// TestPartsOfAPageAreDrawnAsTheWhole compares every symbol, and the upper left corner with what lies beyond it, with the page drawn whole.
// The reader rounds the grey of an edge by a shade or two.
func TestPartsOfAPageAreDrawnAsTheWhole(t *testing.T) {
	t.Parallel()
	const shades, around = 4, 3
	document := sheetOf(randomSymbols())
	instance, opened := printed(t, document)
	defer instance.Close()
	r := reader{instance: instance, document: document, handle: requests.Page{ByIndex: &requests.PageByIndex{Document: opened}}}
	areas := []box{{-30, -20, 90, 60}}
	for _, item := range document.Pages[0].Body {
		areas = append(areas, boxOf(item.(page.Symbol).Area()))
	}
	for _, dpi := range []int{300, 400, 600} {
		rendered, err := instance.RenderPageInDPI(&requests.RenderPageInDPI{Page: r.handle, DPI: dpi, ImageFormat: requests.RenderImageFormatGrayscale})
		require.NoError(t, err)
		whole := cloned(rendered.Result.RenderedImage.(*image.Gray))
		rendered.Cleanup()
		for _, area := range areas {
			at := pixels(area, dpi, around)
			want := cropped(whole, at, 0)
			part, err := r.dots(dpi, at)
			require.NoError(t, err)
			part = cropped(part, part.Rect, 0)
			require.Equal(t, want.Rect, part.Rect)
			apart := byte(0)
			for i, dot := range want.Pix {
				apart = max(apart, max(dot, part.Pix[i])-min(dot, part.Pix[i]))
			}
			require.LessOrEqual(t, apart, byte(shades), "%d dpi, %v", dpi, at)
		}
	}
}

// inked reports whether a dot of a line is darker than the trace that a rule on the edge may leave.
func inked(line []byte) bool {
	const trace = 0xf0
	white := bytes.Count(line, []byte{0xff}) == len(line) // of most lines, and quickly counted
	return !white && slices.Min(line) < trace
}

// pixels returns the pixels that hold a box and so many points around it.
func pixels(b box, dpi int, around float64) image.Rectangle {
	scale := float64(dpi) / 72
	return image.Rect(int(math.Floor((b.left-around)*scale)), int(math.Floor((b.top-around)*scale)),
		int(math.Ceil((b.right+around)*scale)), int(math.Ceil((b.bottom+around)*scale)))
}

// ladder lists the tries for one symbol: one is not enough even for perfect print. Margins are in modules. The decoder
// looks from the middle of a picture outwards and takes a white frame inside a symbol for its edge, whatever the
// resolution; the last tries set the middle aside.
var ladder = []struct {
	dpi           int
	margin, aside float64
}{{300, 1, 0}, {300, 1.5, 0}, {300, 3, 0}, {400, 1.5, 0}, {400, 3, 0}, {600, 1, 0}, {600, 3, 0}, {300, 1, 5}, {300, 1, 8}}

// barsQuiet is the quiet zone of a Code 128, in modules.
const barsQuiet = 10

// readSymbol reads a symbol: at least one try must read it, and none may read something else.
func (r reader) readSymbol(read *paper, symbol page.Symbol) error {
	found := scan{box: boxOf(symbol.Area()), bars: symbol.Symbology == page.Code128}
	for _, step := range ladder {
		area := pixels(found.box, step.dpi, step.margin*points(symbol.Module))
		if found.bars {
			side := int(math.Ceil(barsQuiet * points(symbol.Module) * float64(step.dpi) / 72))
			area = pixels(found.box, step.dpi, -1)
			area.Min.X, area.Max.X = area.Min.X-side, area.Max.X+side
		}
		gray, err := r.dots(step.dpi, area)
		if err != nil {
			return err
		}
		aside := int(step.aside * points(symbol.Module) * float64(step.dpi) / 72)
		text, err := decode(cropped(gray, gray.Rect, aside), found.bars)
		switch {
		case err != nil:
			continue
		case text != symbol.String:
			read.fault("the symbol of %q reads %q", symbol.Says, text)
		}
		found.text = text
		if !r.thorough {
			break
		}
	}
	if found.text == "" {
		read.fault("the symbol of %q cannot be read", symbol.Says)
		return nil
	}
	read.scans = append(read.scans, found)
	return nil
}

// cropped copies a part of a raster, with white put on above and left of it; what lies beyond the paper is white.
func cropped(gray *image.Gray, area image.Rectangle, aside int) *image.Gray {
	part := image.NewGray(image.Rect(0, 0, area.Dx()+aside, area.Dy()+aside))
	for i := range part.Pix {
		part.Pix[i] = 0xff
	}
	inside := area.Intersect(gray.Bounds())
	for y := inside.Min.Y; y < inside.Max.Y; y++ {
		from := gray.Pix[y*gray.Stride+inside.Min.X : y*gray.Stride+inside.Max.X]
		copy(part.Pix[(y-area.Min.Y+aside)*part.Stride+inside.Min.X-area.Min.X+aside:], from)
	}
	return part
}

func decode(gray *image.Gray, bars bool) (string, error) {
	bitmap, err := gozxing.NewBinaryBitmapFromImage(gray)
	if err != nil {
		return "", err
	}
	var reader gozxing.Reader = datamatrix.NewDataMatrixReader()
	if bars {
		reader = oned.NewCode128Reader()
	}
	result, err := reader.Decode(bitmap, nil)
	if err != nil {
		return "", err
	}
	return result.GetText(), nil
}
