package sheet

import (
	"slices"
	"strings"
	"unicode"

	"loomleaf/internal/page"
)

// noBreak is a blank at which no line ends; it is printed as a blank.
const noBreak = "\u00a0"

// words parts a text where a line may end; what stays together and is wider than the room is parted further.
func (p *pen) words(s style, room page.Pt, text string) []string {
	var words []string
	for _, part := range figures(s, text) {
		if strings.Contains(part, " ") && p.width(s, part) > room {
			words = append(words, strings.Fields(part)...)
		} else {
			words = append(words, part)
		}
	}
	return words
}

// figures parts a text into words and figures: a number stays with the unit behind it, "2 min 50 s", or else with the name before it,
// "setting 5", or else, where it begins what is said, with what it counts: "200 mm inside, 3 ties". Ids, in their own face, may be numbers and are parted at every blank.
func figures(s style, text string) []string {
	words := strings.FieldsFunc(text, func(r rune) bool { return unicode.IsSpace(r) && string(r) != noBreak })
	var parts []string
	for i, word := range words {
		word = strings.ReplaceAll(word, noBreak, " ")
		if i > 0 && s.face != page.Mono && s.face != page.MonoBold && staysBehind(words, i) {
			parts[len(parts)-1] += " " + word
		} else {
			parts = append(parts, word)
		}
	}
	return parts
}

// staysBehind reports whether a word stays with the one before it.
func staysBehind(words []string, i int) bool {
	before, word := words[i-1], words[i]
	switch {
	case isUnit(word), word == "x": // "12 mm", "4 x 0.5 mm²"
		return startsAsNumber(before) && endsAs(unicode.IsDigit, before)
	case !startsAsNumber(word):
		begins := i == 1 || strings.ContainsAny(words[i-2][len(words[i-2])-1:], ",;:")
		return begins && startsAsNumber(before) && endsAs(unicode.IsDigit, before) && unicode.IsLetter([]rune(word)[0])
	case before == "x":
		return true
	case i+1 < len(words) && endsAs(unicode.IsDigit, word) && isUnit(words[i+1]):
		return isUnit(before) && endsAs(unicode.IsLetter, before) && word[0] != '(' // of one figure: "2 min 50 s"
	}
	return endsAs(unicode.IsLetter, before)
}

// isUnit reports whether a word is a unit, whatever sign follows it.
func isUnit(word string) bool {
	return slices.Contains([]string{"mm", "m", "nm", "µm", "mm²", "s", "min", "h", "g", "kg", "g/m", "N", "lbf", "V", "mA", "W", "mW", "J", "ohm", "Ohm", "megohm",
		"Megohm", "AWG", "%", "°", "°C"}, strings.TrimRight(word, ".,;:)"))
}

func startsAsNumber(word string) bool {
	word = strings.TrimLeft(word, "(+-±")
	return word != "" && unicode.IsDigit([]rune(word)[0])
}

func endsAs(kind func(rune) bool, word string) bool {
	runes := []rune(word)
	return len(runes) > 0 && kind(runes[len(runes)-1])
}
