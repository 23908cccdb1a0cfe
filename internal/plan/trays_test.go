package plan

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

func TestAFullTrayIsFollowedByAnother(t *testing.T) {
	h := surveyHarness()
	h.Tray.Wires = 2
	for _, id := range []string{"W1", "W2", "W3", "W4", "W5"} {
		addWire(h, id, "E22W", 0, 1, units.Metre)
	}
	h.Twists = []harness.Twist{{ID: "T1", Wires: []string{"W2", "W3"}, Lay: 25 * units.Millimetre, Pitch: units.Millimetre}}
	p := made(t, h)
	var ids []string
	for _, tray := range p.Trays {
		if tray.Unit == "0041" {
			ids = append(ids, tray.ID)
			require.Equal(t, 3, tray.Of)
		}
	}
	require.Equal(t, []string{"J2/0041", "J2/0041/2", "J2/0041/3"}, ids)
	require.Equal(t, [][]string{{"W1"}, {"W2", "W3"}, {"W4", "W5"}}, [][]string{p.Trays[0].Wires, p.Trays[1].Wires, p.Trays[2].Wires}, "a twist is not parted")
	require.Equal(t, 2, p.Trays[1].Part)
	steps := p.Groups[0].Steps[0]
	require.Equal(t, []StepKind{StepLoad, StepWire, StepTray, StepWire, StepWire, StepTray, StepWire, StepWire}, kindsOfSteps(steps))
	require.Equal(t, Step{Kind: StepTray, Part: 2, Of: 3, Units: []string{}}, steps[2])
	require.Equal(t, "J2/0042/2", p.Pieces[slices.IndexFunc(p.Pieces, func(c Piece) bool { return c.Wire == "W3" && c.Unit == "0042" })].Tray)
}

func kindsOfSteps(steps []Step) []StepKind {
	var kinds []StepKind
	for _, step := range steps {
		kinds = append(kinds, step.Kind)
	}
	return kinds
}

func TestTraysAreFullBySectionAndMass(t *testing.T) {
	for name, rule := range map[string]harness.TrayRule{
		"section": {Wires: 60, Length: 2 * units.Metre, Section: 3_900_000}, // 1.27 mm over the insulation: 1.266 mm2 a wire, three of them
		"mass":    {Wires: 60, Length: 2 * units.Metre, Mass: 16_000},       // 5.2 g/m, a metre each
	} {
		h := surveyHarness()
		h.Tray = rule
		h.WireTypes[0].Mass = 5_200
		for _, id := range []string{"W1", "W2", "W3", "W4"} {
			addWire(h, id, "E22W", 0, 1, units.Metre)
		}
		p := made(t, h)
		require.Equal(t, [][]string{{"W1", "W2", "W3"}, {"W4"}}, [][]string{p.Trays[0].Wires, p.Trays[1].Wires}, name)
		require.Equal(t, int64(15_600), p.Trays[0].MG)
	}
}

func TestWhatOneTrayDoesNotHoldIsWarnedOf(t *testing.T) {
	h := surveyHarness()
	h.Tray.Section = 1_000_000
	addWire(h, "W1", "E22W", 0, 1, units.Metre)
	_, problems := Make(h, nil)
	require.Equal(t, `tray 1 of connector "J2" is too small: a tray does not hold W1`, problems.Warnings()[0].Text)
}

// TestCoils holds coils to figures worked out from the same relation: 2 m of 1.3 mm on 80 mm, 10 m on 120 mm, 30 m of 2.2 mm on 200 mm.
func TestCoils(t *testing.T) {
	for _, c := range []struct {
		length, diameter, inner units.Length
		want                    Coil
	}{
		{2 * units.Metre, 1300, 80_000, Coil{InnerUM: 80_000, OuterUM: 88_800, Turns: 7, Ties: 3}},
		{10 * units.Metre, 1300, 120_000, Coil{InnerUM: 120_000, OuterUM: 136_000, Turns: 24, Ties: 3}},
		{30 * units.Metre, 2200, 200_000, Coil{InnerUM: 200_000, OuterUM: 236_200, Turns: 43, Ties: 3}},
		{600 * units.Millimetre, 1300, 200_000, Coil{InnerUM: 200_000, OuterUM: 200_000, Ties: 3}},
		{30 * units.Metre, 12_000, 200_000, Coil{InnerUM: 240_000, OuterUM: 402_400, Turns: 29, Ties: 3}},
	} {
		rule := harness.TrayRule{Coil: c.inner, Bend: 10, Tie: 300 * units.Millimetre}
		require.Equal(t, c.want, coilOf("", c.length, c.diameter, rule))
	}
	wide := coilOf("", 30*units.Metre, 2200, harness.TrayRule{Coil: 400 * units.Millimetre, Bend: 10, Tie: 300 * units.Millimetre})
	require.Equal(t, 5, wide.Ties, "a tie every 300 mm of 1257 mm")
}

func TestTraysHoldEveryPieceOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := drawHarness(t)
		h.Tray.Wires = rapid.IntRange(1, 4).Draw(t, "tray")
		p := made(t, h)
		held := map[string][]string{}
		for _, tray := range p.Trays {
			require.LessOrEqual(t, len(tray.Wires), h.Tray.Wires)
			held[tray.ID] = tray.Wires
		}
		got := map[string][]string{}
		for _, piece := range p.Pieces {
			got[piece.Tray] = append(got[piece.Tray], piece.Wire)
		}
		require.Equal(t, held, got, "in the order of the run")
	})
}
