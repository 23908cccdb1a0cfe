package main

import (
	"errors"
	"fmt"
	"io"

	"loomleaf/internal/job"
	"loomleaf/templates"
)

// explainCommand says what a job file may hold.
type explainCommand struct {
	Name string `arg:"" optional:"" help:"Table, or table and key: wire, wire.a.trim. Without it, all tables."`
}

// Run prints the tables, the keys of one, or everything about a key.
func (c explainCommand) Run(s streams) error {
	keys, err := loadKeys()
	if err != nil {
		return err
	}
	text, found := keys.Explain(c.Name)
	if !found {
		hint := `"loomleaf explain" lists the tables`
		if near := keys.NearestName(c.Name); near != "" {
			hint = "did you mean " + near + "? else " + hint
		}
		return wrongUse(fmt.Sprintf("a job has no table or key %q", c.Name), hint)
	}
	_, err = io.WriteString(s.out, text)
	return err
}

// loadKeys reads the registry that comes with the program; a test keeps it free of faults.
func loadKeys() (job.Keys, error) {
	keys, found := job.LoadKeys(templates.Files)
	if len(found) > 0 {
		return job.Keys{}, errors.New("the registry of keys cannot be read: " + found[0].Text)
	}
	return keys, nil
}
