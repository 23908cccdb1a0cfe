package job

import (
	"bytes"
	"regexp"
	"strings"

	"loomleaf/internal/problem"
)

// doubled explains what stands twice in a file, with both places: the library names the second one only, and of a [table] in
// front of a [[table]] that is mostly the wrong one.
func (f *file) doubled(at int, text string) (p problem.Problem, known bool) {
	taken := strings.HasSuffix(text, "cannot be used as an array")
	if !taken && !strings.HasSuffix(text, "has already been defined") {
		return p, false
	}
	_, path, _ := strings.Cut(text, "'")
	path, _, _ = strings.Cut(path, "'")
	header := regexp.MustCompile(`(?m)^[ \t]*(\[\[?)[ \t]*` + regexp.QuoteMeta(path) + `[ \t]*\]`)
	start := bytes.LastIndexByte(f.text[:at], '\n') + 1
	if !header.Match(f.text[start:f.lineEnd(at)]) {
		return f.doubledKey(at, start, path)
	}
	first := header.FindSubmatchIndex(f.text[:start])
	if first == nil {
		return p, false
	}
	return f.doubledHeader(path, taken, first[2], first[3]-first[2] == 2, start), true
}

// doubledHeader explains two headers of one name. Where one is [x] and the other [[x]], the single one is at fault.
func (f *file) doubledHeader(path string, list bool, first int, firstList bool, second int) problem.Problem {
	hint := "write the header in the same way in all places"
	switch {
	case list && !firstList:
		return with(about(fault(singleTable, f.place(first), "[%s] stands for one table, and [[%s]] below for one of a list", path, path), "", hint),
			f.place(second), "the other header stands here")
	case firstList:
		return with(about(fault(singleTable, f.place(second), "[%s] stands for one table, and [[%s]] above for one of a list", path, path), "", hint),
			f.place(first), "the other header stands here")
	}
	return with(about(fault(doubledKey, f.place(second), "the table [%s] stands twice", path), "", "put all its keys into one of them"),
		f.place(first), "it stands here already")
}

// doubledKey finds where a key stood before in its table: at the start of a line, or in braces.
func (f *file) doubledKey(at, line int, path string) (p problem.Problem, known bool) {
	key := path[strings.LastIndex(path, ".")+1:]
	before := `(?m)^[ \t]*`
	if strings.TrimLeft(string(f.text[line:at]), " \t") != "" {
		before = `[{,][ \t]*`
	}
	table := max(0, bytes.LastIndex(f.text[:line], []byte("\n[")))
	found := regexp.MustCompile(before+`(`+regexp.QuoteMeta(key)+`)[ \t]*=`).FindAllSubmatchIndex(f.text[table:at], -1)
	if len(found) == 0 {
		return p, false
	}
	p = about(fault(doubledKey, f.place(at), "the key %s stands twice", path), "", "take one of the two out")
	return with(p, f.place(table+found[len(found)-1][2]), "it stands here already"), true
}

// lineEnd returns where the line of an offset ends.
func (f *file) lineEnd(at int) int {
	if end := bytes.IndexByte(f.text[at:], '\n'); end >= 0 {
		return at + end
	}
	return len(f.text)
}
