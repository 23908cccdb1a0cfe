package plan

import (
	"slices"

	"loomleaf/internal/harness"
)

// movedRow is a row that stands elsewhere than in an earlier plan.
type movedRow struct {
	id, was, is string
	group       bool // its group has moved, and it with it
}

// movedRows returns the rows of a run that stand elsewhere than in an earlier plan, in the order of the run: in another home, in a
// group that has moved among the groups, or at another place among the rows of the group. They are the fewest that explain the order.
func movedRows(earlier *harness.KeptPlan, groups []Group) []movedRow {
	home, at, rank := map[string]string{}, map[string]int{}, map[string]int{}
	for i, group := range earlier.Groups {
		rank[group.Home] = i
		for place, id := range group.Rows {
			home[id], at[id] = group.Home, place
		}
	}
	ranks, weights := make([]int, len(groups)), make([]int, len(groups))
	for i, group := range groups {
		ranks[i] = rank[group.Connector]
		for _, id := range group.Wires {
			weights[i] += one(home[id] == group.Connector)
		}
	}
	staysGroup := heaviest(ranks, weights)
	var moved []movedRow
	for i, group := range groups {
		stood := slices.DeleteFunc(slices.Clone(group.Wires), func(id string) bool { return home[id] != group.Connector })
		places, single := make([]int, len(stood)), make([]int, len(stood))
		for n, id := range stood {
			places[n], single[n] = at[id], 1
		}
		stays := map[string]bool{}
		for n, kept := range heaviest(places, single) {
			stays[stood[n]] = kept
		}
		for _, id := range group.Wires {
			if was := home[id]; was != "" && !(staysGroup[i] && stays[id]) {
				moved = append(moved, movedRow{id, was, group.Connector, was == group.Connector && !staysGroup[i]})
			}
		}
	}
	return moved
}

// heaviest tells the items that are left in order where the fewest by weight are taken out: a heaviest rising sequence of places. Of
// several such sequences it takes one, always the same. Items of equal places do not rise; those without weight are left out.
func heaviest(places, weights []int) []bool {
	size := 0
	for _, place := range places {
		size = max(size, place+1)
	}
	tree := make([]int, size+1) // by place from 1, as a tree of prefixes: the item at which the heaviest sequence ends; from 1, 0 for none
	sums, before := make([]int, len(places)+1), make([]int, len(places)+1)
	heavier := func(a, b int) int {
		if sums[b] > sums[a] {
			return b
		}
		return a
	}
	best := 0
	for i, place := range places {
		if weights[i] == 0 {
			continue
		}
		end := 0
		for t := place; t > 0; t -= t & -t {
			end = heavier(end, tree[t])
		}
		sums[i+1], before[i+1] = sums[end]+weights[i], end
		for t := place + 1; t <= size; t += t & -t {
			tree[t] = heavier(tree[t], i+1)
		}
		best = heavier(best, i+1)
	}
	stays := make([]bool, len(places))
	for ; best > 0; best = before[best] {
		stays[best-1] = true
	}
	return stays
}

// whyMoved says of rows that stand elsewhere why they do.
func whyMoved(h *harness.Harness, rows []*Wire, moved []movedRow) []Moved {
	rehomed, row := whyRehomed(h), map[string]*Wire{}
	for _, w := range rows {
		row[w.ID] = w
	}
	all := make([]Moved, len(moved))
	for i, m := range moved {
		all[i] = Moved{ID: m.id, Was: m.was, Is: m.is, Why: MovedSetting}
		switch {
		case m.was != m.is:
			all[i].Why = rehomed[m.id]
		case m.group:
			all[i].Why = MovedGroup
		case row[m.id].unit != "" && !isReset(h.Policy.Kept, row[m.id]):
			all[i].Why = MovedTogether
		}
	}
	return all
}
