// Package plan computes the work from a harness: lengths, marks, groups, sequence, reels, trays and codes.
//
// A plan is rows ready to print. Its JSON form is a published interface: names stay. Lengths are whole micrometres
// (_um). Every list stands in the order of the paper. Whatever a sheet prints stands here; nothing is computed later.
package plan

import (
	"loomleaf/internal/problem"
	"loomleaf/internal/words"
)

// Plan is the whole work of one job.
type Plan struct {
	Loomleaf    int            `json:"loomleaf"` // version of the published form, 1
	Packet      Packet         `json:"packet"`
	Types       []WireType     `json:"types"`
	Wires       []Wire         `json:"wires"`  // by home group, in the order of the run
	Cables      []Cable        `json:"cables"` // by home group, in the order of the run, then those apart by id
	Apart       []Apart        `json:"apart"`  // wires and cables that the line does not cut, by id
	Groups      []Group        `json:"sequence"`
	Pieces      []Piece        `json:"pieces"` // in the order of the run
	Changes     Changes        `json:"changes"`
	Reels       []Reel         `json:"reels"`
	ReelCount   *ReelCount     `json:"reel_count,omitempty"` // none where no reels are known
	ToOrder     []Order        `json:"to_order"`
	Substitutes []Substitution `json:"substitutes,omitempty"` // by type and in the order in which they are taken; none where none is cut
	Trays       []Tray         `json:"trays"`
	Mass        Mass           `json:"mass"`      // of one harness
	Tolerance   string         `json:"tolerance"` // where the tolerances of finished lengths come from
	Time        Time           `json:"time_ms"`
	Prices      []Price        `json:"prices"`         // of the policies for homes
	Kept        *Kept          `json:"kept,omitempty"` // what holding to an earlier plan costs; none where the job names none
	Marking     Marking        `json:"marking"`
	Setups      []Setup        `json:"setups"`      // one a reel, in the order of the run
	ToProve     []MarkSample   `json:"to_prove"`    // types that are marked on a sample before the run, by id
	Sleeves     []Sleeve       `json:"sleeves"`     // in the order of the wires
	SleeveSums  []SleeveSum    `json:"sleeve_sums"` // by part
	Labels      []Label        `json:"labels"`      // of connectors in build order, then of the units
	Totals      []Total        `json:"totals"`
	Kit         []KitItem      `json:"kit"`        // by kind and part
	Attrition   string         `json:"attrition"`  // share of the need that is handed out as spare: "2 %"
	Connectors  []Connector    `json:"connectors"` // in build order
	Joints      []Joint        `json:"joints"`     // splices, then terminals, each by place on the board; then studs
	Board       Board          `json:"board"`
	Routing     []Branch       `json:"routing"`  // in the order of laying
	Finder      []Found        `json:"finder"`   // in natural order of the wires
	Segments    []Segment      `json:"segments"` // in natural order of their nodes
	Bundles     BundleRule     `json:"bundles"`
	Lengths     []LengthRow    `json:"lengths"` // by id, cores behind their cable
	Nets        []Net          `json:"nets"`    // in the order of the test: by their first end
	Continuity  Continuity     `json:"continuity"`
	Crimps      []CrimpRow     `json:"crimps"`      // by tool, contact and size
	CrimpRules  []string       `json:"crimp_rules"` // how the pull test is made, with the sources of its figures
	Strips      []StripGroup   `json:"strips"`      // by tray, in the order of the run; then what stands in no tray
	FirstPiece  []Feature      `json:"first_piece"`
	Sampling    []Sample       `json:"sampling"` // only what the job asks for
	Spares      []Spare        `json:"spares"`   // one a connector, in build order
	Rework      Rework         `json:"rework"`
	Tags        []Tag          `json:"tags"`       // reject tags, by number
	Operations  []Operation    `json:"operations"` // in the order of the work
	Line        Line           `json:"line"`
	Safety      []Safety       `json:"safety"` // one a language
	Paper       Paper          `json:"paper"`
	Defaults    []Default      `json:"defaults"`
	Warnings    []Warning      `json:"warnings"` // printed on the contents page; ids only, no places
	Problems    []PlacedRemark `json:"problems"` // with places; not part of the identity
}

