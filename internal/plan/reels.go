package plan

import (
	"cmp"
	"fmt"
	"slices"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

// spool is a reel in use: what is left on it and what was cut from it. The spool that stands for wire to be ordered has no id
// and never ends.
type spool struct {
	reel    harness.Reel
	ordered bool
	left    units.Length
	used    units.Length
	wires   []string
}

// supply is the wire of one type: its reels in the order of use, and the job's need.
type supply struct {
	wireType string
	spools   []*spool
	current  int    // reel in use; -1 before the first
	order    *spool // wire to be ordered
	mounted  *spool // on the line or its rack
	total    Total
	longest  *Wire
}

// allocate gives every cut its reel. Reels of a type are used one after another, the fullest first, in the order of the run;
// a piece that no longer fits goes to the next reel, and to the order where no reel takes it. Every load costs the set-up
// scrap. It returns the supplies by type in natural order.
func allocate(h *harness.Harness, cuts []cut) []*supply {
	byType := map[string]*supply{}
	var supplies []*supply
	for i := range cuts {
		c := &cuts[i]
		s := byType[c.wire.Type]
		if s == nil {
			s = newSupply(c.wire.Type, h.Reels)
			byType[c.wire.Type] = s
			supplies = append(supplies, s)
		}
		s.take(c, h.Line.SetUpScrap)
	}
	slices.SortFunc(supplies, func(a, b *supply) int { return naturalCompare(a.wireType, b.wireType) })
	return supplies
}

// newSupply collects the reels of a type, the fullest first, then by id.
func newSupply(wireType string, reels []harness.Reel) *supply {
	s := &supply{wireType: wireType, current: -1, order: &spool{ordered: true}, total: Total{Type: wireType}}
	for _, reel := range reels {
		if reel.Type == wireType {
			s.spools = append(s.spools, &spool{reel: reel, left: reel.Left})
		}
	}
	slices.SortFunc(s.spools, func(a, b *spool) int {
		return cmp.Or(cmp.Compare(b.left, a.left), naturalCompare(a.reel.ID, b.reel.ID))
	})
	return s
}

// take cuts one piece: it settles the reel and whether it must be mounted.
func (s *supply) take(c *cut, scrap units.Length) {
	if c.load {
		s.mounted = nil
	}
	length := units.Length(c.wire.CutUM)
	chosen := s.choose(length, scrap)
	c.load = chosen != s.mounted
	taken := length
	if c.load {
		taken += scrap
	}
	chosen.used += taken
	if !chosen.ordered {
		chosen.left -= taken
		c.spool = chosen
	}
	chosen.wires = append(chosen.wires, c.wire.ID)
	s.mounted = chosen
	s.total.Pieces++
	s.total.UM += int64(taken)
	if s.longest == nil || c.wire.CutUM > s.longest.CutUM {
		s.longest = c.wire
	}
}

// choose returns the reel in use where the piece still fits, else the next one, else the order. The next reel is the fullest
// of those left, so that no other could take the piece either.
func (s *supply) choose(length, scrap units.Length) *spool {
	if s.current >= 0 && s.spools[s.current].takes(length, scrap, s.mounted) {
		return s.spools[s.current]
	}
	if next := s.current + 1; next < len(s.spools) && s.spools[next].takes(length, scrap, s.mounted) {
		s.current = next
		return s.spools[next]
	}
	return s.order
}

// takes reports whether a piece can be cut from the reel, with the scrap of mounting it where it is not mounted.
func (r *spool) takes(length, scrap units.Length, mounted *spool) bool {
	if r != mounted {
		length += scrap
	}
	return r.left >= length
}

// totalRows returns the need of each type.
func totalRows(supplies []*supply) []Total {
	var totals []Total
	for _, s := range supplies {
		s.total.LongestUM = s.longest.CutUM
		totals = append(totals, s.total)
	}
	return totals
}

// reelRows returns the stock reels that the job uses, by type and in the order of use.
func reelRows(supplies []*supply) []Reel {
	var rows []Reel
	for _, s := range supplies {
		for _, r := range s.spools {
			if len(r.wires) == 0 {
				continue
			}
			rows = append(rows, Reel{
				ID: r.reel.ID, Type: s.wireType, Lot: r.reel.Lot, Place: r.reel.Place,
				Wires: distinct(r.wires), UsedUM: int64(r.used), LeftUM: int64(r.left),
			})
		}
	}
	return rows
}

// orderRows returns what the known stock does not cover. A type without reels is not ordered here: its stock is kept elsewhere.
func orderRows(supplies []*supply) []Order {
	var rows []Order
	for _, s := range supplies {
		if len(s.spools) > 0 && s.order.used > 0 {
			rows = append(rows, Order{Type: s.wireType, UM: int64(s.order.used)})
		}
	}
	return rows
}

// stockWarnings names the types whose stock is short and those whose longest piece fits on no reel.
func stockWarnings(h *harness.Harness, supplies []*supply) problem.List {
	places, nouns := map[string]problem.Place{}, map[string]string{}
	for _, t := range h.WireTypes {
		places[t.ID], nouns[t.ID] = t.At, "wire"
	}
	for _, t := range h.CableTypes {
		places[t.ID], nouns[t.ID] = t.At, "cable"
	}
	var problems problem.List
	warn := func(s *supply, check, text, hint string) {
		problems = append(problems, problem.Problem{
			Severity: problem.Warning, Check: check, Place: places[s.wireType], ID: s.wireType, Text: text, Hint: hint,
		})
	}
	for _, s := range supplies {
		if len(s.spools) == 0 {
			continue
		}
		noun := nouns[s.wireType]
		if s.order.used > 0 {
			warn(s, "stock-short", fmt.Sprintf("%s type %s: the reels known are %s m short of what the job cuts", noun, s.wireType, s.order.used.Metres()),
				"order it, or add the reel to the job")
		}
		longest := units.Length(s.longest.CutUM)
		if s.spools[0].reel.Left < longest+h.Line.SetUpScrap {
			warn(s, "reel-too-short", fmt.Sprintf("%s type %s: no reel holds the longest piece, %s %s of %s m with its set-up scrap",
				noun, s.wireType, noun, s.longest.ID, (longest+h.Line.SetUpScrap).Metres()), "order a longer reel; wire is not joined")
		}
	}
	return problems
}

// distinct returns the ids in the order of their first mention.
func distinct(ids []string) []string {
	seen := map[string]bool{}
	var once []string
	for _, id := range ids {
		if !seen[id] {
			seen[id] = true
			once = append(once, id)
		}
	}
	return once
}
