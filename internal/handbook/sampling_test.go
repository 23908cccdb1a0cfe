package handbook

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func number(t *testing.T, text string) int {
	t.Helper()
	value, err := strconv.Atoi(text)
	require.NoError(t, err)
	return value
}

func TestCodeLettersCellByCell(t *testing.T) {
	rows := vectors(t, "codeletters.csv")
	require.Len(t, rows, 15*len(InspectionLevels()))
	for _, row := range rows {
		for _, lot := range []string{row["from"], row["to"]} {
			letter, source, listed := CodeLetter(number(t, lot), row["level"])
			require.True(t, listed)
			require.Equal(t, row["letter"], letter, row)
			require.Equal(t, SecondHand, source.Standing)
		}
	}
	for _, level := range []string{"", "IV", "s-1"} {
		_, _, listed := CodeLetter(500, level)
		require.False(t, listed, level)
	}
	_, _, listed := CodeLetter(1, "II")
	require.False(t, listed)
}

func TestSamplePlansCellByCell(t *testing.T) {
	rows := vectors(t, "sampling.csv")
	require.Len(t, rows, 15*len(AcceptanceLimits()))
	for _, row := range rows {
		plan, listed := PlanOfLetter(row["letter"], row["aql"])
		require.True(t, listed)
		require.Equal(t, []string{row["letter"], row["used"], row["sample"], row["accept"], row["reject"]},
			[]string{plan.Letter, plan.Used, strconv.Itoa(plan.Sample), strconv.Itoa(plan.Accept), strconv.Itoa(plan.Reject)}, row)
	}
	for _, c := range [][2]string{{"R", "1.0"}, {"I", "1.0"}, {"O", "1.0"}, {"", "1.0"}, {"H", "4.0"}, {"H", "1"}} {
		_, listed := PlanOfLetter(c[0], c[1])
		require.False(t, listed, c)
	}
}

func TestSamplePlansOfLots(t *testing.T) {
	for _, row := range vectors(t, "lots.csv") {
		plan, listed := SamplePlanOf(number(t, row["lot"]), row["level"], row["aql"])
		require.True(t, listed)
		require.Equal(t, row["letter"], plan.Letter, row)
		require.Equal(t, row["sample"], strconv.Itoa(plan.Sample), row)
		require.Equal(t, row["all"] == "yes", plan.All, row)
		if !plan.All {
			require.Equal(t, []string{row["accept"], row["reject"]}, []string{strconv.Itoa(plan.Accept), strconv.Itoa(plan.Reject)}, row)
		}
	}
	_, listed := SamplePlanOf(600_000, "III", "1.0") // letter R, of which no plan is at hand
	require.False(t, listed)
}

// Acceptance at the AQL by the binomial law (derived): what a plan promises must not hang on a mistyped cell.
func TestPlansAcceptGoodLots(t *testing.T) {
	for _, c := range []struct {
		n, accept int
		p, want   float64
	}{{50, 1, 0.01, 0.9106}, {80, 2, 0.01, 0.9534}, {20, 0, 0.0065, 0.8777}, {13, 0, 0.01, 0.8775}, {5, 0, 0.025, 0.8811}, {80, 5, 0.025, 0.9848}} {
		require.InDelta(t, c.want, accepted(c.n, c.accept, c.p), 0.0001)
	}
	for _, row := range planTable() {
		for i, p := range []float64{0.0065, 0.01, 0.025} {
			if row.accept[i] >= 0 {
				require.Greater(t, accepted(row.sample, row.accept[i], p), 0.87, "%s %v", row.letter, p)
			}
		}
	}
}

// accepted is the chance that a sample of n holds no more than accept defectives, of which the lot has the share p.
func accepted(n, accept int, p float64) float64 {
	chance, term := 0.0, math.Pow(1-p, float64(n))
	for k := 0; k <= accept; k++ {
		chance += term
		term *= float64(n-k) / float64(k+1) * p / (1 - p)
	}
	return chance
}

func TestALargerLotNeverTakesASmallerSample(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lot := rapid.IntRange(2, 600_000).Draw(t, "lot")
		more := lot + rapid.IntRange(0, 1000).Draw(t, "more")
		level := rapid.SampledFrom(InspectionLevels()).Draw(t, "level")
		first, _, _ := CodeLetter(lot, level)
		second, _, _ := CodeLetter(more, level)
		require.LessOrEqual(t, first, second)
		for _, aql := range AcceptanceLimits() {
			if plan, listed := SamplePlanOf(lot, level, aql); listed {
				require.LessOrEqual(t, plan.Sample, lot)
				require.Equal(t, plan.Accept+1, plan.Reject)
			}
		}
	})
}
