package job

import (
	"loomleaf/internal/handbook"
	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
)

// checkInks refuses an ink that cannot show on its insulation, whatever the record says.
func checkInks(h *harness.Harness) problem.List {
	var found problem.List
	check := func(kind, id, colour, ink string, at problem.Place) {
		if handbook.InkHidden(colour, ink) {
			found = append(found, about(fault(inkHidden, at, "%s %s is %s, and %s ink cannot show on it", kind, quoted(id), ink, ink), id,
				"correct the ink or the colour"))
		}
	}
	for _, t := range h.WireTypes {
		check("wire type", t.ID, t.Colour, t.Ink, t.Of("ink"))
	}
	for _, t := range h.CableTypes {
		check("cable type", t.ID, t.Colour, t.Ink, t.Of("ink"))
	}
	return found
}

// checkWireNumbers compares significant wire numbers with the gauge of their wires, where the job uses such numbers.
func checkWireNumbers(h *harness.Harness) problem.List {
	if h.Marks.WireNumbers != "significant" {
		return nil
	}
	gauges := conductorGauges(h)
	var found problem.List
	for i := range h.Wires {
		w := &h.Wires[i]
		number, is := handbook.WireNumberOf(w.ID)
		if !is {
			found = append(found, about(fault(wireNumber, w.Of("id"), "%s is no significant wire number", quoted(w.ID)), w.ID,
				`write function, number, segment, size and suffix, such as "P215A4N", or wire_numbers = "plain" in [marks]`))
			continue
		}
		gauge, known := gauges[[2]string{w.Type + w.Cable, w.Core}]
		if compared, fine := handbook.CompareGauge(number.Size, gauge); known && (!fine || compared != 0) {
			found = append(found, about(fault(wireNumber, w.Of("id"), "the number of wire %s says size %s, and the wire is %s", quoted(w.ID),
				number.Size, gaugeOrMetric(gauge)), w.ID, "correct the number or the type"))
		}
	}
	return found
}

func gaugeOrMetric(gauge string) string {
	if gauge == "" {
		return "given in mm2"
	}
	return gauge + " AWG"
}

// conductorGauges returns the gauge of every wire type, and of every core by its cable; "" for those given in mm2.
func conductorGauges(h *harness.Harness) map[[2]string]string {
	gauges := map[[2]string]string{}
	cores := map[string][]harness.Core{}
	for _, t := range h.WireTypes {
		gauges[[2]string{t.ID, ""}] = t.AWG
	}
	for _, t := range h.CableTypes {
		cores[t.ID] = t.Cores
	}
	for _, c := range h.Cables {
		for _, core := range cores[c.Type] {
			gauges[[2]string{c.ID, core.ID}] = core.AWG
		}
	}
	return gauges
}
