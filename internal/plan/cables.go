package plan

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

// cablesInOrder returns the cables in natural order of their ids.
func cablesInOrder(h *harness.Harness) []*harness.Cable {
	cables := make([]*harness.Cable, len(h.Cables))
	for i := range h.Cables {
		cables[i] = &h.Cables[i]
	}
	slices.SortFunc(cables, func(a, b *harness.Cable) int { return naturalCompare(a.ID, b.ID) })
	return cables
}

// coresByCable returns the wires that are cores of each cable, in the order of the cores of its type.
func coresByCable(h *harness.Harness) map[string][]*harness.Wire {
	type use struct{ cable, core string }
	wires := map[use][]*harness.Wire{}
	for _, w := range wiresInOrder(h) {
		if w.Cable != "" {
			wires[use{w.Cable, w.Core}] = append(wires[use{w.Cable, w.Core}], w)
		}
	}
	types := cableTypesByID(h)
	cores := map[string][]*harness.Wire{}
	for _, c := range h.Cables {
		for _, core := range types[c.Type].Cores {
			cores[c.ID] = append(cores[c.ID], wires[use{c.ID, core.ID}]...)
		}
	}
	return cores
}

// cable plans one cable and keeps its length for its cores.
func (p *wirePlanner) cable(c *harness.Cable) (Cable, problem.List) {
	cores := p.cores[c.ID]
	length, problems := p.lengths.measureCable(c, cores)
	if problems.Errors() > 0 || length.status == "" {
		return Cable{}, problems
	}
	p.cables[c.ID] = length
	row := Cable{
		ID: c.ID, Type: c.Type, Supply: string(supplyOf(c.Supply)), CutUM: int64(length.cut), Status: string(length.status),
		Terms: length.terms, beyond: bothUM(length.ends), Method: string(harness.MethodNone), Marks: []Mark{}, Turned: p.h.Line.Leading == "b",
		A: p.cableEnd(c, "a", cores), B: p.cableEnd(c, "b", cores), Note: c.Note, Place: c.At, given: int64(c.Given),
		FinishedUM: int64(length.finished), Tolerance: toleranceOf(p.h.Job.Tolerance, int64(length.finished)), Nodes: length.way.nodes,
	}
	used := map[string]bool{}
	for _, core := range cores {
		row.Cores = append(row.Cores, core.ID)
		used[core.Core] = true
	}
	for _, core := range p.lengths.cableTypes[c.Type].Cores {
		if !used[core.ID] {
			row.Spare = append(row.Spare, core.ID)
		}
	}
	if !row.onLine() {
		return row, problems
	}
	return row, append(problems, p.markCable(c, &row)...)
}

// onLine reports whether the line cuts a cable.
func (c Cable) onLine() bool {
	return c.Supply == string(harness.SupplyReel) && c.Status != string(harness.LengthMeasure)
}

// cableEnd returns an end of a cable as printed.
func (p *wirePlanner) cableEnd(c *harness.Cable, side string, cores []*harness.Wire) CableEnd {
	given := c.A
	if side == "b" {
		given = c.B
	}
	end := CableEnd{At: cableEndAt(cores, side), JacketOffUM: int64(given.JacketOff)}
	said := p.h.Paper.Spoken()
	switch given.Shield {
	case "cut back":
		end.Shield = said.Say("ends.shield_cut_back")
	case "through":
		end.Shield = said.Say("ends.shield_through")
	}
	if given.Pigtail != nil {
		end.Pigtail = pigtailID(c.ID, side)
		end.Shield = said.Say("ends.shield_pigtail", "pigtail", end.Pigtail, "to", given.Pigtail.To.Written())
	}
	return end
}

// cableEndAt names what the cores of a cable go to at one end: "J1", "J1+SP1", in the order of the cores.
func cableEndAt(cores []*harness.Wire, side string) string {
	var bodies []string
	for _, core := range cores {
		end := &core.A
		if side == "b" {
			end = &core.B
		}
		if body := cmp.Or(end.Body(), end.Written()); !slices.Contains(bodies, body) {
			bodies = append(bodies, body)
		}
	}
	return strings.Join(bodies, "+")
}

// markCable fills in how a jacket is marked. Its marks keep to the jacket: their places are measured from its ends.
func (p *wirePlanner) markCable(c *harness.Cable, row *Cable) problem.List {
	jacket := units.Length(row.CutUM) - c.A.JacketOff - c.B.JacketOff
	if jacket <= 0 {
		return problem.List{{Check: "no-jacket", Place: c.Of("a.jacket_off"), ID: c.ID,
			Text: fmt.Sprintf("cable %q is cut to %s, and %s of its jacket is to be taken off", c.ID, units.Length(row.CutUM), c.A.JacketOff+c.B.JacketOff),
			Hint: "shorten jacket_off, or give the cable more length"}}
	}
	mark := cmp.Or(c.Mark, "full")
	marked, problems := p.markSubject(markSubject{
		noun: "cable", id: c.ID, place: c.At, mark: mark, how: p.byType[c.Type],
		ladder: p.legends.ladder(legendWords{id: c.ID, a: row.A.At, b: row.B.At, wireType: c.Type, note: c.Note}),
		span:   p.rules.spanFor(units.Length(row.CutUM), [2]units.Length{c.A.JacketOff, c.B.JacketOff}, [2]units.Length{}, mark == "full"),
		off:    c.A.JacketOff, at: [2]string{row.A.At, row.B.At}, diameter: p.lengths.cableTypes[c.Type].Diameter,
	})
	row.Method, row.Ink, row.HeightUM = marked.method, marked.ink, int64(marked.height)
	row.Legend, row.A.Legend, row.B.Legend, row.Marks = marked.legend, marked.a, marked.b, marked.marks
	row.sleeves = marked.sleeves
	return problems
}
