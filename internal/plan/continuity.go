package plan

import (
	"slices"
	"strings"

	"loomleaf/internal/harness"
	"loomleaf/internal/words"
)

// continuityOf returns the test of every net at the connector of its first end, and what each connector leaves to others.
func continuityOf(p *Plan, h *harness.Harness) Continuity {
	said := h.Paper.Spoken()
	c := Continuity{Limit: h.Inspection.Continuity}
	for _, e := range h.Inspection.Exclusions {
		c.Exclusions = append(c.Exclusions, Exclusion{At: slices.Clone(e.At), Why: e.Why})
	}
	at := map[string]int{}
	listed := listedCavities(h)
	for _, row := range p.Connectors {
		at[row.ID] = len(c.Groups)
		c.Groups = append(c.Groups, ContinuityGroup{Connector: row.ID, Title: row.Title, Place: row.Place})
	}
	rest := ContinuityGroup{Title: said.Say("nets.rest")}
	in := map[string]bool{}
	for _, net := range p.Nets {
		row := continuityRow(h, net, c.Exclusions)
		if len(net.Isolated) == 0 {
			rest.Rows = append(rest.Rows, row)
			continue
		}
		first := net.Isolated[0].Connector
		c.Groups[at[first]].Rows = append(c.Groups[at[first]].Rows, row)
		for _, isolation := range net.Isolated {
			for _, cavity := range isolation.But {
				in[landingName(isolation.Connector, cavity)] = true
			}
			if isolation.Connector != first {
				c.Groups[at[isolation.Connector]].before(first, isolation.But)
			}
		}
	}
	for i := range c.Groups {
		g := &c.Groups[i]
		for _, cavity := range listed[g.Connector] {
			if !in[landingName(g.Connector, cavity)] {
				g.Open = append(g.Open, cavity)
			}
		}
		g.sortBefore(listed[g.Connector])
	}
	if len(rest.Rows) > 0 {
		c.Groups = append(c.Groups, rest)
	}
	return c
}

// listedCavities returns the cavities of each connector in the order of the job.
func listedCavities(h *harness.Harness) map[string][]string {
	listed := make(map[string][]string, len(h.Connectors))
	for _, c := range h.Connectors {
		for _, cavity := range c.Cavities {
			listed[c.ID] = append(listed[c.ID], cavity.Name)
		}
	}
	return listed
}

// before notes cavities that the rows of an earlier connector test. The nets come in the order of their connectors.
func (g *ContinuityGroup) before(connector string, cavities []string) {
	last := len(g.Before) - 1
	if last < 0 || g.Before[last].Connector != connector {
		g.Before = append(g.Before, Before{Connector: connector})
		last++
	}
	g.Before[last].Cavities = append(g.Before[last].Cavities, cavities...)
}

// sortBefore brings the cavities into the order in which the connector lists them.
func (g *ContinuityGroup) sortBefore(listed []string) {
	order := make(map[string]int, len(listed))
	for i, cavity := range listed {
		order[cavity] = i
	}
	for _, before := range g.Before {
		slices.SortFunc(before.Cavities, func(a, b string) int { return order[a] - order[b] })
	}
}

func continuityRow(h *harness.Harness, net Net, exclusions []Exclusion) ContinuityRow {
	said := h.Paper.Spoken()
	row := ContinuityRow{Through: net.Through, Wires: net.Wires, Isolated: net.isolatedWords(said), Place: net.Place}
	if len(net.Ends) > 0 {
		row.From, row.To = net.Ends[0], net.Ends[1:]
	}
	var notes []string
	for _, through := range net.Through {
		notes = append(notes, shieldNotes(h, through)...)
	}
	if len(row.To) == 0 {
		notes = append(notes, said.Say("nets.no_other_end"))
	}
	row.Note = strings.Join(notes, "; ")
	row.Excluded = slices.ContainsFunc(exclusions, func(e Exclusion) bool {
		return slices.ContainsFunc(e.At, func(id string) bool { return net.touches(id) })
	})
	return row
}

// touches reports whether a net reaches a connector or joint.
func (n *Net) touches(id string) bool {
	return slices.Contains(n.Ends, id) || slices.Contains(n.Through, id) ||
		slices.ContainsFunc(n.Isolated, func(i Isolation) bool { return i.Connector == id })
}

// isolatedWords says what a net may not reach.
func (n *Net) isolatedWords(said words.Words) string {
	var names []string
	for _, isolation := range n.Isolated {
		names = append(names, isolation.Connector)
	}
	switch len(names) {
	case 0:
		return said.Say("nets.other_nets")
	case 1, 2, 3:
		return said.Say("nets.other_cavities", "connectors", strings.Join(names, ", "))
	}
	return said.Say("nets.other_cavities_of_these")
}

// shieldNotes says where a shield is cut back: there it may touch nothing.
func shieldNotes(h *harness.Harness, through string) []string {
	said := h.Paper.Spoken()
	var notes []string
	for _, c := range cablesInOrder(h) {
		if shieldName(said, c.ID) != through {
			continue
		}
		for side, end := range []harness.CableEnd{c.A, c.B} {
			if end.Shield == "cut back" {
				notes = append(notes, said.Say("nets.cut_back", "shield", through, "end", endWord(said, side)))
			}
		}
	}
	return notes
}
