package sheet

import (
	"fmt"
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/units"
)

// segmentColumns heads the table of segments: right edges of the figures.
func (b *boardMap) segmentColumns() []struct {
	title string
	right page.Pt
} {
	return []struct {
		title string
		right page.Pt
	}{{b.say("map.length"), mm(62)}, {b.say("map.wires"), mm(76)}, {b.say("map.nominal"), mm(96)}, {b.say("map.room"), mm(114)},
		{b.say("map.over_covers"), mm(138)}, {b.say("map.bend_radius"), mm(161)}}
}

// tableTitle opens a page of a table: its name, and beside it how it is read.
func (b *boardMap) tableTitle(name, how string, beside page.Pt) {
	b.text(live.X, b.y+mm10(85), bold(24), live.W, name)
	beside = max(beside, b.width(bold(24), name)+mm(3))
	b.text(live.X+beside, b.y+mm10(85), regular(11), live.W-beside, how)
}

// segments prints the table of segments.
func (b *boardMap) segments() {
	b.open = func() {
		b.tableTitle(b.say("map.segments"), b.say("map.segments_how"), mm(44))
		b.y += mm(16)
		b.text(live.X, b.y, bold(9), mm(40), b.say("map.between"))
		for _, c := range b.segmentColumns() {
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
	names := b.say("map.from_to", "first", s.Between[0], "last", s.Between[1])
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
	for i, figure := range b.segmentFigures(s) {
		b.right(live.X+b.segmentColumns()[i].right, y, mono(11), mm(26), figure)
	}
	b.flow(live.X+mm(4), y+mm(5), live.W-mm(4), mm(5), b.segmentSpans(s)...)
	b.y += height
	b.across(live.X, live.X+live.W, b.y, rowRule)
}

// segmentFigures returns what stands in the columns; "-" where nothing lies, or nothing is known.
func (b *boardMap) segmentFigures(s plan.Segment) []string {
	figure := func(um int64) string {
		if um == 0 {
			return "-"
		}
		return b.decimal(tenthUp(um))
	}
	over := figure(s.OverUM)
	if len(s.Covers) == 0 {
		over = "-"
	}
	return []string{b.decimal(units.Length(s.LengthUM).Millimetres()), fmt.Sprint(len(s.Wires) + len(s.Cables)), figure(s.DiameterUM), figure(s.RoomUM), over, figure(s.BendUM)}
}

// segmentSpans says which covers and separations a segment has.
func (b *boardMap) segmentSpans(s plan.Segment) []span {
	var spans []span
	for _, c := range s.Covers {
		from, to, node := b.decimal(exactMM(c.FromUM)), b.decimal(exactMM(c.ToUM)), s.Between[0]
		words := b.say("map.cover", "part", c.Part, "from", from, "to", to, "node", node)
		if c.WallUM > 0 {
			words = b.say("map.cover_wall", "part", c.Part, "from", from, "to", to, "node", node, "wall", b.decimal(exactMM(c.WallUM)))
		}
		spans = append(spans, span{style: regular(10), text: words})
	}
	if len(s.Cables) > 0 {
		spans = append(spans, span{style: regular(10), text: b.say("map.cables", "cables", strings.Join(s.Cables, ", "))})
	}
	switch len(s.Separations) {
	case 0:
	case 1:
		spans = append(spans, span{style: medium(10), text: b.say("map.separation", "name", s.Separations[0])})
	default:
		spans = append(spans, span{style: bold(10), text: b.say("map.together", "names", b.metrics.listed(s.Separations))})
	}
	return spans
}

// basis says what diameters and radii rest on.
func (b *boardMap) basis() {
	r := b.plan.Bundles
	words := b.say("map.basis", "nominal", b.decimal(r.Nominal), "room", b.decimal(r.Room))
	bends := []string{b.say("map.bend_each")}
	if r.Over == "bundle" {
		bends[0] = b.say("map.bend_branch")
	}
	for _, limit := range r.Bends {
		bends = append(bends, b.say("map.bend_limit", "kind", b.say("map.bend_kind."+limit.Kind), "times", limit.Times, "source", limit.Source))
	}
	bend := strings.Join(bends, " ")
	lines := append(b.wrap(regular(10), live.W, words), b.wrap(regular(10), live.W, bend)...)
	b.need(mm(6) + mm(5)*page.Pt(len(lines)))
	y := b.paragraph(live.X, b.y+mm(8), regular(10), live.W, mm(5), words)
	b.y = b.paragraph(live.X, y, regular(10), live.W, mm(5), bend)
}

// finder prints where each wire lies: wires that follow each other along the same nodes share a line.
func (b *boardMap) finder() {
	if len(b.plan.Finder) == 0 {
		return
	}
	b.open = func() {
		b.tableTitle(b.say("map.find"), b.say("map.find_how"), mm(54))
		b.y += mm(11)
		b.across(live.X, live.X+live.W, b.y, groupRule*3/2)
	}
	b.turn()
	ids := mm(30)
	for _, f := range b.plan.Finder {
		ids = max(ids, min(b.width(monoBold(12), b.foundWords(f))+mm(4), mm(80)))
	}
	for i, f := range b.plan.Finder {
		b.foundRow(f, ids, i%5 == 4)
	}
	b.open = nil
}

func (b *boardMap) foundWords(f plan.Found) string {
	if f.First == f.Last {
		return f.First
	}
	return b.say("map.from_to", "first", f.First, "last", f.Last)
}

func (b *boardMap) foundRow(f plan.Found, ids page.Pt, heavy bool) {
	spans := []span{{style: medium(11), text: b.say("map.not_along")}}
	for i, node := range f.Nodes {
		if i == 0 {
			spans = nil
		}
		spans = append(spans, span{style: mono(12), text: node})
	}
	y, at := b.y+mm10(47), live.X+ids
	deep := b.width(monoBold(12), b.foundWords(f)) > ids-mm(2)
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
	b.text(live.X, y, monoBold(12), live.W, b.foundWords(f))
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
