package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"

	"loomleaf/internal/harness"
	"loomleaf/internal/job"
	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
	"loomleaf/templates"
)

// fileLimit is more than any job; it keeps a device or a wrong file from filling the memory.
const fileLimit = 64 << 20

// besideLimit is the same for a file that the job names: it may be an earlier plan, and one byte more shows that it is too large.
const besideLimit = job.KeptLimit + 1

// problemFlags are the flags of every command that reads jobs.
type problemFlags struct {
	All bool `help:"Print every problem, however many there are."`

	draft bool          // what is missing for release stops nothing
	own   string        // folder of the shop's own texts
	sink  *problem.List // takes the problems in place of standard error, where it is set
}

// templatesFlag names the shop's own texts.
type templatesFlag struct {
	Templates string `placeholder:"DIR" help:"Folder of your own words and safety pages, in place of those that come with the program; \"loomleaf new --templates DIR\" writes them to start from."`
}

// with returns the flags of a command that prints in the shop's own words.
func (t templatesFlag) with(flags problemFlags) problemFlags {
	flags.own = t.Templates
	return flags
}

// draftFlag asks for a draft.
type draftFlag struct {
	Draft bool `help:"Make a draft nobody may build from, where the job is not ready for release: no codes, no labels."`
}

// in returns the flags of a command that may make a draft.
func (d draftFlag) in(flags problemFlags) problemFlags {
	flags.draft = d.Draft
	return flags
}

// notReleased returns the error of a job from which nothing but a draft can be made, once its problems are printed; nil where
// it is ready or a draft is asked for.
func notReleased(found problem.List, draft bool) error {
	if draft || found.Releases() == 0 {
		return nil
	}
	return failure{code: exitProblems, text: "the job is not ready for release: " + count(found.Releases(), "thing") + " to be settled",
		hint: "--draft prints a draft nobody may build from", unreleased: true}
}

const problemsShown = 20

// print prints problems to standard error, in the order of the file.
func (p problemFlags) print(s streams, found problem.List, text problem.Sources) error {
	if p.sink != nil {
		*p.sink = append(*p.sink, found...)
		return nil
	}
	options := problem.Options{Most: problemsShown, Colour: s.colour}
	if p.All {
		options.Most = 0
	}
	return problem.Print(s.err, found, text, options)
}

// readJob reads and checks one job, and prints what is wrong with it.
func readJob(s streams, name string, flags problemFlags) (*harness.Harness, problem.List, problem.Sources, error) {
	in, err := jobInput(s, name)
	if err != nil {
		return nil, nil, nil, err
	}
	in.Printable = s.printable
	if in.Own, err = ownTexts(flags.own); err != nil {
		return nil, nil, nil, err
	}
	in.OwnName = filepath.ToSlash(flags.own)
	h, found, text := job.Read(in, templates.Files)
	if found.Errors() > 0 {
		if err := flags.print(s, found, text); err != nil {
			return nil, nil, nil, err
		}
		return nil, nil, nil, problemsFound()
	}
	return h, found, text, nil
}

// ownTexts opens the folder of the shop's own texts; nil where none is named.
func ownTexts(folder string) (fs.FS, error) {
	if folder == "" {
		return nil, nil
	}
	if info, err := os.Stat(folder); err != nil || !info.IsDir() {
		return nil, noAccess(fmt.Sprintf("%s is no folder of your own texts", folder), `"loomleaf new --templates `+folder+`" writes one to start from`)
	}
	return os.DirFS(folder), nil
}

// printable says whether every face has the character: any text may come to stand in any of them.
func (s streams) printable(r rune) bool {
	for _, face := range page.Faces() {
		if _, missing := s.metrics.Missing(face, string(r)); missing {
			return false
		}
	}
	return true
}

// planJob reads, checks and plans one job; warnings are printed, errors end it, and so does what is missing for release unless a
// draft is asked for. The plan is valid in that last case too.
func planJob(s streams, name, paper string, flags problemFlags) (plan.Plan, problem.Sources, error) {
	_, p, text, err := planHarness(s, name, paper, flags)
	return p, text, err
}

// planHarness is planJob with the harness that the plan was made of.
func planHarness(s streams, name, paper string, flags problemFlags) (*harness.Harness, plan.Plan, problem.Sources, error) {
	h, found, text, err := readJob(s, name, flags)
	if err != nil {
		return nil, plan.Plan{}, nil, err
	}
	if paper != "" {
		h.Paper.Size = paper
	}
	h.Draft = flags.draft
	p, more := plan.Make(h, found)
	found = append(found, more...)
	if err := flags.print(s, found, text); err != nil {
		return nil, plan.Plan{}, nil, err
	}
	if found.Errors() > 0 {
		return nil, plan.Plan{}, nil, problemsFound()
	}
	return h, p, text, notReleased(found, flags.draft)
}

// jobInput opens a job file, or standard input for "-".
func jobInput(s streams, name string) (job.Input, error) {
	if name == "-" {
		text, err := io.ReadAll(io.LimitReader(s.in, fileLimit))
		if err != nil {
			return job.Input{}, noAccess("could not read standard input: "+cause(err), "")
		}
		return job.Input{Name: "standard input", Text: text}, nil
	}
	text, err := readFile(name)
	if err != nil {
		return job.Input{}, noAccess(fmt.Sprintf("could not read %s: %s", name, cause(err)),
			`name a job file; "loomleaf new job.toml" writes one to start from`)
	}
	return job.Input{Name: filepath.ToSlash(name), Text: text, Open: opener(filepath.Dir(name))}, nil
}

// opener reads included files; a root keeps links from leading out of the job's folder.
func opener(folder string) func(string) ([]byte, error) {
	return func(path string) ([]byte, error) {
		root, err := os.OpenRoot(folder)
		if err != nil {
			return nil, err
		}
		defer root.Close()
		file, err := root.OpenFile(filepath.FromSlash(path), openAtOnce, 0)
		if err != nil {
			return nil, err
		}
		defer file.Close()
		return readRegular(file, besideLimit)
	}
}

// openAtOnce keeps a named pipe without a writer from holding up the command: it is opened, seen to be no file, and refused.
const openAtOnce = os.O_RDONLY | syscall.O_NONBLOCK

func readFile(name string) ([]byte, error) {
	file, err := os.OpenFile(name, openAtOnce, 0)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	return readRegular(file, fileLimit)
}

// readRegular refuses folders and devices, and stops at a limit in bytes.
func readRegular(file *os.File, limit int64) ([]byte, error) {
	info, err := file.Stat()
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, errors.New("it is not a file of text")
	}
	return io.ReadAll(io.LimitReader(file, limit))
}

// cause returns what went wrong without the name of the call and the path around it.
func cause(err error) string {
	var pathError *fs.PathError
	if errors.As(err, &pathError) {
		err = pathError.Err
	}
	var linkError *os.LinkError
	if errors.As(err, &linkError) {
		err = linkError.Err
	}
	return strings.TrimSpace(err.Error())
}
