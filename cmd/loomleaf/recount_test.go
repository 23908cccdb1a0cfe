package main

import (
	"cmp"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"

	"loomleaf/internal/plan"
	"loomleaf/internal/units"
)

// recount compares what the paper says with the plan. It knows the printed words with their places and the symbols as
// they were read; the pages as they were meant stay out of it.
type recount struct {
	plan  plan.Plan
	shop  shop
	codes map[string]plan.CodeRow
	read  map[string]int // how often each code was read
	wires map[string]plan.Wire
	goods map[string]good
	kinds map[string]string         // of the joints: "splice", "terminal", "stud"
	parts map[string]map[string]int // by unit and wire or cable, the tray of several that the cut lists put it into
	found []string
}

// shop is what the recount knows of the shop.
type shop struct {
	scrap     units.Length // wire lost at every load
	straight  units.Length // longer pieces are coiled
	attrition int64        // share of spare parts, in parts per million

	contacts map[string]string // the part of each

	approved map[[2]string]string // by a type and its substitute: what allows it
}

// reconcile returns everything on paper that does not agree with the plan.
func reconcile(p plan.Plan, s shop, codes []plan.CodeRow, packet, labels []paper) []string {
	r := &recount{plan: p, shop: s, codes: map[string]plan.CodeRow{}, read: map[string]int{}, wires: map[string]plan.Wire{},
		goods: goodsOf(p), kinds: map[string]string{}}
	for _, j := range p.Joints {
		r.kinds[j.ID] = j.Kind
	}
	for _, row := range codes {
		r.codes[row.Code] = row
	}
	for _, w := range p.Wires {
		r.wires[w.ID] = w
	}
	for _, papers := range [][]paper{packet, labels} {
		for _, one := range papers {
			r.found = append(r.found, one.faults...)
		}
	}
	packet, labels = clonePapers(packet), clonePapers(labels)
	r.headers(packet)
	r.validPages(packet)
	lines := r.cutLines(packet)
	r.parts = partsOf(lines)
	r.wiresCut(lines)
	r.together(lines)
	r.loads(lines)
	r.apart(packet)
	r.joints(packet)
	r.setups(packet)
	r.sleeves(packet)
	r.changes(lines, packet)
	r.pins(packet)
	r.routing(packet)
	r.lengths(packet)
	r.boardMap(packet)
	r.trays(labels, lines)
	r.inspection(packet)
	r.kit(packet)
	r.sums(packet, lines)
	r.everyCode(codes, packet, labels)
	return r.found
}

// clonePapers copies the scans, since a count marks those it has placed.
func clonePapers(papers []paper) []paper {
	copies := slices.Clone(papers)
	for i := range copies {
		copies[i].scans = slices.Clone(copies[i].scans)
	}
	return copies
}

func (r *recount) report(p *paper, format string, values ...any) {
	r.found = append(r.found, p.name+": "+fmt.Sprintf(format, values...))
}

// is reports whether a word is set in a face at a size.
func (w word) is(face string, size float64) bool {
	return w.face == face && math.Abs(w.size-size) < 0.01
}

// where returns the words of a page that fulfil a condition, from top to bottom and from left to right.
func (p *paper) where(want func(word) bool) []word {
	var words []word
	for _, w := range p.words {
		if want(w) {
			words = append(words, w)
		}
	}
	slices.SortStableFunc(words, func(a, b word) int {
		return cmp.Or(cmp.Compare(a.middle(), b.middle()), cmp.Compare(a.left, b.left))
	})
	return words
}

// head returns the head of a column by its words.
func (p *paper) head(text string) (word, bool) {
	heads := p.headsOf(text)
	if len(heads) != 1 {
		return word{}, false
	}
	return heads[0], true
}

// headsOf returns the heads of the columns with the same words.
func (p *paper) headsOf(text string) []word {
	return p.where(func(w word) bool { return w.is("Go-Bold", 9) && w.text == text })
}

// topOf returns where a text first stands; a height that no page has where it does not.
func (p *paper) topOf(text string) float64 {
	top := math.Inf(1)
	for _, w := range p.words {
		if w.text == text {
			top = min(top, w.top)
		}
	}
	return top
}

// sameLine reports whether two words stand on one line.
func sameLine(a, b word) bool { return math.Abs(a.middle()-b.middle()) < 4 }

// after returns the next word to the right on the same line.
func (p *paper) after(w word) (word, bool) {
	line := p.where(func(o word) bool { return sameLine(w, o) && o.left >= w.right })
	if len(line) == 0 {
		return word{}, false
	}
	return slices.MinFunc(line, func(a, b word) int { return cmp.Compare(a.left, b.left) }), true
}

// title returns the kind of sheet that the header names.
func (p *paper) title() string {
	titles := p.where(func(w word) bool { return w.is("Go-Bold", 18) })
	if len(titles) == 0 {
		return ""
	}
	return slices.MinFunc(titles, func(a, b word) int { return cmp.Compare(a.left, b.left) }).text
}

// pageName matches the name of a page as header and contents print it; hashText its hash.
var (
	pageName = regexp.MustCompile(`^[a-z]+(/.+)?/[0-9]+$`)
	hashText = regexp.MustCompile(`^[0-9a-f]{4} [0-9a-f]{4} [0-9a-f]{4}$`)
)