// Packet names the job and its identity.
type Packet struct {
	Number     string        `json:"number"`
	Title      string        `json:"title"`
	Part       string        `json:"part"`
	Revision   string        `json:"revision"`
	Supersedes string        `json:"supersedes"`
	Issued     string        `json:"issued"` // ISO 8601
	Due        string        `json:"due"`    // ISO 8601 or empty
	Units      []string      `json:"units"`
	Serials    bool          `json:"serials"` // the units are serials, not mere numbers
	Class      int           `json:"class"`   // 0: not given
	Documents  []Document    `json:"documents"`
	Board      string        `json:"board"`
	Draft      bool          `json:"draft"` // nobody may build from it
	Batch      int           `json:"batch"` // units on one cut list; 1 where units are cut one by one
	Lists      [][]string    `json:"lists"` // units of each cut list, in the order of the run
	OneByOne   bool          `json:"one_by_one"`
	Leading    string        `json:"leading"` // "a" or "b": the end that leaves the line first
	Method     []string      `json:"methods"` // marking methods that the job uses, in the order laser, ink, sleeve, test first, none
	Inks       []string      `json:"inks"`    // inks that the job uses, black before white
	TitlePlace problem.Place `json:"-"`
	Content    string        `json:"content"` // SHA-256 of the canonical plan, 64 hex digits
}

// Document is a document that the job was written from.
type Document struct {
	Kind     string `json:"kind"`
	Number   string `json:"number"`
	Revision string `json:"revision"`
}

// WireType is a wire type as the sheets print it.
type WireType struct {
	ID            string `json:"id"`
	Part          string `json:"part"`
	Name          string `json:"name"`
	Gauge         string `json:"gauge"`        // "22 AWG 0.33 mm²": both scales, the given one first
	GaugeShort    string `json:"gauge_short"`  // the given one alone: "22 AWG" or "0.34 mm²"
	Colour        string `json:"colour"`       // code as in the job: "WH/BU"
	ColourWords   string `json:"colour_words"` // "white, blue stripe"; "colour unknown"
	DiameterUM    int64  `json:"diameter_um"`
	Insulation    string `json:"insulation"`
	SectionUM2    int64  `json:"section_um2"`   // of the conductor; 0 where it is not known, and of a cable
	Proof         string `json:"proof"`         // "ML-118, 2026-10-02, marking lead", or empty
	StripBy       string `json:"strip_by"`      // "blade", "thermal", "laser", or empty
	MassMGPerM    int64  `json:"mass_mg_per_m"` // 0 where it is not known
	MassEstimated bool   `json:"mass_estimated"`
	MassFrom      string `json:"mass_from"` // in words, "" where it is not known
}

