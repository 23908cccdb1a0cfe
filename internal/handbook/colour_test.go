package handbook

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestColoursInWords(t *testing.T) {
	for _, row := range vectors(t, "colour.csv") {
		t.Run(row["code"], func(t *testing.T) {
			colour, listed := ColourOf(row["code"])
			require.True(t, listed)
			require.Equal(t, row["code"], colour.Code)
			require.Equal(t, row["words"], colour.Words)
			require.Equal(t, strings.Fields(row["bases"]), append([]string{}, colour.Bases...))
			require.Len(t, colour.Luminances, len(colour.Bases))
			require.Equal(t, "IEC 60757, 1983, table 1 (second-hand)", colour.Source.String())
		})
	}
}

func TestRefusesWhatIsNoColour(t *testing.T) {
	for _, code := range []string{"", "wh", "WHT", "WH/WH", "WH/BU/WH", "WH/BU/RD/GN", "WH/", "/WH", "WH//BU", "WHBU", "WH/BU ", " WH",
		"GNYE/RD", "RD/GNYE", "?/RD", "RD/?", "??", "WH-BU", "XX"} {
		colour, listed := ColourOf(code)
		require.False(t, listed, code)
		require.Equal(t, Colour{}, colour)
	}
}

func TestColourCodesAreSortedAndListed(t *testing.T) {
	codes := ColourCodes()
	require.True(t, slices.IsSorted(codes))
	require.Len(t, codes, 15)
	for _, code := range codes {
		colour, listed := ColourOf(code)
		require.True(t, listed)
		for _, luminance := range colour.Luminances {
			require.Positive(t, luminance)
			require.Less(t, luminance, 1000)
		}
	}
}

func TestSynonyms(t *testing.T) {
	cases := []struct{ spelling, code string }{
		{"ORG", "OG"}, {"ORN", "OG"}, {"OR", "OG"}, {"PPL", "VT"}, {"VIO", "VT"}, {"PU", "VT"}, {"BLK", "BK"}, {"WHT", "WH"},
		{"BRN", "BN"}, {"GRN", "GN"}, {"GRY", "GY"}, {"YEL", "YE"}, {"BLU", "BU"}, {"RED", "RD"}, {"PNK", "PK"},
		{"white", "WH"}, {"Gray", "GY"}, {"wh", "WH"}, {"gnye", "GNYE"}, {"WHT/BLU", "WH/BU"}, {"White / Blue / RD", "WH/BU/RD"},
	}
	for _, c := range cases {
		code, found := Synonym(c.spelling)
		require.True(t, found, c.spelling)
		require.Equal(t, c.code, code)
	}
	for _, spelling := range []string{"", "WH", "WH/BU", "?", "bare", "WHT/WH", "WHT/BLU/RED/GRN", "22"} {
		_, found := Synonym(spelling)
		require.False(t, found, spelling)
	}
	seen := map[string]string{}
	for _, row := range colourTable() {
		for _, spelling := range append(row.spellings, row.code, strings.ToUpper(row.word)) {
			require.NotContains(t, seen, spelling, "one spelling, one colour")
			seen[spelling] = row.code
		}
	}
}

func TestDarkBaseIsBlackAlone(t *testing.T) {
	for _, code := range append(allColours(), UnknownColour, "", "nonsense") {
		require.Equal(t, code == "BK" || strings.HasPrefix(code, "BK/"), DarkBase(code), code)
	}
}

func TestInkStandsOutFromEveryColourOfTheWire(t *testing.T) {
	const blackest, whitest = 50, 850 // marks in use, thousandths of white (from memory)
	for _, code := range allColours() {
		ink, known, source := Contrast(code)
		require.Equal(t, CommonPractice, source.Standing)
		if !known {
			require.Empty(t, ink)
			continue
		}
		colour, _ := ColourOf(code)
		for _, luminance := range colour.Luminances {
			lighter, darker := luminance, blackest
			if ink == WhiteInk {
				lighter, darker = whitest, luminance
			}
			// More than half of the lighter one is the usual pass level of laser marks (second-hand).
			require.Greater(t, 1000*(lighter-darker)/lighter, 800, "%s ink on %s", ink, code)
		}
		for _, base := range colour.Bases {
			require.False(t, ink == BlackInk && base == "BK", "black on black: %s", code)
			require.False(t, ink == WhiteInk && base == "WH", "white on white: %s", code)
		}
	}
}

func TestInkByColour(t *testing.T) {
	cases := map[string]string{
		"WH": BlackInk, "YE": BlackInk, "GY": BlackInk, "PK": BlackInk, "WH/YE": BlackInk, "WH/YE/GY": BlackInk,
		"BK": WhiteInk, "BN": WhiteInk, "VT": WhiteInk, "BK/BN": WhiteInk,
		"RD": "", "OG": "", "BU": "", "GN": "", "GNYE": "", "SR": "", "WH/BU": "", "BK/WH": "", "WH/BK": "", "?": "", "": "", "WHT": "",
	}
	for code, want := range cases {
		ink, known, _ := Contrast(code)
		require.Equal(t, want, ink, code)
		require.Equal(t, want != "", known, code)
	}
}

// allColours returns every code with no, one and two stripes.
func allColours() []string {
	codes := []string{earth}
	for _, base := range colourTable() {
		codes = append(codes, base.code)
		for _, stripe := range colourTable() {
			if stripe.code == base.code {
				continue
			}
			codes = append(codes, base.code+"/"+stripe.code)
			for _, second := range colourTable() {
				if second.code != base.code {
					codes = append(codes, base.code+"/"+stripe.code+"/"+second.code)
				}
			}
		}
	}
	return codes
}

func FuzzColourOf(f *testing.F) {
	for _, seed := range []string{"WH/BU/RD", "GNYE", "?", "WHT/BLU", "//", "ſ/ı"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, code string) {
		colour, listed := ColourOf(code)
		require.Equal(t, listed, colour.Words != "")
		require.Len(t, colour.Luminances, len(colour.Bases))
		if listed {
			require.Equal(t, code, colour.Code)
		}
		if meant, found := Synonym(code); found {
			_, listed := ColourOf(meant)
			require.True(t, listed)
			require.NotEqual(t, code, meant)
		}
	})
}
