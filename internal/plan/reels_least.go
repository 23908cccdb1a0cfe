package plan

import (
	"cmp"
	"slices"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// ReelCount compares the reels that the job opens with how few would do, over the types whose reels hold all that is cut of them.
type ReelCount struct {
	Opened int  `json:"opened"`
	Least  int  `json:"least"`  // no plan cuts these pieces from fewer
	Others bool `json:"others"` // types that run short, or are cut in place of another, are not counted
}

// mostMeasures is how many lengths a bound is taken with.
const mostMeasures = 64

// reelCount counts the reels opened; nil where no type is cut from listed reels alone.
func reelCount(h *harness.Harness, cuts []cut, supplies []*supply) *ReelCount {
	pieces, mixed := map[string][]units.Length{}, map[string]bool{}
	for _, c := range cuts {
		pieces[c.wireType()] = append(pieces[c.wireType()], units.Length(c.wire.CutUM))
		if c.substitute != nil {
			mixed[c.substitute.Type], mixed[c.substitute.For] = true, true
		}
	}
	var count ReelCount
	for _, s := range supplies {
		switch {
		case len(s.spools) == 0:
		case s.order.pieces > 0 || mixed[s.wireType]:
			count.Others = true
		default:
			count.Opened += s.opened()
			count.Least += leastReels(pieces[s.wireType], s.rooms(h))
		}
	}
	if count.Opened == 0 {
		return nil
	}
	return &count
}

func (s *supply) opened() int {
	opened := 0
	for _, r := range s.spools {
		opened += one(len(r.wires) > 0)
	}
	return opened
}

// rooms returns the most that can be cut from each reel of a type, the largest first: each is mounted once at least, but for one that
// may be on when the run starts.
func (s *supply) rooms(h *harness.Harness) []units.Length {
	scrap := h.Line.SetUpScrap
	if s.wireType == mountedType(h) {
		scrap = 0
	}
	rooms := make([]units.Length, len(s.spools))
	for i, r := range s.spools {
		rooms[i] = max(r.reel.Left-scrap, 0)
	}
	slices.SortFunc(rooms, func(a, b units.Length) int { return cmp.Compare(b, a) })
	return rooms
}

// leastReels returns a number of reels that no plan is below. For every measure that a whole has no less of than its parts together,
// reels must hold as much of it as their pieces have. Measures are the length; how often a length goes into another; and the length
// where what leaves no room for a length in the largest reel counts as a whole reel, and what is shorter than it counts nothing
// (Martello and Toth, Knapsack Problems, chapter 8, from memory; for unequal reels with the largest as the whole).
func leastReels(pieces, rooms []units.Length) int {
	if len(pieces) == 0 || len(rooms) == 0 {
		return 0
	}
	counts := map[units.Length]int64{}
	var lengths []units.Length
	for _, piece := range pieces {
		if counts[piece] == 0 {
			lengths = append(lengths, piece)
		}
		counts[piece]++
	}
	slices.SortFunc(lengths, func(a, b units.Length) int { return cmp.Compare(b, a) })
	least := reelsByMeasure(lengths, counts, rooms, func(x units.Length) int64 { return int64(x) })
	whole := rooms[0]
	for _, a := range lengths[:min(len(lengths), mostMeasures)] {
		least = max(least, reelsByMeasure(lengths, counts, rooms, func(x units.Length) int64 { return int64(x / a) }))
		if 2*a <= whole {
			least = max(least, reelsByMeasure(lengths, counts, rooms, func(x units.Length) int64 { return countedWhole(x, a, whole) }))
		}
	}
	return least
}

// countedWhole is a length of which the ends below a are cut off: what is shorter counts nothing, what leaves less of the whole counts as the whole.
func countedWhole(x, a, whole units.Length) int64 {
	switch {
	case x > whole-a:
		return int64(whole)
	case x < a:
		return 0
	}
	return int64(x)
}

// reelsByMeasure returns how many of the largest reels hold as much of a measure as the pieces have.
func reelsByMeasure(lengths []units.Length, counts map[units.Length]int64, rooms []units.Length, measure func(units.Length) int64) int {
	need := int64(0)
	for _, length := range lengths {
		need += counts[length] * measure(length)
	}
	reels := 0
	for reels < len(rooms) && need > 0 {
		need -= measure(rooms[reels])
		reels++
	}
	return reels
}
