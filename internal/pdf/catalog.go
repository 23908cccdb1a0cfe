package pdf

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"io"
	"regexp"
	"strconv"

	"loomleaf/internal/page"
)

// keptTail holds the trailer of any file: it grows with title and subject alone.
const keptTail = 64 << 10

// watched passes a file on and remembers what an update of it must know: its length, its head with the list of pages,
// and its tail with the trailer.
type watched struct {
	w          io.Writer
	head, tail []byte
	listed     bool // the head holds the list of pages
	length     int
}

func (f *watched) Write(data []byte) (int, error) {
	if !f.listed {
		f.head = append(f.head, data...)
		f.listed = bytes.Count(f.head, []byte("endobj")) >= 2
	}
	f.tail = append(f.tail, data...)
	if len(f.tail) > 2*keptTail {
		f.tail = append([]byte(nil), f.tail[len(f.tail)-keptTail:]...)
	}
	f.length += len(data)
	return f.w.Write(data)
}

var (
	kidList  = regexp.MustCompile(`/Kids \[([^\]]*)\]`)
	kid      = regexp.MustCompile(`(\d+) 0 R`)
	trailer  = regexp.MustCompile(`(?s)trailer\n<<\n(.*)>>\nstartxref\n(\d+)\n%%EOF\s*$`)
	sizeLine = regexp.MustCompile(`/Size (\d+)`)
)

// update appends the catalog that the library cannot write: bookmarks, language, and how the file is shown and printed
// (ISO 32000-1, 7.5.6 incremental updates, 12.2 viewer preferences, 12.3.3 document outline).
func (f *watched) update(doc page.Document) error {
	list, end := kidList.FindSubmatch(f.head), trailer.FindSubmatch(f.tail)
	if list == nil || end == nil {
		return fmt.Errorf("the PDF library wrote a file of another form")
	}
	var pages []string
	for _, match := range kid.FindAllSubmatch(list[1], -1) {
		pages = append(pages, string(match[1]))
	}
	size := sizeLine.FindSubmatch(end[1])
	if size == nil || len(pages) != len(doc.Pages) {
		return fmt.Errorf("the PDF library wrote %d pages of %d", len(pages), len(doc.Pages))
	}
	first, err := strconv.Atoi(string(size[1]))
	if err != nil {
		return err
	}
	outline := outline(doc.Bookmarks(), pages, first)
	u := updated{start: f.length}
	u.object(1, catalog(doc, first, len(outline) > 0))
	for i, text := range outline {
		u.object(first+i, text)
	}
	u.end(end[1], string(end[2]), first+len(outline), documentID(doc))
	_, err = f.w.Write(u.out.Bytes())
	return err
}

// updated is the text of an update and where its objects stand.
type updated struct {
	out     bytes.Buffer
	start   int
	numbers []int
	places  []int
}

func (u *updated) object(number int, text string) {
	u.numbers, u.places = append(u.numbers, number), append(u.places, u.start+u.out.Len())
	fmt.Fprintf(&u.out, "%d 0 obj\n<<\n%s>>\nendobj\n", number, text)
}

// end writes the cross-references, the catalog first, and the trailer of the library with the new size.
func (u *updated) end(trailer []byte, previous string, size int, id string) {
	at := u.start + u.out.Len()
	fmt.Fprintf(&u.out, "xref\n1 1\n%010d 00000 n \n", u.places[0])
	if more := len(u.numbers) - 1; more > 0 {
		fmt.Fprintf(&u.out, "%d %d\n", u.numbers[1], more)
		for _, place := range u.places[1:] {
			fmt.Fprintf(&u.out, "%010d 00000 n \n", place)
		}
	}
	trailer = sizeLine.ReplaceAll(trailer, fmt.Appendf(nil, "/Size %d", size))
	fmt.Fprintf(&u.out, "trailer\n<<\n%s/Prev %s\n/ID [<%s> <%s>]\n>>\nstartxref\n%d\n%%%%EOF\n", trailer, previous, id, id, at)
}

// catalog returns the dictionary of the document; its outline, where it has one, is object outlines.
func catalog(doc page.Document, outlines int, marked bool) string {
	sides := ""
	if doc.TwoSided {
		sides = " /Duplex /DuplexFlipLongEdge"
	}
	text := "/Type /Catalog\n/Pages 2 0 R\n/ViewerPreferences << /PrintScaling /None /DisplayDocTitle true" + sides + " >>\n"
	if doc.Language != "" {
		text += fmt.Sprintf("/Lang (%s)\n", doc.Language)
	}
	if marked {
		text += fmt.Sprintf("/PageMode /UseOutlines\n/Outlines %d 0 R\n", outlines)
	}
	return text
}

// documentID names the file by what stands on it.
func documentID(doc page.Document) string {
	hash := sha256.New()
	fmt.Fprintln(hash, doc.Name)
	for _, p := range doc.Pages {
		fmt.Fprintln(hash, p.Name, page.Hash(p.Items()))
	}
	return fmt.Sprintf("%X", hash.Sum(nil)[:16])
}
