package sheet

import (
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/units"
)

// mapLabel is a label of the map with what it says.
type mapLabel struct {
	tag
	lines []labelLine
}

// labelLine is one line of a label.
type labelLine struct {
	style style
	text  string
}

// Sizes on the map: ids are read at arm's length. A sign is at most signReach wide around its place.
const (
	signReach  page.Pt = 567  // 2 mm
	nodeReach  page.Pt = 283  // 1 mm
	bodyReach  page.Pt = 907  // 3.2 mm: of a connector
	titleWidth page.Pt = 8504 // 30 mm: a longer title is wrapped
	linePitch  page.Pt = 1134 // 4 mm
)

func (b *boardMap) label(at point, reach page.Pt, lines ...labelLine) mapLabel {
	l := mapLabel{tag: tag{at: at, reach: reach}}
	for _, line := range lines {
		if line.text != "" {
			l.lines = append(l.lines, line)
			l.w = max(l.w, b.width(line.style, line.text))
		}
	}
	l.h = linePitch*page.Pt(len(l.lines)) - mm10(4)
	return l
}

// labelsOf returns what is written on a tile: segments first and where they lead off it, then nodes, which stand
// between them, then what stands at their ends and has room outside.
func (b *boardMap) labelsOf(t *mapTile) []mapLabel {
	var labels []mapLabel
	for _, s := range b.plan.Segments {
		labels = append(labels, b.segmentLabels(t, s)...)
	}
	for _, n := range b.plan.Board.Nodes {
		if t.holds(n.XUM, n.YUM) {
			labels = append(labels, b.label(t.at(n.XUM, n.YUM), b.nodeReachOf(n.ID), labelLine{monoBold(10), n.ID}))
		}
	}
	for _, item := range b.plan.Board.Items {
		if t.holds(item.XUM, item.YUM) {
			labels = append(labels, b.itemLabel(t, item))
		}
	}
	return labels
}

// itemLabel names a connector with its title and key, a splice, a terminal, or how many wires end loose.
func (b *boardMap) itemLabel(t *mapTile, item plan.BoardItem) mapLabel {
	lines := []labelLine{{monoBold(12), item.ID}}
	if item.Kind != "splice" {
		for _, line := range b.wrap(regular(9), titleWidth, item.Title) {
			lines = append(lines, labelLine{regular(9), line})
		}
	}
	lines = append(lines, labelLine{medium(9), b.keyWords(item.Key)})
	l := b.label(b.itemPoint(t, item), b.itemReach(item), lines...)
	if away, known := b.away(t, item); known {
		l.turns = turnsFrom(turnTo(l.at, away))
	}
	return l
}

// itemPoint is where the sign of an item stands: a connector and a terminal stand beyond their node, away from their branch, one
// behind the other as far as the drawing reaches, and then beside each other.
func (b *boardMap) itemPoint(t *mapTile, item plan.BoardItem) point {
	at := t.at(item.XUM, item.YUM)
	away, known := b.away(t, item)
	if !known {
		return at
	}
	beyond := func(i int) point { return at.towards(away, bodyReach*page.Pt(2*i+1)) }
	before, row := b.beforeAt(item), 1
	for row <= before && onMap(beyond(row)) {
		row++
	}
	lane := (before/row + 1) / 2
	if before/row%2 == 0 {
		lane = -lane
	}
	spot := beyond(before % row)
	return spot.towards(point{spot.x - (away.y - at.y), spot.y + (away.x - at.x)}, 2*bodyReach*page.Pt(lane))
}

// onMap reports whether a sign around a point stays within the drawing.
func onMap(at point) bool {
	area := mapArea()
	return at.x >= area.X+bodyReach && at.x <= area.X+area.W-bodyReach && at.y >= area.Y+bodyReach && at.y <= area.Y+area.H-bodyReach
}

// beforeAt counts the items at a node that stand nearer to it.
func (b *boardMap) beforeAt(item plan.BoardItem) int {
	count := 0
	for _, other := range b.plan.Board.Items {
		if other.ID == item.ID && other.Kind == item.Kind && other.Node == item.Node {
			break
		}
		if other.Node == item.Node && other.After != "" {
			count++
		}
	}
	return count
}

// away returns a point in the direction that an item points to; false where branches come from several sides.
func (b *boardMap) away(t *mapTile, item plan.BoardItem) (point, bool) {
	before, known := b.nodes[item.After]
	if !known || before.XUM == item.XUM && before.YUM == item.YUM {
		return point{}, false
	}
	at, from := t.at(item.XUM, item.YUM), t.at(before.XUM, before.YUM)
	return point{2*at.x - from.x, 2*at.y - from.y}, true
}

