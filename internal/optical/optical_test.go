package optical

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"loomleaf/internal/handbook"
)

type vector struct {
	check                  string
	input, want, tolerance float64 // tolerance in per cent
	source                 string
}

func vectors(t *testing.T) []vector {
	t.Helper()
	file, err := os.Open("../../testdata/vectors/optical.csv")
	require.NoError(t, err)
	defer file.Close()
	records, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	require.Equal(t, []string{"check", "input", "want", "tolerance", "source"}, records[0])
	var rows []vector
	for _, r := range records[1:] {
		v := vector{check: r[0], source: r[4]}
		for i, target := range []*float64{&v.input, &v.want, &v.tolerance} {
			*target, err = strconv.ParseFloat(r[i+1], 64)
			require.NoError(t, err, "%v", r)
		}
		require.NotEmpty(t, v.source, "%v", r)
		rows = append(rows, v)
	}
	return rows
}

// computed returns what the package makes of the input of a vector.
func computed(t *testing.T, v vector) float64 {
	t.Helper()
	const microwattsPerSquareCentimetre = 0.01 // W/m2
	switch v.check {
	case "weight":
		s, err := Weight(v.input)
		require.NoError(t, err)
		return s
	case "limit":
		s, err := Weight(v.input)
		require.NoError(t, err)
		return ActinicLimit / s
	case "actinic-seconds":
		sum, err := Add([]Line{{270, v.input * microwattsPerSquareCentimetre}}) // S = 1 at 270 nm
		require.NoError(t, err)
		return float64(sum.Actinic)
	case "duration":
		return ActinicLimit / v.input / microwattsPerSquareCentimetre
	case "uva-seconds":
		sum, err := Add([]Line{{365, v.input}})
		require.NoError(t, err)
		return float64(sum.EyeUVA)
	case "ozone":
		return OzoneMilligrams(v.input)
	case "exposure-cgs":
		return SquareCentimetre(v.input)
	case "mean":
		s, err := Weight(254)
		require.NoError(t, err)
		return ActinicLimit / s / v.input / microwattsPerSquareCentimetre
	}
	t.Fatalf("no computation for %q", v.check)
	return 0
}

func TestPublishedFigures(t *testing.T) {
	rows := vectors(t)
	require.Greater(t, len(rows), 70)
	for _, v := range rows {
		got := computed(t, v)
		require.LessOrEqual(t, math.Abs(got-v.want), v.want*v.tolerance/100+1e-12, "%s %g: %g, published %g, %s",
			v.check, v.input, got, v.want, v.source)
	}
}

// TestTheFormulaInThreePiecesIsNotUsed computes it: at 297 nm it lies 11 % below the table and would allow too much time.
func TestTheFormulaInThreePiecesIsNotUsed(t *testing.T) {
	formula := 1 - 0.36*math.Pow((297.0-270)/20, 1.64)
	require.InDelta(t, 0.411, formula, 0.001)
	s, err := Weight(297)
	require.NoError(t, err)
	require.InDelta(t, 0.46, s, 0.0046)
}

// The sums by hand: formulas read in Directive 2006/25/EC, Annex I.
func TestLinesOfALamp(t *testing.T) {
	mixed, err := Add([]Line{{254, 0.1}, {365, 10}})
	require.NoError(t, err)
	require.InEpsilon(t, 0.0511, mixed.Effective, 0.001)
	require.Equal(t, 587, mixed.Actinic)
	require.Equal(t, 1000, mixed.EyeUVA)
	require.Equal(t, 587, mixed.Eye())
	require.Equal(t, "the weighted (actinic) limit", mixed.Governs())
	single, err := Add([]Line{{365, 10}})
	require.NoError(t, err)
	require.Equal(t, 27272, single.Skin())
	require.Equal(t, 1000, single.Eye())
	require.Equal(t, "the UVA limit", single.Governs())
	edge, err := Add([]Line{{315, 100}})
	require.NoError(t, err)
	require.Equal(t, edge.Actinic, edge.EyeUVA) // S = 0.003 at 315 nm: both limits are 10000 J/m2
	require.Equal(t, 100, edge.Eye())
	require.Equal(t, "both limits alike", edge.Governs())
}

// TestTheStricterLimitGovernsThoughTheTimesRoundAlike has limits that are reached 0.3 s apart within one second.
func TestTheStricterLimitGovernsThoughTheTimesRoundAlike(t *testing.T) {
	sum, err := Add([]Line{{270, 30/587.2 - 0.00011*10000/587.5}, {365, 10000 / 587.5}}) // S is 1 and 0.00011
	require.NoError(t, err)
	require.Equal(t, sum.Actinic, sum.EyeUVA)
	require.Equal(t, "the weighted (actinic) limit", sum.Governs())
}

func TestSourcesSayHowSureTheyAre(t *testing.T) {
	require.Equal(t, "Directive 2006/25/EC, Annex I, Table 1.1, row a (read)", ActinicSource().String())
	for _, source := range []handbook.Source{UVASource(), WeightSource(), OzoneSource()} {
		require.Equal(t, handbook.SecondHand, source.Standing)
	}
}

func TestRefusals(t *testing.T) {
	for _, lines := range [][]Line{
		nil, {{179.9, 1}}, {{400.1, 1}}, {{math.NaN(), 1}}, {{365, 0}}, {{365, -1}}, {{365, math.NaN()}}, {{365, math.Inf(1)}},
		{{365, 1}, {254, 0}},
	} {
		_, err := Add(lines)
		require.Error(t, err, "%v", lines)
	}
}

func TestTimesAreRoundedDownAndCapped(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lines := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Line {
			return Line{rapid.Float64Range(180, 400).Draw(t, "nm"), rapid.Float64Range(1e-6, 1e4).Draw(t, "irradiance")}
		}), 1, 6).Draw(t, "lines")
		sum, err := Add(lines)
		require.NoError(t, err)
		require.LessOrEqual(t, sum.Actinic, Day)
		require.LessOrEqual(t, float64(sum.Actinic)*sum.Effective, ActinicLimit*(1+1e-9))
		require.LessOrEqual(t, float64(sum.EyeUVA)*sum.UVA, UVALimit*(1+1e-9))
		require.LessOrEqual(t, sum.Eye(), sum.Skin())
		more, err := Add(append(lines, Line{365, 5}))
		require.NoError(t, err)
		require.LessOrEqual(t, more.Eye(), sum.Eye())
	})
}
