package plan

import "loomleaf/internal/problem"

// Cable is one cable: one cut, whose cores are wires.
type Cable struct {
	ID            string        `json:"id"`
	Type          string        `json:"type"`
	Home          string        `json:"home"`
	Supply        string        `json:"supply"`
	CutUM         int64         `json:"cut_um"`      // the largest need of its cores
	FinishedUM    int64         `json:"finished_um"` // 0: not known
	Tolerance     *Tolerance    `json:"tolerance,omitempty"`
	MassMG        int64         `json:"mass_mg"`
	MassEstimated bool          `json:"mass_estimated"`
	Nodes         []string      `json:"nodes"` // along the board, of the core that needs most at end a
	Status        string        `json:"status"`
	Terms         []Term        `json:"terms"`
	Cores         []string      `json:"cores"` // wire ids, in the order of the cable type's cores
	Spare         []string      `json:"spare"` // cores of the type that no wire uses
	Method        string        `json:"method"`
	Ink           string        `json:"ink"`
	HeightUM      int64         `json:"height_um"`
	Legend        string        `json:"legend"`
	Marks         []Mark        `json:"marks"`
	Turned        bool          `json:"turned"`
	A             CableEnd      `json:"a"`
	B             CableEnd      `json:"b"`
	Note          string        `json:"note"`
	Code          Code          `json:"code"` // kind C, unit 000
	Place         problem.Place `json:"-"`

	beyond  [2]int64 // what ends a and b add to the cut length beyond their tails
	given   int64    // length that the job gives, in micrometres; 0 for none
	sleeves []Sleeve
}

// CableEnd is what is done to a cable at one end.
type CableEnd struct {
	At          string `json:"at"` // what its cores go to: "J1", "J1+SP1"
	Legend      string `json:"legend"`
	JacketOffUM int64  `json:"jacket_off_um"`
	Shield      string `json:"shield"`  // in words: "cut back", "pigtail C1-PA to J1:9", "" without a shield
	Pigtail     string `json:"pigtail"` // wire id, or ""
}

// Apart is a wire or cable that the line does not cut, and why.
type Apart struct {
	ID     string `json:"id"`
	Type   string `json:"type"`
	Reason string `json:"reason"` // "existing", "bought", "with part", "measure"
	Words  string `json:"words"`  // "to be measured at the bench, cut ____ mm"
	From   string `json:"from"`
	To     string `json:"to"`
	UM     int64  `json:"length_um"` // as the job gives it; 0 for none
	Note   string `json:"note"`
}

// Joint is a splice, a terminal or a stud as the installer's sheets print it.
type Joint struct {
	ID      string        `json:"id"`
	Kind    string        `json:"kind"` // "splice", "terminal", "stud"
	Part    string        `json:"part"`
	Words   string        `json:"words"` // kind of terminal; torque of a stud
	Node    string        `json:"node"`
	Where   string        `json:"where"` // "at N4, 40 mm to N5"
	Stage   string        `json:"stage"`
	SlideOn []string      `json:"slide_on"`
	Sides   []JointSide   `json:"sides"` // two of a splice, one of a terminal, none of a stud
	Stack   []string      `json:"stack"` // of a stud, from the base up
	Note    string        `json:"note"`
	Codes   []Code        `json:"codes"` // kind P, one a unit; none of a stud
	Place   problem.Place `json:"-"`
}

// JointSide is the wires that enter a joint from one side.
type JointSide struct {
	Words   string       `json:"words"`       // "side 1"
	Lines   []CavityLine `json:"lines"`       // one a wire
	Section int64        `json:"section_um2"` // summed, in square micrometres; 0 where one is not known
}
