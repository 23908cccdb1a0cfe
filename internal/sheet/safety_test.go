package sheet

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
)

const askOfficer = "to be filled in by the qualified person"

func safetyPages(t require.TestingT, s plan.Safety, m page.Metrics) [][]page.Item {
	var problems problem.List
	sections := safetySections(plan.Plan{Safety: s, Wires: []plan.Wire{{ID: "W1", Method: "laser"}, {ID: "W2", Method: "ink"}}}, m, &problems)
	requireSound(t, sections, problems, m)
	require.Len(t, sections, 1)
	return sections[0].pages
}

func TestDeferenceStandsFirstOnEverySafetyPage(t *testing.T) {
	m := loadFonts(t)
	rapid.Check(t, func(t *rapid.T) {
		safety := sledSafety()
		for i := range rapid.IntRange(0, 12).Draw(t, "blocks") {
			block := plan.SafetyBlock{Signal: rapid.SampledFrom([]string{"WARNING", "CAUTION", "NOTICE"}).Draw(t, "signal"), Title: fmt.Sprintf("hazard %d", i)}
			for range rapid.IntRange(1, 9).Draw(t, "lines") {
				block.Lines = append(block.Lines, rapid.SampledFrom([]string{"Keep it running.",
					"Stop and report it when you smell fume, see smoke or find the extraction off, and do not go on before it is resolved."}).Draw(t, "line"))
			}
			safety.Blocks = append(safety.Blocks, block)
		}
		pages := safetyPages(t, safety, m)
		for _, items := range pages {
			require.Equal(t, safety.Deference[:2], wording(items)[:2])
		}
		said := wording(slices.Concat(pages...))
		for _, block := range safety.Blocks {
			require.Equal(t, 1, strings.Count("|"+strings.Join(said, "|")+"|", "|"+block.Title+"|"))
		}
	})
}

func TestWarningAndCautionCarryTheTriangle(t *testing.T) {
	m := loadFonts(t)
	for signal, paths := range map[string]int{"WARNING": 2, "CAUTION": 2, "NOTICE": 0} {
		safety := plan.Safety{Blocks: []plan.SafetyBlock{{Signal: signal, Title: "Laser beam", Lines: []string{"Keep covers closed."}}}}
		items := slices.Concat(safetyPages(t, safety, m)...)
		found := 0
		for _, item := range items {
			if _, ok := item.(page.Path); ok {
				found++
			}
		}
		require.Equal(t, paths, found, signal)
		require.Contains(t, wording(items), signal)
	}
}

func TestBlanksStayBlank(t *testing.T) {
	m := loadFonts(t)
	for _, test := range []struct {
		safety plan.Safety
		blanks int
	}{{plan.Safety{}, 5}, {plan.Safety{Officer: "shift board"}, 4}, {plan.Safety{Officer: "shift board", Emergency: "0000"}, 3}} {
		said := wording(slices.Concat(safetyPages(t, test.safety, m)...))
		found := 0
		for _, s := range said {
			require.NotRegexp(t, regexp.MustCompile(`(?i)^(none|n/a|not applicable)$`), s)
			if s == askOfficer {
				found++
			}
		}
		require.Equal(t, test.blanks, found)
		if test.safety.Officer != "" {
			require.Contains(t, said, test.safety.Officer)
		}
	}
}

func TestSafetyPageJudgesNothing(t *testing.T) {
	m := loadFonts(t)
	pages := slices.Concat(safetyPages(t, sledSafety(), m)...)
	require.NotRegexp(t, regexp.MustCompile(`(?i)\bsafe(ly)?\b`), strings.Join(wording(pages), " "))
	require.Len(t, tickBoxes(pages), crew)
	require.Contains(t, wording(pages), "Of the 2 wires of a unit: 1 UV laser marked, 1 ink marked.")
	for _, bad := range []plan.Safety{
		{Deference: []string{"This line is safe."}},
		{Blocks: []plan.SafetyBlock{{Signal: "NOTICE", Title: "Safe work"}}},
		{Blocks: []plan.SafetyBlock{{Signal: "NOTICE", Title: "Lamp", Lines: []string{"It can safely be opened."}}}},
	} {
		var problems problem.List
		safetySections(plan.Plan{Safety: bad}, m, &problems)
		require.Len(t, problems, 1)
		require.Equal(t, "safety-claim", problems[0].Check)
	}
}
