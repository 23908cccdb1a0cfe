package job

import (
	"loomleaf/internal/handbook"
	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

func readWireType(h *harness.Harness, t *table) {
	id := t.named("id")
	t.require("id", "colour", "diameter", "laser")
	w := harness.WireType{ID: id, Part: t.part("part"), Name: t.text("name")}
	w.AWG, w.Section = readConductor(t)
	w.Colour = readColour(t)
	w.Diameter = t.length("diameter", positive)
	w.Insulation = t.text("insulation")
	w.Laser, w.Ink, w.Proved = readMarking(t)
	w.StripBy = readStripBy(t)
	w.Mass = measure(t, "mass", units.ParseLinearMass, positive)
	w.Substitutes = readSubstitutes(t)
	w.Origin = t.done()
	h.WireTypes = append(h.WireTypes, w)
}

// readSubstitutes reads which types may be cut in place of one.
func readSubstitutes(t *table) []harness.Substitute {
	var substitutes []harness.Substitute
	t.filled("substitutes")
	for _, one := range t.list("substitutes") {
		one.separate().require("type", "approved")
		s := harness.Substitute{Type: one.name("type"), Approved: one.text("approved")}
		s.Origin = one.done()
		substitutes = append(substitutes, s)
	}
	return substitutes
}

// readMarking reads how an insulation or jacket takes a mark.
func readMarking(t *table) (laser harness.Laser, ink string, proved *harness.Proof) {
	laser = harness.Laser(t.word("laser", string(harness.LaserYes), string(harness.LaserNo), string(harness.LaserTestFirst)))
	ink = t.word("ink", "black", "white", "none")
	if proof := t.inner("proved"); proof != nil {
		proof.require("on", "by", "record")
		proved = &harness.Proof{On: proof.day("on"), By: proof.text("by"), Record: proof.text("record")}
		proof.done()
	}
	return laser, ink, proved
}

// readStripBy reads how an insulation is stripped, where it is not left to the bench.
func readStripBy(t *table) string { return t.word("strip_by", "blade", "thermal", "laser") }

// readConductor returns a gauge or a section, the other one empty.
func readConductor(t *table) (awg string, section units.Area) {
	if !t.either("awg", "section", `write awg = 22 or section = "0.34 mm2"`) {
		return "", 0
	}
	if e := t.get("awg"); e != nil {
		return t.gauge("awg", e.value), 0
	}
	return "", measure(t, "section", units.ParseArea, positive)
}

// gauge returns a gauge as the handbook spells it, or "".
func (t *table) gauge(key string, v *value) string {
	if v.kind != kindText && v.kind != kindInteger {
		t.fault(wrongKind, key, v.place(), `write awg = 22, or awg = "2/0" for large ones`, "%s is no gauge", written(v))
		return ""
	}
	size, listed := handbook.WireSizeOf(v.text)
	if !listed {
		t.fault(badGauge, key, v.place(), `write one gauge from 40 to "4/0", odd or even`, "%s is no gauge", written(v))
		return ""
	}
	return size.Gauge
}

// gaugeRange returns the thickest and the thinnest gauge of a list.
func (t *table) gaugeRange(key string) (thickest, thinnest string) {
	items := t.array(key)
	if e := t.get(key); e == nil || e.value.kind != kindArray {
		return "", ""
	}
	if len(items) != 2 {
		t.fault(badGauge, key, t.get(key).place(), "write the thickest and the thinnest gauge, such as [22, 28]", "the list holds %d gauges instead of 2", len(items))
		return "", ""
	}
	thickest, thinnest = t.gauge(key, items[0]), t.gauge(key, items[1])
	if compared, fine := handbook.CompareGauge(thickest, thinnest); fine && compared < 0 {
		t.fault(reversedRange, key, t.get(key).place(), "write the thickest gauge first, which has the smaller number", "%s is thinner than %s", thickest, thinnest)
		return "", ""
	}
	if thickest == "" || thinnest == "" {
		return "", ""
	}
	return thickest, thinnest
}

func readColour(t *table) string {
	code := t.name("colour")
	if code == "" {
		return ""
	}
	if _, listed := handbook.ColourOf(code); listed {
		return code
	}
	hint := `write a base and at most two other stripes, such as "WH/BU", or "?" where it is not known`
	if meant, found := handbook.Synonym(code); found {
		hint = "write " + quoted(meant)
	}
	t.fault(badColour, "colour", t.origin.Of(t.prefix+"colour"), hint, "%s is no colour code", quoted(code))
	return ""
}

func readReel(h *harness.Harness, t *table) {
	id := t.named("id")
	t.require("id", "type", "left")
	r := harness.Reel{ID: id, Type: t.name("type"), Left: t.length("left", positive), Lot: t.text("lot"), Place: t.text("place")}
	r.Origin = t.done()
	h.Reels = append(h.Reels, r)
}

func readContact(h *harness.Harness, t *table) {
	id := t.named("id")
	t.require("id", "kind", "barrel", "strip")
	c := harness.Contact{ID: id, Part: t.part("part"), Kind: t.word("kind", "crimp", "solder", "coax")}
	c.AWGFrom, c.AWGTo = t.gaugeRange("awg")
	c.InsulationFrom, c.InsulationTo = t.lengthRange("insulation")
	c.Barrel = t.length("barrel", notNegative)
	c.Strip, c.Steps = readStrip(t, c.Kind)
	c.Pull, c.InsertTool = t.word("pull", handbook.PullColumns()...), t.text("insert_tool")
	c.Crimps = readCrimps(t)
	c.Origin = t.done()
	h.Contacts = append(h.Contacts, c)
}

func readCrimps(t *table) []harness.Crimp {
	var crimps []harness.Crimp
	for _, setting := range t.list("crimp") {
		setting.require("awg", "tool")
		crimp := harness.Crimp{Tool: setting.text("tool"), Locator: setting.text("locator"), Setting: setting.text("setting")}
		crimp.Pull = measure(setting, "pull", units.ParseForce, positive)
		crimp.AWGFrom, crimp.AWGTo = setting.gaugeRange("awg")
		setting.done()
		crimps = append(crimps, crimp)
	}
	return crimps
}

// readStrip reads how far a wire is stripped: one length, or the steps of a coax contact, of which the first is the longest.
func readStrip(t *table, kind string) (units.Length, []harness.StripStep) {
	e := t.get("strip")
	if e == nil || e.value.kind != kindArray {
		return t.length("strip", notNegative), nil
	}
	if kind != "coax" && kind != "" {
		t.fault(badSteps, "strip", e.place(), `write one length, or kind = "coax"`, "a %s contact is not stripped in steps", kind)
	}
	t.filled("strip")
	var steps []harness.StripStep
	for _, layer := range t.list("strip") {
		layer.require("layer", "length")
		step := harness.StripStep{Layer: layer.text("layer"), Length: layer.length("length", positive)}
		layer.done()
		if last := len(steps) - 1; last >= 0 && step.Length >= steps[last].Length && step.Length > 0 && steps[last].Length > 0 {
			layer.fault(badSteps, "length", layer.get("length").place(), "write the outermost layer first, each shorter than the one before",
				"%s does not follow %s", step.Length, steps[last].Length)
		}
		steps = append(steps, step)
	}
	if len(steps) == 0 {
		return 0, nil
	}
	return steps[0].Length, steps
}
