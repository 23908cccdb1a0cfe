package sheet

import (
	"slices"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
)

// pinnedUp names the sheets whose backs stay blank on two-sided paper: they are pinned up, torn off, or signed on every page.
func pinnedUp() []string { return []string{"cover", "map", "joints", "pins", "routing", "tags"} }

// twoSided gives every section an even number of pages, so that the next starts on a front: a blank back behind the last, or behind every
// page of what is pinned up. Blank backs are pages: they are numbered, listed and counted.
func twoSided(sections []section, m composer) []section {
	all := slices.Clone(sections)
	for i, s := range all {
		var pages [][]page.Item
		for _, body := range s.pages {
			pages = append(pages, body)
			if slices.Contains(pinnedUp(), s.sheet) {
				pages = append(pages, blankBack(m))
			}
		}
		if len(pages)%2 == 1 {
			pages = append(pages, blankBack(m))
		}
		all[i].pages = pages
	}
	return all
}

// blankBack says that nothing is missing.
func blankBack(m composer) []page.Item {
	return []page.Item{page.Text{X: live.X + live.W/2, Y: (bodyTop() + bodyBottom()) / 2, Face: page.Regular, Size: 10 * page.Point, Align: page.Centre,
		Room: live.W, String: m.Say("frame.blank_back")}}
}

// isBlank reports whether a page is a blank back.
func isBlank(pg page.Page, m composer) bool {
	return len(pg.Body) == 1 && pg.Body[0] == blankBack(m)[0]
}

// backed turns the pages of a packet into fronts and backs: a front says that its section goes on behind it, and on a back the side that
// is bound is the right one. Hashes and codes stay those of the pages as they were laid.
func backed(pages []page.Page, paper page.Document, m composer, p plan.Plan) {
	shift := paper.Width - live.X - live.W - live.X
	for i := range pages {
		pg := &pages[i]
		switch {
		case i%2 == 1:
			pg.Body, pg.Frame = page.Moved(pg.Body, shift), page.Moved(pg.Frame, shift)
			pg.Live.X += shift
		case i+1 < len(pages) && !isBlank(pages[i+1], m):
			f := &pen{metrics: m, draft: p.Packet.Draft}
			f.right(live.X+live.W, mm10(2629), bold(9), mm(50), m.Say("frame.continues"))
			pg.Frame = append(pg.Frame, f.items...)
		}
	}
}
