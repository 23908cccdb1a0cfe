package harness

import "loomleaf/internal/units"

// End is one end of a wire: a is from, b is to.
type End struct {
	Connector, Cavity string
	Contact           string // contact id in force: the end's own, else the cavity's, else the connector's
	Stage             Stage
	Trim, Covered     units.Length
	Strip             units.Length // in force: the end's own, else that of the contact or terminal
	TailExtra         units.Length
	Retermination     int // in force
	Note              string
}

// LengthStatus says where the length of a wire comes from.
type LengthStatus string

const (
	LengthGiven LengthStatus = "given"
	LengthBoard LengthStatus = "board"
)

// Wire is a [[wire]].
type Wire struct {
	Origin
	ID, Type string
	A, B     End
	Via      []string
	Given    units.Length // 0 when the length comes from the board
	Mark     string       // "full", "ends", "none"
	Home     string       // connector that must own the wire, or ""
	Note     string
}
