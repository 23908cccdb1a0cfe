// Package handbook holds published figures of the trade, each returned with its source.
//
// Every lookup says whether the figure is listed. What is not listed is never guessed or interpolated.
package handbook

import "strings"

// Standing says how sure a figure is.
type Standing uint8

const (
	Memory         Standing = iota // from general knowledge, the document not at hand
	CommonPractice                 // a habit of the trade, or a figure of our own, without a published source
	Derived                        // computed from figures of the source
	SecondHand                     // seen in another document that reproduces the source
	Read                           // seen in the text of the document itself
)

// String returns the word printed behind a source.
func (s Standing) String() string {
	switch s {
	case Read:
		return "read"
	case SecondHand:
		return "second-hand"
	case Derived:
		return "derived"
	case CommonPractice:
		return "common practice"
	default:
		return "from memory"
	}
}

// Source says where a figure comes from.
type Source struct {
	Document string // "AC 43.13-1B"
	Edition  string // "CHG 1, 2001"; empty where it is not known
	Table    string // table, figure or paragraph: "11-234"
	Standing Standing
}

// String returns the source as the paper prints it: "AC 43.13-1B, CHG 1 of 2001-09-27, paragraph 11-234 (read)".
func (s Source) String() string {
	var parts []string
	for _, part := range []string{s.Document, s.Edition, s.Table} {
		if part != "" {
			parts = append(parts, part)
		}
	}
	if len(parts) == 0 {
		return s.Standing.String()
	}
	return strings.Join(parts, ", ") + " (" + s.Standing.String() + ")"
}
