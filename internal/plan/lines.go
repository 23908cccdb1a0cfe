package plan

import (
	"slices"

	"loomleaf/internal/harness"
)

// isCable reports whether a row of the cut list is a cable in the shape of a wire.
func (w *Wire) isCable() bool { return w.Cable != "" && w.Cable == w.ID }

// onLine reports whether the line cuts a wire.
func (w *Wire) onLine() bool {
	return w.Cable == "" && w.Supply == string(harness.SupplyReel) && w.Status != string(harness.LengthMeasure)
}

// lineRow returns a cable in the shape of a wire, as far as the line is concerned.
func lineRow(c *Cable) *Wire {
	return &Wire{
		ID: c.ID, Type: c.Type, Cable: c.ID, Supply: c.Supply, Home: c.Home, CutUM: c.CutUM, Status: c.Status,
		FinishedUM: c.FinishedUM, MassMG: c.MassMG, MassEstimated: c.MassEstimated,
		Method: c.Method, Ink: c.Ink, HeightUM: c.HeightUM, Marks: c.Marks, Code: c.Code, Place: c.Place, unit: "cable " + c.ID,
	}
}

// lineRows returns what the line cuts: wires and cables, each as one row, with the units that stay together.
func lineRows(wires []Wire, cables []Cable) []*Wire {
	rows := make([]*Wire, 0, len(wires)+len(cables))
	unit := map[string]string{} // by pigtail
	for i := range cables {
		if c := &cables[i]; c.onLine() {
			rows = append(rows, lineRow(c))
			unit[c.A.Pigtail], unit[c.B.Pigtail] = "cable "+c.ID, "cable "+c.ID
		}
	}
	for i := range wires {
		w := &wires[i]
		if !w.onLine() {
			continue
		}
		w.unit = unit[w.ID]
		if w.Twist != "" {
			w.unit = "twist " + w.Twist
		}
		rows = append(rows, w)
	}
	return rows
}

// listWires fills in the wires and cables: what the line cuts in the order of the run, cores behind each other in the place of their
// cable; then the cables and the wires that stand apart, by id.
func (p *Plan) listWires(wires []Wire, cables []Cable) {
	p.Wires = make([]Wire, 0, len(wires))
	wire, cable := wiresByID(wires), map[string]*Cable{}
	for i := range cables {
		cable[cables[i].ID] = &cables[i]
	}
	take := func(id string) {
		if w, found := wire[id]; found {
			p.Wires = append(p.Wires, *w)
			delete(wire, id)
			return
		}
		p.Cables = append(p.Cables, *cable[id])
		for _, core := range cable[id].Cores {
			p.Wires = append(p.Wires, *wire[core])
			delete(wire, core)
		}
		delete(cable, id)
	}
	for _, group := range p.Groups {
		for _, id := range group.Wires {
			take(id)
		}
	}
	for i := range cables {
		c := &cables[i]
		if _, left := cable[c.ID]; left {
			p.Apart = append(p.Apart, apartRow(c.ID, c.Type, c.Supply, c.Status, c.A.At, c.B.At, c.Note, c.given))
			take(c.ID)
		}
	}
	for i := range wires {
		w := &wires[i]
		if _, left := wire[w.ID]; left {
			p.Apart = append(p.Apart, apartRow(w.ID, w.Type, w.Supply, w.Status, w.From, w.To, w.Note, w.given))
			take(w.ID)
		}
	}
	slices.SortFunc(p.Apart, func(a, b Apart) int { return naturalCompare(a.ID, b.ID) })
}

// apartRow says why the line does not cut a wire or cable.
func apartRow(id, wireType, supply, status, from, to, note string, given int64) Apart {
	reason := supply
	if supply == string(harness.SupplyReel) {
		reason = status
	}
	words := map[string]string{
		string(harness.SupplyExisting): "is there already",
		string(harness.SupplyBought):   "comes ready made",
		string(harness.SupplyWithPart): "comes with its part",
		string(harness.LengthMeasure):  "to be measured at the bench, cut ____ mm",
	}
	return Apart{ID: id, Type: wireType, Reason: reason, Words: words[reason], From: from, To: to, UM: given, Note: note}
}

// trayWord returns what a checklist prints as the tray of a wire: the group whose tray holds it, or why none does.
func (w *Wire) trayWord() string {
	switch {
	case w.Supply != string(harness.SupplyReel):
		return w.Supply
	case w.Status == string(harness.LengthMeasure):
		return "measured"
	}
	return w.Home
}
