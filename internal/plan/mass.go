package plan

import (
	"fmt"

	"loomleaf/internal/handbook"
	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// Mass is what wires and cables weigh together as they are cut; connectors, contacts and covers are not in it.
type Mass struct {
	MG        int64    `json:"mass_mg"`
	Estimated bool     `json:"mass_estimated"` // a part of it is estimated
	Without   []string `json:"mass_without"`   // wires and cables whose mass or length is not known: they are not in the sum
}

// linearMass is what a metre of a type weighs; 0 where that is not known.
type linearMass struct {
	per       units.LinearMass
	estimated bool
	words     string // where the figure comes from
}

// linearMassOf returns the mass that the job gives, else an estimate: conductor section times the density of copper, and what the
// conductor leaves of the section over the insulation times the density of that. Strands of a gauge hold a little more or less copper
// than its solid conductor: finished hook-up wire is met within a fifth.
func linearMassOf(t *harness.WireType) linearMass {
	if t.Mass > 0 {
		return linearMass{per: t.Mass, words: "given by the job"}
	}
	conductor := sectionOf(t)
	insulation, listed := handbook.InsulationDensity(t.Insulation)
	whole := roundSection(t.Diameter)
	if conductor == 0 || !listed || whole <= conductor {
		return linearMass{}
	}
	copper := handbook.CopperDensity()
	// um2 x mg/cm3 are 1e-6 mg/m
	total := int64(conductor)*copper.MilligramsPerCubicCentimetre + int64(whole-conductor)*insulation.MilligramsPerCubicCentimetre
	return linearMass{per: units.LinearMass((total + 500_000) / 1_000_000), estimated: true,
		words: fmt.Sprintf("estimated: copper %s mm2 at 8.89 g/cm3, %s; %s %s, %s", conductor.SquareMillimetres(), copper.Source,
			t.Insulation, (whole-conductor).SquareMillimetres()+" mm2", insulation.Source)}
}

// roundSection returns the area of a circle, with 355/113 for pi.
func roundSection(diameter units.Length) units.Area {
	return units.Area((int64(diameter)*int64(diameter)*355 + 226) / (4 * 113))
}

// weigh fills in the masses of wires and cables: of what is cut by its cut length, of what comes ready by its finished one. A core
// weighs nothing beyond its cable.
func weigh(types []WireType, wires []Wire, cables []Cable) {
	byID := make(map[string]*WireType, len(types))
	for i := range types {
		byID[types[i].ID] = &types[i]
	}
	of := func(wireType string, cut, finished int64) (int64, bool) {
		t := byID[wireType]
		if cut == 0 {
			cut = finished
		}
		if t == nil || t.MassMGPerM == 0 || cut == 0 {
			return 0, false
		}
		return (cut*t.MassMGPerM + 500_000) / 1_000_000, t.MassEstimated
	}
	for i := range wires {
		if w := &wires[i]; w.Cable == "" {
			w.MassMG, w.MassEstimated = of(w.Type, w.CutUM, w.FinishedUM)
		}
	}
	for i := range cables {
		c := &cables[i]
		c.MassMG, c.MassEstimated = of(c.Type, c.CutUM, c.FinishedUM)
	}
}

func (m *Mass) add(id string, mg int64, estimated bool) {
	m.MG += mg
	m.Estimated = m.Estimated || estimated
	if mg == 0 {
		m.Without = append(m.Without, id)
	}
}

// massOfTray sums what lies in one tray.
func massOfTray(rows []*Wire) Mass {
	var mass Mass
	for _, row := range rows {
		mass.add(row.ID, row.MassMG, row.MassEstimated)
	}
	return mass
}

// massOfHarness sums the wires and cables of one unit.
func massOfHarness(wires []Wire, cables []Cable) Mass {
	var mass Mass
	for _, c := range cables {
		mass.add(c.ID, c.MassMG, c.MassEstimated)
	}
	for _, w := range wires {
		if w.Cable == "" {
			mass.add(w.ID, w.MassMG, w.MassEstimated)
		}
	}
	return mass
}
