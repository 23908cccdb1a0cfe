package job

import (
	"encoding/csv"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/handbook"
	"loomleaf/internal/units"
	"loomleaf/templates"
)

// fitJob is a job of one wire between two contacts; words in angle brackets are filled in.
const fitJob = `[job]
number = "MOR-1"
title = "Ice-survey sled, test loom"
part = "MOR-LM-1"
revision = "A"
issued = 2026-11-20
quantity = 1
length_is = "cut"
[[wire_type]]
id = "E"
part = "MOR-CW"
awg = <awg>
colour = "WH"
diameter = "<diameter_in> in"
laser = "yes"
[[contact]]
id = "S"
part = "MOR-CT"
kind = "crimp"
awg = [<thickest>, <thinnest>]
insulation = ["<least_in> in", "<most_in> in"]
barrel = "5 mm"
strip = "4 mm"
[[connector]]
id = "J1"
part = "MOR-CN"
cavities = ["1-5"]
contact = "S"
spare = "open"
[[wire]]
id = "W1"
type = "E"
from = "J1:1"
to = "J1:2"
length = "500 mm"
`

// TestContactsRefuseWhatTheyDoNotTake reads published wires into published contacts: nothing is printed of a job where the
// gauge is outside the barrel, or where the insulation is outside the seal.
func TestContactsRefuseWhatTheyDoNotTake(t *testing.T) {
	file, err := os.Open("../../testdata/vectors/contactfit.csv")
	require.NoError(t, err)
	defer file.Close()
	reader := csv.NewReader(file)
	reader.Comment = '#'
	rows, err := reader.ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(rows), 6)
	for _, row := range rows[1:] {
		text, value := fitJob, map[string]string{}
		for i, column := range rows[0] {
			value[column] = row[i]
			text = strings.ReplaceAll(text, "<"+column+">", row[i])
		}
		wire, listed := handbook.HookUpWireOf(value["wire"], value["awg"])
		require.True(t, listed)
		diameter, err := units.ParseLength(value["diameter_in"] + " in")
		require.NoError(t, err)
		require.Equal(t, wire.MaximumDiameter, diameter, "the vector holds the largest diameter of the sheet")
		h, found, _ := Read(Input{Name: "job.toml", Text: []byte(text)}, templates.Files)
		var refused []string
		for _, p := range found {
			switch p.Check {
			case gaugeOutside:
				refused = append(refused, "gauge")
			case diameterOutside:
				refused = append(refused, "diameter")
			}
		}
		slices.Sort(refused)
		want := strings.Fields(value["refused"])
		slices.Sort(want)
		require.Equal(t, want, append([]string{}, slices.Compact(refused)...), row)
		require.Equal(t, len(want) > 0, h == nil, row)
	}
}
