package plan

import (
	"cmp"
	"fmt"
	"slices"

	"loomleaf/internal/handbook"
	"loomleaf/internal/units"
)

// crimpRank sorts crimp rows: by tool, contact and size, the thickest first; what has no tool comes last.
type crimpRank struct {
	tool, locator, setting, contact, part, size string
	section                                     int64
}

func (a crimpRank) compare(b crimpRank) int {
	if (a.tool == "") != (b.tool == "") {
		return cmp.Compare(one(a.tool == ""), one(b.tool == ""))
	}
	return cmp.Or(naturalCompare(a.tool, b.tool), naturalCompare(a.contact, b.contact), naturalCompare(a.part, b.part),
		cmp.Compare(b.section, a.section), naturalCompare(a.locator, b.locator), naturalCompare(a.setting, b.setting),
		naturalCompare(a.size, b.size))
}

// crimpRows returns what is crimped, a row for each tool setting, contact and size. What is soldered is pulled by nobody.
func (b *bench) crimpRows() []CrimpRow {
	at := map[crimpRank]int{}
	var rows []CrimpRow
	for _, c := range b.crimps {
		if c.solder || allReady(c.wires, b.wires) {
			continue
		}
		rank := crimpRank{c.setting.Tool, c.setting.Locator, c.setting.Setting, c.contact, c.part, c.size, int64(c.section)}
		i, known := at[rank]
		if !known {
			i = len(rows)
			at[rank] = i
			rows = append(rows, b.crimpRow(c, rank))
		}
		row := &rows[i]
		row.Crimps++
		for _, id := range c.types {
			if !slices.Contains(row.Types, id) {
				row.Types = append(row.Types, id)
			}
		}
		for _, wire := range c.wires { // a sample is crimped on what is really cut
			for _, s := range b.wires[wire].Substitutes {
				if !slices.Contains(row.Types, s.Type) {
					row.Types = append(row.Types, s.Type)
				}
			}
		}
		row.narrow(c)
	}
	for i := range rows {
		slices.SortFunc(rows[i].Types, naturalCompare)
	}
	slices.SortFunc(rows, func(a, b CrimpRow) int { return a.rank.compare(b.rank) })
	return rows
}

// narrow takes the stricter figures where barrels of one row hold other wires.
func (row *CrimpRow) narrow(c *crimp) {
	if limit := seatingOf(c, units.Force(row.MinimumMN)); c.seated && limit < units.Force(row.SeatingMN) {
		row.setSeating(limit)
	}
}

func (b *bench) crimpRow(c *crimp, rank crimpRank) CrimpRow {
	row := CrimpRow{Kind: c.kind, Contact: c.contact, Part: c.part, Tool: c.setting.Tool, Locator: c.setting.Locator,
		Setting: c.setting.Setting, Size: c.size, StripUM: int64(c.strip), Steps: stepsOf(c.steps), Samples: b.h.Inspection.Samples,
		Place: c.at, rank: rank}
	minimum, source := b.minimumOf(c)
	row.MinimumMN, row.Source = int64(minimum), source
	if minimum > 0 {
		row.Minimum = forceWords(minimum, true)
		if c.seated {
			row.setSeating(seatingOf(c, minimum))
		}
	}
	if least, most, _, listed := handbook.InsulationGap(c.thinnest); listed && len(c.steps) == 0 {
		row.GapLeastUM, row.GapMostUM = int64(least), int64(most)
	}
	if limit, listed := handbook.NickedStrands(c.thinnest); listed {
		row.Strands = b.h.Paper.Spoken().Say("crimp_rules.nicked", "nicked", limit.Nicked, "broken", limit.Broken)
	}
	return row
}

func (row *CrimpRow) setSeating(limit units.Force) {
	row.SeatingMN, row.Seating = int64(limit), ""
	if limit > 0 {
		row.Seating = forceWords(limit, false)
	}
}

// minimumOf returns the least force that a crimp must hold, and where it comes from: the job's own figure, else that of the
// column for the gauge, else nothing.
func (b *bench) minimumOf(c *crimp) (units.Force, string) {
	if c.setting.Pull > 0 {
		return c.setting.Pull, b.h.Paper.Spoken().Say("crimp_rules.by_job")
	}
	pull, listed := handbook.PullMinimum(c.column, c.gauge)
	if !listed {
		return 0, ""
	}
	source := b.h.Paper.Spoken().Say("crimp_rules.column", "column", c.column, "source", sourceWords(b.h.Paper.Spoken(), pull.Source))
	if pull.Noted {
		source += b.h.Paper.Spoken().Say("crimp_rules.noted")
	}
	return pull.Force, source
}

// seatingOf returns the most that a pull on a seated contact may be: a share of the minimum, and where several wires share
// the barrel of that of the thinnest alone, since one wire may take the whole pull. 0 where that is not known.
func seatingOf(c *crimp, minimum units.Force) units.Force {
	share, _ := handbook.SeatingShare()
	if len(c.wires) > 1 {
		alone, listed := handbook.PullMinimum(c.column, c.thinnest)
		if !listed {
			return 0
		}
		minimum = min(minimum, alone.Force)
	}
	return minimum * units.Force(share) / 100
}

// forceWords writes a force in both units, rounded up for what must be reached and down for what may not be passed.
func forceWords(force units.Force, up bool) string {
	return fmt.Sprintf("%s N (%s lbf)", force.Newtons(up), force.Pounds(up))
}
