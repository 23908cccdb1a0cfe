package job

import "loomleaf/internal/harness"

func readConnector(h *harness.Harness, t *table) {
	id := t.named("id")
	t.require("id", "cavities")
	c := harness.Connector{ID: id, Part: t.part("part"), Title: t.text("title")}
	c.Arrangement = t.name("arrangement")
	list := t.cavities("cavities", t.filled("cavities"))
	t.distinct("cavities", list)
	c.Contact = t.name("contact")
	c.Cavities = readCavities(t, list, c.Contact)
	c.Face = readFace(t)
	c.Gender, c.Key = t.text("gender"), t.text("key")
	c.Seal = t.text("seal")
	c.Spare = t.word("spare", "seal", "contact and seal", "open")
	c.Node, c.Tail = t.name("node"), t.length("tail", notNegative)
	c.Reference = t.word("reference", "rear face", "mating face", "backshell rear")
	c.ToBarrel = t.length("to_barrel", anySign)
	c.SlideOnFirst = t.texts("slide_on_first", t.array("slide_on_first"))
	if c.Order = "listed"; t.has("order") {
		c.Order = t.word("order", "centre out", "by row", "listed")
	}
	for _, step := range t.list("after") {
		step.require("step")
		c.After = append(c.After, harness.Step{Step: step.text("step"), Value: step.text("value")})
		step.done()
	}
	for _, shared := range t.list("shared") {
		c.Shared = append(c.Shared, readShared(shared.separate()))
	}
	c.Origin = t.done()
	h.Connectors = append(h.Connectors, c)
}

// readCavities gives the cavities their contacts: the connector's, unless a [[connector.cavity]] names another.
func readCavities(t *table, list []named, contact string) []harness.Cavity {
	cavities := make([]harness.Cavity, len(list))
	at := make(map[string]int, len(list))
	for i, cavity := range list {
		cavities[i] = harness.Cavity{Origin: harness.Origin{At: cavity.at}, Name: cavity.name, Contact: contact}
		at[cavity.name] = i
	}
	var overridden []named
	for _, override := range t.list("cavity") {
		override.separate()
		override.require("name", "contact")
		names, own := override.cavities("name", override.filled("name")), override.name("contact")
		origin := override.done()
		overridden = append(overridden, names...)
		for _, cavity := range names {
			i, found := at[cavity.name]
			if !found {
				lacking(t, override.prefix+"name", cavity)
				continue
			}
			cavities[i].Contact = own
			cavities[i].Origin = origin
		}
	}
	t.distinct("cavity", overridden)
	return cavities
}

// lacking reports a cavity that the connector itself does not list.
func lacking(t *table, key string, cavity named) {
	if t.unread["connector.cavities"] {
		return
	}
	t.fault(unknownCavity, key, cavity.at, "add it to cavities, or take it out here", "the connector has no cavity %s", quoted(cavity.name))
}

func readShared(t *table) harness.Shared {
	t.require("cavity", "wires")
	s := harness.Shared{Cavity: t.name("cavity"), Wires: t.ids("wires", t.filled("wires"))}
	s.Origin = t.done()
	return s
}
