// Package pdf writes pages as a PDF, and is the only user of the library that does it.
//
// The file carries the coordinates of the pages to the hundredth of a point. It holds no date and no build
// version: the same document gives the same bytes. Everything is black on white, in one grey colour space, so that a
// printer uses its black alone.
package pdf

import (
	"bufio"
	"fmt"
	"io"
	"io/fs"

	"github.com/signintech/gopdf"

	"loomleaf/internal/page"
)

// creator is the name that the file properties give as the program behind it.
const creator = "loomleaf"

// outputBuffer is the size of the buffer in front of the writer.
const outputBuffer = 64 << 10

// Write writes a document as a PDF. It embeds the faces that the document uses, in the order of page.Faces, each cut
// down to its used characters; faces holds them as files named after the face. An error names the page it comes from:
// a page with nothing on it, a character that a face cannot print, a symbol that cannot be drawn. Errors of w come back
// too; w may have got a part of the file by then.
//
// Text can be copied out of the file as it was put in, as long as no two of its characters share a glyph; in the faces
// of this project none do.
func Write(w io.Writer, doc page.Document, faces fs.FS) error {
	metrics, err := page.LoadMetrics(faces)
	if err != nil {
		return err
	}
	file, err := open(doc, faces)
	if err != nil {
		return fmt.Errorf("%s: %w", doc.Name, err)
	}
	for _, p := range doc.Pages {
		if err := guard(func() error { return drawPage(file, doc.Height, p, metrics) }); err != nil {
			return fmt.Errorf("%s: page %s: %w", doc.Name, p.Name, err)
		}
	}
	if err := guard(func() error { return send(w, file, doc) }); err != nil {
		return fmt.Errorf("%s: %w", doc.Name, err)
	}
	return nil
}

// send writes the finished file and its own catalog. The library drops write errors; the buffer keeps the first one and
// takes no more.
func send(w io.Writer, file *gopdf.GoPdf, doc page.Document) error {
	out := bufio.NewWriterSize(w, outputBuffer)
	whole := &watched{w: out}
	if _, err := file.WriteTo(whole); err != nil {
		return err
	}
	if err := whole.update(doc); err != nil {
		return err
	}
	return out.Flush()
}

// guard turns a panic of the library into an error.
func guard(work func() error) (err error) {
	defer func() {
		if fault := recover(); fault != nil {
			err = fmt.Errorf("the PDF library failed: %v", fault)
		}
	}()
	return work()
}

// open starts a file with the properties and faces of a document.
func open(doc page.Document, faces fs.FS) (*gopdf.GoPdf, error) {
	if len(doc.Pages) == 0 {
		return nil, fmt.Errorf("the document has no page")
	}
	if doc.Width <= 0 || doc.Height <= 0 {
		return nil, fmt.Errorf("the paper has no size: %v x %v pt", doc.Width, doc.Height)
	}
	for _, text := range []string{doc.Title, doc.Subject} {
		if err := checkProperty(text); err != nil {
			return nil, err
		}
	}
	file := &gopdf.GoPdf{}
	file.Start(gopdf.Config{Unit: gopdf.UnitPT, PageSize: gopdf.Rect{W: points(doc.Width), H: points(doc.Height)}})
	file.SetInfo(gopdf.PdfInfo{Title: doc.Title, Author: creator, Subject: doc.Subject, Creator: creator})
	// Fonts stand before the pages: the library looks for them from the start of the file at every change of face.
	for _, face := range usedFaces(doc) {
		data, err := fs.ReadFile(faces, string(face)+".ttf")
		if err != nil {
			return nil, fmt.Errorf("face %s: %w", face, err)
		}
		if err := guard(func() error { return file.AddTTFFontData(string(face), data) }); err != nil {
			return nil, fmt.Errorf("face %s: %w", face, err)
		}
	}
	return file, nil
}

// checkProperty refuses characters that the library garbles in file properties.
func checkProperty(text string) error {
	for _, r := range text {
		if r > 0xFFFF || r < ' ' || r == '\uFFFD' {
			return fmt.Errorf("the character %q (U+%04X) of %q cannot stand in the file properties", r, r, text)
		}
	}
	return nil
}

// usedFaces returns the faces that a document uses, in the order of page.Faces.
func usedFaces(doc page.Document) []page.Face {
	used := map[page.Face]bool{}
	for _, p := range doc.Pages {
		for _, item := range p.Items() {
			if t, is := item.(page.Text); is {
				used[t.Face] = true
			}
		}
	}
	var faces []page.Face
	for _, face := range page.Faces() {
		if used[face] {
			faces = append(faces, face)
		}
	}
	return faces
}

// points converts to the unit of the library, which prints two decimals.
func points(p page.Pt) float64 { return float64(p) / float64(page.Point) }
