package sheet

import (
	"fmt"
	"slices"
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
)

// boardMap writes the map of the board: one page, or a key page and tiles; then the table of segments, and where each wire lies.
type boardMap struct {
	book
	plan  *plan.Plan
	nodes map[string]plan.BoardNode
}

// mapTop and mapBottom bound the drawing on a page: the title stands above it, the key of signs below.
func mapTop() page.Pt    { return mm(56) }
func mapBottom() page.Pt { return mm(222) }

// mapArea is where the drawing and its labels stand, mapWindow what of it is kept for the board itself.
func mapArea() page.Rect {
	return page.Rect{X: live.X, Y: mapTop(), W: live.W, H: mapBottom() - mapTop()}
}
func mapWindow() page.Rect {
	return page.Rect{X: live.X + mm(10), Y: mapTop() + mm(9), W: live.W - mm(20), H: mapBottom() - mapTop() - mm(18)}
}

// mostTiles is how many pages a map may take.
const mostTiles = 120

// mapSections lays the map; a job without a board has none.
func mapSections(p *plan.Plan, m composer, problems *problem.List) []section {
	if len(p.Board.Nodes) == 0 {
		return nil
	}
	b := newBoardMap(p, m, problems)
	b.drawing()
	b.segments()
	b.finder()
	return []section{{sheet: "map", title: m.Say("map.title"), pages: b.finish()}}
}

func newBoardMap(p *plan.Plan, m composer, problems *problem.List) *boardMap {
	b := &boardMap{book: *newBook(m, problems), plan: p, nodes: map[string]plan.BoardNode{}}
	b.draft = p.Packet.Draft
	for _, n := range p.Board.Nodes {
		b.nodes[n.ID] = n
	}
	return b
}

// scales lists the scales that a map may be drawn to, 1:n, the largest drawing first.
func scales() []int64 {
	var all []int64
	for power := int64(1); power <= 1000; power *= 10 {
		for _, n := range []int64{10, 12, 15, 20, 25, 30, 40, 50, 60, 80} {
			all = append(all, n*power)
		}
	}
	return all // in tenths: 1:1, 1:1.2 ..
}

// drawing prints the map on one page where its labels find room, else as tiles of the largest pieces of the board that do.
func (b *boardMap) drawing() {
	if !b.plan.Board.Drawn {
		b.undrawn()
		return
	}
	for _, scale := range b.scalesThatFit() {
		tiles := b.tilesAt(scale)
		if len(tiles) > mostTiles {
			break
		}
		if b.placeAll(tiles) {
			if len(tiles) > 1 {
				b.keyPage(tiles)
			}
			for _, t := range tiles {
				b.tile(t, tiles)
			}
			return
		}
	}
	b.at = b.plan.Board.Nodes[0].Place
	b.refuse("crowded-map", fmt.Sprintf("the labels of board %q find no room on a map of %d pages", b.plan.Board.ID, mostTiles),
		"draw the nodes further apart, or shorten the titles of the connectors")
}

// scalesThatFit returns the scales to try: those that take one page, the largest drawing first and not needlessly small, then those that
// take tiles, the smallest drawing first.
func (b *boardMap) scalesThatFit() []int64 {
	var whole, tiled []int64
	for _, scale := range scales() {
		switch pages := len(b.tilesAt(scale)); {
		case pages > 1:
			tiled = append(tiled, scale)
		case len(whole) < onePageTries:
			whole = append(whole, scale)
		}
	}
	slices.Reverse(tiled)
	return append(whole, tiled...)
}

// onePageTries is how many scales are tried before a board is cut into tiles: a smaller drawing leaves its labels more room.
const onePageTries = 2

// undrawn says why there is no drawing.
func (b *boardMap) undrawn() {
	b.turn()
	b.title("")
	b.box(live.X, b.y, live.W, mm(20), groupRule)
	b.text(live.X+mm(4), b.y+mm(8), bold(13), live.W-mm(8), b.say("map.no_drawing"))
	b.text(live.X+mm(4), b.y+mm(15), regular(11), live.W-mm(8), b.say("map.no_drawing_below"))
	b.y += mm(24)
}

// title opens a page of the drawing.
func (b *boardMap) title(words string) {
	title := b.say("map.title")
	b.text(live.X, b.y+mm10(85), bold(28), live.W/2, title)
	x := live.X + b.width(bold(28), title) + mm(6)
	b.line(x, b.y+mm10(85), live.X+live.W-x, b.present([]span{{style: monoBold(16), text: b.plan.Board.ID}, {style: medium(14), text: words}}))
	b.y += mm(11)
}

// scaleWords names a scale in tenths, as the language writes figures: "1:30", "1:2.5".
func (p *pen) scaleWords(scale int64) string {
	if scale%10 == 0 {
		return fmt.Sprintf("1:%d", scale/10)
	}
	return "1:" + p.decimal(fmt.Sprintf("%d.%d", scale/10, scale%10))
}

// separationsOf returns the separations of a job, and how many segments hold more than one.
func separationsOf(segments []plan.Segment) (all []string, mixed int) {
	for _, s := range segments {
		for _, name := range s.Separations {
			if !slices.Contains(all, name) {
				all = append(all, name)
			}
		}
		if len(s.Separations) > 1 {
			mixed++
		}
	}
	slices.Sort(all)
	return all, mixed
}

// separations prints in one line whether wires that must stay apart do, and returns the base line after it.
func (b *boardMap) separations(y page.Pt) page.Pt {
	all, mixed := separationsOf(b.plan.Segments)
	words, s := b.say("map.separations_none"), regular(10)
	switch {
	case mixed > 0:
		words, s = b.sayCount("map.separations_mixed", mixed), bold(10)
	case len(all) > 0:
		words, s = b.say("map.separations_checked", "names", strings.Join(all, ", ")), medium(10)
		if b.width(s, words) > live.W {
			words = b.sayCount("map.separations_count", len(all))
		}
	}
	b.text(live.X, y, s, live.W, words)
	return y + mm(5)
}
