package job

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/handbook"
	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
	"loomleaf/templates"
)

// constructsText adds to the good job every construct that it lacks.
const constructsText = `
[[wire_type]]
id = "E24B"
part = "MOR-CW-24-6"
awg = 24
colour = "BU"
diameter = "1.09 mm"
laser = "yes"

[[cable_type]]
id = "TSP24"
part = "MOR-CA-24-2S"
name = "shielded pair"
cores = [{ id = "1", awg = 24, colour = "WH" }, { id = "2", section = "0.25 mm2", colour = "BU/WH", diameter = "0.9 mm" }, { id = "PE", awg = 24, colour = "GNYE" }]
colour = "BK"
diameter = 3.4
insulation = "ETFE"
shield = "braid"
laser = "no"
ink = "white"
proved = { on = 2026-10-06, by = "marking lead", record = "ML-134" }
mass = "19 g/m"

[[contact]]
id = "CXC"
part = "MOR-CT-CX"
kind = "coax"
barrel = "4 mm"
strip = [{ layer = "jacket", length = "12 mm" }, { layer = "braid", length = 8 }, { layer = "dielectric", length = "4 mm" }]

[[connector]]
id = "J4"
part = "MOR-CN-CX"
cavities = ["centre"]
contact = "CXC"
spare = "open"

[[splice]]
id = "SP1"
part = "MOR-SP-3"
node = "N1"
offset = "40 mm to N2"
sides = [["W10"], ["W11", "S2"]]
stage = "board"
awg = [20, 26]
section = ["0.2 mm2", "0.6 mm2"]
strip = "7 mm"
barrel = "8 mm"
slide_on_first = ["sleeve HS-6"]

[[terminal]]
id = "E1"
part = "MOR-RG-M5"
kind = "ring M5"
node = "N2"
tail = "60 mm"
awg = [16, 24]
insulation = ["0.9 mm", "3.5 mm"]
barrel = "6 mm"
strip = "7.5 mm"
pull = "lug"
crimp = [{ awg = [16, 24], tool = "crimp tool 5", setting = "red" }]
slide_on_first = ["sleeve HS-4"]
note = "flat side down"

[[stud]]
id = "G1"
stack = ["toothed washer", "E1", "nut M5"]
torque = "per drawing"

[[twist]]
id = "T1"
wires = ["W12", "W13"]
lay = "25 mm"
untwist = ["40 mm", "30 mm"]

[[sleeve]]
part = "MOR-SL-2"
fits = ["0.9 mm", "1.9 mm"]

[[cable]]
id = "C1"
type = "TSP24"
via = ["N2"]
mark = "ends"
home = "P1"
note = "braid back"
a = { jacket_off = "60 mm", shield = "pigtail", pigtail = { type = "E24B", length = "80 mm", to = "E1" } }
b = { jacket_off = "50 mm", shield = "cut back" }

[[cable]]
id = "C2"
type = "TSP24"
supply = "existing"

[[wire]]
id = "W10"
type = "E22W"
from = "J1:3"
to = "SP1"
a = { contact = "S22" }

[[wire]]
id = "W11"
type = "E24B"
from = "SP1"
to = "E1"
home = "SP1"
a = { stage = "bench", strip = "9 mm" }

[[wire]]
id = "W12"
type = "E22W"
from = "J1:4"
to = "capped@N2"
b = { free = "30 mm", finish = "cap CP-2" }

[[wire]]
id = "W13"
type = "E22W"
from = "J1:5"
to = "leaves@N2"
b = { free = 200, contact = "S20" }

[[wire]]
id = "W14"
type = "E22W"
from = "P1:C"
to = "J4:centre"
length = "measure"
separation = "radio"
a = { lands = false, finish = "tinned" }
b = { contact = "CXC" }

[[wire]]
id = "W15"
type = "E22W"
from = "P1:D"
to = "E1"
supply = "with part"

[[wire]]
id = "S1"
cable = "C1"
core = "1"
from = "P1:E"
to = "E1"
separation = "bus"

[[wire]]
id = "S2"
cable = "C1"
core = "2"
from = "E1"
to = "SP1"
`

// everyConstruct reads the good job with all constructs; what it warns of is not the matter here.
func everyConstruct(t *testing.T, text string) *harness.Harness {
	t.Helper()
	h, found, sources := Read(input(text), templates.Files)
	require.Zero(t, found.Errors()+found.Releases(), printed(t, found, sources))
	return h
}

