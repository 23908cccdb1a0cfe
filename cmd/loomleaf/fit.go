package main

import (
	"fmt"
	"io"
	"path/filepath"

	"loomleaf/fonts"
	"loomleaf/internal/page"
	"loomleaf/internal/pdf"
	"loomleaf/internal/plan"
	"loomleaf/internal/sheet"
)

// fitCommand writes the sheet that shows how labels land.
type fitCommand struct {
	Job string `arg:"" help:"Job file whose label stock and [label_printer] hold; - reads standard input."`
	Out string `short:"o" default:"." help:"Folder to write to; it is made where it is missing."`
	paperFlag
	templatesFlag
	problemFlags
}

// Run writes the sheet or nothing.
func (c fitCommand) Run(s streams) error {
	h, _, text, err := readJob(s, c.Job, c.with(c.problemFlags))
	if err != nil {
		return err
	}
	if c.Paper != "" {
		h.Paper.Size = c.Paper
	}
	paper, found := plan.PaperOf(h)
	doc := page.Document{}
	if found.Errors() == 0 {
		doc, found = sheet.Fit(paper, s.metrics)
		found = append(found, page.Check(doc, s.metrics)...)
	}
	if found.Errors() > 0 {
		if err := c.print(s, found, text); err != nil {
			return err
		}
		return problemsFound()
	}
	write := output{doc.Name, func(w io.Writer) error { return pdf.Write(w, doc, fonts.Files) }}
	if err := writeAll(realDisk{}, c.Out, []output{write}); err != nil {
		return err
	}
	_, err = fmt.Fprintf(s.out, "%s  %s\n", filepath.Join(c.Out, doc.Name), count(len(doc.Pages), "page"))
	return err
}
