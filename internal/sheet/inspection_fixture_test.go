package sheet

import (
	"fmt"

	"loomleaf/internal/plan"
)

// sledRoute is a route of some operations, every second with a hold point.
func sledRoute(operations int) []plan.Operation {
	names := []string{"issue material", "mark, measure and cut", "lay up twists", "strip and crimp", "splices at the bench", "form board: lay in, insert",
		"splices at the board", "studs: stack and tighten", "close connectors", "continuity test", "final inspection"}
	var rows []plan.Operation
	for i, name := range names[:operations] {
		o := plan.Operation{Number: 10 * (i + 1), Name: name}
		if i%2 == 1 {
			o.Hold = "splices, before shrinking"
		}
		rows = append(rows, o)
	}
	return rows
}

// sledTags are reject tags.
func sledTags(count int) []plan.Tag {
	var tags []plan.Tag
	for i := range count {
		number := fmt.Sprintf("%02d", i+1)
		tags = append(tags, plan.Tag{Number: number, Code: fixtureCode(plan.KindTag, "tag "+number, 0)})
	}
	return tags
}
