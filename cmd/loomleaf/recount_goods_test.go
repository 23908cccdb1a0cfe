package main

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"loomleaf/internal/plan"
	"loomleaf/internal/units"
)

// good is a wire or a cable as the shop handles it: one piece. What is said of it here follows from the wires and cables of the
// plan, not from its groups, pieces and lists.
type good struct {
	id, wireType, home string
	from, to           string
	cut                units.Length
	reason             string // why the line does not cut it: "BOUGHT", "EXISTING", "WITH PART", "MEASURE"; "" for what it cuts
	strips             [2]string
	legends            [2]string
	body               string // what must lie on neighbouring rows: "twist T1", "cable C1"
	cable              bool
	cores              []plan.Wire
	phrases            []string // what the row says in words
}

// goodsOf returns every piece by its id. Cores are no pieces of their own.
func goodsOf(p plan.Plan) map[string]good {
	goods, kinds := map[string]good{}, map[string]string{}
	for _, j := range p.Joints {
		kinds[j.ID] = j.Kind
	}
	wires := map[string]plan.Wire{}
	for _, w := range p.Wires {
		wires[w.ID] = w
		if w.Cable == "" {
			goods[w.ID] = wireGood(w, partners(p, w), kinds)
		}
	}
	for _, c := range p.Cables {
		goods[c.ID] = cableGood(c, wires)
		for _, pigtail := range []string{c.A.Pigtail, c.B.Pigtail} {
			if g, is := goods[pigtail]; is {
				g.body = "cable " + c.ID
				goods[pigtail] = g
			}
		}
	}
	return goods
}

// partners returns the other wires of a wire's twist.
func partners(p plan.Plan, of plan.Wire) []string {
	var ids []string
	for _, w := range p.Wires {
		if w.Twist != "" && w.Twist == of.Twist && w.ID != of.ID {
			ids = append(ids, w.ID)
		}
	}
	slices.Sort(ids)
	return ids
}

// reasonOf says why the line does not cut a piece.
func reasonOf(supply, status string) string {
	switch {
	case supply != "reel":
		return strings.ToUpper(supply)
	case status == "measure":
		return "MEASURE"
	}
	return ""
}

func wireGood(w plan.Wire, twisted []string, kinds map[string]string) good {
	g := good{id: w.ID, wireType: w.Type, home: w.Home, from: w.From, to: w.To, cut: units.Length(w.CutUM),
		reason: reasonOf(w.Supply, w.Status), legends: [2]string{w.A.Legend, w.B.Legend}}
	for i, end := range []plan.End{w.A, w.B} {
		name := [2]string{"END A", "END B"}[i]
		g.strips[i] = "–"
		if end.Stage == "board" {
			g.phrases = append(g.phrases, "board: do not strip")
		} else if end.StripUM > 0 {
			g.strips[i] = bare(end.StripUM)
		}
		g.phrases = append(g.phrases, leadBy(name+":", endWords(end, kinds)), leadBy(name+":", end.Note))
	}
	if w.Twist != "" {
		g.body = "twist " + w.Twist
		g.phrases = append(g.phrases, g.body+" with "+joinedIDs(twisted)+", ", w.Laid)
	}
	g.phrases = append(g.phrases, leadBy("note:", w.Note))
	return g
}

// cableGood returns a cable. That its shield goes where its pigtail goes is taken from the pigtail.
func cableGood(c plan.Cable, wires map[string]plan.Wire) good {
	g := good{id: c.ID, wireType: c.Type, home: c.Home, from: c.A.At, to: c.B.At, cut: units.Length(c.CutUM), cable: true,
		reason: reasonOf(c.Supply, c.Status), legends: [2]string{c.A.Legend, c.B.Legend}, body: "cable " + c.ID}
	for i, end := range []plan.CableEnd{c.A, c.B} {
		g.strips[i] = bare(end.JacketOffUM)
		g.phrases = append(g.phrases, leadBy("shield", shieldWords(c, end, wires)))
	}
	for _, core := range c.Cores {
		g.cores = append(g.cores, wires[core])
	}
	g.phrases = append(g.phrases, "CABLE", leadBy("note:", c.Note))
	return g
}

