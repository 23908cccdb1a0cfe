package sheet

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"loomleaf/internal/job"
	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
	"loomleaf/templates"
)

// inGerman composes with the longer words.
func inGerman(t require.TestingT) composer {
	m := loadFonts(t)
	german, err := job.Words(templates.Files, "de")
	require.NoError(t, err)
	m.Words = german
	return m
}

// TestSheetsOfTheBoardFitInGerman lays pins, joints, routing, spares and continuity of random jobs: long words and long ids together.
func TestSheetsOfTheBoardFitInGerman(t *testing.T) {
	m := inGerman(t)
	rapid.Check(t, func(t *rapid.T) {
		var problems problem.List
		pins := sledPlan([]pinCase{drawPinCase(t)}, "0041")
		joints := drawPlan(t)
		laid := laidPlan(rapid.IntRange(1, 60).Draw(t, "rows"), rapid.IntRange(1, 16).Draw(t, "id"), rapid.IntRange(1, 12).Draw(t, "nodes"))
		units := []string{"0041", "S-0042", "43", "44", "45"}[:rapid.IntRange(1, 5).Draw(t, "units")]
		inspected := plan.Plan{Packet: plan.Packet{Number: "MOR-0412", Part: "MOR-LM-210", Lists: [][]string{units}}}
		drawInspected(t, &inspected)
		requireSound(t, pinSections(pins, m, &problems), problems, m)
		if sections := jointSections(&joints, m, &problems); len(sections) > 0 {
			requireSound(t, sections, problems, m)
		}
		document := sheetDocument(slices.Concat(routingSections(&laid, m, &problems), spareSections(&inspected, m, &problems), continuitySections(&inspected, m, &problems)))
		require.Empty(t, problems)
		require.Empty(t, page.Check(document, m.Metrics))
	})
}

// TestTheMapOfTheBoardFitsInGerman lays the map of a small board, of a large one in tiles, and of one without places.
func TestTheMapOfTheBoardFitsInGerman(t *testing.T) {
	m := inGerman(t)
	for _, nodes := range []int{2, 40, 300} {
		p := scatteredPlan(nodes, 7)
		p.Board.ID = "FB-300-SURVEY-12"
		pages := mapDocument(t, m, p).Pages
		require.Equal(t, nodes == 300, len(pages) > 10)
	}
	undrawn := scatteredPlan(5, 7)
	undrawn.Board.Drawn = false
	mapDocument(t, m, undrawn)
}
