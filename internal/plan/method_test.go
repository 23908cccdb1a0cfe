package plan

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/handbook"
	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// methodCase is a type and a line, and how the one is marked on the other.
type methodCase struct {
	name    string
	wire    harness.WireType
	methods []harness.Method
	inks    []string
	method  harness.Method
	ink     string
	warning string
}

func methodCases() []methodCase {
	both, white := []harness.Method{harness.MethodLaser, harness.MethodInk}, []string{"white"}
	inkOnly, laserOnly := both[1:], both[:1]
	proof := &harness.Proof{On: harness.Date{Year: 2026, Month: 10, Day: 2}, By: "marking lead", Record: "ML-118"}
	return []methodCase{
		{"laser", harness.WireType{Laser: "yes", Colour: "WH"}, both, nil, "laser", "", ""},
		{"dark ink on light", harness.WireType{Laser: "no", Colour: "WH"}, both, nil, "ink", "black", ""},
		{"light ink on dark", harness.WireType{Laser: "no", Colour: "BK"}, both, nil, "ink", "white", ""},
		{"record beats contrast", harness.WireType{Laser: "no", Colour: "BN", Ink: "black", Proved: proof}, both, nil, "ink", "black", ""},
		{"no record beats contrast", harness.WireType{Laser: "no", Colour: "BN", Ink: "black"}, both, nil, "test first", "",
			`wire type "T" names black ink without the record that proved it`},
		{"never black on black", harness.WireType{Laser: "no", Colour: "BK", Ink: "black", Proved: proof}, both, nil, "test first", "",
			`nothing says how wire type "T" takes a mark: it is to be proved before the run`},
		{"no laser on black unproved", harness.WireType{Laser: "yes", Colour: "BK"}, both, nil, "ink", "white", ""},
		{"laser on black as proved", harness.WireType{Laser: "yes", Colour: "BK", Proved: proof}, both, nil, "laser", "", ""},
		{"nothing shows", harness.WireType{Laser: "no", Colour: "RD", Ink: "none", Proved: proof}, both, nil, "sleeve", "",
			`wire type "T" is marked with sleeves: no mark stays readable on it, as proved`},
		{"nothing shows, unproved", harness.WireType{Laser: "no", Colour: "WH", Ink: "none"}, both, nil, "test first", "",
			"type T takes no ink, and no record proves it: record proved"},
		{"a mid tone", harness.WireType{Laser: "no", Colour: "RD"}, both, nil, "test first", "",
			`nothing says how wire type "T" takes a mark: it is to be proved before the run`},
		{"a mid tone as proved", harness.WireType{Laser: "no", Colour: "RD", Ink: "white", Proved: proof}, both, nil, "ink", "white", ""},
		{"dark on a light stripe", harness.WireType{Laser: "no", Colour: "WH/BK"}, both, nil, "test first", "",
			`nothing says how wire type "T" takes a mark: it is to be proved before the run`},
		{"no laser on the line", harness.WireType{Laser: "yes", Colour: "WH"}, inkOnly, nil, "ink", "black", ""},
		{"nobody knows the colour", harness.WireType{Laser: "no", Colour: "?"}, both, nil, "test first", "",
			`nothing says how wire type "T" takes a mark: it is to be proved before the run`},
		{"recorded ink on unknown colour", harness.WireType{Laser: "no", Colour: "?", Ink: "white", Proved: proof}, both, nil, "ink", "white", ""},
		{"laser to be tested", harness.WireType{Laser: "test first", Colour: "WH"}, both, nil, "test first", "",
			`nothing says how wire type "T" takes a mark: it is to be proved before the run`},
		{"laser to be tested, ink recorded", harness.WireType{Laser: "test first", Colour: "WH", Ink: "black", Proved: proof}, both, nil, "ink", "black", ""},
		{"no ink on the line", harness.WireType{Laser: "no", Colour: "WH"}, laserOnly, nil, "sleeve", "",
			`wire type "T" is marked with sleeves: it takes ink, and the line has no ink`},
		{"no such head", harness.WireType{Laser: "no", Colour: "WH"}, both, white, "sleeve", "",
			`wire type "T" is marked with sleeves: it takes black ink, and the line has no black head`},
		{"measure and cut only", harness.WireType{Laser: "yes", Colour: "WH"}, nil, nil, "sleeve", "", ""},
		{"too thin for the line", harness.WireType{Laser: "yes", Diameter: 600}, both, nil, "sleeve", "",
			`wire type "T" is marked with sleeves: its diameter of 0.6 mm is outside the line's 0.7 mm to 7 mm`},
		{"too thick for the line", harness.WireType{Laser: "yes", Diameter: 7001}, both, nil, "sleeve", "",
			`wire type "T" is marked with sleeves: its diameter of 7.001 mm is outside the line's 0.7 mm to 7 mm`},
		{"no height", harness.WireType{Laser: "yes", Diameter: 888}, both, nil, "sleeve", "",
			`wire type "T" is marked with sleeves: no character height of the line suits its diameter of 0.888 mm`},
	}
}

