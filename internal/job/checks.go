package job

import (
	"strings"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
)

// check is one computation over the harness. It rests on some keys of the job, and is left out where reading one of
// them failed: what it found then could be a mere consequence.
type check struct {
	run   func(*harness.Harness) problem.List
	rests string // keys, "wire.from wire.to"; a table alone means that it was not read
}

func checks() []check {
	const ends = "connector connector.id connector.cavities wire wire.from wire.to"
	const contacts = ends + " contact contact.id wire.a.contact wire.b.contact connector.contact connector.cavity.name connector.cavity.contact"
	return []check{
		{checkDoubled, ""},
		{checkRetired, "job.retired"},
		{checkTypes, "wire_type wire_type.id"},
		{checkContacts, "contact contact.id"},
		{checkConnectors, "connector connector.id"},
		{checkCavities, "connector connector.id connector.cavities"},
		{checkHomes, ""},
		{checkNodes, "node node.id"},
		{checkLabels, "stock"},
		{checkDrawn, "connector.cavities connector.rows connector.rings connector.rings.counts connector.places"},
		{checkTaken, "wire.id connector.id connector.shared connector.shared.cavity connector.shared.wires"},
		{checkShared, ends + " wire.id connector.shared connector.shared.cavity connector.shared.wires"},
		{checkSameCavity, ""},
		{checkGauges, contacts + " contact.awg wire_type.id wire_type.awg wire_type.section"},
		{checkDiameters, contacts + " contact.insulation wire_type.id wire_type.diameter"},
		{checkSections, contacts + " contact.awg wire.type wire_type.id wire_type.awg wire_type.section"},
		{checkStrips, contacts + " wire.a.strip wire.b.strip contact.strip"},
		{checkLengthIs, "job job.length_is"},
		{checkLengths, "connector connector.id connector.node wire.length board board.id node"},
		{checkTails, "connector.id connector.node connector.tail wire.length"},
		{checkSegments, ""},
		{checkOnBoard, "board board.size node.at"},
		{checkWires, "job wire"},
		{checkExpected, "job.expect wire"},
		{checkSpareRules, ends + " connector.spare"},
		{checkSeals, ends + " connector.spare connector.seal connector.contact connector.cavity.contact"},
		{checkSerialLegends, "marks policy"},
		{checkLookAlikes, ""},
		{checkNearlySame, ""},
		{checkBlackLaser, ""},
		{checkSpareCount, ends},
		{checkQuotes, "safety.quote paper.language"},
		{checkParts, "wire_type.part contact.part connector.part"},
	}
}

// runChecks returns what the checks find that can be run.
func runChecks(h *harness.Harness, unread map[string]bool) problem.List {
	var found problem.List
	for _, c := range checks() {
		if !anyUnread(c.rests, unread) {
			found = append(found, c.run(h)...)
		}
	}
	return found
}

func anyUnread(rests string, unread map[string]bool) bool {
	for _, key := range strings.Fields(rests) {
		if unread[key] {
			return true
		}
	}
	return false
}

// wireEnd is an end of a wire with its place in the job.
type wireEnd struct {
	wire *harness.Wire
	end  *harness.End
	side string // "a" or "b"
	at   problem.Place
}

// where returns the cavity of an end as references write it.
func (e wireEnd) where() string { return e.end.Connector + ":" + e.end.Cavity }

// own returns where the end itself sets a key, or where it lands.
func (e wireEnd) own(key string) problem.Place {
	if place, found := e.wire.Keys[e.side+"."+key]; found {
		return place
	}
	return e.at
}

// wireEnds returns the ends of all wires that name a cavity, in the order of the job.
func wireEnds(h *harness.Harness) []wireEnd {
	ends := make([]wireEnd, 0, 2*len(h.Wires))
	for i := range h.Wires {
		w := &h.Wires[i]
		if w.A.Connector != "" {
			ends = append(ends, wireEnd{w, &w.A, "a", w.Of("from")})
		}
		if w.B.Connector != "" {
			ends = append(ends, wireEnd{w, &w.B, "b", w.Of("to")})
		}
	}
	return ends
}

// wired returns the ends in each cavity, by "J1:7".
func wired(h *harness.Harness) map[string][]wireEnd {
	in := map[string][]wireEnd{}
	for _, e := range wireEnds(h) {
		in[e.where()] = append(in[e.where()], e)
	}
	return in
}
