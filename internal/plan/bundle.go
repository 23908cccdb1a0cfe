package plan

import (
	"math/big"
	"math/bits"

	"loomleaf/internal/units"
)

// The factors of a bundle of four wires and more on the root of the sum of the squares of their diameters: 6/5 nominal, 5/4 with room
// for a sleeve or a hole. Ours, measured against packings found by search; one factor for any number keeps the diameter monotone.
const (
	nominalOver, nominalUnder = 6, 5
	roomOver, roomUnder       = 5, 4
)

// bundleSize is the diameter of a bundle that is pulled round, each rounded up to the micrometre.
type bundleSize struct{ nominal, room units.Length }

// sizeOfBundle returns the diameter of a bundle of wires and cables by their diameters, all above zero. Up to three are exact: the
// smallest circle that holds them. From four on a factor counts, and at least what the three thickest take. Twist, lacing and ties
// are not in it.
func sizeOfBundle(diameters []units.Length) bundleSize {
	var thickest [3]units.Length
	var sum squares
	for _, d := range diameters {
		sum.add(d)
		for i := range thickest {
			if d > thickest[i] {
				d, thickest[i] = thickest[i], d
			}
		}
	}
	least := aroundThree(thickest[0], thickest[1], thickest[2])
	if len(diameters) <= 3 {
		return bundleSize{least, least}
	}
	return bundleSize{max(least, sum.root(nominalOver, nominalUnder)), max(least, sum.root(roomOver, roomUnder))}
}

// squares is a sum of squares in 128 bits.
type squares struct{ high, low uint64 }

func (s *squares) add(d units.Length) {
	high, low := bits.Mul64(uint64(d), uint64(d))
	var carry uint64
	s.low, carry = bits.Add64(s.low, low, 0)
	s.high, _ = bits.Add64(s.high, high, carry)
}

// root returns the smallest whole number that is not less than over/under times the root of the sum.
func (s *squares) root(over, under int64) units.Length {
	sum := new(big.Int).SetUint64(s.high)
	sum.Or(sum.Lsh(sum, 64), new(big.Int).SetUint64(s.low))
	square, rest := new(big.Int).QuoRem(sum.Mul(sum, big.NewInt(over*over)), big.NewInt(under*under), new(big.Int))
	root := new(big.Int).Sqrt(square)
	if new(big.Int).Mul(root, root).Cmp(square) < 0 || rest.Sign() > 0 {
		root.Add(root, big.NewInt(1))
	}
	return units.Length(root.Int64())
}

// aroundThree returns the diameter of the smallest circle around circles of diameters a >= b >= c, rounded up; zero stands for none.
// A third that fits beside the two, within the circle around them, adds nothing. Else all four touch each other, and
// (abc + D(ab+bc+ca))^2 = 4 D^2 abc(a+b+c) (Descartes' theorem on four circles).
func aroundThree(a, b, c units.Length) units.Length {
	A, B, C := big.NewInt(int64(a)), big.NewInt(int64(b)), big.NewInt(int64(c))
	ab := times(A, B)
	both := new(big.Int).Add(A, B)
	beside := new(big.Int).Add(new(big.Int).Add(times(A, A), ab), times(B, B))
	if times(C, beside).Cmp(times(ab, both)) <= 0 {
		return a + b
	}
	abc, pairs := times(ab, C), new(big.Int).Add(ab, times(C, both))
	most := times(big.NewInt(4), times(abc, new(big.Int).Add(both, C)))
	low, high := a+b, 2*(a+b) // too small, and enough
	for high-low > 1 {
		middle := low + (high-low)/2
		D := big.NewInt(int64(middle))
		left := new(big.Int).Add(abc, times(D, pairs))
		if times(left, left).Cmp(times(times(D, D), most)) <= 0 {
			high = middle
		} else {
			low = middle
		}
	}
	return high
}

func times(a, b *big.Int) *big.Int { return new(big.Int).Mul(a, b) }
