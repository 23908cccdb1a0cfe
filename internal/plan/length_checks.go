package plan

import (
	"cmp"
	"fmt"
	"strings"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

// checkGiven compares a given length with what the board asks for: it is refused where it does not reach from plane to plane, and
// warned about where it leaves nothing of an allowance, or is longer by more than the shop finds likely.
func (m *measurer) checkGiven(s stretch) problem.List {
	sum := m.finished(s)
	finished, terms := sum.total, sum.words()
	m.finish(&sum, s)
	need, beyond := sum.total, m.h.Policy.GivenBeyond
	asked := need
	if s.givenIs == harness.LengthFinished {
		asked = finished
	}
	p := problem.Problem{Check: "given-length", Place: s.origin.Of("length"), ID: s.id,
		Hint: "correct the length, or the tails and segments of the board"}
	switch {
	case s.given < finished:
		p.Text = fmt.Sprintf("%s %q is given %s, and from plane to plane over the board it is %s: %s", s.noun, s.id, s.given, finished, terms)
	case s.givenIs == harness.LengthCut && s.given.CeilTo(m.h.Line.Step) < need:
		p.Severity = problem.Warning
		p.Text = fmt.Sprintf("%s %q is given %s, and with its ends, allowances and the line's short error it needs %s (%s from plane to plane): %s",
			s.noun, s.id, s.given, need, finished, sum.words())
	case s.given > asked+beyond:
		p.Severity = problem.Warning
		if s.givenIs == harness.LengthCut {
			terms = sum.words()
		}
		p.Text = fmt.Sprintf("%s %q is given %s, and the board asks for %s, more than %s less: %s", s.noun, s.id, s.given, asked, beyond, terms)
		p.Hint = "correct the length or the board, or raise policy.given_beyond"
	default:
		return nil
	}
	return problem.List{p}
}

// checkReady compares a given length of something that the line does not cut with the way over the board.
func (m *measurer) checkReady(s stretch) problem.List {
	if s.given == 0 || !s.onBoard {
		return nil
	}
	if sum := m.finished(s); s.given < sum.total {
		return m.checkGiven(s)
	}
	return nil
}

// words names the terms of a sum: "route 1000 mm, tail a 120 mm".
func (s *lengthSum) words() string {
	words := make([]string, len(s.terms))
	for i, term := range s.terms {
		words[i] = fmt.Sprintf("%s %s", strings.ReplaceAll(term.Name, "_", " "), units.Length(term.UM))
	}
	return strings.Join(words, ", ")
}

// checkRange compares a cut length with what the line can cut.
func (m *measurer) checkRange(s stretch, cut units.Length) problem.List {
	line := &m.h.Line
	p := problem.Problem{Check: "cut-length", Place: s.origin.Of("length"), ID: s.id}
	switch {
	case cut <= 0:
		p.Text = fmt.Sprintf("%s %q comes out %s long", s.noun, s.id, cut)
		p.Hint = "correct to_barrel and the tails of its connectors, or the length that is given"
	case line.Longest > 0 && cut > line.Longest:
		p.Text = fmt.Sprintf("%s %q is to be cut to %s, and the line cuts at most %s", s.noun, s.id, cut, line.Longest)
		p.Hint = "route it a shorter way, or correct line.longest"
	case cut < line.Shortest:
		p.Severity = problem.Warning
		p.Text = fmt.Sprintf("%s %q is to be cut to %s by hand, the line cuts no less than %s", s.noun, s.id, cut, line.Shortest)
		p.Hint = "accept it, lengthen it, or correct line.shortest"
	default:
		return nil
	}
	return problem.List{p}
}

// unmeasured says why a wire or cable has no length.
func (s stretch) unmeasured() problem.Problem {
	bare := s.a.body()
	if s.a.place.node != "" {
		bare = s.b.body()
	}
	text := fmt.Sprintf("%s %q has no length: none is given, and the board does not say it", s.noun, s.id)
	if bare != "" {
		text = fmt.Sprintf("%s %q has no length: none is given, and %s stands on no node", s.noun, s.id, bare)
	}
	noun, _, _ := strings.Cut(bare, " ")
	return problem.Problem{Check: "no-length", Place: s.origin.At, ID: s.id, Text: text,
		Hint: fmt.Sprintf("give the %s a length, or the %s a node", s.noun, cmp.Or(noun, "connector"))}
}

// unstated says that a given length may mean two things.
func (s stretch) unstated() problem.Problem {
	return problem.Problem{Check: "length-is", Place: s.origin.Of("length"), ID: s.id,
		Text: fmt.Sprintf("the length of %s %q may be cut or finished", s.noun, s.id),
		Hint: `set length_is = "cut" or "finished" in [job]`}
}
