package plan

import (
	"slices"

	"loomleaf/internal/harness"
)

// stripGroups returns what the bench does, tray by tray; last what stands in no tray.
func (b *bench) stripGroups() []StripGroup {
	groups := make([]StripGroup, 0, len(b.plan.Groups)+1)
	for _, g := range b.plan.Groups {
		group := StripGroup{Group: g.Connector, Title: g.Title, Place: g.Place, Rows: make([]StripRow, 0, 2*len(g.Wires))}
		for _, id := range g.Wires {
			b.strip(&group, id)
		}
		groups = append(groups, b.counted(group))
	}
	rest := StripGroup{Title: b.h.Paper.Spoken().Say("strips.no_tray")}
	for _, item := range b.plan.Apart {
		b.strip(&rest, item.ID)
	}
	if len(rest.Rows) > 0 {
		groups = append(groups, b.counted(rest))
	}
	return groups
}

// strip adds the ends of a wire, or of a cable and its cores.
func (b *bench) strip(group *StripGroup, id string) {
	c := b.cables[id]
	if c == nil {
		group.Rows = b.wireStrips(group.Rows, b.wires[id])
		return
	}
	for side, end := range []CableEnd{c.A, c.B} {
		row := StripRow{Wire: c.ID, End: sideName(side), At: end.At, Do: DoJacket, StripUM: end.JacketOffUM, Shield: end.Shield, Note: c.Note, Place: c.Place}
		if c.Supply != string(harness.SupplyReel) {
			row.Do, row.StripUM, row.Shield = DoNone, 0, ""
		}
		group.Rows = append(group.Rows, row)
	}
	for _, core := range c.Cores {
		group.Rows = b.wireStrips(group.Rows, b.wires[core])
	}
}

func sideName(side int) string { return [...]string{"a", "b"}[side] }

// wireStrips adds the rows of both ends of a wire.
func (b *bench) wireStrips(rows []StripRow, w *Wire) []StripRow {
	given, t := b.given[w.ID], b.types[w.Type]
	for side, end := range []*End{&w.A, &w.B} {
		from := &given.A
		if side == 1 {
			from = &given.B
		}
		row := StripRow{Wire: w.ID, Core: w.Core, Cable: w.Cable, End: sideName(side), At: end.At, Finish: end.Finish,
			Gauge: t.GaugeShort, Words: t.ColourWords, Note: joinNotes(end.Note, w.Note), Place: w.Place, TrimUM: end.TrimUM, Substitutes: w.Substitutes}
		if end.Loose {
			row.Note = joinNotes(b.h.Paper.Spoken().Say("strips.loose"), row.Note)
		}
		b.work(&row, w, from, side)
		rows = append(rows, row)
	}
	return rows
}

// work says what is done to an end.
func (b *bench) work(row *StripRow, w *Wire, end *harness.End, side int) {
	ready := w.Supply != string(harness.SupplyReel)
	row.StripUM = int64(b.stripOf(end))
	if c := b.barrels[w.ID+sideKey(side)]; c != nil {
		row.Do, row.Contact, row.Part = DoCrimp, c.contact, c.part
		row.Tool, row.Locator, row.Setting = c.setting.Tool, c.setting.Locator, c.setting.Setting
		row.Steps, row.With = stepsOf(c.steps), b.withWords(c, w.ID)
		if c.solder {
			row.Do = DoSolder
		}
	} else {
		switch {
		case end.Kind == harness.EndShield:
			row.Do = DoShield
		case end.Kind == harness.EndCapped:
			row.Do, row.StripUM = DoCap, 0
		default:
			row.Do = DoStrip
		}
	}
	row.SlideOn = b.slideOn(w, end, side)
	switch {
	case ready:
		row.Do, row.StripUM, row.Steps, row.TrimUM, row.SlideOn = DoNone, 0, nil, 0, nil
	case end.Stage == harness.StageBoard:
		row.Do = DoLeave
	}
}

// slideOn lists what goes onto the wire before its end is made, in the order in which it goes on.
func (b *bench) slideOn(w *Wire, end *harness.End, side int) []string {
	var items []string
	legend := w.A.Legend
	if side == 1 {
		legend = w.B.Legend
	}
	if w.Method == string(harness.MethodSleeve) && legend != "" {
		items = append(items, b.h.Paper.Spoken().Say("strips.sleeve", "text", legend))
	}
	switch end.Kind {
	case harness.EndTerminal:
		items = append(items, b.terminals[end.Terminal].SlideOnFirst...)
	case harness.EndSplice:
		s := b.splices[end.Splice]
		if len(s.Sides) > 0 && slices.Contains(s.Sides[0], w.ID) { // one sleeve covers both sides
			items = append(items, s.SlideOn...)
		}
	case harness.EndCavity:
		if contact := b.contacts[end.Contact]; contact != nil && contact.Kind == "coax" {
			items = append(items, b.connectors[end.Connector].SlideOnFirst...)
		}
	}
	return items
}

// counted counts the parts that the bench uses up in one unit, in the order in which they come up. A barrel that wires of two
// trays share is counted where it comes up first.
func (b *bench) counted(group StripGroup) StripGroup {
	for _, row := range group.Rows {
		side := " " + row.End
		c := b.barrels[row.Wire+side]
		if c == nil || b.taken[c] || row.Do != DoCrimp && row.Do != DoSolder || c.kind == "splice" && !firstSide(row, b) {
			continue
		}
		b.taken[c] = true
		words := b.h.Paper.Spoken().Say("strips.part_"+c.kind, "name", c.contact)
		at := slices.IndexFunc(group.Contacts, func(p PartCount) bool { return p.Part == c.part && p.Words == words })
		if at < 0 {
			at = len(group.Contacts)
			group.Contacts = append(group.Contacts, PartCount{Part: c.part, Words: words})
		}
		group.Contacts[at].Count++
	}
	return group
}

// firstSide reports whether a row stands on the first side of its splice, where the part is counted.
func firstSide(row StripRow, b *bench) bool {
	s := b.splices[row.At]
	return s != nil && len(s.Sides) > 0 && slices.Contains(s.Sides[0], row.Wire)
}
