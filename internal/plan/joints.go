package plan

import (
	"slices"

	"loomleaf/internal/harness"
	"loomleaf/internal/words"
)

// Kinds of joint.
const (
	jointSplice   = "splice"
	jointTerminal = "terminal"
	jointStud     = "stud"
)

// jointRows returns the joints: splices, then terminals, each in build order, then studs by id, complete but for their codes.
func jointRows(h *harness.Harness, landings map[string][]landing) []Joint {
	splices, terminals := map[string]*harness.Splice{}, map[string]*harness.Terminal{}
	for i := range h.Splices {
		splices[h.Splices[i].ID] = &h.Splices[i]
	}
	for i := range h.Terminals {
		terminals[h.Terminals[i].ID] = &h.Terminals[i]
	}
	said := h.Paper.Spoken()
	var rows, last []Joint
	for _, id := range buildOrder(h) {
		if s := splices[id]; s != nil {
			rows = append(rows, spliceRow(said, s, landings[id]))
		}
		if t := terminals[id]; t != nil {
			last = append(last, terminalRow(said, t, landings[id]))
		}
	}
	rows = append(rows, last...)
	studs := slices.Clone(h.Studs)
	slices.SortFunc(studs, func(a, b harness.Stud) int { return naturalCompare(a.ID, b.ID) })
	for i := range studs {
		rows = append(rows, studRow(said, &studs[i], terminals))
	}
	return rows
}

// studRow returns a stud. It stands where its terminals do, which may be more than one node of the board.
func studRow(said words.Words, s *harness.Stud, terminals map[string]*harness.Terminal) Joint {
	row := Joint{ID: s.ID, Kind: jointStud, Words: s.Torque, Stack: slices.Clone(s.Stack), Place: s.At}
	var nodes []string
	for _, item := range s.Stack {
		if t := terminals[item]; t != nil && t.Node != "" && !slices.Contains(nodes, t.Node) {
			nodes = append(nodes, t.Node)
		}
	}
	row.Where = whereWords(said, enumeratedIn(said, nodes))
	if len(nodes) == 1 {
		row.Node = nodes[0]
	}
	return row
}

// spliceRow returns a splice with the wires of each side in the order of the job. That every wire of a side ends at the splice
// was checked when the job was read.
func spliceRow(said words.Words, s *harness.Splice, landings []landing) Joint {
	row := Joint{ID: s.ID, Kind: jointSplice, Part: s.Part, Node: s.Node, Where: whereWords(said, s.Node), Stage: string(s.Stage),
		SlideOn: slices.Clone(s.SlideOn), Place: s.At}
	if s.Towards != "" && s.Offset > 0 {
		row.Where = said.Say("joint.towards", "node", s.Node, "offset", said.Decimal(s.Offset.String()), "towards", s.Towards)
	}
	for i, wires := range s.Sides {
		var side []landing
		for _, wire := range wires {
			if at := slices.IndexFunc(landings, func(l landing) bool { return l.line.Wire == wire }); at >= 0 {
				side = append(side, landings[at])
			}
		}
		row.Sides = append(row.Sides, sideOf(said.Say("joint.side", "n", i+1), side))
	}
	return row
}

// terminalRow returns a terminal. Its stage is that of its wires where they agree.
func terminalRow(said words.Words, t *harness.Terminal, landings []landing) Joint {
	row := Joint{ID: t.ID, Kind: jointTerminal, Part: t.Part, Words: t.Kind, Node: t.Node, Where: whereWords(said, t.Node),
		SlideOn: slices.Clone(t.SlideOnFirst), Note: t.Note, Place: t.At, Sides: []JointSide{sideOf(said.Say("joint.in_barrel"), landings)}}
	for i, end := range landings {
		switch {
		case i == 0:
			row.Stage = end.line.Stage
		case row.Stage != end.line.Stage:
			row.Stage = ""
		}
	}
	return row
}

// whereWords says where a joint is: "at N4".
func whereWords(said words.Words, node string) string {
	if node == "" {
		return ""
	}
	return said.Say("joint.at", "node", node)
}

// sideOf returns the wires of one side with the sum of their cross-sections.
func sideOf(words string, landings []landing) JointSide {
	side := JointSide{Words: words, Section: sumOfSections(landings)}
	for _, end := range landings {
		side.Lines = append(side.Lines, end.line)
	}
	return side
}
