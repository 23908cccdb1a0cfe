package handbook

import "loomleaf/internal/units"

// HookUpWire is a finished hook-up wire of a published specification sheet.
type HookUpWire struct {
	AWG               string
	Strands           string // count and gauge of the strands: "19/34"
	NominalDiameter   units.Length
	MaximumDiameter   units.Length
	PoundsPer1000Feet string // mass as the sheet prints it
	Mass              units.LinearMass
	Source            Source
}

// HookUpWireOf returns the wire of a gauge by its specification sheet. Listed is "M22759/16", gauges 24 to 8.
func HookUpWireOf(document, awg string) (HookUpWire, bool) {
	if document != "M22759/16" {
		return HookUpWire{}, false
	}
	for _, row := range hookUpTable() {
		if row.awg == awg {
			return row.wire(), true
		}
	}
	return HookUpWire{}, false
}

// hookUpRow is one line of a sheet: diameters in thousandths of an inch, mass in hundredths of a pound per 1000 ft.
type hookUpRow struct {
	awg, strands      string
	nominal, maximum  int64
	hundredths        int64
	poundsPer1000Feet string
}

func (r hookUpRow) wire() HookUpWire {
	return HookUpWire{
		AWG: r.awg, Strands: r.strands, NominalDiameter: mils(r.nominal), MaximumDiameter: mils(r.maximum),
		PoundsPer1000Feet: r.poundsPer1000Feet, Mass: poundsPer1000Feet(r.hundredths),
		Source: Source{Document: "MIL-W-22759/16", Edition: "before the heavier limits of 2015", Table: "constants", Standing: SecondHand},
	}
}

// mils converts thousandths of an inch, rounded to the nearest micrometre.
func mils(thousandths int64) units.Length {
	return (units.Length(thousandths)*units.Inch + 500) / 1000
}

// poundsPer1000Feet converts hundredths of a pound per 1000 ft, rounded to the nearest milligram per metre.
// A pound is 453592.37 mg and 1000 ft are 304.8 m.
func poundsPer1000Feet(hundredths int64) units.LinearMass {
	const mgPerPoundX100, metresX10 = 45_359_237, 3048
	return units.LinearMass((hundredths*mgPerPoundX100 + 500*metresX10) / (1000 * metresX10))
}

// hookUpTable returns M22759/16: extruded ETFE over tin-plated copper, 600 V, 150 C. The figures are those of MIL-W-22759/16
// as a data sheet reproduces them (second-hand); its maximum masses for 8 and thicker were raised in 2015.
func hookUpTable() []hookUpRow {
	return []hookUpRow{
		{"24", "19/36", 43, 47, 245, "2.45"},
		{"22", "19/34", 50, 54, 352, "3.52"},
		{"20", "19/32", 58, 62, 518, "5.18"},
		{"18", "19/30", 69, 73, 765, "7.65"},
		{"16", "19/29", 77, 81, 968, "9.68"},
		{"14", "19/27", 91, 95, 1450, "14.5"},
		{"12", "37/28", 111, 117, 2180, "21.8"},
		{"10", "37/26", 136, 142, 3400, "34.0"},
		{"8", "133/29", 196, 202, 6150, "61.5"},
	}
}
