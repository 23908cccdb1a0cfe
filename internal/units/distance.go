package units

import (
	"math"
	"math/big"
)

// Distance returns the length of the straight line over dx and dy, rounded to the nearest micrometre.
// The root is taken of whole numbers, so that every processor gives the same; beyond the range of Length it is the largest Length.
func Distance(dx, dy Length) Length {
	x, y := big.NewInt(int64(dx)), big.NewInt(int64(dy))
	square := new(big.Int).Add(x.Mul(x, x), y.Mul(y, y))
	root := new(big.Int).Sqrt(square)
	// (root + 1/2)^2 = root^2 + root + 1/4: the rest decides alone, and a tie cannot occur.
	rest := square.Sub(square, new(big.Int).Mul(root, root))
	if rest.Cmp(root) > 0 {
		root.Add(root, big.NewInt(1))
	}
	if !root.IsInt64() {
		return math.MaxInt64
	}
	return Length(root.Int64())
}
