package job

import (
	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
)

// wireEnd is an end of a wire with its place in the job.
type wireEnd struct {
	wire *harness.Wire
	end  *harness.End
	side string // "a" or "b"
	at   problem.Place
}

// where returns where the end goes as references write it.
func (e wireEnd) where() string { return e.end.Written() }

// own returns where the end itself sets a key, or where it lands.
func (e wireEnd) own(key string) problem.Place {
	if place, found := e.wire.Keys[e.side+"."+key]; found {
		return place
	}
	return e.at
}

// sets reports whether the end itself sets a key.
func (e wireEnd) sets(key string) bool { return set(e.wire.Origin, e.side+"."+key) }

// is reports whether the end goes to one of some kinds of place.
func (e wireEnd) is(kinds ...harness.EndKind) bool {
	for _, kind := range kinds {
		if e.end.Kind == kind {
			return true
		}
	}
	return false
}

// wireEnds returns the ends of all wires that say where they go, in the order of the job, then those of the pigtails.
func wireEnds(h *harness.Harness) []wireEnd {
	ends := make([]wireEnd, 0, 2*len(h.Wires)+2*len(h.Cables))
	for i := range h.Wires {
		w := &h.Wires[i]
		if isRead(&w.A) {
			ends = append(ends, wireEnd{w, &w.A, "a", w.Of("from")})
		}
		if isRead(&w.B) {
			ends = append(ends, wireEnd{w, &w.B, "b", w.Of("to")})
		}
	}
	for i := range h.Cables {
		c := &h.Cables[i]
		for _, side := range cableSides(c) {
			if p := side.end.Pigtail; p != nil && isRead(&p.To) {
				w := pigtailWire(c, side.name, p)
				ends = append(ends, wireEnd{w, &w.B, "b", w.Of("to")})
			}
		}
	}
	return ends
}

// cavityEnds returns the ends that go to a cavity.
func cavityEnds(h *harness.Harness) []wireEnd {
	var ends []wireEnd
	for _, e := range wireEnds(h) {
		if e.is(harness.EndCavity) {
			ends = append(ends, e)
		}
	}
	return ends
}

// wired returns the ends in each cavity, splice and terminal, by "J1:7" and "SP1".
func wired(h *harness.Harness) map[string][]wireEnd {
	in := map[string][]wireEnd{}
	for _, e := range wireEnds(h) {
		if e.end.Body() != "" {
			in[e.where()] = append(in[e.where()], e)
		}
	}
	return in
}

// pigtailID names the wire that the pigtail at an end of a cable becomes: "C1-PA".
func pigtailID(cable, side string) string {
	if side == "a" {
		return cable + "-PA"
	}
	return cable + "-PB"
}

// pigtailWire shows a pigtail as a wire from the shield to where it goes, with the places of its keys.
func pigtailWire(c *harness.Cable, side string, p *harness.Pigtail) *harness.Wire {
	key := side + ".pigtail."
	origin := harness.Origin{At: c.Of(side + ".pigtail"), Keys: map[string]problem.Place{}}
	for own, cables := range map[string]string{"to": key + "to", "type": key + "type", "b.contact": key + "contact", "b.strip": key + "strip"} {
		if set(c.Origin, cables) {
			origin.Keys[own] = c.Of(cables)
		}
	}
	return &harness.Wire{Origin: origin, ID: pigtailID(c.ID, side), Type: p.Type, Given: p.Length, Supply: c.Supply,
		A: harness.End{Kind: harness.EndShield, Shield: c.ID}, B: p.To}
}

// run is what is cut to one length: a wire of its own, or a cable with its cores.
type run struct {
	noun, id string
	origin   harness.Origin
	onBoard  bool // its length comes from the board
	given    bool
	wires    []*harness.Wire
	cable    *harness.Cable // nil for a wire
}

// runs returns the wires and then the cables of a job. Pigtails have their own length and are left out.
func runs(h *harness.Harness) []run {
	var all []run
	cores := map[string][]*harness.Wire{}
	for i := range h.Wires {
		w := &h.Wires[i]
		if w.Cable != "" {
			cores[w.Cable] = append(cores[w.Cable], w)
			continue
		}
		all = append(all, run{noun: "wire", id: w.ID, origin: w.Origin, given: w.Given > 0, wires: []*harness.Wire{w},
			onBoard: w.Given == 0 && !w.Measure && w.Supply == harness.SupplyReel})
	}
	for i := range h.Cables {
		c := &h.Cables[i]
		all = append(all, run{noun: "cable", id: c.ID, origin: c.Origin, given: c.Given > 0, wires: cores[c.ID], cable: c,
			onBoard: c.Given == 0 && !c.Measure && c.Supply == harness.SupplyReel})
	}
	return all
}

// ends returns both ends of every wire of a run that say where they go.
func (r run) ends() []wireEnd {
	var ends []wireEnd
	for _, w := range r.wires {
		if isRead(&w.A) && isRead(&w.B) {
			ends = append(ends, wireEnd{w, &w.A, "a", w.Of("from")}, wireEnd{w, &w.B, "b", w.Of("to")})
		}
	}
	return ends
}

// name names a run for messages: `wire "W1"`.
func (r run) name() string { return r.noun + " " + quoted(r.id) }
