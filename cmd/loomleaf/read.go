package main

import (
	"bufio"
	"bytes"
	"fmt"
	"strings"

	"loomleaf/internal/plan"
)

// readCommand says what codes name.
type readCommand struct {
	Job     string   `arg:"" help:"Job file that the codes belong to; - reads standard input."`
	Codes   []string `arg:"" optional:"" name:"code" help:"Codes as scanned, or as typed: P483920-57/2. Without any, a line each from standard input."`
	Against []string `help:"Codes map of an earlier revision (.codes.csv), to tell stale paper from unknown codes." type:"path"`
	templatesFlag
	problemFlags
}

// Run answers each code with a line; a refused code makes the exit code 1.
func (c readCommand) Run(s streams) error {
	if c.Job == "-" && len(c.Codes) == 0 {
		return wrongUse("the job and the codes cannot both come from standard input", "name the job file, or give the codes")
	}
	one, err := layJob(s, c.Job, "", c.with(c.problemFlags))
	if err != nil {
		return err
	}
	older, err := readMaps(c.Against)
	if err != nil {
		return err
	}
	refused := false
	answer := func(text string) error {
		a := plan.Look(text, one.codes(), older)
		refused = refused || a.Verdict != plan.VerdictFound && a.Verdict != plan.VerdictScannerRight
		_, err := fmt.Fprintln(s.out, a.Text)
		return err
	}
	if err := c.each(s, answer); err != nil {
		return err
	}
	if refused {
		return problemsFound()
	}
	return nil
}

// each hands over every code, from the arguments or line by line as a scanner types them.
func (c readCommand) each(s streams, answer func(string) error) error {
	for _, code := range c.Codes {
		if err := answer(code); err != nil {
			return err
		}
	}
	if len(c.Codes) > 0 {
		return nil
	}
	lines := bufio.NewScanner(s.in)
	for lines.Scan() {
		if text := strings.TrimSpace(lines.Text()); text != "" {
			if err := answer(text); err != nil {
				return err
			}
		}
	}
	if err := lines.Err(); err != nil {
		return noAccess("could not read standard input: "+cause(err), "")
	}
	return nil
}

// readMaps reads codes maps of earlier revisions.
func readMaps(names []string) ([]plan.CodeRow, error) {
	var all []plan.CodeRow
	for _, name := range names {
		text, err := readFile(name)
		if err != nil {
			return nil, noAccess(fmt.Sprintf("could not read %s: %s", name, cause(err)), "name a .codes.csv that a packet came with")
		}
		rows, err := plan.ReadCodes(bytes.NewReader(text))
		if err != nil {
			return nil, noAccess(fmt.Sprintf("could not use %s: %s", name, cause(err)), "name a .codes.csv that a packet came with")
		}
		all = append(all, rows...)
	}
	return all, nil
}
