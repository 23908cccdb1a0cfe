package sheet

import (
	"fmt"
	"slices"
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/units"
)

// Weights of segments: where nothing lies, where wires lie, under a cover.
const (
	bareRule  = page.Point / 2
	wireRule  = page.Point * 3 / 2
	coverRule = page.Point * 4
)

// tile prints a page of the drawing.
func (b *boardMap) tile(t mapTile, tiles []mapTile) {
	b.turn()
	words := b.say("map.whole", "scale", b.scaleWords(t.scale))
	if t.name != "" {
		words = b.say("map.tile", "tile", t.name, "scale", b.scaleWords(t.scale))
	}
	b.title(words)
	b.neighbours(t, tiles)
	b.outline(t)
	for _, s := range b.plan.Segments {
		b.segment(&t, s)
	}
	for _, n := range b.plan.Board.Nodes {
		if t.holds(n.XUM, n.YUM) {
			b.node(t.at(n.XUM, n.YUM), n)
		}
	}
	for _, item := range b.plan.Board.Items {
		if t.holds(item.XUM, item.YUM) {
			b.item(&t, item)
		}
	}
	for i, l := range t.labels {
		b.written(l, t.spots[i])
	}
	b.key(t.scale)
}

// neighbours says which tile joins on each side.
func (b *boardMap) neighbours(t mapTile, tiles []mapTile) {
	if t.name == "" {
		return
	}
	side := func(words string, column, row int) span {
		for _, other := range tiles {
			if other.column == column && other.row == row {
				return span{style: medium(10), text: joined(" ", words, other.name)}
			}
		}
		return span{style: medium(10)}
	}
	b.line(live.X, mm(54), live.W, b.present([]span{side(b.say("map.left"), t.column-1, t.row), side(b.say("map.right"), t.column+1, t.row),
		side(b.say("map.above"), t.column, t.row+1), side(b.say("map.below"), t.column, t.row-1)}))
}

// outline marks the corners of the tile's part of the board.
func (b *boardMap) outline(t mapTile) {
	for _, s := range t.corners() {
		b.items = append(b.items, page.Rule{X1: s.a.x, Y1: s.a.y, X2: s.b.x, Y2: s.b.y, Weight: rowRule})
	}
}

// corners returns the marks at the corners of the tile.
func (t *mapTile) corners() []stroke {
	c, arm := t.corner(), mm(3)
	w, h := t.paper(t.width), t.paper(t.high)
	var marks []stroke
	for _, corner := range []struct {
		at       point
		inX, inY page.Pt
	}{{c, arm, arm}, {point{c.x + w, c.y}, -arm, arm}, {point{c.x, c.y + h}, arm, -arm}, {point{c.x + w, c.y + h}, -arm, -arm}} {
		marks = append(marks, stroke{corner.at, point{corner.at.x + corner.inX, corner.at.y}}, stroke{corner.at, point{corner.at.x, corner.at.y + corner.inY}})
	}
	return marks
}

// segment draws a segment: thicker where wires lie in it, thickest where a cover is, dashed where it is not as long as drawn.
func (b *boardMap) segment(t *mapTile, s plan.Segment) {
	from, to := b.nodes[s.Between[0]], b.nodes[s.Between[1]]
	line, _, inside := t.clip(from, to)
	if !inside {
		return
	}
	rule := page.Rule{Weight: wireRule}
	if len(s.Wires)+len(s.Cables) == 0 {
		rule.Weight = bareRule
	}
	if drawn := units.Distance(units.Length(from.XUM-to.XUM), units.Length(from.YUM-to.YUM)); abs64(int64(drawn)-s.LengthUM) > 1000 {
		rule.Dash = []page.Pt{6 * page.Point, 3 * page.Point}
	}
	b.ruled(t, line, rule)
	for _, c := range s.Covers {
		part := func(um int64) plan.BoardNode {
			return plan.BoardNode{XUM: from.XUM + share(to.XUM-from.XUM, um, s.LengthUM), YUM: from.YUM + share(to.YUM-from.YUM, um, s.LengthUM)}
		}
		if line, _, inside := t.clip(part(c.FromUM), part(c.ToUM)); inside {
			b.ruled(t, line, page.Rule{Weight: coverRule})
		}
	}
}

