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
	double  []units.Length // the same for two lines over each other
}

// markings returns how each type is marked of which the line cuts a wire or cable with marks.
func markings(h *harness.Harness) (map[string]marking, problem.List) {
	marked := make(map[string]bool)
	for i := range h.Wires {
		w := &h.Wires[i]
		if w.Mark != "none" && cutAlone(w) {
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
			t.Diameter, line.ThinnestDiameter, line.ThickestDiameter), "correct the diameter or line.diameters, or accept the sleeves")
	}
	heights, double := heightsFor(t.Diameter, line)
	if len(heights) == 0 {
		return sleeve, sleeveWarning(t, "diameter", fmt.Sprintf("no character height of the line suits its diameter of %s", t.Diameter),
			"add a smaller height to line.heights where the marker has it, or accept the sleeves")
	}
	method, ink, warnings := methodOf(t, line)
	if method == harness.MethodSleeve {
		heights, double = nil, nil
	}
	return marking{method, ink, heights, double}, warnings
}

// methodOf chooses between laser and ink: laser only where the type says yes, never unproved on black; ink as proved or by contrast; a
// test first where neither is known.
func methodOf(t *harness.WireType, line *harness.Line) (harness.Method, string, problem.List) {
	black := handbook.DarkBase(t.Colour)
	if t.Laser == harness.LaserYes && slices.Contains(line.Methods, harness.MethodLaser) && (t.Proved != nil || !black) {
		return harness.MethodLaser, "", nil
	}
	if t.Ink == "none" && t.Proved != nil {
		return harness.MethodSleeve, "", sleeveWarning(t, "ink", "no mark stays readable on it, as proved", "accept the sleeves")
	}
	ink := inkOf(t)
	if ink == "" {
		return harness.MethodTestFirst, "", problem.List{testFirstWarning(t)}
	}
	if !slices.Contains(line.Methods, harness.MethodInk) {
		return harness.MethodSleeve, "", sleeveWarning(t, "laser", "it takes ink, and the line has no ink",
			`add "ink" to line.methods where the line has it, or accept the sleeves`)
	}
	if !slices.Contains(line.Inks, ink) {
		return harness.MethodSleeve, "", sleeveWarning(t, "ink", fmt.Sprintf("it takes %s ink, and the line has no %s head", ink, ink),
			"add the ink to line.inks where the head is fitted, or accept the sleeves")
	}
	return harness.MethodInk, ink, nil
}

// inkOf returns the ink that a type takes: the recorded one where the record says who proved it, else the one that stands out by
// contrast; "" where it has to be proved first. It never returns an ink of the colour of the insulation.
func inkOf(t *harness.WireType) string {
	if t.Ink != "" && t.Proved != nil {
		if handbook.InkHidden(t.Colour, t.Ink) {
			return ""
		}
		return t.Ink
	}
	ink, known, _ := handbook.Contrast(t.Colour)
	if !known || t.Laser == harness.LaserTestFirst || t.Ink != "" && t.Ink != ink {
		return ""
	}
	return ink
}

// testFirstWarning says what to record once a sample of the type was marked.
func testFirstWarning(t *harness.WireType) problem.Problem {
	text := fmt.Sprintf("nothing says how wire type %q takes a mark: it is to be proved before the run", t.ID)
	if t.Ink == "none" && t.Proved == nil {
		text = fmt.Sprintf("type %s takes no ink, and no record proves it: record proved", t.ID)
	} else if t.Ink != "" && t.Proved == nil {
		text = fmt.Sprintf("wire type %q names %s ink without the record that proved it", t.ID, t.Ink)
	}
	return problem.Problem{Severity: problem.Warning, Check: "test-first", Place: t.At, ID: t.ID, Text: text,
		Hint: `mark the sample page, then write ink and proved into the type, or laser = "yes" and proved`}
}

// heightsFor returns the character heights that a diameter allows, largest first: for one line, and for two over each other where
// the line can set them.
func heightsFor(diameter units.Length, line *harness.Line) (single, double []units.Length) {
	room := int64(line.HeightToDiameter) * int64(diameter)
	for _, height := range slices.Backward(slices.Sorted(slices.Values(line.Heights))) {
		if int64(height)*1000 <= room {
			single = append(single, height)
		}
		if line.TwoLines && int64(height)*(1000+int64(line.LinePitch)) <= room {
			double = append(double, height)
		}
	}
	return single, double
}

func sleeveWarning(t *harness.WireType, key, reason, hint string) problem.List {
	return problem.List{{Severity: problem.Warning, Check: "type-sleeve", Place: t.Of(key), ID: t.ID,
		Text: fmt.Sprintf("wire type %q is marked with sleeves: %s", t.ID, reason), Hint: hint}}
}
