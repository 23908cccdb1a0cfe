package harness

// Operation names an operation that can have a hold point.
type Operation string

const (
	OperationCut    Operation = "cut"    // first piece of the line
	OperationCrimp  Operation = "crimp"  // pull test of crimp samples
	OperationSplice Operation = "splice" // splices, before they are covered
	OperationBoard  Operation = "board"  // cavities, before the connectors are closed
	OperationTest   Operation = "test"   // continuity
	OperationFinal  Operation = "final"  // before release
)

// Inspection is the [inspection] table.
type Inspection struct {
	Origin
	Samples    int         // crimps pulled apart for each tool setting, contact and size
	Continuity string      // most resistance of a connection, in words: "1 ohm"; "" where the engineer writes it in
	Hold       []Operation // operations with a hold point, beyond those that the class asks for
	Exclusions []Exclusion
	Sampling   []Sampling
}

// Exclusion names connectors and joints that no high-potential test may reach, and why.
type Exclusion struct {
	Origin
	At  []string
	Why string
}

// Sampling asks for a sampling plan in place of an inspection of every piece.
type Sampling struct {
	Origin
	What, Level, AQL string // "mark", "II", "1.0"
	Lot              int    // pieces
}
