package page

import (
	"fmt"
	"io/fs"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Metrics measures text as the PDF writer sets it. It is filled once by LoadMetrics and only read after that, so it may
// be shared between goroutines.
type Metrics struct {
	faces map[Face]*faceMetrics
}

// lastPlane is the last character of the basic plane. Characters above it lose their meaning when text is copied out of
// the PDF, so no face prints them.
const lastPlane = 0xFFFF

// absent marks a character that a face cannot print.
const absent = -1

type faceMetrics struct {
	// advances holds, by character, thousandths of the type size, rounded down as the PDF writer rounds them; or absent.
	advances                   []int16
	ascent, capHeight, descent int // thousandths of the type size, rounded up
}

// LoadMetrics reads every face from files.
func LoadMetrics(files fs.FS) (Metrics, error) {
	m := Metrics{faces: map[Face]*faceMetrics{}}
	for _, face := range Faces() {
		data, err := fs.ReadFile(files, string(face)+".ttf")
		if err != nil {
			return Metrics{}, fmt.Errorf("face %s: %w", face, err)
		}
		m.faces[face], err = readFace(data)
		if err != nil {
			return Metrics{}, fmt.Errorf("face %s: %w", face, err)
		}
	}
	return m, nil
}

// Width returns the width of a line of text, rounded up. Characters that the face cannot print count nothing.
func (m Metrics) Width(face Face, size Pt, text string) Pt {
	f := m.faces[face]
	sum := 0
	for _, r := range text {
		sum += max(f.advance(r), 0)
	}
	return (Pt(sum)*size + 999) / 1000
}

// Missing returns the first character that the face cannot print, and whether there is one. A face cannot print a
// character that it has no glyph for, that would lose parts in the PDF, or that stands for bytes which are no text.
func (m Metrics) Missing(face Face, text string) (rune, bool) {
	f := m.faces[face]
	for _, r := range text {
		if f.advance(r) < 0 {
			return r, true
		}
	}
	return 0, false
}

// Ascent returns how far the face reaches above the base line, accents on capitals included.
func (m Metrics) Ascent(face Face, size Pt) Pt { return scale(m.faces[face].vertical().ascent, size) }

// CapHeight returns the height of a capital letter.
func (m Metrics) CapHeight(face Face, size Pt) Pt {
	return scale(m.faces[face].vertical().capHeight, size)
}

// Descent returns how far the face reaches below the base line, as a positive distance.
func (m Metrics) Descent(face Face, size Pt) Pt { return scale(m.faces[face].vertical().descent, size) }

func scale(thousandths int, size Pt) Pt { return (Pt(thousandths)*size + 999) / 1000 }

func (f *faceMetrics) advance(r rune) int {
	if f == nil || r < 0 || r > lastPlane {
		return absent
	}
	return int(f.advances[r])
}

// vertical returns the face itself, or one of no height where the face is unknown.
func (f *faceMetrics) vertical() *faceMetrics {
	if f == nil {
		return &faceMetrics{}
	}
	return f
}

// readFace measures every character of a TrueType file.
func readFace(data []byte) (*faceMetrics, error) {
	parsed, err := sfnt.Parse(data)
	if err != nil {
		return nil, err
	}
	shapes, err := readOutlines(data)
	if err != nil {
		return nil, err
	}
	reader := faceReader{font: parsed, shapes: shapes, perEm: int(parsed.UnitsPerEm())}
	face := &faceMetrics{advances: make([]int16, lastPlane+1)}
	for r := range face.advances {
		face.advances[r] = reader.measure(rune(r))
	}
	vertical, err := parsed.Metrics(&reader.buffer, fixed.I(reader.perEm), font.HintingNone)
	if err != nil {
		return nil, err
	}
	face.ascent = reader.thousandths(vertical.Ascent)
	face.capHeight = reader.thousandths(vertical.CapHeight)
	face.descent = reader.thousandths(vertical.Descent)
	return face, nil
}

type faceReader struct {
	font   *sfnt.Font
	shapes outlines
	perEm  int
	buffer sfnt.Buffer
}

func (f *faceReader) measure(r rune) int16 {
	// U+FFFD stands for bytes that were no text; printing it would hide the loss.
	if r < ' ' || r == '\uFFFD' {
		return absent
	}
	glyph, err := f.font.GlyphIndex(&f.buffer, r)
	if err != nil || glyph == 0 || !f.shapes.whole(int(glyph)) {
		return absent
	}
	advance, err := f.font.GlyphAdvance(&f.buffer, glyph, fixed.I(f.perEm), font.HintingNone)
	if err != nil {
		return absent
	}
	return int16(advance.Floor() * 1000 / f.perEm)
}

func (f *faceReader) thousandths(units fixed.Int26_6) int {
	return (units.Ceil()*1000 + f.perEm - 1) / f.perEm
}
