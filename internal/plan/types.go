package plan

import (
	"fmt"
	"slices"
	"strings"

	"loomleaf/internal/handbook"
	"loomleaf/internal/harness"
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

// typeRows returns the types in use as the sheets print them.
func typeRows(h *harness.Harness) []WireType {
	types := typesInUse(h)
	rows := make([]WireType, 0, len(types))
	for _, t := range types {
		short, full := gaugeWords(t)
		rows = append(rows, WireType{
			ID: t.ID, Part: t.Part, Name: t.Name, Gauge: full, GaugeShort: short,
			Colour: t.Colour, ColourWords: colourWords(t.Colour), DiameterUM: int64(t.Diameter),
			Insulation: t.Insulation, Proof: proofWords(t.Proved),
		})
	}
	return rows
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

// colourWords names a colour: "white, blue stripe".
func colourWords(code string) string {
	colour, known := handbook.ColourOf(code)
	if !known {
		return "colour unknown"
	}
	return colour.Words
}

// proofWords names the record of a marking test: "ML-118, 2026-10-02, marking lead".
func proofWords(proof *harness.Proof) string {
	if proof == nil {
		return ""
	}
	return fmt.Sprintf("%s, %04d-%02d-%02d, %s", proof.Record, proof.On.Year, proof.On.Month, proof.On.Day, proof.By)
}
