// Package job reads a job file, the files it includes and the default shop file into a checked harness.
//
// Everything wrong is collected and returned with its place: first what keeps a file from being read at all, then what
// single values get wrong together with what does not fit between them. A harness is returned only without errors.
package job

import (
	"io/fs"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
)

// Input is a job file as it comes in from outside.
type Input struct {
	Name string // as printed in messages
	Text []byte
	// Open returns an included file by its slash path relative to the job's folder; nil where nothing can be included.
	Open func(path string) ([]byte, error)
	// Printable says whether the sheets can print a character; nil where nobody is going to print.
	Printable func(r rune) bool
	// Own is the shop's folder of its own words and safety pages; nil where it has none. OwnName is how messages call it.
	Own     fs.FS
	OwnName string
}

// Read returns the harness that the job describes, or nil and at least one error. Sources holds every file read, by the
// name that places carry. Templates must hold shop.toml, labels.toml, keys.toml, the wording of the safety page and the words of the paper.
func Read(in Input, templates fs.FS) (*harness.Harness, problem.List, problem.Sources) {
	sources := problem.Sources{}
	root, found := load(in.Name, in.Text, sources)
	if found.Errors() > 0 {
		return nil, found.Sorted(), sources
	}
	included, found := loadIncluded(in, root, sources)
	built, more := loadTemplates(templates, sources)
	if found = append(found, more...); found.Errors() > 0 {
		return nil, found.Sorted(), sources
	}
	merged, found := merge(root, included, built.shop)
	found = append(found, loadWires(in, merged, templates, sources)...)
	if in.Printable != nil {
		found = append(found, merged.unprintables(in.Printable)...)
	}
	kept, more := loadKept(in, merged, sources)
	found = append(found, more...)
	own, more := loadWordings(in, merged, sources)
	found = append(found, more...)
	texts, more := loadOwn(in, sources)
	if found = append(found, more...); found.Errors() > 0 {
		return nil, found.Sorted(), sources
	}
	h, more := read(merged, built, append(own, texts.safety...))
	h.Policy.Kept = kept
	found = append(found, checkKept(h)...)
	if found = append(found, more...).Sorted(); found.Errors() > 0 {
		return nil, found, sources
	}
	h.Defaults = defaultsInForce(built.shop, merged)
	if more := speak(&h.Paper, templates, texts); more.Errors() > 0 {
		return nil, append(found, more...).Sorted(), sources
	}
	return h, found, sources
}

// ReadSafety returns the [safety] table of a job or of a shop file that stands alone; other tables are not looked at.
func ReadSafety(in Input, templates fs.FS) (harness.Safety, problem.List, problem.Sources) {
	sources := problem.Sources{}
	root, found := load(in.Name, in.Text, sources)
	if found.Errors() > 0 {
		return harness.Safety{}, found.Sorted(), sources
	}
	included, found := loadIncluded(in, root, sources)
	built, more := loadTemplates(templates, sources)
	if found = append(found, more...); found.Errors() > 0 {
		return harness.Safety{}, found.Sorted(), sources
	}
	merged, found := merge(root, included, built.shop)
	r := &reader{unread: map[string]bool{}}
	h := &harness.Harness{}
	for _, reader := range tables() {
		if reader.name == "safety" {
			r.each(merged, reader, func(t *table) { reader.read(h, t) })
		}
	}
	return h.Safety, append(found, r.found...).Sorted(), sources
}

// load checks the bytes of a file and returns its tree.
func load(name string, text []byte, sources problem.Sources) (*value, problem.List) {
	f, found := newFile(name, text)
	sources[name] = f.text
	if found == nil {
		found = f.nesting()
	}
	if found == nil {
		found = f.judge()
	}
	if found != nil {
		return nil, found
	}
	return f.tree()
}