func abs64(x int64) int64 { return max(x, -x) }

// share returns the part of a distance that lies at a length of a whole.
func share(distance, length, whole int64) int64 {
	if whole == 0 {
		return 0
	}
	return int64(float64(distance) * float64(length) / float64(whole))
}

func (b *boardMap) ruled(t *mapTile, line [4]int64, rule page.Rule) {
	from, to := t.at(line[0], line[1]), t.at(line[2], line[3])
	if from == to {
		return
	}
	rule.X1, rule.Y1, rule.X2, rule.Y2 = from.x, from.y, to.x, to.y
	b.items = append(b.items, rule)
}

// node draws a node, and a triangle around it where the harness is fastened to the board.
func (b *boardMap) node(at point, n plan.BoardNode) {
	b.items = append(b.items, page.Disc{X: at.x, Y: at.y, R: nodeReach * 2 / 3, Weight: groupRule})
	if n.Fixing {
		b.triangle(at)
	}
}

func (b *boardMap) triangle(at point) {
	b.items = append(b.items, page.Path{Weight: groupRule, Points: [][2]page.Pt{{at.x, at.y - mm10(18)}, {at.x + mm10(17), at.y + mm10(12)}, {at.x - mm10(17), at.y + mm10(12)}}})
}

// item draws the sign of a connector, splice, terminal, or of wires that end loose.
func (b *boardMap) item(t *mapTile, item plan.BoardItem) {
	at := b.itemPoint(t, item)
	away, pointing := b.away(t, item)
	b.sign(at, item.Kind, away, pointing)
}

// sign draws a sign around a place: a connector as a shield whose tip points to where it faces, or a square where it faces nowhere.
func (b *boardMap) sign(at point, kind string, away point, pointing bool) {
	square := func(half page.Pt, filled bool) {
		b.items = append(b.items, page.Box{Rect: page.Rect{X: at.x - half, Y: at.y - half, W: 2 * half, H: 2 * half}, Weight: groupRule, Filled: filled})
	}
	switch kind {
	case "connector":
		if pointing {
			b.items = append(b.items, page.Path{Filled: true, Points: shieldAt(at, away)})
			return
		}
		square(mm10(22), false)
	case "splice":
		square(mm10(11), true)
	case "terminal":
		b.items = append(b.items, page.Disc{X: at.x, Y: at.y, R: mm10(18), Weight: groupRule * 3 / 2})
	case "capped":
		half := mm10(15)
		b.items = append(b.items, page.Rule{X1: at.x - half, Y1: at.y - half, X2: at.x + half, Y2: at.y + half, Weight: groupRule},
			page.Rule{X1: at.x - half, Y1: at.y + half, X2: at.x + half, Y2: at.y - half, Weight: groupRule})
	case "leaves":
		b.arrow(at.x+mm10(15), at.y)
	}
}

// shieldAt returns a five-sided shape around a place with its tip towards another.
func shieldAt(at, away point) [][2]page.Pt {
	tip, back := at.towards(away, mm10(29)), at.towards(away, -mm10(29))
	shoulder := at.towards(away, mm10(5))
	side := func(from point, wide page.Pt) [2]page.Pt {
		q := from.towards(point{from.x - (away.y - at.y), from.y + (away.x - at.x)}, wide)
		return [2]page.Pt{q.x, q.y}
	}
	return [][2]page.Pt{{tip.x, tip.y}, side(shoulder, mm10(17)), side(back, mm10(17)), side(back, -mm10(17)), side(shoulder, -mm10(17))}
}

// written prints a label at its spot, with the line that leads to what it names.
func (b *boardMap) written(l mapLabel, s spot) {
	if s.led {
		b.items = append(b.items, page.Rule{X1: s.leader.a.x, Y1: s.leader.a.y, X2: s.leader.b.x, Y2: s.leader.b.y, Weight: rowRule})
		if dot := mm10(3); l.reach == 0 { // a dot on the segment that is meant
			b.items = append(b.items, page.Disc{X: s.leader.a.x, Y: s.leader.a.y, R: dot, Weight: 2 * dot})
		}
	}
	y := s.Y + mm10(30)
	for _, line := range l.lines {
		b.text(s.X, y, line.style, s.W, line.text)
		y += linePitch
	}
}

