package job

import (
	"fmt"
	"io/fs"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/words"
)

// Words returns the words of the paper in a language, from the file of that name among the templates.
func Words(templates fs.FS, language string) (words.Words, error) {
	name := "words/" + language + ".toml"
	text, err := fs.ReadFile(templates, name)
	if err != nil {
		return words.Words{}, fmt.Errorf("words: %w", err)
	}
	tree, found := load(name+" (built in)", text, problem.Sources{})
	if found.Errors() > 0 {
		return words.Words{}, fmt.Errorf("words: %s", found[0].Text)
	}
	texts := map[string]string{}
	gatherWords("", tree, func(key string, v *value) { texts[key] = v.text })
	return words.New(language, texts), nil
}

// gatherWords hands every value of a tree over with its key, tables and keys joined by dots.
func gatherWords(prefix string, tree *value, take func(key string, v *value)) {
	for _, e := range tree.keys {
		if e.value.kind == kindTable {
			gatherWords(prefix+e.name+".", e.value, take)
			continue
		}
		take(prefix+e.name, e.value)
	}
}

// speak fills in the words of each language of the paper, the shop's own in their place.
func speak(paper *harness.Paper, templates fs.FS, own ownTexts) problem.List {
	var found problem.List
	for _, language := range paper.Languages {
		spoken, err := Words(templates, language)
		if err != nil {
			return problem.List{fault(includeMissing, problem.Place{File: "words/" + language + ".toml (built in)"}, "%s", err)}
		}
		if tree := own.words[language]; tree != nil {
			var more problem.List
			spoken, more = ownWords(spoken, tree)
			found = append(found, more...)
		}
		paper.Words = append(paper.Words, spoken)
	}
	return found
}
