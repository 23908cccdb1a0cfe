package job

import (
	"strings"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

func readWire(h *harness.Harness, t *table) {
	id := t.named("id")
	t.require("id")
	t.either("type", "cable", `write type = "..." for a wire of its own, or cable and core for a core of a cable`)
	w := harness.Wire{ID: id, Type: t.name("type"), Cable: t.name("cable"), Core: t.name("core"), Via: t.ids("via", t.array("via"))}
	w.A, w.B = readEnd(t, "from", "a"), readEnd(t, "to", "b")
	w.Given, w.Measure = readLength(t)
	w.Mark, w.Supply = readMark(t), readSupply(t)
	w.Separation, w.Home, w.Note = t.text("separation"), t.name("home"), t.text("note")
	readCore(t)
	w.Origin = t.done()
	h.Wires = append(h.Wires, w)
}

// readCore reports what a core cannot have of its own, and a core of no cable.
func readCore(t *table) {
	if !t.has("cable") {
		if e := t.get("core"); e != nil {
			t.fault(badCore, "core", e.place(), `write cable = "..." beside it, or take it out`, "a wire with a type is no core")
		}
		return
	}
	t.require("core")
	for _, key := range []string{"length", "mark", "supply"} {
		if e := t.get(key); e != nil {
			t.fault(badCore, key, e.place(), "write "+key+" in the [[cable]]", "the cable decides it for all its cores")
		}
	}
}

// readLength returns a length, or that it is measured at the bench.
func readLength(t *table) (given units.Length, measure bool) {
	e := t.get("length")
	if e == nil || e.value.kind != kindText {
		return t.length("length", positive), false
	}
	switch text := strings.TrimSpace(e.value.text); {
	case text == "measure":
		return 0, true
	case text != "" && !strings.ContainsAny(text, "0123456789"):
		t.fault(badQuantity, "length", e.place(), `write length = "measure" where it is measured at the bench, else a number and a unit, such as "120 mm"`,
			"%s is no length", quoted(text))
		return 0, false
	}
	return t.length("length", positive), false
}

func readMark(t *table) string {
	if !t.has("mark") {
		return "full"
	}
	return t.word("mark", "full", "ends", "none")
}

func readSupply(t *table) harness.Supply {
	if !t.has("supply") {
		return harness.SupplyReel
	}
	return harness.Supply(t.word("supply", string(harness.SupplyReel), string(harness.SupplyExisting), string(harness.SupplyBought),
		string(harness.SupplyWithPart)))
}
