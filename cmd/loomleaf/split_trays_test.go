package main

import (
	"cmp"
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
)

// splitJob is the small demo with trays that hold few wires.
func splitJob(t *testing.T, wires int) demo {
	t.Helper()
	text := strings.Replace(string(jobText(t, "sled-small")), "[safety]\n", fmt.Sprintf("[tray]\nwires = %d\n\n[safety]\n", wires), 1)
	require.True(t, strings.Contains(text, "[tray]"))
	return made(t, "sled-small", []byte(text))
}

// trayRow matches the row of the cut list that puts a further tray under.
var trayRow = regexp.MustCompile(`^TRAY (\d+) of (\d+)$`)

// traysAsCut reads from the cut list which tray of its group each wire is cut into: "J1/2"; "J1" where none is put under. The job has one
// batch of units.
func traysAsCut(d demo) map[string]string {
	names, under := map[string]string{}, map[string]string{} // tray by wire; tray under, by group
	homes := map[string]string{}
	for _, w := range d.plan.Wires {
		homes[w.ID] = w.Home
	}
	for _, pg := range d.packet.Pages.Pages {
		if pg.Sheet != "cutlist" {
			continue
		}
		group := strings.Split(pg.Name, "/")[1]
		for _, item := range pg.Body {
			text, is := item.(page.Text)
			if !is {
				continue
			}
			if found := trayRow.FindStringSubmatch(text.String); found != nil {
				under[group] = found[1]
			} else if homes[text.String] == group && text.Size == 1200 {
				names[text.String] = under[group]
			}
		}
	}
	for wire, part := range names {
		switch group := homes[wire]; {
		case under[group] == "":
			names[wire] = group
		case part == "":
			names[wire] = group + "/1"
		default:
			names[wire] = group + "/" + part
		}
	}
	return names
}

// TestRowsOfChecklistsNameTheTrayThatTheCutListFills reads both sheets of a job whose groups fill several trays, and the trays of the
// labels.
func TestRowsOfChecklistsNameTheTrayThatTheCutListFills(t *testing.T) {
	d := splitJob(t, 3)
	cut, checked, split := traysAsCut(d), 0, 0
	for _, tray := range d.plan.Trays {
		for _, id := range tray.Wires {
			require.Equal(t, tray.Name(), cut[id], "%s holds %s", tray.ID, id)
		}
	}
	for _, pg := range d.packet.Pages.Pages {
		if pg.Sheet != "pins" {
			continue
		}
		lines := pinTrays(pg)
		for _, line := range lines {
			require.Equal(t, cut[line[0]], line[1], "%s, wire %s", pg.Name, line[0])
			checked++
			if strings.Contains(line[1], "/") {
				split++
			}
		}
	}
	landed := 0
	for _, c := range d.plan.Connectors {
		for _, cavity := range c.Cavities {
			landed += len(cavity.Wires)
		}
	}
	require.Equal(t, landed*len(d.plan.Packet.Units), checked, "every wire of every row of every unit")
	require.Positive(t, split)
}

// pinTrays reads wires and their trays from a checklist: the tray stands right of the wire, on its line or the next.
func pinTrays(pg page.Page) [][2]string {
	var rows [][2]string
	for _, item := range pg.Body {
		wire, is := item.(page.Text)
		if !is || wire.Size != 1300 || wire.Face != page.MonoBold {
			continue
		}
		for _, item := range pg.Body {
			tray, is := item.(page.Text)
			if is && tray.Size == 1100 && tray.Face == page.Mono && tray.Y >= wire.Y && tray.Y < wire.Y+page.MM(9000) {
				rows = append(rows, [2]string{wire.String, strings.TrimPrefix(tray.String, "tray ")})
				break
			}
		}
	}
	return rows
}

// rowsOnward matches the note of the strip list where the wires of another tray begin, elsewhere what says where another wire lies.
var (
	rowsOnward = regexp.MustCompile(`^from this row on: tray (\S+)$`)
	elsewhere  = regexp.MustCompile(`^(\S+) of tray (\S+)$`)
)

