package plan

import (
	"fmt"
	"slices"
	"strings"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
	"loomleaf/internal/words"
)

// trayID names the tray of a group and unit, and a further one where one does not hold the group: "J1/0041", "J1/0041/2".
func trayID(connector, unit string, part int) string {
	if part == 0 {
		return connector + "/" + unit
	}
	return fmt.Sprintf("%s/%s/%d", connector, unit, part+1)
}

// trayPacking splits groups over trays: by group and cut list, the rows of each tray in the order of the run.
type trayPacking [][][][]*Wire

// pack cuts the finished sequence wherever a tray is full, by count, cross-section or mass. Rows of one unit lie in one tray.
func pack(h *harness.Harness, cuts []cut, groups []ownWires) trayPacking {
	l := loader{rule: h.Tray, bodies: bodiesOfTypes(h)}
	packed, together := make(trayPacking, len(groups)), unitRows(groups)
	for g := range packed {
		packed[g] = make([][][]*Wire, len(unitLists(h)))
	}
	var filled load // of the last tray
	type listed struct {
		list int
		wire *Wire
	}
	lies := make(map[listed]bool)
	for i, c := range cuts {
		if i > 0 && cuts[i-1].wire == c.wire && cuts[i-1].list == c.list || lies[listed{c.list, c.wire}] {
			continue // the same wire for another unit
		}
		lies[listed{c.list, c.wire}] = true
		trays, own := &packed[c.group][c.list], l.row(c.wire)
		last := len(*trays) - 1
		if last >= 0 && l.takes(filled, (*trays)[last], c.wire, together) {
			(*trays)[last], filled = append((*trays)[last], c.wire), filled.plus(own)
			continue
		}
		*trays, filled = append(*trays, []*Wire{c.wire}), own
	}
	return packed
}

// unitRows returns the rows of every unit of several.
func unitRows(groups []ownWires) map[string][]*Wire {
	rows := map[string][]*Wire{}
	for _, group := range groups {
		for _, w := range group.wires {
			if w.unit != "" {
				rows[w.unit] = append(rows[w.unit], w)
			}
		}
	}
	return rows
}

// takes reports whether a row goes into a tray: with the rest of its unit where it is the first of one, always where it is not.
func (l *loader) takes(filled load, tray []*Wire, w *Wire, together map[string][]*Wire) bool {
	switch {
	case w.unit == "":
		return l.holds(filled.plus(l.row(w)))
	case tray[len(tray)-1].unit == w.unit:
		return true
	}
	return l.holds(filled.plus(l.sum(together[w.unit])))
}

// load is what lies in a tray.
type load struct {
	rows    int
	section units.Area // over the insulation; a piece counts as often as it is longer than the tray
	mass    units.Mass // as far as it is known
}

func (a load) plus(b load) load { return load{a.rows + b.rows, a.section + b.section, a.mass + b.mass} }

// loader says what a tray holds.
type loader struct {
	rule   harness.TrayRule
	bodies map[string]wireBody
}

// wireBody is what a wire type takes of a tray.
type wireBody struct {
	diameter units.Length
	more     units.LinearMass // what the heaviest approved substitute weighs beyond the type itself
}

// bodiesOfTypes finds the size of every wire and cable type.
func bodiesOfTypes(h *harness.Harness) map[string]wireBody {
	bodies, types := map[string]wireBody{}, typesByID(h)
	for i := range h.WireTypes {
		t := &h.WireTypes[i]
		body := wireBody{diameter: t.Diameter}
		for _, s := range t.Substitutes {
			if own := linearMassOf(t).per; own > 0 {
				body.more = max(body.more, linearMassOf(types[s.Type]).per-own)
			}
		}
		bodies[t.ID] = body
	}
	for _, t := range h.CableTypes {
		bodies[t.ID] = wireBody{diameter: t.Diameter}
	}
	return bodies
}

// holds reports whether a tray holds a load; a limit of 0 is none.
func (l *loader) holds(a load) bool {
	return (l.rule.Wires <= 0 || a.rows <= l.rule.Wires) && (l.rule.Section <= 0 || a.section <= l.rule.Section) &&
		(l.rule.Mass <= 0 || a.mass <= l.rule.Mass)
}

