package plan

import (
	"cmp"
	"slices"

	"loomleaf/internal/units"
)

// Limits of the search for the pieces that fill the end of a reel.
const (
	mostFillNodes  = 3000
	mostFillPieces = 60
)

// fillFirst puts first what is to be cut from a reel with so much room, and returns how many pieces that is. All of them where all
// fit. Else the wires follow as they come while the reel is far from its end; the end takes the longest wire that fits, with its
// pieces for all units, then the wires that fill what is left best, and then pieces of one wire more, whose other pieces come next. A
// wire that was parted so, named by open, goes on first.
func fillFirst(rest []cut, room units.Length, open string) int {
	ahead := goOn(rest, &room, open)
	if ahead > 0 && ahead < len(rest) && rest[ahead].wire.ID == open {
		return ahead // a reel that ends within the same wire again: what is left of the wire comes next
	}
	wires := wiresOf(rest[ahead:])
	total, longest := units.Length(0), units.Length(0)
	for _, w := range wires {
		total += w.length
		longest = max(longest, w.length)
	}
	if total <= room {
		return len(rest)
	}
	for len(wires) > 0 && room-wires[0].length >= 4*longest {
		room, ahead, wires = room-wires[0].length, ahead+len(wires[0].cuts), wires[1:]
	}
	lengths := make([]units.Length, len(wires))
	for i, w := range wires {
		lengths[i] = w.length
	}
	chosen := fill(lengths, room)
	var first, later []cut
	for i, w := range wires {
		if chosen[i] {
			first, room = append(first, w.cuts...), room-w.length
		}
	}
	taken, parted := ahead+len(first), false
	for i, w := range wires {
		each := units.Length(w.cuts[0].wire.CutUM)
		switch {
		case chosen[i]:
		case !parted && each <= room:
			parted = true
			taken += int(room / each)
			first = append(first, w.cuts...)
		default:
			later = append(later, w.cuts...)
		}
	}
	copy(rest[ahead:], append(first, later...))
	return taken
}

// goOn takes the pieces of a parted wire that fit.
func goOn(rest []cut, room *units.Length, open string) int {
	n := 0
	for n < len(rest) && rest[n].wire.ID == open && units.Length(rest[n].wire.CutUM) <= *room {
		*room -= units.Length(rest[n].wire.CutUM)
		n++
	}
	return n
}

// wireCuts is the pieces of one wire that follow each other.
type wireCuts struct {
	cuts   []cut
	length units.Length
}

func wiresOf(run []cut) []wireCuts {
	var wires []wireCuts
	for _, c := range run {
		last := len(wires) - 1
		if last < 0 || wires[last].cuts[0].wire != c.wire {
			wires = append(wires, wireCuts{})
			last++
		}
		wires[last].cuts = append(wires[last].cuts, c)
		wires[last].length += units.Length(c.wire.CutUM)
	}
	return wires
}

// fill chooses the pieces to be cut from the end of a reel: the longest that fits, then the set that leaves least, as far as a
// search of mostFillNodes steps over the mostFillPieces longest others finds it, and then whatever still fits, the longest first.
func fill(lengths []units.Length, room units.Length) []bool {
	chosen := make([]bool, len(lengths))
	var order []int
	for i, length := range lengths {
		if length <= room {
			order = append(order, i)
		}
	}
	if len(order) == 0 {
		return chosen
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(lengths[b], lengths[a]) })
	chosen[order[0]] = true
	room -= lengths[order[0]]
	search := filling{lengths: lengths, order: order[1:min(len(order), mostFillPieces+1)], best: room}
	search.try(0, room)
	for _, i := range search.found {
		chosen[i] = true
		room -= lengths[i]
	}
	for _, i := range order {
		if !chosen[i] && lengths[i] <= room {
			chosen[i] = true
			room -= lengths[i]
		}
	}
	return chosen
}

// filling is a search for the set of pieces that leaves least of a reel.
type filling struct {
	lengths []units.Length
	order   []int // pieces, the longest first
	set     []int
	found   []int // best set so far
	best    units.Length
	nodes   int
}

// try adds pieces from a place of the order on, as long as there is room.
func (f *filling) try(from int, room units.Length) {
	if room < f.best {
		f.best, f.found = room, slices.Clone(f.set)
	}
	for at := from; at < len(f.order) && f.best > 0 && f.nodes < mostFillNodes; at++ {
		piece := f.lengths[f.order[at]]
		if piece > room || at > from && piece == f.lengths[f.order[at-1]] {
			continue // an equal piece was tried in this place
		}
		f.nodes++
		f.set = append(f.set, f.order[at])
		f.try(at+1, room-piece)
		f.set = f.set[:len(f.set)-1]
	}
}
