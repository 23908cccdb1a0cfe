package main

import (
	"fmt"
	"slices"
	"strings"

	"loomleaf/internal/page"
)

// header asks that the head and foot of every page are those of the first, item for item, but for what names the page: the sheet and
// unit, the section, page n of m, the name, the hash, the symbol with its string, and the two notes of the sheet. Each of those is what the
// page says of itself.
func (r *rules) header(pg page.Page) {
	first := r.packet.Pages.Pages[0]
	if here, there := r.fixed(pg), r.head; !slices.Equal(here, there) {
		for i, line := range here {
			if i >= len(there) || line != there[i] {
				r.report(pg, "the head differs from that of the first page: %s", line)
				break
			}
		}
		if len(here) < len(there) {
			r.report(pg, "the head lacks something of that of the first page")
		}
	}
	if pg.Live != first.Live && r.plan.Paper.Sides != "two" {
		r.report(pg, "another live area")
	}
	for _, text := range r.naming(pg) {
		if placed(pg.Frame, text) == nil {
			r.report(pg, "the head does not say %q", text)
		}
	}
	for _, item := range pg.Frame {
		if s, is := item.(page.Symbol); is && r.codeOf[pg.Name] != s.String {
			r.report(pg, "the symbol at its head is that of another page")
		}
	}
}

// naming lists what a head says of its page.
func (r *rules) naming(pg page.Page) []string {
	texts := []string{pg.Title, r.say("frame.page", "page", pg.Number, "of", pg.Of), pg.Name}
	if pg.Unit > 0 {
		texts = append(texts, r.plan.Packet.Units[pg.Unit-1])
	}
	if !r.plan.Packet.Draft {
		texts = append(texts, grouped(pg.Hash[:12]), spacedCode(r.codeOf[pg.Name]))
	}
	return texts
}

// spacedCode parts the string of a symbol as it is printed.
func spacedCode(code string) string {
	return strings.Join([]string{code[:1], code[1:12], code[12:15], code[15:21], code[21:]}, " ")
}

// fixed lists what stands at the head and foot of every page alike, with its place; of what follows words that differ in length, without.
func (r *rules) fixed(pg page.Page) []string {
	naming := append(r.naming(pg), strings.Fields(pg.Section)...)
	naming = append(naming, r.say("common.unit"), r.say("frame.valid"), r.say("frame.newest"), r.say("frame.pulled_pin"), r.say("frame.pulled_joint"))
	for _, s := range r.plan.Safety {
		naming = append(naming, s.Short)
	}
	var lines []string
	for _, item := range pg.Frame {
		switch i := item.(type) {
		case page.Text:
			if slices.Contains(naming, i.String) || strings.Contains(pg.Section, i.String) {
				continue
			}
			if flows := i.Size == 9*page.Point && i.Y < page.MM(39000) || r.plan.Packet.Draft; flows {
				i.X, i.Y, i.Room = 0, 0, 0
			}
			i.Room = 0
			lines = append(lines, fmt.Sprintf("%q %s %v at %v, %v", i.String, i.Face, i.Size, i.X, i.Y))
		case page.Symbol:
			i.String, i.Says = "", ""
			lines = append(lines, fmt.Sprint("symbol ", i))
		default:
			lines = append(lines, fmt.Sprintf("%T %v", i, i))
		}
	}
	return lines
}
