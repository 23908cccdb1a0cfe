package plan

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// Limits of the search for the pieces that come from a substitute: how many numbers of pieces are tried, and how often each is chosen
// anew without what its reels refuse, since every choice moves the loads of the run.
const (
	mostHalvings = 8
	mostRounds   = 8
)

// InPlace is a wire type that is cut in place of another.
type InPlace struct {
	Type     string `json:"type"`        // what is cut
	For      string `json:"in_place_of"` // what the wires ask for
	Approved string `json:"approved_by"` // the document that allows it

	rank int // among the substitutes of a type, from 1
}

// Words says what is cut in place of what, in the words of messages and of the codes map.
func (p *InPlace) Words() string { return fmt.Sprintf("SUBSTITUTE %s in place of %s", p.Type, p.For) }

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
	late     map[pieceKey]bool     // pieces to be ordered where others like them come from a substitute
}

// supplied returns the cuts of a run with their reels. A type is cut from its own reels first. Pieces for which these have no wire left
// are cut, each whole, from the reels of the approved substitutes in their order, as long as no piece of another type goes short for
// it; what is left then is to be ordered.
func supplied(h *harness.Harness, groups []ownWires) ([]cut, []*supply) {
	run := runWith(h, groups, nil, nil)
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

// runWith cuts the run with some pieces from substitutes. Among pieces that may change places those come behind what the own reels
// hold, and what is to be ordered comes last.
func runWith(h *harness.Harness, groups []ownWires, taken map[pieceKey]*InPlace, late map[pieceKey]bool) supplyRun {
	cuts := cutsOf(groups, unitLists(h))
	for start := 0; start < len(cuts) && len(taken) > 0; {
		run := cuts[start:runEnd(cuts, start)]
		for i := range run {
			run[i].substitute = taken[run[i].key()]
		}
		sortBySource(run, late)
		start += len(run)
	}
	mountCuts(cuts, h.Line.Rack, mountedType(h))
	return supplyRun{cuts, allocate(h, cuts), taken, late}
}

// sortBySource puts pieces that may change places in the order of their sources; the units of a wire that two of them share follow each
// other where they can.
func sortBySource(run []cut, late map[pieceKey]bool) {
	rank := func(c cut) int {
		switch {
		case c.substitute != nil:
			return c.substitute.rank
		case late[c.key()]:
			return math.MaxInt
		}
		return 0
	}
	first, last := map[string]int{}, map[string]int{} // rank of each wire
	for _, c := range run {
		if at, known := first[c.wire.ID]; !known || rank(c) < at {
			first[c.wire.ID] = rank(c)
		}
		last[c.wire.ID] = max(last[c.wire.ID], rank(c))
	}
	shared := func(c cut) int { return one(last[c.wire.ID] > rank(c)) - one(first[c.wire.ID] < rank(c)) }
	slices.SortStableFunc(run, func(a, b cut) int { return cmp.Or(cmp.Compare(rank(a), rank(b)), cmp.Compare(shared(a), shared(b))) })
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
	short := r.within(r.short(instead.For), r.left(h, instead.Type))
	best, fine, over := r, 0, len(short)+1
	for try, tries := len(short), 0; over-fine > 1 && tries < mostHalvings; try, tries = (fine+over)/2, tries+1 {
		if next, found := r.with(h, groups, instead, short[:try]); found {
			best, fine = next, try
		} else {
			over = try
		}
	}
	return best
}

// left returns what the run leaves on the reels of a type.
func (r supplyRun) left(h *harness.Harness, wireType string) units.Length {
	left := units.Length(0)
	if s := r.supply(wireType); s != nil {
		for _, reel := range s.spools {
			left += reel.left
		}
		return left
	}
	for _, reel := range h.Reels {
		if reel.Type == wireType {
			left += reel.Left
		}
	}
	return left
}

// within returns pieces that are no longer together than a length, as they come: what goes beyond it is left out.
func (r supplyRun) within(pieces []pieceKey, length units.Length) []pieceKey {
	cut := map[pieceKey]units.Length{}
	for _, c := range r.cuts {
		cut[c.key()] = units.Length(c.wire.CutUM)
	}
	var fit []pieceKey
	for _, key := range pieces {
		if cut[key] <= length {
			length -= cut[key]
			fit = append(fit, key)
		}
	}
	return fit
}

// with returns the run with pieces cut from a substitute, as far as its reels hold them; false where that is no better.
func (r supplyRun) with(h *harness.Harness, groups []ownWires, instead *InPlace, pieces []pieceKey) (supplyRun, bool) {
	taken := map[pieceKey]*InPlace{}
	maps.Copy(taken, r.taken)
	for _, key := range pieces {
		taken[key] = instead
	}
	for range mostRounds {
		next := runWith(h, groups, taken, r.late)
		if len(next.refused()) == 0 {
			fine := next.betters(r, instead.For, h.Line.SetUpScrap)
			if last := runWith(h, groups, taken, next.waiting(instead.For)); fine && len(last.refused()) == 0 && last.betters(r, instead.For, h.Line.SetUpScrap) {
				return last, true
			}
			return next, fine
		}
		for _, key := range next.refused() {
			delete(taken, key)
		}
	}
	return r, false
}

// refused returns the pieces that no reel of their substitute holds.
func (r supplyRun) refused() []pieceKey {
	var keys []pieceKey
	for _, c := range r.cuts {
		if c.substitute != nil && c.spool == nil {
			keys = append(keys, c.key())
		}
	}
	return keys
}

// waiting returns the pieces that come last, and with them those of a type that are short.
func (r supplyRun) waiting(wireType string) map[pieceKey]bool {
	late := map[pieceKey]bool{}
	maps.Copy(late, r.late)
	for _, key := range r.short(wireType) {
		late[key] = true
	}
	return late
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
func placesTaken(cuts []*cut) []InPlace {
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
