package job

import (
	"strings"

	"loomleaf/internal/handbook"
	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
)

// checkLookAlikes warns of cavities and of wires of one connector that are easily read as one another.
func checkLookAlikes(h *harness.Harness) problem.List {
	landing := map[string][]string{}
	for _, e := range wireEnds(h) {
		if ids := landing[e.end.Body()]; len(ids) == 0 || ids[len(ids)-1] != e.wire.ID {
			landing[e.end.Body()] = append(ids, e.wire.ID)
		}
	}
	var found problem.List
	wires := func(kind, id string, at problem.Place) {
		if alike := groups(landing[id], lookForm); alike != "" {
			found = append(found, warning(about(fault(lookAlike, at, "wires of %s %s look alike: %s", kind, quoted(id), alike), id, "rename one of each")))
		}
	}
	for i := range h.Connectors {
		c := &h.Connectors[i]
		if alike := groups(cavityNames(c), lookForm); alike != "" {
			found = append(found, warning(about(fault(lookAlike, c.Of("cavities"), "cavities of connector %s look alike: %s", quoted(c.ID), alike), c.ID,
				"make sure that each wire names the right one")))
		}
		wires("connector", c.ID, c.At)
	}
	for _, s := range h.Splices {
		wires("splice", s.ID, s.At)
	}
	for _, t := range h.Terminals {
		wires("terminal", t.ID, t.At)
	}
	return found
}

// checkNearlySame warns of ids that differ in nothing but case or leading zeros.
func checkNearlySame(h *harness.Harness) problem.List {
	var found problem.List
	for _, set := range idSets(h) {
		ids := make([]string, len(set.ids))
		for i, one := range set.ids {
			ids[i] = one.id
		}
		if same := groups(ids, plainForm); same != "" {
			found = append(found, warning(about(fault(nearlySame, firstOfGroup(set.ids), "%s differ in case or leading zeros only: %s", set.plurals(), same), set.ids[0].kind,
				"rename one of each, or correct it where both mean the same")))
		}
	}
	for i := range h.Connectors {
		c := &h.Connectors[i]
		if same := groups(cavityNames(c), plainForm); same != "" {
			found = append(found, warning(about(fault(nearlySame, c.Of("cavities"), "cavities of connector %s differ in case or leading zeros only: %s",
				quoted(c.ID), same), c.ID, "make sure that each wire names the right one")))
		}
	}
	return found
}

// firstOfGroup returns the place of the first id that has a double in plain form.
func firstOfGroup(ids []placedID) problem.Place {
	seen := map[string]string{}
	for _, one := range ids {
		if other, found := seen[plainForm(one.id)]; found && other != one.id {
			return one.at
		}
		seen[plainForm(one.id)] = one.id
	}
	return problem.Place{}
}

// groups lists the names that have a form in common with another: `"01" and "1"; "A" and "a"`. Equal names count once.
func groups(names []string, form func(string) string) string {
	var forms []string
	members := map[string][]string{}
	seen := map[string]bool{}
	for _, name := range names {
		if seen[name] {
			continue
		}
		seen[name] = true
		key := form(name)
		if members[key] == nil {
			forms = append(forms, key)
		}
		members[key] = append(members[key], quoted(name))
	}
	var alike []string
	for _, key := range forms {
		if len(members[key]) > 1 {
			alike = append(alike, strings.Join(members[key], " and "))
		}
	}
	return strings.Join(alike, "; ")
}

// lookForm replaces what is easily misread by one letter of each kind.
func lookForm(name string) string {
	return strings.Map(func(r rune) rune {
		switch r {
		case '0':
			return 'O'
		case '1', 'l':
			return 'I'
		case '5':
			return 'S'
		case '8':
			return 'B'
		case '2':
			return 'Z'
		case '6':
			return 'G'
		}
		return r
	}, name)
}

// plainForm lowers the case and drops leading zeros of every number in a name.
func plainForm(name string) string {
	lower := strings.ToLower(name)
	var form strings.Builder
	for at := 0; at < len(lower); {
		number, _ := leading(lower[at:])
		if number == "" {
			form.WriteByte(lower[at])
			at++
			continue
		}
		at += len(number)
		if number = strings.TrimLeft(number, "0"); number == "" {
			number = "0"
		}
		form.WriteString(number)
	}
	return form.String()
}

func leading(text string) (number, rest string) {
	end := 0
	for end < len(text) && within(text[end], '0', '9') {
		end++
	}
	return text[:end], text[end:]
}

// checkBlackLaser warns of black insulation that claims a laser mark.
func checkBlackLaser(h *harness.Harness) problem.List {
	var found problem.List
	check := func(kind, id, colour string, laser harness.Laser, at problem.Place) {
		if laser == harness.LaserYes && handbook.DarkBase(colour) {
			found = append(found, warning(about(fault(blackLaser, at, "%s %s is black and claims a laser mark", kind, quoted(id)), id,
				`a laser mark is dark: write laser = "no" and mark it with ink, unless the shop has proved it`)))
		}
	}
	for _, t := range h.WireTypes {
		check("wire type", t.ID, t.Colour, t.Laser, t.Of("laser"))
	}
	for _, t := range h.CableTypes {
		check("cable type", t.ID, t.Colour, t.Laser, t.Of("laser"))
	}
	return found
}

// checkSpareCount warns of connectors with fewer spare cavities than good practice leaves. One that has a single cavity cannot leave any.
func checkSpareCount(h *harness.Harness) problem.List {
	in := wired(h)
	var found problem.List
	for i := range h.Connectors {
		c := &h.Connectors[i]
		wanted, source := handbook.SpareCavities(len(c.Cavities))
		if spare := len(unwiredCavities(c, in)); spare < wanted && len(c.Cavities) > 1 {
			found = append(found, warning(about(fault(fewSpares, c.At, "connector %s keeps %d of %d cavities spare; %s recommends %d",
				quoted(c.ID), spare, len(c.Cavities), source, wanted), c.ID, "accept it, or choose a larger connector")))
		}
	}
	return found
}
