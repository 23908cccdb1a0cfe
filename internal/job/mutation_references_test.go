package job

import (
	"slices"
	"strconv"
	"strings"
)

// referring lists the keys that name an item of another table, and the part of the job that lists it.
const referring = `wire.type reel.type connector.contact connector.cavity.contact wire.a.contact wire.b.contact connector.node wire.via[]
	segment.between[] wire.home connector.shared.wires[] cable.type cable.via[] cable.home wire.cable wire.core splice.node terminal.node
	twist.wires[] splice.sides[] cable.a.pigtail.type cable.b.pigtail.type cable.a.pigtail.to cable.b.pigtail.to wire.from wire.to
	connector.cavity.name[] connector.shared.cavity`

func refers(s site) bool { return s.of(referring) && isText(s) && !strings.Contains(s.value.text, "-") }

// ids returns the texts of a key over all tables, in the order of the files.
func (s *specimen) ids(path string) []string {
	var ids []string
	for _, one := range s.sites {
		if one.path == path {
			ids = append(ids, one.value.text)
		}
	}
	return ids
}

// another returns the next of some texts that differs from one of them, or "".
func another(texts []string, than string) string {
	at := slices.Index(texts, than)
	for i := range texts {
		if next := texts[(at+1+i)%len(texts)]; next != than {
			return next
		}
	}
	return ""
}

// referenceFaults are things that do not fit together.
func referenceFaults() []mutation {
	return []mutation{
		{name: "reference to nothing", at: replaced(refers, func(s site) []string { return []string{strconv.Quote(s.value.text + "9Z")} })},
		{name: "reference to nothing in front of the colon", at: replaced(func(s site) bool { return refers(s) && strings.Contains(s.value.text, ":") },
			func(s site) []string { return []string{strconv.Quote("Z9" + s.value.text)} })},
		{name: "reference in the wrong case", at: replaced(func(s site) bool {
			return refers(s) && !s.of("connector.cavity.name[] connector.shared.cavity wire.core")
		},
			func(s site) []string {
				front, back, split := strings.Cut(s.value.text, ":")
				if lower := strings.ToLower(front); lower != front && split {
					return []string{strconv.Quote(lower + ":" + back)}
				} else if lower != front {
					return []string{strconv.Quote(lower)}
				}
				return nil
			})},
		{name: "end that says nothing", at: replaced(func(s site) bool { return s.of("wire.from wire.to") }, always(`"J1"`, `"J1:"`, `":1"`, `"J1:1:2"`, `"?"`, `"capped"`, `"N1"`))},
		{name: "doubled id", at: replaced(func(s site) bool { return s.key() == "id" && isText(s) && !strings.Contains(s.path, "cores") }, func(s site) []string {
			if id := another(s.specimen.ids(s.path), s.value.text); id != "" {
				return []string{strconv.Quote(id)}
			}
			return nil
		})},
		{name: "the same item twice", at: twiceFault},
		{name: "two wires in one cavity", at: replaced(func(s site) bool { return s.of("wire.from wire.to") && strings.Contains(s.value.text, ":") }, takenCavity)},
		{name: "both ends in one cavity", at: replaced(func(s site) bool { return s.of("wire.to") && s.table.find("from") != nil },
			func(s site) []string { return []string{strconv.Quote(s.table.find("from").value.text)} })},
		{name: "retired id", at: func(s site) []mutant {
			ids := s.specimen.ids("wire.id")
			return only(s.of("job.retired") && len(ids) > 0, func() mutant { return s.cut(s.end-1, s.end, ", "+strconv.Quote(ids[0])+"]") })
		}},
		{name: "segment to itself", at: func(s site) []mutant {
			return only(s.of("segment.between"), func() mutant {
				node := string(s.text[s.value.items[0].at:scalarEnd(s.text, s.value.items[0].at)])
				return s.as("[" + node + ", " + node + "]")
			})
		}},
		{name: "gauge that no contact takes", at: replaced(func(s site) bool { return s.of("wire_type.awg") && s.specimen.lands(s) }, always("4", "40"))},
		{name: "insulation that no contact takes", at: replaced(func(s site) bool { return s.of("wire_type.diameter") && s.specimen.lands(s) }, always(`"30 mm"`, `"0.1 mm"`))},
		{name: "contact that takes no such wire", at: replaced(func(s site) bool { return s.of("contact.awg") && s.specimen.holds(s) }, always("[1, 2]", "[38, 40]"))},
		{name: "no rule for unwired cavities", at: func(s site) []mutant { return only(s.of("connector.spare") && s.specimen.unwired(s), s.without) }},
		{name: "no sealing plug named", at: func(s site) []mutant {
			m := s.without()
			if spare := s.table.find("spare"); spare != nil {
				m = m.accept(spare.at - boolInt(spare.at > s.entry.at)*(lineEnd(s.text, s.end)-lineStart(s.text, s.entry.at)))
			}
			return only(s.of("connector.seal"), func() mutant { return m })
		}},
		{name: "face that draws other cavities", at: facesFault},
		{name: "include of nothing", at: replaced(func(s site) bool { return s.of("include[]") }, always(`"nothing.toml"`, `"../shop.toml"`, `"/etc/shop.toml"`, `"job.toml"`))},
		{name: "file name that no system takes", at: replaced(func(s site) bool { return s.of("job.number job.revision") }, always(`"A/B"`, `"CON"`, `"A B"`, `"TBD"`))},
	}
}

