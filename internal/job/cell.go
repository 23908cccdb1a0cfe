package job

import (
	"regexp"
	"slices"
	"strings"
)

// column is a key of [[wire]] that a cell can hold.
type column struct {
	name     string
	json     []string // what its value may be, as the registry says
	list     bool     // of texts, parted by blanks
	required bool
	or       string // column that may stand in its place
}

// columns lists the keys of a table that a cell can hold.
func (k Keys) columns(table string) []column {
	var columns []column
	t, _ := k.table(table)
	for _, one := range t.keys {
		c := column{name: one.name, json: k.kind(one.typ).json, required: one.fallback == isRequired, or: one.or}
		if one.typ == typeList {
			c.list, c.json = true, k.kind(one.of).json
		}
		if len(c.json) > 0 && (!c.list || slices.Equal(c.json, []string{"string"})) {
			columns = append(columns, c)
		}
	}
	return columns
}

// cell is a cell as written: the offset of its first character, or of the quote that opens it.
type cell struct {
	text   string
	at     int
	quoted bool
}

func (c cell) filled() bool { return strings.TrimSpace(c.text) != "" }

var (
	wholeCell   = regexp.MustCompile(`^[+-]?(0|[1-9]\d*)$`)
	decimalCell = regexp.MustCompile(`^[+-]?\d+(\.\d+)?$`)
	truthCell   = regexp.MustCompile(`^(true|false|TRUE|FALSE)$`) // capitals are what spreadsheets write
)

// value turns a cell into the value that TOML would hold: what a text looks like counts only where the key takes it. Ids
// and cavities stay texts: 1.10 is no number.
func (c cell) value(f *file, of column) *value {
	text := strings.TrimSpace(c.text)
	v := &value{file: f, kind: kindText, at: c.start(text), text: text}
	switch {
	case of.list:
		v.kind, v.text = kindArray, ""
		for rest := text; rest != ""; {
			word, behind, _ := strings.Cut(rest, " ")
			if word != "" {
				v.items = append(v.items, &value{file: f, kind: kindText, at: c.within(len(text) - len(rest)), text: word})
			}
			rest = behind
		}
	case contains(of.json, "boolean") && truthCell.MatchString(text):
		v.kind, v.text = kindBool, strings.ToLower(text)
	case (contains(of.json, "integer") || contains(of.json, "number")) && wholeCell.MatchString(text):
		v.kind = kindInteger
	case contains(of.json, "number") && decimalCell.MatchString(text):
		v.kind = kindDecimal
	}
	return v
}

// start returns where the text of a cell starts: at the quote in front of it, else behind the blanks.
func (c cell) start(text string) int {
	if c.quoted {
		return c.at
	}
	return c.at + strings.Index(c.text, text)
}

// within returns the offset of a byte of the text. Quotes that stand twice inside the cell would shift it; ids hold none.
func (c cell) within(at int) int {
	at += c.at + strings.Index(c.text, strings.TrimSpace(c.text))
	if c.quoted {
		at++
	}
	return at
}