func (b *boardMap) itemReach(item plan.BoardItem) page.Pt {
	if item.Kind == "connector" {
		return bodyReach
	}
	return signReach
}

// nodeReachOf returns how far the signs at a node reach.
func (b *boardMap) nodeReachOf(id string) page.Pt {
	reach := nodeReach
	if b.nodes[id].Fixing {
		reach = signReach
	}
	for _, item := range b.plan.Board.Items {
		if item.Node == id && item.After == "" && item.Kind != "splice" {
			reach = max(reach, b.itemReach(item))
		}
	}
	return reach
}

// segmentLabels names length, diameter, covers and separations of a segment on the tile that holds its middle, and on every tile that
// it leaves the node that it leads to.
func (b *boardMap) segmentLabels(t *mapTile, s plan.Segment) []mapLabel {
	from, to := b.nodes[s.Between[0]], b.nodes[s.Between[1]]
	line, cut, inside := t.clip(from, to)
	var labels []mapLabel
	if x, y := (from.XUM+to.XUM)/2, (from.YUM+to.YUM)/2; t.holds(x, y) {
		l := b.label(t.at(x, y), 0, b.segmentLines(s)...)
		for _, part := range []int64{12, 8, 14, 6} { // in twentieths of the segment
			if x, y := from.XUM+(to.XUM-from.XUM)*part/20, from.YUM+(to.YUM-from.YUM)*part/20; t.holds(x, y) {
				l.also = append(l.also, t.at(x, y))
			}
		}
		labels = append(labels, l)
	}
	if !inside {
		return labels
	}
	if cut[0] {
		labels = append(labels, b.label(t.at(line[0], line[1]), 0, labelLine{mono(9), b.say("map.to", "node", from.ID)}))
	}
	if cut[1] {
		labels = append(labels, b.label(t.at(line[2], line[3]), 0, labelLine{mono(9), b.say("map.to", "node", to.ID)}))
	}
	return labels
}

func (b *boardMap) segmentLines(s plan.Segment) []labelLine {
	lines := []labelLine{{mono(9), b.decimal(units.Length(s.LengthUM).Millimetres())}}
	from, to := b.nodes[s.Between[0]], b.nodes[s.Between[1]]
	switch steep := abs64(from.YUM-to.YUM) > abs64(from.XUM-to.XUM); {
	case s.DiameterUM > 0 && steep: // beside an upright segment, narrow
		lines = append(lines, labelLine{mono(9), "Ø" + b.decimal(tenthUp(s.DiameterUM))})
	case s.DiameterUM > 0:
		lines[0].text += " Ø" + b.decimal(tenthUp(s.DiameterUM))
	}
	for _, c := range s.Covers {
		lines = append(lines, labelLine{regular(9), c.Part})
	}
	if len(s.Separations) > 0 {
		lines = append(lines, labelLine{medium(9), b.say("map.separation_short", "names", strings.Join(s.Separations, "+"))})
	}
	return lines
}

// strokesOf returns the segments on a tile, and the marks at its corners, as lines that no label may stand on.
func (b *boardMap) strokesOf(t *mapTile) []stroke {
	strokes := t.corners()
	for _, s := range b.plan.Segments {
		if line, _, inside := t.clip(b.nodes[s.Between[0]], b.nodes[s.Between[1]]); inside {
			strokes = append(strokes, stroke{t.at(line[0], line[1]), t.at(line[2], line[3])})
		}
	}
	return strokes
}

// signsOf returns the signs on a tile as rectangles that no label may stand on.
func (b *boardMap) signsOf(t *mapTile) []page.Rect {
	square := func(at point, reach page.Pt) page.Rect {
		return page.Rect{X: at.x - reach, Y: at.y - reach, W: 2 * reach, H: 2 * reach}
	}
	var signs []page.Rect
	for _, n := range b.plan.Board.Nodes {
		if t.holds(n.XUM, n.YUM) {
			signs = append(signs, square(t.at(n.XUM, n.YUM), b.nodeReachOf(n.ID)))
		}
	}
	for _, item := range b.plan.Board.Items {
		if t.holds(item.XUM, item.YUM) {
			signs = append(signs, square(b.itemPoint(t, item), b.itemReach(item)))
		}
	}
	return signs
}
