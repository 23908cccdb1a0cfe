package plan

import (
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

// sleevedEnds is a job whose wire takes no mark.
func sleevedEnds() *harness.Harness {
	h := twoEnds()
	h.Line.Methods = nil
	return h
}

func TestALineWithoutMarkingMakesThemAllSleeves(t *testing.T) {
	h := sleevedEnds()
	row := cutTo(t, h, 2000*mm)
	// A keep-out of 12 mm at each end; sleeves of 15 mm from 25 mm on; 914 mm from sleeve to sleeve at most: one could not bridge 1935 mm.
	require.Equal(t, []Sleeve{
		{Wire: "W101", Kind: "sleeve", End: "a", At: "J1:1", Text: "W101 J1:1>P2:1", Part: "MOR-SL-1", Diameter: 1270, FromUM: 25_000, LengthUM: 15_000},
		{Wire: "W101", Kind: "sleeve", Text: "W101", Part: "MOR-SL-1", Diameter: 1270, FromUM: 670_000, LengthUM: 15_000},
		{Wire: "W101", Kind: "sleeve", Text: "W101", Part: "MOR-SL-1", Diameter: 1270, FromUM: 1_315_000, LengthUM: 15_000},
		{Wire: "W101", Kind: "sleeve", End: "b", At: "P2:1", Text: "W101 P2:1>J1:1", Part: "MOR-SL-1", Diameter: 1270, FromUM: 25_000, LengthUM: 15_000},
	}, row.sleeves)
	h.Wires[0].Mark = "ends"
	require.Len(t, cutTo(t, h, 2000*mm).sleeves, 2)
	h.Wires[0].Mark = "none"
	require.Empty(t, cutTo(t, h, 2000*mm).sleeves)
	h.Wires[0].Mark = "full"
	require.Empty(t, cutTo(t, h, 75*mm).sleeves, "as short as that it needs no text")
}

func TestSleevesWhereRoomIsShort(t *testing.T) {
	h := sleevedEnds()
	for _, c := range []struct {
		covered units.Length // at either end of 178 mm
		kind    string
		ends    []string
	}{{0, "sleeve", []string{"a", "b"}}, {55 * mm, "sleeve", []string{"a", "b"}}, {63 * mm, "sleeve", []string{""}}, {70 * mm, "tag", []string{""}}} {
		h.Wires[0].A.Covered, h.Wires[0].B.Covered = c.covered, c.covered
		var ends []string
		for _, s := range cutTo(t, h, 178*mm).sleeves {
			require.Equal(t, c.kind, s.Kind, c.covered)
			ends = append(ends, s.End)
		}
		require.Equal(t, c.ends, ends, c.covered)
	}
}

func TestSleevesByDiameter(t *testing.T) {
	h := twoEnds()
	h.Sleeves = []harness.SleeveSize{{Part: "L", From: 1300, To: 2600, Length: 20 * mm}, {Part: "S", From: 900, To: 1300}, {Part: "M", From: 1200, To: 1800}}
	s := newSleever(h)
	for diameter, want := range map[units.Length]string{899: "", 900: "S", 1300: "S", 1301: "M", 1801: "L", 2600: "L", 2601: ""} {
		require.Equal(t, want, s.size(diameter).Part, diameter)
	}
	require.Equal(t, 20*mm, s.size(2000).Length)
	require.Equal(t, 15*mm, s.size(1000).Length, "the shop's length where the size gives none")
}

func TestCoresGetSleevesOnlyWhereTheShopWants(t *testing.T) {
	h := surveyHarness()
	h.CableTypes = []harness.CableType{shieldedType()}
	h.Marks.SleeveLength, h.Marks.Wanted = 15*mm, 25*mm
	h.Cables = []harness.Cable{{ID: "C1", Type: "TSP24", Given: 1000 * mm, A: harness.CableEnd{JacketOff: 60 * mm, Shield: "cut back"},
		B: harness.CableEnd{JacketOff: 60 * mm, Shield: "cut back"}}}
	h.Wires = []harness.Wire{{ID: "W1", Cable: "C1", Core: "2", A: benchEnd(h, 0), B: benchEnd(h, 1)}}
	h.Job.LengthIs = harness.LengthCut
	h.Marks.Cores = "colour"
	require.Empty(t, made(t, h).Sleeves)
	h.Marks.Cores = "sleeves"
	p, problems := Make(h, nil)
	require.Zero(t, problems.Errors())
	require.Len(t, p.Sleeves, 2)
	require.Equal(t, []string{"a", "b"}, []string{p.Sleeves[0].End, p.Sleeves[1].End})
	require.Equal(t, len(h.Job.Units), p.Sleeves[0].Count)
	require.Equal(t, "J2", p.Sleeves[0].Group)
	require.Contains(t, textsOf(problems), "type TSP24 core 2 does not give the diameter that its sleeves have to fit")
}

func textsOf(problems problem.List) []string {
	var all []string
	for _, p := range problems {
		all = append(all, p.Text)
	}
	return all
}

func TestLabels(t *testing.T) {
	h := threeConnectors()
	h.Marks.ConnectorLabel, h.Marks.HarnessLabel = "{connector} {title}", "{part} {serial}"
	h.Job.Part = "MOR-LM-210"
	labels := made(t, h).Labels
	require.Len(t, labels, len(h.Connectors)+len(h.Job.Units))
	require.Equal(t, Label{Kind: "connector", At: "J2", Text: "J2 box J2", Count: 3}, labels[0])
	require.Equal(t, Label{Kind: "harness", Text: "MOR-LM-210 0041", Unit: "0041", Count: 1}, labels[len(h.Connectors)])
	h.Job.Serials = false
	labels = made(t, h).Labels
	require.Equal(t, Label{Kind: "harness", Text: "MOR-LM-210", Count: 3}, labels[len(labels)-1], "alike in all units")
	h.Marks.ConnectorLabel, h.Marks.HarnessLabel = "", ""
	require.Empty(t, made(t, h).Labels)
}
