package plan

import (
	"encoding/csv"
	"math/big"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// vectorLength reads a figure of marks.csv exactly.
func vectorLength(t *testing.T, figure, unit string) units.Length {
	value, read := new(big.Rat).SetString(figure)
	require.True(t, read, figure)
	scale, known := map[string]int64{"in": 25_400, "0.1 mm": 100}[unit]
	require.True(t, known, unit)
	value.Mul(value, new(big.Rat).SetInt64(scale))
	require.True(t, value.IsInt(), figure)
	return units.Length(value.Num().Int64())
}

func TestMarkVectors(t *testing.T) {
	file, err := os.Open("../../testdata/vectors/marks.csv")
	require.NoError(t, err)
	defer func() { require.NoError(t, file.Close()) }()
	reader := csv.NewReader(file)
	reader.Comment = '#'
	rows, err := reader.ReadAll()
	require.NoError(t, err)
	require.Equal(t, "starts", rows[0][12])
	require.Len(t, rows, 23)
	for _, row := range rows[1:] {
		var figures []units.Length
		for _, figure := range row[2:11] {
			figures = append(figures, vectorLength(t, figure, row[1]))
		}
		span := markSpan{
			length: figures[0], keepA: figures[1], keepB: figures[1], first: figures[2], wanted: figures[3], interval: figures[4],
			gap: figures[5], widthA: figures[6], widthB: figures[7], widthM: figures[8], middle: true, common: row[11] == "yes",
		}
		var want []units.Length
		for _, start := range strings.Fields(strings.TrimPrefix(row[12], "-")) {
			want = append(want, vectorLength(t, start, row[1]))
		}
		var got []units.Length
		fits := true
		if row[0] == "yes" {
			rules := markRules{marks: &harness.Marks{UnmarkedBelow: 76_000, CentredBelow: 178_000}}
			fit := rules.fit(span, []legends{{"A", "B", "M"}}, marking{heights: []units.Length{1000}})
			got, fits = fit.starts, fit.way != waySleeve
		} else {
			got, fits = span.place()
		}
		require.Equal(t, row[12] != "-", fits, "%v", row)
		require.Equal(t, want, got, "%v", row)
	}
}

// fewestMarks tries every placing: a flood over the starts of marks, one more mark at a time. It returns 0 where none fits.
func fewestMarks(s markSpan) int {
	endA := func(at units.Length) bool { // may the mark of end a start here
		return at >= s.keepA && at+s.widthA <= s.length-s.keepB && at <= max(s.first, s.keepA)
	}
	endB := func(at units.Length) bool {
		return at >= s.keepA && at+s.widthB <= s.length-s.keepB && s.length-at-s.widthB <= max(s.first, s.keepB)
	}
	reached := make([]bool, s.length) // starts of the last mark so far
	any := false
	for at := range s.length {
		reached[at] = endA(at)
		any = any || reached[at]
		if reached[at] && s.common && endB(at) {
			return 1
		}
	}
	width := s.widthA
	for count := 2; any; count++ {
		next := make([]bool, s.length)
		any = false
		for from := range s.length {
			for at := from + width + s.gap; reached[from] && at < s.length && (!s.middle || at-from <= s.interval); at++ {
				if endB(at) {
					return count
				}
				next[at], any = true, true
			}
		}
		if !s.middle {
			return 0
		}
		reached, width = next, s.widthM
	}
	return 0
}

// smallSpan makes a span short enough to try every placing, from seeded numbers.
func smallSpan(r *rand.Rand) markSpan {
	upTo := func(most int) units.Length { return units.Length(r.IntN(most + 1)) }
	s := markSpan{length: 1 + upTo(59), keepA: upTo(9), keepB: upTo(9), first: upTo(14), wanted: upTo(14), interval: 1 + upTo(24), gap: upTo(4),
		widthA: 1 + upTo(7), widthB: 1 + upTo(7), widthM: 1 + upTo(7), middle: r.IntN(4) > 0}
	if r.IntN(2) == 0 {
		s.common, s.widthB = true, s.widthA
	}
	return s
}

// TestFiftyThousandSmallWires compares count and feasibility with every placing there is.
func TestFiftyThousandSmallWires(t *testing.T) {
	r := rand.New(rand.NewPCG(41, 5))
	counts := map[int]int{}
	for range 50_000 {
		s := smallSpan(r)
		starts, fits := s.place()
		want := fewestMarks(s)
		if want > 0 != fits || len(starts) != want {
			require.Equal(t, want, len(starts), "%+v", s)
		}
		if fits {
			checkPlaces(t, s, starts)
		}
		counts[min(want, 5)]++
	}
	for _, count := range []int{0, 1, 2, 3, 4, 5} {
		require.Greater(t, counts[count], 500, "%d marks: %v", count, counts)
	}
}

// checkPlaces checks every rule on a placing.
func checkPlaces(t require.TestingT, s markSpan, starts []units.Length) {
	last := len(starts) - 1
	require.GreaterOrEqual(t, starts[0], s.keepA)
	require.LessOrEqual(t, starts[0], max(s.first, s.keepA))
	require.LessOrEqual(t, starts[last]+s.widthB, s.length-s.keepB)
	require.LessOrEqual(t, s.length-starts[last]-s.widthB, max(s.first, s.keepB))
	width := s.widthA
	for i := 1; i <= last; i++ {
		require.GreaterOrEqual(t, starts[i]-starts[i-1], width+s.gap)
		if s.middle {
			require.LessOrEqual(t, starts[i]-starts[i-1], s.interval)
		}
		width = s.widthM
	}
	if last == 0 {
		require.True(t, s.common)
	}
}

func TestMarksOnRealSizes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := func(name string, low, high int) units.Length {
			return units.Length(rapid.IntRange(low, high).Draw(t, name))
		}
		s := markSpan{
			length: length("length", 178_000, 60_000_000), keepA: length("keep a", 0, 100_000), keepB: length("keep b", 0, 100_000),
			first: 76_000, wanted: 25_000, interval: 381_000, gap: 5000,
			widthA: length("width a", 1000, 40_000), widthB: length("width b", 1000, 40_000), widthM: length("width m", 1000, 40_000), middle: true,
		}
		starts, fits := s.place()
		if !fits {
			require.Less(t, s.length, 300*units.Millimetre, "only a short wire has no room")
			return
		}
		checkPlaces(t, s, starts)
		wider := s
		wider.interval += length("more interval", 0, 100_000)
		if more, _ := wider.place(); len(more) > len(starts) {
			require.Fail(t, "a longer interval adds no mark")
		}
		deeper := s
		deeper.keepA = min(s.keepA+length("more keep-out", 0, 20_000), s.first)
		if deeper.keepA > s.keepA {
			fewer, still := deeper.place()
			require.True(t, !still || len(fewer) >= len(starts), "a longer keep-out removes no mark")
		}
		turned := s
		turned.keepA, turned.keepB, turned.widthA, turned.widthB = s.keepB, s.keepA, s.widthB, s.widthA
		if s.widthA == s.widthB {
			mirrored, _ := turned.place()
			require.Len(t, mirrored, len(starts))
		}
	})
}

