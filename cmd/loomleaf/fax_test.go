package main

import (
	"bytes"
	"image"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/klippa-app/go-pdfium/requests"
	"github.com/stretchr/testify/require"

	"loomleaf/fonts"
	"loomleaf/internal/page"
)

// Fine resolution of a fax, dots an inch: ITU-T T.4, as pages that cite it say (second-hand). Pages are drawn at twice the first
// and put on to the dots of a fax that lies half a dot off, as a copy on the glass does.
const (
	faxAcross, faxDown = 204, 196
	faxDrawn           = 2 * faxAcross
)

// faxOf returns a page, or a part of one, as a fax or a copier would: on its dots, off by so many drawn dots, softened by a light blur
// where it is a copy of a copy, and every dot black or white by a threshold.
func faxOf(gray *image.Gray, off int, blur bool, threshold byte) *image.Gray {
	area := image.Rect((gray.Rect.Min.X+1)/2, (gray.Rect.Min.Y*faxDown+faxDrawn-1)/faxDrawn, gray.Rect.Max.X/2, gray.Rect.Max.Y*faxDown/faxDrawn)
	soft, fax := whitePart(area), whitePart(area)
	inked := make([]bool, area.Dy()+2) // from the line above the first to the line below the last
	for i := range area.Dy() {
		inked[i+1] = softLine(gray, soft, area.Min.Y+i, off)
	}
	for i := range area.Dy() {
		if !inked[i+1] && !(blur && (inked[i] || inked[i+2])) {
			continue
		}
		y := area.Min.Y + i
		line := lineOf(fax, y)
		for k, tone := range lineOf(soft, y) {
			dot, x := int(tone), area.Min.X+k
			if blur {
				dot = (4*dot + int(grayAt(soft, x-1, y)) + int(grayAt(soft, x+1, y)) + int(grayAt(soft, x, y-1)) + int(grayAt(soft, x, y+1))) / 8
			}
			if dot < int(threshold) {
				line[k] = 0
			}
		}
	}
	return fax
}

func whitePart(area image.Rectangle) *image.Gray {
	return &image.Gray{Pix: bytes.Repeat([]byte{0xff}, area.Dx()*area.Dy()), Stride: area.Dx(), Rect: area}
}

func lineOf(gray *image.Gray, y int) []byte {
	from := gray.PixOffset(gray.Rect.Min.X, y)
	return gray.Pix[from : from+gray.Rect.Dx()]
}

// softLine puts what is drawn on to the dots of line y of a fax, and reports whether anything is.
func softLine(gray, soft *image.Gray, y, off int) bool {
	const down = float64(faxDrawn) / faxDown
	top, bottom := int(float64(y)*down)+off, min(int(math.Ceil(float64(y+1)*down))+off, gray.Rect.Max.Y)
	inked := false
	for v := top; v < bottom && !inked; v++ {
		inked = bytes.Count(lineOf(gray, v), []byte{0xff}) < gray.Rect.Dx()
	}
	if !inked {
		return false
	}
	line, lines := lineOf(soft, y), bottom-top
	from := 2*soft.Rect.Min.X - gray.Rect.Min.X + off // of the first dot in a drawn line
	sums := make([]int, min(len(line), (gray.Rect.Dx()-from)/2))
	for v := top; v < bottom; v++ {
		drawn := lineOf(gray, v)[from:]
		for x := range sums {
			sums[x] += int(drawn[2*x]) + int(drawn[2*x+1])
		}
	}
	for x, sum := range sums {
		line[x] = byte(sum / (2 * lines))
	}
	return true
}

func grayAt(gray *image.Gray, x, y int) byte {
	if !(image.Point{X: x, Y: y}).In(gray.Rect) {
		return 0xff
	}
	return gray.Pix[gray.PixOffset(x, y)]
}

// drawnPage renders the only page of a document at the drawn resolution.
func drawnPage(t *testing.T, document page.Document) *image.Gray {
	t.Helper()
	instance, opened := printed(t, document)
	defer instance.Close()
	rendered, err := instance.RenderPageInDPI(&requests.RenderPageInDPI{DPI: faxDrawn, ImageFormat: requests.RenderImageFormatGrayscale,
		Page: requests.Page{ByIndex: &requests.PageByIndex{Document: opened}}})
	require.NoError(t, err)
	defer rendered.Cleanup()
	return cloned(rendered.Result.RenderedImage.(*image.Gray))
}