// key explains the signs, says what lengths and diameters mean, and prints the bar that shows whether the print is to scale.
func (b *boardMap) key(scale int64) {
	y := mapBottom() + mm(3)
	b.across(live.X, live.X+live.W, y-mm(2), rowRule)
	x := live.X + mm(3)
	for _, one := range []struct{ kind, words string }{{"connector", b.say("map.sign_connector")}, {"splice", b.say("map.sign_splice")}, {"terminal", b.say("map.sign_terminal")},
		{"fixing", b.say("map.sign_fixing")}, {"capped", b.say("map.sign_capped")}, {"leaves", b.say("map.sign_leaves")}, {"node", b.say("map.sign_node")}} {
		at := point{x, y + mm10(20)}
		switch one.kind {
		case "fixing":
			b.triangle(at)
		case "node":
			b.node(at, plan.BoardNode{})
		default:
			b.sign(at, one.kind, point{at.x + mm(5), at.y}, true)
		}
		b.text(x+mm(4), y+mm10(32), regular(9), mm(60), one.words)
		x += mm(9) + b.width(regular(9), one.words)
	}
	y = b.paragraph(live.X, y+mm10(85), regular(9), live.W, mm10(42), b.say("map.key"))
	b.scaleBar(b.separations(y+mm10(3))-mm10(5), scale)
}

// scaleBar prints 100 mm of paper with what it is on the board.
func (b *boardMap) scaleBar(y page.Pt, scale int64) {
	for i := range 11 {
		tick := mm10(12)
		if i%10 == 0 {
			tick = mm(2)
		}
		x := live.X + scaleLength()*page.Pt(i)/10
		b.items = append(b.items, page.Rule{X1: x, Y1: y - tick, X2: x, Y2: y, Weight: rowRule})
	}
	b.across(live.X, live.X+scaleLength(), y, groupRule)
	b.text(live.X+scaleLength()+mm(3), y, bold(9), mm(77), b.say("map.bar", "length", b.decimal(units.Length(scale*10_000).Millimetres())))
	b.line(live.X, y+mm10(52), live.W, []span{{style: medium(9), text: b.say("map.measured"), blank: mm(17), after: "mm,"}, {style: regular(9), text: b.say("map.limit", "least", b.decimal("99.5"), "most", b.decimal("100.5"))}})
}

// keyPage prints the whole board small, with the tiles that it is cut into.
func (b *boardMap) keyPage(tiles []mapTile) {
	b.turn()
	whole := b.wholeBoard()
	b.title(b.sayCount("map.key_to_tiles", len(tiles), "scale", b.scaleWords(whole.scale)))
	b.outline(whole)
	for _, s := range b.plan.Segments {
		b.segment(&whole, s)
	}
	b.overview(whole, tiles)
	for _, t := range tiles {
		low, high := whole.at(t.left, t.low), whole.at(t.left+t.width, t.low+t.high)
		b.items = append(b.items, page.Box{Rect: page.Rect{X: low.x, Y: high.y, W: high.x - low.x, H: low.y - high.y}, Weight: rowRule})
	}
	b.key(whole.scale)
}

// wholeBoard is the board at the largest scale that one page holds.
func (b *boardMap) wholeBoard() mapTile {
	for _, scale := range scales() {
		if one := b.tilesAt(scale); len(one) == 1 {
			return one[0]
		}
	}
	return mapTile{}
}

