// Package harness holds the checked harness: what a job file says, with every reference resolved to an id that exists.
//
// Every item knows its place in the job file. Lists stand in the order of the file; nothing here is computed.
package harness

import (
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
	"loomleaf/internal/words"
)

// Origin says where an item was written: its table, and each of its keys.
type Origin struct {
	At   problem.Place
	Keys map[string]problem.Place // by key, dotted for inline tables ("a.trim"); looked up, never ranged over
}

// Of returns the place of a key, or of the table where the key is missing.
func (o Origin) Of(key string) problem.Place {
	if place, found := o.Keys[key]; found {
		return place
	}
	return o.At
}

// Date is a day of the calendar.
type Date struct{ Year, Month, Day int }

// Harness is one job, read and checked.
type Harness struct {
	Job        Job
	Marks      Marks
	Line       Line
	Policy     Policy
	Allowance  Allowance
	Tray       TrayRule
	Bundle     BundleRule
	Paper      Paper
	Inspection Inspection
	Safety     Safety
	WireTypes  []WireType
	Reels      []Reel
	Contacts   []Contact
	Connectors []Connector
	Wires      []Wire
	CableTypes []CableType
	Cables     []Cable
	Splices    []Splice
	Terminals  []Terminal
	Studs      []Stud
	Twists     []Twist
	Sleeves    []SleeveSize
	Draft      bool // the packet is a draft: nobody may build from it
	Board      Board
	Stocks     []LabelStock // the shop's own first
	Printer    LabelPrinter
	Defaults   []Default // defaults of the shop file in force, in the order of its keys
}

// Default is a value that neither the job nor an included file set, and that shapes figures of the packet.
type Default struct {
	Key   string // "line.step"
	Value string // as written in the default shop file, such as `"1 mm"`
}

// LengthIs says what a given length means.
type LengthIs uint8

const (
	LengthUnstated LengthIs = iota // no length is given anywhere
	LengthCut                      // the length to cut
	LengthFinished                 // from reference plane to reference plane
)

// Job is the [job] table.
type Job struct {
	Origin
	Number, Title, Part, Revision, Supersedes string
	Issued                                    Date
	Due                                       Date     // zero when not given
	Units                                     []string // serials, or "1", "2" .. where the job gives a quantity
	Serials                                   bool     // the units are serials
	Class                                     int      // 0 when not given
	LengthIs                                  LengthIs
	Tolerance                                 *Tolerance // of finished lengths; nil: by the published table
	Documents                                 []Document
	Expect                                    Expect
	Retired                                   []string
}

// Tolerance is by how much a finished length may be longer and shorter than its figure.
type Tolerance struct{ Longer, Shorter units.Length }

// Document is one document that the job was written from.
type Document struct{ Kind, Number, Revision string }

// Expect holds counts that must match; -1 means not given.
type Expect struct{ Wires, Ends int }

// Marks is the [marks] table. Lengths are measured from the finished end.
type Marks struct {
	Origin
	Legend, EndLegend     string // templates
	First, Wanted         units.Length
	Interval, Gap, Margin units.Length
	Shorter               []string // templates to fall back to, in order
	UnmarkedBelow         units.Length
	CentredBelow          units.Length
	SleeveInterval        units.Length // from one sleeve to the next, at most
	SleeveLength          units.Length // of a sleeve whose size does not say it
	Cores                 string       // how the cores of a cable are told apart: "colour" or "sleeves"
	WireNumbers           string       // "plain" or "significant"
	Reads                 string       // "one way", or "from each end": each text starts at its own end
	ConnectorLabel        string       // template; "" for no label
	HarnessLabel          string
	RubCheck              bool // the first-off piece is rubbed
}

// Method is a way to mark a wire.
type Method string

const (
	MethodLaser     Method = "laser"
	MethodInk       Method = "ink"
	MethodSleeve    Method = "sleeve"
	MethodTestFirst Method = "test first"
	MethodNone      Method = "none"
)

