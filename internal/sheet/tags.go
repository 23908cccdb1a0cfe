package sheet

import (
	"cmp"
	"math"
	"slices"

	"loomleaf/internal/page"
)

// point is a place on a page.
type point struct{ x, y page.Pt }

// stroke is a straight line that no label may stand on.
type stroke struct{ a, b point }

// tag is a label that wants a place near what it names.
type tag struct {
	w, h  page.Pt
	at    point
	also  []point // further places where it may be attached
	reach page.Pt // of the sign at those places
	turns []int   // directions in the order in which they are tried, counted from the right against the clock; nil for the usual order
}

// spot is where a label stands; a label that is moved away has a line that leads to what it names.
type spot struct {
	page.Rect
	placed, led bool
	leader      stroke
}

// Distances of labels, and how far they may be moved.
const (
	tagClear  page.Pt = 170  // 0.6 mm: between a label and anything else
	tagNear   page.Pt = 567  // 2 mm: beyond this a label has a line that leads to what it names
	tagRing   page.Pt = 567  // 2 mm: from ring to ring of the search, beyond the near ones
	tagClose          = 3    // rings that are near
	tagRings          = 45   // rings of the search
	tagTries          = 8    // how often labels are placed anew
	tagTurns          = 24   // directions tried on each ring
	pieceLong page.Pt = 1700 // 6 mm: strokes are looked up by pieces
)

// placeTags finds a place for each label: inside the area, over no sign, no stroke, no other label and no leader, as near as possible to
// what it names. Its leader crosses no label; it crosses a stroke, a sign or another leader, or runs along one, only where the way around
// is far. Labels are placed in turn; those that had the worst places so far come first in the next turn, and the best turn
// counts. What is not placed then is not to be drawn. The same labels in the same order always get the same places. Words stand on the
// page already, and are to labels and leaders as labels are.
func placeTags(tags []tag, strokes []stroke, signs, words []page.Rect, area page.Rect) []spot {
	order := make([]int, len(tags))
	for i := range order {
		order[i] = i
	}
	var best []spot
	trouble, least := make([]int, len(tags)), -1
	for range tagTries {
		spots, costs := placeInTurn(tags, order, strokes, signs, words, area)
		total := 0
		for _, cost := range costs {
			total += cost
		}
		if least < 0 || total < least {
			best, least = spots, total
		}
		if total < crossCost || total > nowhereCost*len(tags)/4 {
			break // nothing to better, or hopeless
		}
		for i, cost := range costs {
			trouble[i] += cost
		}
		slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(trouble[b]/crossCost, trouble[a]/crossCost) })
	}
	return best
}

func one(condition bool) int {
	if condition {
		return 1
	}
	return 0
}

// placeInTurn places labels in an order, and says what each place costs.
func placeInTurn(tags []tag, order []int, strokes []stroke, signs, words []page.Rect, area page.Rect) ([]spot, []int) {
	p := &placer{area: area, rects: newGrid(), strokes: newGrid(), leaders: newGrid(), signs: newGrid()}
	for _, s := range strokes {
		p.strokes.addStroke(s)
	}
	for _, r := range signs {
		p.signs.addRect(r)
	}
	for _, r := range words {
		p.rects.addRect(r)
	}
	spots, costs := make([]spot, len(tags)), make([]int, len(tags))
	for _, i := range order {
		spots[i], costs[i] = p.search(tags[i])
		if spots[i].placed {
			p.rects.addRect(spots[i].Rect)
		}
		if spots[i].led {
			p.leaders.addStroke(spots[i].leader)
		}
	}
	return spots, costs
}

// placer knows what stands on the page already.
type placer struct {
	area                           page.Rect
	rects, strokes, leaders, signs *grid
}

// search returns the place of a label that costs least: its ring, and what its leader crosses.
func (p *placer) search(t tag) (spot, int) {
	var best spot
	least := nowhereCost
	anchors, turns := append([]point{t.at}, t.also...), t.turns
	if turns == nil {
		turns = usualTurns()
	}
	for ring := 0; ring < min(tagRings, least); ring++ {
		away := ringAway(ring)
		for _, at := range anchors {
			t.at = at
			for _, turn := range turns {
				s := t.spotAt(away, turn)
				if cost := ring + p.cost(s); cost < least {
					best, least = s, cost
					best.placed = true
				}
			}
		}
	}
	return best, least
}

// ringAway returns how far a ring is from the sign: one step more than labels keep clear of strokes, then closely, then in wide steps.
func ringAway(ring int) page.Pt {
	if ring < tagClose {
		return tagClear*3/2 + page.Pt(ring)*(tagNear-tagClear*3/2)/tagClose
	}
	return tagNear + page.Pt(ring-tagClose+1)*tagRing
}

