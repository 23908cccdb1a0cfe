package main

import (
	"fmt"
	"strings"

	"loomleaf/internal/plan"
)

// changes walks the rows of the first cut list of every group in printed order and counts what changes from wire to wire; the
// contents page must print the same figures.
func (r *recount) changes(lines []cutLine, packet []paper) {
	types := map[string]string{}
	for _, reel := range r.plan.Reels {
		types[reel.ID] = reel.Type
	}
	var counted plan.Changes
	wireType := ""
	var on, before cutLine
	ink, height, started := "", "", false
	for _, l := range lines {
		if strings.Contains(l.page.name, "/batch ") {
			break
		}
		if l.kind == "LOAD" || l.kind == "SWITCH to" {
			on = l
			if types[on.name] == "" {
				types[on.name] = on.name // where no reel is known, the type itself is loaded
			}
		}
		if l.kind != "wire" {
			continue
		}
		if started {
			own := count1(wireType != r.goods[l.name].wireType)
			counted.Reel += own
			counted.Substitutes += count1(types[on.name] != types[before.name]) - own
			counted.Method += count1(methodOf(on.how) != methodOf(before.how))
			counted.Ink += count1(inkOf(on.how) != "" && ink != "" && inkOf(on.how) != ink)
			counted.Height += count1(on.high != "" && height != "" && on.high != height)
		}
		before, started, wireType = on, true, r.goods[l.name].wireType
		if inkOf(on.how) != "" {
			ink = on.how
		}
		if on.high != "" {
			height = on.high
		}
	}
	c := r.plan.Changes
	got, want := [4]int{counted.Reel, counted.Method, counted.Ink, counted.Height}, [4]int{c.Reel, c.Method, c.Ink, c.Height}
	if got != want {
		r.found = append(r.found, fmt.Sprintf("the cut lists change reel, method, ink and height %v times, the plan says %v", got, want))
	}
	if counted.Substitutes != c.Substitutes {
		r.found = append(r.found, fmt.Sprintf("the cut lists change %d times more for substitutes, the plan says %d", counted.Substitutes, c.Substitutes))
	}
	r.printedChanges(packet, got, counted.Substitutes)
}

// printedChanges finds the counts on the contents page.
func (r *recount) printedChanges(packet []paper, counted [4]int, substitutes int) {
	var said []string
	for i := range packet {
		if strings.HasPrefix(packet[i].name, "contents/") {
			for _, w := range packet[i].where(func(word) bool { return true }) {
				said = append(said, w.text)
			}
		}
	}
	text := strings.Join(said, " ")
	if words := fmt.Sprintf("%d reel changes more go to or from substitutes", substitutes); substitutes > 1 && !strings.Contains(text, words) {
		r.found = append(r.found, fmt.Sprintf("the contents do not say %q", words))
	}
	if words := r.openedWords(); words != "" && !strings.Contains(text, words) {
		r.found = append(r.found, fmt.Sprintf("the contents do not say %q", words))
	}
	for i, noun := range []string{"reel change", "change%s of method", "change%s of ink", "change%s of mark height"} {
		plural := "s"
		if counted[i] == 1 {
			plural = ""
		}
		words := fmt.Sprintf("%d %s%s", counted[i], noun, plural)
		if strings.Contains(noun, "%s") {
			words = fmt.Sprintf("%d "+noun, counted[i], plural)
		}
		if !strings.Contains(text, words) {
			r.found = append(r.found, fmt.Sprintf("the contents do not say %q", words))
		}
	}
}

// openedWords counts the reels of types that do not run short and are not cut in place of another; "" where there is none.
func (r *recount) openedWords() string {
	left := map[string]bool{}
	for _, order := range r.plan.ToOrder {
		left[order.Type] = true
	}
	for pair := range r.shop.approved {
		for _, s := range r.plan.Substitutes {
			if pair == [2]string{s.For, s.Type} {
				left[pair[0]], left[pair[1]] = true, true
			}
		}
	}
	opened := 0
	for _, reel := range r.plan.Reels {
		opened += count1(!left[reel.Type])
	}
	switch opened {
	case 0:
		return ""
	case 1:
		return "1 reel opened"
	}
	return fmt.Sprintf("%d reels opened", opened)
}

// methodOf tells methods apart by what a load says.
func methodOf(marking string) string {
	if inkOf(marking) != "" {
		return "ink"
	}
	return marking
}

// inkOf returns the ink that a load names, or "".
func inkOf(marking string) string {
	if strings.HasSuffix(marking, " ink") {
		return marking
	}
	return ""
}

func count1(condition bool) int {
	if condition {
		return 1
	}
	return 0
}
