package plan

import (
	"cmp"
	"maps"
	"slices"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// mostRounds is how often the pieces for a substitute are chosen anew: each choice moves the loads of the run.
const mostRounds = 8

// InPlace is a wire type that is cut in place of another.
type InPlace struct {
	Type     string `json:"type"`        // what is cut
	For      string `json:"in_place_of"` // what the wires ask for
	Approved string `json:"approved_by"` // the document that allows it

	rank int // among the substitutes of a type, from 1
}

// same reports whether two pieces are cut from the same in place of the same; nil stands for a piece of its own type.
func (p *InPlace) same(other *InPlace) bool {
	return p == other || p != nil && other != nil && *p == *other
}

// pieceKey is one wire of one unit.
type pieceKey struct{ wire, unit string }

func (c cut) key() pieceKey { return pieceKey{c.wire.ID, c.unit} }

// supplyRun is a run with the reels of its cuts.
type supplyRun struct {
	cuts     []cut
	supplies []*supply
	taken    map[pieceKey]*InPlace // pieces cut from substitutes
}

// supplied returns the cuts of a run with their reels. A type is cut from its own reels first. Pieces for which these have no wire left
// are cut, each whole, from the reels of the approved substitutes in their order, as long as no piece of another type goes short for
// it; what is left then is to be ordered.
func supplied(h *harness.Harness, groups []ownWires) ([]cut, []*supply) {
	run := runWith(h, groups, nil)
	for _, t := range typesInUse(h) {
		for i, s := range t.Substitutes {
			instead := &InPlace{Type: s.Type, For: t.ID, Approved: s.Approved, rank: i + 1}
			if hasReel(h, s.Type) {
				run = run.most(h, groups, instead)
			}
		}
	}
	return run.cuts, run.supplies
}

func hasReel(h *harness.Harness, wireType string) bool {
	return slices.ContainsFunc(h.Reels, func(r harness.Reel) bool { return r.Type == wireType })
}

// runWith cuts the run with some pieces from substitutes. Among pieces that may change places those come last.
func runWith(h *harness.Harness, groups []ownWires, taken map[pieceKey]*InPlace) supplyRun {
	cuts := cutsOf(groups, unitLists(h))
	for start := 0; start < len(cuts) && len(taken) > 0; {
		run := cuts[start:runEnd(cuts, start)]
		first, last := map[string]int{}, map[string]int{} // rank of each wire
		for i := range run {
			run[i].substitute = taken[run[i].key()]
			id, rank := run[i].wire.ID, run[i].rank()
			if at, known := first[id]; !known || rank < at {
				first[id] = rank
			}
			last[id] = max(last[id], rank)
		}
		slices.SortStableFunc(run, func(a, b cut) int { // the units of a wire that is parted follow each other
			parted := func(c cut) int { return one(last[c.wire.ID] > c.rank()) - one(first[c.wire.ID] < c.rank()) }
			return cmp.Or(cmp.Compare(a.rank(), b.rank()), cmp.Compare(parted(a), parted(b)))
		})
		start += len(run)
	}
	mountCuts(cuts, h.Line.Rack, mountedType(h))
	return supplyRun{cuts, allocate(h, cuts), taken}
}

// rank orders pieces that may change places: those of their own type first, then by substitute.
func (c cut) rank() int {
	if c.substitute == nil {
		return 0
	}
	return c.substitute.rank
}

// supply returns the supply of a type; nil where nothing is cut from it.
func (r supplyRun) supply(wireType string) *supply {
	for _, s := range r.supplies {
		if s.wireType == wireType {
			return s
		}
	}
	return nil
}

// short returns the pieces of a type that its reels do not hold, in the order of the run. Where the job knows no reel of it nothing is
// known to be short.
func (r supplyRun) short(wireType string) []pieceKey {
	if s := r.supply(wireType); s == nil || len(s.spools) == 0 || s.order.pieces == 0 {
		return nil
	}
	var keys []pieceKey
	for _, c := range r.cuts {
		if c.spool == nil && c.wireType() == wireType {
			keys = append(keys, c.key())
		}
	}
	return keys
}

// most returns the run with the first pieces that are short cut from a substitute, as many as a search by halves finds.
func (r supplyRun) most(h *harness.Harness, groups []ownWires, instead *InPlace) supplyRun {
	short := r.short(instead.For)
	best, fine, over := r, 0, len(short)+1
	for try := len(short); over-fine > 1; try = (fine + over) / 2 {
		if next, found := r.with(h, groups, instead, short[:try]); found {
			best, fine = next, try
		} else {
			over = try
		}
	}
	return best
}

// with returns the run with pieces cut from a substitute, as far as its reels hold them; false where that is no better.
func (r supplyRun) with(h *harness.Harness, groups []ownWires, instead *InPlace, pieces []pieceKey) (supplyRun, bool) {
	taken := map[pieceKey]*InPlace{}
	maps.Copy(taken, r.taken)
	for _, key := range pieces {
		taken[key] = instead
	}
	for range mostRounds {
		next := runWith(h, groups, taken)
		refused := 0
		for _, c := range next.cuts {
			if c.substitute != nil && c.spool == nil {
				delete(taken, c.key())
				refused++
			}
		}
		if refused == 0 {
			return next, next.betters(r, instead.For, h.Line.SetUpScrap)
		}
	}
	return r, false
}

// betters reports whether fewer pieces of a type are short than before, none more of any other, and no reel of the type itself stays
// unopened that would take a piece cut from a substitute.
func (r supplyRun) betters(before supplyRun, wireType string, scrap units.Length) bool {
	for _, s := range r.supplies {
		most := 0
		if was := before.supply(s.wireType); was != nil {
			most = was.order.pieces
		}
		if s.order.pieces > most || s.wireType == wireType && s.order.pieces == most {
			return false
		}
	}
	own := r.supply(wireType)
	for _, c := range r.cuts {
		if c.substitute == nil || c.wire.Type != wireType || own == nil {
			continue
		}
		for _, reel := range own.spools {
			if len(reel.wires) == 0 && reel.left-scrap >= units.Length(c.wire.CutUM) {
				return false
			}
		}
	}
	return true
}

// placesTaken lists what pieces are cut in place of, in their order.
func placesTaken(cuts []cut) []InPlace {
	var places []InPlace
	for _, c := range cuts {
		places = withPlace(places, c.substitute)
	}
	return places
}

func withPlace(places []InPlace, place *InPlace) []InPlace {
	if place == nil || slices.Contains(places, *place) {
		return places
	}
	return append(places, *place)
}
