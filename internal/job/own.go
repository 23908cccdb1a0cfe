package job

import (
	"io/fs"
	"path"
	"slices"
	"strings"

	"loomleaf/internal/problem"
	"loomleaf/internal/words"
)

// ownTexts are the trees of the shop's own words, by language, and of its own safety pages.
type ownTexts struct {
	words  map[string]*value
	safety []*value
}

// OwnFiles lists what a folder of own texts may hold.
func OwnFiles() []string {
	return []string{"safety.de.toml", "safety.en.toml", "words.de.toml", "words.en.toml"}
}

// OwnTemplate returns the name of the template that an own file takes the place of.
func OwnTemplate(name string) string { return strings.Replace(name, "words.", "words/", 1) }

// loadOwn reads the shop's folder of own texts. A file that nothing reads is an error: its texts would not reach the paper.
func loadOwn(in Input, sources problem.Sources) (ownTexts, problem.List) {
	own := ownTexts{words: map[string]*value{}}
	if in.Own == nil {
		return own, nil
	}
	var found problem.List
	err := fs.WalkDir(in.Own, ".", func(file string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		found = append(found, own.load(in, file, sources)...)
		return nil
	})
	if err != nil {
		found = append(found, fault(includeMissing, problem.Place{File: in.OwnName}, "the folder of your own texts cannot be read"))
	}
	return own, found
}

func (o *ownTexts) load(in Input, file string, sources problem.Sources) problem.List {
	name := path.Join(in.OwnName, file)
	if !slices.Contains(OwnFiles(), file) {
		return problem.List{about(fault(unknownTemplate, problem.Place{File: name}, "no file of that name is read from a folder of own texts"), "",
			"the files are "+strings.Join(OwnFiles(), ", ")+`; "loomleaf new --templates DIR" writes them`)}
	}
	text, err := fs.ReadFile(in.Own, file)
	if err != nil {
		return problem.List{fault(includeMissing, problem.Place{File: name}, "the file cannot be read")}
	}
	tree, found := load(name, text, sources)
	if found != nil {
		return found
	}
	if in.Printable != nil {
		found = tree.unprintables(in.Printable)
	}
	if language, is := strings.CutPrefix(file, "words."); is {
		o.words[strings.TrimSuffix(language, ".toml")] = tree
		return found
	}
	o.safety = append(o.safety, tree)
	return found
}

// ownWords returns the words of a language with the shop's own in their place. Each key is one of the language, and each text
// holds the fields of the one that it replaces: a figure must not get lost.
func ownWords(built words.Words, tree *value) (words.Words, problem.List) {
	own := map[string]string{}
	claims := &reader{unread: map[string]bool{}}
	claims.refuseClaims(tree)
	found := claims.found
	known := newSpeller(built.Keys())
	gatherWords("", tree, func(key string, v *value) {
		text, has := built.Text(key)
		switch {
		case !has:
			found = append(found, about(fault(unknownWord, v.place(), "there are no words %s", quoted(key)), "",
				known.hint(key, `take it out; "loomleaf new --templates DIR" writes them all`)))
		case v.kind != kindText || strings.TrimSpace(v.text) == "":
			found = append(found, about(fault(emptyValue, v.place(), "the words %s are no text", quoted(key)), "", "write a text in quotes, or take the key out"))
		case !slices.Equal(words.Fields(v.text), words.Fields(text)):
			found = append(found, about(fault(wordFields, v.place(), "the words %s hold %s in place of %s", quoted(key), fieldList(v.text), fieldList(text)), "",
				"write each field of the built-in text once: "+quoted(text)))
		case v.text != text:
			own[key] = v.text
		}
	})
	return built.With(own), found
}

// fieldList names the fields of a text.
func fieldList(text string) string {
	fields := words.Fields(text)
	if len(fields) == 0 {
		return "no field"
	}
	return "{" + strings.Join(fields, "}, {") + "}"
}
