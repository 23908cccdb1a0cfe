package plan

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"loomleaf/internal/handbook"
	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

// conductor is what a wire or core brings to a barrel.
type conductor struct {
	awg     string
	section units.Area // of the gauge, or as given
	words   string     // "22 AWG", "0.5 mm²"
	typeID  string
}

// crimp is one barrel and what is crimped into it.
type crimp struct {
	kind, contact, part string // as in a CrimpRow
	solder              bool
	column              string // of pull-test minimums
	setting             harness.Crimp
	size                string // in words
	gauge               string // that the wires count as; "" where no gauge is
	thinnest            string // of one wire alone; "" where one is no gauge
	section             units.Area
	strip               units.Length
	steps               []harness.StripStep
	seated              bool     // pulled when it is in its cavity
	wires               []string // in the barrel
	types               []string
	at                  problem.Place
}

// bench looks up what the crimp bench works on.
type bench struct {
	plan       *Plan
	h          *harness.Harness
	contacts   map[string]*harness.Contact
	connectors map[string]*harness.Connector
	splices    map[string]*harness.Splice
	terminals  map[string]*harness.Terminal
	conductors map[string]conductor     // by wire
	given      map[string]*harness.Wire // pigtails among them
	wires      map[string]*Wire
	cables     map[string]*Cable
	types      map[string]WireType
	barrels    map[string]*crimp // by end: "W101 a"
	crimps     []*crimp          // by connector and cavity, then joints
	taken      map[*crimp]bool   // parts counted
	home       map[string]string // tray of a wire in words
	part       map[string]string // trays that hold a wire, or the cable of a core, where its group fills several: "P3/2"
}

func newBench(p *Plan, h *harness.Harness) *bench {
	m := newMeasurer(h)
	b := &bench{plan: p, h: h, contacts: m.contacts, connectors: m.connectors, splices: m.splices, terminals: m.terminals,
		conductors: conductorsOf(h), given: make(map[string]*harness.Wire, len(h.Wires)), wires: wiresByID(p.Wires),
		cables: map[string]*Cable{}, types: map[string]WireType{}, barrels: make(map[string]*crimp, 2*len(h.Wires)),
		taken: map[*crimp]bool{}, home: make(map[string]string, len(p.Wires)), part: p.partTrays()}
	for i := range p.Wires {
		b.home[p.Wires[i].ID] = p.Wires[i].trayWord()
	}
	for i := range p.Cables {
		b.cables[p.Cables[i].ID] = &p.Cables[i]
	}
	for _, t := range p.Types {
		b.types[t.ID] = t
	}
	at := make(map[string][]barrelEnd, 2*len(h.Wires))
	var places []string
	for _, w := range wiresInOrder(h) {
		b.given[w.ID] = w
		for side, end := range []*harness.End{&w.A, &w.B} {
			place := b.barrelOf(w, end)
			if place == "" {
				continue
			}
			if at[place] == nil {
				places = append(places, place)
			}
			at[place] = append(at[place], barrelEnd{w, end, side})
		}
	}
	slices.SortFunc(places, naturalCompare)
	for _, place := range places {
		b.fill(at[place])
	}
	return b
}

// barrelEnd is an end of a wire in a barrel.
type barrelEnd struct {
	wire *harness.Wire
	end  *harness.End
	side int
}

// barrelOf names the barrel of an end, so that ends of one barrel go by one name; "" where nothing is crimped or soldered on.
func (b *bench) barrelOf(w *harness.Wire, end *harness.End) string {
	switch end.Kind {
	case harness.EndTerminal:
		return end.Terminal
	case harness.EndSplice:
		for i, side := range b.splices[end.Splice].Sides {
			if slices.Contains(side, w.ID) {
				return fmt.Sprintf("%s side %d", end.Splice, i+1)
			}
		}
		return ""
	case harness.EndCavity, harness.EndLeaves:
		if b.contacts[end.Contact] == nil {
			return ""
		}
		if end.Kind == harness.EndLeaves || end.NotLanded {
			return end.Written() + " of " + w.ID
		}
		return end.Written()
	}
	return ""
}

// fill works out a barrel from the ends in it.
func (b *bench) fill(ends []barrelEnd) {
	first := ends[0]
	c := &crimp{at: first.wire.At, strip: b.stripOf(first.end)}
	var crimps []harness.Crimp
	switch first.end.Kind {
	case harness.EndSplice:
		s := b.splices[first.end.Splice]
		c.kind, c.contact, c.part, c.column, crimps = "splice", b.h.Paper.Spoken().Say("strips.part_splice"), s.Part, s.Pull, s.Crimps
	case harness.EndTerminal:
		t := b.terminals[first.end.Terminal]
		c.kind, c.contact, c.part, c.column, crimps = "terminal", t.Kind, t.Part, t.Pull, t.Crimps
	default:
		t := b.contacts[first.end.Contact]
		c.kind, c.contact, c.part, c.column, crimps = "contact", t.ID, t.Part, t.Pull, t.Crimps
		c.solder, c.seated = t.Kind == "solder", first.end.Kind == harness.EndCavity
		if first.end.Strip == t.Strip {
			c.steps = t.Steps
		}
	}
	b.sizeOf(c, ends)
	c.setting = settingFor(c, crimps, b.conductors[first.wire.ID])
	b.crimps = append(b.crimps, c)
	for _, e := range ends {
		b.barrels[e.wire.ID+sideKey(e.side)] = c
	}
}