func TestGapsAreEven(t *testing.T) {
	s := markSpan{length: 9_700_001, keepA: 12_000, keepB: 12_000, first: 76_000, wanted: 25_000, interval: 381_000, gap: 5000,
		widthA: 13_650, widthB: 13_650, widthM: 4000, middle: true}
	starts, fits := s.place()
	require.True(t, fits)
	var gaps []units.Length
	width := s.widthA
	for i := 1; i < len(starts); i++ {
		gaps = append(gaps, starts[i]-starts[i-1]-width)
		width = s.widthM
	}
	require.LessOrEqual(t, slices.Max(gaps)-slices.Min(gaps), units.Length(1))
}

func TestIntervalBindsAfterAWideEndMark(t *testing.T) {
	// Two steps of at most 100 bridge 200; the clear gaps of 50 and 90 cannot be equal.
	s := markSpan{length: 260, first: 0, wanted: 0, interval: 100, gap: 5, widthA: 50, widthB: 60, widthM: 10, middle: true}
	starts, fits := s.place()
	require.True(t, fits)
	require.Equal(t, []units.Length{0, 100, 200}, starts)
}

func TestCentredStaysOutOfTheKeepOuts(t *testing.T) {
	s := markSpan{length: 100, keepA: 60, keepB: 10, widthM: 20}
	start, fits := s.centred()
	require.True(t, fits)
	require.Equal(t, units.Length(60), start)
	s.widthM = 31
	_, fits = s.centred()
	require.False(t, fits)
}