func boolInt(b bool) int {
	if b {
		return 1
	}
	return 0
}

// twiceFault copies a whole table with its id.
func twiceFault(s site) []mutant {
	if s.key() != "id" || s.inline || strings.Contains(s.path, ".places") || s.of("board.id") {
		return nil
	}
	start, end := lineStart(s.text, s.table.at), len(s.text)
	if next := strings.Index(string(s.text[s.end:]), "\n["); next >= 0 {
		end = s.end + next + 1
	}
	copied := string(s.text[start:end])
	m := s.cut(end, end, "\n"+copied+"\n")
	m.lines = append(m.lines, m.lines[0]+strings.Count(copied, "\n")+1)
	return []mutant{m}
}

// takenCavity returns the cavity of another wire that is declared for no other.
func takenCavity(s site) []string {
	shared := s.specimen.ids("connector.shared.cavity")
	taken := another(s.specimen.ids(s.path), s.value.text)
	_, cavity, split := strings.Cut(taken, ":")
	_, own, _ := strings.Cut(s.value.text, ":")
	if !split || contains(shared, cavity) || contains(shared, own) {
		return nil
	}
	return []string{strconv.Quote(taken)}
}

// lands reports whether a wire of a type goes to something that says what it takes.
func (s *specimen) lands(of site) bool {
	id := "wire type " + quoted(of.table.find("id").value.text)
	found := false
	eachTaker(s.sane, func(_ wireEnd, t taker, c conductor) {
		found = found || c.name() == id && t.from != "" && t.insulation[1] > 0
	})
	return found
}

// unwired reports whether a connector has cavities without wires.
func (s *specimen) unwired(of site) bool {
	c := newLookup(s.sane).connectors[of.table.find("id").value.text]
	return len(unwiredCavities(c, wired(s.sane))) > 0
}

// holds reports whether a contact is named by a connector.
func (s *specimen) holds(of site) bool {
	id := of.table.find("id").value.text
	return contains(s.ids("connector.contact"), id)
}

// facesFault takes a cavity out of a face, or a place out of a ring.
func facesFault(s site) []mutant {
	switch {
	case s.of("connector.rings.counts"):
		return []mutant{s.as("[" + strings.Repeat("1, ", 5) + "1]")}
	case s.of("connector.rows") && len(s.value.items) > 1:
		return []mutant{s.as(`["901-902"]`)}
	}
	return nil
}
