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

func safetyPages(t require.TestingT, s plan.Safety, m composer) [][]page.Item {
	var problems problem.List
	sections := safetySections(&plan.Plan{Safety: []plan.Safety{s}}, m, &problems)
	requireSound(t, sections, problems, m)
	require.Len(t, sections, 1)
	return sections[0].pages
}

func TestDeferenceStandsFirstOnEverySafetyPage(t *testing.T) {
	m := loadFonts(t)
	rapid.Check(t, func(t *rapid.T) {
		safety := sledSafety()
		for i := range rapid.IntRange(0, 12).Draw(t, "blocks") {
			block := plan.SafetyBlock{Alert: true, Signal: rapid.SampledFrom([]string{"WARNING", "CAUTION", "NOTICE"}).Draw(t, "signal"), Title: fmt.Sprintf("hazard %d", i)}
			for range rapid.IntRange(1, 9).Draw(t, "lines") {
				block.Lines = append(block.Lines, rapid.SampledFrom([]string{"Keep it running.",
					"Stop and report it when you smell fume, see smoke or find the extraction off, and do not go on before it is resolved."}).Draw(t, "line"))
			}
			safety.Blocks = append(safety.Blocks, block)
		}
		pages := safetyPages(t, safety, m)
		for i, items := range pages {
			said := strings.Join(wording(items), " ")
			require.True(t, strings.HasPrefix(said, strings.Join(safety.Deference, " ")), "page %d", i+1)
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
		safety := plan.Safety{Title: "Safety", Heading: "blanks", Read: "read", Name: "name", Blocks: []plan.SafetyBlock{
			{Signal: signal, Alert: signal != "NOTICE", Title: "Laser beam", Lines: []string{"Keep covers closed."}}}}
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
	for filled := range 4 {
		safety := sledSafety()
		for i := range safety.Blanks {
			safety.Blanks[i].Value, safety.Blanks[i].Source = "", ""
			if i < filled {
				safety.Blanks[i].Value, safety.Blanks[i].Source = "shift board", "site rules, page 2"
			}
		}
		said := wording(slices.Concat(safetyPages(t, safety, m)...))
		count := func(text string) int {
			found := 0
			for _, s := range said {
				require.NotRegexp(t, regexp.MustCompile(`(?i)^(none|n/a|not applicable)$`), s)
				if s == text {
					found++
				}
			}
			return found
		}
		require.Equal(t, len(safety.Blanks)-filled, count(askOfficer))
		require.Equal(t, filled, count("shift board"))
		require.Equal(t, filled, count("site rules, page 2"))
	}
}

func TestEachLanguageHasItsPages(t *testing.T) {
	m := loadFonts(t)
	german := sledSafety()
	german.Language, german.Title = "de", "Arbeitsschutz"
	var problems problem.List
	sections := safetySections(&plan.Plan{Safety: []plan.Safety{sledSafety(), german}}, m, &problems)
	require.Empty(t, problems)
	require.Len(t, sections, 2)
	require.Equal(t, []string{"Safety", "Arbeitsschutz"}, []string{sections[0].title, sections[1].title})
	require.Equal(t, []string{"safety/1", "safety/de/1"}, []string{sections[0].pageName(1), sections[1].pageName(1)})
}

func TestSafetyPageJudgesNothing(t *testing.T) {
	m := loadFonts(t)
	pages := slices.Concat(safetyPages(t, sledSafety(), m)...)
	require.NotRegexp(t, regexp.MustCompile(`(?i)\bsafe(ly)?\b`), strings.Join(wording(pages), " "))
	require.Len(t, tickBoxes(pages), crew)
	require.Contains(t, wording(pages), "37 of the 182 wires of a unit are laser marked.")
}

// TestSignsSayWhatTheyAre finds number and words beside every shape, and a crowd of signs on lines of their own.
func TestSignsSayWhatTheyAre(t *testing.T) {
	m := loadFonts(t)
	safety := sledSafety()
	crowd := plan.SafetyBlock{Signal: "WARNING", Alert: true, Title: "crowd", Lines: []string{"Keep clear."}}
	for i := range 9 {
		crowd.Signs = append(crowd.Signs, plan.SafetySign{Number: fmt.Sprintf("M9%02d", i), Shape: "mandatory", Title: "Wear protective clothing and more of it"})
	}
	safety.Blocks = append(safety.Blocks, crowd)
	said := wording(slices.Concat(safetyPages(t, safety, m)...))
	for _, block := range safety.Blocks {
		for _, sign := range block.Signs {
			at := slices.Index(said, sign.Number)
			require.GreaterOrEqual(t, at, 0, sign.Number)
			require.Equal(t, sign.Title, said[at+1])
		}
	}
}

func TestSomebodySignsForTheValues(t *testing.T) {
	said := wording(slices.Concat(safetyPages(t, sledSafety(), loadFonts(t))...))
	require.Contains(t, said, "Values copied and checked by")
	require.Equal(t, crew+1, strings.Count(strings.Join(said, "|"), "20__-__-__"))
}
