// Package words holds the words of the paper in one language, each text under a key: "cutlist.still_on".
//
// A text may hold fields, which the caller fills: "page {page} of {of}". What depends on a number stands in two forms, under
// the key with ".one" and with ".other"; the number is its field {n}.
package words

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// Words is the text of every key in one language. The zero value holds none.
type Words struct {
	Language string // "en", "de"
	texts    map[string]string
	own      map[string]string // the texts that the shop has written
}

// New returns the words of a language. The texts are not copied.
func New(language string, texts map[string]string) Words {
	return Words{Language: language, texts: texts}
}

// With returns the words with some of the texts replaced.
func (w Words) With(own map[string]string) Words {
	texts := maps.Clone(w.texts)
	maps.Copy(texts, own)
	return Words{Language: w.Language, texts: texts, own: own}
}

// Own returns the texts that the shop has written, by key.
func (w Words) Own() map[string]string { return w.own }

// Keys returns every key in order.
func (w Words) Keys() []string { return slices.Sorted(maps.Keys(w.texts)) }

// Text returns the text of a key with its fields unfilled, and whether there is one.
func (w Words) Text(key string) (string, bool) {
	text, has := w.texts[key]
	return text, has
}

// Say returns the text of a key with its fields filled from pairs of a name and a value. A key without a text comes back in
// braces, so that it shows.
func (w Words) Say(key string, pairs ...any) string {
	text, has := w.texts[key]
	if !has {
		return "{" + key + "}"
	}
	if len(pairs) == 0 {
		return text
	}
	return Fill(text, func(name string) (string, bool) {
		for i := 0; i+1 < len(pairs); i += 2 {
			if pairs[i] == name {
				return fmt.Sprint(pairs[i+1]), true
			}
		}
		return "", false
	})
}

// Fill fills the fields of a text in. What is no field, or has no value, stays as it stands.
func Fill(text string, value func(name string) (string, bool)) string {
	if !strings.Contains(text, "{") {
		return text
	}
	var filled strings.Builder
	for {
		open := strings.IndexByte(text, '{')
		if open < 0 {
			filled.WriteString(text)
			return filled.String()
		}
		name, _, _ := strings.Cut(text[open+1:], "}")
		put, has := value(name)
		if end := open + len(name) + 2; has && end <= len(text) {
			filled.WriteString(text[:open])
			filled.WriteString(put)
			text = text[end:]
			continue
		}
		filled.WriteString(text[:open+1])
		text = text[open+1:]
	}
}

// SayCount returns the text of a key for a number, which fills the field {n}.
func (w Words) SayCount(key string, n int, pairs ...any) string {
	form := ".other"
	if n == 1 {
		form = ".one"
	}
	return w.Say(key+form, append([]any{"n", n}, pairs...)...)
}

// Decimal writes a figure with a decimal point as the language writes it.
func (w Words) Decimal(figure string) string {
	mark, has := w.texts["number.decimal"]
	if !has {
		return figure
	}
	return strings.Replace(figure, ".", mark, 1)
}

// Fields returns the names of the fields of a text, in order and each once.
func Fields(text string) []string {
	var names []string
	for {
		_, after, opened := strings.Cut(text, "{")
		name, rest, closed := strings.Cut(after, "}")
		if !opened || !closed {
			slices.Sort(names)
			return slices.Compact(names)
		}
		names, text = append(names, name), rest
	}
}