func TestMethodByTypeAndLine(t *testing.T) {
	for _, c := range methodCases() {
		line := twoEnds().Line
		line.Methods = c.methods
		if c.inks != nil {
			line.Inks = c.inks
		}
		c.wire.ID = "T"
		if c.wire.Diameter == 0 {
			c.wire.Diameter = 1270
		}
		got, warnings := markingOf(&c.wire, &line)
		require.Equal(t, c.method, got.method, c.name)
		require.Equal(t, c.ink, got.ink, c.name)
		require.Equal(t, c.method == harness.MethodSleeve, len(got.heights) == 0, c.name)
		require.Zero(t, warnings.Errors(), c.name)
		if c.warning == "" {
			require.Empty(t, warnings, c.name)
		} else {
			require.Len(t, warnings, 1, c.name)
			require.Equal(t, c.warning, warnings[0].Text)
			require.Equal(t, "T", warnings[0].ID)
		}
	}
}

func TestHeightsByDiameter(t *testing.T) {
	line := twoEnds().Line
	for _, c := range []struct {
		diameter units.Length
		want     []units.Length
	}{
		{888, nil}, {889, []units.Length{800}}, {1270, []units.Length{1000, 800}},
		{1445, []units.Length{1300, 1000, 800}}, {6000, []units.Length{2500, 1800, 1300, 1000, 800}},
	} {
		single, double := heightsFor(c.diameter, &line)
		require.Equal(t, c.want, single, c.diameter)
		require.Empty(t, double)
	}
}

func TestTypeWarnsOnce(t *testing.T) {
	h := twoEnds()
	h.WireTypes[0].Laser, h.WireTypes[0].Colour = "no", "?"
	h.Wires = append(h.Wires, h.Wires[0], h.Wires[0])
	h.Wires[1].ID, h.Wires[2].ID = "W2", "W3"
	rows, _, problems := wireRows(h)
	require.Len(t, problems, 1)
	require.Len(t, rows, 3)
	require.Equal(t, "test first", rows[0].Method)
	require.NotEmpty(t, rows[0].Marks, "planned like ink")
	for i := range h.Wires {
		h.Wires[i].Mark = "none"
	}
	_, _, problems = wireRows(h)
	require.Empty(t, problems, "nothing is marked")
}

// TestNoInkOfTheColourOfTheWire tries every colour with every record: black on black cannot come out, nor white on white, nor a laser
// mark on black that nobody has proved. Dark ink on light and light ink on dark are common practice.
func TestNoInkOfTheColourOfTheWire(t *testing.T) {
	line := twoEnds().Line
	for _, base := range append(handbook.ColourCodes(), handbook.UnknownColour) {
		for _, stripe := range append(handbook.ColourCodes(), "") {
			colour := strings.TrimSuffix(base+"/"+stripe, "/")
			if _, listed := handbook.ColourOf(colour); !listed {
				continue
			}
			for _, laser := range []harness.Laser{harness.LaserYes, harness.LaserNo, harness.LaserTestFirst} {
				for _, ink := range []string{"", "black", "white"} {
					for _, proof := range []*harness.Proof{nil, {Record: "ML-1"}} {
						wire := harness.WireType{ID: "T", Diameter: 1270, Colour: colour, Laser: laser, Ink: ink, Proved: proof}
						got, _ := markingOf(&wire, &line)
						what := []any{colour, laser, ink, proof}
						require.False(t, got.ink == "black" && base == "BK", what...)
						require.False(t, got.ink == "white" && base == "WH", what...)
						require.False(t, got.method == harness.MethodLaser && (laser != harness.LaserYes || base == "BK" && proof == nil), what...)
						contrast, known, _ := handbook.Contrast(colour)
						if got.method == harness.MethodInk && proof == nil {
							require.True(t, known && contrast == got.ink, what...)
						}
					}
				}
			}
		}
	}
}
