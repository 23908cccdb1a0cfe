package handbook

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"loomleaf/internal/units"
)

func TestPullMinimumsAgreeWithTheirTables(t *testing.T) {
	columns := map[string]int{}
	for _, row := range vectors(t, "pull.csv") {
		pull, listed := PullMinimum(row["column"], row["awg"])
		require.Equal(t, row["lbf"] != "", listed, row)
		columns[row["column"]]++
		if !listed {
			continue
		}
		force, err := units.ParseForce(row["lbf"] + " lbf")
		require.NoError(t, err)
		require.Equal(t, force, pull.Force, row)
		require.Equal(t, row["awg"], pull.AWG)
		if row["n"] != "" { // each printed figure was rounded in its own way
			printed, err := units.ParseForce(row["n"] + " N")
			require.NoError(t, err)
			require.InDelta(t, float64(printed), float64(pull.Force), 350, row)
		}
		require.Equal(t, row["column"] == PullLug && (row["awg"] == "30" || row["awg"] == "28"), pull.Noted, row)
		require.Equal(t, SecondHand, pull.Source.Standing)
		require.Contains(t, row["source"], "second-hand")
	}
	for _, column := range PullColumns() {
		require.Equal(t, 17, columns[column])
	}
	for _, c := range [][2]string{{"machined", "21"}, {"", "22"}, {"machined", "x"}, {"soldered", "22"}} {
		_, listed := PullMinimum(c[0], c[1])
		require.False(t, listed, c)
	}
}

func TestThickerWireHoldsMoreInEveryColumn(t *testing.T) {
	for _, column := range PullColumns() {
		last := units.Force(0)
		for _, row := range pullTable() {
			if pull, listed := PullMinimum(column, row.awg); listed {
				require.Greater(t, pull.Force, last, "%s %s", column, row.awg)
				last = pull.Force
			}
		}
	}
}

// NASA-STD-8739.4 change 6, pages 70 and 71 (read): 12 lbf of crimp minimum allow a seating pull of 9.6 lbf (derived).
func TestSeatingPull(t *testing.T) {
	pull, _ := PullMinimum(PullMachined, "22")
	share, source := SeatingShare()
	require.Equal(t, "9.6", (pull.Force * units.Force(share) / 100).Pounds(false))
	require.Equal(t, Read, source.Standing)
	slow, fast, source := PullMethod()
	require.Equal(t, []int{25 - 6, 25 + 6}, []int{slow, fast}, "EIA-364-08: 25 mm/min, 6 mm/min either way (second-hand)")
	require.Equal(t, SecondHand, source.Standing)
}

// NASA-STD-8739.4 change 6, 19.11 (read): two wires of 22 AWG, 1284.8 cmil, count as 18 AWG (derived).
func TestWiresTogetherCountAsTheNextLargerSize(t *testing.T) {
	two, _ := WireSizeOf("22")
	gauge, source, listed := SizeForSection(2 * two.Area)
	require.True(t, listed)
	require.Equal(t, "18", gauge)
	require.Equal(t, Read, source.Standing)
	_, _, listed = SizeForSection(200_000_000)
	require.False(t, listed)
	rapid.Check(t, func(t *rapid.T) {
		section := units.Area(rapid.Int64Range(1, 107_219_303).Draw(t, "section"))
		gauge, _, listed := SizeForSection(section)
		require.True(t, listed)
		size, _ := WireSizeOf(gauge)
		require.GreaterOrEqual(t, size.Area, section)
		for number := thickestGauge; number <= thinnestGauge; number++ { // no traded gauge between them
			other, _ := WireSizeOf(gaugeName(number))
			require.False(t, (number < 1 || number%2 == 0) && other.Area >= section && other.Area < size.Area)
		}
	})
}

func TestInsulationGap(t *testing.T) {
	for _, row := range vectors(t, "crimpgap.csv") {
		least, most, source, listed := InsulationGap(row["awg"])
		require.True(t, listed)
		gap := length(t, row["gap_mm"], "mm")
		require.Equal(t, row["passes"] == "yes", gap >= least && gap <= most, row)
		require.Equal(t, Read, source.Standing)
	}
	for _, awg := range []string{"19", "", "x"} {
		_, _, _, listed := InsulationGap(awg)
		require.False(t, listed, awg)
	}
}

func TestStrands(t *testing.T) {
	for _, row := range vectors(t, "strandnicks.csv") {
		limit, listed := NickedStrands(row["awg"])
		require.True(t, listed)
		require.Equal(t, []string{row["strands"], row["nicked"], row["broken"]},
			[]string{strconv.Itoa(limit.Strands), strconv.Itoa(limit.Nicked), strconv.Itoa(limit.Broken)}, row)
		require.Equal(t, Read, limit.Source.Standing)
	}
	for _, awg := range []string{"26", "30", "13", ""} {
		_, listed := NickedStrands(awg)
		require.False(t, listed, awg)
	}
	at := map[string]int{}
	for _, row := range vectors(t, "stranddamage.csv") {
		class, err := strconv.Atoi(row["class"])
		require.NoError(t, err)
		limits, source, listed := DamagedStrands(class)
		require.True(t, listed)
		limit := limits[at[row["class"]]]
		at[row["class"]]++
		damaged := strconv.Itoa(limit.Damaged)
		if limit.PerCent {
			damaged += "%"
		}
		require.Equal(t, []string{row["from"], row["to"], row["damaged"]}, []string{strconv.Itoa(limit.From), strconv.Itoa(limit.To), damaged})
		require.Equal(t, SecondHand, source.Standing)
	}
	require.Equal(t, map[string]int{"1": 7, "2": 7, "3": 7}, at)
	_, _, listed := DamagedStrands(0)
	require.False(t, listed)
}

func TestArrangementsAgreeWithTheCharts(t *testing.T) {
	rows := vectors(t, "arrangements.csv")
	require.Len(t, rows, len(arrangementTable()))
	for _, row := range rows {
		contacts, source, listed := ContactsOf(row["arrangement"])
		require.True(t, listed)
		var words []string
		for _, c := range contacts {
			words = append(words, fmt.Sprintf("%dx%s", c.Count, c.Size))
		}
		require.Equal(t, row["contacts"], strings.Join(words, "+"))
		require.Equal(t, SecondHand, source.Standing)
	}
	_, _, listed := ContactsOf("25-60")
	require.False(t, listed)
}

func TestLengthTolerance(t *testing.T) {
	for _, row := range vectors(t, "lengthtolerance.csv") {
		longer, source := LengthTolerance(length(t, row["length_m"], "m"))
		require.Equal(t, length(t, row["longer_mm"], "mm"), longer, row)
		require.Equal(t, SecondHand, source.Standing)
	}
}
