package plan

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

// Substitution is what is cut from an approved substitute in place of a type whose reels are used up.
type Substitution struct {
	InPlace
	Reels     []string          `json:"reels"` // in the order of the run
	Pieces    int               `json:"pieces"`
	UM        int64             `json:"um"`         // cut lengths
	LongestUM int64             `json:"longest_um"` // longest single piece
	Wires     []SubstitutedWire `json:"wires"`      // in the order of the run
}

// SubstitutedWire is a wire with the units that are cut from a substitute.
type SubstitutedWire struct {
	Wire  string   `json:"wire"`
	Units []string `json:"units"`
}

// UnitInPlace is a unit of a wire that is cut from another type.
type UnitInPlace struct {
	Unit string `json:"unit"`
	InPlace
}

// addSubstitutes lists what the run cuts from substitutes, and their types.
func (p *Plan) addSubstitutes(h *harness.Harness, cuts []cut) {
	for _, c := range cuts {
		if c.substitute != nil {
			p.substitution(*c.substitute).add(c)
		}
	}
	slices.SortFunc(p.Substitutes, func(a, b Substitution) int { return cmp.Or(naturalCompare(a.For, b.For), cmp.Compare(a.rank, b.rank)) })
	types := typesByID(h)
	for _, s := range p.Substitutes {
		if !slices.ContainsFunc(p.Types, func(t WireType) bool { return t.ID == s.Type }) {
			p.Types = append(p.Types, typeRow(types[s.Type], h.Paper.Spoken()))
		}
	}
	slices.SortStableFunc(p.Types, func(a, b WireType) int { return naturalCompare(a.ID, b.ID) })
}

// substitution returns the row of a substitute, made where it is new.
func (p *Plan) substitution(of InPlace) *Substitution {
	at := slices.IndexFunc(p.Substitutes, func(s Substitution) bool { return s.InPlace == of })
	if at < 0 {
		at = len(p.Substitutes)
		p.Substitutes = append(p.Substitutes, Substitution{InPlace: of})
	}
	return &p.Substitutes[at]
}

func (s *Substitution) add(c cut) {
	s.Pieces++
	s.UM += c.wire.CutUM
	s.LongestUM = max(s.LongestUM, c.wire.CutUM)
	if !slices.Contains(s.Reels, c.reelID()) {
		s.Reels = append(s.Reels, c.reelID())
	}
	at := slices.IndexFunc(s.Wires, func(w SubstitutedWire) bool { return w.Wire == c.wire.ID })
	if at < 0 {
		at = len(s.Wires)
		s.Wires = append(s.Wires, SubstitutedWire{Wire: c.wire.ID})
	}
	s.Wires[at].Units = append(s.Wires[at].Units, c.unit)
}

// tellSubstitutes says on the wires which of their units are cut from another type, and gives them the codes of what their rows say
// now; and it weighs the trays anew.
func (p *Plan) tellSubstitutes(wires []Wire) {
	places := p.substitutesByWire()
	if len(places) == 0 {
		return
	}
	types := map[string]WireType{}
	for _, t := range p.Types {
		types[t.ID] = t
	}
	for i := range wires {
		if w := &wires[i]; places[w.ID] != nil {
			for _, unit := range p.Packet.Units {
				if s := places[w.ID][unit]; s != nil {
					w.Substitutes = append(w.Substitutes, UnitInPlace{unit, *s})
					w.Code.Words += fmt.Sprintf(", unit %s from %s", unit, s.Words())
				}
			}
			w.Code.Content = ContentOf(recorder(nil).wireRecord(p.Packet, types[w.Type], w))
			p.weighTrays(w, types)
		}
	}
}

// weighTrays puts the mass of what is really cut into the trays of a wire, where both masses are known.
func (p *Plan) weighTrays(w *Wire, types map[string]WireType) {
	for _, s := range w.Substitutes {
		other := types[s.Type]
		for i := range p.Trays {
			if tray := &p.Trays[i]; tray.Unit == s.Unit && w.MassMG > 0 && other.MassMGPerM > 0 && slices.Contains(tray.Wires, w.ID) {
				tray.MG += (w.CutUM*other.MassMGPerM+500_000)/1_000_000 - w.MassMG
				tray.Estimated = tray.Estimated || other.MassEstimated
			}
		}
	}
}

// mostListed is how many wires a warning names.
const mostListed = 40

// substituteWarnings says what is cut from substitutes, and which approvals help nobody.
func (p *Plan) substituteWarnings(h *harness.Harness, supplies []*supply) problem.List {
	var problems problem.List
	warn := func(at problem.Place, check, id, hint, format string, args ...any) {
		problems = append(problems, problem.Problem{Severity: problem.Warning, Check: check, Place: at, ID: id, Text: fmt.Sprintf(format, args...), Hint: hint})
	}
	types := typesByID(h)
	for _, s := range p.Substitutes {
		warn(types[s.For].Of("substitutes"), "substitute-cut", s.For, "make sure that the approval holds for these wires, or add the [[reel]] that keeps them of their own type",
			"%s of wire type %q, %s m, come from its substitute %q, approved by %q, since its own reels are used up: %s",
			counted(s.Pieces, "piece"), s.For, units.Length(s.UM).Metres(), s.Type, s.Approved, s.wireWords(len(p.Packet.Units)))
	}
	for _, s := range supplies {
		if t := types[s.wireType]; t != nil && len(t.Substitutes) > 0 && len(s.spools) == 0 {
			warn(t.Of("substitutes"), "substitute-idle", t.ID, "add its [[reel]], be it a rest, or leave the substitutes out",
				"wire type %q has substitutes, and the job knows no reel of it: nobody can say when it is used up, and no substitute is cut", t.ID)
		}
	}
	return problems
}

// wireWords names the wires of a substitution, with the units where not all of a job are cut from it.
func (s Substitution) wireWords(all int) string {
	var words []string
	for i, w := range s.Wires {
		if i == mostListed && len(s.Wires) > mostListed+1 {
			return strings.Join(words, ", ") + fmt.Sprintf(" and %d more wires, as their rows say", len(s.Wires)-mostListed)
		}
		if len(w.Units) == all {
			words = append(words, w.Wire+" of all units")
		} else {
			words = append(words, fmt.Sprintf("%s of unit %s", w.Wire, strings.Join(w.Units, " and ")))
		}
	}
	return strings.Join(words, ", ")
}

// withSubstitutes names the substitutes of a type beside it, in words; "" where it has none with a reel.
func withSubstitutes(h *harness.Harness, wireType string) string {
	for _, t := range h.WireTypes {
		if t.ID == wireType && slices.ContainsFunc(t.Substitutes, func(s harness.Substitute) bool { return hasReel(h, s.Type) }) {
			return " and of its substitutes"
		}
	}
	return ""
}

// typeChanges counts the changes of what is cut in the first list of a run: without substitutes those of its wires.
func typeChanges(cuts []cut) int {
	changes := 0
	for i := 1; i < len(cuts) && cuts[i].list == 0; i++ {
		changes += one(cuts[i].wireType() != cuts[i-1].wireType())
	}
	return changes
}

// insteadOf names the wires of lines that a unit has from another type, for the words of a code.
func insteadOf(lines []CavityLine, unit int) string {
	words := ""
	for _, line := range lines {
		if s := line.Of(unit).Substitute; s != nil {
			words += fmt.Sprintf(", %s from %s", line.Wire, s.Words())
		}
	}
	return words
}
