package handbook

import (
	"slices"
	"strings"
)

// Colour is the colour of a wire: a base and up to two stripes.
type Colour struct {
	Code       string
	Words      string   // "white, blue stripe"
	Bases      []string // letter codes: of the base, then of the stripes in order; none for an unknown colour
	Luminances []int    // thousandths of white, for the same; see the colour table
	Source     Source
}

// UnknownColour is the code of a wire whose colour nobody has stated.
const UnknownColour = "?"

// earth is the one code that names two colours. It takes no stripes: the pair is the mark of the protective conductor.
const earth = "GNYE"

const mostStripes = 2

// ColourOf returns the colour of a code: "WH", "WH/BU", "WH/BU/RD", "GNYE" or "?".
// A stripe of the colour of its base is refused, and so are more than two stripes.
func ColourOf(code string) (Colour, bool) {
	source := colourSource()
	switch code {
	case UnknownColour:
		return Colour{Code: code, Words: "colour unknown", Source: source}, true
	case earth:
		return Colour{Code: code, Words: "green-and-yellow", Bases: []string{"GN", "YE"},
			Luminances: luminances("GN", "YE"), Source: source}, true
	}
	parts := strings.Split(code, "/")
	if len(parts) > 1+mostStripes || slices.Contains(parts[1:], parts[0]) {
		return Colour{}, false
	}
	names := make([]string, len(parts))
	for i, part := range parts {
		row, listed := colourRowOf(part)
		if !listed {
			return Colour{}, false
		}
		names[i] = row.word
	}
	return Colour{Code: code, Words: colourWords(names), Bases: parts, Luminances: luminances(parts...), Source: source}, true
}

// colourWords says a base and its stripes in words.
func colourWords(names []string) string {
	switch {
	case len(names) == 1:
		return names[0]
	case len(names) == 2:
		return names[0] + ", " + names[1] + " stripe"
	case names[1] == names[2]:
		return names[0] + ", two " + names[1] + " stripes"
	default:
		return names[0] + ", " + names[1] + " and " + names[2] + " stripes"
	}
}

// ColourCodes returns the code of every base colour, sorted.
func ColourCodes() []string {
	codes := []string{earth}
	for _, row := range colourTable() {
		codes = append(codes, row.code)
	}
	slices.Sort(codes)
	return codes
}

// DarkBase reports whether the base of a colour is black, the one colour on which no laser mark shows.
func DarkBase(code string) bool {
	colour, listed := ColourOf(code)
	return listed && len(colour.Bases) > 0 && colour.Bases[0] == "BK"
}

// Synonym returns the code that another spelling most likely means: "WHT/BLU" gives "WH/BU". It serves hints only.
// The spellings are common practice, without a published list.
func Synonym(code string) (string, bool) {
	parts := strings.Split(strings.ToUpper(code), "/")
	for i, part := range parts {
		if meant, found := synonymOf(strings.TrimSpace(part)); found {
			parts[i] = meant
		}
	}
	meant := strings.Join(parts, "/")
	_, listed := ColourOf(meant)
	return meant, listed && meant != code
}

func synonymOf(spelling string) (string, bool) {
	for _, row := range colourTable() {
		if spelling == row.code || spelling == strings.ToUpper(row.word) || slices.Contains(row.spellings, spelling) {
			return row.code, true
		}
	}
	return "", false
}

// colourRow is one base colour.
type colourRow struct {
	code, word string
	luminance  int      // thousandths of white
	spellings  []string // other spellings in use
}

func colourRowOf(code string) (colourRow, bool) {
	for _, row := range colourTable() {
		if row.code == code {
			return row, true
		}
	}
	return colourRow{}, false
}

func luminances(codes ...string) []int {
	values := make([]int, len(codes))
	for i, code := range codes {
		row, _ := colourRowOf(code)
		values[i] = row.luminance
	}
	return values
}

// colourTable returns the base colours by the letter codes of IEC 60757.
//
// The luminances are a table of our own, not published: a cautious figure for the insulation colours in use. Blue and green
// stand between light and dark because the codes cover every shade of them.
func colourTable() []colourRow {
	return []colourRow{
		{"BK", "black", 30, []string{"BLK"}},
		{"BN", "brown", 90, []string{"BRN"}},
		{"RD", "red", 170, nil},
		{"OG", "orange", 350, []string{"ORG", "ORN", "OR"}},
		{"YE", "yellow", 700, []string{"YEL"}},
		{"GN", "green", 200, []string{"GRN"}},
		{"BU", "blue", 160, []string{"BLU"}},
		{"VT", "violet", 90, []string{"PPL", "VIO", "PU", "PURPLE"}},
		{"GY", "grey", 420, []string{"GRY", "GRAY"}},
		{"WH", "white", 900, []string{"WHT"}},
		{"PK", "pink", 500, []string{"PNK"}},
		{"GD", "gold", 350, nil},
		{"TQ", "turquoise", 350, nil},
		{"SR", "silver", 380, nil},
	}
}

// colourSource is the source of the letter codes, seen in a national adoption of the first edition.
func colourSource() Source {
	return Source{Document: "IEC 60757", Edition: "1983", Table: "table 1", Standing: SecondHand}
}