// drawnParts renders parts of every page of a document at the drawn resolution, page by page, with a little around them.
func drawnParts(t *testing.T, document page.Document, parts []box) [][]*image.Gray {
	t.Helper()
	const around = 3
	instance, opened := printed(t, document)
	defer instance.Close()
	drawn := make([][]*image.Gray, len(document.Pages))
	for i := range document.Pages {
		r := reader{instance: instance, document: document, handle: requests.Page{ByIndex: &requests.PageByIndex{Document: opened, Index: i}}}
		for _, part := range parts {
			area := pixels(part, faxDrawn, around)
			gray, err := r.dots(faxDrawn, area)
			require.NoError(t, err)
			gray.Rect = area
			drawn[i] = append(drawn[i], gray)
		}
	}
	return drawn
}

// faxLetters are the characters of ids that are told apart.
const faxLetters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789"

// ids returns the texts of a page in a face of ids, of one size or more.
func idsOf(pg page.Page, least page.Pt) []page.Text {
	var ids []page.Text
	for _, item := range pg.Items() {
		text, is := item.(page.Text)
		if is && (text.Face == page.Mono || text.Face == page.MonoBold) && text.Size >= least && strings.ContainsAny(text.String, faxLetters) {
			ids = append(ids, text)
		}
	}
	if few := 60; len(ids) > few { // evenly over the page
		var some []page.Text
		for i := range few {
			some = append(some, ids[i*len(ids)/few])
		}
		return some
	}
	return ids
}

// cells returns the place of each character of a text in a face of one width, in points.
func cells(m page.Metrics, text page.Text) []box {
	advance := points(m.Width(text.Face, text.Size, "0"))
	extent := boxOf(page.Extent(text, m))
	var boxes []box
	for i := range []rune(text.String) {
		left := extent.left + float64(i)*advance
		boxes = append(boxes, box{left, points(text.Y) - points(m.CapHeight(text.Face, text.Size)) - 0.5, left + advance, points(text.Y) + points(m.Descent(text.Face, text.Size))})
	}
	return boxes
}

// misread counts the characters of a page that a fax of it does not tell from another: each is compared with every letter and digit
// as it would be drawn at the same place, a little darker, and the nearest must be itself. Tried is how many were compared.
func misread(t *testing.T, document page.Document, m page.Metrics, least page.Pt, blur bool, threshold byte) (wrong []string, tried int) {
	t.Helper()
	ids := idsOf(document.Pages[0], least)
	samples := document
	samples.Pages = []page.Page{document.Pages[0]}
	for _, letter := range faxLetters {
		var items []page.Item
		for _, id := range ids {
			id.String = strings.Repeat(string(letter), len([]rune(id.String)))
			items = append(items, id)
		}
		samples.Pages = append(samples.Pages, page.Page{Name: "sample/" + string(letter), Body: items, Live: document.Pages[0].Live})
	}
	var parts []box
	for _, id := range ids {
		boxes := cells(m, id)
		parts = append(parts, box{boxes[0].left, boxes[0].top, boxes[len(boxes)-1].right, boxes[0].bottom})
	}
	drawn := drawnParts(t, samples, parts)
	hash := hashes()
	for n, id := range ids {
		fax := faxOf(drawn[0][n], 1, blur, threshold)
		isHash := hash.MatchString(id.String)
		var models [][2]*image.Gray // of each letter, on the dots and half a dot off
		for _, letter := range drawn[1:] {
			models = append(models, [2]*image.Gray{faxOf(letter[n], 0, false, 145), faxOf(letter[n], 1, false, 145)})
		}
		for i, cell := range cells(m, id) {
			meant := []rune(id.String)[i]
			at := strings.IndexRune(faxLetters, meant)
			if at < 0 {
				continue
			}
			tried++
			best, fewest := -1, math.MaxInt
			for k, model := range models {
				if isHash && !strings.ContainsRune("0123456789abcdef", rune(faxLetters[k])) {
					continue // a hash holds no other letters
				}
				if d := apart(fax, model[1], cell, apart(fax, model[0], cell, fewest)); d < fewest {
					best, fewest = k, d
				}
			}
			if best != at {
				wrong = append(wrong, string(meant)+" of "+id.String+" for "+string(faxLetters[best]))
			}
		}
	}
	return wrong, tried
}

