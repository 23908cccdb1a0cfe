package plan

import (
	"cmp"
	"slices"
	"strings"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
	"loomleaf/internal/words"
)

// connectorRows returns the connectors in build order, complete but for their codes. What a face must draw, and the rule for
// unwired cavities, were checked when the job was read.
func connectorRows(h *harness.Harness, lines map[string][]landing, build []string) []Connector {
	contacts := make(map[string]*harness.Contact, len(h.Contacts))
	for i := range h.Contacts {
		contacts[h.Contacts[i].ID] = &h.Contacts[i]
	}
	connectors := make(map[string]*harness.Connector, len(h.Connectors))
	for i := range h.Connectors {
		connectors[h.Connectors[i].ID] = &h.Connectors[i]
	}
	place := make(map[string]int, len(build))
	for i, id := range build {
		place[id] = i
	}
	rows := make([]Connector, 0, len(build))
	for _, id := range build {
		if c := connectors[id]; c != nil {
			rows = append(rows, connectorRow(h.Paper.Spoken(), c, lines, contacts, place))
		}
	}
	return rows
}

// joinNotes puts the note of an end before the note of its wire.
func joinNotes(notes ...string) string {
	notes = slices.DeleteFunc(notes, func(note string) bool { return note == "" })
	return strings.Join(notes, "; ")
}

func connectorRow(said words.Words, c *harness.Connector, lines map[string][]landing, contacts map[string]*harness.Contact, place map[string]int) Connector {
	row := Connector{
		ID: c.ID, Part: c.Part, Title: c.Title, Node: c.Node, Gender: c.Gender, Key: c.Key, Order: orderOf(c), Seal: c.Seal,
		SlideOnFirst: append([]string{}, c.SlideOnFirst...), After: []Closing{}, Face: faceRow(c), Place: c.At,
	}
	for _, step := range c.After {
		row.After = append(row.After, Closing(step))
	}
	row.Cavities = make([]Cavity, 0, len(c.Cavities))
	for i := range c.Cavities {
		row.Cavities = append(row.Cavities, cavityRow(said, c, &c.Cavities[i], lines[c.ID+":"+c.Cavities[i].Name]))
	}
	sortCavities(&row)
	wired := make(map[string]bool)
	for _, cavity := range row.Cavities {
		wired[cavity.Name] = cavity.Fill == FillWire || cavity.Fill == FillShared
	}
	for i := range row.Face.Places {
		row.Face.Places[i].Filled = wired[row.Face.Places[i].Cavity]
	}
	row.Trays = traysOf(row.Cavities, place)
	row.InsertTools = insertTools(row.Cavities, contacts)
	row.Counts = countCavities(row.Cavities)
	return row
}

// orderOf returns the insertion order in force.
func orderOf(c *harness.Connector) string {
	if c.Order == "" {
		return "listed"
	}
	return c.Order
}

// cavityRow says what goes into a cavity.
func cavityRow(said words.Words, c *harness.Connector, cavity *harness.Cavity, landings []landing) Cavity {
	row := Cavity{Name: cavity.Name, Wires: []string{}, Lines: []CavityLine{}}
	for _, end := range landings {
		row.Wires = append(row.Wires, end.line.Wire)
		row.Lines = append(row.Lines, end.line)
	}
	contact := cmp.Or(cavity.Contact, c.Contact)
	landed := slices.DeleteFunc(slices.Clone(landings), func(l landing) bool { return l.line.Loose != "" })
	switch {
	case len(landings) > 0 && len(landed) == 0:
		row.Fill, row.Contact, row.Words = FillLoose, landings[0].contact, said.Say("ends.leave_loose")
	case len(landed) == 1:
		row.Fill, row.Contact = FillWire, landed[0].contact
	case len(landed) > 1:
		row.Fill, row.Contact, row.Words = FillShared, landed[0].contact, togetherWords(said, landed)
	case c.Spare == string(FillSeal):
		row.Fill, row.Words = FillSeal, c.Seal
	case c.Spare == string(FillContactAndSeal):
		row.Fill, row.Contact = FillContactAndSeal, contact
		row.Words = said.Say("ends.contact_and_seal", "contact", contact, "seal", c.Seal)
	default:
		row.Fill, row.Words = FillOpen, said.Say("ends.leave_open")
	}
	return row
}

// sortCavities brings the cavities, which stand as listed, into insertion order.
func sortCavities(row *Connector) {
	places := make(map[string]FacePlace, len(row.Face.Places))
	for _, place := range row.Face.Places {
		places[place.Cavity] = place
	}
	switch row.Order {
	case "centre out":
		slices.SortStableFunc(row.Cavities, func(a, b Cavity) int {
			return cmp.Compare(fromCentre(places[a.Name]), fromCentre(places[b.Name]))
		})
	case "by row":
		slices.SortStableFunc(row.Cavities, func(a, b Cavity) int {
			return cmp.Or(cmp.Compare(places[b.Name].Y, places[a.Name].Y), cmp.Compare(places[a.Name].X, places[b.Name].X))
		})
	}
}

// fromCentre returns the distance from the centre in hundredths of facePitch: the places of a ring are rounded to whole
// units, and must not fall apart by one.
func fromCentre(place FacePlace) int64 {
	const grain = facePitch / 100
	return (int64(units.Distance(units.Length(place.X), units.Length(place.Y))) + grain/2) / grain
}

// traysOf returns the groups whose trays hold wires of the cavities, by their places in build order.
func traysOf(cavities []Cavity, place map[string]int) []string {
	trays := []string{}
	for _, cavity := range cavities {
		for _, line := range cavity.Lines {
			if _, home := place[line.Tray]; home && !slices.Contains(trays, line.Tray) {
				trays = append(trays, line.Tray)
			}
		}
	}
	slices.SortFunc(trays, func(a, b string) int { return cmp.Compare(place[a], place[b]) })
	return trays
}

// insertTools returns the tools that seat the contacts, in the order in which they are first taken up.
func insertTools(cavities []Cavity, contacts map[string]*harness.Contact) []string {
	tools := []string{}
	for _, cavity := range cavities {
		contact, found := contacts[cavity.Contact]
		if found && contact.InsertTool != "" && !slices.Contains(tools, contact.InsertTool) {
			tools = append(tools, contact.InsertTool)
		}
	}
	return tools
}

func countCavities(cavities []Cavity) CavityCounts {
	counts := CavityCounts{Cavities: len(cavities)}
	for _, cavity := range cavities {
		switch cavity.Fill {
		case FillWire, FillShared:
			counts.Wired++
		case FillSeal, FillContactAndSeal:
			counts.Sealed++
		case FillOpen:
			counts.Open++
		case FillLoose:
			counts.Loose++
		}
	}
	return counts
}
