package plan

import (
	"fmt"
	"strings"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// Sum is how the length of a wire or cable comes about, for a person to follow.
type Sum struct {
	ID, Noun   string // Noun: "wire", "pigtail", "cable"
	Core       string // wire that was asked for, where it is a core of the cable
	CutBack    [2]int64
	Rows       []SumRow
	FinishedUM int64 // 0 where it is not known
	CutUM      int64 // 0 where the line cuts nothing
	Nodes      []string
}

// SumRow is one term of a sum.
type SumRow struct {
	Name string // "tail a"
	UM   int64
	From string // what it comes from, in words
}

// SumOf returns the sum of a wire, pigtail, cable or core of a checked harness that a plan was made of; false where the id is none.
func SumOf(checked *harness.Harness, p Plan, id string) (Sum, bool) {
	h := withPigtails(checked)
	for _, c := range p.Cables {
		if c.ID == id {
			return sumOfCable(h, c), true
		}
	}
	for _, w := range p.Wires {
		if w.ID != id {
			continue
		}
		if w.Cable == "" {
			return sumOfWire(h, w), true
		}
		for _, c := range p.Cables {
			if c.ID == w.Cable {
				sum := sumOfCable(h, c)
				m := newMeasurer(h)
				length, _ := m.measureCable(m.cables[c.ID], coresByCable(h)[c.ID])
				back := length.trims[w.ID]
				sum.Core, sum.CutBack = w.ID, [2]int64{int64(back[0]), int64(back[1])}
				return sum, true
			}
		}
	}
	return Sum{}, false
}

func sumOfWire(h *harness.Harness, row Wire) Sum {
	m := newMeasurer(h)
	sum := Sum{ID: row.ID, Noun: "wire", FinishedUM: row.FinishedUM, CutUM: row.CutUM, Nodes: row.Nodes}
	for i := range h.Wires {
		w := &h.Wires[i]
		if w.ID != row.ID {
			continue
		}
		s, _ := m.stretchOf(w)
		if w.A.Kind == harness.EndShield {
			sum.Noun = "pigtail"
		}
		words := sumWords{m: m, s: s, nodes: row.Nodes, a: &w.A, b: &w.B, laid: row.Laid}
		sum.Rows = words.rows(row.Terms)
	}
	return sum
}

// sumOfCable takes each end from the core that needs most there.
func sumOfCable(h *harness.Harness, row Cable) Sum {
	m := newMeasurer(h)
	sum := Sum{ID: row.ID, Noun: "cable", FinishedUM: row.FinishedUM, CutUM: row.CutUM, Nodes: row.Nodes}
	length, _ := m.measureCable(m.cables[row.ID], coresByCable(h)[row.ID])
	words := sumWords{m: m, s: length.stretch, nodes: row.Nodes}
	if length.most[0] != nil {
		words.a, words.b = &length.most[0].A, &length.most[1].B
		words.byA, words.byB = "core "+length.most[0].ID+": ", "core "+length.most[1].ID+": "
	}
	sum.Rows = words.rows(row.Terms)
	return sum
}

// sumWords says where terms come from.
type sumWords struct {
	m        *measurer
	s        stretch
	nodes    []string
	a, b     *harness.End // nil where nothing is known of the ends
	byA, byB string       // before the words of an end of a cable: the core that decides there
	laid     string
}

func (w sumWords) rows(terms []Term) []SumRow {
	rows := make([]SumRow, len(terms))
	for i, term := range terms {
		rows[i] = SumRow{Name: strings.ReplaceAll(term.Name, "_", " "), UM: term.UM, From: w.from(term.Name)}
	}
	return rows
}

func (w sumWords) from(name string) string {
	line := &w.m.h.Line
	switch name {
	case "route":
		return "along " + strings.Join(w.nodes, ", ")
	case "given":
		return "the length that the job gives"
	case "loop":
		return "service loop, allowance.loop"
	case "twist":
		return w.laid
	case "line":
		return fmt.Sprintf("the line may cut %s and %s of the length too short", line.ShortFixed, line.ShortShare)
	case "rounding":
		return "up to the next step of the line, " + line.Step.String()
	}
	return w.fromEnds(name)
}

// fromEnds says where a term of one end, or of both, comes from.
func (w sumWords) fromEnds(name string) string {
	if w.a == nil || w.b == nil {
		return ""
	}
	switch name {
	case "tail_a":
		return w.byA + w.tail(w.s.a, w.a)
	case "tail_b":
		return w.byB + w.tail(w.s.b, w.b)
	case "barrel_a":
		return w.byA + w.s.a.body() + ", from its reference plane to the mouth of the wire barrel"
	case "barrel_b":
		return w.byB + w.s.b.body() + ", from its reference plane to the mouth of the wire barrel"
	case "strip_a":
		return w.byA + stripWords(w.a)
	case "strip_b":
		return w.byB + stripWords(w.b)
	case "retermination":
		return "end a " + w.anew(w.a, w.s.a) + ", end b " + w.anew(w.b, w.s.b)
	case "trim":
		return fmt.Sprintf("cut off at the board: end a %s, end b %s", w.s.a.trim, w.s.b.trim)
	case "extra":
		return fmt.Sprintf("tail_extra: end a %s, end b %s", w.s.a.extra, w.s.b.extra)
	}
	return ""
}

func (w sumWords) tail(need endNeed, end *harness.End) string {
	switch end.Kind {
	case harness.EndTerminal:
		return need.body() + ", from node " + need.place.node + " to the centre of its hole"
	case harness.EndCapped, harness.EndLeaves:
		return "left free beyond node " + need.place.node
	}
	return need.body() + ", from node " + need.place.node + " to its reference plane"
}

func stripWords(end *harness.End) string {
	if end.Contact != "" {
		return "stripped for contact " + end.Contact
	}
	return "stripped at " + end.Written()
}

// anew says what an end keeps for crimping anew: "2 x (4 mm strip + 3 mm trim back)".
func (w sumWords) anew(end *harness.End, need endNeed) string {
	if need.retermination == 0 {
		return "none"
	}
	back := w.m.h.Allowance.TrimBack
	strip := need.retermination/units.Length(end.Retermination) - back
	return fmt.Sprintf("%d x (%s strip + %s trim back)", end.Retermination, strip, back)
}