// apart counts the dots in which a cell of two faxes differs, at the best of nine shifts of a dot; never more than fewest, beyond which
// nobody asks.
func apart(fax, model *image.Gray, cell box, fewest int) int {
	left, right := int(cell.left*faxAcross/72), int(math.Ceil(cell.right*faxAcross/72))
	top, bottom := int(cell.top*faxDown/72), int(math.Ceil(cell.bottom*faxDown/72))
	for dx := -1; dx <= 1; dx++ {
		for dy := -1; dy <= 1; dy++ {
			count := 0
			for y := top; y < bottom && count < fewest; y++ {
				for x := left; x < right; x++ {
					if (grayAt(fax, x, y) == 0) != (grayAt(model, x+dx, y+dy) == 0) {
						count++
					}
				}
			}
			fewest = min(fewest, count)
		}
	}
	return fewest
}

// faxedPages are pages of the small demo that people copy most.
func faxedPages(t *testing.T) []page.Document {
	t.Helper()
	d := made(t, "sled-small", jobText(t, "sled-small"))
	var documents []page.Document
	one := func(document page.Document, pg page.Page) {
		document.Pages = []page.Page{pg}
		documents = append(documents, document)
	}
	seen := map[string]bool{}
	for _, pg := range d.packet.Pages.Pages {
		if slices.Contains([]string{"cutlist", "pins", "contents"}, pg.Sheet) && !seen[pg.Sheet] {
			seen[pg.Sheet] = true
			one(d.packet.Pages, pg)
		}
	}
	one(d.packet.Labels, d.packet.Labels.Pages[0])
	return documents
}

// TestIDsSurviveAFax reads every id of pages that were faxed or copied; type of 5 pt does not survive, so the test can fail.
func TestIDsSurviveAFax(t *testing.T) {
	t.Parallel()
	skipUnderRace(t)
	metrics, err := page.LoadMetrics(fonts.Files)
	require.NoError(t, err)
	for _, document := range faxedPages(t) {
		if document.Pages[0].Sheet == "contents" {
			continue // the same sizes, and four times as many
		}
		wrong, tried := misread(t, document, metrics, 9*page.Point, true, 128)
		require.Greater(t, tried, 50, document.Pages[0].Name)
		require.Empty(t, wrong, "%s faxed", document.Pages[0].Name)
	}
	var small []page.Item
	for i, line := range []string{"W1O0 W100 Q0 D0", "8B8B 5S5S 6G6G", "I1lI 2Z2Z rnm cl"} {
		small = append(small, page.Text{X: 6000, Y: page.Pt(9000 + 1500*i), Face: page.Mono, Size: 5 * page.Point, Room: 40000, String: line})
	}
	wrong, _ := misread(t, sheetOf(small), metrics, page.Point, true, 128)
	require.NotEmpty(t, wrong, "5 pt would survive")
}

