package plan

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// reelsFor fills one reel after another.
func reelsFor(lengths []units.Length, reel units.Length) int {
	reels := 0
	for rest := lengths; len(rest) > 0; reels++ {
		chosen := fill(rest, reel)
		var left []units.Length
		for i, length := range rest {
			if !chosen[i] {
				left = append(left, length)
			}
		}
		rest = left
	}
	return reels
}

func TestReelsOfInstancesWithKnownOptimum(t *testing.T) {
	rows, equal := csvRows(t, "reels.csv"), 0
	require.Len(t, rows, 51)
	for _, row := range rows {
		number := func(text string) int { n, err := strconv.Atoi(text); require.NoError(t, err); return n }
		var lengths []units.Length
		for _, text := range strings.Fields(row["lengths"]) {
			lengths = append(lengths, units.Length(number(text)))
		}
		got, fewest := reelsFor(lengths, units.Length(number(row["reel"]))), number(row["fewest"])
		require.GreaterOrEqual(t, got, fewest, row["instance"])
		require.LessOrEqual(t, got, fewest+2, row["instance"])
		equal += one(got == fewest)
	}
	t.Logf("%d of 51 with the fewest reels", equal)
	require.GreaterOrEqual(t, equal, 43)
}

// TestPerfectPackings cuts reels into pieces, so that the fewest are known.
func TestPerfectPackings(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 30))
	equal := 0
	for range 200 {
		reels := 2 + r.IntN(6)
		var lengths []units.Length
		for range reels {
			left := units.Length(1000)
			for left > 0 {
				piece := min(left, units.Length(50+r.IntN(400)))
				if left-piece < 50 {
					piece = left
				}
				lengths = append(lengths, piece)
				left -= piece
			}
		}
		r.Shuffle(len(lengths), func(i, j int) { lengths[i], lengths[j] = lengths[j], lengths[i] })
		got := reelsFor(lengths, 1000)
		require.LessOrEqual(t, got, reels+1)
		equal += one(got == reels)
	}
	t.Logf("%d of 200 perfect packings", equal)
	require.Greater(t, equal, 100)
}

// TestReelsStayBelowTheirBound: where no wire is longer than a k-th of a reel, a reel that is left wastes less than that, so that
// k/(k-1) of the need is enough.
func TestReelsStayBelowTheirBound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.IntRange(2, 20).Draw(t, "k")
		lengths := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) units.Length { return units.Length(rapid.IntRange(1, 10_000/k).Draw(t, "length")) }), 1, 150).Draw(t, "lengths")
		var sum units.Length
		for _, length := range lengths {
			sum += length
		}
		demand, full := int(sum)*k, 10_000*(k-1)
		require.LessOrEqual(t, reelsFor(lengths, 10_000), (demand+full-1)/full)
		require.GreaterOrEqual(t, reelsFor(lengths, 10_000), int(sum+9_999)/10_000)
	})
}

func TestTheEndOfAReelIsFilledBest(t *testing.T) {
	chosen := fill([]units.Length{60, 50, 40, 33, 7}, 100)
	require.Equal(t, []bool{true, false, true, false, false}, chosen)
	require.Equal(t, []bool{false, false}, fill([]units.Length{60, 50}, 40))
}

func TestTheReelOnTheLineRunsFirst(t *testing.T) {
	h := surveyHarness()
	h.Job.Units = []string{"1"}
	addWire(h, "W1", "E22W", 0, 1, 4*units.Metre)
	addWire(h, "W2", "E22K", 0, 1, 4*units.Metre)
	h.Reels = []harness.Reel{{ID: "R1", Type: "E22W", Left: 90 * units.Metre}, {ID: "R2", Type: "E22K", Left: 9 * units.Metre}, {ID: "R3", Type: "E22K", Left: 90 * units.Metre}}
	h.Line.Mounted = "R2"
	p := made(t, h)
	require.Equal(t, []string{"W2", "W1"}, p.Groups[0].Wires, "the white wire would run first, were the black reel not on")
	first := p.Groups[0].Steps[0][0]
	require.Equal(t, []string{"switch", "R2"}, []string{string(first.Kind), first.Reel})
	require.Equal(t, 1, p.Changes.Loads)
	require.Equal(t, int64(4_000_000), p.Reels[slices.IndexFunc(p.Reels, func(r Reel) bool { return r.ID == "R2" })].UsedUM, "no set-up scrap")
}

func TestReelPoliciesSayWhichReelComesFirst(t *testing.T) {
	for policy, want := range map[string][]string{"fullest first": {"R2"}, "emptiest first": {"R1", "R3"}, "listed": {"R3", "R2"}} {
		h := surveyHarness()
		h.Job.Units = []string{"1"}
		addWire(h, "W1", "E22W", 0, 1, 3*units.Metre)
		addWire(h, "W2", "E22W", 0, 1, 4*units.Metre)
		h.Reels = []harness.Reel{{ID: "R3", Type: "E22W", Left: 5 * units.Metre}, {ID: "R2", Type: "E22W", Left: 9 * units.Metre}, {ID: "R1", Type: "E22W", Left: 4 * units.Metre}}
		h.Policy.Reels = policy
		var ids []string
		for _, reel := range made(t, h).Reels {
			ids = append(ids, reel.ID)
		}
		require.Equal(t, want, ids, policy)
	}
}

// TestPiecesOfAWireFollowEachOther: where a reel ends within a wire, its other pieces come first on the next reel.
func TestPiecesOfAWireFollowEachOther(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) { requireTogether(t, made(t, drawHarness(t))) })
}

// TestShortReelsPartNoWireTwice: a wire that needs three reels goes on at once on each, although shorter ones would fill the ends.
func TestShortReelsPartNoWireTwice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := surveyHarness()
		h.Job.Units, h.Policy.Batch, h.Policy.Units = []string{"1", "2", "3", "4", "5"}, 5, "together"
		for i := range rapid.IntRange(2, 8).Draw(t, "wires") {
			addWire(h, fmt.Sprintf("W%d", i+1), "E22W", 0, 1, units.Length(rapid.IntRange(1, 30).Draw(t, "length"))*100*units.Millimetre)
		}
		for i := range rapid.IntRange(2, 8).Draw(t, "reels") {
			left := units.Length(rapid.IntRange(10, 60).Draw(t, "left")) * 100 * units.Millimetre
			h.Reels = append(h.Reels, harness.Reel{ID: fmt.Sprintf("R%d", i+1), Type: "E22W", Left: left})
		}
		requireTogether(t, made(t, h))
	})
}

// requireTogether finds a wire that begins twice in one cut list.
func requireTogether(t require.TestingT, p Plan) {
	last, done := "", map[string]bool{}
	for _, piece := range p.Pieces {
		key := piece.Wire
		for l, list := range p.Packet.Lists {
			if slices.Contains(list, piece.Unit) {
				key += " list " + strconv.Itoa(l)
			}
		}
		if key != last {
			require.False(t, done[key], key)
			done[key], last = true, key
		}
	}
}
