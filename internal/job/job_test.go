package job

import (
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
	"loomleaf/templates"
)

const headText = `[job]
number = "MOR-1"
title = "Ice-survey sled, test loom"
part = "MOR-LM-1"
revision = "A"
issued = 2026-11-20
serials = ["0041", "0042"]
length_is = "finished"
length_unit = "mm"
`

const stockText = `
[[wire_type]]
id = "E22W"
part = "MOR-CW-22-9"
awg = 22
colour = "WH/BU"
diameter = 1.27
laser = "yes"
proved = { on = 2026-10-02, by = "marking lead", record = "ML-118" }
mass = "5.24 g/m"

[[reel]]
id = "R1"
type = "E22W"
left = "152 m"

[[contact]]
id = "S22"
part = "MOR-CT-22S"
kind = "crimp"
awg = [22, 28]
insulation = ["0.76 mm", "1.37 mm"]
barrel = "5 mm"
strip = "4 mm"
crimp = [{ awg = [22, 24], tool = "crimp tool 4", locator = "blue", setting = "3" }]

[[contact]]
id = "S20"
part = "MOR-CT-20S"
kind = "crimp"
barrel = "5 mm"
strip = "6 mm"
`

const harnessText = `
[[connector]]
id = "J1"
part = "MOR-CN-9R"
cavities = ["1-5"]
contact = "S22"
spare = "open"
node = "N1"
tail = "90 mm"
to_barrel = "-6 mm"
face = "drawing"
rows = ["1-3", "4-5"]
seen_from = "mating side"

[[connector.cavity]]
name = ["2-3"]
contact = "S20"

[[connector]]
id = "P1"
part = "MOR-CN-5P"
cavities = ["A-E"]
contact = "S22"
spare = "open"
node = "N2"
tail = "0 mm"

[[wire]]
id = "W1"
type = "E22W"
from = "J1:1"
to = "P1:A"
length = 1432.5

[[wire]]
id = "W2"
type = "E22W"
from = "J1:2"
to = "P1:B"
via = ["N2"]
a = { stage = "board", trim = "20 mm", retermination = 0 }
b = { strip = "5 mm", contact = "S20" }

[board]
id = "FB-1"
size = ["1000 mm", "500 mm"]

[[node]]
id = "N1"
at = ["100 mm", "100 mm"]

[[node]]
id = "N2"
at = ["600 mm", "100 mm"]

[[segment]]
between = ["N1", "N2"]
length = "510 mm"
`

const goodText = headText + stockText + harnessText

func input(text string) Input { return Input{Name: "job.toml", Text: []byte(text)} }

// including returns an input that can include files.
func including(text string, files map[string]string) Input {
	in := input(text)
	in.Open = func(path string) ([]byte, error) {
		if text, found := files[path]; found {
			return []byte(text), nil
		}
		return nil, os.ErrNotExist
	}
	return in
}

// good reads a job that has nothing wrong.
func good(t *testing.T, in Input) *harness.Harness {
	t.Helper()
	h, found, sources := Read(in, templates.Files)
	require.Empty(t, printed(t, found, sources))
	require.NotNil(t, h)
	return h
}

func TestJobTableIsRead(t *testing.T) {
	j := good(t, input(goodText)).Job
	require.Equal(t, "MOR-1", j.Number)
	require.Equal(t, harness.Date{Year: 2026, Month: 11, Day: 20}, j.Issued)
	require.Zero(t, j.Due)
	require.Equal(t, []string{"0041", "0042"}, j.Units)
	require.True(t, j.Serials)
	require.Equal(t, harness.LengthFinished, j.LengthIs)
	require.Equal(t, harness.Expect{Wires: -1, Ends: -1}, j.Expect)
	require.Equal(t, problem.Place{File: "job.toml", Line: 3, Column: 9}, j.Of("title"))
	require.Equal(t, problem.Place{File: "job.toml", Line: 1, Column: 1}, j.Of("due"))
}

func TestQuantityMakesNumberedUnits(t *testing.T) {
	j := good(t, input(strings.Replace(goodText, `serials = ["0041", "0042"]`, "quantity = 3", 1))).Job
	require.Equal(t, []string{"1", "2", "3"}, j.Units)
	require.False(t, j.Serials)
}

