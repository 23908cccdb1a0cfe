package plan

import (
	"fmt"
	"slices"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
)

// substituteProblems refuses substitutes that the line marks in another way than the type, or that another sleeve goes over: texts,
// places and settings are worked out once for a wire, whatever reel it comes from.
func substituteProblems(h *harness.Harness, wires []Wire) problem.List {
	marked, _ := markings(h) // its warnings are those of the types themselves
	types, sleeves := typesByID(h), newSleever(h)
	var problems problem.List
	for _, t := range typesInUse(h) {
		if len(t.Substitutes) == 0 {
			continue
		}
		own, marks := marked[t.ID]
		sleeved := slices.IndexFunc(wires, func(w Wire) bool {
			return w.Type == t.ID && slices.ContainsFunc(w.sleeves, func(s Sleeve) bool { return s.Part != "" })
		})
		for _, s := range t.Substitutes {
			other := types[s.Type]
			if other == nil {
				continue // the job reader has refused it
			}
			reject := func(check, hint, format string, args ...any) {
				problems = append(problems, problem.Problem{Severity: problem.Error, Check: check, Place: s.Of("substitutes.type"), ID: t.ID, Hint: hint,
					Text: fmt.Sprintf("wire type %q names the substitute %q", t.ID, s.Type) + fmt.Sprintf(format, args...)})
			}
			if marks {
				differ, _ := markingOf(other, &h.Line)
				if words, hint := markedOtherwise(own, differ); words != "" {
					reject("substitute-marks", hint, "%s", words)
				}
			}
			if size := sleeves.size(other.Diameter); sleeved >= 0 && (size.Part != sleeves.size(t.Diameter).Part || size.Length != sleeves.size(t.Diameter).Length) {
				reject("substitute-sleeve", "leave the substitute out, or list a [[sleeve]] size that goes over both",
					", and the sleeves of wire %q do not go over it", wires[sleeved].ID)
			}
		}
	}
	return problems
}

// markedOtherwise says how the marks of a substitute differ from those of its type, and what to do; "" where they do not.
func markedOtherwise(own, other marking) (words, hint string) {
	hint = "leave the substitute out, or give the wires that type"
	switch {
	case own.method == harness.MethodTestFirst || other.method == harness.MethodTestFirst:
		return ", and nothing says how both take a mark", "mark the sample page of both, then write ink and proved into the types"
	case own.method != other.method || own.ink != other.ink:
		return fmt.Sprintf(", which is marked with %s in place of %s", other.words(), own.words()), hint
	case !slices.Equal(own.heights, other.heights) || !slices.Equal(own.double, other.double):
		return fmt.Sprintf(", which takes characters of %s at most in place of %s", other.heights[0], own.heights[0]),
			hint + ": their marks are too high for it"
	}
	return "", ""
}

// words names a way of marking in a message.
func (m marking) words() string {
	switch m.method {
	case harness.MethodLaser:
		return "the laser"
	case harness.MethodInk:
		return m.ink + " ink"
	}
	return "sleeves"
}