// Wire is one wire id, whatever the number of units.
type Wire struct {
	ID            string        `json:"id"`
	Type          string        `json:"type"`            // wire type; "TSP24 core 1" of a core, which has a row of its own among the types
	Cable         string        `json:"cable,omitempty"` // cable that the wire is a core of, or "": cores have no cut length of their own
	Core          string        `json:"core,omitempty"`
	Twist         string        `json:"twist,omitempty"`      // twist that the wire is laid in, or ""
	Laid          string        `json:"laid,omitempty"`       // how, in words: "twist T1 with W121, lay 25 mm, 40 mm straight at both ends"
	Supply        string        `json:"supply"`               // "reel", "existing", "bought", "with part"
	Separation    string        `json:"separation,omitempty"` // "" for none
	From          string        `json:"from"`                 // "J1:1", "SP1", "E1", "capped@N4", "leaves@N9", "C1 shield"
	To            string        `json:"to"`
	Home          string        `json:"home"`
	CutUM         int64         `json:"cut_um"`
	FinishedUM    int64         `json:"finished_um"`         // 0: not known, where a cut length is given and the board knows no way
	Tolerance     *Tolerance    `json:"tolerance,omitempty"` // of the finished length, where that is known
	MassMG        int64         `json:"mass_mg"`             // of the cut length, or of the finished one where nothing is cut; 0 where it is not known, and of a core
	MassEstimated bool          `json:"mass_estimated"`
	Status        string        `json:"status"` // "given", "board" or "measure"
	Terms         []Term        `json:"terms"`
	Nodes         []string      `json:"nodes"`  // along the board, from end a to end b
	Method        string        `json:"method"` // "laser", "ink", "sleeve", "test first", "none"
	Ink           string        `json:"ink"`    // "black", "white" or ""
	HeightUM      int64         `json:"height_um"`
	Legend        string        `json:"legend"` // middle legend; legends of one unit where they hold a serial
	Marks         []Mark        `json:"marks"`
	Turned        bool          `json:"turned"` // the text reads from end b to end a
	A             End           `json:"a"`
	B             End           `json:"b"`
	Note          string        `json:"note"`
	Substitutes   []UnitInPlace `json:"substitutes,omitempty"` // units that are cut from another type
	Code          Code          `json:"code"`                  // kind C, unit 000
	Place         problem.Place `json:"-"`

	beyond  [2]int64 // what ends a and b add to the cut length beyond their tails
	given   int64    // length that the job gives, in micrometres; 0 for none
	unit    string   // rows of the cut list with the same unit stay together; "" for a row of its own
	sleeves []Sleeve
}

// End is one end of a wire.
type End struct {
	At      string      `json:"at"`                    // "J1:1"
	Stage   string      `json:"stage"`                 // "bench" or "board"
	StripUM int64       `json:"strip_um"`              // at the bench; 0 where the board strips
	Steps   []StripStep `json:"strip_steps,omitempty"` // of a coax end, outermost layer first; StripUM is then the first
	TrimUM  int64       `json:"trim_um"`
	Contact string      `json:"contact"`
	Finish  string      `json:"finish,omitempty"`     // "tinned", "ferrule 0.5"; "" when not given
	Loose   bool        `json:"not_landed,omitempty"` // stays loose in this job
	Legend  string      `json:"legend"`               // as marked near this end, or on its sleeve; "" when none
	Note    string      `json:"note"`

	board string // what the board cuts and strips, in words: "trim 20 mm, strip 5.8 mm"; "" where the bench does it
}

// StripStep is how far one layer of a coax end is stripped, from the end.
type StripStep struct {
	Layer string `json:"layer"`
	UM    int64  `json:"um"`
}

// Term is one part of the sum that makes a cut length. The names are published.
type Term struct {
	Name string `json:"name"`
	UM   int64  `json:"um"`
}

// Mark is one text on a wire. AtUM is its start measured from the cut end A.
type Mark struct {
	Text    string   `json:"text"`
	AtUM    int64    `json:"at_um"`
	WidthUM int64    `json:"width_um"`
	End     string   `json:"end"`              // "a", "b" or "" for the middle
	Lines   []string `json:"lines,omitempty"`  // the text in two lines, upper first; none where it stands in one
	Turned  bool     `json:"turned,omitempty"` // reads from end b to end a
}

// Group holds the wires of one home connector, in the order of the run.
type Group struct {
	Connector string        `json:"group"`
	Title     string        `json:"title"`
	Trays     []GroupTray   `json:"trays"` // one a unit
	Wires     []string      `json:"wires"`
	Steps     [][]Step      `json:"steps"`    // by cut list (Packet.Lists), then rows: loads, switches and wires
	StillOn   []string      `json:"still_on"` // by cut list: reel (its type where the job knows no reels) running when the group starts, "" for none
	Place     problem.Place `json:"-"`
}

