package sheet

import (
	"fmt"
	"slices"
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

// Heights of the routing table.
const (
	laidHeight page.Pt = 2835 // 10 mm: a row that a gloved hand ticks
	laidMore   page.Pt = 1446 // 5.1 mm: a further line of a row
	wayPitch   page.Pt = 1531 // 5.4 mm: a line of a way

	branchPitch page.Pt = 1701 // 6 mm: a line of the banner of a branch
)

// routingList writes the routing table of one unit: branch by branch, way by way.
type routingList struct {
	book
	plan     *plan.Plan
	unit     int    // position from 1
	unitName string // "0041"
	columns  routingColumns
	rows     int    // printed so far
	wayName  string // of the way being printed
	inWay    int    // rows of it so far
	goes     string
}

// routingColumns is where the parts of a row stand.
type routingColumns struct {
	wire, words, from, to, finished, slack page.Pt // left edges; of finished and slack the right ones

	finishedRoom, slackRoom page.Pt

	deep bool // long ids: all but the wire stands on lines of its own
}

// routingSections lays the routing table of every unit; a job without a board has none.
func routingSections(p *plan.Plan, m composer, problems *problem.List) []section {
	if len(p.Board.Nodes) == 0 || len(p.Routing) == 0 {
		return nil
	}
	var sections []section
	for i, unit := range p.Packet.Units {
		l := &routingList{book: *newBook(m, problems), plan: p, unit: i + 1, unitName: unit}
		l.draft = p.Packet.Draft
		l.columns = l.measureColumns()
		sections = append(sections, section{sheet: "routing", title: m.Say("routing.title"), name: unit, unit: i + 1, pages: l.write()})
	}
	return sections
}

// measureColumns decides the columns by the longest ids of the job.
func (l *routingList) measureColumns() routingColumns {
	wire, from, to, finished, slack := mm(17), mm(20), mm(20), mm(18), mm(16)
	slack = max(slack, l.width(bold(9), l.say("routing.slack")))
	for _, b := range l.plan.Routing {
		for _, way := range b.Ways {
			for _, row := range way.Rows {
				wire = max(wire, l.width(monoBold(13), row.ID)+mm(3))
				slack = max(slack, l.width(mono(12), l.slackWords(row)))
				finished = max(finished, l.width(mono(10), l.laidFinished(row.FinishedUM, row.Tolerance)))
				from, to = max(from, l.width(mono(11), l.metrics.placeWords(row.From))+mm(3)), max(to, l.width(mono(11), l.metrics.placeWords(row.To))+mm(3))
				for _, part := range row.Parts {
					wire = max(wire, l.width(monoBold(11), part.Wire)+mm(3))
					finished = max(finished, l.width(mono(10), l.laidFinished(part.FinishedUM, part.Tolerance)))
					from, to = max(from, l.width(mono(11), l.metrics.placeWords(part.From))+mm(3)), max(to, l.width(mono(11), l.metrics.placeWords(part.To))+mm(3))
				}
			}
		}
	}
	c := routingColumns{wire: live.X + max(gloveTick+mm(3), l.width(bold(9), l.say("routing.laid"))+mm(2)), slack: live.X + live.W, slackRoom: slack, finishedRoom: finished}
	c.finished = c.slack - slack - mm(2)
	c.to = c.finished - finished - mm(2) - to
	c.from = c.to - from
	c.words = c.wire + wire
	c.deep = c.from-c.words < leastWords
	return c
}

func (l *routingList) write() [][]page.Item {
	l.open = l.head
	l.turn()
	l.trays()
	l.explain()
	for _, b := range l.plan.Routing {
		for i, way := range b.Ways {
			l.way(b, i == 0, way)
		}
	}
	l.need(signHeight + mm(22))
	l.text(live.X, l.y+mm(8), bold(12), live.W, l.sayCount("routing.end_of_list", l.rows))
	l.signatures(l.y + mm(12))
	return l.finish()
}

// head opens every page.
func (l *routingList) head() {
	words := l.say("routing.head")
	l.text(live.X, l.y+mm10(85), bold(28), live.W/2, words)
	x := live.X + l.width(bold(28), words) + mm(6)
	word := l.width(medium(14), l.say("common.unit")+" ")
	l.text(x, l.y+mm10(85), medium(14), live.W/2, l.say("common.unit"))
	l.text(x+word, l.y+mm10(85), monoBold(22), live.X+live.W-x-word, l.unitName)
	c := l.columns
	low := l.y + mm10(148)
	s := bold(9)
	l.text(live.X, low, s, max(mm(9), l.width(s, l.say("routing.laid"))), l.say("routing.laid"))
	l.text(c.wire, low, s, mm(40), l.say("common.wire"))
	if !c.deep {
		l.text(c.words, low, s, c.from-c.words, l.say("common.gauge_colour"))
		l.text(c.from, low, s, c.to-c.from, l.say("routing.from"))
		l.text(c.to, low, s, c.finished-c.finishedRoom-c.to, l.say("routing.to"))
	}
	l.right(c.finished, low, s, mm(26), l.say("routing.finished"))
	l.right(c.slack, low, s, mm(20), l.say("routing.slack"))
	l.y = low + mm10(15)
	l.across(live.X, live.X+live.W, l.y, groupRule*3/2)
	l.y += mm10(5)
}

// trays lists the trays to lay from, in the order of laying.
func (l *routingList) trays() {
	var homes []string
	for _, b := range l.plan.Routing {
		for _, way := range b.Ways {
			if l.hasTray(way.Home) && !slices.Contains(homes, way.Home) {
				homes = append(homes, way.Home)
			}
		}
	}
	if len(homes) > 0 {
		l.y = l.ticks(live.X, l.y+mm(1), live.W, medium(11), l.say("routing.trays"), monoBold(14), homes)
	}
}

func (l *routingList) hasTray(home string) bool {
	return slices.ContainsFunc(l.plan.Groups, func(g plan.Group) bool { return g.Connector == home })
}

func (l *routingList) homeWord(home string) string {
	if l.hasTray(home) {
		return l.say("common.tray")
	}
	return l.say("routing.home")
}

func (l *routingList) explain() {
	l.y = l.paragraph(live.X, l.y+mm(5), regular(10), live.W, wayPitch, l.say("routing.how", "tolerance", l.plan.Tolerance)) - mm(3)
}

// way prints a way and its rows. The heading keeps its first rows on its page.
func (l *routingList) way(b plan.Branch, first bool, way plan.Way) {
	l.at = way.Rows[0].Place
	spans := l.waySpans(way)
	lines := l.lines(live.W-mm(3), spans)
	height := page.Pt(len(lines))*wayPitch + mm10(50)
	heights := make([]page.Pt, len(way.Rows))
	for i, row := range way.Rows {
		heights[i] = l.rowHeight(row)
	}
	keep := height + heights[0] + follow(heights, 0, 0)
	if first {
		keep += mm(11) + branchPitch*page.Pt(len(l.lines(live.W, l.branchSpans(b)))-1)
	}
	if keep > bodyBottom()-bodyTop()-mm(17) {
		l.refuse("too-tall", fmt.Sprintf("the first rows of the way from %q fill more than a page", way.Home), "shorten the ids along it")
		return
	}
	l.need(keep)
	if first {
		l.branch(b)
	}
	l.goes = ""
	l.wayHead(spans)
	l.wayName, l.inWay = fmt.Sprint(b.Leaves, b.Nodes, way.Home, way.Nodes), 0
	for i, row := range way.Rows {
		l.at = row.Place
		if l.left() < heights[i]+follow(heights, i, 0) {
			l.turn()
			l.goes = l.say("routing.goes_on")
			l.wayHead(spans)
		}
		l.row(row)
	}
	l.at = problem.Place{}
}

// branch prints the banner of a branch.
func (l *routingList) branch(b plan.Branch) {
	l.y += mm(3)
	l.y = l.flow(live.X, l.y+mm(6), live.W, branchPitch, l.branchSpans(b)...) - branchPitch + mm(2)
	l.across(live.X, live.X+live.W, l.y, groupRule*3/2)
}

// branchSpans says where a branch begins and which way it leads.
func (l *routingList) branchSpans(b plan.Branch) []span {
	spans := []span{{style: bold(13), text: l.say("routing.branch")}}
	switch {
	case b.Leaves == "" && len(b.Nodes) == 0:
		spans = []span{{style: bold(13), text: l.say("routing.no_place")}}
	case len(b.Nodes) == 0:
		spans = append(spans, span{style: medium(12), text: l.say("routing.on_trunk_at")}, span{style: monoBold(13), text: b.Leaves})
	case b.Leaves == "":
		spans = append(spans, span{style: medium(12), text: l.say("routing.apart_from")}, span{style: monoBold(13), text: b.Nodes[0]})
	default:
		spans = append(spans, span{style: medium(12), text: l.say("routing.leaves_trunk_at")}, span{style: monoBold(13), text: b.Leaves},
			span{style: medium(12), text: l.say("routing.towards")}, span{style: monoBold(13), text: b.Nodes[0]})
	}
	return spans
}

// waySpans says which tray comes next and along which nodes its wires lie, with the diameter of each segment between.
func (l *routingList) waySpans(way plan.Way) []span {
	spans := []span{{style: medium(11), text: l.homeWord(way.Home)}, {style: monoBold(13), text: way.Home}, {style: medium(11), text: l.say("routing.along")}}
	if len(way.Nodes) == 0 {
		return append(spans[:2], span{style: medium(11), text: l.say("routing.no_node")})
	}
	for i, node := range way.Nodes {
		if i > 0 {
			spans = append(spans, span{style: regular(9), text: "- " + l.decimal(tenthUp(way.RoomUM[i-1])) + " -"})
		}
		spans = append(spans, span{style: monoBold(13), text: node})
	}
	if len(way.Nodes) == 1 {
		spans = append(spans, span{style: medium(11), text: l.say("routing.alone")})
	}
	return spans
}

// tenthUp prints micrometres as millimetres to a tenth, rounded up: what must go through has to fit.
func tenthUp(um int64) string {
	text := exactMM(int64(units.Length(um).CeilTo(100)))
	if !strings.Contains(text, ".") {
		text += ".0"
	}
	return text
}

// wayHead prints the heading of a way.
func (l *routingList) wayHead(spans []span) {
	l.y += mm10(20)
	if l.goes != "" {
		spans = append([]span{{style: bold(11), text: l.goes}}, spans...)
	}
	l.y = l.flow(live.X+mm(3), l.y+mm10(45), live.W-mm(3), wayPitch, spans...) - mm10(30)
	l.across(live.X, live.X+live.W, l.y, groupRule)
}

// deepSpans says what stands below the wire id where the columns are too narrow.
func (l *routingList) deepSpans(words, from, to string) []span {
	return []span{{style: mono(11), text: l.metrics.placeWords(from)}, {style: medium(10), text: l.say("routing.to")}, {style: mono(11), text: l.metrics.placeWords(to)}, {style: regular(10), text: words}}
}

func (l *routingList) deepRoom() page.Pt { return l.columns.slack - l.columns.wire }

func (l *routingList) rowHeight(row plan.Laid) page.Pt {
	height := laidHeight
	if l.columns.deep {
		height += laidMore * page.Pt(len(l.lines(l.deepRoom(), l.deepOf(row))))
		for _, part := range row.Parts {
			height += laidMore * page.Pt(1+len(l.lines(l.deepRoom(), l.deepSpans(part.Words, part.From, part.To))))
		}
		return height
	}
	height += laidMore * page.Pt(max(len(l.wordLines(l.rowWords(row)))-1, 0))
	for _, part := range row.Parts {
		height += laidMore * page.Pt(max(len(l.wordLines(part.Words)), 1))
	}
	return height
}

func (l *routingList) wordLines(words string) []string {
	return l.wrap(regular(10), l.columns.from-l.columns.words-mm(2), words)
}

func (l *routingList) deepOf(row plan.Laid) []span {
	return l.deepSpans(l.rowWords(row), row.From, row.To)
}

// rowWords says what a row is.
func (l *routingList) rowWords(row plan.Laid) string {
	words := row.Words
	if row.Kind == "cable" {
		words = joined(", ", l.say("routing.cable"), words)
	}
	if row.Kind == "twist" {
		words = joined(" ", l.say("routing.twist"), words)
	}
	if !onTray(row) {
		words = joined(", ", words, l.say("routing.no_tray", "why", l.metrics.trayWords(row.Tray)))
	}
	return words
}