func sideKey(side int) string { return [...]string{" a", " b"}[side] }

// sizeOf adds up what goes into a barrel: several wires count as the gauge that matches their sum, else the next larger one.
func (b *bench) sizeOf(c *crimp, ends []barrelEnd) {
	known := true
	for i, e := range ends {
		one := b.conductors[e.wire.ID]
		c.wires = append(c.wires, e.wire.ID)
		c.section += one.section
		known = known && one.section > 0
		if i == 0 {
			c.thinnest = one.awg
		} else if thicker, compared := handbook.CompareGauge(c.thinnest, one.awg); !compared {
			c.thinnest = ""
		} else if thicker > 0 {
			c.thinnest = one.awg
		}
		if !slices.Contains(c.types, one.typeID) {
			c.types = append(c.types, one.typeID)
		}
	}
	slices.SortFunc(c.types, naturalCompare)
	if len(ends) == 1 {
		one := b.conductors[ends[0].wire.ID]
		c.size, c.gauge = one.words, one.awg
		return
	}
	spoken := b.h.Paper.Spoken()
	c.size = spoken.SayCount("common.wires", len(ends))
	if !known {
		return
	}
	c.size += spoken.Say("crimp_size.together", "section", spoken.Decimal(c.section.SquareMillimetres()))
	if gauge, _, listed := handbook.SizeForSection(c.section); listed {
		c.gauge = gauge
		c.size += spoken.Say("crimp_size.counts", "gauge", gauge)
	}
}

// settingFor returns the tool setting of a barrel, empty where none is given.
func settingFor(c *crimp, crimps []harness.Crimp, one conductor) harness.Crimp {
	for _, setting := range crimps {
		if len(c.wires) == 1 && handbook.Takes(one.awg, one.section, setting.AWGFrom, setting.AWGTo) {
			return setting
		}
		if len(c.wires) > 1 && c.gauge != "" && handbook.Takes(c.gauge, 0, setting.AWGFrom, setting.AWGTo) {
			return setting
		}
	}
	return harness.Crimp{}
}

// stripOf returns how far an end is stripped, wherever that is done.
func (b *bench) stripOf(end *harness.End) units.Length {
	switch end.Kind {
	case harness.EndSplice:
		return cmp.Or(end.Strip, b.splices[end.Splice].Strip)
	case harness.EndTerminal:
		return cmp.Or(end.Strip, b.terminals[end.Terminal].Strip)
	}
	return end.Strip
}

// conductorsOf returns the conductor of every wire and core.
func conductorsOf(h *harness.Harness) map[string]conductor {
	types, cableTypes, cables := typesByID(h), cableTypesByID(h), map[string]string{}
	for i := range h.Cables {
		cables[h.Cables[i].ID] = h.Cables[i].Type
	}
	conductors := make(map[string]conductor, len(h.Wires))
	for i := range h.Wires {
		w := &h.Wires[i]
		t := types[w.Type]
		if w.Cable != "" {
			t = &harness.WireType{ID: coreTypeID(cables[w.Cable], w.Core)}
			for _, core := range cableTypes[cables[w.Cable]].Cores {
				if core.ID == w.Core {
					t.AWG, t.Section = core.AWG, core.Section
				}
			}
		}
		short, _ := gaugeWords(t)
		conductors[w.ID] = conductor{awg: t.AWG, section: sectionOf(t), words: h.Paper.Spoken().Decimal(short), typeID: t.ID}
	}
	return conductors
}

// stepsOf turns strip steps into rows.
func stepsOf(steps []harness.StripStep) []StripStep {
	var rows []StripStep
	for _, step := range steps {
		rows = append(rows, StripStep{Layer: step.Layer, UM: int64(step.Length)})
	}
	return rows
}

// withWords names the other wires of a barrel: "W111", or "W111 of tray P3" or "P3/2" where it lies elsewhere.
func (b *bench) withWords(c *crimp, wire string) []string {
	var words []string
	for _, other := range c.wires {
		switch {
		case other == wire:
		case b.home[other] == b.home[wire] && b.part[other] == b.part[wire]:
			words = append(words, other)
		case b.plan.hasTray(b.home[other]):
			words = append(words, b.h.Paper.Spoken().Say("crimp_size.of_tray", "wire", other, "tray", cmp.Or(b.part[other], b.home[other])))
		default:
			words = append(words, strings.TrimSpace(other+", "+b.home[other]))
		}
	}
	return words
}

// hasTray reports whether a word names a tray.
func (p *Plan) hasTray(word string) bool {
	return slices.ContainsFunc(p.Groups, func(g Group) bool { return g.Connector == word })
}
