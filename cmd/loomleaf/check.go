package main

import "fmt"

// checkCommand says what is wrong with jobs.
type checkCommand struct {
	Jobs []string `arg:"" name:"job" help:"Job files; - reads standard input."`
	JSON bool     `help:"Print the problems as JSON on standard output, in the published form."`
	templatesFlag
	problemFlags
}

// Run checks every job, also after one that has problems.
func (c checkCommand) Run(s streams) error {
	if err := refuseRepeats(c.Jobs); err != nil {
		return err
	}
	if c.JSON {
		return c.runJSON(s)
	}
	var worst error
	for _, name := range c.Jobs {
		if err := c.one(s, name); err != nil {
			if err.Error() != "" {
				report(s, err)
			}
			worst = worse(worst, err)
		}
	}
	return worst
}

func (c checkCommand) one(s streams, name string) error {
	one, err := layJob(s, name, "", c.with(c.problemFlags))
	if err != nil {
		return err
	}
	p := one.plan
	_, err = fmt.Fprintf(s.out, "%s rev %s: %s, %s, %s; %s\n", p.Packet.Number, p.Packet.Revision,
		count(len(p.Wires), "wire"), count(len(p.Connectors), "connector"), count(len(p.Packet.Units), "unit"),
		warningsInWords(len(p.Warnings)))
	return err
}

// worse returns the error with the higher exit code, without its text, which has been printed.
func worse(a, b error) error {
	if codeOf(b) > codeOf(a) {
		return failure{code: codeOf(b)}
	}
	return a
}

func warningsInWords(n int) string {
	if n == 0 {
		return "no problems"
	}
	return count(n, "warning") + " to answer on the contents page"
}

// count prints a number with its noun.
func count(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

// refuseRepeats refuses a job that is named twice.
func refuseRepeats(jobs []string) error {
	seen := map[string]bool{}
	for _, name := range jobs {
		key := resolved(name)
		if seen[key] {
			return wrongUse(fmt.Sprintf("the job %s is given twice", name), "name each job once")
		}
		seen[key] = true
	}
	return nil
}
