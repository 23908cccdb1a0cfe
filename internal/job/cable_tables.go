package job

import (
	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

func readCableType(h *harness.Harness, t *table) {
	id := t.named("id")
	t.require("id", "cores", "colour", "diameter", "laser")
	c := harness.CableType{ID: id, Part: t.part("part"), Name: t.text("name")}
	t.filled("cores")
	first := map[string]problem.Place{}
	for _, core := range t.list("cores") {
		c.Cores = append(c.Cores, readConductorOf(core.separate(), first))
	}
	c.Colour = readColour(t)
	c.Diameter = t.length("diameter", positive)
	c.Insulation, c.Shield = t.text("insulation"), t.text("shield")
	c.Laser, c.Ink, c.Proved = readMarking(t)
	c.StripBy = readStripBy(t)
	c.Mass = measure(t, "mass", units.ParseLinearMass, positive)
	c.Origin = t.done()
	h.CableTypes = append(h.CableTypes, c)
}

// readConductorOf reads one core of a cable type, and reports an id that an earlier one has.
func readConductorOf(t *table, first map[string]problem.Place) harness.Core {
	t.require("id", "colour")
	c := harness.Core{ID: t.id("id")}
	if c.ID != "" {
		at := t.origin.Of(t.prefix + "id")
		if other, doubled := first[c.ID]; doubled {
			p := about(fault(doubledElement, at, "%s, %sid: core %s is listed twice", t.label, t.prefix, quoted(c.ID)), "", "give one of them another id")
			t.add(with(p, other, "it is listed here already"), "id")
		} else {
			first[c.ID] = at
		}
	}
	c.AWG, c.Section = readConductor(t)
	c.Colour = readColour(t)
	c.Diameter = t.length("diameter", positive)
	c.Origin = t.done()
	return c
}

func readCable(h *harness.Harness, t *table) {
	id := t.named("id")
	t.require("id", "type")
	c := harness.Cable{ID: id, Type: t.name("type"), Via: t.ids("via", t.array("via"))}
	c.Given, c.Measure = readLength(t)
	c.Mark, c.Supply = readMark(t), readSupply(t)
	if c.Supply == harness.SupplyReel || c.Supply == harness.SupplyBought {
		t.require("a", "b")
	}
	c.A, c.B = readCableEnd(t.inner("a")), readCableEnd(t.inner("b"))
	c.Home, c.Note = t.name("home"), t.text("note")
	c.Origin = t.done()
	h.Cables = append(h.Cables, c)
}

func readCableEnd(t *table) harness.CableEnd {
	if t == nil {
		return harness.CableEnd{}
	}
	t.require("jacket_off")
	end := harness.CableEnd{JacketOff: t.length("jacket_off", notNegative), Shield: t.word("shield", "pigtail", "cut back", "through")}
	own := t.inner("pigtail")
	switch {
	case end.Shield == "pigtail":
		t.require("pigtail")
	case own != nil && (end.Shield != "" || !t.has("shield")):
		t.fault(badShield, "pigtail", t.get("pigtail").place(), `write shield = "pigtail", or take the pigtail out`,
			"the shield does not end in a pigtail")
	}
	if own != nil {
		end.Pigtail = readPigtail(own)
	}
	t.done()
	return end
}

const pigtailHint = `write connector and cavity, such as "J1:9", or the id of a terminal`

// readPigtail reads a wire from a shield to a cavity or terminal. Its length is the finished one.
func readPigtail(t *table) *harness.Pigtail {
	t.require("type", "length")
	p := &harness.Pigtail{Type: t.name("type"), Length: t.length("length", positive), To: readPlace(t, "to", "pigtail", pigtailHint)}
	if p.To.Kind == harness.EndCapped || p.To.Kind == harness.EndLeaves {
		t.fault(badEnd, "to", t.get("to").place(), pigtailHint, "a pigtail goes to a cavity or a terminal")
		p.To = harness.End{Retermination: unsetRetermination}
	}
	p.To.Contact, p.To.Strip = t.name("contact"), t.length("strip", notNegative)
	t.done()
	return p
}