// usualTurns tries right and left first, then above and below, then what lies between.
func usualTurns() []int {
	return []int{0, 12, 6, 18, 3, 21, 9, 15, 1, 23, 11, 13, 2, 22, 10, 14, 4, 20, 8, 16, 5, 19, 7, 17}
}

// turnsFrom tries a direction first, then what lies nearer to it.
func turnsFrom(first int) []int {
	turns := []int{first}
	for step := 1; step <= tagTurns/2; step++ {
		turns = append(turns, (first+step)%tagTurns)
		if step < tagTurns/2 {
			turns = append(turns, (first-step+tagTurns)%tagTurns)
		}
	}
	return turns
}

// turnTo returns the direction from one point to another.
func turnTo(from, to point) int {
	angle := math.Atan2(float64(from.y-to.y), float64(to.x-from.x)) / (2 * math.Pi) * tagTurns
	return (int(math.Round(angle)) + tagTurns) % tagTurns
}

// spotAt returns a label whose nearest edge stands so far from the sign, in one of the directions.
func (t tag) spotAt(away page.Pt, turn int) spot {
	angle := float64(turn) / tagTurns * 2 * math.Pi
	dx, dy := math.Cos(angle), -math.Sin(angle)
	out := float64(t.reach + away)
	half := [2]float64{float64(t.w) / 2, float64(t.h) / 2}
	x := float64(t.at.x) + float64(dx*out) + float64(sign(dx)*half[0])
	y := float64(t.at.y) + float64(dy*out) + float64(sign(dy)*half[1])
	s := spot{Rect: page.Rect{X: page.Pt(math.Round(x - half[0])), Y: page.Pt(math.Round(y - half[1])), W: t.w, H: t.h}}
	if away > tagNear {
		s.led = true
		edge := point{min(max(t.at.x, s.X), s.X+s.W), min(max(t.at.y, s.Y), s.Y+s.H)}
		start := t.at
		if t.reach > 0 {
			start = t.at.leaving(edge, t.reach+tagClear/2)
		}
		s.leader = stroke{start, edge}
	}
	return s
}

// sign returns -1, 0 or 1; a direction that is straight but for rounding counts as straight.
func sign(x float64) float64 {
	if math.Abs(x) < 1e-9 {
		return 0
	}
	return float64(cmp.Compare(x, 0))
}

// towards returns the point at a distance on the way to another.
func (a point) towards(b point, distance page.Pt) point {
	dx, dy := float64(b.x-a.x), float64(b.y-a.y)
	length := math.Sqrt(float64(dx*dx) + float64(dy*dy))
	if length == 0 {
		return a
	}
	share := float64(distance) / length
	return point{a.x + page.Pt(math.Round(dx*share)), a.y + page.Pt(math.Round(dy*share))}
}

// What it costs in rings that a leader crosses a stroke or another leader (a sign twice, running along one three times as much), and that a
// label has no place.
const (
	crossCost   = 12
	nowhereCost = 1000
)

// leaving returns the point at which a line to another point leaves the square around this one.
func (a point) leaving(b point, half page.Pt) point {
	dx, dy := float64(b.x-a.x), float64(b.y-a.y)
	far := max(math.Abs(dx), math.Abs(dy))
	if far == 0 {
		return a
	}
	share := float64(half) / far
	return point{a.x + page.Pt(math.Round(dx*share)), a.y + page.Pt(math.Round(dy*share))}
}

// cost returns what a spot costs beyond its distance.
func (p *placer) cost(s spot) int {
	if s.X < p.area.X || s.Y < p.area.Y || s.X+s.W > p.area.X+p.area.W || s.Y+s.H > p.area.Y+p.area.H {
		return nowhereCost
	}
	around := inset(s.Rect, -tagClear)
	if p.rects.hits(around) || p.signs.hits(around) || p.strokes.hits(around) || p.leaders.hits(around) {
		return nowhereCost
	}
	if !s.led {
		return 0
	}
	if p.rects.crossed(s.leader, tagClear/3) {
		return nowhereCost
	}
	beyond := stroke{s.leader.a.towards(s.leader.b, tagClear/2), s.leader.b} // it may begin on a stroke
	return crossCost * (one(p.strokes.crossed(beyond, 0)) + one(p.leaders.crossed(beyond, 0)) + 2*one(p.signs.crossed(s.leader, 0)) +
		3*one(p.strokes.followed(s.leader) || p.leaders.followed(s.leader)))
}