// GroupTray names the tray of a unit.
type GroupTray struct {
	Unit string `json:"unit"`
	ID   string `json:"id"`
}

// StepKind tells the rows of a cut list apart.
type StepKind string

const (
	StepLoad   StepKind = "load"   // a reel is mounted
	StepSwitch StepKind = "switch" // a reel that is already mounted runs on
	StepWire   StepKind = "wire"
	StepCable  StepKind = "cable" // Wire holds the id of the cable; its cores stand under it
	StepTray   StepKind = "tray"  // a further tray is put under; Part and Of say which
)

// Step is one row of the cut list.
type Step struct {
	Kind     StepKind `json:"kind"`
	Wire     string   `json:"wire,omitempty"`
	Units    []string `json:"units,omitempty"` // wire rows: units cut in this row; not all of the list where a reel ends within a wire
	Reel     string   `json:"reel,omitempty"`  // reel id, or "" where the job knows no reels: then the type is loaded
	Type     string   `json:"type,omitempty"`
	Lot      string   `json:"lot,omitempty"`
	Place    string   `json:"place,omitempty"` // where stores keep the reel
	Rack     int      `json:"rack,omitempty"`  // position on the line's rack, from 1; 0 where the line has one place
	Method   string   `json:"method,omitempty"`
	Ink      string   `json:"ink,omitempty"`
	HeightUM int64    `json:"height_um,omitempty"`
	Part     int      `json:"part,omitempty"`
	Of       int      `json:"of,omitempty"`

	Substitute *InPlace `json:"substitute,omitempty"` // what it is cut from in place of the type of its wires
}

// Piece is one cut: one wire or cable of one unit.
type Piece struct {
	Wire string `json:"wire"` // id of the wire or cable
	Unit string `json:"unit"`
	Reel string `json:"reel"`
	Tray string `json:"tray"`

	Substitute *InPlace `json:"substitute,omitempty"` // what it is cut from in place of the type of its wire
}

// Changes counts what changes between consecutive wires of one pass over the list; the first load is not counted. A wire
// without ink or without a height leaves the last ink and height as they stand.
type Changes struct {
	Reel   int  `json:"reel"` // wire type
	Ink    int  `json:"ink"`
	Method int  `json:"method"`
	Height int  `json:"height"`
	Loads  int  `json:"loads"`  // load rows of all cut lists, the first load included
	Bound  int  `json:"bound"`  // no plan with these homes and this rule for the order of groups has fewer reel changes
	Proved bool `json:"proved"` // no such plan costs less: CostMS equals FloorMS

	CostMS  int64 `json:"cost_ms"`  // of all changes of one pass, each stop at the price of its dearest change
	FloorMS int64 `json:"floor_ms"` // no such plan costs less

	Substitutes int `json:"substitutes,omitempty"` // further changes of one pass, to and from what is cut in place of a type; the cost is without them

	Numbered Numbered `json:"numbered"` // of the same groups with their wires in the order of their numbers
	Free     bool     `json:"free"`     // the order of groups is free
}

// Reel is a stock reel and what the job takes from it.
type Reel struct {
	ID     string   `json:"id"`
	Type   string   `json:"type"`
	Lot    string   `json:"lot"`
	Place  string   `json:"place"`
	Wires  []string `json:"wires"`   // in the order of the run
	UsedUM int64    `json:"used_um"` // cut lengths and set-up scrap
	LeftUM int64    `json:"left_um"`
	Scrap  bool     `json:"scrap"` // what is left is shorter than what the shop keeps

	Pieces    int   `json:"pieces"`
	LongestUM int64 `json:"longest_um"` // longest single piece cut from it

	Substitutes []InPlace `json:"substitutes,omitempty"` // types in whose place it is cut
}

// Order is wire that the stock known to the job does not cover.
type Order struct {
	Type      string `json:"type"`
	UM        int64  `json:"um"`
	Pieces    int    `json:"pieces"`
	LongestUM int64  `json:"longest_um"` // longest single piece: no reel may be shorter than this with its set-up scrap
}

