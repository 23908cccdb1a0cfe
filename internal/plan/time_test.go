package plan

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// timedHarness is a job of two groups whose times can be worked out by hand: 1 m/s, a mark in 0.1 s, a cut in 1 s.
func timedHarness() *harness.Harness {
	h := surveyHarness()
	h.Job.Units = []string{"1"}
	h.Line.Feed, h.Line.MarkTime, h.Line.OnTheFly, h.Line.CutTime, h.Line.HandlingTime = 1_000_000, 100, true, 1000, 60_000
	addWire(h, "W1", "E22W", 0, 1, 3*units.Metre)
	addWire(h, "W2", "E22W", 0, 1, 2*units.Metre)
	addWire(h, "W3", "E22K", 1, 2, 1*units.Metre)
	return h
}

func TestTimeWorkedByHand(t *testing.T) {
	p := made(t, timedHarness())
	// J2: a load (180), 3 + 2 m of feed (5), two cuts (2), a tray (6): 193 s. J1: a load, a metre, a cut, a tray: 188 s.
	require.Equal(t, Time{
		Feed: 6000, Cut: 3000, Load: 360_000, Tray: 12_000, Total: 381_000, Minutes: 7, Handling: 180_000,
		Groups: []GroupTime{
			{Group: "J2", EndMS: 193_000, TakenMS: 193_000, DoneMS: 313_000},
			{Group: "J1", StartMS: 193_000, EndMS: 381_000, TakenMS: 381_000, DoneMS: 441_000},
		},
		Timeline: []ReelRun{{"E22W", "E22W", 180_000, 187_000}, {"E22K", "E22K", 373_000, 375_000}},
	}, p.Time)
}

func TestTheLineWaitsForThePersonBesideIt(t *testing.T) {
	h := timedHarness()
	h.Line.HandlingTime = 200_000
	addWire(h, "W4", "E22K", 2, 3, 1*units.Metre)
	p := made(t, h)
	// J2 is done at 193 s and handled until 593 s. J1 is done at 381 s: the line waits 212 s. J1 is handled until 793 s, P1 ends before.
	require.Equal(t, []int64{0, 212_000, 0}, []int64{p.Time.Groups[0].WaitMS, p.Time.Groups[1].WaitMS, p.Time.Groups[2].WaitMS})
	require.Equal(t, int64(212_000), p.Time.Wait)
	require.Equal(t, p.Time.Groups[2].StartMS, p.Time.Groups[1].TakenMS)
}

func TestMarksTakeTimeWhereTheWireStopsForThem(t *testing.T) {
	h := timedHarness()
	h.Line.OnTheFly = false
	p := made(t, h)
	marks := int64(0)
	for _, w := range p.Wires {
		marks += int64(len(w.Marks)) * 100
	}
	require.Equal(t, marks, p.Time.Marks)
	h.Line.OnTheFly, h.Line.MarkTime = true, 10_000
	slow := made(t, h).Time
	require.Equal(t, marks*100, slow.Marks+slow.Feed, "marks on the fly take what the feed does not")
}

func TestTimeAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := drawHarness(t)
		h.Line.Feed, h.Line.CutTime = units.Speed(rapid.IntRange(1, 9).Draw(t, "feed"))*250_000, 800
		h.Line.HandlingTime = units.Time(rapid.IntRange(0, 200_000).Draw(t, "handling"))
		p := made(t, h)
		end, wait := int64(0), int64(0)
		for i, g := range p.Time.Groups {
			require.Equal(t, end, g.StartMS)
			require.GreaterOrEqual(t, g.TakenMS, g.EndMS)
			if i > 0 {
				require.GreaterOrEqual(t, g.TakenMS, p.Time.Groups[i-1].DoneMS, "the person has one group at a time")
			}
			end, wait = g.EndMS+g.WaitMS, wait+g.WaitMS
		}
		require.Equal(t, end, p.Time.Total)
		require.Equal(t, wait, p.Time.Wait)
		h.Line.Feed *= 2
		require.LessOrEqual(t, made(t, h).Time.Total-made(t, h).Time.Wait, p.Time.Total-p.Time.Wait, "a faster line takes no longer")
	})
}

func TestPoliciesForHomesArePriced(t *testing.T) {
	h := threeConnectors()
	p := made(t, h)
	require.Equal(t, []string{"end-a", "board-order", "fewest-changes"}, []string{p.Prices[0].Policy, p.Prices[1].Policy, p.Prices[2].Policy})
	require.Equal(t, []bool{false, true, false}, []bool{p.Prices[0].Chosen, p.Prices[1].Chosen, p.Prices[2].Chosen})
	require.Equal(t, []int{1, 0}, []int{p.Prices[0].Ahead, p.Prices[1].Ahead}, "W1 runs from J1 to J2, which the board reaches first")
	require.Equal(t, p.Changes.Reel, p.Prices[1].Reel)
	require.Equal(t, p.Time.Minutes, p.Prices[1].Minutes)
	for _, price := range p.Prices {
		h.Policy.Home = price.Policy
		other := made(t, h)
		require.Equal(t, []int64{int64(price.Reel), price.Minutes}, []int64{int64(other.Changes.Reel), other.Time.Minutes}, price.Policy)
		for i := range other.Prices {
			other.Prices[i].Chosen = p.Prices[i].Chosen
		}
		require.Equal(t, p.Prices, other.Prices, "the prices are the same whichever policy is chosen, also %s", price.Policy)
	}
}
