package harness

import "loomleaf/internal/units"

// Node is a [[node]] of the board.
type Node struct {
	Origin
	ID   string
	X, Y units.Length
}

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
