package job

import (
	"fmt"
	"io/fs"

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
	gatherWords("", tree, texts)
	return words.New(language, texts), nil
}

// gatherWords puts every text of a tree under its key, tables and keys joined by dots.
func gatherWords(prefix string, tree *value, texts map[string]string) {
	for _, e := range tree.keys {
		switch e.value.kind {
		case kindTable:
			gatherWords(prefix+e.name+".", e.value, texts)
		case kindText:
			texts[prefix+e.name] = e.value.text
		}
	}
}
