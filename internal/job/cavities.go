package job

import (
	"fmt"
	"strconv"
	"strings"

	"loomleaf/internal/problem"
)

// mostCavities is the most that one connector may have.
const mostCavities = 2000

// longestNumber is the most digits of a number in a range.
const longestNumber = 9

// named is a cavity name with the place of the text that named it.
type named struct {
	name string
	at   problem.Place
}

// cavities expands a list of cavity names and ranges, in the order listed.
func (t *table) cavities(key string, items []*value) []named {
	var list []named
	for at, text := range t.texts(key, items) {
		place := t.origin.Keys[elementKey(t.prefix+key, at)]
		names, fault := expand(text)
		if fault == "" && len(list)+len(names) > mostCavities {
			fault = fmt.Sprintf("makes more than %d cavities", mostCavities)
		}
		if fault != "" {
			t.fault(badCavities, key, place, `write a name, or a range such as "1-37", "01-09" or "A-Z except I O Q"`, "%s %s", quoted(text), fault)
			return nil
		}
		for _, name := range names {
			if !t.fineID(key, name, place) {
				return nil
			}
			list = append(list, named{name, place})
		}
	}
	return list
}

// distinct reports cavities named twice.
func (t *table) distinct(key string, list []named) {
	first := make(map[string]problem.Place, len(list))
	for _, cavity := range list {
		if other, doubled := first[cavity.name]; doubled {
			p := fault(doubledElement, cavity.at, "%s, %s: cavity %s is listed twice", t.label, t.prefix+key, quoted(cavity.name))
			t.add(with(p, other, "it is listed here already"), key)
			continue
		}
		first[cavity.name] = cavity.at
	}
}

// expand returns the names that a text stands for: those of a range of numbers or letters, less the exceptions; any
// other text is one name. It returns what is wrong instead.
func expand(text string) (names []string, fault string) {
	span, exceptions, excepted := strings.Cut(text, " except ")
	names, fault = expandRange(span)
	if !excepted || fault != "" {
		return names, fault
	}
	if len(names) < 2 {
		return nil, "takes exceptions from no range"
	}
	for _, exception := range strings.Fields(exceptions) {
		before := len(names)
		names = without(names, exception)
		if len(names) == before {
			return nil, "excepts " + quoted(exception) + ", which is not in the range"
		}
	}
	if len(names) == 0 {
		return nil, "leaves no cavity"
	}
	return names, ""
}

func without(names []string, name string) []string {
	var left []string
	for _, n := range names {
		if n != name {
			left = append(left, n)
		}
	}
	return left
}

func expandRange(text string) (names []string, fault string) {
	first, last, ranged := strings.Cut(text, "-")
	switch {
	case ranged && digits(first) && digits(last):
		return numbers(first, last)
	case ranged && len(first) == 1 && len(last) == 1 && (within(first[0], 'A', 'Z') && within(last[0], 'A', 'Z') ||
		within(first[0], 'a', 'z') && within(last[0], 'a', 'z')):
		return letters(first[0], last[0])
	case ranged && (lettersOnly(first) && lettersOnly(last)):
		return nil, "is no range of single letters of one case"
	}
	return []string{text}, ""
}

func within(b, low, high byte) bool { return b >= low && b <= high }

func digits(text string) bool {
	return text != "" && strings.Trim(text, "0123456789") == ""
}

func lettersOnly(text string) bool {
	for i := range len(text) {
		if lower := text[i] | 0x20; !within(lower, 'a', 'z') {
			return false
		}
	}
	return text != ""
}

// numbers counts from one number to another, as wide as the first one where that starts with a zero.
func numbers(first, last string) (names []string, fault string) {
	if len(first) > longestNumber || len(last) > longestNumber {
		return nil, "holds too large a number"
	}
	from, _ := strconv.Atoi(first)
	to, _ := strconv.Atoi(last)
	padded := len(first) > 1 && first[0] == '0' || len(last) > 1 && last[0] == '0'
	switch {
	case from > to:
		return nil, "runs backwards"
	case padded && len(first) != len(last):
		return nil, "has ends of different width"
	case to-from >= mostCavities:
		return nil, fmt.Sprintf("makes more than %d cavities", mostCavities)
	}
	width := 0
	if padded {
		width = len(first)
	}
	for number := from; number <= to; number++ {
		names = append(names, fmt.Sprintf("%0*d", width, number))
	}
	return names, ""
}

func letters(first, last byte) (names []string, fault string) {
	if first > last {
		return nil, "runs backwards"
	}
	for letter := first; letter <= last; letter++ {
		names = append(names, string(rune(letter)))
	}
	return names, ""
}
