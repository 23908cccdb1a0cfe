package harness

import "loomleaf/internal/units"

// Node is a [[node]] of the board.
type Node struct {
	Origin
	ID     string
	X, Y   units.Length
	Fixing Fixing
}

// Fixing says whether the harness is fastened to the board at a node.
type Fixing uint8

const (
	FixingUnsaid Fixing = iota // it is where a branch passes without a breakout
	FixingHere
	FixingNone
)

// Segment is a [[segment]] between two nodes.
type Segment struct {
	Origin
	From, To string
	Length   units.Length // 0: the drawn distance
	Covers   []Cover
}

// Board is the [board] with its nodes and segments.
type Board struct {
	Origin
	ID            string
	Width, Height units.Length
	Nodes         []Node
	Segments      []Segment
}
