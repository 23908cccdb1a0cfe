package problem

import (
	"bufio"
	"fmt"
	"io"
	"strings"
)

// Sources holds the input files by the name used in places. A file that is not held is named but not shown.
type Sources map[string][]byte

// Options says how a list is printed.
type Options struct {
	Most   int  // problems shown; 0 for all
	Colour bool // the word of the severity and the caret in colour, for a terminal that a person watches
}

// Print writes the list in the order of its places, for a person at a screen:
//
//	job.toml:12:8: error: wire "W101" lands in cavity "99", which connector "J1" does not have
//	  from = "J1:99"
//	         ^
//	  hint: J1 has the cavities 1 to 37
//	job.toml:4:1: note: connector "J1" stands here
//	  [[connector]]
//	  ^
//
// House rules for messages:
//   - The text is one sentence without capital and without full stop. It names every id that it speaks of, in double
//     quotes, spelled as in the job, and says what is wrong rather than what was expected by the code.
//   - The hint says what to do, as an order: "write the length with a unit, such as 120 mm". Where a name is nearly
//     right, it offers the near miss. A hint that only repeats the text is left out.
//   - The place is the value at fault; for something missing, the header of the table that lacks it. The other place,
//     where there is one, is a note.
//   - Words of the trade, as on the paper; no word of the program's own making, no name of a Go type, no blame.
//   - A figure has its unit, and the limit it broke stands beside it.
//   - What was typed is shown as typed, but control characters as their escape: a file may not steer the terminal.
//
// The error returned is that of the writer.
func Print(w io.Writer, list List, sources Sources, options Options) error {
	out := &printer{Writer: bufio.NewWriter(w), sources: sources, lines: map[string][][]byte{}, colour: options.Colour}
	sorted := list.Sorted()
	shown := sorted
	if options.Most > 0 && len(sorted) > options.Most {
		shown = sorted[:options.Most]
	}
	for _, p := range shown {
		out.problem(p)
	}
	switch left := len(sorted) - len(shown); left {
	case 0:
	case 1:
		out.line("and 1 more problem; --all shows it")
	default:
		out.line(fmt.Sprintf("and %d more problems; --all shows them", left))
	}
	return out.Flush()
}

// printer writes problems with the lines they speak of. A write error stays in the writer until Flush.
type printer struct {
	*bufio.Writer
	sources Sources
	lines   map[string][][]byte // files already split
	colour  bool
}

// Colours of a terminal (select graphic rendition of ECMA-48; from memory). What they say stands in words beside them.
const (
	plainText  = "\x1b[0m"
	boldRed    = "\x1b[1;31m"
	boldYellow = "\x1b[1;33m"
)

// colourOf returns the colour of a severity: red stops the packet.
func colourOf(s Severity) string {
	if s == Warning {
		return boldYellow
	}
	return boldRed
}

// painted returns a text in a colour, where colours are shown at all.
func (p *printer) painted(text, colour string) string {
	if !p.colour || colour == "" {
		return text
	}
	return colour + text + plainText
}

func (p *printer) problem(one Problem) {
	p.remark(one.Place, one.Severity.String(), one.Text, colourOf(one.Severity))
	if one.Hint != "" {
		p.line("  hint: " + visible(one.Hint))
	}
	if one.Also != nil {
		p.remark(one.Also.Place, "note", one.Also.Text, "")
	}
}

// remark writes one sentence with its place, and the line with a caret under the place.
func (p *printer) remark(place Place, word, text, colour string) {
	p.line(place.prefix() + p.painted(word, colour) + ": " + visible(text))
	line, held := p.source(place)
	if !held {
		return
	}
	shown, caret := excerpt(line, place.Column)
	p.line("  " + shown)
	if caret != "" {
		p.line("  " + strings.TrimSuffix(caret, "^") + p.painted("^", colour))
	}
}

func (p *printer) line(text string) { _, _ = p.WriteString(text + "\n") }

// prefix returns what stands in front of a remark: "job.toml:12:8: ", less where less is known.
func (p Place) prefix() string {
	file := visible(p.File)
	switch {
	case p.File == "":
		return ""
	case p.Line < 1:
		return file + ": "
	case p.Column < 1:
		return fmt.Sprintf("%s:%d: ", file, p.Line)
	default:
		return fmt.Sprintf("%s:%d:%d: ", file, p.Line, p.Column)
	}
}
