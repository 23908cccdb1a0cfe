package sheet

import (
	"fmt"
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/units"
)

// segmentColumns heads the table of segments: right edges of the figures.
func segmentColumns() []struct {
	title string
	right page.Pt
} {
	return []struct {
		title string
		right page.Pt
	}{{"length", mm(62)}, {"wires", mm(76)}, {"Ø nominal", mm(96)}, {"Ø room", mm(114)}, {"over covers", mm(138)}, {"bend radius", mm(161)}}
}

// segments prints the table of segments.
func (b *boardMap) segments() {
	b.open = func() {
		b.text(live.X, b.y+mm10(85), bold(24), live.W, "Segments")
		b.text(live.X+mm(44), b.y+mm10(85), regular(11), live.W-mm(44), "all in mm, diameters rounded up; bend radius: at least")
		b.y += mm(16)
		b.text(live.X, b.y, bold(9), mm(40), "between")
		for _, c := range segmentColumns() {
			b.right(live.X+c.right, b.y, bold(9), mm(26), c.title)
		}
		b.y += mm10(15)
		b.across(live.X, live.X+live.W, b.y, groupRule*3/2)
	}
	if b.plan.Board.Drawn {
		b.turn()
	} else {
		b.open()
	}
	for _, s := range b.plan.Segments {
		b.at = s.Place
		b.segmentRow(s)
	}
	b.at = b.plan.Board.Nodes[0].Place
	b.basis()
	b.open = nil
}

func (b *boardMap) segmentRow(s plan.Segment) {
	more := b.lines(live.W-mm(4), b.segmentSpans(s))
	names := s.Between[0] + " to " + s.Between[1]
	deep := b.width(monoBold(11), names) > mm(46)
	height := mm(7) + mm(5)*page.Pt(len(more))
	if deep {
		height += mm(6)
	}
	b.need(height)
	y := b.y + mm(5)
	b.text(live.X, y, monoBold(11), live.W, names)
	if deep {
		y += mm(6)
	}
	for i, figure := range segmentFigures(s) {
		b.right(live.X+segmentColumns()[i].right, y, mono(11), mm(26), figure)
	}
	b.flow(live.X+mm(4), y+mm(5), live.W-mm(4), mm(5), b.segmentSpans(s)...)
	b.y += height
	b.across(live.X, live.X+live.W, b.y, rowRule)
}

// segmentFigures returns what stands in the columns; "-" where nothing lies, or nothing is known.
func segmentFigures(s plan.Segment) []string {
	figure := func(um int64) string {
		if um == 0 {
			return "-"
		}
		return tenthUp(um)
	}
	over := figure(s.OverUM)
	if len(s.Covers) == 0 {
		over = "-"
	}
	return []string{units.Length(s.LengthUM).Millimetres(), fmt.Sprint(len(s.Wires) + len(s.Cables)), figure(s.DiameterUM), figure(s.RoomUM), over, figure(s.BendUM)}
}

// segmentSpans says which covers and separations a segment has.
func (b *boardMap) segmentSpans(s plan.Segment) []span {
	var spans []span
	for _, c := range s.Covers {
		words := fmt.Sprintf("cover %s from %s to %s from %s", c.Part, exactMM(c.FromUM), exactMM(c.ToUM), s.Between[0])
		if c.WallUM > 0 {
			words += ", wall " + exactMM(c.WallUM)
		} else {
			words += ", wall not given"
		}
		spans = append(spans, span{style: regular(10), text: words})
	}
	if len(s.Cables) > 0 {
		spans = append(spans, span{style: regular(10), text: "cables " + strings.Join(s.Cables, ", ")})
	}
	switch len(s.Separations) {
	case 0:
	case 1:
		spans = append(spans, span{style: medium(10), text: "separation " + s.Separations[0]})
	default:
		spans = append(spans, span{style: bold(10), text: "SEPARATIONS TOGETHER: " + strings.Join(s.Separations, " and ")})
	}
	return spans
}

// basis says what diameters and radii rest on.
func (b *boardMap) basis() {
	r := b.plan.Bundles
	words := fmt.Sprintf("Diameter: exact up to three wires; from four on %s times the root of the sum of the squares of their diameters, with room %s times: figures of our own, "+
		"measured against the tightest packings known. Twist, lacing and ties are not in it. A cable counts as one wire.", r.Nominal, r.Room)
	bends := "Bend radius: "
	if r.Over == "bundle" {
		bends += "of the whole branch, by its most sensitive wire. "
	} else {
		bends += "of each wire and cable, the largest decides. "
	}
	for _, limit := range r.Bends {
		bends += fmt.Sprintf("%s: %d diameters, %s. ", limit.Kind, limit.Times, limit.Source)
	}
	lines := append(b.wrap(regular(10), live.W, words), b.wrap(regular(10), live.W, bends)...)
	b.need(mm(6) + mm(5)*page.Pt(len(lines)))
	y := b.paragraph(live.X, b.y+mm(8), regular(10), live.W, mm(5), words)
	b.y = b.paragraph(live.X, y, regular(10), live.W, mm(5), bends)
}

// finder prints where each wire lies: wires that follow each other along the same nodes share a line.
func (b *boardMap) finder() {
	if len(b.plan.Finder) == 0 {
		return
	}
	b.open = func() {
		b.text(live.X, b.y+mm10(85), bold(24), live.W, "Find a wire")
		b.text(live.X+mm(54), b.y+mm10(85), regular(11), live.W-mm(54), "its nodes, from its home on")
		b.y += mm(11)
		b.across(live.X, live.X+live.W, b.y, groupRule*3/2)
	}
	b.turn()
	ids := mm(30)
	for _, f := range b.plan.Finder {
		ids = max(ids, min(b.width(monoBold(12), foundWords(f))+mm(4), mm(80)))
	}
	for i, f := range b.plan.Finder {
		b.foundRow(f, ids, i%5 == 4)
	}
	b.open = nil
}

func foundWords(f plan.Found) string {
	if f.First == f.Last {
		return f.First
	}
	return f.First + " to " + f.Last
}

func (b *boardMap) foundRow(f plan.Found, ids page.Pt, heavy bool) {
	spans := []span{{style: medium(11), text: "not along the board"}}
	for i, node := range f.Nodes {
		if i == 0 {
			spans = nil
		}
		spans = append(spans, span{style: mono(12), text: node})
	}
	y, at := b.y+mm10(47), live.X+ids
	deep := b.width(monoBold(12), foundWords(f)) > ids-mm(2)
	if deep {
		at = live.X + mm(8)
	}
	lines := b.lines(live.X+live.W-at, spans)
	height := mm10(62) + mm10(55)*page.Pt(len(lines)-1)
	if deep {
		height += mm(6)
	}
	if b.left() < height {
		b.turn()
		y = b.y + mm10(47)
	}
	b.text(live.X, y, monoBold(12), live.W, foundWords(f))
	if deep {
		y += mm(6)
	}
	b.flow(at, y, live.X+live.W-at, mm10(55), spans...)
	b.y += height
	weight := rowRule
	if heavy {
		weight = groupRule
	}
	b.across(live.X, live.X+live.W, b.y, weight)
}
