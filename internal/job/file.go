package job

import (
	"bytes"
	"fmt"
	"sort"
	"unicode/utf8"

	"loomleaf/internal/problem"
)

// sizeLimit is far above any job and keeps a wrong file from filling the memory.
const sizeLimit = 32 << 20

// file is the text of one file with the offsets at which its lines start.
type file struct {
	name   string
	text   []byte
	starts []int
	runes  []int // characters up to the end of each block
}

// newFile checks size and characters. A byte order mark is dropped.
func newFile(name string, text []byte) (*file, problem.List) {
	f := &file{name: name, starts: []int{0}}
	if len(text) > sizeLimit {
		return f, problem.List{about(fault(fileTooLarge, problem.Place{File: name, Line: 1, Column: 1},
			"%s holds more than %d MiB", name, sizeLimit>>20), "", "name a job file")}
	}
	f.text = bytes.TrimPrefix(text, []byte("\xef\xbb\xbf"))
	for at, b := range f.text {
		if b == '\n' {
			f.starts = append(f.starts, at+1)
		}
	}
	for at, count := block, 0; at <= len(f.text); at += block {
		count += starts(f.text[at-block : at])
		f.runes = append(f.runes, count)
	}
	return f, f.characters()
}

// block is how many bytes are counted together, so that a place in a line of many megabytes takes no walk along the line.
const block = 512

// place returns the place of an offset, with its column in characters. An offset inside a character is that of the character:
// the library that judges the syntax counts bytes.
func (f *file) place(offset int) problem.Place {
	offset = max(0, min(offset, len(f.text)))
	line := sort.SearchInts(f.starts, offset+1)
	for at := offset - 1; at >= max(offset-utf8.UTFMax+1, f.starts[line-1]); at-- {
		if _, size := utf8.DecodeRune(f.text[at:]); at+size > offset {
			offset = at
			break
		}
	}
	return problem.Place{File: f.name, Line: line, Column: f.runesTo(offset) - f.runesTo(f.starts[line-1]) + 1}
}

// runesTo counts the characters in front of an offset.
func (f *file) runesTo(offset int) int {
	whole := offset / block
	if whole == 0 || len(f.runes) < whole {
		return starts(f.text[:offset])
	}
	return f.runes[whole-1] + starts(f.text[whole*block:offset])
}

// starts counts the bytes with which characters start.
func starts(text []byte) int {
	count := 0
	for _, b := range text {
		if utf8.RuneStart(b) {
			count++
		}
	}
	return count
}

// characters finds the first byte that is no UTF-8, and characters that do not show on paper.
func (f *file) characters() problem.List {
	var found problem.List
	for at := 0; at < len(f.text); {
		if b := f.text[at]; b >= ' ' && b < 0x7f || b == '\n' || b == '\t' { // the common case, fast
			at++
			continue
		}
		r, size := utf8.DecodeRune(f.text[at:])
		switch {
		case r == utf8.RuneError && size == 1:
			return append(found, about(fault(notUTF8, f.place(at), "byte 0x%02X is no UTF-8", f.text[at]),
				"", "save the file as UTF-8"))
		case r == '\r' && at+1 < len(f.text) && f.text[at+1] == '\n':
		case hidden(r):
			found = append(found, hiddenFault(f.place(at), r))
			if len(found) == mostHidden {
				return found
			}
		}
		at += size
	}
	return found
}

// mostHidden ends the search in a file that is no text at all.
const mostHidden = 20

func hiddenFault(at problem.Place, r rune) problem.Problem {
	return about(fault(controlCharacter, at, "character %s does not show on paper", fmt.Sprintf("U+%04X", r)),
		"", "take it out, and type the text around it again")
}

// hidden reports control characters, and those that change the direction or the breaks of the text around them:
// what a reader sees would not be what the file says.
func hidden(r rune) bool {
	switch {
	case r < ' ', r >= 0x7f && r <= 0x9f: // controls
		return true
	case r == 0x061c, r >= 0x200b && r <= 0x200f, r >= 0x2028 && r <= 0x202e, r >= 0x2060 && r <= 0x206f, r == 0xfeff:
		return true
	}
	return false
}
