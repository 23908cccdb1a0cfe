package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"

	"loomleaf/internal/job"
	"loomleaf/templates"
)

// newCommand writes the starter job.
type newCommand struct {
	File      string `arg:"" optional:"" default:"job.toml" help:"Job file to write; - prints it."`
	Templates string `placeholder:"DIR" help:"Write no job but the words and safety pages that come with the program, to be changed and named with --templates."`
}

// Run writes the file, and never over one that is there.
func (c newCommand) Run(s streams) error {
	if c.Templates != "" {
		return writeTexts(s, c.Templates)
	}
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

// writeTexts writes the texts of the paper into a folder that is not there yet.
func writeTexts(s streams, folder string) error {
	if _, err := os.Lstat(folder); !errors.Is(err, fs.ErrNotExist) {
		return noAccess(folder+" is there already; nothing was written", "name a folder that is not there")
	}
	var files []output
	for _, name := range job.OwnFiles() {
		text, err := templates.Files.ReadFile(job.OwnTemplate(name))
		if err != nil {
			return err
		}
		files = append(files, output{name, func(w io.Writer) error {
			_, err := w.Write(text)
			return err
		}})
	}
	if err := writeAll(realDisk{}, folder, files); err != nil {
		return err
	}
	_, err := fmt.Fprintf(s.out, "wrote %s; take out what you do not change, then: loomleaf packet job.toml --templates %s\n", folder, folder)
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
