package plan

import (
	"math"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// Coil is how a piece longer than the tray is coiled.
type Coil struct {
	Wire    string `json:"wire"`
	InnerUM int64  `json:"inner_um"` // inner diameter
	OuterUM int64  `json:"outer_um"` // about: how tightly a coil lies is an assumption
	Turns   int    `json:"turns"`    // whole turns; 0: one open bend, too short to be coiled
	Ties    int    `json:"ties"`
}

const (
	coilFill  = 0.65 // share of a tied coil's section that is wire; our assumption, no source is known
	coilSteps = 50
	fewTies   = 3 // common practice
)

// coilOf works out the coil of a piece: as wide inside as the shop says, and wider where the bend radius asks for it. Turns and
// thickness follow from each other: the turns from the length of the middle one, the thickness from the section of all of them.
func coilOf(id string, length, diameter units.Length, rule harness.TrayRule) Coil {
	inner := max(rule.Coil, 2*units.Length(rule.Bend)*diameter)
	c := Coil{Wire: id, InnerUM: int64(inner), OuterUM: int64(inner), Ties: fewTies}
	around := float64(inner) * math.Pi
	if rule.Tie > 0 {
		c.Ties = max(fewTies, int(math.Ceil(around/float64(rule.Tie))))
	}
	if float64(length) < around || inner == 0 {
		return c
	}
	thick := float64(0)
	turns := float64(0)
	for range coilSteps {
		middle := float64(math.Pi * (float64(inner) + thick))
		turns = float64(length) / middle
		thick = float64(float64(diameter) * math.Sqrt(float64(turns/coilFill)))
	}
	c.Turns = int(turns)
	c.OuterUM = int64(inner) + 2*int64(math.Round(thick/100)*100)
	return c
}
