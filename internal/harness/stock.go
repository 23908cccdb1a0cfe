package harness

import "loomleaf/internal/units"

// Laser says whether a wire type takes a laser mark.
type Laser string

const (
	LaserYes       Laser = "yes"
	LaserNo        Laser = "no"
	LaserTestFirst Laser = "test first"
)

// Proof records a marking test that the shop made.
type Proof struct {
	On         Date
	By, Record string
}

// WireType is a [[wire_type]]: what is on a reel.
type WireType struct {
	Origin
	ID, Part, Name string
	AWG            string       // "22", "2/0"; empty where Section is given
	Section        units.Area   // 0 where AWG is given
	Colour         string       // IEC 60757 letters, base then up to two stripes: "WH/BU"; "?" unknown
	Diameter       units.Length // over the insulation
	Insulation     string
	Laser          Laser
	Ink            string // "", "black", "white"; "none" where neither stays readable
	Proved         *Proof
	StripBy        string           // "blade", "thermal", "laser"; "" where the type asks for none
	Mass           units.LinearMass // 0 when not given
	Substitutes    []Substitute     // in the order in which they are taken
}

// Substitute is a wire type that may be cut in place of another when the reels of that are used up.
type Substitute struct {
	Origin
	Type     string
	Approved string // the document that allows it
}

// Reel is a [[reel]]: stock known to the planner.
type Reel struct {
	Origin
	ID, Type   string
	Left       units.Length
	Lot, Place string
}

// Crimp is one tool setting of a contact.
type Crimp struct {
	AWGFrom, AWGTo         string // largest and smallest wire, "22" and "24"
	Tool, Locator, Setting string
	Pull                   units.Force // the job's own pull-test minimum, which wins over the published column; 0 when not given
}

// StripStep is how far one layer of a coax wire is stripped, from its end.
type StripStep struct {
	Layer  string
	Length units.Length
}

// Contact is a [[contact]].
type Contact struct {
	Origin
	ID, Part, Kind string // Kind: "crimp", "solder", "coax"
	AWGFrom, AWGTo string // thickest and thinnest gauge, "22" and "28"; empty when not given
	InsulationFrom units.Length
	InsulationTo   units.Length // 0 when not given
	Barrel, Strip  units.Length
	Steps          []StripStep // of a coax contact, outermost layer first; Strip is then the largest
	Pull           string      // published column of pull-test minimums; may be empty
	InsertTool     string
	Crimps         []Crimp
}