// shieldWords says what becomes of a shield.
func shieldWords(c plan.Cable, end plan.CableEnd, wires map[string]plan.Wire) string {
	if end.Pigtail == "" {
		return end.Shield
	}
	w := wires[end.Pigtail]
	if w.From != c.ID+" shield" {
		return "pigtail that starts at " + w.From
	}
	return "pigtail " + w.ID + " to " + w.To
}

// endWords says where an end goes that no cavity takes, its finish, and whether it stays loose.
func endWords(end plan.End, kinds map[string]string) string {
	var words []string
	if kind := kinds[end.At]; kind != "" {
		words = append(words, kind+" "+end.At)
	} else if what, node, is := strings.Cut(end.At, "@"); is {
		words = append(words, what+" at "+node)
	} else if cable, is := strings.CutSuffix(end.At, " shield"); is {
		words = append(words, "shield of "+cable)
	}
	if end.Finish != "" {
		words = append(words, "finish "+end.Finish)
	}
	if end.Loose {
		words = append(words, "stays loose: do not land")
	}
	return strings.Join(words, "; ")
}

// coreWords says how both ends of a core are made.
func coreEndWords(w plan.Wire, kinds map[string]string) []string {
	var ends []string
	for _, end := range []plan.End{w.A, w.B} {
		var words []string
		if end.TrimUM > 0 {
			words = append(words, "trim "+bare(end.TrimUM)+" mm")
		}
		if end.Stage == "board" {
			words = append(words, "at the board: do not strip")
		} else if end.StripUM > 0 {
			words = append(words, "strip "+bare(end.StripUM)+" mm")
		}
		for _, more := range []string{endWords(end, kinds), end.Note} {
			if more != "" {
				words = append(words, more)
			}
		}
		ends = append(ends, strings.Join(words, ", "))
	}
	if ends[0] == ends[1] {
		return []string{"both ends: " + ends[0]}
	}
	return []string{leadBy("END A:", ends[0]), leadBy("END B:", ends[1])}
}

// leadBy puts a label before words; nothing before none.
func leadBy(label, words string) string {
	if words == "" {
		return ""
	}
	return label + " " + words
}

// bare writes a length in millimetres without the unit.
func bare(um int64) string { return strings.TrimSuffix(units.Length(um).String(), " mm") }

// joinedIDs writes "M1 and M2".
func joinedIDs(ids []string) string {
	if len(ids) < 2 {
		return strings.Join(ids, "")
	}
	return strings.Join(ids[:len(ids)-1], ", ") + " and " + ids[len(ids)-1]
}

// textIn joins the words of some faces inside an area, in reading order.
func (p *paper) textIn(area box, want func(word) bool) string {
	words := p.where(func(w word) bool {
		return w.left > area.left && w.right < area.right && w.middle() > area.top && w.middle() < area.bottom && want(w)
	})
	var text []string
	for len(words) > 0 { // faces of one line differ a little in height
		line := slices.IndexFunc(words, func(w word) bool { return !sameLine(words[0], w) })
		if line < 0 {
			line = len(words)
		}
		slices.SortStableFunc(words[:line], func(a, b word) int { return cmp.Compare(a.left, b.left) })
		for _, w := range words[:line] {
			text = append(text, w.text)
		}
		words = words[line:]
	}
	return strings.Join(text, " ")
}

// small reports whether a word belongs to what a row says in words.
func small(w word) bool {
	return w.is("Go-Medium", 9) || w.is("Go-Regular", 9) || w.is("Go-Bold", 9)
}

// rowSays checks what a row says in words, and the cores under it.
func (r *recount) rowSays(l cutLine, g good) {
	said := l.page.textIn(l.row, small)
	for _, phrase := range g.phrases {
		if !strings.Contains(said, phrase) {
			r.report(l.page, "the row of %s does not say %q", g.id, phrase)
		}
	}
	r.coresSay(l, g)
}

