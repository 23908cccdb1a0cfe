// Package problem holds what is wrong with a job: how bad it is, where it stands, what to do about it.
//
// A problem is data. Stages collect problems and return them; only the command prints them.
package problem

import (
	"cmp"
	"slices"
)

// Severity says what a problem does to the packet.
type Severity uint8

const (
	// Error means that no packet can be made.
	Error Severity = iota
	// Release means that nobody may build from the packet: it can be made as a draft only.
	Release
	// Warning is printed on the contents page with a line for the planner's answer.
	Warning
)

// String returns the word printed in front of a problem.
func (s Severity) String() string {
	switch s {
	case Release:
		return "release"
	case Warning:
		return "warning"
	default:
		return "error"
	}
}

// Place is a spot in an input file. Line and Column count from 1; Column counts characters, not bytes.
// The zero Place means that the problem belongs to no spot of a file.
type Place struct {
	File   string
	Line   int
	Column int
}

// Related is a second place that a problem speaks of, such as the first use of a doubled id.
type Related struct {
	Place Place
	Text  string
}

// Problem is one thing that is wrong.
type Problem struct {
	Severity Severity
	Check    string // stable name of the check, such as "unknown-cavity"
	Place    Place
	Text     string   // one sentence without capital or full stop, naming the ids it speaks of
	Hint     string   // what to do; may be empty
	Also     *Related // the other place, where there is one
	ID       string   // the id it speaks of; orders warnings on paper, where line numbers may not appear
}

// List is a set of problems.
type List []Problem

// Errors reports how many problems of the list stop the packet.
func (l List) Errors() int { return l.count(Error) }

// Releases reports how many problems of the list leave nothing but a draft.
func (l List) Releases() int { return l.count(Release) }

func (l List) count(severity Severity) int {
	count := 0
	for _, p := range l {
		if p.Severity == severity {
			count++
		}
	}
	return count
}

// Stops reports whether the list stops a packet: a draft is stopped by errors alone.
func (l List) Stops(draft bool) bool { return l.Errors() > 0 || !draft && l.Releases() > 0 }

// Warnings returns the warnings of the list, ordered by check, id and text as they stand on paper.
func (l List) Warnings() List {
	var warnings List
	for _, p := range l {
		if p.Severity == Warning {
			warnings = append(warnings, p)
		}
	}
	slices.SortStableFunc(warnings, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.Check, b.Check), cmp.Compare(a.ID, b.ID), cmp.Compare(a.Text, b.Text))
	})
	return warnings
}

// Sorted returns the list in the order of the file, without exact repeats.
func (l List) Sorted() List {
	sorted := slices.Clone(l)
	slices.SortStableFunc(sorted, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.Place.File, b.Place.File), cmp.Compare(a.Place.Line, b.Place.Line),
			cmp.Compare(a.Place.Column, b.Place.Column), cmp.Compare(a.Severity, b.Severity),
			cmp.Compare(a.Check, b.Check), cmp.Compare(a.ID, b.ID), cmp.Compare(a.Text, b.Text))
	})
	return slices.CompactFunc(sorted, func(a, b Problem) bool {
		return a.Place == b.Place && a.Check == b.Check && a.Text == b.Text
	})
}
