package job

import (
	"io/fs"

	"loomleaf/internal/problem"
)

// templateTrees are the files that come with the program.
type templateTrees struct {
	shop, labels *value
	safety       [2]*value // English and German
}

// loadTemplates reads the default shop file, the label stocks and the wording of the safety page.
func loadTemplates(templates fs.FS, sources problem.Sources) (templateTrees, problem.List) {
	var built templateTrees
	var found problem.List
	for _, part := range []struct {
		name string
		tree **value
	}{{"shop.toml", &built.shop}, {"labels.toml", &built.labels}, {"safety.en.toml", &built.safety[0]}, {"safety.de.toml", &built.safety[1]}} {
		name := part.name + " (built in)"
		text, err := fs.ReadFile(templates, part.name)
		if err != nil {
			found = append(found, fault(includeMissing, problem.Place{File: name}, "the file cannot be read"))
			continue
		}
		tree, more := load(name, text, sources)
		*part.tree, found = tree, append(found, more...)
	}
	return built, found
}
