package units

import (
	"fmt"
	"math"
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestPrintsExactly(t *testing.T) {
	require.Equal(t, "119.38 mm", Length(119_380).String())
	require.Equal(t, "-0.006 mm", Length(-6).String())
	require.Equal(t, "0.34 mm2", Area(340_000).String())
	require.Equal(t, "4000 g", Mass(4_000_000).String())
	require.Equal(t, "5.2 g/m", LinearMass(5200).String())
	require.Equal(t, "0.15 s", Time(150).String())
	require.Equal(t, "1.2 m/s", Speed(1_200_000).String())
	require.Equal(t, "0.1 %", Share(1000).String())
	require.Equal(t, "22.5 deg", Angle(22_500).String())
	require.Equal(t, "0.9", Factor(900).String())
	require.Equal(t, "-9223372036854775.808", Factor(math.MinInt64).String())
}

func TestPrintsLengthsForPaper(t *testing.T) {
	cases := []struct {
		length                     Length
		millimetres, tenth, metres string
	}{
		{0, "0", "0", "0.0"},
		{1_432_000, "1432", "1432", "1.5"},
		{1_432_499, "1432", "1432.5", "1.5"},
		{1_432_500, "1433", "1432.5", "1.5"},
		{5_449, "5", "5.4", "0.1"},
		{5_450, "5", "5.5", "0.1"},
		{14_300_001, "14300", "14300", "14.4"},
		{14_000_000, "14000", "14000", "14.0"},
		{-6_000, "-6", "-6", "0.0"},
		{-500, "0", "-0.5", "0.0"}, // a half goes up
		{-501, "-1", "-0.5", "0.0"},
		{-1_250_000, "-1250", "-1250", "-1.2"},
	}
	for _, c := range cases {
		t.Run(c.length.String(), func(t *testing.T) {
			require.Equal(t, c.millimetres, c.length.Millimetres())
			require.Equal(t, c.tenth, c.length.MillimetresTenths())
			require.Equal(t, c.metres, c.length.Metres())
		})
	}
}

func TestPrintsCrossSections(t *testing.T) {
	cases := []struct {
		area Area
		want string
	}{
		{0, "0.000000"}, {325_500, "0.33"}, {204_700, "0.20"}, {500_000, "0.50"}, {107_219_000, "107.22"}, {2_500_000, "2.50"},
		{34_200, "0.034"}, {80_980, "0.081"}, {99_600, "0.100"}, {99_400, "0.099"}, {5_010, "0.0050"}, {12_700, "0.013"}, {7, "0.000007"},
	}
	for _, c := range cases {
		require.Equal(t, c.want, c.area.SquareMillimetres(), "%d um2", int64(c.area))
	}
}

func TestPrintsForces(t *testing.T) {
	for tenths := range 5000 { // of a pound-force
		force, err := ParseForce(fmt.Sprintf("%d.%d lbf", tenths/10, tenths%10))
		require.NoError(t, err)
		same := strings.TrimSuffix(fmt.Sprintf("%d.%d", tenths/10, tenths%10), ".0")
		require.Equal(t, same, force.Pounds(true))
		require.Equal(t, same, force.Pounds(false))
	}
	require.Equal(t, []string{"53.4", "53.3"}, []string{Force(53_379).Newtons(true), Force(53_379).Newtons(false)})
	require.Equal(t, []string{"12.1", "12"}, []string{Force(53_400).Pounds(true), Force(53_400).Pounds(false)})
	require.NotPanics(t, func() { _, _ = Force(math.MaxInt64).Newtons(true), Force(1e9).Pounds(true) })
}

func TestCeilToIsTheNextMultiple(t *testing.T) {
	require.Equal(t, 1432*Millimetre, (1431*Millimetre + 1).CeilTo(Millimetre))
	require.Equal(t, 1432*Millimetre, (1432 * Millimetre).CeilTo(Millimetre))
	require.Equal(t, -1*Millimetre, (-1*Millimetre - 1).CeilTo(Millimetre))
	rapid.Check(t, func(t *rapid.T) {
		length := Length(rapid.Int64Range(-1e12, 1e12).Draw(t, "length"))
		step := Length(rapid.Int64Range(1, 1e6).Draw(t, "step"))
		got := length.CeilTo(step)
		require.Zero(t, got%step)
		require.GreaterOrEqual(t, got, length)
		require.Less(t, got-step, length)
	})
}

func TestDistance(t *testing.T) {
	require.Equal(t, Length(5), Distance(3, 4))
	require.Equal(t, Length(5), Distance(-3, 4))
	require.Equal(t, Length(0), Distance(0, 0))
	require.Equal(t, Length(1), Distance(1, 1))                             // 1.414
	require.Equal(t, Length(3), Distance(2, 2))                             // 2.828
	require.Equal(t, Length(1_414_213_562_373), Distance(1e12, 1e12))       // 1414213562373.095
	require.Equal(t, Length(math.MaxInt64), Distance(math.MinInt64, 0))     // beyond the range
	require.Equal(t, Length(math.MaxInt64), Distance(math.MaxInt64, 1<<62)) // beyond the range
	rapid.Check(t, func(t *rapid.T) {
		dx := rapid.Int64Range(-1e12, 1e12).Draw(t, "dx")
		dy := rapid.Int64Range(-1e12, 1e12).Draw(t, "dy")
		got := int64(Distance(Length(dx), Length(dy)))
		square := sum(mul(dx, dx), mul(dy, dy))
		// got - 1/2 <= root < got + 1/2, both sides doubled and squared
		twice := new(big.Int).Lsh(square, 2)
		require.Negative(t, twice.Cmp(mul(2*got+1, 2*got+1)))
		if got > 0 {
			require.GreaterOrEqual(t, twice.Cmp(mul(2*got-1, 2*got-1)), 0)
		}
		require.Equal(t, Distance(Length(dx), Length(dy)), Distance(Length(-dy), Length(dx)))
	})
}

func mul(a, b int64) *big.Int    { return new(big.Int).Mul(big.NewInt(a), big.NewInt(b)) }
func sum(a, b *big.Int) *big.Int { return new(big.Int).Add(a, b) }
