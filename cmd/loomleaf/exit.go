package main

import (
	"errors"
	"fmt"
	"strings"
)

// exitCode is what the command tells whoever started it.
type exitCode int

const (
	exitDone     exitCode = 0
	exitProblems exitCode = 1
	exitWrongUse exitCode = 2
	exitNoAccess exitCode = 3
)

// exitMeaning is one line of the table of exit codes.
type exitMeaning struct {
	code    exitCode
	meaning string
}

// exitMeanings is the whole table; the help and the README print it.
func exitMeanings() []exitMeaning {
	return []exitMeaning{
		{exitDone, "done"},
		{exitProblems, "the job has problems, or a code was refused"},
		{exitWrongUse, "wrong use of the command"},
		{exitNoAccess, "a file could not be read or written"},
	}
}

// exitTable returns the table as text.
func exitTable() string {
	var b strings.Builder
	b.WriteString("Exit codes:\n")
	for _, m := range exitMeanings() {
		fmt.Fprintf(&b, "  %d  %s\n", m.code, m.meaning)
	}
	return b.String()
}

// failure is an error with the exit code it leads to. An empty text has been printed already.
type failure struct {
	code exitCode
	text string
	hint string

	unreleased bool // nothing but a draft can be made
}

func (f failure) Error() string { return f.text }

func wrongUse(text, hint string) error { return failure{code: exitWrongUse, text: text, hint: hint} }

func noAccess(text, hint string) error { return failure{code: exitNoAccess, text: text, hint: hint} }

// problemsFound says that the problems have been printed.
func problemsFound() error { return failure{code: exitProblems} }

// codeOf returns the exit code of an error.
func codeOf(err error) exitCode {
	var f failure
	switch {
	case err == nil:
		return exitDone
	case errors.As(err, &f):
		return f.code
	}
	return exitNoAccess
}
