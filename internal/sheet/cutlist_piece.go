package sheet

import (
	"slices"
	"strings"

	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
)

// cutPiece is what a row of the cut list says of a wire or a cable: one cut.
type cutPiece struct {
	id     string
	cutUM  int64
	ends   [2]cutEnd
	code   plan.Code
	cores  []plan.Wire // of a cable, in the order of its type
	middle string      // the legend between the ends, where it has to be said
	words  []span      // what else there is to say
	place  problem.Place
}

// cutEnd is an end of a piece as its columns print it.
type cutEnd struct {
	strip  string // what is stripped, or how much jacket comes off
	legend string
	home   bool // goes to the connector that owns the piece
}

// piece finds what a row of the cut list is about.
func (s stock) piece(id string) cutPiece {
	if c, is := s.cables[id]; is {
		return s.cablePiece(c)
	}
	return s.wirePiece(s.wires[id])
}

func (s stock) wirePiece(w plan.Wire) cutPiece {
	p := cutPiece{id: w.ID, cutUM: w.CutUM, code: w.Code, place: w.Place,
		ends: [2]cutEnd{s.wireEnd(w, w.A), s.wireEnd(w, w.B)}}
	p.middle = s.middleWords(w.ID, w.Marks, w.A.Legend == "" && w.B.Legend == "")
	p.words = append(p.words, span{style: medium(9), text: s.boardEnds(w)}, span{style: medium(9), text: w.Laid})
	for i, end := range []plan.End{w.A, w.B} {
		p.words = append(p.words, span{style: medium(9), text: labelled(s.endName(i)+":", s.endWords(end))},
			span{style: medium(9), text: labelled(s.Say("cutlist.end_strip", "end", s.endName(i)), s.stepWords(end.Steps))})
	}
	p.words = append(p.words, s.markSpans(w.ID, p.middle, w.Method, w.Turned, w.Marks)...)
	p.words = append(p.words, span{style: regular(9), text: labelled(s.endName(0)+":", w.A.Note)},
		span{style: regular(9), text: labelled(s.endName(1)+":", w.B.Note)}, span{style: regular(9), text: labelled(s.Say("common.note_label"), w.Note)})
	return p
}

// wireEnd returns an end of a wire. Where nothing is stripped a dash stands in place of the figure.
func (s stock) wireEnd(w plan.Wire, end plan.End) cutEnd {
	strip := "–"
	if end.Stage != "board" && end.StripUM > 0 {
		strip = s.exact(end.StripUM)
	}
	return cutEnd{strip: strip, legend: end.Legend, home: end.At == w.Home || strings.HasPrefix(end.At, w.Home+":")}
}

func (s stock) cablePiece(c plan.Cable) cutPiece {
	p := cutPiece{id: c.ID, cutUM: c.CutUM, code: c.Code, place: c.Place,
		ends: [2]cutEnd{s.cableEnd(c.Home, c.A), s.cableEnd(c.Home, c.B)}, cores: s.coresOf(c)}
	p.middle = s.middleWords(c.ID, c.Marks, c.A.Legend == "" && c.B.Legend == "")
	p.words = append(p.words, span{style: bold(9), text: s.Say("cutlist.cable")})
	for i, end := range []plan.CableEnd{c.A, c.B} {
		p.words = append(p.words, span{style: medium(9), text: labelled(s.Say("cutlist.end_shield", "end", s.endName(i)), end.Shield)})
	}
	if len(c.Spare) > 0 {
		p.words = append(p.words, span{style: medium(9), text: s.Say("cutlist.no_wire", "cores", strings.Join(c.Spare, ", "))})
	}
	p.words = append(p.words, s.markSpans(c.ID, p.middle, c.Method, c.Turned, c.Marks)...)
	p.words = append(p.words, span{style: regular(9), text: labelled(s.Say("common.note_label"), c.Note)})
	return p
}

func (s stock) cableEnd(home string, end plan.CableEnd) cutEnd {
	return cutEnd{strip: s.exact(end.JacketOffUM), legend: end.Legend, home: slices.Contains(strings.Split(end.At, "+"), home)}
}

func (s stock) coresOf(c plan.Cable) []plan.Wire {
	var cores []plan.Wire
	for _, id := range c.Cores {
		cores = append(cores, s.wires[id])
	}
	return cores
}

// endWords says where an end goes that no cavity takes, how it is finished, and whether it stays loose.
func (s stock) endWords(end plan.End) string {
	loose := ""
	if end.Loose {
		loose = s.Say("cutlist.loose")
	}
	return joined("; ", s.whereWords(end.At), labelled(s.Say("cutlist.finish"), end.Finish), loose)
}

