package handbook

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestInkTable compares the choice for every base, alone and with every stripe, with a table that a person has gone through.
func TestInkTable(t *testing.T) {
	words := map[string]string{"b": BlackInk, "w": WhiteInk, "test": ""}
	rows := vectors(t, "ink.csv")
	var bases []string
	for _, row := range rows {
		bases = append(bases, row["base"])
		colour, listed := ColourOf(row["base"])
		require.True(t, listed, row["base"])
		require.Equal(t, row["colour"], colour.Words)
		var lightness []string
		for _, luminance := range colour.Luminances {
			lightness = append(lightness, strconv.Itoa(luminance))
		}
		require.Equal(t, row["thousandths_of_white"], strings.Join(lightness, " "))
		for _, stripe := range append([]string{"alone"}, ColourCodes()...) {
			code := row["base"] + "/" + stripe
			if stripe == "alone" {
				code = row["base"]
			}
			if _, listed := ColourOf(code); !listed {
				require.Empty(t, row[stripe], "%s is no colour", code)
				continue
			}
			want, known := words[row[stripe]]
			require.True(t, known, "%s: %q", code, row[stripe])
			ink, _, _ := Contrast(code)
			require.Equal(t, want, ink, code)
		}
	}
	slices.Sort(bases)
	require.Equal(t, ColourCodes(), slices.DeleteFunc(bases, func(code string) bool { return code == UnknownColour }), "every colour has a row")
}

func TestHiddenInk(t *testing.T) {
	for _, code := range append(allColours(), UnknownColour, "", "nonsense") {
		base, _, _ := strings.Cut(code, "/")
		require.Equal(t, base == "BK", InkHidden(code, BlackInk), code)
		require.Equal(t, base == "WH", InkHidden(code, WhiteInk), code)
		if ink, known, _ := Contrast(code); known {
			require.False(t, InkHidden(code, ink), code)
		}
	}
}
