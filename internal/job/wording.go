package job

import (
	"slices"

	"loomleaf/internal/handbook"
	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
)

// Whens lists what a job may do that a hazard or a blank of the safety page hangs on.
func Whens() []string {
	return []string{"always", "marking", "ink", "laser", "fluoropolymer", "ozone", "mercury", "high potential"}
}

// loadWordings reads the wording files that the shop names in place of those that come with the program.
func loadWordings(in Input, merged *value, sources problem.Sources) ([]*value, problem.List) {
	safety := merged.find("safety")
	if safety == nil || safety.value.kind != kindTable {
		return nil, nil
	}
	e := safety.value.find("wording")
	if e == nil || e.value.kind != kindArray || len(e.value.items) == 0 {
		return nil, nil
	}
	if in.Open == nil {
		return nil, problem.List{about(fault(includeImpossible, e.place(), "a job from %s cannot name wording files", in.Name),
			"", "name the job file instead")}
	}
	var trees []*value
	var found problem.List
	for _, item := range e.value.items {
		path, faulty := includedPath(in, item)
		if faulty != nil {
			found = append(found, *faulty)
			continue
		}
		tree, more := loadOne(in, path, item.place(), sources)
		trees, found = append(trees, tree), append(found, more...)
	}
	if found.Errors() > 0 {
		return nil, found
	}
	return trees, nil
}

// wordings fills in the wording of each language of the job. A file of the shop replaces the text that comes with the
// program, but not who decides: to that it can only add.
func (r *reader) wordings(h *harness.Harness, built [2]*value, own []*value) {
	texts := map[string]harness.Wording{}
	for _, tree := range built {
		w := r.wording(tree)
		texts[w.Language] = w
	}
	for _, tree := range own {
		w := r.wording(tree)
		w.Deference = append(slices.Clone(texts[w.Language].Deference), w.Deference...)
		texts[w.Language] = w
	}
	for _, language := range h.Paper.Languages {
		h.Safety.Wordings = append(h.Safety.Wordings, texts[language])
	}
	if len(h.Safety.Wordings) == 0 { // the key was at fault, and is reported
		h.Safety.Wordings = []harness.Wording{texts["en"]}
	}
}

// wording reads the text of the safety page in one language.
func (r *reader) wording(tree *value) harness.Wording {
	t := r.open("wording", tree)
	t.require("language", "deference", "words", "blank", "block")
	w := harness.Wording{Language: t.word("language", "en", "de"), Deference: t.texts("deference", t.filled("deference"))}
	if words := t.inner("words"); words != nil {
		words.require("title", "short", "heading", "ask", "read", "name", "danger", "warning", "caution", "notice")
		w.Title, w.Short, w.Heading = words.text("title"), words.text("short"), words.text("heading")
		w.Ask, w.Read, w.Name = words.text("ask"), words.text("read"), words.text("name")
		w.Signals = [4]string{words.text("danger"), words.text("warning"), words.text("caution"), words.text("notice")}
		words.done()
	}
	for _, b := range t.list("blank") {
		b.require("what", "label", "when")
		w.Blanks = append(w.Blanks, harness.Blank{What: b.text("what"), Label: b.text("label"), When: b.word("when", Whens()...)})
		b.done()
	}
	for _, b := range t.list("block") {
		w.Blocks = append(w.Blocks, readBlock(b.separate()))
	}
	t.done()
	return w
}

// readBlock reads one hazard. A sign that is not registered would mean nothing to anybody.
func readBlock(b *table) harness.SafetyBlock {
	b.require("when", "signal", "title", "lines")
	block := harness.SafetyBlock{When: b.word("when", Whens()...), Signal: b.word("signal", "DANGER", "WARNING", "CAUTION", "NOTICE"),
		Title: b.text("title"), Count: b.text("count"), Lines: b.texts("lines", b.filled("lines"))}
	for i, number := range b.texts("signs", b.array("signs")) {
		if _, listed := handbook.SignOf(number); !listed {
			b.fault(unknownSign, "signs", b.origin.Of(elementKey(b.prefix+"signs", i)), "write a number of ISO 7010, such as W004 or M004",
				"%s is no sign that is listed here", quoted(number))
			continue
		}
		block.Signs = append(block.Signs, number)
	}
	b.done()
	return block
}