func TestStockIsRead(t *testing.T) {
	h := good(t, input(goodText))
	w := h.WireTypes[0]
	require.Equal(t, "22", w.AWG)
	require.Zero(t, w.Section)
	require.Equal(t, "WH/BU", w.Colour)
	require.Equal(t, 1270*units.Micrometre, w.Diameter) // a bare number, in length_unit
	require.Equal(t, &harness.Proof{On: harness.Date{Year: 2026, Month: 10, Day: 2}, By: "marking lead", Record: "ML-118"}, w.Proved)
	require.Equal(t, units.LinearMass(5240), w.Mass)
	require.Equal(t, 152*units.Metre, h.Reels[0].Left)
	c := h.Contacts[0]
	require.Equal(t, []string{"22", "28"}, []string{c.AWGFrom, c.AWGTo})
	require.Equal(t, []harness.Crimp{{AWGFrom: "22", AWGTo: "24", Tool: "crimp tool 4", Locator: "blue", Setting: "3"}}, c.Crimps)
}

func TestConnectorIsRead(t *testing.T) {
	c := good(t, input(goodText)).Connectors[0]
	require.Equal(t, []string{"1", "2", "3", "4", "5"}, cavityNames(&c))
	contacts := make([]string, 0, 5)
	for _, cavity := range c.Cavities {
		contacts = append(contacts, cavity.Contact)
	}
	require.Equal(t, []string{"S22", "S20", "S20", "S22", "S22"}, contacts)
	require.Equal(t, -6*units.Millimetre, c.ToBarrel)
	require.Equal(t, "listed", c.Order)
	require.Equal(t, harness.FaceRows, c.Face.Kind)
	require.Equal(t, [][]string{{"1", "2", "3"}, {"4", "5"}}, c.Face.Rows)
	require.True(t, c.Face.MatingSide)
}

func TestEndsGetWhatIsInForce(t *testing.T) {
	wires := good(t, input(goodText)).Wires
	require.Equal(t, harness.End{Connector: "J1", Cavity: "1", Contact: "S22", Stage: harness.StageBench, Strip: 4 * units.Millimetre, Retermination: 2}, wires[0].A)
	require.Equal(t, 1432500*units.Micrometre, wires[0].Given)
	require.Equal(t, harness.End{Connector: "J1", Cavity: "2", Contact: "S20", Stage: harness.StageBoard, Trim: 20 * units.Millimetre,
		Strip: 6 * units.Millimetre}, wires[1].A)
	require.Equal(t, harness.End{Connector: "P1", Cavity: "B", Contact: "S20", Stage: harness.StageBench, Strip: 5 * units.Millimetre, Retermination: 2}, wires[1].B)
	require.Equal(t, []string{"N2"}, wires[1].Via)
	require.Zero(t, wires[1].Given)
	require.Equal(t, "full", wires[1].Mark)
}

func TestRingsAndPlacesAreRead(t *testing.T) {
	rings := strings.Replace(goodText, "rows = [\"1-3\", \"4-5\"]\nseen_from = \"mating side\"\n",
		"rings = { counts = [4, 1], start = \"90 deg\", direction = \"anticlockwise\", seen_from = \"wire side\" }\n", 1)
	face := good(t, input(rings)).Connectors[0].Face
	require.Equal(t, []int{4, 1}, face.Rings)
	require.Equal(t, units.Angle(90_000), face.Start)
	require.False(t, face.Clockwise)
	require.False(t, face.MatingSide)

	places := strings.Replace(goodText, `rows = ["1-3", "4-5"]`,
		`places = { 1 = ["0 mm", "1 mm"], 2 = [2, 0], 3 = [3, 0], 4 = [4, 0], 5 = ["-5 mm", 0] }`, 1)
	face = good(t, input(places)).Connectors[0].Face
	require.Equal(t, harness.FacePlace{Cavity: "5", X: -5 * units.Millimetre}, face.Places[4])
	require.Equal(t, harness.FacePlace{Cavity: "1", Y: units.Millimetre}, face.Places[0])
}

