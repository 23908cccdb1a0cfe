package plan

import (
	"cmp"
	"slices"

	"loomleaf/internal/harness"
)

// keptRun is a run that holds to the order of an earlier plan: what stood there stands first, and the rest is put in where it costs
// least.
type keptRun struct {
	h       *harness.Harness
	chart   *chart
	mounted string
	place   map[string]keptPlace // of the rows of the earlier plan
	rank    map[string]int       // of its groups
	groups  []keptGroup          // in the order of the run
	chain   map[string][]string  // by group: the chain that it stands in
}

// keptPlace is where a row stood.
type keptPlace struct {
	group string
	at    int
}

// keptGroup is a group of the run. Without blocks nothing of it stands yet.
type keptGroup struct {
	own     ownWires
	blocks  []block
	waiting []block // what must be put in, in natural order
}

// block is rows that stay together: a unit, or a row of its own.
type block struct {
	rows   []*Wire
	points []int // of the chart, by row
}

// keptPass puts groups, given in build order, and their rows in the order of the earlier plan, and returns what the pass costs.
// Where the job fixes the order of groups, the job wins.
func keptPass(h *harness.Harness, groups []ownWires) ([]ownWires, int64) {
	k := newKeptRun(h, groups)
	for i := range k.groups {
		k.stand(&k.groups[i])
	}
	k.order()
	for i := range k.groups {
		k.settle(i)
		for _, b := range k.groups[i].waiting {
			if len(k.groups[i].blocks) > 0 {
				k.insert(i, b)
			}
		}
	}
	k.insertGroups()
	ordered := make([]ownWires, len(k.groups))
	for i, g := range k.groups {
		ordered[i].connector = g.own.connector
		for _, b := range g.blocks {
			ordered[i].wires = append(ordered[i].wires, b.rows...)
		}
	}
	return ordered, k.cost()
}

func newKeptRun(h *harness.Harness, groups []ownWires) *keptRun {
	k := &keptRun{h: h, chart: chartOf(ladderOfLine(&h.Line), tableOf(groups).states), mounted: mountedType(h),
		place: map[string]keptPlace{}, rank: map[string]int{}, chain: map[string][]string{}}
	for i, group := range h.Policy.Kept.Groups {
		k.rank[group.Home] = i
		for at, id := range group.Rows {
			k.place[id] = keptPlace{group.Home, at}
		}
	}
	for _, chain := range h.Policy.Chains {
		for _, id := range chain {
			k.chain[id] = chain
		}
	}
	for _, own := range groups {
		k.groups = append(k.groups, keptGroup{own: own})
	}
	return k
}

// stood reports whether a row of a group stood in it.
func (k *keptRun) stood(g *keptGroup, w *Wire) bool {
	was, known := k.place[w.ID]
	return known && was.group == g.own.connector
}

// stand puts up what stood in a group, in its order. A unit whose rows did not stand side by side is put in anew.
func (k *keptRun) stand(g *keptGroup) {
	var stood []*Wire
	for _, w := range g.own.wires {
		if k.stood(g, w) {
			stood = append(stood, w)
		}
	}
	slices.SortFunc(stood, func(a, b *Wire) int { return cmp.Compare(k.place[a.ID].at, k.place[b.ID].at) })
	stretches := map[string]int{} // by unit: how many there are
	for i, w := range stood {
		if i == 0 || w.unit != stood[i-1].unit {
			stretches[w.unit]++
		}
	}
	for i, w := range stood {
		switch {
		case w.unit == "" || i == 0 || stood[i-1].unit != w.unit:
			if w.unit == "" || stretches[w.unit] == 1 {
				g.blocks = append(g.blocks, k.blockOf(w))
			}
		case stretches[w.unit] == 1:
			g.blocks[len(g.blocks)-1] = k.joined(g.blocks[len(g.blocks)-1], len(g.blocks[len(g.blocks)-1].rows), w)
		}
	}
	for _, rows := range unitsOf(g.own.wires) {
		k.wait(g, rows, stretches)
	}
}

// wait notes the rows of a unit that do not stand yet: all of them, or those that join a unit that stands.
func (k *keptRun) wait(g *keptGroup, rows []*Wire, stretches map[string]int) {
	if unit := rows[0].unit; unit != "" && stretches[unit] == 1 {
		for _, w := range rows {
			if !k.stood(g, w) {
				g.waiting = append(g.waiting, k.blockOf(w))
			}
		}
		return
	}
	if rows[0].unit == "" && k.stood(g, rows[0]) {
		return
	}
	g.waiting = append(g.waiting, k.blockOf(rows...))
}

func (k *keptRun) blockOf(rows ...*Wire) block {
	var b block
	for _, w := range rows {
		b = k.joined(b, len(b.rows), w)
	}
	return b
}

// joined returns a block with one row more at a place.
func (k *keptRun) joined(b block, at int, w *Wire) block {
	return block{slices.Insert(slices.Clone(b.rows), at, w), slices.Insert(slices.Clone(b.points), at, k.chart.point[stateOf(w)])}
}

// order puts the groups in the order in which they ran, where the job leaves it free; those of which nothing stands come last. Of
// a chain no group comes before the one that the chain puts in front of it.
func (k *keptRun) order() {
	if k.h.Policy.Order != "free" {
		return
	}
	rank := func(g keptGroup) int {
		if len(g.blocks) == 0 {
			return len(k.rank)
		}
		return k.rank[g.own.connector]
	}
	slices.SortStableFunc(k.groups, func(a, b keptGroup) int { return cmp.Compare(rank(a), rank(b)) })
	chained := map[string][]keptGroup{} // the groups of a chain that stand, in its order, by the first of the chain
	for _, chain := range k.h.Policy.Chains {
		for _, id := range chain {
			at := slices.IndexFunc(k.groups, func(g keptGroup) bool { return g.own.connector == id && len(g.blocks) > 0 })
			if at >= 0 {
				chained[chain[0]] = append(chained[chain[0]], k.groups[at])
			}
		}
	}
	for i, g := range k.groups { // each place of a chain goes to the next of the chain
		if chain := k.chain[g.own.connector]; len(chain) > 0 && len(g.blocks) > 0 {
			k.groups[i] = chained[chain[0]][0]
			chained[chain[0]] = chained[chain[0]][1:]
		}
	}
}

// cost returns what the whole pass costs.
func (k *keptRun) cost() int64 {
	cost, before := int64(0), -1
	for _, g := range k.groups {
		for _, b := range g.blocks {
			for _, p := range b.points {
				cost += k.step(before, p)
				before = p
			}
		}
	}
	return cost
}

// step returns what it costs to come from one point to the next; -1 stands for the start and the end of the run.
func (k *keptRun) step(from, to int) int64 {
	switch {
	case to < 0:
		return 0
	case from < 0:
		return k.chart.begin(&course{points: []int{to}}, k.mounted)[0]
	}
	return k.chart.between(from, to)
}
