package sheet

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"loomleaf/internal/plan"
)

// splitTrays names, by wire or cable, the tray of a unit that holds it, where its group fills several: "J1/2".
func splitTrays(p *plan.Plan, unit string) map[string]string {
	names := map[string]string{}
	for _, tray := range p.Trays {
		if tray.Unit != unit || tray.Of < 2 {
			continue
		}
		for _, id := range tray.Wires {
			names[id] = fmt.Sprintf("%s/%d", tray.Group, tray.Part)
		}
	}
	return names
}

// fromTrays names the trays of lines: of a core that of its cable.
func fromTrays(lines []plan.CavityLine, split map[string]string) []plan.CavityLine {
	named := slices.Clone(lines)
	for i, line := range named {
		for _, id := range []string{line.Wire, line.Cable} {
			if name := split[id]; name != "" {
				named[i].Tray = name
			}
		}
	}
	return named
}

// connectorFrom is a connector with the trays of a unit in place of groups that fill several.
func connectorFrom(c plan.Connector, split map[string]string) plan.Connector {
	if len(split) == 0 {
		return c
	}
	var lines []plan.CavityLine
	c.Cavities = slices.Clone(c.Cavities)
	for i := range c.Cavities {
		c.Cavities[i].Lines = fromTrays(c.Cavities[i].Lines, split)
		lines = append(lines, c.Cavities[i].Lines...)
	}
	c.Trays = traysIn(c.Trays, lines)
	return c
}

// jointsFrom are joints with the trays of a unit in place of groups that fill several.
func jointsFrom(joints []plan.Joint, split map[string]string) []plan.Joint {
	if len(split) == 0 {
		return joints
	}
	named := slices.Clone(joints)
	for i := range named {
		named[i].Sides = slices.Clone(named[i].Sides)
		for k := range named[i].Sides {
			named[i].Sides[k].Lines = fromTrays(named[i].Sides[k].Lines, split)
		}
	}
	return named
}

// traysIn lists the trays that lines name, in the order of their groups and of their numbers.
func traysIn(groups []string, lines []plan.CavityLine) []string {
	var trays []string
	for _, group := range groups {
		var parts []string
		for _, line := range lines {
			if line.Tray == group || strings.HasPrefix(line.Tray, group+"/") {
				parts = append(parts, line.Tray)
			}
		}
		slices.SortFunc(parts, func(a, b string) int { return cmp.Or(cmp.Compare(len(a), len(b)), cmp.Compare(a, b)) })
		trays = append(trays, slices.Compact(parts)...)
	}
	return trays
}
