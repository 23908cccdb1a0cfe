package plan

import "loomleaf/internal/units"

// markSpan is a wire between its finished ends, ready for marks. Places are starts of marks measured from finished end a.
type markSpan struct {
	length                 units.Length
	keepA, keepB           units.Length // keep-outs, from each finished end
	first, wanted          units.Length // outer edge of an end mark to its end: at most, and if nothing hinders
	interval               units.Length // start to start, at most; only where middle is set
	gap                    units.Length // clear, between neighbours
	widthA, widthB, widthM units.Length
	middle                 bool // the middle legend repeats between the end marks
	common                 bool // both ends carry the same text, so that one mark may serve both
}

// markWindow holds the places from low to high; it is empty where high is less.
type markWindow struct{ low, high units.Length }

func (w markWindow) empty() bool                        { return w.high < w.low }
func (w markWindow) clamp(at units.Length) units.Length { return min(max(at, w.low), w.high) }

// meet returns the places that lie in both windows.
func (w markWindow) meet(other markWindow) markWindow {
	return markWindow{max(w.low, other.low), min(w.high, other.high)}
}

// windowA holds the places of the mark of end a. Where the keep-out reaches beyond first, its edge is the nearest place.
func (s *markSpan) windowA() markWindow {
	return markWindow{s.keepA, min(max(s.first, s.keepA), s.length-s.widthA-s.keepB)}
}

// windowB holds the places of the mark of end b.
func (s *markSpan) windowB() markWindow {
	return markWindow{max(s.length-max(s.first, s.keepB)-s.widthB, s.keepA), s.length - s.keepB - s.widthB}
}

// place returns the starts of the fewest marks that keep both windows, the interval, the gaps and the keep-outs, or
// false where there are none. A single start is one mark that serves both ends.
func (s *markSpan) place() ([]units.Length, bool) {
	a, b := s.windowA(), s.windowB()
	if a.empty() || b.empty() {
		return nil, false
	}
	if both := a.meet(b); s.common && !both.empty() {
		return []units.Length{both.clamp((s.length - s.widthA) / 2)}, true
	}
	count, reach := s.between(a, b)
	if reach.empty() {
		return nil, false
	}
	startA, startB := s.ends(a, b, reach)
	return s.spread(startA, startB, count), true
}

// between returns how many middle marks are needed, and the distances from the start of mark a to the start of mark b
// that this many can bridge; that window is empty where no number will do.
//
// With j middle marks every distance from the sum of the least steps to j+1 intervals can be had and no other. Both
// bounds grow with j, so the smallest j whose upper bound reaches the windows is the only one to try.
func (s *markSpan) between(a, b markWindow) (int, markWindow) {
	least, most := b.low-a.high, b.high-a.low
	stepA, stepM := s.widthA+s.gap, s.widthM+s.gap
	if !s.middle {
		return 0, markWindow{max(least, stepA), most}
	}
	none := markWindow{0, -1}
	if s.interval <= 0 || stepA > s.interval {
		return 0, none
	}
	count := max(0, (least+s.interval-1)/s.interval-1)
	if count > 0 && stepM > s.interval {
		return 0, none
	}
	return int(count), markWindow{max(least, stepA+count*stepM), min(most, (count+1)*s.interval)}
}

// ends starts from the wanted places and moves both marks, evenly where their windows allow, until reach is met.
func (s *markSpan) ends(a, b, reach markWindow) (startA, startB units.Length) {
	startA, startB = a.clamp(s.wanted), b.clamp(s.length-s.wanted-s.widthB)
	if short := reach.low - (startB - startA); short > 0 {
		moveA, moveB := shareMove(short, startA-a.low, b.high-startB)
		return startA - moveA, startB + moveB
	}
	if over := startB - startA - reach.high; over > 0 {
		moveA, moveB := shareMove(over, a.high-startA, startB-b.low)
		return startA + moveA, startB - moveB
	}
	return startA, startB
}

// shareMove splits a move between two sides, in halves where their room allows.
func shareMove(move, roomA, roomB units.Length) (moveA, moveB units.Length) {
	moveB = min(move-min(move/2, roomA), roomB)
	return move - moveB, moveB
}

// spread puts count middle marks between the end marks. The clear gaps are equal to a micrometre, unless the interval
// binds after a mark a of another width.
func (s *markSpan) spread(startA, startB units.Length, count int) []units.Length {
	starts := []units.Length{startA}
	if count > 0 {
		n := units.Length(count)
		clearance := startB - startA - s.widthA - n*s.widthM
		low := max(s.gap, clearance-n*(s.interval-s.widthM))
		high := min(s.interval-s.widthA, clearance-n*s.gap)
		first := min(max(clearance/(n+1), low), high)
		at := startA + s.widthA + first
		for i := range n {
			starts = append(starts, at+i*s.widthM+i*(clearance-first)/n)
		}
	}
	return append(starts, startB)
}

// centred returns the start of a single mark as near to the middle as the keep-outs allow.
func (s *markSpan) centred() (units.Length, bool) {
	free := markWindow{s.keepA, s.length - s.keepB - s.widthM}
	return free.clamp((s.length - s.widthM) / 2), !free.empty()
}
