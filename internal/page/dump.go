package page

import (
	"bufio"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"strconv"
)

// String returns the distance in points with two decimals: "56.70".
func (p Pt) String() string {
	return string(p.appended(make([]byte, 0, 12)))
}

func (p Pt) appended(to []byte) []byte {
	if p < 0 {
		return (-p).appended(append(to, '-'))
	}
	return append(strconv.AppendInt(to, int64(p/Point), 10), '.', byte('0'+p%Point/10), byte('0'+p%10))
}

// String returns the word that the dump uses.
func (a Align) String() string {
	switch a {
	case Right:
		return "right"
	case Centre:
		return "centre"
	default:
		return "left"
	}
}

// Dump writes a document as plain text: a line for the document, then, after an empty line, each page as a head, the
// items of its frame, the word "body" and the items of its body, one a line and in drawing order. Distances are points
// from the upper left corner of the sheet; texts are quoted as Go quotes them. Places in the job are left out.
//
//	document "MOR-0412-B.packet.pdf" 595.28 x 841.89 title "MOR-0412" subject "Ice-survey sled"
//
//	page cutlist/J1/1 sheet cutlist section "J1" number 1 of 2 unit 0 live 56.69 34.02 510.24 722.83 hash 4b68...
//	text 56.70 100.00 Go-Mono 9.00 left 60.00 "W101"        x y face size align room string
//	rule 56.70 104.00 566.93 104.00 0.50 dash 2.00 2.00     x1 y1 x2 y2 weight, dash only where there is one
//	body
//	box 60.00 90.00 14.17 14.17 1.00                        x y width height, then the weight or "filled"
//	disc 80.00 90.00 7.00 0.50                              x y radius weight, dash only where there is one
//	path 0.50 10.00 10.00 20.00 10.00 15.00 20.00           weight or "filled", then x y of every point
//	symbol datamatrix 500.00 90.00 21.60 21.60 1.20 "C48..." "wire W101"   crop x y width height with quiet zone, module, string, says
func Dump(w io.Writer, doc Document) error {
	out := bufio.NewWriter(w)
	fmt.Fprintf(out, "document %q %v x %v title %q subject %q\n", doc.Name, doc.Width, doc.Height, doc.Title, doc.Subject)
	for _, p := range doc.Pages {
		fmt.Fprintf(out, "\npage %s sheet %s section %q number %d of %d unit %d live %s hash %s\n",
			p.Name, p.Sheet, p.Section, p.Number, p.Of, p.Unit, rectWords(p.Live), p.Hash)
		writeItems(out, p.Frame)
		fmt.Fprintln(out, "body")
		writeItems(out, p.Body)
	}
	return out.Flush() // the buffer keeps the first write error
}

// Hash returns the SHA-256 of the dump lines of items, as 64 hex digits.
func Hash(items []Item) string {
	sum := sha256.New()
	writeItems(sum, items)
	return hex.EncodeToString(sum.Sum(nil))
}

// writeItems leaves write errors to the buffer or hash it writes into.
func writeItems(w io.Writer, items []Item) {
	var l line
	for _, item := range items {
		l = append(l[:0].item(item), '\n')
		w.Write(l)
	}
}

// itemLine returns the dump line of an item.
func itemLine(item Item) string { return string(line(nil).item(item)) }

// rectWords returns x, y, width and height in points, with blanks between.
func rectWords(r Rect) string { return string(line(nil).rect(r)[1:]) }

// line is a dump line as it grows. Every page is hashed by its lines: they are put together without fmt, which takes most of the time
// of a packet.
type line []byte

func (l line) item(item Item) line {
	switch i := item.(type) {
	case Text:
		return append(l, "text"...).points(i.X, i.Y).word(string(i.Face)).points(i.Size).word(i.Align.String()).points(i.Room).quoted(i.String)
	case Rule:
		return append(l, "rule"...).points(i.X1, i.Y1, i.X2, i.Y2, i.Weight).dash(i.Dash)
	case Box:
		return append(l, "box"...).rect(i.Rect).weight(i.Weight, i.Filled)
	case Disc:
		return append(l, "disc"...).points(i.X, i.Y, i.R, i.Weight).dash(i.Dash)
	case Path:
		l = append(l, "path"...).weight(i.Weight, i.Filled)
		for _, p := range i.Points {
			l = l.points(p[0], p[1])
		}
		return l
	case Symbol:
		return append(l, "symbol"...).word(string(i.Symbology)).rect(i.Quiet()).points(i.Module).quoted(i.String).quoted(i.Says)
	}
	return fmt.Appendf(l, "unknown %T", item)
}

func (l line) word(text string) line { return append(append(l, ' '), text...) }

func (l line) quoted(text string) line { return strconv.AppendQuote(append(l, ' '), text) }

func (l line) points(distances ...Pt) line {
	for _, d := range distances {
		l = d.appended(append(l, ' '))
	}
	return l
}

func (l line) rect(r Rect) line { return l.points(r.X, r.Y, r.W, r.H) }

func (l line) weight(weight Pt, filled bool) line {
	if filled {
		return l.word("filled")
	}
	return l.points(weight)
}

func (l line) dash(dash []Pt) line {
	if len(dash) == 0 {
		return l
	}
	return l.word("dash").points(dash...)
}
