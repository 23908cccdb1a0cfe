package handbook

import "loomleaf/internal/units"

// Columns of published pull-test minimums, by what is crimped.
const (
	PullMachined       = "machined"        // machined contact on silver- or tin-plated wire
	PullMachinedNickel = "machined nickel" // machined contact on nickel-plated wire
	PullStamped        = "stamped"         // stamped terminal or contact, the UL 486A kind
	PullLug            = "lug"             // lug or splice of the AS7928 class
)

// PullColumns lists the columns in the order of the source.
func PullColumns() []string { return []string{PullMachined, PullMachinedNickel, PullStamped, PullLug} }

// Pull is the least force that a crimp must hold in a destructive test.
type Pull struct {
	Column string
	AWG    string
	Force  units.Force
	Noted  bool // the copy marks the figure with a note that it does not reproduce
	Source Source
}

// PullMinimum returns the minimum of a gauge in a column. Gauges that the column leaves out are not listed.
func PullMinimum(column, awg string) (Pull, bool) {
	size, known := WireSizeOf(awg)
	if !known {
		return Pull{}, false
	}
	for _, row := range pullTable() {
		if row.awg != size.Gauge {
			continue
		}
		tenths, noted := row.of(column)
		return Pull{Column: column, AWG: row.awg, Force: tenthsOfPounds(tenths), Noted: noted,
			Source: pullSource(column, row.awg)}, tenths > 0
	}
	return Pull{}, false
}

// tenthsOfPounds converts tenths of a pound-force, rounded to the nearest millinewton.
func tenthsOfPounds(tenths int64) units.Force {
	const tenth, scale = 44_482_216_153, 100_000_000
	return units.Force((tenths*tenth + scale/2) / scale)
}

// pullRow holds tenths of a pound-force; 0 where the column lists none.
type pullRow struct {
	awg                            string
	machined, nickel, stamped, lug int64
	lugNoted                       bool
}

func (r pullRow) of(column string) (tenths int64, noted bool) {
	switch column {
	case PullMachined:
		return r.machined, false
	case PullMachinedNickel:
		return r.nickel, false
	case PullStamped:
		return r.stamped, false
	case PullLug:
		return r.lug, r.lugNoted
	}
	return 0, false
}

// pullSource names where a figure was seen. No figure was seen in the standard itself.
func pullSource(column, awg string) Source {
	thicker, _ := CompareGauge(awg, "26")
	switch {
	case column == PullStamped:
		return Source{Document: "UL 486A column of two terminal specifications", Table: "tensile table", Standing: SecondHand}
	case column == PullLug && thicker >= 0:
		return Source{Document: "MIL-T-7928 class column of a terminal specification", Table: "tensile table", Standing: SecondHand}
	default:
		return Source{Document: "IPC/WHMA-A-620B", Table: "table 19-12", Standing: SecondHand}
	}
}

// pullTable returns IPC/WHMA-A-620B table 19-12 as a test summary reproduces it (second-hand; its headings of the two right
// columns are scrambled and were told apart by value), the stamped column and the lug column from 26 to 10 also in terminal
// specifications (second-hand). MIL-DTL-55302G table IV agrees with the first column from 20 to 30 (second-hand).
func pullTable() []pullRow {
	return []pullRow{
		{"30", 15, 15, 15, 15, true}, {"28", 30, 20, 20, 20, true}, {"26", 50, 30, 30, 70, false}, {"24", 80, 60, 50, 100, false},
		{"22", 120, 80, 80, 150, false}, {"20", 200, 190, 130, 190, false}, {"18", 320, 0, 200, 380, false},
		{"16", 500, 370, 300, 500, false}, {"14", 700, 600, 500, 700, false}, {"12", 1100, 1000, 700, 1100, false},
		{"10", 0, 0, 800, 1500, false}, {"8", 0, 0, 900, 0, false}, {"6", 0, 0, 1000, 0, false}, {"4", 0, 0, 1400, 0, false},
		{"2", 0, 0, 1800, 0, false}, {"1/0", 0, 0, 2500, 0, false}, {"2/0", 0, 0, 3000, 0, false},
	}
}

// SeatingShare returns the most that a seating pull may be, in hundredths of the pull-test minimum.
func SeatingShare() (hundredths int64, source Source) {
	return 80, Source{Document: "NASA-STD-8739.4", Edition: "change 6 of 2011-03-29", Table: "pages 70 and 71", Standing: Read}
}

// PullMethod says how a destructive pull is made: slowest and fastest travel in mm per minute.
func PullMethod() (slowest, fastest int, source Source) {
	return 19, 31, Source{Document: "EIA-364-08", Table: "25 mm/min, 6 mm/min either way", Standing: SecondHand}
}

// SizeForSection returns the gauge that wires of so much section together count as in one crimp: the one that matches, else
// the next larger one. A section beyond 4/0 has none.
func SizeForSection(section units.Area) (gauge string, source Source, listed bool) {
	source = Source{Document: "NASA-STD-8739.4", Edition: "change 6 of 2011-03-29", Table: "paragraph 19.11", Standing: Read}
	table := gaugeTable()
	for i := len(table) - 1; i >= 0; i-- {
		number := i + thickestGauge
		traded := number < 1 || number%2 == 0 // odd gauges are not traded, and no table of forces has them
		if traded && table[i].area >= section {
			return gaugeName(number), source, true
		}
	}
	return "", source, false
}
