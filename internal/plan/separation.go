package plan

import (
	"fmt"
	"slices"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
)

// wayOf is a wire with the segments that it takes.
type wayOf struct {
	wire     *harness.Wire
	segments [][2]string
}

// separationProblems names each pair of separations that share a segment, with the first wire of each. The wires stand in natural
// order of their ids.
func separationProblems(ways []wayOf) problem.List {
	firsts := map[[2]string][]*harness.Wire{} // by segment, the first wire of each separation
	var problems problem.List
	for _, way := range ways {
		if way.wire.Separation == "" {
			continue
		}
		for _, segment := range way.segments {
			same := func(w *harness.Wire) bool { return w.Separation == way.wire.Separation }
			if slices.ContainsFunc(firsts[segment], same) {
				continue
			}
			for _, other := range firsts[segment] {
				problems = append(problems, separationProblem(segment, other, way.wire))
			}
			firsts[segment] = append(firsts[segment], way.wire)
		}
	}
	slices.SortStableFunc(problems, func(a, b problem.Problem) int { return naturalCompare(a.Text, b.Text) })
	return problems
}

func separationProblem(segment [2]string, a, b *harness.Wire) problem.Problem {
	return problem.Problem{Check: "separation", Place: a.Of("separation"), ID: a.ID,
		Text: fmt.Sprintf("the segment from %q to %q holds wire %q of separation %q and wire %q of separation %q",
			segment[0], segment[1], a.ID, a.Separation, b.ID, b.Separation),
		Hint: "lead one of them another way with via, or correct its separation",
		Also: &problem.Related{Place: b.Of("separation"), Text: fmt.Sprintf("wire %q stands here", b.ID)}}
}
