package plan

import (
	"math"
	"slices"
)

// mount says what the line does before a cut.
type mount struct {
	position int  // place on the rack, from 1
	load     bool // the type is not on the rack: a reel is mounted
}

// mounts runs a sequence of wire types over a rack. A type that is not on the rack takes the lowest free position, or else the
// position of the type that is needed again furthest in the future, the lowest of several never needed again: the fewest
// loads for the sequence. A type that is mounted when the sequence starts stands at position 1.
func mounts(types []string, positions int, mounted string) []mount {
	next := nextUses(types)
	place := map[string]int{} // index on the rack by type
	var rack []slot
	if first := slices.Index(types, mounted); first >= 0 {
		place[mounted] = 0
		rack = append(rack, slot{wireType: mounted, next: first})
	}
	steps := make([]mount, len(types))
	for i, wireType := range types {
		at, mounted := place[wireType]
		switch {
		case mounted:
		case len(rack) < positions:
			at = len(rack)
			rack = append(rack, slot{})
		default:
			at = furthest(rack)
			delete(place, rack[at].wireType)
		}
		rack[at] = slot{wireType: wireType, next: next[i]}
		place[wireType] = at
		steps[i] = mount{position: at + 1, load: !mounted}
	}
	return steps
}

// slot is a rack position: the type on it and the index of its next use.
type slot struct {
	wireType string
	next     int
}

// nextUses returns for each index the next index of the same type, math.MaxInt where there is none.
func nextUses(types []string) []int {
	next := make([]int, len(types))
	seen := map[string]int{}
	for i := len(types) - 1; i >= 0; i-- {
		next[i] = math.MaxInt
		if later, found := seen[types[i]]; found {
			next[i] = later
		}
		seen[types[i]] = i
	}
	return next
}

// furthest returns the position whose type is needed again last.
func furthest(rack []slot) int {
	best := 0
	for i := range rack {
		if rack[i].next > rack[best].next {
			best = i
		}
	}
	return best
}
