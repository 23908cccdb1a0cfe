package plan

import "loomleaf/internal/problem"

// Connector is a connector as its checklist prints it.
type Connector struct {
	ID           string        `json:"id"`
	Part         string        `json:"part"`
	Title        string        `json:"title"`
	Node         string        `json:"node"`
	Gender       string        `json:"gender"`
	Key          string        `json:"key"`
	Order        string        `json:"order"` // "centre out", "by row", "listed"
	Seal         string        `json:"seal"`
	SlideOnFirst []string      `json:"slide_on_first"`
	After        []Closing     `json:"after"`
	Trays        []string      `json:"trays"` // groups whose trays hold wires for this connector, in build order
	InsertTools  []string      `json:"insert_tools"`
	Cavities     []Cavity      `json:"cavities"` // in insertion order
	Face         Face          `json:"face"`
	Counts       CavityCounts  `json:"counts"`
	Codes        []Code        `json:"codes"` // kind K, one a unit
	Place        problem.Place `json:"-"`
}

// Closing is a step after the last cavity.
type Closing struct {
	Step  string `json:"step"`
	Value string `json:"value"`
}

// CavityCounts sums the cavities of a connector by what fills them.
type CavityCounts struct {
	Cavities int `json:"cavities"`
	Wired    int `json:"wired"`
	Sealed   int `json:"sealed"` // sealing plug, with or without a contact
	Open     int `json:"open"`
	Loose    int `json:"not_landed"` // stays empty in this job: the wire for it is left loose
}

// Fill says what goes into a cavity.
type Fill string

const (
	FillWire           Fill = "wire"
	FillShared         Fill = "shared"
	FillSeal           Fill = "seal"
	FillContactAndSeal Fill = "contact and seal"
	FillOpen           Fill = "open"
	FillLoose          Fill = "not landed" // every wire for it stays loose in this job
)

// Cavity is one row of a pin checklist.
type Cavity struct {
	Name    string       `json:"name"`
	Contact string       `json:"contact"`
	Wires   []string     `json:"wires"`
	Fill    Fill         `json:"fill"`
	Words   string       `json:"words"` // what an unwired cavity gets: "sealing plug, size 22"; "leave open"; what a shared one holds
	Lines   []CavityLine `json:"lines"` // one a wire: what the installer reads
	Codes   []Code       `json:"codes"` // kind P, one a unit; every cavity has one
}

// CavityLine is what a checklist row says of a wire.
type CavityLine struct {
	Wire   string `json:"wire"`
	Cable  string `json:"cable,omitempty"` // cable that the wire is a core of, or ""
	Core   string `json:"core,omitempty"`
	Gauge  string `json:"gauge"`            // "22 AWG"
	Words  string `json:"words"`            // "white, blue stripe"
	Tray   string `json:"tray"`             // group whose tray holds it: "J1"; else "existing", "bought", "with part" or "measured"
	Other  string `json:"other"`            // other end: "P2:7"
	Stage  string `json:"stage"`            // "bench" or "board"
	Board  string `json:"board,omitempty"`  // what the board takes off the end: "trim 20 mm, strip 5.8 mm"; "" for a bench end
	Finish string `json:"finish,omitempty"` // "tinned"; "" when not given
	Loose  string `json:"loose,omitempty"`  // that the end stays loose in this job, or ""
	Marked string `json:"marked,omitempty"` // how to know the wire where no mark stands near its ends: "no mark on the wire"; or ""
	Note   string `json:"note"`

	Units []LineUnit `json:"units,omitempty"` // what differs from unit to unit, one a unit; none where nothing does

	Substitute *InPlace `json:"-"` // of the unit that the line was asked for
}

// Face is the picture of an insert as the installer sees it: from the wire side.
type Face struct {
	Kind     string      `json:"kind"` // "rows", "rings", "places"; "" = order only, no picture
	Round    bool        `json:"round"`
	Places   []FacePlace `json:"places"`
	WidthUM  int64       `json:"width"` // of the drawing, in its own units
	HeightUM int64       `json:"height"`
	PitchUM  int64       `json:"pitch"` // smallest distance between two places, in the same units
}

// FacePlace is where a cavity stands on the picture: x to the right, y up, from the centre.
type FacePlace struct {
	Cavity string `json:"cavity"`
	X      int64  `json:"x"`
	Y      int64  `json:"y"`
	Filled bool   `json:"filled"` // a wire goes here
}
