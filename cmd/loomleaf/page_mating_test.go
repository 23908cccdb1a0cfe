package main

import (
	"math"
	"strings"

	"loomleaf/internal/page"
)

// mating asks that the faces of the tester are those of the checklists, with left and right the other way round.
func (r *rules) mating() {
	wire, mating, tested := map[string]map[string]page.Text{}, map[string]map[string]page.Text{}, false
	for _, pg := range r.packet.Pages.Pages {
		tested = tested || pg.Sheet == "continuity"
		connector := ""
		for _, item := range pg.Body {
			text, is := item.(page.Text)
			switch {
			case !is:
			case strings.HasPrefix(pg.Name, "continuity/faces/") && text.Face == page.MonoBold && text.Size == 14*page.Point:
				connector, mating[text.String] = text.String, map[string]page.Text{}
			case connector != "" && text.Drawn:
				mating[connector][text.String] = text
			case pg.Sheet == "pins" && text.Drawn:
				id := strings.Split(pg.Name, "/")[1]
				if wire[id] == nil {
					wire[id] = map[string]page.Text{}
				}
				wire[id][text.String] = text
			}
		}
	}
	for _, c := range r.plan.Connectors {
		switch seen := mating[c.ID]; {
		case !tested || c.Face.Kind == "":
		case len(seen) != len(c.Cavities):
			r.found = append(r.found, "the face of "+c.ID+" from the mating side lacks cavities")
		case wire[c.ID] != nil && !mirrored(wire[c.ID], seen):
			r.found = append(r.found, "the face of "+c.ID+" from the mating side is no mirror image of that on its checklist")
		}
	}
}

// mirrored reports whether names stand in one picture as in the other, larger or smaller, with left and right the other way round.
func mirrored(a, b map[string]page.Text) bool {
	left, top, width, height := bounds(a)
	otherLeft, otherTop, otherWidth, otherHeight := bounds(b)
	for name, at := range a {
		other := b[name]
		if math.Abs(share(at.X-left, width)+share(other.X-otherLeft, otherWidth)-1) > 0.02 && width > 0 ||
			math.Abs(share(at.Y-top, height)-share(other.Y-otherTop, otherHeight)) > 0.02 {
			return false
		}
	}
	return true
}

func share(part, whole page.Pt) float64 {
	if whole == 0 {
		return 0
	}
	return float64(part) / float64(whole)
}

func bounds(names map[string]page.Text) (left, top, width, height page.Pt) {
	left, top = math.MaxInt32, math.MaxInt32
	right, low := page.Pt(0), page.Pt(0)
	for _, at := range names {
		left, top, right, low = min(left, at.X), min(top, at.Y), max(right, at.X), max(low, at.Y)
	}
	return left, top, right - left, low - top
}