// coresSay checks the lines of every core under its cable: core, wire, both ends, and what to key in for the wire.
func (r *recount) coresSay(l cutLine, g good) {
	heads := l.page.where(func(w word) bool {
		return w.is("Go-Bold", 10) && w.middle() > l.row.top && w.middle() < l.row.bottom && strings.HasPrefix(w.text, g.id+" core ")
	})
	if len(heads) != len(g.cores) {
		r.report(l.page, "cable %s lists %d cores, %d have a wire", g.id, len(heads), len(g.cores))
		return
	}
	last := l.row.bottom
	for _, w := range l.page.words { // lines to write a measured length on
		if w.is("Go-Mono-Bold", 10) && w.text == g.id && w.top > l.row.top {
			last = min(last, w.top)
		}
	}
	for i, core := range g.cores {
		area := box{0, heads[i].top - 2, math.Inf(1), last}
		if i+1 < len(heads) {
			area.bottom = heads[i+1].top - 2
		}
		r.coreSays(l.page, area, heads[i].text, core)
	}
}

func (r *recount) coreSays(p *paper, area box, head string, core plan.Wire) {
	face := func(name string, size float64) string {
		return p.textIn(area, func(w word) bool { return w.is(name, size) })
	}
	says := fmt.Sprintf("%s: %s, %s", head, face("Go-Mono-Bold", 10), face("Go-Mono", 10))
	if want := fmt.Sprintf("%s core %s: %s, %s > %s", core.Cable, core.Core, core.ID, core.From, core.To); says != want {
		r.report(p, "a core says %q, the plan %q", says, want)
	}
	said := p.textIn(area, small)
	for _, phrase := range append(coreEndWords(core, r.kinds), leadBy("note:", core.Note)) {
		if !strings.Contains(said, phrase) {
			r.report(p, "core %s of %s does not say %q", core.Core, core.Cable, phrase)
		}
	}
	colours := face("Go-Medium", 10)
	for _, t := range r.plan.Types {
		if t.ID == core.Type && !strings.HasPrefix(colours, t.ColourWords+" "+t.GaugeShort) {
			r.report(p, "core %s of %s is %q, the plan says %s %s", core.Core, core.Cable, colours, t.ColourWords, t.GaugeShort)
		}
	}
	if key := face("Go-Mono", 9); key != core.Code.KeyIn() {
		r.report(p, "core %s of %s is keyed in as %q, its code says %s", core.Core, core.Cable, key, core.Code.KeyIn())
		return
	}
	r.read[core.Code.String()]++
}

// together checks that the wires of a twist, and a cable with its pigtails, lie on neighbouring rows of one list.
func (r *recount) together(lines []cutLine) {
	want := map[string]int{}
	for _, g := range r.goods {
		if g.reason == "" && g.body != "" {
			want[g.body]++
		}
	}
	lists := map[string][]string{}
	for _, l := range lines {
		list := l.group + " for units " + strings.Join(r.listUnits(l.page, "wire"), " ")
		if rows := lists[list]; l.kind == "wire" && (len(rows) == 0 || rows[len(rows)-1] != l.name) {
			lists[list] = append(rows, l.name)
		}
	}
	for _, list := range sortedKeys(lists) {
		r.neighbours(list, lists[list], want)
	}
}

// neighbours finds bodies of which not all members stand behind each other.
func (r *recount) neighbours(list string, rows []string, want map[string]int) {
	for i := 0; i < len(rows); {
		body, end := r.goods[rows[i]].body, i+1
		for body != "" && end < len(rows) && r.goods[rows[end]].body == body {
			end++
		}
		if body != "" && end-i != want[body] {
			r.found = append(r.found, fmt.Sprintf("%s: of %s only %v stand together, it has %d", list, body, rows[i:end], want[body]))
		}
		i = end
	}
}
