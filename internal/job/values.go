package job

import (
	"fmt"
	"strconv"
	"strings"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
)

func quoted(text string) string { return strconv.Quote(shown(text)) }

// longestShown is how much of a text a message repeats; no id, unit or word is longer.
const longestShown = 120

// shown is a text as messages repeat it: the start of one that is too long to read.
func shown(text string) string {
	if len(text) <= longestShown {
		return text
	}
	return strings.ToValidUTF8(text[:longestShown/2], "") + "..."
}

// written returns a value as messages show it.
func written(v *value) string {
	switch v.kind {
	case kindText:
		return quoted(v.text)
	case kindArray:
		return "a list"
	case kindTable:
		return "a table"
	default:
		return shown(v.text)
	}
}

// scalar returns the value of a key where it is of the kind wanted, or nil.
func (t *table) scalar(key string, wanted kind, name, hint string) *value {
	e := t.get(key)
	if e == nil {
		return nil
	}
	if e.value.kind != wanted {
		t.fault(wrongKind, key, e.place(), hint, "%s is no %s", written(e.value), name)
		return nil
	}
	return e.value
}

// text returns words that people read, or "" where the key is missing or wrong.
func (t *table) text(key string) string {
	text := t.name(key)
	if word := strings.TrimSpace(text); word != "" && (strings.Trim(word, "?") == "" || undecided(word) && len(word) == 3) {
		t.placeholder(key, text, t.origin.Of(t.prefix+key))
	}
	return text
}

// name is text for names of other items, where a placeholder is an unknown name, and for legends.
func (t *table) name(key string) string {
	v := t.scalar(key, kindText, "text", "write it in double quotes")
	if v == nil || !t.notEmpty(key, v) {
		return ""
	}
	return v.text
}

// blankText is text for keys that may be empty.
func (t *table) blankText(key string) string {
	if v := t.scalar(key, kindText, "text", "write it in double quotes"); v != nil {
		return strings.TrimSpace(v.text)
	}
	return ""
}

func (t *table) notEmpty(key string, v *value) bool {
	if strings.TrimSpace(v.text) == "" {
		t.fault(emptyValue, key, v.place(), "write a value, or take the key out", "the text is empty")
		return false
	}
	return true
}

// texts returns a list of texts, and notes the place of each as "key.0".
func (t *table) texts(key string, items []*value) []string {
	var texts []string
	for _, item := range items {
		if item.kind != kindText {
			t.fault(wrongKind, key, item.place(), "write it in double quotes", "%s is no text", written(item))
			continue
		}
		if t.notEmpty(key, item) {
			t.origin.Keys[elementKey(t.prefix+key, len(texts))] = item.place()
			texts = append(texts, item.text)
		}
	}
	return texts
}

// elementKey is the key under which an origin holds the place of an element of a list.
func elementKey(key string, at int) string { return key + "." + strconv.Itoa(at) }

// words returns a list of words out of those allowed, each at most once.
func (t *table) words(key string, allowed ...string) []string {
	var words []string
	for at, word := range t.texts(key, t.array(key)) {
		place := t.origin.Keys[elementKey(t.prefix+key, at)]
		if !t.allowed(key, word, place, allowed) {
			continue
		}
		if contains(words, word) {
			t.fault(doubledElement, key, place, "", "%s stands twice in the list", quoted(word))
			continue
		}
		words = append(words, word)
	}
	return words
}

// word returns one of the words allowed, or "".
func (t *table) word(key string, allowed ...string) string {
	word := t.name(key)
	if word == "" || !t.allowed(key, word, t.origin.Of(t.prefix+key), allowed) {
		return ""
	}
	return word
}

func (t *table) allowed(key, word string, at problem.Place, allowed []string) bool {
	if contains(allowed, word) {
		return true
	}
	t.fault(badWord, key, at, "write "+alternatives(allowed), "%s is not known here", quoted(word))
	return false
}

// alternatives joins words for a hint: `"a", "b" or "c"`.
func alternatives(words []string) string {
	quotedWords := make([]string, len(words))
	for i, word := range words {
		quotedWords[i] = quoted(word)
	}
	if len(words) == 1 {
		return quotedWords[0]
	}
	return strings.Join(quotedWords[:len(words)-1], ", ") + " or " + quotedWords[len(words)-1]
}

// whole returns a whole number between two bounds, or 0 and false.
func (t *table) whole(key string, low, high int) (int, bool) {
	v := t.scalar(key, kindInteger, "whole number", "write a whole number without quotes")
	if v == nil {
		return 0, false
	}
	return t.between(key, v, low, high)
}

func (t *table) between(key string, v *value, low, high int) (int, bool) {
	number, err := strconv.ParseInt(strings.ReplaceAll(v.text, "_", ""), 0, 64)
	if err != nil || number < int64(low) || number > int64(high) {
		t.fault(outOfRange, key, v.place(), fmt.Sprintf("write a number from %d to %d", low, high), "%s is out of range", shown(v.text))
		return 0, false
	}
	return int(number), true
}

// truth returns true or false.
func (t *table) truth(key string) bool {
	v := t.scalar(key, kindBool, "true or false", "write true or false without quotes")
	return v != nil && v.text == "true"
}

const dayHint = "write year, month and day without quotes, such as 2026-11-20"

// day returns a day of the calendar; the judge has refused days that no month has.
func (t *table) day(key string) harness.Date {
	v := t.scalar(key, kindDay, "day", dayHint)
	if v == nil {
		return harness.Date{}
	}
	var d harness.Date
	if read, err := fmt.Sscanf(v.text, "%4d-%2d-%2d", &d.Year, &d.Month, &d.Day); err != nil || read != 3 || d.Year < 1 {
		t.fault(badDate, key, v.place(), dayHint, "%s is no day of the calendar", shown(v.text))
		return harness.Date{}
	}
	return d
}
