package handbook

import (
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/units"
)

func TestSignificantWireNumbers(t *testing.T) {
	for _, row := range vectors(t, "wirenumbers.csv") {
		t.Run(row["text"], func(t *testing.T) {
			number, is := WireNumberOf(row["text"])
			require.Equal(t, row["function"] != "-", is)
			if !is {
				require.Equal(t, WireNumber{}, number)
				return
			}
			require.Equal(t, WireNumber{Unit: row["unit"], Function: row["function"], Number: row["number"], Segment: row["segment"],
				Size: row["size"], Suffix: row["suffix"], Source: number.Source}, number)
			require.Equal(t, "NAVEDTRA 14176, figure 3-3 (read)", number.Source.String())
		})
	}
}

func TestHotStampWall(t *testing.T) {
	wall, source := HotStampWall()
	tenMil, err := units.ParseLength("0.010 in") // AC 43.13-1B CHG 1, 11-209 and 11-210 (read): 10 mil, printed there as 0.25 mm
	require.NoError(t, err)
	require.InDelta(t, float64(tenMil), float64(wall), 5)
	require.Contains(t, source.String(), "11-210")
}
