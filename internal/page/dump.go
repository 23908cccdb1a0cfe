package page

import (
	"bufio"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"strconv"
	"strings"
)

// String returns the distance in points with two decimals: "56.70".
func (p Pt) String() string {
	if p < 0 {
		return "-" + (-p).String()
	}
	digits := strconv.AppendInt(make([]byte, 0, 12), int64(p/Point), 10)
	return string(append(digits, '.', byte('0'+p%Point/10), byte('0'+p%10)))
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
	for _, item := range items {
		fmt.Fprintln(w, itemLine(item))
	}
}

// itemLine returns the dump line of an item.
func itemLine(item Item) string {
	switch i := item.(type) {
	case Text:
		return fmt.Sprintf("text %v %v %s %v %v %v %q", i.X, i.Y, i.Face, i.Size, i.Align, i.Room, i.String)
	case Rule:
		return fmt.Sprintf("rule %v %v %v %v %v", i.X1, i.Y1, i.X2, i.Y2, i.Weight) + dashWords(i.Dash)
	case Box:
		return fmt.Sprintf("box %s %s", rectWords(i.Rect), weightWord(i.Weight, i.Filled))
	case Disc:
		return fmt.Sprintf("disc %v %v %v %v", i.X, i.Y, i.R, i.Weight) + dashWords(i.Dash)
	case Path:
		return fmt.Sprintf("path %s", weightWord(i.Weight, i.Filled)) + pointWords(i.Points)
	case Symbol:
		return fmt.Sprintf("symbol %s %s %v %q %q", i.Symbology, rectWords(i.Quiet()), i.Module, i.String, i.Says)
	}
	return fmt.Sprintf("unknown %T", item)
}

// rectWords returns x, y, width and height in points, with blanks between.
func rectWords(r Rect) string { return fmt.Sprintf("%v %v %v %v", r.X, r.Y, r.W, r.H) }

func weightWord(weight Pt, filled bool) string {
	if filled {
		return "filled"
	}
	return weight.String()
}

func dashWords(dash []Pt) string {
	if len(dash) == 0 {
		return ""
	}
	var words strings.Builder
	words.WriteString(" dash")
	for _, d := range dash {
		words.WriteString(" " + d.String())
	}
	return words.String()
}

func pointWords(points [][2]Pt) string {
	var words strings.Builder
	for _, p := range points {
		words.WriteString(" " + p[0].String() + " " + p[1].String())
	}
	return words.String()
}
