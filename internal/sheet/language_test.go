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

// TestSheetsOfTheLineAndTheBenchFitInGerman lays cut lists, what is not cut on the line, strip lists, crimp sheet and first piece of
// random jobs, and set-up and length sums: long words and long ids together.
func TestSheetsOfTheLineAndTheBenchFitInGerman(t *testing.T) {
	m := inGerman(t)
	rapid.Check(t, func(t *rapid.T) {
		var problems problem.List
		cut := drawPlan(t)
		cut.Packet.Draft = rapid.Bool().Draw(t, "draft")
		units := []string{"0041", "S-0042", "43", "44", "45"}[:rapid.IntRange(1, 5).Draw(t, "units")]
		inspected := plan.Plan{Packet: plan.Packet{Number: "MOR-0412", Part: "MOR-LM-210", Lists: [][]string{units}}}
		drawInspected(t, &inspected)
		length := rapid.SampledFrom([]int64{400_000, 1_428_750, 65_432_100, 999_999_900}).Draw(t, "cut")
		summed := summedPlan(rapid.IntRange(1, 60).Draw(t, "rows"), rapid.IntRange(1, 16).Draw(t, "id"), length)
		document := sheetDocument(slices.Concat(stripSections(&inspected, m, &problems), crimpSections(&inspected, m, &problems), firstPieceSections(&inspected, m, &problems),
			lengthSections(&summed, m, &problems)))
		for _, s := range sheetsOf(cut.Packet, slices.Concat(cutSections(&cut, m, &problems), apartSections(&cut, m, &problems)), m) {
			document.Pages = append(document.Pages, s.Page)
		}
		require.Empty(t, problems)
		require.Empty(t, page.Check(document, m.Metrics))
		for _, pg := range document.Pages {
			if pg.Sheet == "cutlist" || pg.Sheet == "apart" {
				requireClear(t, pg.Body, m)
			}
		}
	})
	setup, problems := setupPlan(), problem.List{}
	require.Empty(t, page.Check(sheetDocument(setupSections(&setup, m, &problems)), m.Metrics))
	require.Empty(t, problems)
}

// TestEveryEndOfACableIsNamedInItsLanguage names what has no id, alone and among what the cores of a cable go to.
func TestEveryEndOfACableIsNamedInItsLanguage(t *testing.T) {
	m := inGerman(t)
	require.Equal(t, "E4+Abgang@N9+Kappe@N6", m.placeWords("E4+leaves@N9+capped@N6"))
	require.Equal(t, "C1 Schirm", m.placeWords("C1 shield"))
	require.Equal(t, "J1:a", m.placeWords("J1:a"))
}
