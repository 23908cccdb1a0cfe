package job

import (
	"io/fs"
	"path"
	"strings"

	"loomleaf/internal/problem"
)

// loadIncluded returns the trees of the files that a job includes, in the order listed.
func loadIncluded(in Input, root *value, sources problem.Sources) ([]*value, problem.List) {
	e := root.find("include")
	if e == nil {
		return nil, nil
	}
	paths, found := includedPaths(in, e)
	if found != nil {
		return nil, found
	}
	if in.Open == nil && len(paths) > 0 {
		return nil, problem.List{about(fault(includeImpossible, e.place(), "a job from %s cannot include files", in.Name),
			"", "name the job file instead, or write everything into it")}
	}
	var trees []*value
	for at, item := range paths {
		tree, more := loadOne(in, item, e.value.items[at].place(), sources)
		trees, found = append(trees, tree), append(found, more...)
	}
	return trees, found
}

// includedPaths returns the clean paths of the list, all inside the job's folder and each once.
func includedPaths(in Input, e *entry) ([]string, problem.List) {
	if e.value.kind != kindArray {
		return nil, problem.List{about(fault(wrongKind, e.place(), "include is no list of paths"), "", `write include = ["shop.toml"]`)}
	}
	var paths []string
	var found problem.List
	first := map[string]problem.Place{}
	for _, item := range e.value.items {
		place := item.place()
		cleaned, faulty := includedPath(in, item)
		paths = append(paths, cleaned)
		if faulty != nil {
			found = append(found, *faulty)
			continue
		}
		if other, doubled := first[cleaned]; doubled {
			found = append(found, with(fault(doubledInclude, place, "file %s is included twice", quoted(cleaned)), other, "it is included here already"))
		}
		first[cleaned] = place
	}
	return paths, found
}

func includedPath(in Input, item *value) (string, *problem.Problem) {
	if item.kind != kindText {
		p := about(fault(wrongKind, item.place(), "an included file is named by a text"), "", `write include = ["shop.toml"]`)
		return "", &p
	}
	cleaned := path.Clean(item.text)
	switch {
	case !fs.ValidPath(cleaned) || cleaned == "." || strings.ContainsAny(item.text, `\:`) || strings.HasSuffix(item.text, "/"):
		p := about(fault(includePath, item.place(), "path %s does not name a file in the job's folder", quoted(item.text)), "",
			`write the path from the job's folder down, with forward slashes, such as "shop.toml" or "parts/contacts.toml"`)
		return "", &p
	case cleaned == path.Base(in.Name):
		p := about(fault(includeLoop, item.place(), "the job includes itself"), "", "take the path out of the list")
		return "", &p
	}
	return cleaned, nil
}

// beside returns the name in messages of a file in the job's folder.
func beside(in Input, relative string) string { return path.Join(path.Dir(in.Name), relative) }

// loadOne reads an included file. Its name in messages is its path beside the job.
func loadOne(in Input, relative string, listed problem.Place, sources problem.Sources) (*value, problem.List) {
	name := beside(in, relative)
	text, err := in.Open(relative)
	if err != nil {
		return nil, problem.List{about(fault(includeMissing, listed, "included file %s cannot be read", quoted(relative)), "",
			"check that the file stands in the job's folder and may be read")}
	}
	tree, found := load(name, text, sources)
	if found != nil {
		return nil, found
	}
	if e := tree.find("include"); e != nil {
		return nil, problem.List{with(about(fault(includeNested, tree.file.place(e.at), "an included file includes others"),
			"", "list all files in the job"), listed, "the file is included here")}
	}
	return tree, nil
}
