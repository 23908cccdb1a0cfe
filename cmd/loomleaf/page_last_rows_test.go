package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/fonts"
	"loomleaf/internal/page"
)

// twoCables is a job whose cut list ends with a cable of three cores and one of so many, each with a load before it.
func twoCables(cores []string) string {
	var text strings.Builder
	text.WriteString(`[job]
number = "MOR-4500"
title = "Ice-survey sled, mast branch"
part = "MOR-LM-17"
revision = "A"
issued = 2026-11-20
length_is = "cut"
quantity = 5
[policy]
home = "end-a"
batch = 5
[[wire_type]]
id = "E22WH"
part = "MOR-CW-0"
awg = 22
colour = "WH"
diameter = "1.27 mm"
insulation = "ETFE"
laser = "yes"
[[contact]]
id = "S22"
part = "MOR-CT-22S"
kind = "crimp"
awg = [20, 28]
insulation = ["0.76 mm", "1.9 mm"]
barrel = "5 mm"
strip = "4 mm"
[[wire]]
id = "W1"
from = "J1:1"
to = "P2:1"
type = "E22WH"
length = "500 mm"
`)
	for _, id := range []string{"J1", "P2"} {
		fmt.Fprintf(&text, "[[connector]]\nid = %q\npart = \"MOR-CN-37\"\ncavities = [\"1-37\"]\ncontact = \"S22\"\nspare = \"open\"\n", id)
	}
	cavity := 1
	for i, cores := range [][]string{{"WH", "BK", "RD"}, cores} {
		var kinds []string
		for core, colour := range cores {
			cavity++
			kinds = append(kinds, fmt.Sprintf(`{ id = "%d", awg = 22, colour = %q, diameter = "1.27 mm" }`, core+1, colour))
			fmt.Fprintf(&text, "[[wire]]\nid = \"W%d\"\nfrom = \"J1:%d\"\nto = \"P2:%d\"\ncable = \"C%d\"\ncore = \"%d\"\n", cavity, cavity, cavity, i, core+1)
		}
		fmt.Fprintf(&text, "[[cable_type]]\nid = \"MC22-%d\"\npart = \"MOR-CA-%d\"\nname = \"cores, no shield\"\ncolour = \"GY\"\ndiameter = \"4.1 mm\"\ninsulation = \"ETFE\"\nlaser = \"yes\"\ncores = [%s]\n",
			i, i, strings.Join(kinds, ", "))
		fmt.Fprintf(&text, "[[cable]]\nid = \"C%d\"\ntype = \"MC22-%d\"\nlength = \"900 mm\"\na = { jacket_off = \"60 mm\" }\nb = { jacket_off = \"40 mm\" }\n", i, i)
		fmt.Fprintf(&text, "[[reel]]\nid = \"R%d\"\ntype = \"MC22-%d\"\nleft = \"90 m\"\nlot = \"MC-2026-0417\"\nplace = \"cable bay %d\"\n", i, i, i)
	}
	return text.String()
}

// TestLastRowsWithLoadsMayBeMoreThanAPage: where the last two rows of a cut list, the loads before them and what closes the list are more
// than a page, the last row stands on a page of its own; where they are not, it is found to stand alone.
func TestLastRowsWithLoadsMayBeMoreThanAPage(t *testing.T) {
	t.Parallel()
	metrics, err := page.LoadMetrics(fonts.Files)
	require.NoError(t, err)
	none := func(string) ([]byte, error) { return nil, errors.New("the job has no other files") }
	colours := []string{"WH", "BK", "RD", "BU", "GN"}
	for cores := 1; cores <= len(colours); cores++ {
		d := madeWith(t, []byte(twoCables(colours[:cores])), none)
		require.Empty(t, brokenRules(d.plan, d.packet, metrics), "%d cores", cores)
		first, last := d.page("cutlist/J1/1"), d.page("cutlist/J1/2")
		require.Equal(t, cores > 3, last.Rows[0].Number == 3, "%d cores", cores)
		if cores != 4 {
			continue
		}
		require.Less(t, heightOf(first.Rows[1:])+heightOf(last.Rows), keptMost(), "the rows alone would be kept together")
		packet := copyOf(d.packet)
		for i, pg := range packet.Pages.Pages {
			if pg.Name == last.Name { // without what closes the list there is room for the row before
				packet.Pages.Pages[i].Body = slices.DeleteFunc(pg.Body, func(item page.Item) bool {
					text, is := item.(page.Text)
					row := pg.Rows[len(pg.Rows)-1]
					return is && text.Y > row.Y+row.H
				})
			}
		}
		require.Contains(t, strings.Join(brokenRules(d.plan, packet, metrics), "\n"), `the last row of "cutlist/J1 " stands alone`)
	}
}
