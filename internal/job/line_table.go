package job

import (
	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

const mostRack = 1000

func readLine(h *harness.Harness, t *table) {
	t.require("methods", "inks", "rack", "leading", "step", "short_error", "shortest", "longest", "diameters", "heights",
		"height_to_diameter", "pitch_to_height", "feed", "mark_time", "on_the_fly", "cut_time", "change_time", "set_up_scrap", "handling_time",
		"characters", "longest_text", "blind", "two_lines", "line_pitch_to_height", "test_lengths")
	l := &h.Line
	for _, method := range t.words("methods", string(harness.MethodLaser), string(harness.MethodInk)) {
		l.Methods = append(l.Methods, harness.Method(method))
	}
	l.Inks = t.words("inks", "black", "white")
	l.Rack, _ = t.whole("rack", 1, mostRack)
	l.Mounted = t.name("mounted")
	l.Leading = t.word("leading", "a", "b")
	l.Step = t.length("step", positive)
	l.ShortFixed, l.ShortShare = readShortError(t.inner("short_error"))
	l.Shortest, l.Longest = t.length("shortest", notNegative), t.length("longest", positive)
	if l.Longest > 0 && l.Shortest > l.Longest {
		t.fault(reversedRange, "longest", t.origin.Of("longest"), "", "the longest piece is shorter than the shortest, %s", l.Shortest)
	}
	l.ThinnestDiameter, l.ThickestDiameter = t.lengthRange("diameters")
	l.Heights = readAscending(t, "heights", "write the smallest height first")
	l.HeightToDiameter, l.PitchToHeight = t.factor("height_to_diameter"), t.factor("pitch_to_height")
	l.Feed = measure(t, "feed", units.ParseSpeed, positive)
	l.MarkTime = measure(t, "mark_time", units.ParseTime, notNegative)
	l.OnTheFly = t.truth("on_the_fly")
	l.CutTime = measure(t, "cut_time", units.ParseTime, notNegative)
	l.ChangeTime = readChangeTime(t.inner("change_time"))
	l.SetUpScrap = t.length("set_up_scrap", notNegative)
	l.HandlingTime = measure(t, "handling_time", units.ParseTime, notNegative)
	readMarker(l, t)
	l.Origin = t.done()
}

const mostCharacters = 1000

// readMarker reads what the marking heads can do, and the lengths that are cut and measured at the start of a shift.
func readMarker(l *harness.Line, t *table) {
	l.Characters = t.name("characters")
	l.LongestText, _ = t.whole("longest_text", 1, mostCharacters)
	if blind := t.inner("blind"); blind != nil {
		blind.require("lead", "trail")
		l.Blind = [2]units.Length{blind.length("lead", notNegative), blind.length("trail", notNegative)}
		blind.done()
	}
	l.TwoLines, l.LinePitch = t.truth("two_lines"), t.factor("line_pitch_to_height")
	if l.LinePitch > 0 && l.LinePitch < 1000 {
		t.fault(outOfRange, "line_pitch_to_height", t.origin.Of("line_pitch_to_height"), "write 1 or more", "two lines would stand over each other")
	}
	l.TestLengths = readAscending(t, "test_lengths", "write the shortest first")
}

func readShortError(t *table) (units.Length, units.Share) {
	if t == nil {
		return 0, 0
	}
	t.require("fixed", "share")
	fixed, share := t.length("fixed", notNegative), measure(t, "share", units.ParseShare, notNegative)
	const whole = 1_000_000
	if share >= whole {
		t.fault(outOfRange, "share", t.origin.Of(t.prefix+"share"), "write a share below 100 %", "a piece cannot be short by all of itself")
	}
	t.done()
	return fixed, share
}

func readAscending(t *table, key, hint string) []units.Length {
	lengths := t.lengths(key, 0, positive)
	for i := 1; i < len(lengths); i++ {
		if lengths[i] <= lengths[i-1] {
			t.fault(reversedRange, key, t.get(key).value.items[i].place(), hint, "%s does not follow %s", lengths[i], lengths[i-1])
			return nil
		}
	}
	return lengths
}

func readChangeTime(t *table) harness.ChangeTime {
	if t == nil {
		return harness.ChangeTime{}
	}
	t.require("method", "reel", "ink", "height", "tray", "load")
	time := func(key string) units.Time { return measure(t, key, units.ParseTime, notNegative) }
	c := harness.ChangeTime{Method: time("method"), Reel: time("reel"), Ink: time("ink"), Height: time("height"),
		Tray: time("tray"), Load: time("load")}
	t.done()
	return c
}
