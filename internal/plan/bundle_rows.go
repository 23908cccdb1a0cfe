package plan

import (
	"cmp"
	"slices"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// segmentRows returns the segments of the board in natural order of their nodes, with what lies in them.
func segmentRows(h *harness.Harness, wires []Wire) []Segment {
	l := newLoom(h)
	on := l.lay(wires)
	rows := make([]Segment, len(h.Board.Segments))
	for i := range h.Board.Segments {
		rows[i] = segmentRow(h, &h.Board.Segments[i], l.lengths[i], on[i])
	}
	slices.SortStableFunc(rows, func(a, b Segment) int {
		return compareSegments(segmentName(a.Between[0], a.Between[1]), segmentName(b.Between[0], b.Between[1]))
	})
	return rows
}

func compareSegments(a, b [2]string) int {
	return cmp.Or(naturalCompare(a[0], b[0]), naturalCompare(a[1], b[1]))
}

func segmentRow(h *harness.Harness, s *harness.Segment, length units.Length, on []lying) Segment {
	row := Segment{Between: [2]string{s.From, s.To}, LengthUM: int64(length), Place: s.At}
	for _, one := range on {
		if one.cable {
			row.Cables = append(row.Cables, one.id)
		} else {
			row.Wires = append(row.Wires, one.id)
		}
		if one.separation != "" && !slices.Contains(row.Separations, one.separation) {
			row.Separations = append(row.Separations, one.separation)
		}
		if h.Bundle.BendOver != "bundle" {
			row.BendUM = max(row.BendUM, int64(one.diameter)*int64(one.times))
		}
	}
	slices.SortFunc(row.Separations, naturalCompare)
	for _, c := range s.Covers {
		row.Covers = append(row.Covers, SegmentCover{Part: c.Part, FromUM: int64(c.From), ToUM: int64(c.To), WallUM: int64(c.Wall)})
	}
	row.measure(on)
	if h.Bundle.BendOver == "bundle" {
		row.bendAsOne(on)
	}
	if naturalCompare(s.To, s.From) < 0 {
		row.turn()
	}
	return row
}

// turn names the segment from its other node.
func (s *Segment) turn() {
	s.Between[0], s.Between[1] = s.Between[1], s.Between[0]
	for i, c := range s.Covers {
		s.Covers[i].FromUM, s.Covers[i].ToUM = s.LengthUM-c.ToUM, s.LengthUM-c.FromUM
	}
}

// measure fills in the diameters: the largest along the segment, without and with its covers.
func (s *Segment) measure(on []lying) {
	known := true
	for _, at := range changes(on, s.Covers) {
		size := sizeOfBundle(diametersAt(on, at))
		nominal, room := int64(size.nominal), int64(size.room)
		s.DiameterUM, s.RoomUM = max(s.DiameterUM, nominal), max(s.RoomUM, room)
		walls := int64(0)
		for _, c := range s.Covers {
			if c.FromUM <= int64(at) && int64(at) < c.ToUM {
				walls += c.WallUM
				known = known && c.WallUM > 0
			}
		}
		s.OverUM, s.OverRoomUM = max(s.OverUM, nominal+2*walls), max(s.OverRoomUM, room+2*walls)
	}
	if !known {
		s.OverUM, s.OverRoomUM = 0, 0
	}
}

// bendAsOne bends the whole branch by its most sensitive member: over its covers, else, where their walls are not known, without them.
func (s *Segment) bendAsOne(on []lying) {
	times := 0
	for _, one := range on {
		times = max(times, one.times)
	}
	s.BendUM = int64(times) * cmp.Or(s.OverUM, s.DiameterUM)
}

// changes returns the places along a segment from which on something else lies there, in order.
func changes(on []lying, covers []SegmentCover) []units.Length {
	var at []units.Length
	for _, one := range on {
		at = append(at, one.from, one.to)
	}
	if len(on) > 0 {
		for _, c := range covers {
			at = append(at, units.Length(c.FromUM))
		}
	}
	slices.Sort(at)
	return slices.Compact(at)
}

// diametersAt returns the diameters of what lies at a place.
func diametersAt(on []lying, at units.Length) []units.Length {
	var diameters []units.Length
	for _, one := range on {
		if one.from <= at && at < one.to {
			diameters = append(diameters, one.diameter)
		}
	}
	return diameters
}
