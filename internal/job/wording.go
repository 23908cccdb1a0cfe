package job

import (
	"slices"
	"strings"

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
	if e == nil {
		return nil, nil
	}
	named := namedFiles(e.value)
	if len(named) == 0 {
		return nil, nil
	}
	if in.Open == nil {
		return nil, problem.List{about(fault(includeImpossible, e.place(), "a job from %s cannot name wording files", in.Name),
			"", "name the job file instead")}
	}
	var trees []*value
	var found problem.List
	for _, item := range named {
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

// namedFiles returns the values that name the wording files: one text, or a list of them.
func namedFiles(v *value) []*value {
	switch v.kind {
	case kindText:
		return []*value{v}
	case kindArray:
		return v.items
	}
	return nil
}

// wordings fills in the wording of each language of the job. A file of the shop replaces the text that comes with the
// program; who decides, the blanks and the hazards it can only add to.
func (r *reader) wordings(h *harness.Harness, built [2]*value, own []*value) {
	texts := map[string]harness.Wording{}
	for _, tree := range built {
		w, _ := r.wording(tree)
		texts[w.Language] = w
	}
	first := map[string]problem.Place{}
	for _, tree := range own {
		r.refuseClaims(tree)
		w, t := r.wording(tree)
		at := t.origin.Of("language")
		if other, doubled := first[w.Language]; doubled {
			t.add(with(about(fault(doubledElement, at, "two wording files are in %s", quoted(w.Language)), "", "name one of them"), other, "the other one is this"), "language")
			continue
		}
		first[w.Language] = at
		if w.Language != "" && t.keeps(w, texts[w.Language]) {
			texts[w.Language] = w
		}
	}
	for _, language := range h.Paper.Languages {
		h.Safety.Wordings = append(h.Safety.Wordings, texts[language])
	}
	if len(h.Safety.Wordings) == 0 { // the key was at fault, and is reported
		h.Safety.Wordings = []harness.Wording{texts["en"]}
	}
}

// keeps reports what a wording of the shop leaves out of the one that comes with the program.
func (t *table) keeps(own, built harness.Wording) bool {
	before := len(t.found)
	lacks := func(key, hint, format string, args ...any) {
		t.fault(wordingLacks, key, t.origin.Of(key), hint, format, args...)
	}
	for i, line := range built.Deference {
		if i >= len(own.Deference) || own.Deference[i] != line {
			lacks("deference", "copy the lines that come with the program, in their order, and write your own below them", "the line %s is not where it belongs", quoted(line))
			break
		}
	}
	for _, kept := range [][3]string{{"words.short", own.Short, built.Short}, {"words.ask", own.Ask, built.Ask}} {
		if !strings.HasPrefix(kept[1], kept[2]) {
			lacks(kept[0], "begin with these words, and write your own behind them", "the words %s are not there", quoted(kept[2]))
		}
	}
	for _, blank := range built.Blanks {
		if !slices.ContainsFunc(own.Blanks, func(b harness.Blank) bool {
			return b.What == blank.What && (b.When == blank.When || b.When == "always")
		}) {
			lacks("blank", "copy it from the wording that comes with the program", "there is no blank for %s when %s", quoted(blank.What), quoted(blank.When))
		}
	}
	for _, when := range Whens() {
		if had, has := blocksWhen(built, when), blocksWhen(own, when); has < had {
			lacks("block", "a hazard can be worded in another way or added, not left out", "%d of %d hazards are there when %s", has, had, quoted(when))
		}
	}
	return len(t.found) == before
}

// blocksWhen counts the hazards that hang on a thing that a job may do.
func blocksWhen(w harness.Wording, when string) int {
	count := 0
	for _, block := range w.Blocks {
		if block.When == when {
			count++
		}
	}
	return count
}

// wording reads the text of the safety page in one language.
func (r *reader) wording(tree *value) (harness.Wording, *table) {
	t := r.open("wording", tree)
	t.require("language", "deference", "words", "sign", "blank", "block")
	w := harness.Wording{Language: t.word("language", "en", "de"), Deference: t.texts("deference", t.filled("deference"))}
	if words := t.inner("words"); words != nil {
		words.require("title", "short", "heading", "ask", "given", "copied", "read", "name", "danger", "warning", "caution", "notice")
		w.Title, w.Short, w.Heading = words.text("title"), words.text("short"), words.text("heading")
		w.Ask, w.Given, w.Copied = words.text("ask"), words.text("given"), words.text("copied")
		w.Read, w.Name = words.text("read"), words.text("name")
		w.Signals = [4]string{words.text("danger"), words.text("warning"), words.text("caution"), words.text("notice")}
		words.done()
	}
	for _, b := range t.list("sign") {
		w.Signs = append(w.Signs, readSignTitle(b))
	}
	for _, b := range t.list("blank") {
		b.require("what", "label", "when")
		w.Blanks = append(w.Blanks, harness.Blank{What: b.text("what"), Label: b.text("label"), When: b.word("when", Whens()...)})
		b.done()
	}
	for _, b := range t.list("block") {
		w.Blocks = append(w.Blocks, readBlock(b.separate(), w.Signs))
	}
	t.done()
	return w, t
}

// readSignTitle reads what a sign says. A sign that is not registered would mean nothing to anybody.
func readSignTitle(t *table) harness.SignTitle {
	t.require("number", "title")
	s := harness.SignTitle{Number: t.text("number"), Title: t.text("title")}
	if _, listed := handbook.SignOf(s.Number); s.Number != "" && !listed {
		t.fault(unknownSign, "number", t.origin.Of(t.prefix+"number"), signHint, "%s is no sign that is listed here", quoted(s.Number))
	}
	t.done()
	return s
}

const signHint = "write a number of ISO 7010, such as W004 or M004"

// readBlock reads one hazard. Its signs are among those that the file has titles for.
func readBlock(b *table, titles []harness.SignTitle) harness.SafetyBlock {
	b.require("when", "signal", "title", "lines")
	block := harness.SafetyBlock{When: b.word("when", Whens()...), Signal: b.word("signal", "DANGER", "WARNING", "CAUTION", "NOTICE"),
		Title: b.text("title"), Count: b.text("count"), Lines: b.texts("lines", b.filled("lines"))}
	for i, number := range b.texts("signs", b.array("signs")) {
		at := b.origin.Of(elementKey(b.prefix+"signs", i))
		_, listed := handbook.SignOf(number)
		switch {
		case !listed:
			b.fault(unknownSign, "signs", at, signHint, "%s is no sign that is listed here", quoted(number))
		case !slices.ContainsFunc(titles, func(s harness.SignTitle) bool { return s.Number == number }):
			b.fault(unknownSign, "signs", at, "write [[sign]] with number and title", "the file has no title for the sign %s", quoted(number))
		default:
			block.Signs = append(block.Signs, number)
		}
	}
	b.done()
	return block
}
