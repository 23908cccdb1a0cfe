package job

import (
	"io/fs"

	"loomleaf/internal/harness"
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

// stocks reads the label stocks.
func (r *reader) stocks(h *harness.Harness, labels *value) {
	const most = 100 // columns or rows of a sheet
	r.each(labels, tableReader{name: "stock", repeats: true}, func(t *table) {
		id := t.named("id")
		t.require("id", "paper", "columns", "rows", "width", "height", "left", "top", "pitch")
		s := harness.LabelStock{ID: id, Paper: t.word("paper", "a4", "letter")}
		s.Columns, _ = t.whole("columns", 1, most)
		s.Rows, _ = t.whole("rows", 1, most)
		s.Width, s.Height = t.length("width", positive), t.length("height", positive)
		s.Left, s.Top = t.length("left", notNegative), t.length("top", notNegative)
		if pitch := t.lengths("pitch", 2, positive); pitch != nil {
			s.PitchX, s.PitchY = pitch[0], pitch[1]
		}
		t.done()
		h.Stocks = append(h.Stocks, s)
	})
}
