package plan

import (
	"slices"

	"loomleaf/internal/harness"
)

// around returns the points in front of and behind a gap in the blocks of a group; -1 where the run starts or ends.
func (k *keptRun) around(group, gap int) (before, behind int) {
	blocks := k.groups[group].blocks
	before, behind = k.outside(group, group+1)
	if gap > 0 {
		before = last(blocks[gap-1].points)
	}
	if gap < len(blocks) {
		behind = blocks[gap].points[0]
	}
	return before, behind
}

// outside returns the last point of the groups in front of one, and the first point of a group and those behind it; -1 where the run
// starts or ends.
func (k *keptRun) outside(front, back int) (before, behind int) {
	before, behind = -1, -1
	for i := front - 1; before < 0 && i >= 0; i-- {
		if blocks := k.groups[i].blocks; len(blocks) > 0 {
			before = last(last(blocks).points)
		}
	}
	for i := back; behind < 0 && i < len(k.groups); i++ {
		if blocks := k.groups[i].blocks; len(blocks) > 0 {
			behind = blocks[0].points[0]
		}
	}
	return before, behind
}

func last[T any](items []T) T { return items[len(items)-1] }

// insert puts a block into a group that stands, where it costs least; a row of a unit that stands joins it.
func (k *keptRun) insert(group int, b block) {
	g := &k.groups[group]
	unit := b.rows[0].unit
	if at := slices.IndexFunc(g.blocks, func(other block) bool { return unit != "" && other.rows[0].unit == unit }); at >= 0 {
		k.join(group, at, b)
		return
	}
	_, slot, way := k.cheapest(group, b)
	g.blocks = slices.Insert(g.blocks, slot, k.turned(b, way))
}

// cheapest returns the gap of a group in which a block costs least, and how it is walked there. Of equal gaps it is the last, so that
// the most paper in front of it stays.
func (k *keptRun) cheapest(group int, b block) (cost int64, gap int, w way) {
	cost = noWay
	ways := k.ways(b)
	for at := range len(k.groups[group].blocks) + 1 {
		before, behind := k.around(group, at)
		if added, cheapest := k.added(before, ways, behind); added <= cost {
			cost, gap, w = added, at, cheapest
		}
	}
	return cost, gap, w
}

// join puts a row into a unit that stands, where it costs least.
func (k *keptRun) join(group, at int, b block) {
	unit := &k.groups[group].blocks[at]
	before, _ := k.around(group, at)
	_, behind := k.around(group, at+1)
	best, slot, ways := noWay, 0, k.ways(b)
	for gap := range len(unit.points) + 1 {
		from, to := before, behind
		if gap > 0 {
			from = unit.points[gap-1]
		}
		if gap < len(unit.points) {
			to = unit.points[gap]
		}
		if cost, _ := k.added(from, ways, to); cost <= best {
			best, slot = cost, gap
		}
	}
	*unit = k.joined(*unit, slot, b.rows[0])
}

// way is a walk over the points of a block from one of them to another, and what it costs.
type way struct {
	first, last int
	cost        int64
}

// ways lists the cheapest walks over a block by their ends.
func (k *keptRun) ways(b block) []way {
	points := pointsOnce(b.points)
	least, parted := k.chart.cover(points)
	var ways []way
	for _, first := range points {
		for _, last := range points {
			if first != last || len(points) == 1 {
				ways = append(ways, way{first, last, least + k.chart.again(first, last, parted)})
			}
		}
	}
	return ways
}

// pointsOnce returns points in ascending order, each once.
func pointsOnce(points []int) []int {
	sorted := slices.Clone(points)
	slices.Sort(sorted)
	return slices.Compact(sorted)
}

// added returns what a block adds to the pass between two points, and how it is walked then.
func (k *keptRun) added(before int, ways []way, behind int) (cost int64, cheapest way) {
	cost = noWay
	for _, w := range ways {
		if added := k.step(before, w.first) + w.cost + k.step(w.last, behind) - k.step(before, behind); added < cost {
			cost, cheapest = added, w
		}
	}
	return cost, cheapest
}

// turned returns a block with its rows in the order of the cheapest walk from one of its points to another.
func (k *keptRun) turned(b block, w way) block {
	var out block
	for _, p := range k.chart.path(pointsOnce(b.points), w.first, w.last, 0) {
		for i, at := range b.points {
			if at == p {
				out.rows, out.points = append(out.rows, b.rows[i]), append(out.points, p)
			}
		}
	}
	return out
}

