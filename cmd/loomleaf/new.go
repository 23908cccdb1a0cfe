package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"

	"loomleaf/templates"
)

// newCommand writes the starter job.
type newCommand struct {
	File string `arg:"" optional:"" default:"job.toml" help:"Job file to write; - prints it."`
}

// Run writes the file, and never over one that is there.
func (c newCommand) Run(s streams) error {
	text, err := templates.Files.ReadFile("starter.toml")
	if err != nil {
		return err
	}
	if c.File == "-" {
		_, err := s.out.Write(text)
		return err
	}
	if err := writeNew(c.File, text); err != nil {
		return err
	}
	_, err = fmt.Fprintf(s.out, "wrote %s; next: loomleaf packet %s\n", c.File, c.File)
	return err
}

func writeNew(name string, text []byte) error {
	file, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if errors.Is(err, fs.ErrExist) {
		return noAccess(name+" is there already; nothing was written", "name another file")
	}
	if err != nil {
		return noAccess(fmt.Sprintf("could not write %s: %s", name, cause(err)), "name a file in a folder that exists")
	}
	_, err = file.Write(text)
	if closing := file.Close(); err == nil {
		err = closing
	}
	if err != nil {
		_ = os.Remove(name) // half a file is worse than none
		return noAccess(fmt.Sprintf("could not write %s: %s; nothing was written", name, cause(err)), "")
	}
	return nil
}