func TestTemplatesAreRead(t *testing.T) {
	h := good(t, input(goodText))
	require.NotEmpty(t, h.Stocks)
	require.Equal(t, "a4-2x5", h.Stocks[0].ID)
	require.Equal(t, 102100*units.Micrometre, h.Stocks[0].PitchX)
	require.Len(t, h.Safety.Wordings, 1)
	require.NotEmpty(t, h.Safety.Wordings[0].Deference)
	require.NotEmpty(t, h.Safety.Wordings[0].Blocks)
	require.Equal(t, "", h.Paper.Labels)
	require.Equal(t, units.Time(40_000), h.Line.ChangeTime.Method)
}

func TestTheStarterJobIsGood(t *testing.T) {
	text, err := templates.Files.ReadFile("starter.toml")
	require.NoError(t, err)
	h, found, sources := Read(Input{Name: "starter.toml", Text: text}, templates.Files)
	require.Zero(t, found.Errors(), printed(t, found, sources))
	require.Len(t, h.Wires, 6)
	require.Equal(t, harness.StageBoard, h.Wires[5].B.Stage)
}

func TestMissingTemplatesAreReported(t *testing.T) {
	h, found, _ := Read(input(goodText), fstest.MapFS{})
	require.Nil(t, h)
	require.Equal(t, 4, found.Errors())
}

func TestJobWinsOverIncludedFilesAndTheyOverTheDefaults(t *testing.T) {
	text := `include = ["shop.toml", "sub/stock.toml"]` + "\n" + headText + harnessText + "\n[tray]\nwires = 30\n[line]\nchange_time = { ink = \"9 s\" }\n"
	h := good(t, including(text, map[string]string{
		"shop.toml":      "[tray]\nwires = 40\nmass = \"3 kg\"\n[line]\nstep = \"2 mm\"\nchange_time = { ink = \"1 s\", reel = \"30 s\" }\n",
		"sub/stock.toml": stockText,
	}))
	require.Equal(t, 30, h.Tray.Wires)
	require.Equal(t, units.Mass(3_000_000), h.Tray.Mass)
	require.Equal(t, 10, h.Tray.Bend)
	require.Equal(t, 2*units.Millimetre, h.Line.Step)
	require.Equal(t, units.Time(9000), h.Line.ChangeTime.Ink)
	require.Equal(t, units.Time(30_000), h.Line.ChangeTime.Reel)
	require.Equal(t, units.Time(2000), h.Line.ChangeTime.Height)
	require.Equal(t, "sub/stock.toml", h.WireTypes[0].At.File)
	require.Equal(t, "shop.toml", h.Tray.Of("mass").File)

	keys := map[string]string{}
	var order []string
	for _, d := range h.Defaults {
		keys[d.Key] = d.Value
		order = append(order, d.Key)
	}
	for _, set := range []string{"tray.wires", "tray.mass", "line.step", "line.change_time.ink", "line.change_time.reel", "safety.officer"} {
		require.NotContains(t, keys, set)
	}
	require.Equal(t, `"2 s"`, keys["line.change_time.height"])
	require.Equal(t, `["laser", "ink"]`, keys["line.methods"])
	require.Equal(t, "10", keys["tray.bend"])
	require.Equal(t, "marks.legend", order[0])
	require.Equal(t, "inspection.hold", order[len(order)-1])
}

func TestSeveralFaultsAreReportedTogetherWithTheirPlaces(t *testing.T) {
	text := strings.NewReplacer(
		`title = "Ice-survey sled, test loom"`, `titel = "Ice-survey sled, test loom"`,
		`left = "152 m"`, `left = "152 q"`,
		`to = "P1:A"`, `to = "P1:F"`,
		`via = ["N2"]`, `via = ["ü", "N3"]`,
		`size = ["1000 mm", "500 mm"]`, `size = ["1000 mm", true]`,
	).Replace(goodText)
	_, found, sources := Read(input(text), templates.Files)
	lines := strings.Split(string(sources["job.toml"]), "\n")
	want := []struct{ check, at string }{
		{missingKey, "[job]"}, {unknownKey, "titel ="}, {badQuantity, `"152 q"`}, {unknownCavity, `"P1:F"`},
		{unknownNode, `"ü"`}, {unknownNode, `"N3"`}, {wrongKind, "true]"},
	}
	require.Len(t, found, len(want), printed(t, found, sources))
	for i, w := range want {
		require.Equal(t, w.check, found[i].Check)
		rest := string([]rune(lines[found[i].Place.Line-1])[found[i].Place.Column-1:])
		require.True(t, strings.HasPrefix(rest, w.at), "%s stands at %q", w.check, rest)
	}
}

