package plan

// freeFloor returns a cost that no order of the groups is below: on every rung the changes inside the groups, and one less than the
// trails that the groups can at best be strung into.
func (c *chart) freeFloor(courses []course) int64 {
	var cost int64
	for rung := range c.ladder {
		changes, trails := 0, newKnots()
		free := map[int]int{} // by point: groups that may pick their ends
		for i := range courses {
			k := &courses[i]
			classes := c.classesOf(k, rung)
			changes += c.inside(k, rung)
			switch {
			case len(classes) == 1:
				trails.tie(classes[0], classes[0])
			case len(classes) == 2 && k.items == nil:
				trails.line(classes[0], classes[1])
			default:
				free[classes[0]]++
				for _, class := range classes[1:] {
					trails.tie(classes[0], class)
				}
			}
		}
		changes += trails.fewestTrails(free) - 1
		cost += c.step(rung) * int64(changes)
	}
	return cost
}

// inside returns changes on a rung that every walk over a group has.
func (c *chart) inside(k *course, rung int) int {
	if k.items == nil {
		return len(c.classesOf(k, rung)) - 1
	}
	least := c.fewest(k, rung, 0, 0)
	for f := range k.points {
		for l := range f {
			least = min(least, c.fewest(k, rung, f, l))
		}
	}
	return least
}

// fewestTrails returns how many trails all lines make at least: in every part one, and one for every two odd points that groups of
// a free choice cannot take away.
func (g *knots) fewestTrails(free map[int]int) int {
	odd, choice := map[int]int{}, map[int]int{}
	for point := range g.root {
		odd[g.find(point)] += g.ends[point] % 2
		choice[g.find(point)] += free[point]
	}
	trails := 0
	for part, count := range odd {
		trails += max(1, (count+1)/2-choice[part])
	}
	return trails
}
