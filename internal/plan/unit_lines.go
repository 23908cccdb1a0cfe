package plan

import (
	"cmp"
	"fmt"
	"slices"
)

// LineUnit is what a line of a checklist says of one unit alone.
type LineUnit struct {
	Tray       string   `json:"tray"`                 // tray of the unit that holds the wire: "J1/2" where its group fills several, else "J1"
	Substitute *InPlace `json:"substitute,omitempty"` // what the wire is cut from in place of its type
}

// Name names a tray within its unit: "J1", or "J1/2" where the group fills several.
func (t Tray) Name() string {
	if t.Of < 2 {
		return t.Group
	}
	return fmt.Sprintf("%s/%d", t.Group, t.Part)
}

// eachLine walks the lines of all checklists.
func (p *Plan) eachLine(visit func(*CavityLine)) {
	for i := range p.Connectors {
		for k := range p.Connectors[i].Cavities {
			for n := range p.Connectors[i].Cavities[k].Lines {
				visit(&p.Connectors[i].Cavities[k].Lines[n])
			}
		}
	}
	for i := range p.Joints {
		for k := range p.Joints[i].Sides {
			for n := range p.Joints[i].Sides[k].Lines {
				visit(&p.Joints[i].Sides[k].Lines[n])
			}
		}
	}
}

// tellUnits says on the lines whose groups fill several trays which of them holds the wire, or the cable of the core; and of which
// units the wire is cut from another type.
func (p *Plan) tellUnits() {
	position := map[string]int{}
	for i, unit := range p.Packet.Units {
		position[unit] = i
	}
	split := map[string][]string{} // names by unit, by wire or cable
	for i := range p.Trays {
		tray := &p.Trays[i]
		for _, id := range tray.Wires {
			if tray.Of > 1 && split[id] == nil {
				split[id] = slices.Repeat([]string{tray.Group}, len(p.Packet.Units))
			}
			if tray.Of > 1 {
				split[id][position[tray.Unit]] = tray.Name()
			}
		}
	}
	substitutes := p.substitutesByWire()
	p.eachLine(func(line *CavityLine) {
		trays, places := split[cmp.Or(line.Cable, line.Wire)], substitutes[line.Wire]
		if trays == nil && places == nil {
			return
		}
		for i, unit := range p.Packet.Units {
			own := LineUnit{Tray: line.Tray, Substitute: places[unit]}
			if trays != nil {
				own.Tray = trays[i]
			}
			line.Units = append(line.Units, own)
		}
	})
}

// substitutesByWire finds what is cut in place of the type of a wire, by wire and unit.
func (p *Plan) substitutesByWire() map[string]map[string]*InPlace {
	places := map[string]map[string]*InPlace{}
	for i := range p.Substitutes {
		for _, w := range p.Substitutes[i].Wires {
			if places[w.Wire] == nil {
				places[w.Wire] = map[string]*InPlace{}
			}
			for _, unit := range w.Units {
				places[w.Wire][unit] = &p.Substitutes[i].InPlace
			}
		}
	}
	return places
}

// Of returns a line as the checklist of a unit says it; the position of the unit counts from 1.
func (l CavityLine) Of(unit int) CavityLine {
	if len(l.Units) > 0 {
		l.Tray, l.Substitute = l.Units[unit-1].Tray, l.Units[unit-1].Substitute
	}
	l.Units = nil
	return l
}

// linesOf returns lines as the checklist of a unit says them.
func linesOf(lines []CavityLine, unit int) []CavityLine {
	if !slices.ContainsFunc(lines, func(l CavityLine) bool { return len(l.Units) > 0 }) {
		return lines
	}
	own := make([]CavityLine, len(lines))
	for i, line := range lines {
		own[i] = line.Of(unit)
	}
	return own
}

// UnitLines is what the installer reads of one unit: connectors and joints whose lines and trays are those of the unit.
type UnitLines struct {
	Connectors []Connector
	Joints     []Joint
	JointTrays []string // that hold wires for the joints, in the order of the run
}

// UnitLines returns what the installer reads of a unit; its position counts from 1.
func (p *Plan) UnitLines(unit int) UnitLines {
	own := UnitLines{Connectors: slices.Clone(p.Connectors), Joints: slices.Clone(p.Joints)}
	trays := map[string][]string{} // names by group, where it fills several
	for i := range p.Trays {
		if t := &p.Trays[i]; t.Of > 1 && t.Unit == p.Packet.Units[unit-1] {
			trays[t.Group] = append(trays[t.Group], t.Name())
		}
	}
	for i := range own.Connectors {
		c := &own.Connectors[i]
		c.Cavities = slices.Clone(c.Cavities)
		var lines []CavityLine
		for k := range c.Cavities {
			c.Cavities[k].Lines = linesOf(c.Cavities[k].Lines, unit)
			lines = append(lines, c.Cavities[k].Lines...)
		}
		c.Trays = traysHolding(lines, c.Trays, trays)
	}
	var lines []CavityLine
	held := map[string]bool{} // groups
	for i := range own.Joints {
		j := &own.Joints[i]
		j.Sides = slices.Clone(j.Sides)
		for k := range j.Sides {
			for _, line := range j.Sides[k].Lines {
				held[line.Tray] = true
			}
			j.Sides[k].Lines = linesOf(j.Sides[k].Lines, unit)
			lines = append(lines, j.Sides[k].Lines...)
		}
	}
	var groups []string
	for _, g := range p.Groups {
		if held[g.Connector] {
			groups = append(groups, g.Connector)
		}
	}
	own.JointTrays = traysHolding(lines, groups, trays)
	return own
}

// traysHolding returns the trays of groups that hold wires for lines; names are those of the trays of groups that fill several, of
// which only those count that a line names.
func traysHolding(lines []CavityLine, groups []string, names map[string][]string) []string {
	named := map[string]bool{}
	for _, line := range lines {
		named[line.Tray] = true
	}
	holding := []string{}
	for _, group := range groups {
		if names[group] == nil {
			holding = append(holding, group)
		}
		for _, name := range names[group] {
			if named[name] {
				holding = append(holding, name)
			}
		}
	}
	return holding
}
