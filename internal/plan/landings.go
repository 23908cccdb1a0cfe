package plan

import (
	"slices"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// landing is one end of a wire in a cavity or joint.
type landing struct {
	line    CavityLine
	contact string
	section int64 // of the conductor; 0 where it is not known
}

// landingsOf returns the ends of wires at each "J1:1" and "SP1", in natural order of the wires. The wires come with their homes.
func landingsOf(types []WireType, wires []Wire) map[string][]landing {
	byID := make(map[string]WireType)
	for _, row := range types {
		byID[row.ID] = row
	}
	sorted := slices.Clone(wires)
	slices.SortFunc(sorted, func(a, b Wire) int { return naturalCompare(a.ID, b.ID) })
	landings := make(map[string][]landing)
	for i := range sorted {
		w := &sorted[i]
		landings[w.A.At] = append(landings[w.A.At], landingOf(w, &w.A, &w.B, byID[w.Type]))
		landings[w.B.At] = append(landings[w.B.At], landingOf(w, &w.B, &w.A, byID[w.Type]))
	}
	return landings
}

func landingOf(w *Wire, here, there *End, t WireType) landing {
	line := CavityLine{
		Wire: w.ID, Cable: w.Cable, Core: w.Core, Gauge: t.GaugeShort, Words: t.ColourWords, Tray: w.trayWord(), Other: there.At,
		Stage: here.Stage, Board: here.board, Finish: here.Finish, Note: joinNotes(here.Note, w.Note),
	}
	line.Marked = w.markedWords()
	if here.Loose {
		line.Loose = "stays loose in this job"
	}
	return landing{line, here.Contact, t.SectionUM2}
}

// markedWords says how a wire is told apart that carries no mark near its ends; "" for one that does, and for one that comes as it is.
func (w Wire) markedWords() string {
	switch {
	case len(w.sleeves) > 0 && w.sleeves[0].Kind == "tag":
		return "text on a tag tied to the wire"
	case len(w.sleeves) == 1 && w.sleeves[0].End == "":
		return "text on one sleeve, in the middle of the wire"
	case len(w.sleeves) > 0:
		return "text on sleeves"
	case !w.onLine():
		return ""
	case w.Method == string(harness.MethodNone):
		return "no mark on the wire"
	case len(w.Marks) == 1:
		return "one mark, in the middle of the wire"
	}
	return ""
}

// togetherWords says what a single crimp of several wires holds: "2 wires in one contact, 0.65 mm² together".
func togetherWords(landings []landing) string {
	words := counted(len(landings), "wire") + " in one contact"
	if sum := sumOfSections(landings); sum > 0 {
		words += ", " + units.Area(sum).SquareMillimetres() + " mm² together"
	}
	return words
}

// sumOfSections adds the cross-sections; 0 where one is not known.
func sumOfSections(landings []landing) int64 {
	var sum int64
	for _, end := range landings {
		if end.section == 0 {
			return 0
		}
		sum += end.section
	}
	return sum
}
