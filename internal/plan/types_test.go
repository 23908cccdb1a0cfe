package plan

import (
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/harness"
)

func TestTypeRowsNameOnlyTypesInUse(t *testing.T) {
	h := twoEnds()
	h.WireTypes = []harness.WireType{
		{ID: "E10", AWG: "2/0", Colour: "BK"},
		{ID: "unused", AWG: "22", Colour: "BK"},
		{ID: "E9", Section: 340_000, Colour: "?"},
		{ID: "E2", Part: "MOR-CW-22-96", Name: "hook-up wire", AWG: "22", Colour: "WH/BU", Diameter: 1270, Insulation: "ETFE",
			Proved: &harness.Proof{On: harness.Date{Year: 2026, Month: 10, Day: 2}, By: "marking lead", Record: "ML-118"}},
	}
	h.Wires = []harness.Wire{{ID: "W1", Type: "E10"}, {ID: "W2", Type: "E9"}, {ID: "W3", Type: "E2"}, {ID: "W4", Type: "E2"}}
	require.Equal(t, []WireType{
		// Cross-sections: ASTM B258 diameter formula, of the solid wire.
		{ID: "E2", Part: "MOR-CW-22-96", Name: "hook-up wire", Gauge: "22 AWG 0.33 mm²", GaugeShort: "22 AWG", Colour: "WH/BU",
			ColourWords: "white, blue stripe", DiameterUM: 1270, Insulation: "ETFE", SectionUM2: 325_534, Proof: "ML-118, 2026-10-02, marking lead",
			MassMGPerM: 4494, MassEstimated: true, MassFrom: "estimated: copper 0.33 mm2 at 8.89 g/cm3, NBS Handbook 100, 1966, density of copper, 8.89 g/cm3 " +
				"(second-hand); ETFE 0.94 mm2, densities of plain plastics (from memory)"},
		{ID: "E9", SectionUM2: 340_000, Gauge: "0.34 mm²", GaugeShort: "0.34 mm²", Colour: "?", ColourWords: "colour unknown"},
		{ID: "E10", SectionUM2: 67_430_882, Gauge: "2/0 AWG 67.43 mm²", GaugeShort: "2/0 AWG", Colour: "BK", ColourWords: "black"},
	}, typeRows(h))
}
