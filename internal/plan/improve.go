package plan

import (
	"math/rand/v2"
	"slices"
)

// mostTries bounds the work of improving an order; one try is one group put into one gap.
const mostTries = 60_000

// mostInserted is the number of groups up to which single groups are put into an order that chains give.
const mostInserted = 2000

// good returns a good order: chains as they stand, free groups in trails, each then put where it costs least; and then groups are
// taken out and put back where that costs no more.
func (g *freeGroups) good(mounted string) []int {
	var chained, free []int
	for i := range g.courses {
		if g.before[i] < 0 && g.after[i] < 0 {
			free = append(free, i)
		}
		if g.before[i] < 0 && g.after[i] >= 0 {
			for at := i; at >= 0; at = g.after[at] {
				chained = append(chained, at)
			}
		}
	}
	order := g.trailOrder(free)
	switch {
	case len(chained) > 0 && len(g.courses) <= mostInserted:
		trail := order
		order = chained
		for _, i := range trail {
			order = g.insert(order, i, mounted)
		}
	default:
		order = append(chained, order...)
	}
	return g.improve(order, mounted, mostTries)
}

// improve takes up to four groups out and puts each back in its best gap, as long as its tries last. The choice of groups follows
// a fixed sequence of numbers, so that the result is always the same.
func (g *freeGroups) improve(order []int, mounted string, most int) []int {
	if len(order) < 3 {
		return order
	}
	numbers := rand.New(rand.NewPCG(1, 1))
	cost := g.price(order, mounted)
	for tries := 0; tries < most; {
		changed := slices.Clone(order)
		var out []int
		for range 1 + numbers.IntN(min(4, len(order)-1)) {
			at := numbers.IntN(len(changed))
			out = append(out, changed[at])
			changed = slices.Delete(changed, at, at+1)
		}
		for _, i := range out {
			tries += len(changed) + 1
			changed = g.insert(changed, i, mounted)
		}
		if total := g.price(changed, mounted); total <= cost {
			order, cost = changed, total
		}
	}
	return order
}

// price returns the cost of an order.
func (g *freeGroups) price(order []int, mounted string) int64 {
	exits := g.forward(order, mounted)
	return slices.Min(exits[len(exits)-1])
}

// forward returns the costs of leaving each group of an order.
func (g *freeGroups) forward(order []int, mounted string) [][]int64 {
	exits := make([][]int64, len(order))
	for n, i := range order {
		if n == 0 {
			exits[n] = g.alone(i, mounted)
			continue
		}
		exits[n] = g.onto(order[n-1], exits[n-1], i)
	}
	return exits
}

// ahead returns, for each group of an order, what the groups from it on cost by the place where it is entered.
func (g *freeGroups) ahead(order []int) [][]int64 {
	costs := make([][]int64, len(order))
	for n := len(order) - 1; n >= 0; n-- {
		i := order[n]
		leave := make([]int64, len(g.over[i]))
		if n+1 < len(order) {
			leave = g.chart.enter(&g.courses[order[n+1]], costs[n+1], &g.courses[i])
		}
		costs[n] = make([]int64, len(leave))
		for f := range costs[n] {
			costs[n][f] = noWay
			for l := range leave {
				costs[n][f] = min(costs[n][f], g.over[i][f][l]+leave[l])
			}
		}
	}
	return costs
}

// insert puts a group into the gap of an order where it costs least, the first of several, between its neighbours of a chain.
func (g *freeGroups) insert(order []int, group int, mounted string) []int {
	exits, ahead := g.forward(order, mounted), g.ahead(order)
	best, cost := 0, noWay*2
	for gap := range len(order) + 1 {
		if !g.fits(order, group, gap) {
			continue
		}
		exit := g.alone(group, mounted)
		if gap > 0 {
			exit = g.onto(order[gap-1], exits[gap-1], group)
		}
		total := slices.Min(exit)
		if gap < len(order) {
			total = noWay
			for f, c := range g.chart.enter(&g.courses[group], exit, &g.courses[order[gap]]) {
				total = min(total, c+ahead[gap][f])
			}
		}
		if total < cost {
			best, cost = gap, total
		}
	}
	return slices.Insert(slices.Clone(order), best, group)
}

// fits reports whether a gap keeps the chain of a group in order.
func (g *freeGroups) fits(order []int, group, gap int) bool {
	for before := g.before[group]; before >= 0; before = g.before[before] {
		if slices.Index(order, before) >= gap {
			return false
		}
	}
	for after := g.after[group]; after >= 0; after = g.after[after] {
		if at := slices.Index(order, after); at >= 0 && at < gap {
			return false
		}
	}
	return true
}
