package main

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"maps"
	"path/filepath"
	"slices"
	"strings"

	"loomleaf/fonts"
	"loomleaf/internal/page"
	"loomleaf/internal/pdf"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
	"loomleaf/internal/sheet"
)

// paperFlag chooses the paper.
type paperFlag struct {
	Paper string `enum:",a4,letter" default:"" help:"Paper of the sheets: a4 or letter. The job or its shop file decides where the flag is missing."`
}

// packetCommand writes packets.
type packetCommand struct {
	Jobs []string `arg:"" name:"job" help:"Job files; - reads standard input."`
	Out  string   `short:"o" default:"." help:"Folder to write to; it is made where it is missing."`
	Only []string `help:"Sheets to print, separated by commas: ${sheets}. Pages keep the numbers of the full packet."`
	Each bool     `help:"Write one PDF for each kind of sheet instead of one for all; labels have their own in any case."`
	draftFlag
	paperFlag
	labelFlags
	templatesFlag
	problemFlags
}

// labelFlags say which labels of the first sheet are still there.
type labelFlags struct {
	StartLabel int   `default:"1" placeholder:"N" help:"First label of the first sheet to print on, counted along the rows as the fit sheet numbers them."`
	SkipLabels []int `placeholder:"N,N" help:"Labels of the first sheet that are gone."`
}

// check refuses labels that the stock does not have.
func (l labelFlags) check(stock plan.Stock) error {
	each, free := stock.Columns*stock.Rows, 0
	for _, n := range append([]int{l.StartLabel}, l.SkipLabels...) {
		if n < 1 || n > each {
			return wrongUse(fmt.Sprintf("label stock %s has no label %d", stock.ID, n), fmt.Sprintf("its labels are 1 to %d", each))
		}
	}
	for n := l.StartLabel; n <= each; n++ {
		if !slices.Contains(l.SkipLabels, n) {
			free++
		}
	}
	if free == 0 {
		return wrongUse("no label of the first sheet is left", "take a new sheet, and leave --start-label and --skip-labels out")
	}
	return nil
}

// laid is a job whose pages are ready to write.
type laid struct {
	plan   plan.Plan
	packet sheet.Packet
	read   []string // names of the files that it was read from
}

// Run reads, plans and lays every job before it writes the first file.
func (c packetCommand) Run(s streams) error {
	if err := refuseRepeats(c.Jobs); err != nil {
		return err
	}
	p := startProgress(s)
	defer p.stop()
	var all []laid
	for _, name := range c.Jobs {
		p.say("planning " + name)
		one, err := layLabels(s, name, c.Paper, c.labelFlags, c.with(c.in(c.problemFlags)))
		if err != nil {
			return err
		}
		if one.packet, err = c.pick(one.packet); err != nil {
			return err
		}
		all = append(all, one)
	}
	outputs, err := c.outputs(all, p)
	if err != nil {
		return err
	}
	for _, one := range all {
		if err := refuseOverwriting(c.Out, outputs, one.read); err != nil {
			return err
		}
	}
	if err := writeAll(realDisk{}, c.Out, outputs); err != nil {
		return err
	}
	p.stop()
	return c.say(s, all)
}

// layJob reads, checks, plans and lays one job, its labels on whole sheets. One that is not ready for release is laid as well, so
// that what does not fit the sheets is said with the rest.
func layJob(s streams, name, paper string, flags problemFlags) (laid, error) {
	return layLabels(s, name, paper, labelFlags{StartLabel: 1}, flags)
}

// layLabels is layJob for sheets of labels that are partly used.
func layLabels(s streams, name, paper string, labels labelFlags, flags problemFlags) (laid, error) {
	p, text, err := planJob(s, name, paper, flags)
	if err != nil && !isUnreleased(err) {
		return laid{}, err
	}
	if err := labels.check(p.Paper.Labels); err != nil {
		return laid{}, err
	}
	p.Paper.Print.Start, p.Paper.Print.Skip = labels.StartLabel, labels.SkipLabels
	packet, found := sheet.Lay(p, s.metrics)
	if found.Errors() == 0 {
		found = append(found, faults(packet, s.metrics)...) // what was refused is missing on its page
	}
	if found.Errors() > 0 {
		if err := flags.print(s, found, text); err != nil {
			return laid{}, err
		}
		return laid{}, cmp.Or(err, problemsFound())
	}
	return laid{plan: p, packet: packet, read: slices.Sorted(maps.Keys(text))}, err
}

func isUnreleased(err error) bool {
	var f failure
	return errors.As(err, &f) && f.unreleased
}

// faults checks the pages as they will be drawn.
func faults(packet sheet.Packet, metrics page.Metrics) problem.List {
	found := page.Check(packet.Pages, metrics)
	if len(packet.Labels.Pages) > 0 {
		found = append(found, page.Check(packet.Labels, metrics)...)
	}
	return found
}