func TestAByteOrderMarkAndCarriageReturnsAreFine(t *testing.T) {
	h := good(t, input("\ufeff"+strings.ReplaceAll(goodText, "\n", "\r\n")))
	require.Equal(t, problem.Place{File: "job.toml", Line: 2, Column: 10}, h.Job.Of("number"))
	_, found, _ := Read(input(strings.Replace(goodText, "\n", "\r", 1)), templates.Files)
	require.Equal(t, controlCharacter, found[0].Check)
}

func TestColumnsCountCharacters(t *testing.T) {
	_, found, _ := Read(input(strings.Replace(goodText, `["0041", "0042"]`, `["ÄÖ", "ÄÖ"]`, 1)), templates.Files)
	require.Equal(t, problem.Place{File: "job.toml", Line: 7, Column: 18}, found[0].Place)
}

func TestIncludedFilesStandBesideTheJob(t *testing.T) {
	in := including(`include = ["parts/stock.toml"]`+"\n"+headText+harnessText, map[string]string{"parts/stock.toml": "[[wire_type]]\nidd = 1\n"})
	in.Name = "work/job.toml"
	_, found, sources := Read(in, templates.Files)
	require.Equal(t, "work/parts/stock.toml", found[len(found)-1].Place.File)
	require.Contains(t, sources, "work/parts/stock.toml")
	require.Contains(t, sources, "work/job.toml")
}

func TestEmptyListsOfTablesHideNothing(t *testing.T) {
	text := "wire_type = []\ninclude = [\"stock.toml\"]\n" + headText + harnessText
	require.Len(t, good(t, including(text, map[string]string{"stock.toml": stockText})).WireTypes, 1)
}

func TestMetricSectionsFitTheNearestGauge(t *testing.T) {
	for section, fits := range map[units.Area]bool{
		340_000: true,  // between 22 and 21 AWG, nearer to 22
		500_000: false, // nearest to 20 AWG
		80_000:  true,  // nearest to 28 AWG
		50_000:  false, // nearest to 30 AWG
	} {
		require.Equal(t, fits, conductor{section: section}.fits("22", "28"), section)
	}
}

func TestNestedTablesAreRefusedInTime(t *testing.T) {
	for _, text := range []string{
		"a = " + strings.Repeat("{a = ", 10_000) + "1" + strings.Repeat("}", 10_000),
		"a = " + strings.Repeat("[", 1_000_000),
		strings.Repeat("a.", 1_000_000) + "a = 1",
		"[" + strings.Repeat("a.", 10_000) + "a]",
		"b = '''x'''''\na = " + strings.Repeat("[", 10_000),
		"b = \"\"\"x\\\"\"\"\"\na = " + strings.Repeat("[", 10_000),
		"b = \"\\\\\" # \"\na = " + strings.Repeat("[", 10_000),
	} {
		h, found, _ := Read(input(text), templates.Files)
		require.Nil(t, h)
		require.Equal(t, nestedTooDeep, found[0].Check, text[:20])
	}
}

func TestDotsAndBracketsInTextsAreNoNesting(t *testing.T) {
	text := strings.Replace(goodText, "Ice-survey sled, test loom", "Sled "+strings.Repeat("[", 40)+strings.Repeat(".", 40), 1)
	require.Contains(t, good(t, input(text+"# "+strings.Repeat("[.", 40)+"\n")).Job.Title, "[[[")
}

func TestAFileOfTooManyValuesIsRefused(t *testing.T) {
	_, found, _ := Read(input("a = ["+strings.Repeat("0,", valueLimit)+"]"), templates.Files)
	require.Equal(t, fileTooLarge, found[0].Check)
	require.Len(t, found, 1)
}

func TestAnEmptyFileLacksTheJobTable(t *testing.T) {
	_, found, _ := Read(input(""), templates.Files)
	require.Len(t, found, 1)
	require.Equal(t, missingTable, found[0].Check)
	require.Equal(t, problem.Place{File: "job.toml", Line: 1, Column: 1}, found[0].Place)
}
