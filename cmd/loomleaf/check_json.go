package main

import (
	"encoding/json"

	"loomleaf/internal/problem"
)

// checkedJobs is the published form of "check --json": names stay, and new ones may come. Every job that could be read is
// there in the order of the command line; its problems stand in the order of the files, all of them.
type checkedJobs struct {
	Loomleaf int          `json:"loomleaf"`
	Jobs     []checkedJob `json:"jobs"`
}

type checkedJob struct {
	Job      string           `json:"job"`
	Problems []checkedProblem `json:"problems"`
}

// checkedProblem is a problem with its place; line and col count from 1, 0 where the problem has no place.
type checkedProblem struct {
	Severity string        `json:"severity"`
	Check    string        `json:"check"`
	File     string        `json:"file"`
	Line     int           `json:"line"`
	Column   int           `json:"col"`
	Text     string        `json:"text"`
	Hint     string        `json:"hint"`
	Also     *checkedPlace `json:"also"` // the other place, or null
	ID       string        `json:"id"`
}

type checkedPlace struct {
	File   string `json:"file"`
	Line   int    `json:"line"`
	Column int    `json:"col"`
	Text   string `json:"text"`
}

// runJSON prints the problems as data. A job that could not be read is reported as ever, and is not in the data.
func (c checkCommand) runJSON(s streams) error {
	all := checkedJobs{Loomleaf: 1, Jobs: []checkedJob{}}
	var worst error
	for _, name := range c.Jobs {
		var found problem.List
		flags := c.with(problemFlags{sink: &found})
		_, err := layJob(s, name, "", flags)
		if codeOf(err) == exitNoAccess && err.Error() != "" {
			report(s, err) // of all other errors the data tells
		}
		worst = worse(worst, err)
		if codeOf(err) != exitNoAccess {
			all.Jobs = append(all.Jobs, checkedJob{Job: name, Problems: checkedProblems(found)})
		}
	}
	encoder := json.NewEncoder(s.out)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", "  ")
	if err := encoder.Encode(all); err != nil {
		return err
	}
	return worst
}

func checkedProblems(found problem.List) []checkedProblem {
	checked := []checkedProblem{}
	for _, p := range found.Sorted() {
		one := checkedProblem{Severity: p.Severity.String(), Check: p.Check, File: p.Place.File, Line: p.Place.Line, Column: p.Place.Column,
			Text: p.Text, Hint: p.Hint, ID: p.ID}
		if p.Also != nil {
			at := p.Also.Place
			one.Also = &checkedPlace{File: at.File, Line: at.Line, Column: at.Column, Text: p.Also.Text}
		}
		checked = append(checked, one)
	}
	return checked
}
