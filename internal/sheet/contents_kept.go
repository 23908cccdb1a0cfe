package sheet

import (
	"fmt"
	"slices"
	"strings"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
)

// mostListed is how many rows one paragraph names, so that it always fits a page.
const mostListed = 20

// kept says how far the order of an earlier plan is kept, and what that costs against an order made afresh.
func (c *contents) kept() {
	k := c.plan.Kept
	if k == nil {
		return
	}
	c.section(c.say("kept.head", "number", k.Number, "revision", k.Revision), mm(40))
	c.keptTable(k)
	if k.Draft {
		c.put(medium(10), c.say("kept.draft"))
	} else {
		c.put(regular(10), c.say("kept.rows", "same", k.SameRows, "rows", k.Rows))
		c.named("stay", k.SameGroups)
	}
	c.named("added", k.Added)
	c.named("removed", k.Removed)
	for _, why := range []string{plan.MovedLocked, plan.MovedEnd, plan.MovedTogether, plan.MovedSetting} {
		c.named(why, c.movedRows(k, why))
	}
	c.named("group_"+k.Order, movedGroups(k))
	c.y += mm(2)
}

// keptTable compares the order kept with the one made afresh.
func (c *contents) keptTable(k *plan.Kept) {
	heads := []ledgerColumn{{"", mm(27)}, {c.say("prices.changes"), mm(26)}, {c.say("prices.minutes"), mm(36)},
		{c.say("kept.moved", "n", k.Rows), mm(44)}, {c.say("kept.same", "n", k.Groups), mm(47)}}
	rows := []struct {
		style   style
		name    string
		figures []int64
	}{
		{bold(10), c.say("kept.kept"), []int64{int64(k.Reel), k.Minutes, int64(len(k.Moved)), int64(len(k.SameGroups))}},
		{regular(10), c.say("kept.afresh"), []int64{int64(k.Afresh.Reel), k.Afresh.Minutes, int64(k.Afresh.Moved), int64(k.Afresh.SameGroups)}},
	}
	right := func(at int, s style, text string) {
		x := live.X
		for _, head := range heads[:at+1] {
			x += head.width
		}
		c.right(x-page.Pt(one(at+1 < len(heads)))*mm(4), c.y, s, heads[at].width, text)
	}
	c.y += mm(5)
	for at, head := range heads[1:] {
		right(at+1, bold(9), head.title)
	}
	for _, row := range rows {
		c.y += mm(5)
		c.text(live.X, c.y, row.style, heads[0].width, row.name)
		for at, figure := range row.figures {
			right(at+1, row.style, fmt.Sprint(figure))
		}
	}
}

// named prints what a text says of a list of ids, in as many paragraphs as they take; nothing where there are none.
func (c *contents) named(key string, ids []string) {
	for some := range slices.Chunk(ids, mostListed) {
		c.put(regular(10), c.say("kept.list."+key, "ids", strings.Join(some, ", ")))
	}
}

// movedRows names the rows that moved for a reason, with their home before where it is another one.
func (c *contents) movedRows(k *plan.Kept, why string) []string {
	var rows []string
	for _, m := range k.Moved {
		switch {
		case m.Why != why:
		case m.Was == m.Is:
			rows = append(rows, m.ID)
		default:
			rows = append(rows, c.say("kept.row", "id", m.ID, "was", m.Was, "is", m.Is))
		}
	}
	return rows
}

// movedGroups names the groups that moved with all their rows.
func movedGroups(k *plan.Kept) []string {
	var groups []string
	for _, m := range k.Moved {
		if m.Why == plan.MovedGroup && !slices.Contains(groups, m.Is) {
			groups = append(groups, m.Is)
		}
	}
	return groups
}
