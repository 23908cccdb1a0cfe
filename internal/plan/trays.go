package plan

import (
	"fmt"
	"strings"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

// trayID names the tray of a group and unit: "J1/0041".
func trayID(connector, unit string) string { return connector + "/" + unit }

// trayRows returns the trays, group by group and unit by unit. A wire longer than the tray is coiled.
func trayRows(h *harness.Harness, groups []ownWires) []Tray {
	homes := bodiesByID(h)
	var trays []Tray
	for _, group := range groups {
		ids, coil := trayWires(group.wires, h.Tray.Length)
		mass := massOfTray(group.wires)
		next := nextOperation(group.wires, h.Board.ID, homes[group.connector].node)
		for _, unit := range h.Job.Units {
			trays = append(trays, Tray{
				ID: trayID(group.connector, unit), Unit: unit, Group: group.connector, Wires: ids, Coil: coil,
				StraightUM: int64(h.Tray.Length), Next: next, Mass: mass,
			})
		}
	}
	return trays
}

// trayWires returns the ids of a group's wires, and of those that are coiled; a length of 0 coils none.
func trayWires(wires []Wire, longest units.Length) (ids, coil []string) {
	for _, wire := range wires {
		ids = append(ids, wire.ID)
		if longest > 0 && units.Length(wire.CutUM) > longest {
			coil = append(coil, wire.ID)
		}
	}
	return ids, coil
}

// nextOperation says where a tray goes: "crimp bench, then board FB-210 at N1". Without a bench end, and without a cable to
// take the jacket off, it goes straight to the board.
func nextOperation(wires []Wire, board, node string) string {
	words := []string{"board"}
	if board != "" {
		words = append(words, board)
	}
	if node != "" {
		words = append(words, "at", node)
	}
	place := strings.Join(words, " ")
	for _, wire := range wires {
		if wire.isCable() || wire.A.Stage == string(harness.StageBench) || wire.B.Stage == string(harness.StageBench) {
			return "crimp bench, then " + place
		}
	}
	return place
}

// trayWarnings names the groups with more wires than a tray takes.
func trayWarnings(h *harness.Harness, groups []ownWires) problem.List {
	homes := bodiesByID(h)
	var problems problem.List
	for _, group := range groups {
		if h.Tray.Wires <= 0 || len(group.wires) <= h.Tray.Wires {
			continue
		}
		problems = append(problems, problem.Problem{
			Severity: problem.Warning, Check: "tray-overfull", Place: homes[group.connector].at, ID: group.connector,
			Text: fmt.Sprintf("a tray of %s %s holds %s, more than the %d that a tray takes",
				homes[group.connector].noun, group.connector, contentsOf(group.wires), h.Tray.Wires),
			Hint: "lock some of its wires to the connector at their other end with `home`, or raise tray.wires",
		})
	}
	return problems
}
