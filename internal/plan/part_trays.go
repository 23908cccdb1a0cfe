package plan

import (
	"slices"
	"strings"
)

// UnitGroup is a group in a unit.
type UnitGroup struct{ Group, Unit string }

// TraysByUnit returns the trays of every group in every unit, in the order of the run.
func (p *Plan) TraysByUnit() map[UnitGroup][]Tray {
	trays := map[UnitGroup][]Tray{}
	for _, tray := range p.Trays {
		at := UnitGroup{tray.Group, tray.Unit}
		trays[at] = append(trays[at], tray)
	}
	return trays
}

// partTrays names the trays of wires, cores and cables whose groups fill several. Where units differ, all are named: "P3/1, P3/2".
func (p *Plan) partTrays() map[string]string {
	names := map[string][]string{}
	for _, tray := range p.Trays {
		for _, id := range tray.Wires {
			if name := tray.Name(); tray.Of > 1 && !slices.Contains(names[id], name) {
				names[id] = append(names[id], name)
			}
		}
	}
	part := map[string]string{}
	for id, trays := range names {
		slices.Sort(trays)
		part[id] = strings.Join(trays, ", ")
	}
	for i := range p.Wires {
		if w := &p.Wires[i]; w.Cable != "" {
			part[w.ID] = part[w.Cable]
		}
	}
	return part
}