// whereWords names what an end goes to; "" for a cavity of a connector, which its legend names.
func (s stock) whereWords(at string) string {
	if kind := s.joints[at]; kind != "" {
		return s.Say("cutlist.at_"+kind, "id", at)
	}
	if node, is := strings.CutPrefix(at, "capped@"); is {
		return s.Say("cutlist.capped", "node", node)
	}
	if node, is := strings.CutPrefix(at, "leaves@"); is {
		return s.Say("cutlist.leaves", "node", node)
	}
	if cable, is := strings.CutSuffix(at, " shield"); is {
		return s.Say("cutlist.shield_of", "cable", cable)
	}
	return ""
}

// stepWords says how far each layer of a coax end is stripped: "jacket 12, braid 8, core 4 mm".
func (c composer) stepWords(steps []plan.StripStep) string {
	if len(steps) == 0 {
		return ""
	}
	var words []string
	for _, step := range steps {
		words = append(words, step.Layer+" "+c.exact(step.UM))
	}
	return strings.Join(words, ", ") + " mm"
}

// markSpans says what there is to know of the marks besides the legends near the ends.
func (s stock) markSpans(id, middle, method string, turned bool, marks []plan.Mark) []span {
	spans := []span{{style: regular(9), text: middle}}
	switch {
	case s.tagged[id]:
		spans = append(spans, span{style: medium(9), text: s.Say("cutlist.on_tag")})
	case method == "sleeve":
		spans = append(spans, span{style: medium(9), text: s.Say("cutlist.on_sleeves")})
	}
	switch {
	case mixed(marks):
		spans = append(spans, span{style: regular(9), text: s.Say("cutlist.reads_from_ends")})
	case turned:
		spans = append(spans, span{style: regular(9), text: s.Say("cutlist.reads_turned")})
	}
	for _, mark := range marks {
		if len(mark.Lines) > 0 {
			return append(spans, span{style: regular(9), text: s.Say("cutlist.two_lines", "upper", mark.Lines[0], "lower", mark.Lines[len(mark.Lines)-1])})
		}
	}
	return spans
}

// mixed reports whether the texts of a piece read both ways.
func mixed(marks []plan.Mark) bool {
	return slices.ContainsFunc(marks, func(m plan.Mark) bool { return m.Turned != marks[0].Turned })
}

// coreSpans says what becomes of a core: its colour and gauge, its wire, where it goes, how its ends are made.
func (c *cutList) coreSpans(w plan.Wire) []span {
	t, s := c.stock.types[w.Type], regular(9)
	spans := []span{{style: bold(10), text: c.say("common.core_of", "cable", w.Cable, "core", w.Core)}, {style: medium(10), text: t.ColourWords},
		{style: medium(10), text: t.GaugeShort}, {style: monoBold(10), text: w.ID}, {style: mono(10), text: c.metrics.placeWords(w.From) + " > " + c.metrics.placeWords(w.To)}}
	var ends [2]string
	for i, end := range []plan.End{w.A, w.B} {
		ends[i] = joined(", ", c.coreCut(end), c.stock.endWords(end), end.Note)
	}
	if ends[0] == ends[1] {
		spans = append(spans, span{style: medium(9), text: labelled(c.say("cutlist.both_ends"), ends[0])})
	} else {
		spans = append(spans, span{style: medium(9), text: labelled(c.stock.endName(0)+":", ends[0])}, span{style: medium(9), text: labelled(c.stock.endName(1)+":", ends[1])})
	}
	return c.present(append(spans, span{style: s, text: labelled(c.say("common.note_label"), w.Note)}))
}

// coreCut says what is cut off a core inside the jacket's end, and what is stripped: "trim 35 mm, strip 4 mm".
func (c *cutList) coreCut(end plan.End) string {
	trim, strip := "", ""
	if end.TrimUM > 0 {
		trim = c.say("cutlist.trim", "length", c.exact(end.TrimUM))
	}
	switch {
	case end.Stage == "board":
		strip = c.say("cutlist.core_board")
	case len(end.Steps) > 0:
		strip = c.say("cutlist.strip_steps", "steps", c.metrics.stepWords(end.Steps))
	case end.StripUM > 0:
		strip = c.say("cutlist.strip_to", "length", c.exact(end.StripUM))
	}
	return joined(", ", trim, strip)
}
