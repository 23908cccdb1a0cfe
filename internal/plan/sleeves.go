package plan

import (
	"cmp"
	"fmt"
	"slices"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

// Sleeve is a marker sleeve of a wire, a core or a cable: one a unit.
type Sleeve struct {
	Wire     string `json:"wire"`      // id of the wire or cable
	Kind     string `json:"kind"`      // "sleeve", or "tag" where no sleeve has room clear of the ends
	End      string `json:"end"`       // "a", "b" or "" for the middle
	At       string `json:"at"`        // where that end goes; "" for the middle
	Text     string `json:"text"`      // what is printed on it
	Part     string `json:"part"`      // by the diameter; "" where no size of the shop fits
	Diameter int64  `json:"wire_um"`   // of the wire or jacket
	FromUM   int64  `json:"from_um"`   // from the finished end, of end a for the middle, to the sleeve
	LengthUM int64  `json:"length_um"` // of the sleeve
	Group    string `json:"group"`     // whose tray holds the wire; "" for one that the line does not cut
	Count    int    `json:"count"`     // one for each unit
}

// SleeveSum sums the sleeves of one part.
type SleeveSum struct {
	Part  string `json:"part"` // "" for those without a size that fits
	Count int    `json:"count"`
}

// sleever chooses sleeves and their places.
type sleever struct {
	sizes    []harness.SleeveSize // smallest first
	length   units.Length         // of a sleeve whose size does not say it
	interval units.Length         // from one sleeve to the next
}

func newSleever(h *harness.Harness) sleever {
	sizes := slices.Clone(h.Sleeves)
	slices.SortStableFunc(sizes, func(a, b harness.SleeveSize) int {
		return cmp.Or(cmp.Compare(a.To, b.To), cmp.Compare(a.From, b.From), naturalCompare(a.Part, b.Part))
	})
	return sleever{sizes, h.Marks.SleeveLength, h.Marks.SleeveInterval}
}

// size returns the smallest size that goes over a diameter, without a part where none does.
func (s sleever) size(diameter units.Length) harness.SleeveSize {
	for _, size := range s.sizes {
		if diameter >= size.From && diameter <= size.To {
			size.Length = cmp.Or(size.Length, s.length)
			return size
		}
	}
	return harness.SleeveSize{Length: s.length}
}

// of returns the sleeves of a subject: one at each end, and between them no further apart than the interval where the whole wire is
// marked; a single one in the middle where the ends have no room; a tag where none has.
func (s sleever) of(m markSubject) []Sleeve {
	size, texts := s.size(m.diameter), m.ladder[0]
	row := Sleeve{Wire: m.id, Kind: "sleeve", Part: size.Part, Diameter: int64(m.diameter), LengthUM: int64(size.Length)}
	span := m.span
	span.widthA, span.widthB, span.widthM, span.interval, span.common = size.Length, size.Length, size.Length, s.interval, false
	if starts, fits := span.place(); fits {
		return sleevesAt(row, m, span, starts, texts)
	}
	row.Text = texts.middle
	if start, fits := span.centred(); fits {
		row.FromUM = int64(start)
		return []Sleeve{row}
	}
	row.Kind, row.Part, row.LengthUM = "tag", "", 0
	return []Sleeve{row}
}

// sleevesAt writes a row for every start of a placing, end a first.
func sleevesAt(row Sleeve, m markSubject, span markSpan, starts []units.Length, texts legends) []Sleeve {
	last := len(starts) - 1
	rows := make([]Sleeve, 0, len(starts))
	for i, start := range starts {
		row.End, row.At, row.Text, row.FromUM = "", "", texts.middle, int64(start)
		switch i {
		case 0:
			row.End, row.At, row.Text = "a", m.at[0], texts.a
		case last:
			row.End, row.At, row.Text = "b", m.at[1], texts.b
			row.FromUM = int64(span.length - start - span.widthB)
		}
		rows = append(rows, row)
	}
	return rows
}

// atEnd returns the sleeve of one end, as near to the wanted place as what has to stay clear allows.
func (s sleever) atEnd(w *harness.Wire, end, at, text string, diameter, wanted, keep units.Length) Sleeve {
	size := s.size(diameter)
	return Sleeve{Wire: w.ID, Kind: "sleeve", End: end, At: at, Text: text, Part: size.Part, Diameter: int64(diameter),
		FromUM: int64(max(wanted, keep)), LengthUM: int64(size.Length)}
}

// listSleeves fills in the sleeves of the job in the order of its wires and cables, and their sums.
func (p *Plan) listSleeves() {
	units := len(p.Packet.Units)
	onLine := map[string]bool{}
	for _, group := range p.Groups {
		for _, id := range group.Wires {
			onLine[id] = true
		}
	}
	add := func(rows []Sleeve, group string) {
		for _, row := range rows {
			row.Count, row.Group = units, group
			p.Sleeves = append(p.Sleeves, row)
		}
	}
	cables := map[string]Cable{}
	for _, c := range p.Cables {
		cables[c.ID] = c
	}
	home := func(id, cable, home string) string {
		if onLine[id] || onLine[cable] {
			return home
		}
		return ""
	}
	done := map[string]bool{}
	for _, w := range p.Wires {
		if c, core := cables[w.Cable]; core && !done[c.ID] {
			done[c.ID] = true
			add(c.sleeves, home(c.ID, "", c.Home))
		}
		add(w.sleeves, home(w.ID, w.Cable, w.Home))
	}
	p.SleeveSums = sleeveSums(p.Sleeves)
}

func sleeveSums(rows []Sleeve) []SleeveSum {
	count := map[string]int{}
	for _, row := range rows {
		if row.Kind == "sleeve" {
			count[row.Part] += row.Count
		}
	}
	sums := make([]SleeveSum, 0, len(count))
	for part, n := range count {
		sums = append(sums, SleeveSum{part, n})
	}
	slices.SortFunc(sums, func(a, b SleeveSum) int { return naturalCompare(a.Part, b.Part) })
	return sums
}

func noSleeveWords(wireType string, diameter units.Length) string {
	if diameter == 0 {
		return fmt.Sprintf("type %s does not give the diameter that its sleeves have to fit", wireType)
	}
	return fmt.Sprintf("no sleeve that the job knows fits the %s of type %s", diameter, wireType)
}

// sleeveWarnings names the types that no sleeve of the shop fits, and the wires that have no room for one.
func sleeveWarnings(wires []Wire, cables []Cable) problem.List {
	var found problem.List
	seen := map[string]bool{}
	check := func(noun, id, wireType string, at problem.Place, rows []Sleeve) {
		for _, row := range rows {
			p := problem.Problem{Severity: problem.Warning, Place: at}
			switch {
			case row.Kind == "tag":
				p.Check, p.ID, p.Text = "sleeve-room", id, fmt.Sprintf("%s %q has no room for a sleeve clear of its ends, it gets a tag tied on", noun, id)
				p.Hint = "shorten covered of its ends or marks.margin, or accept the tag"
			case row.Part == "" && !seen[wireType]:
				p.Check, p.ID, p.Text = "no-sleeve", wireType, noSleeveWords(wireType, units.Length(row.Diameter))
				p.Hint = "add a [[sleeve]] that fits, or write the part on the sheet"
				seen[wireType] = true
			default:
				continue
			}
			found = append(found, p)
		}
	}
	for _, c := range cables {
		check("cable", c.ID, c.Type, c.Place, c.sleeves)
	}
	for _, w := range wires {
		check("wire", w.ID, w.Type, w.Place, w.sleeves)
	}
	return found
}
