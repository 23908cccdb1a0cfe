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
	longest units.Length // piece cut from it
	pieces  int
	wires   []string
	places  []InPlace // types in whose place it is cut
}

// supply is the wire of one type: its reels in the order of use, and the job's need.
type supply struct {
	wireType string
	spools   []*spool
	current  *spool // reel in use; nil before the first
	order    *spool // wire to be ordered
	mounted  *spool // on the line or its rack
	total    Total
	longest  *Wire
}

// allocate gives every cut its reel. Reels of a type are used one after another, in the order of the run, so that the reels cost no
// change of the run more than they must; none is used again once it was left. Where a reel ends within a run of one setting, the
// pieces of the rest of the run that fill its end best are cut first. Every load costs the set-up scrap. It returns the supplies
// by type in natural order.
func allocate(h *harness.Harness, cuts []cut) []*supply {
	byType := map[string]*supply{}
	var supplies []*supply
	for start := 0; start < len(cuts); {
		wireType := cuts[start].wireType()
		s := byType[wireType]
		if s == nil {
			s = newSupply(wireType, h)
			byType[wireType] = s
			supplies = append(supplies, s)
		}
		end := runEnd(cuts, start)
		s.cutRun(cuts[start:end], h.Line.SetUpScrap)
		start = end
	}
	slices.SortFunc(supplies, func(a, b *supply) int { return naturalCompare(a.wireType, b.wireType) })
	return supplies
}

// runEnd returns where the pieces end that may change places: those of one list, group and setting, without rows that stay together.
func runEnd(cuts []cut, start int) int {
	first := cuts[start]
	end := start + 1
	for end < len(cuts) && first.wire.unit == "" && cuts[end].wire.unit == "" && cuts[end].list == first.list &&
		cuts[end].group == first.group && cuts[end].state() == first.state() {
		end++
	}
	return end
}

// newSupply collects the reels of a type in the order of use: the one that is on when the run starts, then by the policy.
func newSupply(wireType string, h *harness.Harness) *supply {
	s := &supply{wireType: wireType, order: &spool{ordered: true}, total: Total{Type: wireType}}
	for _, reel := range h.Reels {
		if reel.Type == wireType {
			s.spools = append(s.spools, &spool{reel: reel, left: reel.Left})
		}
	}
	on := func(r *spool) int { return one(r.reel.ID != h.Line.Mounted) }
	slices.SortStableFunc(s.spools, func(a, b *spool) int {
		fuller := cmp.Compare(b.left, a.left)
		switch h.Policy.Reels {
		case "emptiest first":
			fuller = -fuller
		case "listed":
			return cmp.Compare(on(a), on(b))
		}
		return cmp.Or(cmp.Compare(on(a), on(b)), fuller, naturalCompare(a.reel.ID, b.reel.ID))
	})
	if wireType == mountedType(h) {
		s.mounted = s.order
		if len(s.spools) > 0 {
			s.mounted = s.spools[0]
		}
	}
	return s
}

// cutRun cuts the pieces of a run, reel after reel, and puts them in the order in which they are cut.
func (s *supply) cutRun(run []cut, scrap units.Length) {
	if run[0].load {
		s.mounted = nil
	}
	for i := range run {
		run[i].load = false
	}
	open := ""
	for rest := run; len(rest) > 0; {
		chosen := s.next(rest, open, scrap)
		fits := len(rest)
		if !chosen.ordered {
			fits = fillFirst(rest, chosen.room(scrap, s.mounted), open)
		}
		rest[0].load = chosen != s.mounted
		for i := range rest[:fits] {
			s.take(&rest[i], chosen, scrap)
		}
		open = rest[fits-1].wire.ID
		rest = rest[fits:]
	}
}

// next returns the reel in use where any of the pieces fits on it, else the next in order that takes one, else the order; a parted
// wire goes on first.
func (s *supply) next(rest []cut, open string, scrap units.Length) *spool {
	shortest := units.Length(slices.MinFunc(rest, func(a, b cut) int { return cmp.Compare(a.wire.CutUM, b.wire.CutUM) }).wire.CutUM)
	if rest[0].wire.ID == open {
		shortest = units.Length(rest[0].wire.CutUM)
	}
	if s.current != nil && s.current.room(scrap, s.mounted) >= shortest {
		return s.current
	}
	for _, r := range s.spools {
		if len(r.wires) == 0 && r.room(scrap, s.mounted) >= shortest {
			s.current = r
			return r
		}
	}
	return s.order
}

// room returns what can be cut from a reel, less the scrap of mounting it where it is not mounted.
func (r *spool) room(scrap units.Length, mounted *spool) units.Length {
	if r != mounted {
		return r.left - scrap
	}
	return r.left
}

// take cuts one piece from a reel.
func (s *supply) take(c *cut, from *spool, scrap units.Length) {
	taken := units.Length(c.wire.CutUM)
	if c.load {
		taken += scrap
	}
	from.used += taken
	if !from.ordered {
		from.left -= taken
		c.spool = from
	}
	from.wires = append(from.wires, c.wire.ID)
	from.longest = max(from.longest, units.Length(c.wire.CutUM))
	from.pieces++
	from.places = withPlace(from.places, c.substitute)
	s.mounted = from
	s.total.Pieces++
	s.total.UM += int64(taken)
	if s.longest == nil || c.wire.CutUM > s.longest.CutUM {
		s.longest = c.wire
	}
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
func reelRows(supplies []*supply, remnant units.Length) []Reel {
	var rows []Reel
	for _, s := range supplies {
		for _, r := range s.spools {
			if len(r.wires) == 0 {
				continue
			}
			rows = append(rows, Reel{
				ID: r.reel.ID, Type: s.wireType, Lot: r.reel.Lot, Place: r.reel.Place,
				Wires: distinct(r.wires), UsedUM: int64(r.used), LeftUM: int64(r.left), LongestUM: int64(r.longest), Pieces: r.pieces,
				Scrap: r.left < remnant, Substitutes: r.places,
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
			rows = append(rows, Order{Type: s.wireType, UM: int64(s.order.used), Pieces: s.order.pieces, LongestUM: int64(s.order.longest)})
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
			warn(s, "stock-short", fmt.Sprintf("the reels of %s type %q%s are %s m short of what the job cuts", noun, s.wireType, withSubstitutes(h, s.wireType), s.order.used.Metres()),
				"order that much, or add the [[reel]] that holds it")
		}
		longest := units.Length(s.longest.CutUM)
		if fullest := slices.MaxFunc(s.spools, func(a, b *spool) int { return cmp.Compare(a.reel.Left, b.reel.Left) }); fullest.reel.Left < longest+h.Line.SetUpScrap {
			warn(s, "reel-too-short", fmt.Sprintf("no reel of %s type %q holds its longest piece, %s %q: %s m with the set-up scrap",
				noun, s.wireType, noun, s.longest.ID, (longest+h.Line.SetUpScrap).Metres()), "order a reel that holds it; pieces are never joined")
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
