package plan

import "loomleaf/internal/problem"

// Segment is a stretch of the board between two nodes and what lies in it. A diameter is the largest along the segment: wires
// may begin and end at a splice on the way.
type Segment struct {
	Between     [2]string      `json:"between"` // in natural order; covers count from the first
	LengthUM    int64          `json:"length_um"`
	Wires       []string       `json:"wires"`        // single wires, in natural order
	Cables      []string       `json:"cables"`       // each counts with its jacket wherever one of its cores lies
	DiameterUM  int64          `json:"diameter_um"`  // of the bundle without covers, nominal; 0 where nothing lies
	RoomUM      int64          `json:"room_um"`      // the same with room for a sleeve or a hole
	OverUM      int64          `json:"over_um"`      // nominal over the covers; 0 where the wall of one is not given
	OverRoomUM  int64          `json:"over_room_um"` // with room over the covers; 0 where the wall of one is not given
	BendUM      int64          `json:"bend_um"`      // smallest radius of a bend that stays; 0 where nothing lies
	Covers      []SegmentCover `json:"covers"`
	Separations []string       `json:"separations"` // that wires in it have, in natural order
	Place       problem.Place  `json:"-"`
}

// SegmentCover is a sleeve or braid over a part of a segment.
type SegmentCover struct {
	Part   string `json:"part"`
	FromUM int64  `json:"from_um"` // from the first node of the segment
	ToUM   int64  `json:"to_um"`
	WallUM int64  `json:"wall_um"` // 0: not given
}

// BundleRule says what the diameters and bend radii of segments rest on.
type BundleRule struct {
	Nominal string      `json:"nominal"` // factor on the root of the sum of squares, from four wires on: "1.2"
	Room    string      `json:"room"`
	Over    string      `json:"bend_over"` // "member" or "bundle"
	Bends   []BendLimit `json:"bends"`
}

// BendLimit is how tightly one kind of wire may be bent.
type BendLimit struct {
	Kind   string `json:"kind"`  // "wire", "polyimide", "coax"
	Times  int    `json:"times"` // in diameters
	Source string `json:"source"`
}
