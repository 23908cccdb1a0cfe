package plan

import (
	"fmt"
	"math/big"
	"slices"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
	"loomleaf/internal/words"
)

// layUp is how a wire lies in its twist. The square of the pitch circle is pitch^2 x thirds / 3.
type layUp struct {
	twist    *harness.Twist
	pitch    units.Length
	thirds   int64
	straight units.Length // left straight at both ends
}

// layUps returns how each wire of a twist lies, and what is wrong with a twist.
func layUps(h *harness.Harness) (map[string]*layUp, problem.List) {
	diameters, types, twisted := map[string]units.Length{}, typesByID(h), twistsByWire(h)
	for i := range h.Wires {
		w := &h.Wires[i]
		if t := types[w.Type]; t != nil && twisted[w.ID] != "" {
			diameters[w.ID] = t.Diameter
		}
	}
	lays := map[string]*layUp{}
	var problems problem.List
	for i := range h.Twists {
		t := &h.Twists[i]
		lay, fault := layOf(t, diameters)
		if fault != "" {
			problems = append(problems, problem.Problem{Check: "twist-pitch", Place: t.At, ID: t.ID, Text: fault,
				Hint: "give the twist its lay and the diameter of its pitch circle as pitch"})
			continue
		}
		for _, wire := range t.Wires {
			lays[wire] = lay
		}
	}
	return lays, problems
}

// layOf returns how the wires of a twist lie: on the pitch circle given, else on one of the wire diameter for an equal pair, and
// of 2/sqrt(3) wire diameters for three equal wires, whose centres are the corners of a triangle.
func layOf(t *harness.Twist, diameters map[string]units.Length) (*layUp, string) {
	lay := &layUp{twist: t, pitch: t.Pitch, thirds: 3, straight: t.Untwist[0] + t.Untwist[1]}
	if t.Lay <= 0 {
		return nil, fmt.Sprintf("twist %q has no lay", t.ID)
	}
	if t.Pitch > 0 {
		return lay, ""
	}
	for _, wire := range t.Wires {
		if diameters[wire] != diameters[t.Wires[0]] || diameters[wire] == 0 {
			return nil, fmt.Sprintf("the wires of twist %q differ in diameter, and nothing says how wide they lie", t.ID)
		}
	}
	switch len(t.Wires) {
	case 2:
	case 3:
		lay.thirds = 4
	default:
		return nil, fmt.Sprintf("twist %s has %s, and nothing says how wide they lie", t.ID, counted(len(t.Wires), "wire"))
	}
	lay.pitch = diameters[t.Wires[0]]
	return lay, ""
}

// laidByWire says of each wire of a twist what it is laid with: "twist T1 with W121, lay 25 mm, 40 mm straight at both ends".
func laidByWire(h *harness.Harness) map[string]string {
	laid, spoken := map[string]string{}, h.Paper.Spoken()
	for i := range h.Twists {
		t := &h.Twists[i]
		for at, wire := range t.Wires {
			others := slices.Delete(slices.Clone(t.Wires), at, at+1)
			slices.SortFunc(others, naturalCompare)
			laid[wire] = spoken.Say("twist.laid", "twist", t.ID, "wires", enumeratedIn(spoken, others), "lay", spoken.Decimal(t.Lay.String())) + straightWords(spoken, t.Untwist)
		}
	}
	return laid
}

// straightWords says what a twist leaves straight: ", 40 mm straight at both ends"; "" for nothing.
func straightWords(spoken words.Words, untwist [2]units.Length) string {
	switch {
	case untwist == [2]units.Length{}:
		return ""
	case untwist[0] == untwist[1]:
		return spoken.Say("twist.straight", "length", spoken.Decimal(untwist[0].String()))
	}
	return spoken.Say("twist.straight_each", "a", spoken.Decimal(untwist[0].String()), "b", spoken.Decimal(untwist[1].String()))
}

// piBillionths is pi, rounded up.
const piBillionths = 3_141_592_654

// extra returns what a helix takes more than the straight length of its twisted part, rounded up to a micrometre:
// twisted x (sqrt(1 + (pi x D / lay)^2) - 1), the unrolled helix being the long side of a right triangle.
func (l *layUp) extra(finished units.Length) units.Length {
	twisted := finished - l.straight
	if twisted <= 0 {
		return 0
	}
	lay, pitch := int64(l.twist.Lay), int64(l.pitch)
	below := product(lay, lay, 1_000_000_000, 1_000_000_000, 3)
	square := product(piBillionths, piBillionths, pitch, pitch, l.thirds)
	square.Add(square, below).Mul(square, product(int64(twisted), int64(twisted))) // of the helix, times below
	whole, rest := new(big.Int).QuoRem(square, below, new(big.Int))
	helix := new(big.Int).Sqrt(whole)
	if rest.Sign() > 0 || new(big.Int).Mul(helix, helix).Cmp(whole) < 0 {
		helix.Add(helix, big.NewInt(1))
	}
	return units.Length(helix.Int64()) - twisted
}

// product multiplies without a limit.
func product(factors ...int64) *big.Int {
	whole := big.NewInt(1)
	for _, factor := range factors {
		whole.Mul(whole, big.NewInt(factor))
	}
	return whole
}

// checkTwist refuses a wire that is shorter than what its twist leaves straight.
func (s stretch) checkTwist(finished units.Length) problem.List {
	if s.lay == nil || finished == 0 || finished >= s.lay.straight {
		return nil
	}
	return problem.List{{Check: "twist-untwist", Place: s.lay.twist.Of("untwist"), ID: s.lay.twist.ID,
		Text: fmt.Sprintf("twist %q leaves %s straight, and wire %q is %s from end to end", s.lay.twist.ID, s.lay.straight, s.id, finished),
		Hint: "shorten untwist, or take the wire out of the twist"}}
}
