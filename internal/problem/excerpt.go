package problem

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// room is how much of a source line is shown, in columns of a terminal.
const room = 100

// source returns the line of a place, and whether its file is held and has that line.
func (p *printer) source(place Place) ([]byte, bool) {
	content, held := p.sources[place.File]
	if !held || content == nil || place.Line < 1 {
		return nil, false
	}
	lines, split := p.lines[place.File]
	if !split {
		lines = bytes.Split(bytes.TrimPrefix(content, []byte("\ufeff")), []byte("\n"))
		p.lines[place.File] = lines
	}
	if place.Line > len(lines) {
		return nil, false
	}
	return bytes.TrimSuffix(lines[place.Line-1], []byte("\r")), true
}

// excerpt returns the part of a line around a column that fits the room, and the line with the caret under that column.
// The caret is empty for a column below 1; a column behind the end stands just behind it.
func excerpt(line []byte, column int) (shown, caret string) {
	at := offset(line, column)
	end := at + forward(line[at:], room/2)
	start := at - backward(line[:at], room-width(line[at:end]))
	end = at + forward(line[at:], room-width(line[start:at]))
	var text, blank strings.Builder
	if start > 0 {
		text.WriteString("...")
		blank.WriteString("   ")
	}
	for i := start; i < end; {
		c := cellAt(line[i:])
		text.WriteString(c.shown)
		if i < at {
			blank.WriteString(c.blank())
		}
		i += c.size
	}
	if end < len(line) {
		text.WriteString("...")
	}
	if column < 1 {
		return text.String(), ""
	}
	return text.String(), blank.String() + "^"
}

// offset returns where a column, counted in characters from 1, starts in bytes.
func offset(line []byte, column int) int {
	at := 0
	for ; column > 1 && at < len(line); column-- {
		_, size := utf8.DecodeRune(line[at:])
		at += size
	}
	return at
}

// forward returns how many bytes at the start of a text fit the columns.
func forward(text []byte, columns int) int {
	taken := 0
	for taken < len(text) {
		c := cellAt(text[taken:])
		if columns -= c.columns; columns < 0 {
			break
		}
		taken += c.size
	}
	return taken
}

// backward returns how many bytes at the end of a text fit the columns.
func backward(text []byte, columns int) int {
	rest := len(text)
	for rest > 0 {
		_, size := utf8.DecodeLastRune(text[:rest])
		if columns -= cellAt(text[rest-size : rest]).columns; columns < 0 {
			break
		}
		rest -= size
	}
	return len(text) - rest
}

func width(text []byte) int {
	sum := 0
	for i := 0; i < len(text); {
		c := cellAt(text[i:])
		sum += c.columns
		i += c.size
	}
	return sum
}

// cell is one character as a terminal shows it.
type cell struct {
	shown   string
	columns int
	size    int // bytes in the source
}

// blank returns what moves the caret past the cell. A tab stays a tab, since only the terminal knows its width.
func (c cell) blank() string {
	if c.shown == "\t" {
		return "\t"
	}
	return strings.Repeat(" ", c.columns)
}

// cellAt returns the first character of a text. A tab counts as the widest it can be.
func cellAt(text []byte) cell {
	r, size := utf8.DecodeRune(text)
	switch {
	case r == '\t':
		return cell{"\t", 8, size}
	case r == utf8.RuneError && size == 1:
		return cell{fmt.Sprintf(`\x%02x`, text[0]), 4, 1}
	case !unicode.IsPrint(r):
		shown := strings.Trim(strconv.QuoteRune(r), "'")
		return cell{shown, len(shown), size}
	case unicode.In(r, unicode.Mn, unicode.Me):
		return cell{string(r), 0, size}
	case wide(r):
		return cell{string(r), 2, size}
	default:
		return cell{string(r), 1, size}
	}
}

// wide reports whether a terminal gives two columns to a character: East Asian scripts and full-width forms.
func wide(r rune) bool {
	return unicode.In(r, unicode.Han, unicode.Hiragana, unicode.Katakana, unicode.Hangul) || r >= 0xff01 && r <= 0xff60
}

// visible returns a text on one line with its control characters as escapes.
func visible(text string) string {
	var b strings.Builder
	for rest := []byte(text); len(rest) > 0; {
		c := cellAt(rest)
		if c.shown == "\t" {
			c.shown = `\t`
		}
		b.WriteString(c.shown)
		rest = rest[c.size:]
	}
	return b.String()
}
