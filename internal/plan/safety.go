package plan

import (
	"slices"
	"strconv"
	"strings"

	"loomleaf/internal/handbook"
	"loomleaf/internal/harness"
)

// Safety is the safety page in one language: what the job calls for, and what the shop quotes.
type Safety struct {
	Language  string        `json:"language"`
	Title     string        `json:"title"`
	Deference []string      `json:"deference"`
	Short     string        `json:"short"` // deference in one line, for the foot of other sheets
	Blocks    []SafetyBlock `json:"blocks"`
	Heading   string        `json:"heading"`
	Ask       string        `json:"ask"`
	Blanks    []SafetyBlank `json:"blanks"`
	Copied    string        `json:"copied"`
	Read      string        `json:"read"`
	Name      string        `json:"name"`
}

// SafetyBlock is one hazard.
type SafetyBlock struct {
	Signal string       `json:"signal"` // in the language of the page
	Alert  bool         `json:"alert"`  // speaks of injury: the alert triangle stands beside the word
	Signs  []SafetySign `json:"signs"`
	Title  string       `json:"title"`
	Count  string       `json:"count"` // "37 of the 182 wires of a unit are laser marked."; "" for none
	Lines  []string     `json:"lines"`
}

// SafetySign is a sign of ISO 7010.
type SafetySign struct {
	Number string `json:"number"`
	Shape  string `json:"shape"` // "warning", "mandatory", "prohibition", "rescue"
	Title  string `json:"title"` // in the language of the page
}

// SafetyBlank is a value that the qualified person gives. Value and Source are empty where the shop gives none; where it gives
// one, both are set.
type SafetyBlank struct {
	Label  string `json:"label"`
	Value  string `json:"value"`
	Source string `json:"source"`
}

// hazard is a thing that a job may do: how many wires of a unit it concerns, and their insulations.
type hazard struct {
	met         bool
	wires       int
	insulations []string
}

// hazardsOf says what the job does. A type to be tested first may end up inked, and its sample is marked with the laser
// where the line has one: it brings both, and is counted with neither. A laser-marked insulation that the job does not name
// may be a fluoropolymer: it brings the fume, and is not counted.
func hazardsOf(h *harness.Harness, wires []*Wire, types []WireType) map[string]hazard {
	insulation := make(map[string]string, len(types))
	for _, t := range types {
		insulation[t.ID] = t.Insulation
	}
	var laser, ink, fume hazard
	for _, w := range wires {
		switch harness.Method(w.Method) {
		case harness.MethodLaser:
			laser.wires++
			fume.met = fume.met || insulation[w.Type] == ""
			if handbook.Fluoropolymer(insulation[w.Type]) {
				fume.wires++
				fume.insulations = append(fume.insulations, insulation[w.Type])
			}
			for _, s := range w.Substitutes {
				fume.met = fume.met || insulation[s.Type] == "" || handbook.Fluoropolymer(insulation[s.Type])
			}
		case harness.MethodInk:
			ink.wires++
		case harness.MethodTestFirst:
			ink.met, laser.met = true, laser.met || slices.Contains(h.Line.Methods, harness.MethodLaser)
		}
	}
	slices.Sort(fume.insulations)
	fume.insulations = slices.Compact(fume.insulations)
	for _, one := range []*hazard{&laser, &ink, &fume} {
		one.met = one.met || one.wires > 0
	}
	return map[string]hazard{
		"always": {met: true}, "marking": {met: laser.met || ink.met}, "ink": ink, "laser": laser, "fluoropolymer": fume,
		"ozone": {met: ink.met && h.Safety.Ozone}, "mercury": {met: ink.met && h.Safety.Mercury},
		"high potential": {met: h.Safety.HighPotential},
	}
}

// safetyOf returns the safety page in each language of the job.
func safetyOf(h *harness.Harness, wires []*Wire, types []WireType) []Safety {
	hazards := hazardsOf(h, wires, types)
	var pages []Safety
	for _, w := range h.Safety.Wordings {
		page := Safety{Language: w.Language, Title: w.Title, Short: w.Short, Heading: w.Heading, Ask: w.Ask, Copied: w.Copied, Read: w.Read, Name: w.Name,
			Deference: slices.Concat(w.Deference, h.Safety.Deference), Blanks: blanksOf(h.Safety, w, hazards)}
		for _, block := range w.Blocks {
			if hazards[block.When].met {
				page.Blocks = append(page.Blocks, blockOf(block, w, hazards[block.When], len(wires)))
			}
		}
		pages = append(pages, page)
	}
	return pages
}

// blockOf words one hazard.
func blockOf(block harness.SafetyBlock, w harness.Wording, of hazard, all int) SafetyBlock {
	index := slices.Index([]string{"DANGER", "WARNING", "CAUTION", "NOTICE"}, block.Signal)
	worded := SafetyBlock{Signal: w.Signals[index], Alert: block.Signal != "NOTICE", Title: block.Title, Lines: slices.Clone(block.Lines)}
	if block.Count != "" && of.wires > 0 {
		worded.Count = strings.NewReplacer("{wires}", strconv.Itoa(of.wires), "{all}", strconv.Itoa(all),
			"{insulation}", strings.Join(of.insulations, ", ")).Replace(block.Count)
	}
	for _, number := range block.Signs {
		sign, _ := handbook.SignOf(number)                                                            // the job reader has refused what is not listed
		at := slices.IndexFunc(w.Signs, func(s harness.SignTitle) bool { return s.Number == number }) // and what has no title
		worded.Signs = append(worded.Signs, SafetySign{Number: sign.Number, Shape: string(sign.Shape), Title: w.Signs[at].Title})
	}
	return worded
}

// blanksOf returns the values that the job calls for, with what the shop quotes or, for who to call, gives itself.
func blanksOf(s harness.Safety, w harness.Wording, hazards map[string]hazard) []SafetyBlank {
	quoted := map[string]SafetyBlank{}
	for _, own := range [][2]string{{"officer", s.Officer}, {"emergency", s.Emergency}} {
		if own[1] != "" {
			quoted[own[0]] = SafetyBlank{Value: own[1], Source: w.Given}
		}
	}
	for _, q := range s.Quotes {
		quoted[q.What] = SafetyBlank{Value: q.Value, Source: q.Source}
	}
	var blanks []SafetyBlank
	for _, b := range w.Blanks {
		if hazards[b.When].met {
			blanks = append(blanks, SafetyBlank{Label: b.Label, Value: quoted[b.What].Value, Source: quoted[b.What].Source})
		}
	}
	return blanks
}
