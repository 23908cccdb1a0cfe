package plan

import (
	"fmt"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

// wholeShare is a share of one.
const wholeShare units.Share = 1_000_000

// measured is the length of a wire and how it came about.
type measured struct {
	cut, finished units.Length // finished is 0 where neither the job nor the board says it
	status        harness.LengthStatus
	terms         []Term
	nodes         []string
}

// lengthSum adds named terms in the published order and leaves out those that are zero.
type lengthSum struct {
	terms []Term
	total units.Length
}

func (s *lengthSum) add(name string, length units.Length) {
	if length != 0 {
		s.terms = append(s.terms, Term{Name: name, UM: int64(length)})
		s.total += length
	}
}

// measurer works out lengths.
type measurer struct {
	h          *harness.Harness
	contacts   map[string]*harness.Contact
	connectors map[string]*harness.Connector
	router     *boardRouter
}

func newMeasurer(h *harness.Harness) *measurer {
	m := &measurer{
		h:          h,
		contacts:   make(map[string]*harness.Contact, len(h.Contacts)),
		connectors: make(map[string]*harness.Connector, len(h.Connectors)),
		router:     newBoardRouter(&h.Board),
	}
	for i := range h.Contacts {
		m.contacts[h.Contacts[i].ID] = &h.Contacts[i]
	}
	for i := range h.Connectors {
		m.connectors[h.Connectors[i].ID] = &h.Connectors[i]
	}
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
	way, onBoard, problems := m.along(w)
	if len(problems) > 0 {
		return measured{}, problems
	}
	result := measured{status: harness.LengthGiven, nodes: way.nodes}
	var sum lengthSum
	switch {
	case w.Given == 0 && !onBoard:
		return measured{}, problem.List{m.unmeasured(w)}
	case w.Given == 0:
		sum, result.status = m.onBoard(w, way), harness.LengthBoard
		result.finished = sum.total
		m.finish(&sum, w)
	case m.h.Job.LengthIs == harness.LengthCut:
		sum.add("given", w.Given)
		sum.add("rounding", w.Given.CeilTo(m.h.Line.Step)-w.Given)
		if onBoard {
			on := m.onBoard(w, way)
			result.finished = on.total
		}
	case m.h.Job.LengthIs == harness.LengthFinished:
		sum.add("given", w.Given)
		result.finished = w.Given
		m.finish(&sum, w)
	default:
		return measured{}, problem.List{unstatedLength(w)}
	}
	result.cut, result.terms = sum.total, sum.terms
	if w.Given > 0 && onBoard {
		problems = m.checkGiven(w, way)
	}
	return result, append(problems, m.checkRange(w, result.cut)...)
}

// along returns the way of a wire over the board, and whether the board knows one.
func (m *measurer) along(w *harness.Wire) (boardPath, bool, problem.List) {
	from, to := m.connectors[w.A.Connector].Node, m.connectors[w.B.Connector].Node
	if from == "" || to == "" {
		return boardPath{}, false, nil
	}
	if w.Given > 0 && len(m.h.Board.Segments) == 0 {
		return boardPath{}, false, nil // nodes that only order the connectors
	}
	stops := append(append([]string{from}, w.Via...), to)
	way, err := m.router.route(stops...)
	if err != nil {
		return boardPath{}, false, problem.List{{Check: "unreachable", Place: w.At, ID: w.ID,
			Text: fmt.Sprintf("wire %s has no way over the board: %s", w.ID, err),
			Hint: "add the missing segment, or correct the node of the connector"}}
	}
	return way, true, nil
}

// onBoard returns the finished length by the board: the route and both tails.
func (m *measurer) onBoard(w *harness.Wire, way boardPath) lengthSum {
	var sum lengthSum
	sum.add("route", way.length)
	sum.add("tail_a", m.connectors[w.A.Connector].Tail)
	sum.add("tail_b", m.connectors[w.B.Connector].Tail)
	return sum
}

// finish adds to a finished length what the ends need, the loop, and what the line may cut short.
func (m *measurer) finish(sum *lengthSum, w *harness.Wire) {
	sum.add("barrel_a", m.connectors[w.A.Connector].ToBarrel)
	sum.add("barrel_b", m.connectors[w.B.Connector].ToBarrel)
	sum.add("strip_a", w.A.Strip)
	sum.add("strip_b", w.B.Strip)
	sum.add("retermination", m.retermination(&w.A)+m.retermination(&w.B))
	sum.add("trim", w.A.Trim+w.B.Trim)
	sum.add("extra", w.A.TailExtra+w.B.TailExtra)
	sum.add("loop", m.h.Allowance.Loop)
	sum.add("line", surelyLong(sum.total, &m.h.Line)-sum.total)
	sum.add("rounding", sum.total.CeilTo(m.h.Line.Step)-sum.total)
}

// retermination returns what an end with a crimp contact keeps for crimping anew; other ends keep nothing.
func (m *measurer) retermination(end *harness.End) units.Length {
	contact, found := m.contacts[end.Contact]
	if !found || contact.Kind != "crimp" {
		return 0
	}
	return units.Length(end.Retermination) * (end.Strip + m.h.Allowance.TrimBack)
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

// checkGiven compares a given length with what the board asks for.
func (m *measurer) checkGiven(w *harness.Wire, way boardPath) problem.List {
	sum := m.onBoard(w, way)
	finished := sum.total
	m.finish(&sum, w)
	p := problem.Problem{Check: "given-length", Place: w.Of("length"), ID: w.ID,
		Hint: "correct the length, or the tails and segments of the board"}
	switch {
	case w.Given < finished:
		p.Text = fmt.Sprintf("wire %s is given %s, and from plane to plane over the board it is %s", w.ID, w.Given, finished)
	case m.h.Job.LengthIs == harness.LengthCut && w.Given.CeilTo(m.h.Line.Step) < sum.total:
		p.Severity = problem.Warning
		p.Text = fmt.Sprintf("wire %s is given %s, and with its ends, allowances and the line's short error it needs %s (%s from plane to plane)",
			w.ID, w.Given, sum.total, finished)
	default:
		return nil
	}
	return problem.List{p}
}

// checkRange compares a cut length with what the line can cut.
func (m *measurer) checkRange(w *harness.Wire, cut units.Length) problem.List {
	line := &m.h.Line
	p := problem.Problem{Check: "cut-length", Place: w.Of("length"), ID: w.ID}
	switch {
	case cut <= 0:
		p.Text = fmt.Sprintf("wire %s comes out %s long", w.ID, cut)
		p.Hint = "look at the tails and at to_barrel of its connectors"
	case line.Longest > 0 && cut > line.Longest:
		p.Text = fmt.Sprintf("wire %s is to be cut to %s, and the line cuts at most %s", w.ID, cut, line.Longest)
		p.Hint = "route it a shorter way, or correct line.longest"
	case cut < line.Shortest:
		p.Severity = problem.Warning
		p.Text = fmt.Sprintf("wire %s is to be cut to %s by hand, the line cuts no less than %s", w.ID, cut, line.Shortest)
	default:
		return nil
	}
	return problem.List{p}
}

// unmeasured says why a wire has no length.
func (m *measurer) unmeasured(w *harness.Wire) problem.Problem {
	bare := w.A.Connector
	if m.connectors[bare].Node != "" {
		bare = w.B.Connector
	}
	return problem.Problem{Check: "no-length", Place: w.At, ID: w.ID,
		Text: fmt.Sprintf("wire %s has no length: none is given, and connector %s stands on no node", w.ID, bare),
		Hint: "give the wire a length, or the connector a node"}
}

// unstatedLength says that a given length may mean two things.
func unstatedLength(w *harness.Wire) problem.Problem {
	return problem.Problem{Check: "length-is", Place: w.Of("length"), ID: w.ID,
		Text: fmt.Sprintf("the length of wire %s may be cut or finished", w.ID),
		Hint: `set length_is = "cut" or "finished" in [job]`}
}
