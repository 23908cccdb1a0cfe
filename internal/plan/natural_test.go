package plan

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestNaturalOrder(t *testing.T) {
	sorted := []string{"", "1", "01", "2", "10", "A", "A9", "A10", "W1", "W01", "W1A", "W2", "W10",
		"W99999999999999999998", "W99999999999999999999", "a", "é"}
	for i, a := range sorted {
		for j, b := range sorted {
			got := naturalCompare(a, b)
			switch {
			case a == "1" && b == "01" || a == "W1" && b == "W01":
				require.Positive(t, got, "equal values go by bytes, and 0 is before 1")
			case a == "01" && b == "1" || a == "W01" && b == "W1":
				require.Negative(t, got)
			case i < j:
				require.Negative(t, got, "%q before %q", a, b)
			case i == j:
				require.Zero(t, got)
			default:
				require.Positive(t, got, "%q after %q", a, b)
			}
		}
	}
}

func TestNaturalOrderIsTotal(t *testing.T) {
	text := rapid.StringOfN(rapid.SampledFrom([]rune("019AaW.-")), 0, 6, -1)
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := text.Draw(t, "a"), text.Draw(t, "b"), text.Draw(t, "c")
		require.Equal(t, naturalCompare(a, b), -naturalCompare(b, a))
		require.Equal(t, a == b, naturalCompare(a, b) == 0)
		three := []string{a, b, c}
		slices.SortFunc(three, naturalCompare)
		require.LessOrEqual(t, naturalCompare(three[0], three[2]), 0)
	})
}
