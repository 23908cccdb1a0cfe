package plan

import (
	"fmt"
	"slices"

	"loomleaf/internal/handbook"
	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

// marking is how the line marks a wire type.
type marking struct {
	method  harness.Method
	ink     string         // "black" or "white" where the method is ink
	heights []units.Length // character heights that the diameter allows, largest first; none for a sleeve
}

// markings returns how each type is marked of which the line cuts a wire or cable with marks.
func markings(h *harness.Harness) (map[string]marking, problem.List) {
	marked := make(map[string]bool)
	for i := range h.Wires {
		w := &h.Wires[i]
		if w.Mark != "none" && w.Cable == "" && !w.Measure && supplyOf(w.Supply) == harness.SupplyReel {
			marked[w.Type] = true
		}
	}
	for i := range h.Cables {
		if c := &h.Cables[i]; c.Mark != "none" && !c.Measure && supplyOf(c.Supply) == harness.SupplyReel {
			marked[c.Type] = true
		}
	}
	types := typesInUse(h)
	for _, t := range cableTypesInUse(h) {
		types = append(types, jacketOf(t))
	}
	byType := make(map[string]marking, len(marked))
	var problems problem.List
	for _, t := range types {
		if marked[t.ID] {
			m, warnings := markingOf(t, &h.Line)
			byType[t.ID] = m
			problems = append(problems, warnings...)
		}
	}
	return byType, problems
}

// markingOf chooses method, ink and heights of a type. A line without any method sleeves everything, as its shop knows.
func markingOf(t *harness.WireType, line *harness.Line) (marking, problem.List) {
	sleeve := marking{method: harness.MethodSleeve}
	if len(line.Methods) == 0 {
		return sleeve, nil
	}
	if t.Diameter < line.ThinnestDiameter || t.Diameter > line.ThickestDiameter {
		return sleeve, sleeveWarning(t, "diameter", fmt.Sprintf("its diameter of %s is outside the line's %s to %s",
			t.Diameter, line.ThinnestDiameter, line.ThickestDiameter))
	}
	heights := heightsFor(t.Diameter, line)
	if len(heights) == 0 {
		return sleeve, sleeveWarning(t, "diameter", fmt.Sprintf("no character height of the line suits its diameter of %s", t.Diameter))
	}
	method, ink, warnings := methodOf(t, line)
	if method == harness.MethodSleeve {
		heights = nil
	}
	return marking{method, ink, heights}, warnings
}

// methodOf chooses between laser and ink: laser only where the type says yes, ink as proved or by contrast, and a test
// first where neither is known.
func methodOf(t *harness.WireType, line *harness.Line) (harness.Method, string, problem.List) {
	if t.Laser == harness.LaserYes && slices.Contains(line.Methods, harness.MethodLaser) {
		return harness.MethodLaser, "", nil
	}
	ink := t.Ink
	if ink == "" && t.Laser != harness.LaserTestFirst {
		ink = inkByContrast(t.Colour)
	}
	if ink == "" {
		return harness.MethodTestFirst, "", problem.List{{Severity: problem.Warning, Check: "test-first", Place: t.At, ID: t.ID,
			Text: fmt.Sprintf("type %s is to be proved before the run: record ink and proved", t.ID),
			Hint: "mark a sample, then write ink and proved into the wire type"}}
	}
	if !slices.Contains(line.Methods, harness.MethodInk) {
		return harness.MethodSleeve, "", sleeveWarning(t, "laser", "it takes ink, and the line has no ink")
	}
	if !slices.Contains(line.Inks, ink) {
		return harness.MethodSleeve, "", sleeveWarning(t, "ink", fmt.Sprintf("it takes %s ink, and the line has no %s head", ink, ink))
	}
	return harness.MethodInk, ink, nil
}

// inkByContrast returns the ink that stands out on a colour, or "" where none is known to.
func inkByContrast(colour string) string {
	ink, known, _ := handbook.Contrast(colour)
	if !known {
		return ""
	}
	return ink
}

// heightsFor returns the character heights that a diameter allows, largest first.
func heightsFor(diameter units.Length, line *harness.Line) []units.Length {
	var heights []units.Length
	for _, height := range line.Heights {
		if int64(height)*1000 <= int64(line.HeightToDiameter)*int64(diameter) {
			heights = append(heights, height)
		}
	}
	slices.Sort(heights)
	slices.Reverse(heights)
	return heights
}

func sleeveWarning(t *harness.WireType, key, reason string) problem.List {
	return problem.List{{Severity: problem.Warning, Check: "type-sleeve", Place: t.Of(key), ID: t.ID,
		Text: fmt.Sprintf("type %s is marked with sleeves: %s", t.ID, reason)}}
}
