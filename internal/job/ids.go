package job

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"loomleaf/internal/problem"
)

const (
	longestID     = 40 // characters; more does not fit a legend or a row
	longestSerial = 12 // characters; a serial stands at the head of a column
	idHint        = `write letters, digits and marks without blanks and without : @ > , at most 40 characters`
)

func contains(words []string, word string) bool { return slices.Contains(words, word) }

// id returns an id, or "" where it is missing or cannot be one.
func (t *table) id(key string) string {
	text := t.text(key)
	if text == "" || !t.fineID(key, text, t.origin.Of(t.prefix+key)) {
		return ""
	}
	return text
}

// fineID reports an id that references could not name.
func (t *table) fineID(key, id string, at problem.Place) bool {
	switch {
	case strings.ContainsAny(id, ":@>,") || strings.ContainsFunc(id, unicode.IsSpace):
		t.fault(badID, key, at, idHint, "%s cannot be an id", quoted(id))
	case utf8.RuneCountInString(id) > longestID:
		t.fault(badID, key, at, idHint, "%s is longer than %d characters", quoted(id), longestID)
	default:
		t.decided(key, id, at)
		return true
	}
	return false
}

// decided reports a name with a mark that stands in for what is still to be found.
func (t *table) decided(key, text string, at problem.Place) {
	if strings.Contains(text, "?") || undecided(text) {
		t.placeholder(key, text, at)
	}
}

// placeholder reports a text that leaves nothing but a draft. It is read all the same.
func (t *table) placeholder(key, text string, at problem.Place) {
	p := about(fault(placeholder, at, "%s, %s: %s is a placeholder", t.label, t.prefix+key, quoted(text)), "",
		"write what it is, now that the packet is made from it")
	t.found = append(t.found, release(p))
}

// undecided finds a word that stands for "to be determined" or "to be confirmed". It looks at every cavity of a job, and most
// names hold no such letters at all.
func undecided(text string) bool {
	for at := 0; at+2 < len(text); at++ {
		if text[at]|0x20 != 't' || text[at+1]|0x20 != 'b' {
			continue
		}
		words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return (r < 'a' || r > 'z') && (r < '0' || r > '9') })
		return contains(words, "tbd") || contains(words, "tbc")
	}
	return false
}

// part returns a part number, or "" where there is none.
func (t *table) part(key string) string {
	part := t.text(key)
	if part != "" {
		t.decided(key, part, t.origin.Of(t.prefix+key))
	}
	return part
}

// ids returns a list of ids, each at most once.
func (t *table) ids(key string, items []*value) []string {
	var ids []string
	seen := map[string]bool{}
	for at, id := range t.texts(key, items) {
		place := t.origin.Keys[elementKey(t.prefix+key, at)]
		if !t.fineID(key, id, place) {
			continue
		}
		if seen[id] {
			t.fault(doubledElement, key, place, "take one of them out", "%s stands twice in the list", quoted(id))
		}
		seen[id] = true
		t.origin.Keys[elementKey(t.prefix+key, len(ids))] = place // ids left out shift those behind them
		ids = append(ids, id)
	}
	return ids
}

// fileName returns a text that file names are made of.
func (t *table) fileName(key string) string {
	text := t.text(key)
	if text == "" {
		return ""
	}
	at := t.origin.Of(t.prefix + key)
	hint := "file names are made of it: write 1 to 40 letters, digits and . - _ + with no dot at either end"
	switch {
	case !fitsFileName(text):
		t.fault(badFileName, key, at, hint, "%s cannot stand in a file name", quoted(text))
	case reservedName(text):
		t.fault(badFileName, key, at, "file names are made of it: write another, or add letters in front",
			"%s is a device name that no file may have", quoted(text))
	default:
		t.decided(key, text, at)
		return text
	}
	return ""
}

func fitsFileName(text string) bool {
	if len(text) > longestID || strings.HasPrefix(text, ".") || strings.HasSuffix(text, ".") {
		return false
	}
	for _, r := range text {
		if r > unicode.MaxASCII || !unicode.IsLetter(r) && !unicode.IsDigit(r) && !strings.ContainsRune(".-_+", r) {
			return false
		}
	}
	return true
}

// reservedName reports a name of a device, with or without an extension (Windows, "Naming files"; from memory).
func reservedName(text string) bool {
	base, _, _ := strings.Cut(strings.ToUpper(text), ".")
	if contains([]string{"CON", "PRN", "AUX", "NUL"}, base) {
		return true
	}
	port := strings.HasPrefix(base, "COM") || strings.HasPrefix(base, "LPT")
	return port && len(base) == 4 && base[3] >= '1' && base[3] <= '9'
}

// fineSerial reports a serial that would not fit the head of a column or the name of a tray.
func (t *table) fineSerial(key, serial string, at problem.Place) bool {
	blank := strings.ContainsFunc(serial, unicode.IsSpace) || strings.ContainsAny(serial, ":@>,/")
	if blank || utf8.RuneCountInString(serial) > longestSerial {
		t.fault(badSerial, key, at, "write at most 12 characters, without blanks and without : @ > , /", "%s cannot be a serial", quoted(serial))
		return false
	}
	t.decided(key, serial, at)
	return true
}