// brokenLines counts the rules and edges of a page that a fax breaks: less than 99 in 100 of their dots are black.
func brokenLines(fax *image.Gray, pg page.Page) (broken, tried int) {
	check := func(r page.Rect) {
		tried++
		at, black, whole := boxOf(r), 0, 0
		if r.H == 0 {
			y := int(at.top * faxDown / 72)
			for x := int(at.left*faxAcross/72) + 1; x < int(at.right*faxAcross/72)-1; x++ {
				whole++
				if grayAt(fax, x, y-1) == 0 || grayAt(fax, x, y) == 0 || grayAt(fax, x, y+1) == 0 {
					black++
				}
			}
		} else {
			x := int(at.left * faxAcross / 72)
			for y := int(at.top*faxDown/72) + 1; y < int(at.bottom*faxDown/72)-1; y++ {
				whole++
				if grayAt(fax, x-1, y) == 0 || grayAt(fax, x, y) == 0 || grayAt(fax, x+1, y) == 0 {
					black++
				}
			}
		}
		if black*100 < whole*99 {
			broken++
		}
	}
	for _, item := range pg.Items() {
		switch i := item.(type) {
		case page.Rule:
			if len(i.Dash) == 0 && (i.X1 == i.X2 || i.Y1 == i.Y2) {
				check(page.Rect{X: min(i.X1, i.X2), Y: min(i.Y1, i.Y2), W: max(i.X1-i.X2, i.X2-i.X1), H: max(i.Y1-i.Y2, i.Y2-i.Y1)})
			}
		case page.Box:
			if !i.Filled {
				check(page.Rect{X: i.X, Y: i.Y, W: i.W})
				check(page.Rect{X: i.X, Y: i.Y + i.H, W: i.W})
				check(page.Rect{X: i.X, Y: i.Y, H: i.H})
				check(page.Rect{X: i.X + i.W, Y: i.Y, H: i.H})
			}
		}
	}
	return broken, tried
}

// TestRulesAndBoxesSurviveAFax counts broken lines of pages that are a copy of a copy, on the dots of the fax and half a dot off. Of
// rules of half a point some break, of those of three quarters, the lightest of the sheets, none.
func TestRulesAndBoxesSurviveAFax(t *testing.T) {
	t.Parallel()
	skipUnderRace(t)
	for _, document := range faxedPages(t) {
		drawn := drawnPage(t, document)
		for _, off := range []int{0, 1} {
			for _, threshold := range []byte{128, 150} {
				broken, tried := brokenLines(faxOf(drawn, off, true, threshold), document.Pages[0])
				require.Greater(t, tried, 4, document.Pages[0].Name)
				require.Zero(t, broken, "%s: of %d lines, at threshold %d", document.Pages[0].Name, tried, threshold)
			}
		}
	}
	require.Positive(t, brokenOfWeight(t, page.Point/2), "rules of half a point would survive")
	require.Zero(t, brokenOfWeight(t, page.Point*3/4))
}

// brokenOfWeight counts the broken ones of twenty rules of a weight, at as many places within a dot.
func brokenOfWeight(t *testing.T, weight page.Pt) int {
	var rules []page.Item
	for i := range page.Pt(20) {
		rules = append(rules, page.Rule{X1: 6000, Y1: 9000 + 1002*i, X2: 40000, Y2: 9000 + 1002*i, Weight: weight})
	}
	document := sheetOf(rules)
	broken, _ := brokenLines(faxOf(drawnPage(t, document), 1, true, 128), document.Pages[0])
	return broken
}

// TestTheHeadersBarsSurviveAFax reads the symbol at the head of every faxed page: one try at least is right, and none wrong.
func TestTheHeadersBarsSurviveAFax(t *testing.T) {
	t.Parallel()
	skipUnderRace(t)
	for _, document := range faxedPages(t) {
		pg := document.Pages[0]
		fax := faxOf(drawnPage(t, document), 1, true, 128)
		for _, item := range pg.Frame {
			symbol, is := item.(page.Symbol)
			if !is {
				continue
			}
			area := boxOf(symbol.Quiet())
			crop := image.Rect(int(area.left*faxAcross/72), int(area.top*faxDown/72)+2, int(area.right*faxAcross/72), int(area.bottom*faxDown/72)-2)
			right := 0
			for scale := 1; scale <= 4; scale++ {
				text, err := decode(enlarged(cropped(fax, crop, 0), scale), true)
				if err == nil {
					require.Equal(t, symbol.String, text, pg.Name)
					right++
				}
			}
			require.Positive(t, right, "%s: the symbol at its head cannot be read", pg.Name)
		}
	}
}

// enlarged repeats every dot.
func enlarged(gray *image.Gray, scale int) *image.Gray {
	large := image.NewGray(image.Rect(0, 0, gray.Rect.Dx()*scale, gray.Rect.Dy()*scale))
	for y := range large.Rect.Dy() {
		for x := range large.Rect.Dx() {
			large.Pix[y*large.Stride+x] = gray.Pix[y/scale*gray.Stride+x/scale]
		}
	}
	return large
}
