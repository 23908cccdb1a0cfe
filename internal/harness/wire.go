package harness

import "loomleaf/internal/units"

// EndKind says what an end of a wire goes to.
type EndKind uint8

const (
	EndCavity   EndKind = iota // a cavity of a connector
	EndSplice                  // a splice
	EndTerminal                // a terminal
	EndCapped                  // nowhere: a spare wire, capped at a node
	EndLeaves                  // out of this harness, leaving the board at a node
	EndShield                  // the shield of a cable, where the plan makes a pigtail
)

// End is one end of a wire: a is from, b is to.
type End struct {
	Kind              EndKind
	Connector, Cavity string
	Splice, Terminal  string // ids, where the end goes to one
	Node              string // of a capped end or one that leaves
	Shield            string // cable id, where the end goes to its shield
	Contact           string // contact id in force: the end's own, else the cavity's, else the connector's
	Stage             Stage
	Trim, Covered     units.Length
	Strip             units.Length // in force: the end's own, else that of the contact or terminal
	TailExtra         units.Length
	Free              units.Length // left free beyond the node of a capped end or one that leaves
	Retermination     int          // in force
	NotLanded         bool         // stays loose: it is not inserted or fastened in this job
	Finish            string       // how the end is finished, in words: "tinned", "ferrule 0.5"
	Note              string
}

// Body returns the id of the connector, splice or terminal that an end goes to; "" where it goes to none.
func (e *End) Body() string {
	switch e.Kind {
	case EndCavity:
		return e.Connector
	case EndSplice:
		return e.Splice
	case EndTerminal:
		return e.Terminal
	}
	return ""
}

// Written returns where an end goes as references write it: "J1:1", "SP1", "capped@N4"; a shield is "C1 shield".
func (e *End) Written() string {
	switch e.Kind {
	case EndCavity:
		return e.Connector + ":" + e.Cavity
	case EndCapped:
		return "capped@" + e.Node
	case EndLeaves:
		return "leaves@" + e.Node
	case EndShield:
		return e.Shield + " shield"
	}
	return e.Body()
}

// LengthStatus says where the length of a wire comes from.
type LengthStatus string

const (
	LengthGiven   LengthStatus = "given"
	LengthBoard   LengthStatus = "board"
	LengthMeasure LengthStatus = "measure" // to be measured at the bench: no cut, no mark at end b
)

// Supply says where a wire or cable comes from.
type Supply string

const (
	SupplyReel     Supply = "reel"      // cut on the line
	SupplyExisting Supply = "existing"  // is there already
	SupplyBought   Supply = "bought"    // comes ready made
	SupplyWithPart Supply = "with part" // is a lead of a part
)

// Wire is a [[wire]]. A core of a cable has Cable and Core in place of Type.
type Wire struct {
	Origin
	ID, Type    string
	Cable, Core string
	A, B        End
	Via         []string
	Given       units.Length // 0 when the length comes from the board or is measured
	Measure     bool         // length = "measure"
	Mark        string       // "full", "ends", "none"
	Separation  string       // wires of different separations may not share a segment; "" for none
	Home        string       // connector, splice or terminal that must own the wire, or ""
	Supply      Supply
	Note        string
}

// Core is one conductor of a cable type.
type Core struct {
	Origin
	ID, AWG  string
	Section  units.Area // 0 where AWG is given
	Colour   string
	Diameter units.Length // over the insulation; 0 where not given
}

// CableType is a [[cable_type]]: several conductors in one jacket.
type CableType struct {
	Origin
	ID, Part, Name string
	Cores          []Core
	Colour         string       // of the jacket
	Diameter       units.Length // over the jacket
	Insulation     string       // of the jacket
	Shield         string       // in words, "braid"; "" for none
	Laser          Laser        // of the jacket
	Ink            string
	Proved         *Proof
	StripBy        string // of the jacket
	Mass           units.LinearMass
}

// Pigtail is a wire that takes a shield to a cavity or terminal.
type Pigtail struct {
	Type   string
	Length units.Length
	To     End
}

// CableEnd is what is done to a cable at one end.
type CableEnd struct {
	JacketOff units.Length
	Shield    string   // "pigtail", "cut back", "through"; "" where the cable has no shield
	Pigtail   *Pigtail // where Shield is "pigtail"
}

// Cable is a [[cable]]: one cut, whose cores are wires.
type Cable struct {
	Origin
	ID, Type string
	A, B     CableEnd
	Via      []string
	Given    units.Length // 0 when the length comes from the board or is measured
	Measure  bool         // length = "measure"
	Mark     string       // "full", "ends", "none"
	Home     string
	Supply   Supply
	Note     string
}

// Splice is a [[splice]]: a joint of several wires.
type Splice struct {
	Origin
	ID, Part string
	Node     string
	Offset   units.Length // from Node towards Towards
	Towards  string       // node, "" without an offset
	Sides    [][]string   // wire ids on each of the two sides
	Stage    Stage
	AWGFrom  string // thickest and thinnest gauge of one wire; "" when not given
	AWGTo    string
	Section  [2]units.Area // smallest and largest sum of one side; 0 when not given
	Strip    units.Length
	Barrel   units.Length
	SlideOn  []string // what goes on a wire first, such as its sleeve
	Pull     string   // published column of pull-test minimums; may be empty
	Crimps   []Crimp
}

// Terminal is a [[terminal]]: a ring, ferrule or pigtail.
type Terminal struct {
	Origin
	ID, Part, Kind string
	Node           string
	Tail           units.Length // node to the hole centre
	AWGFrom, AWGTo string
	Insulation     [2]units.Length
	Barrel, Strip  units.Length
	Pull           string
	Crimps         []Crimp
	SlideOnFirst   []string
	Note           string
}

// Stud is a [[stud]]: a stack of terminals and hardware, from the base up.
type Stud struct {
	Origin
	ID     string
	Stack  []string
	Torque string
}

// Twist is a [[twist]]: single wires laid together.
type Twist struct {
	Origin
	ID      string
	Wires   []string
	Lay     units.Length
	Untwist [2]units.Length // left straight at ends a and b
	Pitch   units.Length    // diameter of the pitch circle; 0 for two or three wires of one diameter
}

// SleeveSize is a [[sleeve]]: marker sleeves by size.
type SleeveSize struct {
	Origin
	Part     string
	From, To units.Length // wire diameters that it fits
	Length   units.Length // 0 when not given
}

// Cover is a sleeve or braid over a part of a segment.
type Cover struct {
	Part     string
	From, To units.Length // from the first node of the segment
	Wall     units.Length // thickness; 0 when not given
}