// Line is the [line] table: the mark-measure-cut line.
type Line struct {
	Origin
	Methods          []Method
	Inks             []string // "black", "white"
	Rack             int
	Mounted          string // reel, or type of the reel, that is on when the run starts; "" for none
	Leading          string // "a" or "b": the end that leaves the line first
	Step             units.Length
	ShortFixed       units.Length
	ShortShare       units.Share
	Shortest         units.Length
	Longest          units.Length
	ThinnestDiameter units.Length
	ThickestDiameter units.Length
	Heights          []units.Length // ascending
	HeightToDiameter units.Factor
	PitchToHeight    units.Factor
	Feed             units.Speed
	MarkTime         units.Time
	OnTheFly         bool
	CutTime          units.Time
	ChangeTime       ChangeTime
	SetUpScrap       units.Length
	HandlingTime     units.Time
	Characters       string          // that the line can mark; "" for any
	LongestText      int             // characters of one mark
	Blind            [2]units.Length // what the marker cannot reach at the leading and at the trailing end of a piece
	TwoLines         bool            // the line can set a text in two lines
	LinePitch        units.Factor    // pitch of the two lines, to the character height
	TestLengths      []units.Length  // cut and measured at the start of a shift, ascending
}

// ChangeTime holds what each kind of change costs on the line.
type ChangeTime struct{ Method, Reel, Ink, Height, Tray, Load units.Time }

// Policy is the [policy] table.
type Policy struct {
	Origin
	Home        string       // "end-a" or "board-order"
	Order       string       // "board", "listed" or "free"
	Chains      [][]string   // homes that keep this order among themselves where the order is free
	Units       string       // "together" or "one by one"
	Batch       int          // units on one cut list, 1 to 5
	Reels       string       // in which order reels of a type are used: "fullest first", "emptiest first" or "listed"
	Remnant     units.Length // a shorter end of a reel is scrap
	GivenBeyond units.Length // a given length that is longer than the board asks for by more than this is warned about
	Keep        string       // path of the plan that is kept to; "" for none
	Kept        *KeptPlan    // what it says; nil for none
}

// Allowance is the [allowance] table.
type Allowance struct {
	Origin
	Retermination int
	TrimBack      units.Length
	Loop          units.Length
	Attrition     units.Share // spare parts in the kit, of the need
}

// TrayRule is the [tray] table.
type TrayRule struct {
	Origin
	Wires   int
	Section units.Area
	Mass    units.Mass
	Length  units.Length // longer pieces are coiled
	Coil    units.Length // inner diameter that pieces are coiled to, where they bend that far
	Tie     units.Length // along a coil, from tie to tie at most
	Bend    int          // smallest coil diameter in wire diameters is twice this
}

// BundleRule is the [bundle] table: how tightly a branch may be bent, by the names of handbook.BendRules.
type BundleRule struct {
	Origin
	Bend     string // of wires and cables
	BendCoax string
	BendOver string // diameter that counts: "member" for each wire or cable, "bundle" for the whole branch
}

// Paper is the [paper] table.
type Paper struct {
	Origin
	Size      string        // "a4" or "letter"
	Labels    string        // id of a label stock; "" takes the first stock of the paper size
	Symbol    string        // "matrix"
	Languages []string      // of the paper first, others of the safety page: "en", "de"
	Sides     string        // "two", or "" for one
	LeaveOut  []string      // names of sheets
	Words     []words.Words // one a language
}

// Spoken returns the words of the language of the floor; none where no language was read.
func (p *Paper) Spoken() words.Words {
	if len(p.Words) == 0 {
		return words.Words{}
	}
	return p.Words[0]
}

// LabelPrinter is the [label_printer] table: how far the print of one printer stands off, as measured on a fit sheet, and
// which labels of the first sheet are used up. Distances are to the right and down; left and up are negative.
type LabelPrinter struct {
	Origin
	OffsetX, OffsetY units.Length // everywhere
	DriftX, DriftY   units.Length // more at the far mark than at the near mark
	Start            int          // first label to print on, from 1; 0 is 1
	Skip             []int        // labels of the first sheet that are gone, from 1
}

// LabelStock is a sheet of labels, or a roll, by its geometry.
type LabelStock struct {
	Origin
	ID             string // "a4-2x5"
	Paper          string // "a4", "letter" or "roll"
	Columns, Rows  int
	Width, Height  units.Length // of one label
	Left, Top      units.Length // of the first label from the edge of the sheet
	PitchX, PitchY units.Length
	Gap            units.Length // of a roll, between labels
}
