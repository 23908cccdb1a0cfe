package main

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"text/tabwriter"

	"loomleaf/internal/plan"
	"loomleaf/internal/units"
)

// planCommand prints the plan.
type planCommand struct {
	Job  string `arg:"" help:"Job file; - reads standard input."`
	JSON bool   `help:"Print the plan as JSON, in the published form." xor:"form"`
	Wire string `help:"Print how the length of one wire, pigtail, core or cable comes about, by its id." placeholder:"ID" xor:"form"`
	draftFlag
	paperFlag
	templatesFlag
	problemFlags
}

// Run prints the plan as text or JSON.
func (c planCommand) Run(s streams) error {
	h, p, _, err := planHarness(s, c.Job, c.Paper, c.with(c.in(c.problemFlags)))
	if err != nil {
		return err
	}
	if c.Wire != "" {
		sum, found := plan.SumOf(h, p, c.Wire)
		if !found {
			return wrongUse(fmt.Sprintf("the job has no wire and no cable %s", c.Wire), `"loomleaf plan" without --wire lists them`)
		}
		return writeSum(s.out, p, sum)
	}
	if !c.JSON {
		return writePlan(s.out, p)
	}
	text, err := p.JSON()
	if err != nil {
		return err
	}
	_, err = s.out.Write(text)
	return err
}

// writePlan prints the plan for a person: what runs in which order, and the sums.
func writePlan(w io.Writer, p plan.Plan) error {
	table := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprintf(table, "%s rev %s  %s  %s\n", p.Packet.Number, p.Packet.Revision, p.Packet.Part, p.Packet.Title)
	fmt.Fprintf(table, "units %s\n", strings.Join(p.Packet.Units, ", "))
	fmt.Fprintf(table, "%s\n", changesInWords(p.Changes))
	writeKept(table, p.Kept)
	for _, g := range p.Groups {
		writeGroup(table, p, g)
	}
	writeTotals(table, p)
	return table.Flush()
}

// changesInWords says how often the line stops for a reel.
func changesInWords(c plan.Changes) string {
	text := fmt.Sprintf("%s in one pass", count(c.Reel, "reel change"))
	if c.Proved {
		return text + "; no plan with this order of connectors has fewer"
	}
	return text + fmt.Sprintf("; no plan with this order of connectors has fewer than %d", c.Bound)
}

func writeGroup(w io.Writer, p plan.Plan, g plan.Group) {
	fmt.Fprintf(w, "\n%s %s: %s\n", g.Connector, g.Title, count(len(g.Wires), "wire"))
	numbers := map[string]int{}
	for _, step := range g.Steps[0] {
		if step.Kind != plan.StepWire && step.Kind != plan.StepCable {
			fmt.Fprintf(w, "  %s %s %s\t\t%s%s\n", strings.ToUpper(string(step.Kind)), step.Reel, step.Type, markInWords(step), insteadInWords(step.Substitute))
			continue
		}
		if numbers[step.Wire] == 0 {
			numbers[step.Wire] = len(numbers) + 1
		}
		number := numbers[step.Wire]
		if step.Kind == plan.StepCable {
			writeCable(w, p, number, cableByID(p, step.Wire))
			continue
		}
		wire := wireByID(p, step.Wire)
		fmt.Fprintf(w, "  %d\t%s\t%s mm\t%s\t%s\t%s\t%s%s\n", number, wire.ID, units.Length(wire.CutUM).Millimetres(),
			wire.From, wire.To, wire.A.Legend, wire.B.Legend, insteadInWords(step.Substitute))
	}
}

// insteadInWords says what a row is cut from in place of its type.
func insteadInWords(s *plan.InPlace) string {
	if s == nil {
		return ""
	}
	return fmt.Sprintf("  %s, approved by %s", s.Words(), s.Approved)
}

// writeCable prints a cable as one cut, with its cores below it.
func writeCable(w io.Writer, p plan.Plan, number int, c plan.Cable) {
	fmt.Fprintf(w, "  %d\t%s\t%s mm\t%s\t%s\t%s\t%s\n", number, c.ID, units.Length(c.CutUM).Millimetres(), c.A.At, c.B.At, c.A.Legend, c.B.Legend)
	for _, id := range c.Cores {
		core := wireByID(p, id)
		fmt.Fprintf(w, "  \tcore %s\t%s\t%s\t%s\t\t\n", core.Core, core.ID, core.From, core.To)
	}
}

func cableByID(p plan.Plan, id string) plan.Cable {
	at := slices.IndexFunc(p.Cables, func(c plan.Cable) bool { return c.ID == id })
	return p.Cables[at]
}

// markInWords says how the wires of a reel are marked.
func markInWords(s plan.Step) string {
	text := s.Method
	if s.Ink != "" {
		text = s.Ink + " " + text
	}
	if s.HeightUM > 0 {
		text += " " + units.Length(s.HeightUM).MillimetresTenths() + " mm high"
	}
	return text
}

func wireByID(p plan.Plan, id string) plan.Wire {
	at := slices.IndexFunc(p.Wires, func(w plan.Wire) bool { return w.ID == id })
	return p.Wires[at]
}

func writeTotals(w io.Writer, p plan.Plan) {
	fmt.Fprintf(w, "\ntype\tpieces\tmetres\tlongest\n")
	for _, t := range p.Totals {
		fmt.Fprintf(w, "%s\t%d\t%s m\t%s mm\n", t.Type, t.Pieces, units.Length(t.UM).Metres(), units.Length(t.LongestUM).Millimetres())
	}
	for _, a := range p.Apart {
		fmt.Fprintf(w, "not cut on the line: %s, %s\n", a.ID, a.Reason)
	}
	for _, o := range p.ToOrder {
		fmt.Fprintf(w, "to order: %s, %s m\n", o.Type, units.Length(o.UM).Metres())
	}
}
