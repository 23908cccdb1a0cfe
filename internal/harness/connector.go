package harness

import "loomleaf/internal/units"

// Cavity is one place of a connector, in the order listed.
type Cavity struct {
	Origin         // of the text that named it
	Name    string // case-sensitive, leading zeros count
	Contact string // contact id; empty when none is named
}

// FaceKind says how the places of a face are drawn.
type FaceKind string

const (
	FaceNone   FaceKind = ""       // schematic: order only
	FaceRows   FaceKind = "rows"   // straight rows, first row on top, each row from left to right
	FaceRings  FaceKind = "rings"  // circles, outermost first
	FacePlaces FaceKind = "places" // given places, x to the right and y up
)

// FacePlace is a given place of a cavity on the insert.
type FacePlace struct {
	Cavity string
	X, Y   units.Length
}

// Face describes the insert of a connector.
type Face struct {
	Origin
	Kind       FaceKind
	Rows       [][]string  // cavity names by row
	Rings      []int       // counts, outermost first; cavities in the order listed
	Start      units.Angle // from straight up, in the stated direction
	Clockwise  bool
	MatingSide bool // the description is seen from the mating side; else from the wire side
	Places     []FacePlace
}

// Step is a closing step of a connector.
type Step struct{ Step, Value string }

// Shared declares that several wires share one cavity.
type Shared struct {
	Origin
	Cavity string
	Wires  []string
}

// Connector is a [[connector]].
type Connector struct {
	Origin
	ID, Part, Title string
	Arrangement     string // insert arrangement by its published name, "25-61"; "" when not given
	Cavities        []Cavity
	Face            Face
	Gender, Key     string
	Contact         string // default contact id
	Seal            string // name of the sealing plug
	Spare           string // "seal", "contact and seal", "open", or "" when no cavity is unwired
	Node            string
	Tail            units.Length
	Reference       string
	ToBarrel        units.Length // negative towards the node
	SlideOnFirst    []string
	Order           string // "centre out", "by row", "listed"
	After           []Step
	Shared          []Shared
}

// Stage says where an end is terminated.
type Stage string

const (
	StageBench Stage = "bench"
	StageBoard Stage = "board"
)