// Total sums one wire type over all units.
type Total struct {
	Type      string `json:"type"`
	Pieces    int    `json:"pieces"`
	UM        int64  `json:"um"`         // cut lengths and set-up scrap
	LongestUM int64  `json:"longest_um"` // longest single piece
}

// Tray holds one group of one unit.
type Tray struct {
	ID         string   `json:"id"` // "J1/0041"
	Unit       string   `json:"unit"`
	Group      string   `json:"group"`
	Wires      []string `json:"wires"`
	Coil       []string `json:"coil"`        // wires longer than the tray, to be coiled
	StraightUM int64    `json:"straight_um"` // longer pieces are coiled; 0 where the job gives none
	Coils      []Coil   `json:"coils"`       // of the wires of Coil
	CoilUM     int64    `json:"coil_um"`     // inner diameter that suits every coil of the tray; 0 for no coil
	Ties       int      `json:"ties"`        // of each coil
	Part       int      `json:"part"`        // tray of this group and unit, from 1
	Of         int      `json:"of"`
	SectionUM2 int64    `json:"section_um2"` // sum of the cross-sections over the insulation
	Next       string   `json:"next"`        // next operation, in words
	Code       Code     `json:"code"`        // kind T
	Mass
}

// Line is what the sheets print of the line.
type Line struct {
	Methods []string `json:"methods"`
	Rack    int      `json:"rack"`
	StepUM  int64    `json:"step_um"`
}

// Paper is what the packet is printed on. It is part of the identity.
type Paper struct {
	Size     string   `json:"size"`
	Symbol   string   `json:"symbol"`   // "matrix"
	Language []string `json:"language"` // of the paper first; others of the safety page
	Labels   Stock    `json:"labels"`
	Sides    string   `json:"sides,omitempty"`     // "two" where pages are printed on both sides
	LeaveOut []string `json:"leave_out,omitempty"` // sheets that the shop does without
	Wording  string   `json:"wording,omitempty"`   // SHA-256 of the shop's own words, where it has any

	Words       []words.Words `json:"-"` // one a language
	Print       LabelPrint    `json:"-"`
	LabelsPlace problem.Place `json:"-"` // where the stock was named
}

// Stock is the geometry of a sheet of labels.
type Stock struct {
	ID       string `json:"id"`
	Paper    string `json:"paper"` // "a4", "letter" or "roll"
	Columns  int    `json:"columns"`
	Rows     int    `json:"rows"`
	WidthUM  int64  `json:"width_um"`
	HeightUM int64  `json:"height_um"`
	LeftUM   int64  `json:"left_um"`
	TopUM    int64  `json:"top_um"`
	PitchXUM int64  `json:"pitch_x_um"`
	PitchYUM int64  `json:"pitch_y_um"`
	GapUM    int64  `json:"gap_um,omitempty"` // of a roll
}

// LabelPrint is how the labels of one run are put on their stock. It changes no label, so it is no part of the identity.
type LabelPrint struct {
	OffsetXUM, OffsetYUM, DriftXUM, DriftYUM int64 // how far the print stands off, as measured
	Start                                    int   // first label of the first sheet, from 1
	Skip                                     []int // labels of the first sheet that are gone
}

// Default is a default of the shop file in force.
type Default struct {
	Key   string `json:"key"`
	Value string `json:"value"`
}

// Warning is a warning as the contents page prints it.
type Warning struct {
	Check string `json:"check"`
	ID    string `json:"id"`
	Text  string `json:"text"`
}

// PlacedRemark is a problem with its place.
type PlacedRemark struct {
	Severity string `json:"severity"`
	File     string `json:"file"`
	Line     int    `json:"line"`
	Column   int    `json:"col"`
	Text     string `json:"text"`
	Hint     string `json:"hint"`
}
