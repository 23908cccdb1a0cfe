package plan

import (
	"slices"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
	"loomleaf/internal/words"
)

// landing is one end of a wire in a cavity or joint.
type landing struct {
	line    CavityLine
	contact string
	section int64 // of the conductor; 0 where it is not known
}

// landingsOf returns the ends of wires at each "J1:1" and "SP1", in natural order of the wires. The wires come with their homes.
func landingsOf(said words.Words, types []WireType, wires []Wire) map[string][]landing {
	byID := make(map[string]WireType)
	for _, row := range types {
		byID[row.ID] = row
	}
	sorted := slices.Clone(wires)
	slices.SortFunc(sorted, func(a, b Wire) int { return naturalCompare(a.ID, b.ID) })
	landings := make(map[string][]landing)
	for i := range sorted {
		w := &sorted[i]
		landings[w.A.At] = append(landings[w.A.At], landingOf(said, w, &w.A, &w.B, byID[w.Type]))
		landings[w.B.At] = append(landings[w.B.At], landingOf(said, w, &w.B, &w.A, byID[w.Type]))
	}
	return landings
}

func landingOf(said words.Words, w *Wire, here, there *End, t WireType) landing {
	line := CavityLine{
		Wire: w.ID, Cable: w.Cable, Core: w.Core, Gauge: t.GaugeShort, Words: t.ColourWords, Tray: w.trayWord(), Other: there.At,
		Stage: here.Stage, Board: here.board, Finish: here.Finish, Note: joinNotes(here.Note, w.Note),
	}
	line.Marked = w.markedWords(said)
	if here.Loose {
		line.Loose = said.Say("ends.stays_loose")
	}
	return landing{line, here.Contact, t.SectionUM2}
}

// markedWords says how a wire is told apart that carries no mark near its ends; "" for one that does, and for one that comes as it is.
func (w *Wire) markedWords(said words.Words) string {
	switch {
	case len(w.sleeves) > 0 && w.sleeves[0].Kind == "tag":
		return said.Say("ends.text_on_tag")
	case len(w.sleeves) == 1 && w.sleeves[0].End == "":
		return said.Say("ends.text_on_one_sleeve")
	case len(w.sleeves) > 0:
		return said.Say("ends.text_on_sleeves")
	case !w.onLine():
		return ""
	case w.Method == string(harness.MethodNone):
		return said.Say("ends.no_mark")
	case len(w.Marks) == 1:
		return said.Say("ends.one_mark")
	}
	return ""
}

// togetherWords says what a single crimp of several wires holds: "2 wires in one contact, 0.65 mm² together".
func togetherWords(said words.Words, landings []landing) string {
	if sum := sumOfSections(landings); sum > 0 {
		return said.SayCount("ends.together_section", len(landings), "section", said.Decimal(units.Area(sum).SquareMillimetres()))
	}
	return said.SayCount("ends.together", len(landings))
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