func wireOf(t *testing.T, h *harness.Harness, id string) harness.Wire {
	t.Helper()
	w := newLookup(h).wires[id]
	require.NotNil(t, w, id)
	return *w
}

const mm = units.Millimetre

func TestEndsOfAllKindsAreRead(t *testing.T) {
	h := everyConstruct(t, goodText+constructsText)
	bench, board := harness.StageBench, harness.StageBoard
	for _, c := range []struct {
		wire, side string
		want       harness.End
	}{
		{"W10", "a", harness.End{Connector: "J1", Cavity: "3", Contact: "S22", Stage: bench, Strip: 4 * mm, Retermination: 2}},
		{"W10", "b", harness.End{Kind: harness.EndSplice, Splice: "SP1", Stage: board, Strip: 7 * mm}},
		{"W11", "a", harness.End{Kind: harness.EndSplice, Splice: "SP1", Stage: bench, Strip: 9 * mm}},
		{"W11", "b", harness.End{Kind: harness.EndTerminal, Terminal: "E1", Stage: bench, Strip: 7500, Retermination: 2}},
		{"W12", "b", harness.End{Kind: harness.EndCapped, Node: "N2", Stage: bench, Free: 30 * mm, Finish: "cap CP-2"}},
		{"W13", "b", harness.End{Kind: harness.EndLeaves, Node: "N2", Stage: bench, Free: 200 * mm, Contact: "S20", Strip: 6 * mm}},
		{"W14", "a", harness.End{Connector: "P1", Cavity: "C", Contact: "S22", Stage: bench, Strip: 4 * mm, Retermination: 2, NotLanded: true, Finish: "tinned"}},
		{"W14", "b", harness.End{Connector: "J4", Cavity: "centre", Contact: "CXC", Stage: bench, Strip: 12 * mm, Retermination: 2}},
		{"S2", "b", harness.End{Kind: harness.EndSplice, Splice: "SP1", Stage: board, Strip: 7 * mm}},
	} {
		w := wireOf(t, h, c.wire)
		require.Equal(t, c.want, map[string]harness.End{"a": w.A, "b": w.B}[c.side], "%s %s", c.wire, c.side)
	}
}

func TestWiresAreRead(t *testing.T) {
	h := everyConstruct(t, goodText+constructsText)
	core := wireOf(t, h, "S1")
	require.Equal(t, []string{"", "C1", "1", "bus"}, []string{core.Type, core.Cable, core.Core, core.Separation})
	require.Equal(t, harness.SupplyReel, wireOf(t, h, "W10").Supply)
	require.Equal(t, harness.SupplyWithPart, wireOf(t, h, "W15").Supply)
	require.Equal(t, "SP1", wireOf(t, h, "W11").Home)
	measured := wireOf(t, h, "W14")
	require.True(t, measured.Measure)
	require.Zero(t, measured.Given)
	require.Equal(t, "radio", measured.Separation)
}

func TestCablesAreRead(t *testing.T) {
	h := everyConstruct(t, goodText+constructsText)
	kind := h.CableTypes[0]
	for i, core := range kind.Cores {
		require.NotEqual(t, kind.Of("cores"), core.Of("cores.colour"), "each core has its place")
		kind.Cores[i].Origin = harness.Origin{}
	}
	require.Equal(t, []harness.Core{{ID: "1", AWG: "24", Colour: "WH"}, {ID: "2", Section: 250_000, Colour: "BU/WH", Diameter: 900},
		{ID: "PE", AWG: "24", Colour: "GNYE"}}, kind.Cores)
	require.Equal(t, []any{"BK", 3400 * units.Micrometre, "braid", harness.LaserNo, "white", units.LinearMass(19_000)},
		[]any{kind.Colour, kind.Diameter, kind.Shield, kind.Laser, kind.Ink, kind.Mass})
	require.Equal(t, "ML-134", kind.Proved.Record)
	c := h.Cables[0]
	require.Equal(t, []any{"TSP24", []string{"N2"}, "ends", "P1", "braid back", harness.SupplyReel}, []any{c.Type, c.Via, c.Mark, c.Home, c.Note, c.Supply})
	require.Equal(t, harness.CableEnd{JacketOff: 60 * mm, Shield: "pigtail", Pigtail: &harness.Pigtail{Type: "E24B", Length: 80 * mm,
		To: harness.End{Kind: harness.EndTerminal, Terminal: "E1", Stage: harness.StageBench, Strip: 7500, Retermination: 2}}}, c.A)
	require.Equal(t, harness.CableEnd{JacketOff: 50 * mm, Shield: "cut back"}, c.B)
	require.Equal(t, harness.SupplyExisting, h.Cables[1].Supply)
	require.True(t, everyConstruct(t, strings.Replace(goodText+constructsText, `via = ["N2"]`+"\nmark", `length = "measure"`+"\nmark", 1)).Cables[0].Measure)
}

