package main

import (
	"fmt"
	"io"
	"strings"

	"loomleaf/internal/plan"
)

// writeKept says how far the order of an earlier plan is kept, and what that costs against an order made afresh.
func writeKept(w io.Writer, k *plan.Kept) {
	if k == nil {
		return
	}
	fmt.Fprintf(w, "order of %s revision %s kept: %s, %s on the line; %d of %s moved, %d of %s unchanged\n", k.Number, k.Revision,
		count(k.Reel, "reel change"), count(int(k.Minutes), "minute"), len(k.Moved), count(k.Rows, "row"), len(k.SameGroups), count(k.Groups, "cut list"))
	fmt.Fprintf(w, "made afresh: %s, %s, but %d of %s would move, and %s would stay unchanged\n",
		count(k.Afresh.Reel, "reel change"), count(int(k.Afresh.Minutes), "minute"), k.Afresh.Moved, count(k.Rows, "row"),
		count(k.Afresh.SameGroups, "cut list"))
	groups := map[string]int{}
	for _, m := range k.Moved {
		if m.Why == plan.MovedGroup {
			groups[m.Is]++
		}
	}
	for _, m := range k.Moved {
		switch {
		case m.Why != plan.MovedGroup:
			fmt.Fprintf(w, "moved: %s, %s\n", m.ID, movedInWords(k, m))
		case groups[m.Is] > 0:
			fmt.Fprintf(w, "moved: group %s with %s, %s\n", m.Is, count(groups[m.Is], "row"), movedInWords(k, m))
			groups[m.Is] = 0
		}
	}
	for _, list := range []struct {
		words string
		ids   []string
	}{{"new rows", k.Added}, {"rows taken out", k.Removed}} {
		if len(list.ids) > 0 {
			fmt.Fprintf(w, "%s: %s\n", list.words, strings.Join(list.ids, ", "))
		}
	}
}

// movedInWords says where a row has moved, and why.
func movedInWords(k *plan.Kept, m plan.Moved) string {
	why := map[string]string{
		plan.MovedLocked:   "the job locks its home",
		plan.MovedEnd:      "it no longer goes to its home",
		plan.MovedTogether: "it stands side by side with its twist or cable",
		plan.MovedSetting:  "it runs on another reel or is marked in another way",
		plan.MovedGroup:    map[string]string{"board": "it runs where the board puts it", "listed": "it runs where the job lists it", "free": "it runs where a chain puts it"}[k.Order],
	}[m.Why]
	if m.Was != m.Is {
		return fmt.Sprintf("from %s to %s: %s", m.Was, m.Is, why)
	}
	return why
}
