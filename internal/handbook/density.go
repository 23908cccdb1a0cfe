package handbook

import "strings"

// Density is what a material weighs.
type Density struct {
	MilligramsPerCubicCentimetre int64
	Source                       Source
}

// CopperDensity returns the density of copper conductors at 20 C.
func CopperDensity() Density {
	return Density{8890, Source{Document: "NBS Handbook 100", Edition: "1966", Table: "density of copper, 8.89 g/cm3", Standing: SecondHand}}
}

// InsulationDensity returns the density of an insulation by its name in the trade, in small or large letters. Compounds differ: these
// are middle figures of the plain materials, for estimates (from memory).
func InsulationDensity(name string) (Density, bool) {
	source := Source{Document: "densities of plain plastics", Standing: Memory}
	for _, row := range densityTable() {
		if strings.EqualFold(row.name, name) {
			return Density{row.density, source}, true
		}
	}
	return Density{}, false
}

type densityRow struct {
	name    string
	density int64
}

// densityTable returns insulations with milligrams per cubic centimetre (from memory).
func densityTable() []densityRow {
	return []densityRow{
		{"ETFE", 1700}, {"XLETFE", 1700}, {"PTFE", 2170}, {"FEP", 2150}, {"PFA", 2150}, {"PVDF", 1780},
		{"PVC", 1400}, {"PE", 930}, {"XLPE", 930}, {"PUR", 1200}, {"polyimide", 1420}, {"silicone", 1200},
	}
}
