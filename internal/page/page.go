// Package page is a sheet of paper as items at fixed places, with its own text dump.
//
// All coordinates are whole hundredths of a point from the upper left corner of the sheet, x to the right and y down;
// the PDF carries exactly these figures. Nothing here knows wires.
package page

import "loomleaf/internal/problem"

// Pt is a distance in hundredths of a point.
type Pt int

// Point is one point.
const Point Pt = 100

// MM converts micrometres to Pt, rounded to nearest.
func MM(micrometres int) Pt {
	return Pt((micrometres*7200 + 12700) / 25400)
}

// Face names a face by its file in the fonts folder.
type Face string

// The faces in use. Ids, legends and figures that are copied are set in Mono; words in the others.
const (
	Regular  Face = "Go-Regular"
	Medium   Face = "Go-Medium"
	Bold     Face = "Go-Bold"
	Mono     Face = "Go-Mono"
	MonoBold Face = "Go-Mono-Bold"
)

// Faces lists every face in the order in which a document embeds them.
func Faces() []Face { return []Face{Regular, Medium, Bold, Mono, MonoBold} }

// Rect is an upright rectangle.
type Rect struct{ X, Y, W, H Pt }

// Align says where a text stands in relation to its X.
type Align uint8

const (
	Left Align = iota
	Right
	Centre
)

// Item is one thing on a page: a Text, Rule, Box, Disc, Path or Symbol.
type Item interface {
	moved(by Pt) Item // further to the right
}

// Text is one line of text. X is the left edge, the right edge or the middle by Align; Y is the base line.
type Text struct {
	X, Y   Pt
	Face   Face
	Size   Pt // type size
	Align  Align
	Room   Pt // width it may take; wider text is a problem, never a drawing
	String string
	Place  problem.Place // where the string was written, for the message

	Picture bool // it shows what something looks like at its true size, and stands to be read elsewhere: it may be small
	Drawn   bool // it names a part of a drawing, beside it or in it: it may be smaller than what stands in rows
}

// Rule is a straight line.
type Rule struct {
	X1, Y1, X2, Y2 Pt
	Weight         Pt
	Dash           []Pt // on, off; nil for a full line
}

// Box is the outline of a rectangle, or a black rectangle.
type Box struct {
	Rect
	Weight Pt // of the outline, centred on the edge
	Filled bool
}

// Disc is a circle around X, Y.
type Disc struct {
	X, Y, R Pt
	Weight  Pt
	Dash    []Pt
}

// Path is a closed polygon, outlined or filled black.
type Path struct {
	Points [][2]Pt
	Weight Pt
	Filled bool
}

// Symbology names a kind of symbol.
type Symbology string

const (
	DataMatrix Symbology = "datamatrix" // 16 x 16 modules
	Code128    Symbology = "code128"    // 178 modules
)

// Symbol is a machine-readable code. X, Y is the upper left corner of the symbol without its quiet zone.
type Symbol struct {
	X, Y      Pt
	Symbology Symbology
	Module    Pt     // width of one module
	Height    Pt     // of the bars of a Code 128; ignored for a Data Matrix, which is square
	String    string // the string it holds, 23 characters
	Says      string // what is printed beside it, in the words of the codes map
}

// Page is one side of paper.
type Page struct {
	Name    string // unique in the packet: "cutlist/J1/1"
	Sheet   string // kind of sheet: "cutlist"
	Title   string // of the sheet, as its header prints it: "Cut list"
	Section string // what it is about: "J1", "J1 unit 0041"; may be empty
	Number  int    // within sheet and section, from 1
	Of      int
	Unit    int    // position of the unit in the job from 1; 0 for all
	Body    []Item // what its content hash is taken from
	Frame   []Item // header and footer
	Rows    []Row  // marks of the rows in the body
	Live    Rect   // everything stands inside this
	Hash    string // content hash of the body, 64 hex digits
}

// Items returns frame and body in drawing order.
func (p Page) Items() []Item {
	items := make([]Item, 0, len(p.Frame)+len(p.Body))
	return append(append(items, p.Frame...), p.Body...)
}

// Document is one file of pages of one size.
type Document struct {
	Name    string // file name without folder: "MOR-0412-B.packet.pdf"
	Title   string
	Subject string
	// Language of the words on most pages: "en", "de"; may be empty.
	Language string
	TwoSided bool // pages are fronts and backs in turn
	Width    Pt
	Height   Pt
	Pages    []Page
}
