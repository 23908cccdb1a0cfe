// Package sheet lays a plan out as pages: it decides places and breaks, never figures.
//
// A text that does not fit its place, or that the faces cannot print, becomes a problem with the place in the job; nothing
// is clipped or squeezed. The body of a page names neither the revision nor the issue date nor any other page, so that a
// page that a revision leaves alone keeps its hash and its code; cover and contents are new each time.
package sheet

import (
	"fmt"
	"slices"
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
)

// Packet is the paper of one job at one revision.
type Packet struct {
	Pages  page.Document
	Labels page.Document
	Codes  []plan.CodeRow // the page codes
}

// sheet is a numbered page.
type sheet struct{ page.Page }

// Lay returns the packet of a plan, sheet by sheet in the order of their names, and the labels. A draft has no codes and no
// labels. Every problem is a text that cannot be printed where it belongs; with an error
// in the list the packet is not fit to print.
func Lay(p plan.Plan, metrics page.Metrics) (Packet, problem.List) {
	return lay(p, composerOf(p.Paper, metrics))
}

func lay(p plan.Plan, m composer) (Packet, problem.List) {
	var problems problem.List
	if p.Packet.Draft {
		p = p.WithoutCodes()
	}
	work := workSections(&p, m, &problems)
	sheets := withFront(&p, sheetsOf(p.Packet, work, m), m, &problems)
	packet := Packet{Pages: document(p, m)}
	codes := make([]plan.Code, len(sheets))
	if !p.Packet.Draft {
		codes = pageCodes(p.Packet, sheets, m)
		packet.Codes = plan.PageRows(p.Packet, codes)
	}
	for i, s := range sheets {
		s.Frame = frame(p, s.Page, codes[i], m, &problems)
		packet.Pages.Pages = append(packet.Pages.Pages, s.Page)
	}
	if m.twoSided {
		backed(packet.Pages.Pages, packet.Pages, m, p)
	}
	if !p.Packet.Draft && !slices.Contains(p.Paper.LeaveOut, "labels") {
		packet.Labels = labelDocument(p, m, &problems)
	}
	return packet, problems.Sorted()
}

// workSections lays every sheet but cover and contents, without those that the shop leaves out: nothing is refused for them.
func workSections(p *plan.Plan, m composer, problems *problem.List) []section {
	var work []section
	for _, lay := range []func(*plan.Plan, composer, *problem.List) []section{safetySections, reelSections, kitSections, setupSections, cutSections, apartSections,
		sleeveSections, stripSections, crimpSections, mapSections, routingSections, lengthSections, pinSections, jointSections, spareSections,
		continuitySections, firstPieceSections, samplingSections, recordSections} {
		work = append(work, kept(p, lay, m, problems)...)
	}
	return append(work, kept(p, func(p *plan.Plan, m composer, problems *problem.List) []section {
		return glossarySections(p, work, m, problems)
	}, m, problems)...)
}

// kept lays sheets and drops those left out.
func kept(p *plan.Plan, lay func(*plan.Plan, composer, *problem.List) []section, m composer, problems *problem.List) []section {
	var found problem.List
	laid := lay(p, m, &found)
	rest := slices.DeleteFunc(slices.Clone(laid), func(s section) bool { return slices.Contains(p.Paper.LeaveOut, s.sheet) })
	if len(rest) > 0 || len(laid) == 0 {
		*problems = append(*problems, found...)
	}
	return rest
}

// withFront puts cover and contents before the other pages. The cover counts all pages and the contents list the cover, so
// both are laid once for their number of pages, and once more with it.
func withFront(p *plan.Plan, work []sheet, m composer, problems *problem.List) []sheet {
	var trial problem.List
	cover := sheetsOf(p.Packet, coverSections(p, 0, m, &trial), m)
	contents := sheetsOf(p.Packet, contentsSections(p, slices.Concat(cover, work), m, &trial), m)
	total := len(cover) + len(contents) + len(work)
	cover = sheetsOf(p.Packet, coverSections(p, total, m, problems), m)
	contents = sheetsOf(p.Packet, contentsSections(p, slices.Concat(cover, work), m, problems), m)
	return slices.Concat(cover, contents, work)
}

