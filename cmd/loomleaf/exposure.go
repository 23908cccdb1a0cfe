package main

import (
	"fmt"
	"io"
	"strconv"
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
			`write measured = [{ what, nm, irradiance, by, on, at }] into [safety]; "loomleaf exposure" computes nothing else`)
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
		fmt.Fprintf(&b, "ozone, place: %s\n  %s: %s ppm = %.3g mg/m3 at 25 C, measured by %s on %s; %s\n\n", m.At, m.What, m.PPM,
			optical.OzoneMilligrams(float64(m.PPM)/1000), m.By, day(m.On), optical.OzoneSource())
	}
	fmt.Fprintf(&b, worksheetFoot, optical.ActinicLimit, optical.SquareCentimetre(optical.ActinicLimit), optical.ActinicSource(),
		optical.UVALimit, optical.SquareCentimetre(optical.UVALimit), optical.UVASource(), optical.WeightSource())
	_, err := io.WriteString(w, b.String())
	return err
}

func worksheetHead(name string) string {
	return `WORKSHEET FOR THE QUALIFIED PERSON: arithmetic, not an assessment
Values from ` + name + `. Not part of a packet; do not post it at the line.

`
}

const worksheetFoot = `Limits for 8 h
  weighted, 180 to 400 nm, eye and skin: %g J/m2 (%g mJ/cm2); %s
  unweighted, 315 to 400 nm, eye: %g J/m2 (%g mJ/cm2); %s
  weights S(nm): %s; between its rows by log interpolation
  Edition: ICNIRP 2004, whose figures Directive 2006/25/EC prints (the number of its row b from memory). Other weights that
  ACGIH gives below 300 nm since 2022 (second-hand) are not used.
Times are rounded down and end at 8 h, the span that the limits speak of.
All lines listed for a place are added up, whatever they come from. Light that was not measured is not in it.
Not for lasers. Not for people whom a medicine, a substance or an illness makes sensitive to light.
Visible, blue and infrared light are not in it. It chooses no class, no eyewear, no gloves and no distance.
Whether anybody may work at a place is decided by the qualified person, by local law and by the equipment maker.

assessed by ______________________________  date ____________  conclusion ______________________________
`

// byPlace joins the lines of one place, in the order listed: light from several lamps adds up where a person stands.
func byPlace(measured []harness.Measurement) [][]harness.Measurement {
	var groups [][]harness.Measurement
	index := map[string]int{}
	for _, m := range measured {
		at, known := index[m.At]
		if !known {
			at = len(groups)
			index[m.At] = at
			groups = append(groups, nil)
		}
		groups[at] = append(groups[at], m)
	}
	return groups
}

// writePlace prints the lines of one place and their sums.
func writePlace(w io.Writer, group []harness.Measurement) error {
	fmt.Fprintf(w, "ultraviolet, place: %s\n", group[0].At)
	table := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprintln(table, "  nm\tW/m2\tmW/cm2\tuW/cm2\tS(nm)\tfrom\tmeasured by\ton")
	var lines []optical.Line
	for _, m := range group {
		line := optical.Line{Nanometres: float64(m.Nanometres) / 1000, Irradiance: float64(m.Irradiance) / 1e6}
		weight, err := optical.Weight(line.Nanometres)
		if err != nil {
			return err
		}
		lines = append(lines, line)
		fmt.Fprintf(table, "  %s\t%s\t%s\t%s\t%.3g\t%s\t%s\t%s\n", m.Nanometres, irradianceIn(m.Irradiance, 1e6), irradianceIn(m.Irradiance, 1e7),
			irradianceIn(m.Irradiance, 1e4), weight, m.What, m.By, day(m.On))
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

// irradianceIn prints an irradiance, held in uW/m2, in a unit that is so many of them: 1e6 in W/m2, 1e7 in mW/cm2, 1e4 in uW/cm2.
// No digit is lost: both are whole and well below 2^53.
func irradianceIn(i units.Irradiance, unit float64) string {
	return strconv.FormatFloat(float64(i)/unit, 'f', -1, 64)
}

func writeSums(w io.Writer, sum optical.Exposure) {
	fmt.Fprintf(w, "  weighted sum %.4g W/m2: %g J/m2 %s\n", sum.Effective, optical.ActinicLimit, reached(sum.Actinic))
	if sum.UVA > 0 {
		fmt.Fprintf(w, "  UVA sum %.4g W/m2: %g J/m2 %s\n", sum.UVA, optical.UVALimit, reached(sum.EyeUVA))
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