func TestJointsAreRead(t *testing.T) {
	h := everyConstruct(t, goodText+constructsText)
	s := h.Splices[0]
	require.Equal(t, problem.Place{File: "job.toml", Line: s.At.Line + 5, Column: 27}, s.Of("sides.1.1"), "each wire of a side has its place")
	s.Origin = harness.Origin{}
	require.Equal(t, harness.Splice{ID: "SP1", Part: "MOR-SP-3", Node: "N1", Offset: 40 * mm, Towards: "N2", Sides: [][]string{{"W10"}, {"W11", "S2"}},
		Stage: harness.StageBoard, AWGFrom: "20", AWGTo: "26", Section: [2]units.Area{200_000, 600_000}, Strip: 7 * mm, Barrel: 8 * mm,
		SlideOn: []string{"sleeve HS-6"}}, s)
	e := h.Terminals[0]
	e.Origin = harness.Origin{}
	require.Equal(t, harness.Terminal{ID: "E1", Part: "MOR-RG-M5", Kind: "ring M5", Node: "N2", Tail: 60 * mm, AWGFrom: "16", AWGTo: "24",
		Insulation: [2]units.Length{900, 3500}, Barrel: 6 * mm, Strip: 7500, Pull: "lug",
		Crimps: []harness.Crimp{{AWGFrom: "16", AWGTo: "24", Tool: "crimp tool 5", Setting: "red"}}, SlideOnFirst: []string{"sleeve HS-4"}, Note: "flat side down"}, e)
	require.Equal(t, []string{"toothed washer", "E1", "nut M5"}, h.Studs[0].Stack)
	require.Equal(t, "per drawing", h.Studs[0].Torque)
}

func TestTwistsSleevesStepsAndCoversAreRead(t *testing.T) {
	text := strings.Replace(goodText, `length = "510 mm"`, "length = \"510 mm\"\ncover = [{ part = \"MOR-BR-6\", from = 0, to = \"510 mm\" }]", 1)
	h := everyConstruct(t, text+constructsText)
	w := h.Twists[0]
	require.Equal(t, []any{[]string{"W12", "W13"}, 25 * mm, [2]units.Length{40 * mm, 30 * mm}, units.Length(0)}, []any{w.Wires, w.Lay, w.Untwist, w.Pitch})
	require.Equal(t, []any{"MOR-SL-2", 900 * units.Micrometre, 1900 * units.Micrometre}, []any{h.Sleeves[0].Part, h.Sleeves[0].From, h.Sleeves[0].To})
	coax := newLookup(h).contacts["CXC"]
	require.Equal(t, 12*mm, coax.Strip)
	require.Equal(t, []harness.StripStep{{Layer: "jacket", Length: 12 * mm}, {Layer: "braid", Length: 8 * mm}, {Layer: "dielectric", Length: 4 * mm}}, coax.Steps)
	require.Equal(t, []harness.Cover{{Part: "MOR-BR-6", To: 510 * mm}}, h.Board.Segments[0].Covers)
}

func TestCoresCountAsWires(t *testing.T) {
	text := strings.Replace(goodText+constructsText, "length_unit = \"mm\"\n", "length_unit = \"mm\"\nexpect = { wires = 10, ends = 20 }\n", 1)
	require.Len(t, everyConstruct(t, text).Wires, 10)
}

func TestADraftCanDoWithoutPartNumbers(t *testing.T) {
	h, found, _ := Read(input(strings.Replace(goodText, `part = "MOR-CT-22S"`, `part = "TBD"`, 1)), templates.Files)
	require.NotNil(t, h, "the command decides whether it makes a draft")
	require.Equal(t, "TBD", h.Contacts[0].Part)
	require.Zero(t, found.Errors())
	require.Equal(t, 1, found.Releases())
	require.True(t, found.Stops(false))
	require.False(t, found.Stops(true))
	h, found, _ = Read(input(strings.NewReplacer(`part = "MOR-CT-22S"`, `part = "TBD"`, `to = "P1:A"`, `to = "P1:Z"`).Replace(goodText)), templates.Files)
	require.Nil(t, h)
	require.Equal(t, 1, found.Releases())
}

