package plan

import (
	"fmt"
	"slices"
	"strings"

	"loomleaf/internal/handbook"
	"loomleaf/internal/harness"
	"loomleaf/internal/units"
	"loomleaf/internal/words"
)

// typesInUse returns the types that a wire names, in natural order of their ids.
func typesInUse(h *harness.Harness) []*harness.WireType {
	used := make(map[string]bool)
	for i := range h.Wires {
		used[h.Wires[i].Type] = true
	}
	var types []*harness.WireType
	for i := range h.WireTypes {
		if used[h.WireTypes[i].ID] {
			types = append(types, &h.WireTypes[i])
		}
	}
	slices.SortFunc(types, func(a, b *harness.WireType) int { return naturalCompare(a.ID, b.ID) })
	return types
}

// typesByID finds every type of the job.
func typesByID(h *harness.Harness) map[string]*harness.WireType {
	types := make(map[string]*harness.WireType, len(h.WireTypes))
	for i := range h.WireTypes {
		types[h.WireTypes[i].ID] = &h.WireTypes[i]
	}
	return types
}

// cableTypesByID finds every cable type of the job.
func cableTypesByID(h *harness.Harness) map[string]*harness.CableType {
	types := make(map[string]*harness.CableType, len(h.CableTypes))
	for i := range h.CableTypes {
		types[h.CableTypes[i].ID] = &h.CableTypes[i]
	}
	return types
}

// cableTypesInUse returns the cable types that a cable names, in natural order of their ids.
func cableTypesInUse(h *harness.Harness) []*harness.CableType {
	used := make(map[string]bool)
	for i := range h.Cables {
		used[h.Cables[i].Type] = true
	}
	var types []*harness.CableType
	for i := range h.CableTypes {
		if used[h.CableTypes[i].ID] {
			types = append(types, &h.CableTypes[i])
		}
	}
	slices.SortFunc(types, func(a, b *harness.CableType) int { return naturalCompare(a.ID, b.ID) })
	return types
}

// coreTypeID names a core as a type of its own: "TSP24 core 1".
func coreTypeID(cableType, core string) string { return cableType + " core " + core }

// jacketOf returns the jacket of a cable type as something to mark.
func jacketOf(t *harness.CableType) *harness.WireType {
	return &harness.WireType{Origin: t.Origin, ID: t.ID, Part: t.Part, Name: t.Name, Colour: t.Colour, Diameter: t.Diameter,
		Insulation: t.Insulation, Laser: t.Laser, Ink: t.Ink, Proved: t.Proved, StripBy: t.StripBy, Mass: t.Mass}
}

// typeRows returns the types in use as the sheets print them: wire types, cable types, and the cores of these.
func typeRows(h *harness.Harness) []WireType {
	rows, said := []WireType{}, h.Paper.Spoken()
	for _, t := range typesInUse(h) {
		rows = append(rows, typeRow(t, said))
	}
	for _, t := range cableTypesInUse(h) {
		jacket := typeRow(jacketOf(t), said)
		var gauges []string
		for _, core := range t.Cores {
			row := typeRow(&harness.WireType{ID: coreTypeID(t.ID, core.ID), Part: t.Part, Name: "core " + core.ID + " of " + t.ID,
				AWG: core.AWG, Section: core.Section, Colour: core.Colour}, said)
			rows, gauges = append(rows, row), append(gauges, row.GaugeShort)
		}
		jacket.GaugeShort = gaugesOf(gauges)
		jacket.Gauge = jacket.GaugeShort
		rows = append(rows, jacket)
	}
	slices.SortStableFunc(rows, func(a, b WireType) int { return naturalCompare(a.ID, b.ID) })
	return rows
}

func typeRow(t *harness.WireType, said words.Words) WireType {
	short, full := gaugeWords(t)
	short, full = said.Decimal(short), said.Decimal(full)
	mass := linearMassOf(t)
	return WireType{
		ID: t.ID, Part: t.Part, Name: t.Name, Gauge: full, GaugeShort: short, Colour: t.Colour, ColourWords: colourWords(said, t.Colour),
		DiameterUM: int64(t.Diameter), Insulation: t.Insulation, SectionUM2: int64(sectionOf(t)), Proof: proofWords(t.Proved), StripBy: t.StripBy,
		MassMGPerM: int64(mass.per), MassEstimated: mass.estimated, MassFrom: mass.words,
	}
}

// sectionOf returns the cross-section of a conductor as given, else that of its gauge; 0 where the gauge is not listed.
func sectionOf(t *harness.WireType) units.Area {
	if t.AWG == "" {
		return t.Section
	}
	size, _ := handbook.WireSizeOf(t.AWG)
	return size.Area
}

// gaugesOf counts the gauges of the cores of a cable: "3 x 24 AWG, 2 x 22 AWG".
func gaugesOf(gauges []string) string {
	var words []string
	for rest := gauges; len(rest) > 0; {
		run := 1
		for run < len(rest) && rest[run] == rest[0] {
			run++
		}
		words = append(words, fmt.Sprintf("%d x %s", run, rest[0]))
		rest = rest[run:]
	}
	return strings.Join(words, ", ")
}

// gaugeWords returns the gauge as given, and with the cross-section of an AWG size beside it. A section in mm2 stands
// alone: no AWG size is equal to it.
func gaugeWords(t *harness.WireType) (short, full string) {
	if t.AWG == "" {
		short = strings.Replace(t.Section.String(), "mm2", "mm²", 1)
		return short, short
	}
	short = t.AWG + " AWG"
	size, listed := handbook.WireSizeOf(t.AWG)
	if !listed {
		return short, short
	}
	return short, short + " " + size.Area.SquareMillimetres() + " mm²"
}

// colourWords names a colour, a base and its stripes: "white, blue stripe".
func colourWords(said words.Words, code string) string {
	if _, known := handbook.ColourOf(code); !known || code == handbook.UnknownColour {
		return said.Say("colour.unknown")
	}
	var names []string
	for _, part := range strings.Split(code, "/") {
		names = append(names, said.Say("colour.name."+strings.ToLower(part)))
	}
	switch {
	case len(names) == 1:
		return names[0]
	case len(names) == 2:
		return said.Say("colour.stripe", "base", names[0], "stripe", names[1])
	case names[1] == names[2]:
		return said.Say("colour.same_stripes", "base", names[0], "stripe", names[1])
	}
	return said.Say("colour.stripes", "base", names[0], "first", names[1], "second", names[2])
}

// proofWords names the record of a marking test: "ML-118, 2026-10-02, marking lead".
func proofWords(proof *harness.Proof) string {
	if proof == nil {
		return ""
	}
	return fmt.Sprintf("%s, %04d-%02d-%02d, %s", proof.Record, proof.On.Year, proof.On.Month, proof.On.Day, proof.By)
}
