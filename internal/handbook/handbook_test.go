package handbook

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/units"
)

func TestHookUpWireAgreesWithItsSheet(t *testing.T) {
	for _, row := range vectors(t, "hookup.csv") {
		t.Run(row["awg"], func(t *testing.T) {
			wire, listed := HookUpWireOf(row["document"], row["awg"])
			require.True(t, listed)
			require.Equal(t, row["awg"], wire.AWG)
			require.Equal(t, row["strands"], wire.Strands)
			require.Equal(t, length(t, row["nominal_in"], "in"), wire.NominalDiameter)
			require.Equal(t, length(t, row["maximum_in"], "in"), wire.MaximumDiameter)
			require.InDelta(t, float64(length(t, row["nominal_mm"], "mm")), float64(wire.NominalDiameter), 5)
			require.InDelta(t, float64(length(t, row["maximum_mm"], "mm")), float64(wire.MaximumDiameter), 5)
			require.Equal(t, row["lb_per_1000ft"], wire.PoundsPer1000Feet)
			mass, err := units.ParseLinearMass(row["lb_per_1000ft"] + " lb/1000 ft")
			require.NoError(t, err)
			require.Equal(t, mass, wire.Mass)
			require.Equal(t, SecondHand, wire.Source.Standing)
			conductor, listed := WireSizeOf(wire.AWG)
			require.True(t, listed)
			require.Greater(t, wire.NominalDiameter, conductor.Diameter)
		})
	}
}

func TestHookUpWireThatIsNotListed(t *testing.T) {
	for _, c := range [][2]string{{"M22759/16", "26"}, {"M22759/16", ""}, {"M22759/34", "22"}, {"", "22"}} {
		_, listed := HookUpWireOf(c[0], c[1])
		require.False(t, listed, c)
	}
}

// 3.52 lb/1000 ft are 0.524 kg for 100 m (arithmetic on the sheet's figure).
func TestHookUpWireMass(t *testing.T) {
	wire, _ := HookUpWireOf("M22759/16", "22")
	require.InDelta(t, 524_000, float64(wire.Mass*100), 500) // milligrams
}

func TestSpareCavities(t *testing.T) {
	for _, row := range vectors(t, "spare.csv") {
		contacts, err := strconv.Atoi(row["contacts"])
		require.NoError(t, err)
		spares, source := SpareCavities(contacts)
		require.Equal(t, row["spares"], strconv.Itoa(spares), row["contacts"])
		require.Equal(t, "AC 43.13-1B, CHG 1 of 2001-09-27, paragraph 11-234 (read)", source.String())
	}
	none, _ := SpareCavities(0)
	require.Zero(t, none)
}

func TestSourceInWords(t *testing.T) {
	require.Equal(t, "from memory", Source{}.String())
	require.Equal(t, "IEC 60228 (from memory)", Source{Document: "IEC 60228"}.String())
	require.Equal(t, "a habit, b (common practice)", Source{Document: "a habit", Table: "b", Standing: CommonPractice}.String())
	require.Equal(t, []string{"from memory", "common practice", "derived", "second-hand", "read"},
		[]string{Memory.String(), CommonPractice.String(), Derived.String(), SecondHand.String(), Read.String()})
}
