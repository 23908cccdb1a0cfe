package main

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"loomleaf/internal/harness"
	"loomleaf/internal/job"
	"loomleaf/internal/optical"
	"loomleaf/internal/units"
	"loomleaf/templates"
)

// exposureCommand prints a worksheet for the qualified person. It is a command of its own and no sheet of a packet: minutes
// printed on the floor would read as permission.
type exposureCommand struct {
	Shop string `arg:"" help:"Shop file or job whose [safety] table holds the measured values; - reads standard input."`
	problemFlags
}

// Run prints the arithmetic, or what is wrong with the measured values.
func (c exposureCommand) Run(s streams) error {
	in, err := jobInput(s, c.Shop)
	if err != nil {
		return err
	}
	safety, found, text := job.ReadSafety(in, templates.Files)
	if err := c.print(s, found, text); err != nil {
		return err
	}
	if found.Errors() > 0 {
		return problemsFound()
	}
	if len(safety.Measured)+len(safety.MeasuredOzone) == 0 {
		return wrongUse(in.Name+" holds no measured values",
			`write [safety] measured = [{ what, nm, irradiance, by, on, at }]; "loomleaf exposure" computes nothing else`)
	}
	return writeWorksheet(s.out, in.Name, safety)
}

// writeWorksheet prints the measured values, what they add up to, and the limits they were divided into.
func writeWorksheet(w io.Writer, name string, safety harness.Safety) error {
	var b strings.Builder
	b.WriteString(worksheetHead(name))
	for _, group := range byPlace(safety.Measured) {
		if err := writePlace(&b, group); err != nil {
			return err
		}
	}
	for _, m := range safety.MeasuredOzone {
		fmt.Fprintf(&b, "%s, at: %s\n  ozone %s ppm = %.3g mg/m3 at 25 C, measured by %s on %s\n\n", m.What, m.At, m.PPM,
			optical.OzoneMilligrams(float64(m.PPM)/1000), m.By, day(m.On))
	}
	fmt.Fprintf(&b, worksheetFoot, optical.SquareCentimetre(optical.ActinicLimit), optical.SquareCentimetre(optical.UVALimit))
	_, err := io.WriteString(w, b.String())
	return err
}

func worksheetHead(name string) string {
	return `WORKSHEET FOR THE QUALIFIED PERSON: arithmetic, not an assessment
Values from ` + name + `. Not part of a packet; do not post it at the line.

`
}

const worksheetFoot = `Limits for 8 h: 30 J/m2 (%g mJ/cm2) weighted, 180 to 400 nm, eye and skin;
10000 J/m2 (%g mJ/cm2) unweighted, 315 to 400 nm, eye.
Edition: ICNIRP 2004, as in Directive 2006/25/EC, Annex I, Table 1.1. Weights S(nm): its table, between its rows by log
interpolation. Times are rounded down and end at 8 h, the span that the limits speak of.
Not for lasers. Not for people whom a medicine, a substance or an illness makes sensitive to light.
Visible, blue and infrared light are not in it. It chooses no class, no eyewear, no gloves and no distance.
Whether anybody may work at a place is decided by the qualified person, by local law and by the equipment maker.

assessed by ______________________________  date ____________  conclusion ______________________________
`

// byPlace joins the lines of one source and place, in the order listed.
func byPlace(measured []harness.Measurement) [][]harness.Measurement {
	var groups [][]harness.Measurement
	index := map[string]int{}
	for _, m := range measured {
		key := m.What + "\x00" + m.At
		at, known := index[key]
		if !known {
			at = len(groups)
			index[key] = at
			groups = append(groups, nil)
		}
		groups[at] = append(groups[at], m)
	}
	return groups
}

// writePlace prints the lines of one place and their sums.
func writePlace(w io.Writer, group []harness.Measurement) error {
	fmt.Fprintf(w, "%s, at: %s\n", group[0].What, group[0].At)
	table := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprintln(table, "  nm\tW/m2\tmW/cm2\tuW/cm2\tS(nm)\tmeasured by\ton")
	var lines []optical.Line
	for _, m := range group {
		line := optical.Line{Nanometres: float64(m.Nanometres) / 1000, Irradiance: float64(m.Irradiance) / 1e6}
		weight, err := optical.Weight(line.Nanometres)
		if err != nil {
			return err
		}
		lines = append(lines, line)
		fmt.Fprintf(table, "  %s\t%s\t%s\t%s\t%.3g\t%s\t%s\n", m.Nanometres, per(m.Irradiance, 1), per(m.Irradiance, 10),
			perThousand(m.Irradiance), weight, m.By, day(m.On))
	}
	if err := table.Flush(); err != nil {
		return err
	}
	sum, err := optical.Add(lines)
	if err != nil {
		return err
	}
	writeSums(w, sum)
	return nil
}

func day(d harness.Date) string { return fmt.Sprintf("%04d-%02d-%02d", d.Year, d.Month, d.Day) }

// per prints an irradiance in a unit that is so many W/m2.
func per(i units.Irradiance, wattsPerSquareMetre int64) string {
	return strings.TrimSuffix((i / units.Irradiance(wattsPerSquareMetre)).String(), " W/m2")
}

// perThousand prints an irradiance in uW/cm2, of which 0.01 W/m2 is one.
func perThousand(i units.Irradiance) string { return strings.TrimSuffix((i * 100).String(), " W/m2") }

func writeSums(w io.Writer, sum optical.Exposure) {
	fmt.Fprintf(w, "  weighted sum %.4g W/m2: 30 J/m2 %s\n", sum.Effective, reached(sum.Actinic))
	if sum.UVA > 0 {
		fmt.Fprintf(w, "  UVA sum %.4g W/m2: 10000 J/m2 %s\n", sum.UVA, reached(sum.EyeUVA))
	}
	fmt.Fprintf(w, "  skin: limit %s\n", reached(sum.Skin()))
	if sum.Eye() >= optical.Day {
		fmt.Fprintf(w, "  eye: limit %s\n\n", reached(sum.Eye()))
		return
	}
	fmt.Fprintf(w, "  eye: limit %s, by %s\n\n", reached(sum.Eye()), sum.Governs())
}

// reached says when a limit is reached; past 8 h no time is worked out.
func reached(seconds int) string {
	switch {
	case seconds >= optical.Day:
		return "not reached within 8 h"
	case seconds == 0:
		return "reached in less than 1 s"
	case seconds < 120:
		return fmt.Sprintf("reached after %d s", seconds)
	}
	return fmt.Sprintf("reached after %d s (%d min)", seconds, seconds/60)
}