// only returns the one word in bold 9 pt Mono that matches; it reports when their number is another.
func (r *recount) only(p *paper, what string, match *regexp.Regexp) string {
	words := p.where(func(w word) bool { return w.is("Go-Mono-Bold", 9) && match.MatchString(w.text) })
	if len(words) != 1 {
		r.report(p, "the header prints %d times %s", len(words), what)
		return ""
	}
	return words[0].text
}

// headers checks the frame of every page: its symbol names the page that the words name, and no page is missing.
func (r *recount) headers(packet []paper) {
	last, whole := map[string]int{}, map[string]int{}
	for i := range packet {
		p := &packet[i]
		name := r.only(p, "the name of a page", pageName)
		section := name[:max(strings.LastIndex(name, "/"), 0)]
		n, of := pageCount(p)
		if last[section]++; n != last[section] || name != fmt.Sprintf("%s/%d", section, n) {
			r.report(p, "page %d, %q, stands where page %d belongs", n, name, last[section])
		}
		whole[section] = of
		r.headerSymbol(p, name)
	}
	for _, section := range sortedKeys(whole) {
		if last[section] != whole[section] {
			r.found = append(r.found, fmt.Sprintf("%s has %d pages, its headers say %d", section, last[section], whole[section]))
		}
	}
}

// pageCount reads "page 1 of 3"; 0 where it is not printed.
func pageCount(p *paper) (n, of int) {
	for _, w := range p.where(func(w word) bool { return w.is("Go-Bold", 9) }) {
		if read, _ := fmt.Sscanf(w.text, "page %d of %d", &n, &of); read == 2 {
			return n, of
		}
	}
	return 0, 0
}

// headerSymbol checks the bars of a page against the name in its header.
func (r *recount) headerSymbol(p *paper, name string) {
	for _, s := range r.take(p, "page", func(s scan) bool { return s.bars }, 1) {
		if row := r.codes[s.text]; row.Name != name {
			r.report(p, "the symbol names page %q, the header %q", row.Name, name)
		}
		if len(p.where(func(w word) bool { return strings.ReplaceAll(w.text, " ", "") == s.text })) != 1 {
			r.report(p, "the string of the page symbol is not printed under it")
		}
	}
}

// validPages checks that the contents list every other page with the hash that its header prints.
func (r *recount) validPages(packet []paper) {
	listed := map[string]string{}
	for i := range packet {
		if p := &packet[i]; p.title() == "Contents" {
			for _, w := range p.where(func(w word) bool { return w.is("Go-Mono", 9) && pageName.MatchString(w.text) }) {
				hash, _ := p.after(w)
				listed[w.text] = hash.text
			}
		}
	}
	for i := range packet {
		p := &packet[i]
		if p.title() == "Contents" {
			continue
		}
		name, hash := r.only(p, "the name of a page", pageName), r.only(p, "the hash of a page", hashText)
		if listed[name] != hash {
			r.report(p, "the contents list %s with hash %q, its header prints %q", name, listed[name], hash)
		}
	}
}

// take returns the symbols of one kind at a place and marks them as placed; it reports when their number is another.
func (r *recount) take(p *paper, kind string, here func(scan) bool, want int) []scan {
	var taken []scan
	for i, s := range p.scans {
		if row, known := r.codes[s.text]; known && row.Kind == kind && !s.used && here(s) {
			p.scans[i].used = true
			r.read[s.text]++
			taken = append(taken, s)
		}
	}
	if len(taken) != want {
		r.report(p, "%d symbols of kind %s where %d belong", len(taken), kind, want)
	}
	return taken
}

// keyIn checks that what is keyed in when a symbol cannot be read stands beside it.
func (r *recount) keyIn(p *paper, s scan) {
	code, err := plan.ParseCode(s.text)
	if err != nil {
		r.report(p, "%q is no code: %v", s.text, err)
		return
	}
	const near = 14
	short := code.KeyIn()
	beside := p.where(func(w word) bool {
		return w.text == short && w.left < s.right+near && w.right > s.left-near && w.top < s.bottom+near && w.bottom > s.top-near
	})
	if len(beside) != 1 {
		r.report(p, "%s stands %d times beside its symbol", short, len(beside))
	}
}

// everyCode asks that every code of the map was read somewhere, and that no symbol stands where nothing names it.
func (r *recount) everyCode(codes []plan.CodeRow, packet, labels []paper) {
	for _, papers := range [][]paper{packet, labels} {
		for i := range papers {
			for _, s := range papers[i].scans {
				if s.text == plan.ScanTest {
					r.read[s.text]++
				} else if !s.used {
					r.report(&papers[i], "the symbol %s (%s) stands beside nothing it names", s.text, r.codes[s.text].Words)
				}
			}
		}
	}
	for _, row := range codes {
		if r.read[row.Code] == 0 {
			r.found = append(r.found, fmt.Sprintf("the code of %q is printed nowhere", row.Words))
		}
	}
}

func sortedKeys[V any](m map[string]V) []string {
	var keys []string
	for key := range m {
		keys = append(keys, key)
	}
	slices.Sort(keys)
	return keys
}