// settle puts every block that runs on another reel now, or is marked in another way, where it costs least, if that is less than
// where it stands.
func (k *keptRun) settle(group int) {
	g := &k.groups[group]
	for _, b := range slices.Clone(g.blocks) {
		if !slices.ContainsFunc(b.rows, func(w *Wire) bool { return isReset(k.h.Policy.Kept, w) }) {
			continue
		}
		at := slices.IndexFunc(g.blocks, func(other block) bool { return other.rows[0].ID == b.rows[0].ID })
		stands := way{b.points[0], last(b.points), k.inside(b)}
		g.blocks = slices.Delete(g.blocks, at, at+1)
		if len(g.blocks) > 0 {
			before, behind := k.around(group, at)
			was, _ := k.added(before, []way{stands}, behind)
			if cost, gap, w := k.cheapest(group, b); cost < was {
				at, b = gap, k.turned(b, w)
			}
		}
		g.blocks = slices.Insert(g.blocks, at, b)
	}
}

// inside returns what the changes within a block cost.
func (k *keptRun) inside(b block) int64 {
	var cost int64
	for i := 1; i < len(b.points); i++ {
		cost += k.step(b.points[i-1], b.points[i])
	}
	return cost
}

// isReset reports whether a row runs on another reel than in the earlier plan, or is marked in another way.
func isReset(earlier *harness.KeptPlan, w *Wire) bool {
	was, known := earlier.Rows[w.ID]
	return known && state{was.Type, setting{was.Method, was.Ink, int64(was.Height)}} != stateOf(w)
}

// insertGroups puts in the groups of which nothing stands: where the order of the groups is free, each where it costs least, of
// equal places the last.
func (k *keptRun) insertGroups() {
	for i := range k.groups {
		if k.h.Policy.Order != "free" && len(k.groups[i].blocks) == 0 {
			k.groups[i].blocks = k.walk(i, k.groups[i])
		}
	}
	for i := 0; i < len(k.groups); i++ {
		if len(k.groups[i].blocks) > 0 {
			continue
		}
		g := k.groups[i] // it stands behind all groups that stand
		k.groups = slices.Delete(k.groups, i, i+1)
		gap := k.cheapestGap(g, i)
		g.blocks = k.walk(gap, g)
		k.groups = slices.Insert(k.groups, gap, g)
	}
}

// course returns the course of a group.
func (k *keptRun) course(own ownWires) course {
	units, points := unitsOf(own.wires), make([]int, 0, len(own.wires))
	for _, rows := range units {
		for _, w := range rows {
			points = append(points, k.chart.point[stateOf(w)])
		}
	}
	return k.chart.courseOf(units, points)
}

// cheapestGap returns the gap among the first groups of the run in which a group costs least, of equal ones the last.
func (k *keptRun) cheapestGap(g keptGroup, standing int) int {
	c := k.course(g.own)
	var ways []way
	for first, exits := range k.chart.cross(&c, searchWidth([]course{c})) {
		for last, cost := range exits {
			ways = append(ways, way{c.points[first], c.points[last], cost})
		}
	}
	best, slot := noWay, 0
	for gap := range standing + 1 {
		before, behind := k.outside(gap, gap)
		if cost, _ := k.added(before, ways, behind); k.fits(g, gap, standing) && cost <= best {
			best, slot = cost, gap
		}
	}
	return slot
}

// fits reports whether a chain lets a group stand in a gap among the first groups of the run.
func (k *keptRun) fits(g keptGroup, gap, standing int) bool {
	chain := k.chain[g.own.connector]
	own := slices.Index(chain, g.own.connector)
	for i := range standing {
		if at := slices.Index(chain, k.groups[i].own.connector); at >= 0 && (at < own) != (i < gap) {
			return false
		}
	}
	return true
}

// walk returns the cheapest walk over the rows of a group that stands in front of a group of the run.
func (k *keptRun) walk(gap int, g keptGroup) []block {
	before, behind := k.outside(gap, gap)
	c := k.course(g.own)
	entry, width := make([]int64, len(c.points)), searchWidth([]course{c})
	for i, p := range c.points {
		entry[i] = k.step(before, p)
	}
	exit, layers, _ := k.chart.pass(&c, entry, width)
	least, end := noWay, 0
	for i, p := range c.points {
		if cost := exit[i] + k.step(p, behind); cost <= least {
			least, end = cost, i
		}
	}
	var blocks []block
	for _, w := range k.chart.rows(&c, k.chart.trace(&c, entry, layers, end, width)) {
		blocks = append(blocks, k.blockOf(w))
	}
	return blocks
}
