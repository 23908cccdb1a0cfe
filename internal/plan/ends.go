package plan

import (
	"cmp"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// endNeed is where an end stands on the board and what it adds to a length.
type endNeed struct {
	place         boardPlace // without a node where the job does not say
	noun, id      string     // "connector", "J1"; "" for an end that goes to none
	tail          units.Length
	toBarrel      units.Length
	strip         units.Length
	retermination units.Length
	trim          units.Length
	extra         units.Length
}

// body says what an end goes to: "connector J1"; "" for none.
func (e endNeed) body() string {
	if e.noun == "" {
		return ""
	}
	return e.noun + " " + e.id
}

// beyond returns what an end adds beyond the way over the board.
func (e endNeed) beyond() units.Length {
	return e.tail + e.toBarrel + e.strip + e.retermination + e.trim + e.extra
}

// need works out an end. A length goes to the reference plane of a connector, the barrel centre of a splice, the hole centre of a
// terminal, and to the tip of an end that is capped or leaves.
func (m *measurer) need(end *harness.End) endNeed {
	need := endNeed{strip: m.strip(end), trim: end.Trim, extra: end.TailExtra, retermination: m.retermination(end)}
	switch end.Kind {
	case harness.EndCavity:
		c := m.connectors[end.Connector]
		need.place, need.noun, need.id = boardPlace{node: c.Node}, "connector", c.ID
		need.tail, need.toBarrel = c.Tail, c.ToBarrel
	case harness.EndSplice:
		need.place, need.noun, need.id = m.splicePlaces[end.Splice], "splice", end.Splice
	case harness.EndTerminal:
		t := m.terminals[end.Terminal]
		need.place, need.noun, need.id, need.tail = boardPlace{node: t.Node}, "terminal", t.ID, t.Tail
	case harness.EndCapped, harness.EndLeaves:
		need.place, need.tail = boardPlace{node: end.Node}, end.Free
	}
	return need
}

// strip returns how far an end is stripped: as the end says, else as the splice or terminal does.
func (m *measurer) strip(end *harness.End) units.Length {
	switch {
	case end.Strip > 0:
	case end.Kind == harness.EndSplice:
		return m.splices[end.Splice].Strip
	case end.Kind == harness.EndTerminal:
		return m.terminals[end.Terminal].Strip
	}
	return end.Strip
}

// retermination returns what an end with a crimp contact or a terminal keeps for crimping anew; other ends keep nothing.
func (m *measurer) retermination(end *harness.End) units.Length {
	crimped := end.Kind == harness.EndTerminal
	if end.Kind == harness.EndCavity {
		contact, found := m.contacts[end.Contact]
		crimped = found && contact.Kind == "crimp"
	}
	if !crimped {
		return 0
	}
	return units.Length(end.Retermination) * (m.strip(end) + m.h.Allowance.TrimBack)
}

// barrel returns the depth of the barrel that an end sits in, for the keep-out; 0 where nothing is crimped on.
func (m *measurer) barrel(end *harness.End) units.Length {
	switch end.Kind {
	case harness.EndSplice:
		return m.splices[end.Splice].Barrel
	case harness.EndTerminal:
		return m.terminals[end.Terminal].Barrel
	}
	if contact, found := m.contacts[end.Contact]; found {
		return contact.Barrel
	}
	return 0
}

// supplyOf returns where a wire or cable comes from: from the reel where nothing is said.
func supplyOf(supply harness.Supply) harness.Supply { return cmp.Or(supply, harness.SupplyReel) }
