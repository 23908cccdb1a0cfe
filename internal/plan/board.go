package plan

import "loomleaf/internal/problem"

// Board is the form board as the map draws it. Places count from its lower left corner, to the right and up.
type Board struct {
	ID       string      `json:"id"`
	WidthUM  int64       `json:"width_um"`
	HeightUM int64       `json:"height_um"`
	Drawn    bool        `json:"drawn"` // its nodes have places of their own: there is something to draw
	Nodes    []BoardNode `json:"nodes"` // in natural order
	Items    []BoardItem `json:"items"` // in build order, then what ends without one, by node
	Trunk    []string    `json:"trunk"` // nodes of the thickest way through the board, from the end that stands further left
}

// BoardNode is a node of the board.
type BoardNode struct {
	ID     string        `json:"id"`
	XUM    int64         `json:"x_um"`
	YUM    int64         `json:"y_um"`
	Fixing bool          `json:"fixing"` // the harness is fastened here
	Place  problem.Place `json:"-"`
}

// BoardItem is something that stands on the board.
type BoardItem struct {
	ID    string        `json:"id"`   // "" of wires that are capped or leave
	Kind  string        `json:"kind"` // "connector", "splice", "terminal", "capped", "leaves"
	Node  string        `json:"node"`
	XUM   int64         `json:"x_um"`
	YUM   int64         `json:"y_um"`
	Title string        `json:"title"` // "main data module", "ring M5", "2 wires leave"
	Key   string        `json:"key"`   // of a connector: "up"
	After string        `json:"after"` // node that its branch comes from: it points away from there; "" where branches come from several sides
	Place problem.Place `json:"-"`
}

// Branch is a part of the board that is laid in one go: the wires whose homes stand there.
type Branch struct {
	Leaves string   `json:"leaves"` // node of the trunk where it begins; "" where it does not hang together with the trunk
	Nodes  []string `json:"nodes"`  // off the trunk, nearest first; none where the homes stand on the trunk itself
	Ways   []Way    `json:"ways"`   // by home in build order, then by far end
}

// Way is a way along the board, from the home of its wires to their other ends, and what is laid along it.
type Way struct {
	Home       string   `json:"home"`
	Nodes      []string `json:"nodes"`       // from the home on; none where the way is not known, or lies between two splices on one segment
	DiameterUM []int64  `json:"diameter_um"` // of each segment between the nodes, nominal, over its covers where their walls are given
	RoomUM     []int64  `json:"room_um"`     // the same with room
	Rows       []Laid   `json:"rows"`
}

// Laid is a row of the routing table.
type Laid struct {
	Kind       string        `json:"kind"` // "wire", "twist", "cable"
	ID         string        `json:"id"`
	Words      string        `json:"words"` // "22 AWG, white"; of a twist "of 2 wires"
	From       string        `json:"from"`  // end at the home; of a cable, what its cores go to
	To         string        `json:"to"`
	Tray       string        `json:"tray"`     // home, or "existing", "bought", "with part", "measured"
	SlackUM    int64         `json:"slack_um"` // of the cut length beyond the way, its tails and what the ends take; below zero where it is short
	Known      bool          `json:"slack_known"`
	FinishedUM int64         `json:"finished_um"` // to a tenth of a millimetre; 0 where it is not known, and of a twist
	Tolerance  *Tolerance    `json:"tolerance,omitempty"`
	Parts      []LaidPart    `json:"parts"` // wires of a twist, cores of a cable
	Place      problem.Place `json:"-"`
}

// LaidPart is a wire of a twist or a core of a cable.
type LaidPart struct {
	Wire       string     `json:"wire"`
	Words      string     `json:"words"`
	From       string     `json:"from"`
	To         string     `json:"to"`
	FinishedUM int64      `json:"finished_um"`
	Tolerance  *Tolerance `json:"tolerance,omitempty"`
}

// Found leads from a wire id to its way: consecutive wires, in natural order, that lie along the same nodes.
type Found struct {
	First string   `json:"first"`
	Last  string   `json:"last"`
	Wires int      `json:"wires"`
	Nodes []string `json:"nodes"` // from the home on
}