// row returns the load of one row.
func (l *loader) row(w *Wire) load {
	body := l.bodies[w.Type]
	area := int64(body.diameter) * int64(body.diameter) * 785 / 1_000 // pi/4, to a thousandth
	if long := int64(l.rule.Length); long > 0 && w.CutUM > long {
		area = area * (w.CutUM / 1_000) / max(long/1_000, 1)
	}
	return load{1, units.Area(area), units.Mass(w.MassMG) + units.Mass(w.CutUM*int64(body.more)/1_000_000)}
}

func (l *loader) sum(rows []*Wire) load {
	var all load
	for _, w := range rows {
		all = all.plus(l.row(w))
	}
	return all
}

// trayRows returns the trays, group by group and unit by unit. A piece longer than the tray is coiled.
func (packed trayPacking) trayRows(h *harness.Harness, groups []ownWires) []Tray {
	homes, l := bodiesByID(h), loader{rule: h.Tray, bodies: bodiesOfTypes(h)}
	var trays []Tray
	for g, group := range groups {
		next := nextOperation(h.Paper.Spoken(), group.wires, h.Board.ID, homes[group.connector].node)
		for list, units := range unitLists(h) {
			for _, unit := range units {
				for part, rows := range packed[g][list] {
					tray := l.tray(rows)
					tray.ID, tray.Unit, tray.Group, tray.Next = trayID(group.connector, unit, part), unit, group.connector, next
					tray.Part, tray.Of = part+1, len(packed[g][list])
					trays = append(trays, tray)
				}
			}
		}
	}
	return trays
}

// tray says what a tray holds, and how what is too long for it is coiled.
func (l *loader) tray(rows []*Wire) Tray {
	filled := l.sum(rows)
	tray := Tray{StraightUM: int64(l.rule.Length), SectionUM2: int64(filled.section), Mass: massOfTray(rows)}
	for _, w := range rows {
		tray.Wires = append(tray.Wires, w.ID)
		if l.rule.Length > 0 && units.Length(w.CutUM) > l.rule.Length {
			tray.Coil = append(tray.Coil, w.ID)
			c := coilOf(w.ID, units.Length(w.CutUM), l.bodies[w.Type].diameter, l.rule)
			tray.Coils = append(tray.Coils, c)
			tray.CoilUM, tray.Ties = max(tray.CoilUM, c.InnerUM), max(tray.Ties, c.Ties)
		}
	}
	return tray
}

// trayOf returns the number of the tray, from 0, that holds a wire of a list.
func trayOf(trays [][]*Wire, wire *Wire) int {
	return slices.IndexFunc(trays, func(rows []*Wire) bool { return slices.Contains(rows, wire) })
}

// nextOperation says where a tray goes: "crimp bench, then board FB-210 at N1". Without a bench end, and without a cable to
// take the jacket off, it goes straight to the board.
func nextOperation(spoken words.Words, wires []*Wire, board, node string) string {
	place := strings.TrimSpace(spoken.Say("next.board", "board", board))
	if node != "" {
		place += spoken.Say("next.at", "node", node)
	}
	for _, wire := range wires {
		if wire.isCable() || wire.A.Stage == string(harness.StageBench) || wire.B.Stage == string(harness.StageBench) {
			return spoken.Say("next.bench", "then", place)
		}
	}
	return place
}

// trayWarnings names the rows that one tray alone does not hold.
func (packed trayPacking) trayWarnings(h *harness.Harness, groups []ownWires) problem.List {
	homes, l := bodiesByID(h), loader{rule: h.Tray, bodies: bodiesOfTypes(h)}
	var problems problem.List
	for g, group := range groups {
		for part, rows := range packed[g][0] {
			if l.holds(l.sum(rows)) {
				continue
			}
			problems = append(problems, problem.Problem{
				Severity: problem.Warning, Check: "tray-overfull", Place: homes[group.connector].at, ID: group.connector,
				Text: fmt.Sprintf("tray %d of %s %q is too small: a tray does not hold %s", part+1, homes[group.connector].noun, group.connector, namedRows(rows)),
				Hint: "use a larger tray, and write what it holds into [tray]",
			})
		}
	}
	return problems
}

// namedRows names a row, or counts those that must stay together.
func namedRows(rows []*Wire) string {
	if len(rows) == 1 {
		return rows[0].ID
	}
	cables := 0
	for _, row := range rows {
		cables += one(row.isCable())
	}
	return contentsOf(len(rows), cables) + " that stay together"
}