// overview writes the ids of nodes and connectors on the key page, and letters and numbers of the tiles at its edges. On a board too crowded for
// the nodes the connectors stand alone, and where they find no room either, the tiles.
func (b *boardMap) overview(whole mapTile, tiles []mapTile) {
	var words []page.Rect
	strokes, taken := b.strokesOf(&whole), slices.Clip(b.signsOf(&whole))
	for _, t := range tiles {
		low, high := whole.at(t.left, t.low), whole.at(t.left+t.width, t.low+t.high)
		strokes = append(strokes, stroke{low, point{high.x, low.y}}, stroke{low, point{low.x, high.y}}, stroke{high, point{high.x, low.y}}, stroke{high, point{low.x, high.y}})
		if t.last[1] { // letters of the columns above, numbers of the rows on the left
			words = append(words, b.tileWord(strings.TrimRight(t.name, "0123456789"), aboveColumn(low, high), append(taken, words...)))
		}
		if t.column == 0 {
			places := besideRow(low.x, whole.at(whole.left+whole.width, 0).x, low.y, high.y)
			words = append(words, b.tileWord(fmt.Sprint(t.row+1), places, append(taken, words...)))
		}
	}
	for _, nodes := range []bool{true, false} {
		labels := b.idLabels(&whole, nodes)
		var tags []tag
		for _, l := range labels {
			tags = append(tags, l.tag)
		}
		spots := placeTags(tags, strokes, b.signsOf(&whole), words, mapArea())
		if slices.ContainsFunc(spots, func(s spot) bool { return !s.placed }) {
			continue
		}
		for _, n := range b.plan.Board.Nodes {
			if nodes {
				b.node(whole.at(n.XUM, n.YUM), n)
			}
		}
		for _, item := range b.plan.Board.Items {
			b.item(&whole, item)
		}
		for i, l := range labels {
			b.written(l, spots[i])
		}
		return
	}
}

// tileWord prints the letter of a column or the number of a row at the first of some places that is free, or at the first of all where
// none is, and returns the room that it takes.
func (b *boardMap) tileWord(word string, places []point, taken []page.Rect) page.Rect {
	width := b.width(monoBold(14), word)
	room := func(at point) page.Rect { return page.Rect{X: at.x - width/2, Y: at.y - mm(4), W: width, H: mm(5)} }
	free := slices.IndexFunc(places, func(at point) bool {
		return !slices.ContainsFunc(taken, func(r page.Rect) bool { return meet(room(at), r) })
	})
	at := places[max(free, 0)]
	b.centre(at.x, at.y, monoBold(14), width, word)
	return room(at)
}

// aboveColumn returns places for the letter of a column, upwards from its uppermost tile.
func aboveColumn(low, high point) []point {
	places := []point{{(low.x + high.x) / 2, high.y - mm(3)}}
	for y := places[0].y - mm(2); y > mapArea().Y && len(places) < 20; y -= mm(2) {
		places = append(places, point{places[0].x, y})
	}
	return places
}

// besideRow returns places for the number of a row, all at its height: left of its first tile, then right of its last.
func besideRow(first, last, low, high page.Pt) []point {
	var places []point
	middle := (low+high)/2 + mm(2)
	for _, x := range []page.Pt{first - mm(5), first - mm(7), last + mm(5), last + mm(7)} {
		for off := page.Pt(0); off == 0 || off+mm(3) < (low-high)/2; off += mm(1) {
			places = append(places, point{x, middle + off}, point{x, middle - off})
		}
	}
	return places
}

// meet reports whether two rectangles share room.
func meet(a, b page.Rect) bool {
	return a.X < b.X+b.W && b.X < a.X+a.W && a.Y < b.Y+b.H && b.Y < a.Y+a.H
}

// idLabels returns the ids of connectors, splices and terminals, and of the nodes where they are wanted.
func (b *boardMap) idLabels(t *mapTile, nodes bool) []mapLabel {
	var labels []mapLabel
	for _, n := range b.plan.Board.Nodes {
		if nodes {
			labels = append(labels, b.label(t.at(n.XUM, n.YUM), b.nodeReachOf(n.ID), labelLine{mono(10), n.ID}))
		}
	}
	for _, item := range b.plan.Board.Items {
		if item.ID != "" {
			l := b.label(b.itemPoint(t, item), b.itemReach(item), labelLine{monoBold(12), item.ID})
			if away, known := b.away(t, item); known {
				l.turns = turnsFrom(turnTo(l.at, away))
			}
			labels = append(labels, l)
		}
	}
	return labels
}
