package plan

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// numbered returns cavities 1 to count.
func numbered(count int) []harness.Cavity {
	cavities := make([]harness.Cavity, count)
	for i := range cavities {
		cavities[i].Name = fmt.Sprint(i + 1)
	}
	return cavities
}

// placeOf finds a cavity on a face.
func placeOf(t require.TestingT, face Face, cavity string) FacePlace {
	for _, place := range face.Places {
		if place.Cavity == cavity {
			return place
		}
	}
	require.Fail(t, "no place", cavity)
	return FacePlace{}
}

func TestRingsFromTheWireSide(t *testing.T) {
	rings := harness.Face{Kind: harness.FaceRings, Rings: []int{16, 12, 8, 1}, Clockwise: true, MatingSide: true}
	face := faceRow(&harness.Connector{Cavities: numbered(37), Face: rings})
	require.Len(t, face.Places, 37)
	require.True(t, face.Round)
	require.Equal(t, FacePlace{Cavity: "1", X: 0, Y: 30_000}, placeOf(t, face, "1"), "at the key")
	// The second place is a 16th of a turn on: 30000 x sin 22.5 deg = 11480.5, to the left of the key from behind.
	require.Equal(t, FacePlace{Cavity: "2", X: -11_481, Y: 27_716}, placeOf(t, face, "2"))
	require.Equal(t, FacePlace{Cavity: "5", X: -30_000, Y: 0}, placeOf(t, face, "5"), "a quarter turn is full left")
	require.Equal(t, FacePlace{Cavity: "13", X: 30_000, Y: 0}, placeOf(t, face, "13"))
	require.Equal(t, FacePlace{Cavity: "17", X: 0, Y: 20_000}, placeOf(t, face, "17"), "the second ring starts at the key again")
	require.Equal(t, FacePlace{Cavity: "18", X: -10_000, Y: 17_321}, placeOf(t, face, "18"))
	require.Equal(t, FacePlace{Cavity: "29", X: 0, Y: 10_000}, placeOf(t, face, "29"))
	require.Equal(t, FacePlace{Cavity: "37"}, placeOf(t, face, "37"), "one alone is the centre")
	require.Equal(t, int64(7654), face.PitchUM, "neighbours on the ring of eight: 20000 x sin 22.5 deg")
	require.Equal(t, int64(67_654), face.WidthUM)
	require.Equal(t, int64(67_654), face.HeightUM)
}

func TestRingsByDirectionSideAndStart(t *testing.T) {
	for _, c := range []struct {
		clockwise, mating bool
		x                 int64
	}{{true, true, -10_000}, {true, false, 10_000}, {false, true, 10_000}, {false, false, -10_000}} {
		rings := harness.Face{Kind: harness.FaceRings, Rings: []int{4}, Clockwise: c.clockwise, MatingSide: c.mating}
		face := faceRow(&harness.Connector{Cavities: numbered(4), Face: rings})
		require.Equal(t, FacePlace{Cavity: "1", Y: 10_000}, face.Places[0])
		require.Equal(t, FacePlace{Cavity: "2", X: c.x}, face.Places[1])
		rings.Start = 90_000 // in the stated direction, so that cavity 1 takes the place of cavity 2
		face = faceRow(&harness.Connector{Cavities: numbered(4), Face: rings})
		require.Equal(t, FacePlace{Cavity: "1", X: c.x}, face.Places[0])
	}
}

func TestRowsFromTheWireSide(t *testing.T) {
	// Rows of five and four, half a pitch apart: the habit of D-subminiature inserts, several makers' pages (second-hand).
	rows := harness.Face{Kind: harness.FaceRows, Rows: [][]string{{"1", "2", "3", "4", "5"}, {"6", "7", "8", "9"}}}
	face := faceRow(&harness.Connector{Cavities: numbered(9), Face: rows})
	require.Equal(t, FacePlace{Cavity: "1", X: -20_000, Y: 5000}, face.Places[0])
	require.Equal(t, FacePlace{Cavity: "5", X: 20_000, Y: 5000}, face.Places[4])
	require.Equal(t, FacePlace{Cavity: "6", X: -15_000, Y: -5000}, face.Places[5])
	require.Equal(t, int64(50_000), face.WidthUM)
	require.Equal(t, int64(20_000), face.HeightUM)
	require.Equal(t, int64(10_000), face.PitchUM)
	require.False(t, face.Round)
	rows.MatingSide = true
	face = faceRow(&harness.Connector{Cavities: numbered(9), Face: rows})
	require.Equal(t, FacePlace{Cavity: "1", X: 20_000, Y: 5000}, face.Places[0], "1 is on the right from behind")
	require.Equal(t, FacePlace{Cavity: "6", X: 15_000, Y: -5000}, face.Places[5])
}

func TestGivenPlacesAreCentredAndMirrored(t *testing.T) {
	given := harness.Face{Kind: harness.FacePlaces, MatingSide: true, Places: []harness.FacePlace{
		{Cavity: "A", X: 2 * mm, Y: 0}, {Cavity: "B", X: 8 * mm, Y: 0}, {Cavity: "C", X: 3 * mm, Y: 4 * mm},
	}}
	face := faceRow(&harness.Connector{Cavities: []harness.Cavity{{Name: "A"}, {Name: "B"}, {Name: "C"}}, Face: given})
	require.Equal(t, []FacePlace{{"A", 3000, -2000, false}, {"B", -3000, -2000, false}, {"C", 2000, 2000, false}}, face.Places)
	require.Equal(t, int64(4123), face.PitchUM, "A to C")
	require.Equal(t, int64(10_123), face.WidthUM)
	require.Equal(t, int64(8123), face.HeightUM)
}

func TestSchematicHasNoPicture(t *testing.T) {
	require.Equal(t, Face{Places: []FacePlace{}}, faceRow(&harness.Connector{Cavities: numbered(3)}))
}

func TestSinglePlaceHasASize(t *testing.T) {
	face := faceRow(&harness.Connector{Cavities: numbered(1), Face: harness.Face{Kind: harness.FaceRings, Rings: []int{1}}})
	require.Equal(t, int64(facePitch), face.WidthUM)
}

func TestPlacesOfARingKeepRadiusAndAngle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		count := rapid.IntRange(2, 40).Draw(t, "count")
		start := units.Angle(rapid.IntRange(-360_000, 360_000).Draw(t, "start"))
		ring := harness.Face{Kind: harness.FaceRings, Rings: []int{count}, Start: start, Clockwise: rapid.Bool().Draw(t, "clockwise"),
			MatingSide: rapid.Bool().Draw(t, "mating side")}
		face := faceRow(&harness.Connector{Cavities: numbered(count), Face: ring})
		side := 1.0
		if ring.Clockwise == ring.MatingSide {
			side = -1
		}
		for i, place := range face.Places {
			turn := (float64(start)/1000 + 360*float64(i)/float64(count)) * math.Pi / 180
			require.InDelta(t, side*facePitch*math.Sin(turn), float64(place.X), 0.501)
			require.InDelta(t, facePitch*math.Cos(turn), float64(place.Y), 0.501)
		}
		chord := 2 * facePitch * math.Sin(math.Pi/float64(count))
		require.InDelta(t, chord, float64(face.PitchUM), 2)
	})
}
