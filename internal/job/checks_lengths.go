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
	for _, r := range runs(h) {
		if r.given {
			return problem.List{with(about(fault(noLengthIs, r.origin.Of("length"), "%s has a length, and the job does not say what lengths mean", r.name()),
				r.id, `write length_is = "cut" or length_is = "finished" in [job]`), h.Job.At, "the job starts here")}
		}
	}
	return nil
}

// checkLengths finds wires and cables that get their length neither from the job nor from the board.
func checkLengths(h *harness.Harness) problem.List {
	l := newLookup(h)
	var found problem.List
	for _, r := range runs(h) {
		ends := r.ends()
		if !r.onBoard || len(ends) == 0 {
			continue
		}
		why := ""
		if h.Board.ID == "" || len(h.Board.Nodes) == 0 {
			why = "the job has no board"
		}
		for i := 0; why == "" && i < len(ends); i++ {
			why = l.nodeless(ends[i].end)
		}
		if why != "" {
			found = append(found, about(fault(noLength, r.origin.At, "%s has no length, and %s", r.name(), why), r.id,
				`write length = "..." or length = "measure", or give the board, and node and tail of what it goes to`))
		}
	}
	return found
}

// nodeless says that what an end goes to has no node; "" where it has one, or is not known.
func (l *lookup) nodeless(end *harness.End) string {
	connector, splice, terminal := l.connectors[end.Connector], l.splices[end.Splice], l.terminals[end.Terminal]
	switch {
	case connector != nil && connector.Node == "":
		return "connector " + quoted(connector.ID) + " has no node"
	case splice != nil && splice.Node == "":
		return "splice " + quoted(splice.ID) + " has no node"
	case terminal != nil && terminal.Node == "":
		return "terminal " + quoted(terminal.ID) + " has no node"
	}
	return ""
}

// checkTails finds what lengths from the board run to, and what does not say how far it is from its node.
func checkTails(h *harness.Harness) problem.List {
	l := newLookup(h)
	seen := map[string]bool{}
	var found problem.List
	for _, r := range runs(h) {
		for _, e := range r.ends() {
			p := l.tailFault(r, e)
			if !r.onBoard || p == nil || seen[p.ID] {
				continue
			}
			seen[p.ID] = p.Check == noTail // once for all wires
			found = append(found, *p)
		}
	}
	return found
}

// tailFault finds what an end runs to from its node and nothing measures.
func (l *lookup) tailFault(r run, e wireEnd) *problem.Problem {
	tailless := func(noun, id string, o *harness.Origin, to string) *problem.Problem {
		p := about(fault(noTail, o.Of("node"), "%s %s has no tail, and %s takes its length from the board", noun, quoted(id), r.name()), id,
			`write tail = "...", the distance from the node to `+to)
		p = with(p, r.origin.At, "the "+r.noun+" stands here")
		return &p
	}
	connector, terminal := l.connectors[e.end.Connector], l.terminals[e.end.Terminal]
	switch {
	case connector != nil && connector.Node != "" && !set(connector.Origin, "tail"):
		return tailless("connector", connector.ID, &connector.Origin, "the reference plane")
	case terminal != nil && terminal.Node != "" && !set(terminal.Origin, "tail"):
		return tailless("terminal", terminal.ID, &terminal.Origin, "the centre of its hole")
	case e.is(harness.EndCapped, harness.EndLeaves) && !e.sets("free"):
		p := about(fault(noFree, e.at, "end %s of wire %s goes to %s and does not say how much of it is left free", e.side, quoted(e.wire.ID), quoted(e.where())),
			e.wire.ID, "write "+e.side+` = { free = "..." }, the length beyond the node; "0 mm" where it ends there`)
		return &p
	}
	return nil
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