// sheetsOf turns sections into pages, numbered within each.
func sheetsOf(packet plan.Packet, sections []section, m composer) []sheet {
	if m.twoSided {
		sections = twoSided(sections, m)
	}
	var sheets []sheet
	for _, s := range sections {
		for i, items := range s.pages {
			body, rows := page.Parted(items)
			sheets = append(sheets, sheet{page.Page{Name: s.pageName(i + 1), Sheet: s.sheet, Title: s.title,
				Section: s.words(packet, m), Number: i + 1, Of: len(s.pages), Unit: s.unit, Body: body, Rows: rows, Live: live,
				Hash: page.Hash(body)}})
		}
	}
	return sheets
}

// pageName names a page within the packet: "cutlist/J1/batch 2/1".
func (s section) pageName(number int) string {
	parts := []string{s.sheet}
	for _, part := range []string{s.name, s.part} {
		if part != "" {
			parts = append(parts, part)
		}
	}
	return strings.Join(append(parts, fmt.Sprint(number)), "/")
}

// words say what a section is about: "J1, batch 2", "J1 unit 0041".
func (s section) words(packet plan.Packet, m composer) string {
	part := m.batchWords(s.part)
	name := s.name
	if s.said != "" {
		name = s.said
	}
	words := joined(", ", name, part)
	if s.unit > 0 {
		unit := packet.Units[s.unit-1]
		words = joined(" ", strings.TrimSuffix(strings.TrimSuffix(words, unit), "/"), m.Say("common.unit_of", "unit", unit))
	}
	return words
}

func pageCodes(packet plan.Packet, sheets []sheet, m composer) []plan.Code {
	identities := make([]plan.PageIdentity, len(sheets))
	for i, s := range sheets {
		words := strings.TrimSpace(strings.ToLower(s.Title) + " " + s.Section)
		identities[i] = plan.PageIdentity{Name: s.Name, Unit: s.Unit, Hash: s.Hash, Words: m.Say("frame.page_words", "page", words, "n", s.Number)}
	}
	return plan.PageCodes(packet, identities)
}

func document(p plan.Plan, m composer) page.Document {
	name := p.Packet.Number + "-" + p.Packet.Revision
	width, height := page.A4()
	if p.Paper.Size == "letter" {
		width, height = page.Letter()
	}
	doc := page.Document{Name: name + ".packet.pdf", Title: p.Packet.Number + " " + m.Say("frame.revision", "revision", p.Packet.Revision),
		Subject: p.Packet.Title, Language: m.Language, TwoSided: m.twoSided, Width: width, Height: height}
	if p.Packet.Draft {
		doc.Name, doc.Title = name+".draft.pdf", m.Say("frame.draft")+", "+doc.Title
	}
	return doc
}

// sheetNames lists the sheets in the order of the packet.
func sheetNames() []string {
	return []string{"cover", "contents", "safety", "reels", "kit", "setup", "cutlist", "apart", "sleeves", "strip", "crimp", "map", "routing", "lengths", "pins",
		"joints", "spares", "continuity", "firstpiece", "sampling", "tags", "rework", "handover", "redline", "glossary", "labels"}
}

// Pick returns the packet with the named sheets alone, pages numbered as in the whole packet; no names leave it whole. A
// name that is no sheet is an error.
func Pick(packet Packet, sheets []string) (Packet, problem.List) {
	var problems problem.List
	for _, name := range sheets {
		if !slices.Contains(sheetNames(), name) {
			problems = append(problems, problem.Problem{Check: "unknown-sheet", ID: name,
				Text: fmt.Sprintf("there is no sheet %q", name), Hint: "the sheets are " + strings.Join(sheetNames(), ", ")})
		}
	}
	if len(sheets) == 0 || len(problems) > 0 {
		return packet, problems
	}
	picked := packet
	picked.Pages.Pages = nil
	for _, p := range packet.Pages.Pages {
		if slices.Contains(sheets, p.Sheet) {
			picked.Pages.Pages = append(picked.Pages.Pages, p)
		}
	}
	if !slices.Contains(sheets, "labels") {
		picked.Labels.Pages = nil
	}
	return picked, nil
}

// Each parts the pages of a packet by kind of sheet, in their order; the parts keep the name and title of the whole.
func Each(whole page.Document) []page.Document {
	var parts []page.Document
	for _, p := range whole.Pages {
		if last := len(parts) - 1; last >= 0 && parts[last].Pages[0].Sheet == p.Sheet {
			parts[last].Pages = append(parts[last].Pages, p)
			continue
		}
		part := whole
		part.Pages = []page.Page{p}
		parts = append(parts, part)
	}
	return parts
}
