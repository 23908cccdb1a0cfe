package sheet

import (
	"cmp"
	"fmt"
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

// setupBook writes how the marker is set up for each reel, in the order of the run.
type setupBook struct {
	book
	plan  *plan.Plan
	stock stock
}

// setupSections lays the set-up sheet, the checks at the start of a shift, a page for each type to be tested first, and the log of
// changes.
func setupSections(p *plan.Plan, m composer, problems *problem.List) []section {
	if len(p.Setups) == 0 {
		return nil
	}
	s := func() *setupBook {
		b := &setupBook{book: *newBook(m, problems), plan: p, stock: stockOf(p, m)}
		b.draft = p.Packet.Draft
		return b
	}
	one := func(name, part string, pages [][]page.Item) section {
		s := section{sheet: "setup", title: m.Say("setup.title"), name: name, part: part, pages: pages}
		if name != "" {
			s.said = m.Say("setup.section." + name)
		}
		return s
	}
	sections := []section{one("", "", s().reels()), one("shift", "", s().shift())}
	for _, sample := range p.ToProve {
		sections = append(sections, one("sample", sample.Type, s().sample(sample)))
	}
	return append(sections, one("log", "", s().log()))
}

// reels writes a block for each reel.
func (b *setupBook) reels() [][]page.Item {
	b.open = b.reelHead
	b.turn()
	for i, setup := range b.plan.Setups {
		block := b.blockOf(i+1, setup)
		b.need(block.height)
		b.block(block)
	}
	b.closing()
	return b.finish()
}

// reelHead opens every page with what holds for all reels.
func (b *setupBook) reelHead() {
	b.y = b.paragraph(live.X, b.y+mm10(35), medium(10), live.W, mm10(45),
		b.say("setup.how")) - mm(3)
}

// closing prints what holds for all reels, behind the last one.
func (b *setupBook) closing() {
	words := b.say("setup.rules", "interval", b.exact(b.plan.Marking.IntervalUM), "height", b.plan.Marking.HeightRule, "stamp", b.plan.Marking.HotStamp)
	b.need(mm(4) + mm10(45)*page.Pt(len(b.wrap(regular(10), live.W, words))))
	b.y = b.paragraph(live.X, b.y+mm(6), regular(10), live.W, mm10(45), words)
}

// setupBlock is what is said of a reel, broken into lines.
type setupBlock struct {
	setup   plan.Setup
	load    [][]span
	others  [][]span
	first   [][]span
	lengths [][]span
	checks  []string
	height  page.Pt
}

func blockRoom() page.Pt { return live.W - loadSide() - mm(9) }

// firstPitch and picturePitch are the line pitches below the head of a block.
func firstPitch() page.Pt { return mm(5) }

func (b *setupBook) blockOf(number int, s plan.Setup) setupBlock {
	block := setupBlock{setup: s, load: b.lines(blockRoom(), b.setupSpans(number, s)), others: b.lines(blockRoom(), b.otherSpans(s)),
		first: b.lines(live.W-mm(4), b.firstSpans(s)), lengths: b.lines(live.W-mm(4), b.lengthSpans(s))}
	block.checks = b.checksOf(s)
	block.height = mm(4) + page.Pt(len(block.load))*loadPitch() + page.Pt(len(block.others))*firstPitch() +
		page.Pt(len(block.first))*firstPitch() + page.Pt(len(block.lengths))*writePitch() + mm10(105)
	for _, text := range s.First.Texts {
		block.height += b.pictureHeight(s, text)
	}
	return block
}

// setupSpans says what to load and how it is marked.
func (b *setupBook) setupSpans(number int, s plan.Setup) []span {
	name, described := s.Reel, b.stock.typeWords(s.Type)
	if name == "" {
		name, described = s.Type, described[1:]
	}
	spans := append([]span{{style: bold(14), text: fmt.Sprint(number)}, {style: bold(12), text: b.say("cutlist.load")}, {style: monoBold(16), text: name}}, described...)
	spans = append(spans, b.metrics.methodWords(s.Method, s.Ink))
	spans = append(spans, b.metrics.placesSpans(bold(12), s.Substitutes)...)
	spans = append(spans, span{style: bold(12), text: b.metrics.heightWords(s.First.HeightUM)})
	r := regular(10)
	spans = append(spans, span{style: medium(10), text: b.metrics.rackWords(s.Rack)}, span{style: r, text: labelled(b.say("common.from_place"), s.Place)},
		span{style: r, text: labelled(b.say("common.planned_lot"), s.Lot)}, span{style: medium(10), text: b.say("common.loaded_lot"), blank: mm(30)})
	if s.Reel == "" {
		spans = append(spans, span{style: medium(10), text: b.say("common.reel"), blank: mm(22)})
	}
	return b.present(append(spans, span{style: medium(10), text: labelled(b.say("common.strip_by"), b.metrics.stripBy(s.StripBy))}))
}

// mostNamed is how many wires a block names before it counts them.
const mostNamed = 8

// otherSpans says which pieces of the reel differ: other heights, sleeves, no mark.
func (b *setupBook) otherSpans(s plan.Setup) []span {
	var spans []span
	for _, h := range s.Heights {
		if h.HeightUM != s.First.HeightUM {
			spans = append(spans, span{style: bold(10), text: b.say("setup.high", "height", b.exact(h.HeightUM), "wires", b.named(h.Wires))})
		}
	}
	if len(s.Sleeved) > 0 {
		spans = append(spans, span{style: medium(10), text: b.say("setup.on_sleeves", "wires", b.named(s.Sleeved))})
	}
	if len(s.Unmarked) > 0 {
		spans = append(spans, span{style: medium(10), text: b.say("setup.no_mark", "wires", b.named(s.Unmarked))})
	}
	return spans
}

// named names wires, or counts them where they are many.
func (b *setupBook) named(wires []string) string {
	if len(wires) > mostNamed {
		return b.sayCount("setup.many", len(wires))
	}
	return strings.Join(wires, ", ")
}

// firstSpans says what the first piece must be like.
func (b *setupBook) firstSpans(s plan.Setup) []span {
	f := s.First
	spans := []span{{style: bold(10), text: b.say("setup.first_piece")}, {style: monoBold(11), text: f.Wire}, {style: regular(10), text: b.say("setup.of_unit")},
		{style: monoBold(10), text: f.Unit}, {style: bold(10), text: b.say("setup.cut", "length", b.exact(f.CutUM))}}
	if len(f.StartsUM) == 0 {
		return append(spans, span{style: medium(10), text: b.say("setup.unmarked")})
	}
	return append(spans, span{style: medium(10), text: b.sayCount("setup.marks", len(f.StartsUM), "end", b.metrics.endOf(f.From), "places", b.startsWords(f.StartsUM))})
}

// mostStarts is how many places a block lists before it leaves out the middle.
const mostStarts = 8

// startsWords lists places to a tenth of a millimetre.
func (b *setupBook) startsWords(starts []int64) string {
	var words []string
	for i, start := range starts {
		switch {
		case len(starts) <= mostStarts || i < 3 || i >= len(starts)-2:
			words = append(words, b.decimal(units.Length(start).MillimetresTenths()))
		case i == 3:
			words = append(words, "..")
		}
	}
	return strings.Join(words, b.say("number.apart"))
}

// lengthSpans asks for three lengths of the reel, or as many as it has.
func (b *setupBook) lengthSpans(s plan.Setup) []span {
	spans := []span{{style: bold(10), text: b.say("setup.length", "step", b.exact(b.plan.Line.StepUM))}}
	for _, l := range s.Lengths {
		spans = append(spans, span{style: mono(10), text: l.Wire + " " + b.exact(l.CutUM), blank: mm(20), after: "mm"})
	}
	return append(spans, span{style: bold(10), text: b.stripWords(s)})
}

// stripWords says what comes off the ends of the first piece: "STRIP mm: A 5.8, B none"; layers of a coax end from the outside in.
func (b *setupBook) stripWords(s plan.Setup) string {
	words := func(steps []plan.StripStep) string {
		var each []string
		for _, step := range steps {
			each = append(each, b.exact(step.UM))
		}
		return cmp.Or(strings.Join(each, "-"), b.say("setup.none"))
	}
	what := "wire"
	if _, cable := b.stock.cables[s.First.Wire]; cable {
		what = "cable"
	}
	return b.say("setup.strip_"+what, "a", words(s.First.StripA), "b", words(s.First.StripB))
}

// checksOf lists what is ticked on the first piece.
func (b *setupBook) checksOf(s plan.Setup) []string {
	if len(s.First.StartsUM) == 0 {
		return []string{b.say("setup.check.strip")}
	}
	checks := []string{b.say("setup.check.text"), b.say("setup.check.contrast"), b.say("setup.check.legible"), b.say("setup.check.places"), b.say("setup.check.strip")}
	if b.plan.Marking.RubCheck {
		checks = append(checks, b.say("setup.check.rubbed"))
	}
	return checks
}