func TestColoursMayBeUnknown(t *testing.T) {
	h := good(t, input(strings.Replace(goodText, `colour = "WH/BU"`, `colour = "?"`, 1)))
	require.Equal(t, "?", h.WireTypes[0].Colour)
}

// Several wires in one barrel: NASA-STD-8739.4 change 6, 19.11: two of 22 AWG go where one of 18 AWG goes, not where one of
// 20 AWG goes (example by circular mils, derived).
func TestWiresInOneBarrelCountAsTheNextLargerSize(t *testing.T) {
	two := 2 * conductor{awg: "22"}.area()
	require.True(t, handbook.TakesTogether(two, "18", "22"))
	require.True(t, handbook.TakesTogether(two, "16", "20"))
	require.False(t, handbook.TakesTogether(two, "20", "24"))
	require.False(t, handbook.TakesTogether(two, "12", "14"), "far too thin for the barrel")
	require.True(t, handbook.TakesTogether(conductor{section: 500_000}.area(), "20", "24"))
}

func TestHardwareOfAStackIsToldFromTerminals(t *testing.T) {
	ids := []string{"E1", "GND"}
	for piece, is := range map[string]bool{"E1": true, "e1": true, "E01": true, "El": true, "E9": true, "gnd": true, "nut": false, "washer": false, "nut M5": false, "M5 nut": false} {
		require.Equal(t, is, looksLikeID(ids, piece), piece)
	}
}

func TestWiresOfATableMayBeCores(t *testing.T) {
	table := "id,cable,core,from,to,b.free,b.lands,b.finish,supply\nS1,C1,1,J1:3,P1:C,,false,tinned,\nS2,C1,2,J1:4,leaves@N2,200,,,\n"
	text := strings.Replace(goodText, "[job]\n", "[job]\nwires = \"wires.csv\"\n", 1) + constructsText[strings.Index(constructsText, "[[cable_type]]"):strings.Index(constructsText, "[[contact]]")] +
		"[[cable]]\nid = \"C1\"\ntype = \"TSP24\"\na = { jacket_off = 9, shield = \"through\" }\nb = { jacket_off = 9, shield = \"cut back\" }\n"
	h, found, sources := Read(including(text, map[string]string{"wires.csv": table}), templates.Files)
	require.Zero(t, found.Errors(), printed(t, found, sources))
	require.True(t, wireOf(t, h, "S1").B.NotLanded)
	require.Equal(t, "2", wireOf(t, h, "S2").Core)
	require.Equal(t, 200*mm, wireOf(t, h, "S2").B.Free)
	_, found, sources = Read(including(text, map[string]string{"wires.csv": strings.Replace(table, "false", "no", 1)}), templates.Files)
	require.Equal(t, 1, found.Errors())
	require.Contains(t, printed(t, found, sources), `wires.csv:2:20: error: wire "S1", b.lands: "no" is no true or false`)
}

// Nothing outside the job's folder is asked for, however it is spelled, and no job includes itself.
func TestHostilePathsAreNotOpened(t *testing.T) {
	for _, path := range []string{"../x.toml", "a/../../x.toml", "/etc/passwd", "//host/x", `..\x.toml`, `a\..\..\x`, "C:/x.toml", "C:x", ".", "..", "", "a/", "job.toml", "./job.toml", "a/../job.toml"} {
		for _, text := range []string{"include = [" + quoted(path) + "]\n" + goodText,
			strings.Replace(goodText, "[job]\n", "[job]\nwires = "+quoted(path)+"\n", 1),
			goodText + "\n[safety]\nwording = [" + quoted(path) + "]\n"} {
			in := input(text)
			in.Open = func(opened string) ([]byte, error) {
				t.Errorf("%q is opened as %q", path, opened)
				return nil, os.ErrNotExist
			}
			h, found, _ := Read(in, templates.Files)
			require.Nil(t, h, path)
			require.Contains(t, []string{includePath, includeLoop, emptyValue}, found[0].Check, path)
		}
	}
}

func TestHugeFilesAreRefusedUnread(t *testing.T) {
	huge := make([]byte, 64<<20)
	_, found, sources := Read(Input{Name: "job.toml", Text: huge}, templates.Files)
	require.Len(t, found, 1)
	require.Equal(t, fileTooLarge, found[0].Check)
	require.Empty(t, sources["job.toml"], "nothing of it is kept")
	in := input("include = [\"shop.toml\"]\n" + goodText)
	in.Open = func(string) ([]byte, error) { return huge, nil }
	_, found, _ = Read(in, templates.Files)
	require.Len(t, found, 1)
	require.Equal(t, fileTooLarge, found[0].Check)
}
