package job

import (
	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
)

// checkLengthIs finds given lengths in a job that does not say what they mean.
func checkLengthIs(h *harness.Harness) problem.List {
	if h.Job.LengthIs != harness.LengthUnstated {
		return nil
	}
	for _, w := range h.Wires {
		if w.Given > 0 {
			return problem.List{with(about(fault(noLengthIs, w.Of("length"), "wire %s has a length, and the job does not say what lengths mean", quoted(w.ID)),
				w.ID, `write length_is = "cut" or length_is = "finished" in [job]`), h.Job.At, "the job starts here")}
		}
	}
	return nil
}

// checkLengths finds wires that get their length neither from the job nor from the board.
func checkLengths(h *harness.Harness) problem.List {
	l := newLookup(h)
	var found problem.List
	report := func(w harness.Wire, why string) {
		found = append(found, about(fault(noLength, w.At, "wire %s has no length, and %s", quoted(w.ID), why), w.ID,
			`write length = "...", or give the board, and node and tail of both connectors`))
	}
	for _, w := range h.Wires {
		if w.Given > 0 || w.A.Connector == "" || w.B.Connector == "" {
			continue
		}
		if h.Board.ID == "" || len(h.Board.Nodes) == 0 {
			report(w, "the job has no board")
			continue
		}
		for _, id := range []string{w.A.Connector, w.B.Connector} {
			if c := l.connectors[id]; c != nil && c.Node == "" {
				report(w, "connector "+quoted(id)+" has no node")
				break
			}
		}
	}
	return found
}

// checkTails finds connectors that lengths from the board run to, and that do not say how far they are from their node.
func checkTails(h *harness.Harness) problem.List {
	l := newLookup(h)
	needed := map[*harness.Connector]*harness.Wire{}
	for i := range h.Wires {
		w := &h.Wires[i]
		for _, id := range []string{w.A.Connector, w.B.Connector} {
			c := l.connectors[id]
			if w.Given == 0 && c != nil && c.Node != "" && needed[c] == nil {
				needed[c] = w
			}
		}
	}
	var found problem.List
	for i := range h.Connectors {
		c := &h.Connectors[i]
		if w := needed[c]; w != nil && !set(c.Origin, "tail") {
			p := about(fault(noTail, c.Of("node"), "connector %s has no tail, and wire %s takes its length from the board", quoted(c.ID), quoted(w.ID)), c.ID,
				`write tail = "...", the distance from the node to the reference plane`)
			found = append(found, with(p, w.At, "the wire stands here"))
		}
	}
	return found
}

// checkSegments finds segments that lead back to their node, or that stand twice.
func checkSegments(h *harness.Harness) problem.List {
	type pair struct{ a, b string }
	first := map[pair]problem.Place{}
	var found problem.List
	for _, s := range h.Board.Segments {
		at := s.Of("between")
		key := pair{min(s.From, s.To), max(s.From, s.To)}
		other, doubled := first[key]
		switch {
		case s.From == "":
		case s.From == s.To:
			found = append(found, about(fault(segmentToItself, at, "a segment leads from node %s to itself", quoted(s.From)), s.From, "write its other node"))
		case doubled:
			p := about(fault(doubledSegment, at, "nodes %s and %s have two segments between them", quoted(key.a), quoted(key.b)), key.a,
				"take one out, or put a node into the second way")
			found = append(found, with(p, other, "the other one stands here"))
		default:
			first[key] = at
		}
	}
	return found
}

// checkOnBoard finds nodes beyond the edges of the board.
func checkOnBoard(h *harness.Harness) problem.List {
	var found problem.List
	if h.Board.ID == "" {
		return nil
	}
	for _, n := range h.Board.Nodes {
		if n.X < 0 || n.Y < 0 || n.X > h.Board.Width || n.Y > h.Board.Height {
			p := about(fault(offBoard, n.Of("at"), "node %s stands beyond the edge of the board", quoted(n.ID)), n.ID, "positions count from the lower left corner: right, up")
			found = append(found, with(p, h.Board.Of("size"), "the size of the board stands here"))
		}
	}
	return found
}

// checkSerialLegends finds legends with a serial where each wire is cut for all units in turn.
func checkSerialLegends(h *harness.Harness) problem.List {
	if h.Policy.Units != "together" {
		return nil
	}
	var found problem.List
	check := func(text string, at problem.Place) {
		if holdsSerial(text) {
			found = append(found, with(about(fault(serialTogether, at, "a legend holds the serial, and units are cut together"), "",
				`write units = "one by one" in [policy], or take {serial} out`), h.Policy.Of("units"), "the units are cut together here"))
		}
	}
	check(h.Marks.Legend, h.Marks.Of("legend"))
	check(h.Marks.EndLegend, h.Marks.Of("end_legend"))
	for i, text := range h.Marks.Shorter {
		check(text, h.Marks.Of(elementKey("shorter", i)))
	}
	return found
}
