package main

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"loomleaf/internal/plan"
	"loomleaf/internal/units"
)

// writeSum prints how the length of a wire or cable comes about: a term a line, the finished length where its terms end.
func writeSum(w io.Writer, p plan.Plan, sum plan.Sum) error {
	table := tabwriter.NewWriter(w, 0, 0, 2, ' ', tabwriter.AlignRight)
	row := func(um int64, name, from string) {
		fmt.Fprintf(table, "%s\t mm\t  %s\n", strings.TrimSuffix(units.Length(um).String(), " mm"), strings.TrimRight(fmt.Sprintf("%-14s %s", name, from), " "))
	}
	if sum.Core != "" {
		fmt.Fprintf(w, "wire %s is a core of cable %s and cut with it; its own ends are cut back by %s at end a, %s at end b\n",
			sum.Core, sum.ID, units.Length(sum.CutBack[0]), units.Length(sum.CutBack[1]))
	}
	fmt.Fprintf(w, "%s %s: %s\n", sum.Noun, sum.ID, sumStatus(sum))
	for i, term := range sum.Rows {
		row(term.UM, term.Name, term.From)
		if i+1 < len(sum.Rows) && finishedTerm(term.Name) && !finishedTerm(sum.Rows[i+1].Name) && term.Name != "given" {
			row(sum.FinishedUM, "= finished", "from reference plane to reference plane"+toleranceWords(p, sum.FinishedUM, sum.ID))
		}
	}
	if sum.CutUM > 0 {
		row(sum.CutUM, "= cut", "")
	} else if sum.FinishedUM > 0 {
		row(sum.FinishedUM, "= finished", "not cut on the line"+toleranceWords(p, sum.FinishedUM, sum.ID))
	}
	if err := table.Flush(); err != nil {
		return err
	}
	if len(sum.Nodes) > 0 {
		fmt.Fprintf(w, "path: %s\n", strings.Join(sum.Nodes, " - "))
	}
	return writeMass(w, p, sum.ID)
}

// finishedTerm reports whether a term is part of the finished length.
func finishedTerm(name string) bool {
	return name == "route" || name == "tail a" || name == "tail b" || name == "given"
}

func sumStatus(sum plan.Sum) string {
	switch {
	case len(sum.Rows) == 0:
		return "nothing is cut on the line"
	case sum.Rows[0].Name == "given":
		return "length given by the job"
	}
	return "length from the board"
}

// toleranceWords says by how much a finished length may be off, and by which table.
func toleranceWords(p plan.Plan, finished int64, id string) string {
	tolerance := toleranceOf(p, id)
	if tolerance == nil || finished == 0 {
		return ""
	}
	return fmt.Sprintf("; -%s / +%s, %s", units.Length(tolerance.ShorterUM), units.Length(tolerance.LongerUM), p.Tolerance)
}

func toleranceOf(p plan.Plan, id string) *plan.Tolerance {
	for _, c := range p.Cables {
		if c.ID == id {
			return c.Tolerance
		}
	}
	return wireByID(p, id).Tolerance
}

// writeMass says what the piece weighs and where the figure comes from.
func writeMass(w io.Writer, p plan.Plan, id string) error {
	mg, wireType := int64(0), ""
	for _, c := range p.Cables {
		if c.ID == id {
			mg, wireType = c.MassMG, c.Type
		}
	}
	if wireType == "" {
		wire := wireByID(p, id)
		mg, wireType = wire.MassMG, wire.Type
	}
	if mg == 0 {
		_, err := fmt.Fprintln(w, "mass: not known")
		return err
	}
	from := ""
	for _, t := range p.Types {
		if t.ID == wireType {
			from = fmt.Sprintf("%s, %s", units.LinearMass(t.MassMGPerM), t.MassFrom)
		}
	}
	_, err := fmt.Fprintf(w, "mass: %s (%s)\n", units.Mass(mg), from)
	return err
}
