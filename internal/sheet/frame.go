package sheet

import (
	"fmt"
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
)

// headerModule is four dots of a 300 dpi printer (0.3387 mm): the page symbol takes 60.3 mm.
const headerModule = page.Point * 96 / 100

const (
	code128Modules = 178
	code128Quiet   = 10
	headerBars     = 27 * page.Point // 9.5 mm
)

// frame returns header and footer of a page: nothing in them counts for the content hash.
func frame(p plan.Plan, pg page.Page, code plan.Code, m composer, problems *problem.List) []page.Item {
	f := &pen{metrics: m, problems: problems, at: firstPlace(pg.Body)}
	if p.Packet.Draft {
		f.draft = true
		f.draftHead(p.Packet, pg)
		f.across(live.X, live.X+live.W, mm(37), groupRule)
		f.draftFoot(f.footWords(p, pg))
		return f.items
	}
	symbol := live.X + live.W - code128Quiet*headerModule - code128Modules*headerModule
	room := symbol - code128Quiet*headerModule - live.X
	f.headTitle(p, pg, room)
	f.headJob(p.Packet, pg, room)
	f.headSymbol(symbol, pg, code)
	f.across(live.X, live.X+live.W, mm(37), groupRule)
	f.legend(f.footWords(p, pg))
	return f.items
}

// firstPlace returns where the first thing that a page speaks of was written.
func firstPlace(body []page.Item) problem.Place {
	for _, item := range body {
		if text, is := item.(page.Text); is && text.Place != (problem.Place{}) {
			return text.Place
		}
	}
	return problem.Place{}
}

func (p *pen) headTitle(pl plan.Plan, pg page.Page, room page.Pt) {
	spans := []span{{style: bold(18), text: pg.Title}}
	if pg.Unit > 0 {
		spans = append(spans, span{style: bold(18), text: p.say("common.unit")}, span{style: monoBold(18), text: pl.Packet.Units[pg.Unit-1]})
	}
	p.line(live.X, mm10(178), room, spans)
}

// headJob names the job, then the section. Three lines hold the section and the job title.
func (p *pen) headJob(packet plan.Packet, pg page.Page, room page.Pt) {
	const lines = 3
	first, pitch := mm10(278), mm10(38)
	p.line(live.X, mm10(236), room, []span{{style: monoBold(12), text: packet.Number},
		{style: bold(12), text: p.say("frame.revision", "revision", packet.Revision)}, {style: mono(10), text: packet.Part}})
	y := p.flow(live.X, first, room, pitch, p.present([]span{{style: bold(9), text: pg.Section},
		{style: bold(9), text: p.say("frame.page", "page", pg.Number, "of", pg.Of)}, {style: regular(9), text: p.say("frame.issued", "date", packet.Issued)}})...)
	if int((y-first)/pitch)+len(p.wrap(regular(9), room, packet.Title)) > lines {
		p.longTitle(packet)
		return
	}
	p.paragraph(live.X, y, regular(9), room, pitch, packet.Title)
}

// longTitle refuses the title of the job where a page header does not hold it.
func (p *pen) longTitle(packet plan.Packet) {
	titled := *p
	titled.at = packet.TitlePlace
	titled.refuse("too-long", fmt.Sprintf("the title of job %q takes more lines than a page header holds", packet.Number), "shorten the title")
}

// present leaves out spans without words.
func (p *pen) present(spans []span) []span {
	var present []span
	for _, s := range spans {
		if s.text != "" {
			present = append(present, s)
		}
	}
	return present
}

func (p *pen) headSymbol(x page.Pt, pg page.Page, code plan.Code) {
	p.bars(x, live.Y, headerModule, headerBars, code.String(), code.Words)
	room := live.X + live.W - x
	p.text(x, mm10(250), mono(9), room, spaced(code.String()))
	p.text(x, mm10(287), monoBold(9), room, pg.Name)
	p.line(x, mm10(323), room, []span{{style: bold(9), text: p.say("frame.hash")}, {style: monoBold(9), text: shortHash(pg.Hash)}})
	rule := p.say("frame.valid")
	if pg.Sheet == "contents" {
		rule = p.say("frame.newest")
	}
	p.text(x, mm10(356), regular(8), room, rule)
}

// spaced parts the string of a symbol by field, as it is read aloud.
func spaced(code string) string {
	if len(code) != 23 {
		return code
	}
	return strings.Join([]string{code[:1], code[1:12], code[12:15], code[15:21], code[21:]}, " ")
}

// shortHash returns the first twelve digits of a hash in groups of four.
func shortHash(hash string) string { return grouped(hash[:min(len(hash), 12)]) }

// grouped sets blanks between groups of four.
func grouped(digits string) string {
	var groups []string
	for len(digits) > 4 {
		groups, digits = append(groups, digits[:4]), digits[4:]
	}
	return strings.Join(append(groups, digits), " ")
}

// footWords returns what the foot of a page says besides: on sheets that people work from at the line, who decides; on sheets with
// boxes for a pull, what a pull is (common practice; the contact maker and the workmanship standard come first).
func (p *pen) footWords(pl plan.Plan, pg page.Page) string {
	switch {
	case (pg.Sheet == "cutlist" || pg.Sheet == "setup") && len(pl.Safety) > 0:
		return pl.Safety[0].Short
	case pg.Sheet == "pins":
		return p.say("frame.pulled_pin")
	case pg.Sheet == "joints":
		return p.say("frame.pulled_joint")
	}
	return ""
}

// legend says how boxes are filled in.
func (p *pen) legend(foot string) {
	p.across(live.X, live.X+live.W, mm10(2560), rowRule)
	s := regular(9)
	p.flow(live.X, mm10(2596), live.W, mm10(33), span{style: s, text: p.say("frame.blank")},
		span{style: s, text: p.say("frame.reject")},
		span{style: s, text: p.say("frame.not_apply")},
		span{style: s, text: p.say("frame.correct")},
		span{style: mono(9), text: p.say("frame.zero")})
	p.text(live.X, mm10(2662), s, live.W, foot)
}