// TestTheStripListNamesTheTrayThatTheCutListFills reads every row of the bench in a job whose groups fill several trays.
func TestTheStripListNamesTheTrayThatTheCutListFills(t *testing.T) {
	d := splitJob(t, 3)
	cut, under, checked := traysAsCut(d), map[string]string{}, 0
	heads := map[string][]string{}
	for _, tray := range d.plan.Trays {
		if tray.Unit == d.plan.Packet.Units[0] {
			heads[tray.Group] = append(heads[tray.Group], tray.Name())
		}
	}
	for _, pg := range d.packet.Pages.Pages {
		if pg.Sheet != "strip" {
			continue
		}
		group := strings.Split(pg.Name, "/")[1]
		head := placed(pg.Body, "tray "+group+" of each unit; a box is ticked when the end is made and looked at")
		if n := len(heads[group]); n > 1 {
			head = placed(pg.Body, "trays "+group+"/1 to "+heads[group][n-1]+" of each unit; a box is ticked when the end is made and looked at")
		}
		require.NotNil(t, head, pg.Name)
		for _, row := range pg.Rows {
			wire := ""
			for _, item := range pg.Body {
				text, is := item.(page.Text)
				if !is || text.Y < row.Y || text.Y > row.Y+row.H {
					continue
				}
				if found := rowsOnward.FindStringSubmatch(text.String); found != nil {
					under[group] = found[1]
				}
				if text.Face == page.MonoBold && text.Size == 1200 {
					wire = text.String
				}
			}
			require.Equal(t, cut[wire], cmp.Or(under[group], group), "%s, wire %s", pg.Name, wire)
			checked++
		}
	}
	require.Equal(t, 2*len(d.plan.Wires), checked, "both ends of every wire")
	require.Contains(t, slices.Collect(maps.Values(under)), "J1/3")
}

// TestWiresOfOneBarrelAreFoundInTheirTrays reads where the bench finds the other wires of a barrel, in a job whose groups fill several trays.
func TestWiresOfOneBarrelAreFoundInTheirTrays(t *testing.T) {
	text := strings.Replace(string(jobText(t, "sled")), "[job]\n", "[tray]\nwires = 2\n\n[job]\n", 1)
	d := made(t, "sled", []byte(text))
	cut, said, split := traysAsCut(d), 0, 0
	for _, pg := range d.packet.Pages.Pages {
		if pg.Sheet != "strip" {
			continue
		}
		for _, item := range pg.Body {
			words, is := item.(page.Text)
			if found := elsewhere.FindStringSubmatch(words.String); is && found != nil {
				require.Equal(t, cut[found[1]], found[2], "%s: %s", pg.Name, words.String)
				said++
				if strings.Contains(found[2], "/") {
					split++
				}
			}
		}
	}
	require.Positive(t, said)
	require.Positive(t, split)
}

// TestAWireInAnotherTrayGivesItsRowsAnotherCode makes trays larger: the codes of exactly those rows change whose tray is another.
func TestAWireInAnotherTrayGivesItsRowsAnotherCode(t *testing.T) {
	t.Parallel()
	before, after := splitJob(t, 3), splitJob(t, 4)
	was, is := traysAsCut(before), traysAsCut(after)
	moved, stayed := 0, 0
	for i, c := range before.plan.Connectors {
		for k, cavity := range c.Cavities {
			other := slices.ContainsFunc(cavity.Wires, func(id string) bool { return was[id] != is[id] })
			for u := range cavity.Codes {
				same := cavity.Codes[u] == after.plan.Connectors[i].Cavities[k].Codes[u]
				require.Equal(t, !other, same, "%s:%s of unit %d", c.ID, cavity.Name, u+1)
			}
			if other {
				moved++
			} else {
				stayed++
			}
		}
	}
	require.Positive(t, moved)
	require.Positive(t, stayed)
	whole := codesOf(splitJob(t, 60).plan)
	require.Equal(t, codesOf(made(t, "sled-small", jobText(t, "sled-small")).plan), whole, "where every group fits one tray, no code says so")
}

// codesOf returns the codes of a plan as strings.
func codesOf(p plan.Plan) []string {
	var codes []string
	for _, row := range p.CodeRows() {
		codes = append(codes, row.Code)
	}
	return codes
}
