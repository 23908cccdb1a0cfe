package job

import (
	"cmp"

	"loomleaf/internal/harness"
)

// resolve tells terminals from splices among the ends that name a bare id.
func resolve(h *harness.Harness) {
	terminals := make(map[string]bool, len(h.Terminals))
	for _, t := range h.Terminals {
		terminals[t.ID] = true
	}
	for _, s := range h.Splices {
		delete(terminals, s.ID) // an id of both is reported as given twice
	}
	turn := func(end *harness.End) {
		if end.Kind == harness.EndSplice && terminals[end.Splice] {
			end.Kind, end.Splice, end.Terminal = harness.EndTerminal, "", end.Splice
		}
	}
	for i := range h.Wires {
		turn(&h.Wires[i].A)
		turn(&h.Wires[i].B)
	}
	for i := range h.Cables {
		for _, side := range cableSides(&h.Cables[i]) {
			if side.end.Pigtail != nil {
				turn(&side.end.Pigtail.To)
			}
		}
	}
}

// putInForce gives every end the contact, stage, strip length and count of re-terminations that hold for it: its own, else
// those of the cavity and its contact, the splice or the terminal, else those of the connector and the allowance.
func putInForce(h *harness.Harness) {
	l := newLookup(h)
	for i := range h.Wires {
		w := &h.Wires[i]
		l.fill(&w.A, set(w.Origin, "a.strip"), h.Allowance.Retermination)
		l.fill(&w.B, set(w.Origin, "b.strip"), h.Allowance.Retermination)
	}
	for i := range h.Cables {
		c := &h.Cables[i]
		for _, side := range cableSides(c) {
			if side.end.Pigtail != nil {
				l.fill(&side.end.Pigtail.To, set(c.Origin, side.name+".pigtail.strip"), h.Allowance.Retermination)
			}
		}
	}
}

func (l *lookup) fill(end *harness.End, ownStrip bool, retermination int) {
	if end.Contact == "" && end.Kind == harness.EndCavity {
		if cavity := l.cavity(end.Connector, end.Cavity); cavity != nil {
			end.Contact = cavity.Contact
		}
	}
	contact, splice, terminal := l.contacts[end.Contact], l.splices[end.Splice], l.terminals[end.Terminal]
	switch {
	case ownStrip:
	case contact != nil:
		end.Strip = contact.Strip
	case splice != nil:
		end.Strip = splice.Strip
	case terminal != nil:
		end.Strip = terminal.Strip
	}
	if splice != nil {
		end.Stage = cmp.Or(end.Stage, splice.Stage)
	}
	end.Stage = cmp.Or(end.Stage, harness.StageBench)
	switch {
	case end.Kind != harness.EndCavity && end.Kind != harness.EndTerminal:
		end.Retermination = 0 // nothing is crimped on that could be crimped on anew
	case end.Retermination == unsetRetermination:
		end.Retermination = retermination
	}
}

// set reports whether the job sets a key of an item.
func set(o harness.Origin, key string) bool {
	_, found := o.Keys[key]
	return found
}
