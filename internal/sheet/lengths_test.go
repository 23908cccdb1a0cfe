package sheet

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
)

// summedPlan is a plan with so many length rows of every kind and ids of a given length.
func summedPlan(rows, idLength int, cutUM int64) plan.Plan {
	p := sledJob().plan()
	p.Lengths, p.Tolerance, p.Line.StepUM = nil, "as the job gives it", 1000
	name := func(letter string, i int) string {
		return letter + strings.Repeat("0", max(idLength-len(fmt.Sprint(i))-1, 0)) + fmt.Sprint(i)
	}
	for i := range rows {
		row := plan.LengthRow{Kind: "wire", ID: name("W", i), From: name("J", 1) + ":" + name("", i), To: name("P", 2) + ":" + name("", i), Status: "board",
			BaseUM: cutUM - 300_700, TailsUM: 240_000, EndAUM: 29_400, EndBUM: -600, TwistUM: 16_600, LineUM: 12_300, RoundingUM: 3_000, CutUM: cutUM,
			FinishedUM: cutUM - 60_700, Tolerance: &plan.Tolerance{LongerUM: 617_250}}
		switch i % 5 {
		case 1:
			row.Kind, row.From = "cable", name("J", 1)+"+leaves@"+name("N", 9)+"+capped@"+name("N", 6)
		case 2:
			row = plan.LengthRow{Kind: "core", ID: name("S", i), From: row.From, To: row.To, Status: "board", TrimUM: [2]int64{0, 550_000}}
		case 3:
			row = plan.LengthRow{Kind: "wire", ID: row.ID, From: row.From, To: row.To, Status: "measure", Apart: "measure"}
		}
		p.Lengths = append(p.Lengths, row)
	}
	return p
}

// texts returns what a page prints.
func texts(items []page.Item) []string {
	var words []string
	for _, item := range items {
		if text, is := item.(page.Text); is {
			words = append(words, text.String)
		}
	}
	return words
}

func TestLengthSumsFitWhateverTheirIds(t *testing.T) {
	m := loadFonts(t)
	rapid.Check(t, func(t *rapid.T) {
		cut := int64(rapid.SampledFrom([]int{400_000, 1_428_750, 65_432_100, 999_999_900}).Draw(t, "cut"))
		p := summedPlan(rapid.IntRange(1, 90).Draw(t, "rows"), rapid.IntRange(1, 16).Draw(t, "id"), cut)
		var problems problem.List
		document := page.Document{Width: mm(210), Height: mm(297)}
		for _, s := range sheetsOf(p.Packet, lengthSections(&p, m, &problems), m) {
			document.Pages = append(document.Pages, s.Page)
		}
		require.Empty(t, problems)
		require.Empty(t, page.Check(document, m.Metrics))
		found := map[string]int{}
		for _, pg := range document.Pages {
			require.Contains(t, texts(pg.Body), "cut", "every page has heads")
			for _, word := range texts(pg.Body) {
				found[word]++
			}
		}
		for _, row := range p.Lengths {
			require.Equal(t, 1, found[row.ID], row.ID)
		}
	})
}

func TestLengthSumsSayWhatHasNoSum(t *testing.T) {
	p := summedPlan(5, 3, 2_000_000)
	p.Lengths[4].Apart, p.Lengths[4].Status = "bought", "given"
	var words []string
	for _, pg := range layJob(t, loadFonts(t), p).Pages.Pages {
		if pg.Sheet == "lengths" {
			words = append(words, texts(pg.Body)...)
		}
	}
	for _, word := range []string{"cut with its cable; cut off: END A 0, END B 550 mm", "to be measured at the bench", "not cut on the line: bought", "1699.3", "-0.6",
		"2000", "-0 +617.25", "bench", "END OF LIST: 5 rows"} {
		require.Contains(t, words, word)
	}
	require.Contains(t, strings.Join(words, " "), "Tolerance of the finished length: as the job gives it.")
}

func TestThirtyLengthsStandOnAPage(t *testing.T) {
	p := summedPlan(0, 3, 2_000_000)
	for range 61 {
		p.Lengths = append(p.Lengths, summedPlan(1, 3, 2_000_000).Lengths[0])
	}
	var problems problem.List
	pages := lengthSections(&p, loadFonts(t), &problems)[0].pages
	require.Empty(t, problems)
	require.Len(t, pages, 3)
	rows := 0
	for _, word := range texts(pages[1]) {
		if strings.HasPrefix(word, "W") {
			rows++
		}
	}
	require.GreaterOrEqual(t, rows, 30)
}
