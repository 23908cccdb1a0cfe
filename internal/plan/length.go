package plan

import (
	"fmt"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

// wholeShare is a share of one.
const wholeShare units.Share = 1_000_000

// measured is the length of a wire or cable and how it came about.
type measured struct {
	cut, finished units.Length // finished is 0 where neither the job nor the board says it
	status        harness.LengthStatus
	terms         []Term
	ends          [2]units.Length // what ends a and b add beyond their tails, as far as the terms hold it
	way           boardWay
}

// mostTerms is how many terms nearly every sum has room for: no wire has them all.
const mostTerms = 12

// lengthSum adds named terms in the published order and leaves out those that are zero.
type lengthSum struct {
	terms []Term
	total units.Length
}

func (s *lengthSum) add(name string, length units.Length) {
	if length != 0 {
		if s.terms == nil {
			s.terms = make([]Term, 0, mostTerms)
		}
		s.terms = append(s.terms, Term{Name: name, UM: int64(length)})
		s.total += length
	}
}

// stretch is what a length is worked out from: a wire, or a cable between the ends that need most.
type stretch struct {
	noun, id string // "wire", "W101"
	origin   harness.Origin
	given    units.Length
	givenIs  harness.LengthIs
	way      boardWay
	onBoard  bool // the board knows the way
	a, b     endNeed
	loop     units.Length
	lay      *layUp // of a wire in a twist
}

// measurer works out lengths.
type measurer struct {
	h            *harness.Harness
	contacts     map[string]*harness.Contact
	connectors   map[string]*harness.Connector
	splices      map[string]*harness.Splice
	terminals    map[string]*harness.Terminal
	cables       map[string]*harness.Cable
	cableTypes   map[string]*harness.CableType
	lays         map[string]*layUp // by wire
	router       *boardRouter
	splicePlaces map[string]boardPlace
	faults       problem.List
}

func newMeasurer(h *harness.Harness) *measurer {
	m := &measurer{
		h: h, contacts: map[string]*harness.Contact{}, connectors: map[string]*harness.Connector{},
		splices: map[string]*harness.Splice{}, terminals: map[string]*harness.Terminal{},
		cables: map[string]*harness.Cable{}, cableTypes: cableTypesByID(h), router: newBoardRouter(&h.Board),
	}
	for i := range h.Contacts {
		m.contacts[h.Contacts[i].ID] = &h.Contacts[i]
	}
	for i := range h.Connectors {
		m.connectors[h.Connectors[i].ID] = &h.Connectors[i]
	}
	for i := range h.Cables {
		m.cables[h.Cables[i].ID] = &h.Cables[i]
	}
	for i := range h.Terminals {
		m.terminals[h.Terminals[i].ID] = &h.Terminals[i]
	}
	places, faults := splicePlaces(m.router, h.Splices)
	m.splicePlaces = places
	for i := range h.Splices {
		s := &h.Splices[i]
		m.splices[s.ID] = s
		if err := faults[s.ID]; err != nil {
			m.faults = append(m.faults, problem.Problem{Check: "splice-offset", Place: s.Of("offset"), ID: s.ID,
				Text: fmt.Sprintf("splice %q has no place on the board: %s", s.ID, err),
				Hint: "correct the node or the offset of the splice"})
		}
	}
	lays, twistFaults := layUps(h)
	m.lays, m.faults = lays, append(m.faults, twistFaults...)
	return m
}

// lineProblems checks what every cut length rests on.
func lineProblems(line *harness.Line) problem.List {
	var problems problem.List
	if line.Step <= 0 {
		problems = append(problems, problem.Problem{Check: "line-step", Place: line.Of("step"),
			Text: "the line has no cutting step", Hint: `give a step above zero, such as step = "1 mm"`})
	}
	if line.ShortShare < 0 || line.ShortShare >= wholeShare {
		problems = append(problems, problem.Problem{Check: "short-error", Place: line.Of("short_error"),
			Text: fmt.Sprintf("a line that may cut %s short cannot cut any length", line.ShortShare),
			Hint: "give the worst share by which a piece comes out too short, such as 0.1 %"})
	}
	return problems
}

// measure returns the length of a wire. With an error in the list the length is not to be used.
func (m *measurer) measure(w *harness.Wire) (measured, problem.List) {
	s, problems := m.stretchOf(w)
	switch {
	case len(problems) > 0:
		return measured{}, problems
	case w.Measure:
		return measured{status: harness.LengthMeasure, way: s.way}, nil
	case !cutAlone(w):
		return m.uncut(s), m.checkReady(s)
	}
	return m.length(s)
}

// cutAlone reports whether the line cuts a wire, which is no core, to a length that is known.
func cutAlone(w *harness.Wire) bool {
	return w.Cable == "" && !w.Measure && supplyOf(w.Supply) == harness.SupplyReel
}

// stretchOf returns what the length of a wire is worked out from. A pigtail has a finished length and no loop.
func (m *measurer) stretchOf(w *harness.Wire) (stretch, problem.List) {
	s := stretch{noun: "wire", id: w.ID, origin: w.Origin, given: w.Given, givenIs: m.h.Job.LengthIs,
		a: m.need(&w.A), b: m.need(&w.B), loop: m.h.Allowance.Loop, lay: m.lays[w.ID]}
	if w.A.Kind == harness.EndShield {
		s.givenIs, s.loop = harness.LengthFinished, 0
		return s, nil
	}
	if s.a.place.node == "" || s.b.place.node == "" {
		return s, nil
	}
	if len(m.h.Board.Segments) == 0 && (w.Given > 0 || !cutAlone(w)) {
		return s, nil // nodes that only order the connectors
	}
	via := w.Via
	if cable := m.cables[w.Cable]; cable != nil && len(via) == 0 {
		via = cable.Via
	}
	way, err := m.router.way(s.a.place, via, s.b.place)
	if err != nil {
		return s, problem.List{{Check: "unreachable", Place: w.At, ID: w.ID,
			Text: fmt.Sprintf("wire %q has no way over the board: %s", w.ID, err),
			Hint: "add a [[segment]] that joins them, or correct the node of what the wire goes to"}}
	}
	s.way, s.onBoard = way, true
	return s, nil
}

// uncut returns what is known of a wire that has no cut of its own.
func (m *measurer) uncut(s stretch) measured {
	result := measured{status: harness.LengthGiven, way: s.way}
	if s.given == 0 {
		result.status = harness.LengthBoard
	}
	switch {
	case s.onBoard:
		result.finished = m.finished(s).total
	case s.givenIs == harness.LengthFinished:
		result.finished = s.given
	}
	return result
}

// length returns the length of a stretch that is cut on the line.
func (m *measurer) length(s stretch) (measured, problem.List) {
	result := measured{status: harness.LengthGiven, way: s.way}
	var sum lengthSum
	switch {
	case s.given == 0 && !s.onBoard:
		return measured{}, problem.List{s.unmeasured()}
	case s.given == 0:
		sum, result.status = m.finished(s), harness.LengthBoard
		result.finished, result.ends = sum.total, s.ends()
		m.finish(&sum, s)
	case s.givenIs == harness.LengthCut:
		sum.add("given", s.given)
		sum.add("rounding", s.given.CeilTo(m.h.Line.Step)-s.given)
		if s.onBoard {
			result.finished = m.finished(s).total
		}
	case s.givenIs == harness.LengthFinished:
		sum.add("given", s.given)
		result.finished, result.ends = s.given, s.ends()
		m.finish(&sum, s)
	default:
		return measured{}, problem.List{s.unstated()}
	}
	result.cut, result.terms = sum.total, sum.terms
	problems := s.checkTwist(result.finished)
	if s.given > 0 && s.onBoard {
		problems = append(problems, m.checkGiven(s)...)
	}
	return result, append(problems, m.checkRange(s, result.cut)...)
}

// finished returns the finished length by the board: the route and both tails.
func (m *measurer) finished(s stretch) lengthSum {
	var sum lengthSum
	sum.add("route", s.way.length)
	sum.add("tail_a", s.a.tail)
	sum.add("tail_b", s.b.tail)
	return sum
}

// finish adds to a finished length what the ends need, the loop, the twist, and what the line may cut short.
func (m *measurer) finish(sum *lengthSum, s stretch) {
	finished := sum.total
	sum.add("barrel_a", s.a.toBarrel)
	sum.add("barrel_b", s.b.toBarrel)
	sum.add("strip_a", s.a.strip)
	sum.add("strip_b", s.b.strip)
	sum.add("retermination", s.a.retermination+s.b.retermination)
	sum.add("trim", s.a.trim+s.b.trim)
	sum.add("extra", s.a.extra+s.b.extra)
	sum.add("loop", s.loop)
	if s.lay != nil {
		sum.add("twist", s.lay.extra(finished))
	}
	sum.add("line", surelyLong(sum.total, &m.h.Line)-sum.total)
	sum.add("rounding", sum.total.CeilTo(m.h.Line.Step)-sum.total)
}

// surelyLong returns the smallest length that the line's worst short error leaves at least as long as needed:
// the smallest l with l - (fixed + share x l) >= need.
func surelyLong(need units.Length, line *harness.Line) units.Length {
	kept := int64(wholeShare - line.ShortShare)
	whole, rest := int64(need+line.ShortFixed)/kept, int64(need+line.ShortFixed)%kept
	rest *= int64(wholeShare)
	length := whole*int64(wholeShare) + rest/kept
	if rest%kept > 0 {
		length++
	}
	return units.Length(length)
}
