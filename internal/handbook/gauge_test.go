package handbook

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/units"
)

func TestGaugesAgreeWithPublishedFigures(t *testing.T) {
	for _, row := range vectors(t, "awg.csv") {
		t.Run(row["awg"], func(t *testing.T) {
			size, listed := WireSizeOf(row["awg"])
			require.True(t, listed)
			micrometres := float64(size.Diameter)
			agrees(t, row["diameter_mm"], 1000, micrometres)
			agrees(t, row["diameter_in"], 25_400, micrometres)
			agrees(t, row["area_mm2"], 1_000_000, float64(size.Area))
		})
	}
}

// agrees holds that a whole number is the published figure, times scale, within half of the last digit of either.
func agrees(t *testing.T, figure string, scale, whole float64) {
	t.Helper()
	published, err := strconv.ParseFloat(figure, 64)
	require.NoError(t, err)
	_, fraction, _ := strings.Cut(figure, ".")
	half := math.Pow(10, -float64(len(fraction))) / 2
	require.InDelta(t, published*scale, whole, half*scale+0.5)
}

func TestGaugesFollowTheFormula(t *testing.T) {
	for number := thickestGauge; number <= thinnestGauge; number++ {
		size, listed := WireSizeOf(gaugeName(number))
		require.True(t, listed)
		diameter := 127 * math.Pow(92, float64(36-number)/39) // ASTM B258: 0.005 in is 127 um
		require.InDelta(t, diameter, float64(size.Diameter), 0.5, size.Gauge)
		require.InDelta(t, math.Pi/4*diameter*diameter, float64(size.Area), 0.5, size.Gauge)
		require.GreaterOrEqual(t, size.Area, units.Area(1000), "four significant figures")
	}
}

func TestGaugeNames(t *testing.T) {
	for _, same := range [][3]string{{"0", "1/0", "1/0"}, {"00", "2/0", "2/0"}, {"000", "3/0", "3/0"}, {"0000", "4/0", "4/0"}, {"21", "21", "21"}} {
		one, listed := WireSizeOf(same[0])
		require.True(t, listed)
		other, listed := WireSizeOf(same[1])
		require.True(t, listed)
		require.Equal(t, one, other)
		require.Equal(t, same[2], one.Gauge)
		require.Equal(t, "ASTM B258, diameter formula (derived)", one.Source.String())
	}
	for _, awg := range []string{"", "41", "-1", "+1", "01", "022", "22 AWG", "0.34", "00000", "5/0", "0/0", "/0", "10/0", "24/28", "2/00", "２２", "99999999999999999999"} {
		_, listed := WireSizeOf(awg)
		require.False(t, listed, awg)
	}
}

func TestCompareGauge(t *testing.T) {
	scale := []string{"40", "28", "23", "22", "10", "9", "1", "0", "2/0", "000", "4/0"} // thinnest first
	for i, a := range scale {
		for j, b := range scale {
			got, listed := CompareGauge(a, b)
			require.True(t, listed)
			require.Equal(t, sign(i-j), got, "%s against %s", a, b)
			thin, _ := WireSizeOf(a)
			thick, _ := WireSizeOf(b)
			require.Equal(t, sign(int(thin.Area-thick.Area)), got)
		}
	}
	same, listed := CompareGauge("0000", "4/0")
	require.True(t, listed)
	require.Zero(t, same)
	_, listed = CompareGauge("22", "0.34")
	require.False(t, listed)
	_, listed = CompareGauge("", "22")
	require.False(t, listed)
}

func sign(value int) int {
	switch {
	case value < 0:
		return -1
	case value > 0:
		return 1
	default:
		return 0
	}
}

func FuzzWireSizeOf(f *testing.F) {
	for _, seed := range []string{"22", "4/0", "0000", "-3", "0x10", "24/28"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, awg string) {
		size, listed := WireSizeOf(awg)
		if !listed {
			require.Equal(t, WireSize{}, size)
			return
		}
		again, listed := WireSizeOf(size.Gauge)
		require.True(t, listed)
		require.Equal(t, size, again)
		number, err := strconv.Atoi(size.Gauge)
		require.True(t, err != nil || number > 0 && number <= 40)
	})
}
