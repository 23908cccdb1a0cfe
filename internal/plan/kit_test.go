package plan

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"loomleaf/internal/units"
)

// TestSpareIsTheShareRoundedUp compares with arithmetic that cannot overflow.
func TestSpareIsTheShareRoundedUp(t *testing.T) {
	require.Equal(t, []int64{0, 1, 1, 2, 0}, []int64{shareUp(0, 20_000), shareUp(1, 20_000), shareUp(50, 20_000), shareUp(51, 20_000), shareUp(186, 0)})
	rapid.Check(t, func(t *rapid.T) {
		amount := rapid.Int64Range(0, 1e15).Draw(t, "amount")
		share := rapid.Int64Range(0, 1_000_000).Draw(t, "share")
		exact := new(big.Int).Mul(big.NewInt(amount), big.NewInt(share))
		exact.Add(exact, big.NewInt(999_999)).Div(exact, big.NewInt(1_000_000))
		require.Equal(t, exact.Int64(), shareUp(amount, units.Share(share)))
	})
}