// pick keeps the sheets asked for and names the files after them, so that they never replace a whole packet.
func (c packetCommand) pick(packet sheet.Packet) (sheet.Packet, error) {
	picked, unknown := sheet.Pick(packet, c.Only)
	if len(unknown) > 0 {
		return sheet.Packet{}, wrongUse(unknown[0].Text, unknown[0].Hint)
	}
	if len(picked.Pages.Pages)+len(picked.Labels.Pages) == 0 {
		return sheet.Packet{}, wrongUse(fmt.Sprintf("%s has no page of the sheets %s", packet.Pages.Title, strings.Join(c.Only, ", ")),
			"ask for other sheets")
	}
	if len(c.Only) > 0 && !c.Each {
		picked.Pages.Name = onlyName(picked.Pages.Name, c.Only...)
	}
	return picked, nil
}

// onlyName names a file of some sheets after the file of all.
func onlyName(whole string, sheets ...string) string {
	name := strings.TrimSuffix(whole, ".pdf")
	kind := name[strings.LastIndex(name, "."):] // ".packet" or ".draft"
	return strings.TrimSuffix(name, kind) + ".only-" + strings.Join(sheets, "-") + kind + ".pdf"
}

// outputs lists the files of all jobs; two jobs that would write the same file are refused.
func (c packetCommand) outputs(all []laid, p *progress) ([]output, error) {
	var outputs []output
	seen := map[string]bool{}
	for _, one := range all {
		for _, o := range one.outputs(c.documents(one.packet), p) {
			if key := strings.ToLower(o.name); seen[key] {
				return nil, wrongUse(fmt.Sprintf("two of the jobs would write %s", o.name),
					"give each job its own number or revision, or write them to different folders")
			} else {
				seen[key] = true
			}
			outputs = append(outputs, o)
		}
	}
	return outputs, nil
}

// documents lists what is written of a packet: its pages in one file or one for each kind of sheet, and its labels.
func (c packetCommand) documents(packet sheet.Packet) []page.Document {
	documents := []page.Document{packet.Pages}
	if c.Each {
		documents = sheet.Each(packet.Pages)
		for i := range documents {
			documents[i].Name = onlyName(packet.Pages.Name, documents[i].Pages[0].Sheet)
		}
	}
	return slices.DeleteFunc(append(documents, packet.Labels), func(d page.Document) bool { return len(d.Pages) == 0 })
}

func (l laid) outputs(documents []page.Document, p *progress) []output {
	var outputs []output
	for _, document := range documents {
		outputs = append(outputs, output{document.Name, func(w io.Writer) error {
			p.say("drawing " + document.Name)
			return pdf.Write(w, document, fonts.Files)
		}})
	}
	if l.plan.Packet.Draft {
		return outputs // nothing of a draft can be scanned
	}
	return append(outputs, output{codesName(l.plan), func(w io.Writer) error {
		return plan.WriteCodes(w, l.codes())
	}}, output{planName(l.plan), func(w io.Writer) error {
		text, err := l.plan.JSON()
		if err != nil {
			return err
		}
		_, err = w.Write(text)
		return err
	}})
}

// codes returns every code of the packet: the plan's and the pages'.
func (l laid) codes() []plan.CodeRow {
	return append(l.plan.CodeRows(), l.packet.Codes...)
}

func codesName(p plan.Plan) string {
	return p.Packet.Number + "-" + p.Packet.Revision + ".codes.csv"
}

func planName(p plan.Plan) string {
	return p.Packet.Number + "-" + p.Packet.Revision + ".plan.json"
}

// say tells the planner what was written.
func (c packetCommand) say(s streams, all []laid) error {
	var b bytes.Buffer
	for _, one := range all {
		for _, document := range c.documents(one.packet) {
			fmt.Fprintf(&b, "%s  %s\n", filepath.Join(c.Out, document.Name), count(len(document.Pages), "page"))
		}
		if one.plan.Packet.Draft {
			fmt.Fprintf(&b, "a draft of %s: nobody may build from it; no codes, no labels\n", one.plan.Packet.Number)
			continue
		}
		fmt.Fprintf(&b, "%s  %s\n", filepath.Join(c.Out, codesName(one.plan)), count(len(one.codes()), "code"))
		fmt.Fprintf(&b, "%s  the plan as data\n", filepath.Join(c.Out, planName(one.plan)))
	}
	_, err := s.out.Write(b.Bytes())
	return err
}

// resolved returns one spelling for every way to name a file.
func resolved(name string) string {
	if name == "-" {
		return name
	}
	if path, err := filepath.Abs(name); err == nil {
		name = path
	}
	if path, err := filepath.EvalSymlinks(name); err == nil {
		name = path
	}
	return name
}

// pagesCommand prints the text dump.
type pagesCommand struct {
	Job string `arg:"" help:"Job file; - reads standard input."`
	draftFlag
	paperFlag
	templatesFlag
	problemFlags
}

// Run prints packet and labels.
func (c pagesCommand) Run(s streams) error {
	one, err := layJob(s, c.Job, c.Paper, c.with(c.in(c.problemFlags)))
	if err != nil {
		return err
	}
	for _, document := range []page.Document{one.packet.Pages, one.packet.Labels} {
		if len(document.Pages) == 0 {
			continue // a draft has no labels
		}
		if err := page.Dump(s.out, document); err != nil {
			return err
		}
	}
	return nil
}
