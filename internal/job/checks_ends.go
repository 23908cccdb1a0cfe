package job

import (
	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
)

// idle is a key that means nothing at an end of some kind.
type idle struct{ key, why string }

func idleKeys(kind harness.EndKind) []idle {
	const crimped = "nothing is crimped on there that could be crimped on anew"
	switch kind {
	case harness.EndCavity:
		return []idle{{"free", "an end in a cavity is not left free"}}
	case harness.EndTerminal:
		return []idle{{"free", "an end in a terminal is not left free"}, {"contact", "the terminal is the contact"}}
	case harness.EndSplice:
		return []idle{{"free", "an end in a splice is not left free"}, {"contact", "the splice is the contact"}, {"retermination", crimped}}
	case harness.EndCapped:
		return []idle{{"contact", "a capped end takes no contact"}, {"retermination", crimped}, {"lands", "a capped end lands nowhere"}}
	case harness.EndLeaves:
		return []idle{{"retermination", "the end is not this harness's to crimp anew"}, {"lands", "an end that leaves lands nowhere"}}
	default:
		return nil
	}
}

// checkEndKeys finds keys that would be read and then mean nothing.
func checkEndKeys(h *harness.Harness) problem.List {
	l := newLookup(h)
	var found problem.List
	report := func(e wireEnd, key, why, hint string) {
		found = append(found, about(fault(idleKey, e.own(key), "end %s of wire %s goes to %s and has %s: %s",
			e.side, quoted(e.wire.ID), quoted(e.where()), key, why), e.wire.ID, hint))
	}
	for _, e := range wireEnds(h) {
		if e.is(harness.EndSplice) && l.splices[e.end.Splice] == nil {
			continue
		}
		for _, one := range idleKeys(e.end.Kind) {
			if e.sets(one.key) {
				report(e, one.key, one.why, "take "+one.key+" out, or correct where the end goes")
			}
		}
		if s := l.splices[e.end.Splice]; s != nil && s.Stage == harness.StageBench && e.end.Stage == harness.StageBoard {
			report(e, "stage", "the splice is made at the bench, before the board", `write stage = "board" in the splice, or take it out here`)
		}
	}
	return found
}
