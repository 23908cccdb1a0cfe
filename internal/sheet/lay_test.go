package sheet

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
)

// drawJob draws a job of some groups, with units on one or several lists.
func drawJob(t *rapid.T) cutJob {
	j := sledJob()
	j.batch = rapid.IntRange(1, 5).Draw(t, "batch")
	j.units = nil
	format := rapid.SampledFrom([]string{"%d", "004%d", "S-004%d"}).Draw(t, "serials")
	for i := range rapid.IntRange(1, 6).Draw(t, "units") {
		j.units = append(j.units, fmt.Sprintf(format, i+1))
	}
	j.wire = rapid.SampledFrom([]string{"W%03d", "NAV-%03d-22", "SLED-NAV-%03d"}).Draw(t, "ids")
	j.noReels = rapid.Bool().Draw(t, "no reels")
	j.groups = nil
	for g := range rapid.IntRange(1, 3).Draw(t, "groups") {
		counts := rapid.SliceOfN(rapid.IntRange(0, 13), 4, 4).Draw(t, "counts")
		counts[g]++ // a group holds a wire
		j.groups = append(j.groups, cutGroup{fmt.Sprintf("J%d", g+1), "module", counts})
	}
	return j
}

func layJob(t require.TestingT, m composer, p plan.Plan) Packet {
	packet, problems := lay(p, m)
	require.Empty(t, problems)
	return packet
}

func TestEveryPageIsFitToPrint(t *testing.T) {
	m := loadFonts(t)
	rapid.Check(t, func(t *rapid.T) {
		p := drawJob(t).plan()
		p.Connectors = nil // the checklists have tests of their own
		packet := layJob(t, m, p)
		require.Empty(t, page.Check(packet.Pages, m.Metrics))
		require.Len(t, packet.Codes, len(packet.Pages.Pages))
	})
}

// requireBetween finds items of a body above or below the heights given.
func requireBetween(t require.TestingT, pg page.Page, top, bottom page.Pt, m composer) {
	for _, item := range pg.Body {
		extent := page.Extent(item, m.Metrics)
		require.GreaterOrEqual(t, extent.Y, top, "%s: %v", pg.Name, item)
		require.LessOrEqual(t, extent.Y+extent.H, bottom, "%s: %v", pg.Name, item)
	}
}

func TestBodyStandsBetweenHeaderAndLegend(t *testing.T) {
	m := loadFonts(t)
	rapid.Check(t, func(t *rapid.T) {
		p := drawJob(t).plan()
		p.Connectors = nil
		for _, pg := range layJob(t, m, p).Pages.Pages {
			requireBetween(t, pg, mm(37), mm(257), m)
		}
	})
}

func TestBothPapersTakeTheSamePages(t *testing.T) {
	m := loadFonts(t)
	p := sledJob().plan()
	a4 := layJob(t, m, p)
	p.Paper.Size = "letter"
	p.Paper.Labels = letterStock
	letter := layJob(t, m, p)
	require.Equal(t, a4.Pages.Pages, letter.Pages.Pages)
	require.Empty(t, page.Check(letter.Pages, m.Metrics))
	require.Equal(t, page.Pt(61200), letter.Pages.Width)
}

func TestPagesAreNumberedWithinTheirSection(t *testing.T) {
	j := sledJob()
	j.batch = 1
	packet := layJob(t, loadFonts(t), j.plan())
	of := map[string]int{}
	names := map[string]bool{}
	for _, pg := range packet.Pages.Pages {
		key := fmt.Sprintf("%s %s", pg.Sheet, pg.Section)
		of[key]++
		require.Equal(t, of[key], pg.Number, pg.Name)
		require.False(t, names[pg.Name], pg.Name)
		names[pg.Name] = true
	}
	for _, pg := range packet.Pages.Pages {
		require.Equal(t, of[fmt.Sprintf("%s %s", pg.Sheet, pg.Section)], pg.Of, pg.Name)
	}
	for _, name := range []string{"cover/1", "contents/1", "safety/1", "cutlist/J1/1", "cutlist/J1/batch 2/1", "pins/J1/0041/1"} {
		require.True(t, names[name], name)
	}
	require.Equal(t, "cover/1", packet.Pages.Pages[0].Name)
}

// hashes returns the content hash of each page that outlives a revision.
func hashes(packet Packet) map[string]string {
	found := map[string]string{}
	for _, pg := range packet.Pages.Pages {
		if pg.Sheet != "cover" && pg.Sheet != "contents" {
			found[pg.Name] = pg.Hash
		}
	}
	return found
}

func codesByName(packet Packet) map[string]string {
	codes := map[string]string{}
	for _, row := range packet.Codes {
		codes[row.Name] = row.Code
	}
	return codes
}

func TestUnchangedPagesKeepHashAndCodeOverRevisions(t *testing.T) {
	m := loadFonts(t)
	rapid.Check(t, func(t *rapid.T) {
		p := drawJob(t).plan()
		p.Connectors = nil
		before := layJob(t, m, p)
		p.Packet.Revision, p.Packet.Supersedes, p.Packet.Issued, p.Packet.Due = "C", "B", "2027-01-08", ""
		p.Packet.Content = strings.Repeat("0", 64)
		p.Warnings, p.Defaults = nil, nil
		for i := range p.Wires {
			p.Wires[i].Place.Line += 7 // lines move, paper does not
		}
		after := layJob(t, m, p)
		require.Equal(t, hashes(before), hashes(after))
		codes := codesByName(after)
		for _, row := range before.Codes {
			if _, kept := hashes(before)[row.Name]; kept {
				require.Equal(t, row.Code, codes[row.Name], row.Name)
			}
		}
	})
}

func TestAnAddedGroupLeavesTheOtherPagesAlone(t *testing.T) {
	m := loadFonts(t)
	j := sledJob()
	before := layJob(t, m, j.plan())
	j.groups = append(j.groups, cutGroup{"J9", "added", []int{4, 2, 0, 1}})
	p := j.plan()
	after := hashes(layJob(t, m, p))
	for name, hash := range hashes(before) {
		if !strings.HasPrefix(name, "safety") {
			require.Equal(t, hash, after[name], name)
		}
	}
	require.Contains(t, after, "cutlist/J9/1")
}

func TestAChangedWireChangesItsPageAlone(t *testing.T) {
	m := loadFonts(t)
	p := sledJob().plan()
	before := hashes(layJob(t, m, p))
	p.Wires[0].CutUM += 1000
	after := hashes(layJob(t, m, p))
	for name, hash := range before {
		if name == "cutlist/J1/1" {
			require.NotEqual(t, hash, after[name])
		} else {
			require.Equal(t, hash, after[name], name)
		}
	}
}

func TestContentsListsEveryOtherPageWithItsHash(t *testing.T) {
	packet := layJob(t, loadFonts(t), sledJob().plan())
	var listed []string
	for _, pg := range packet.Pages.Pages {
		if pg.Sheet == "contents" {
			listed = append(listed, wordsOn(pg.Body)...)
		}
	}
	for _, pg := range packet.Pages.Pages {
		if pg.Sheet != "contents" {
			require.Contains(t, listed, pg.Name)
			require.Contains(t, listed, shortHash(pg.Hash), pg.Name)
		}
	}
	require.Contains(t, listed, "11 reel changes; no plan with these homes in this order of groups has fewer than 11")
}

func TestTheCoverCountsEveryPage(t *testing.T) {
	packet := layJob(t, loadFonts(t), sledJob().plan())
	require.Contains(t, wordsOn(packet.Pages.Pages[1].Body), fmt.Sprintf("of %d", len(packet.Pages.Pages)))
}

func TestScaleLinesAre100mm(t *testing.T) {
	packet := layJob(t, loadFonts(t), sledJob().plan())
	across, down := 0, 0
	for _, item := range packet.Pages.Pages[0].Body {
		rule, is := item.(page.Rule)
		if !is {
			continue
		}
		if rule.Y1 == rule.Y2 && rule.X2-rule.X1 == 28346 { // 100 mm x 72 pt / 25.4 mm
			across++
		}
		if rule.X1 == rule.X2 && rule.Y2-rule.Y1 == 28346 {
			down++
		}
	}
	require.Equal(t, []int{1, 1}, []int{across, down})
}

func TestFirstSymbolOfTheBodyIsTheScannerTest(t *testing.T) {
	packet := layJob(t, loadFonts(t), sledJob().plan())
	index := slices.IndexFunc(packet.Pages.Pages[0].Body, func(i page.Item) bool { _, is := i.(page.Symbol); return is })
	require.Equal(t, plan.ScanTest, packet.Pages.Pages[0].Body[index].(page.Symbol).String)
}

func TestPick(t *testing.T) {
	packet := layJob(t, loadFonts(t), sledJob().plan())
	picked, problems := Pick(packet, []string{"cutlist"})
	require.Empty(t, problems)
	require.Empty(t, picked.Labels.Pages)
	require.NotEmpty(t, picked.Pages.Pages)
	for _, pg := range picked.Pages.Pages {
		require.Equal(t, "cutlist", pg.Sheet)
		require.Contains(t, packet.Pages.Pages, pg)
	}
	labels, problems := Pick(packet, []string{"labels"})
	require.Empty(t, problems)
	require.Empty(t, labels.Pages.Pages)
	require.Equal(t, packet.Labels, labels.Labels)
	whole, problems := Pick(packet, nil)
	require.Empty(t, problems)
	require.Equal(t, packet, whole)
	_, problems = Pick(packet, []string{"cutlist", "cuts"})
	require.Equal(t, problem.List{{Check: "unknown-sheet", ID: "cuts", Text: `there is no sheet "cuts"`,
		Hint: "the sheets are " + strings.Join(sheetNames(), ", ")}}, problems)
}

func TestWhatCannotBePrintedIsRefusedWithItsPlace(t *testing.T) {
	m := loadFonts(t)
	cases := []struct {
		name, check string
		change      func(*plan.Plan)
		place       problem.Place
	}{
		{"note", "unprintable", func(p *plan.Plan) { p.Wires[3].Note = "mind the 雪" }, problem.Place{File: "loom.toml", Line: 104, Column: 1}},
		{"legend", "unprintable", func(p *plan.Plan) { p.Wires[4].A.Legend = "W105 ☃" }, problem.Place{File: "loom.toml", Line: 105, Column: 1}},
		{"long legend", "too-long", func(p *plan.Plan) { p.Wires[1].B.Legend = strings.Repeat("W102 ", 20) }, problem.Place{File: "loom.toml", Line: 102, Column: 1}},
		{"long notes", "too-long", func(p *plan.Plan) { p.Wires[2].Note = strings.Repeat("keep clear of the heater ", 40) }, problem.Place{File: "loom.toml", Line: 103, Column: 1}},
		{"long title", "too-long", func(p *plan.Plan) { p.Groups[1].Title = strings.Repeat("ice radar ", 12) }, problem.Place{File: "loom.toml", Line: 11, Column: 1}},
		{"job title", "too-long", func(p *plan.Plan) { p.Packet.Title = strings.Repeat("ice-survey sled ", 12) }, problem.Place{}},
	}
	for _, c := range cases {
		p := sledJob().plan()
		c.change(&p)
		_, problems := lay(p, m)
		require.NotEmpty(t, problems, c.name)
		for _, found := range problems {
			require.Equal(t, []any{c.check, c.place, problem.Error}, []any{found.Check, found.Place, found.Severity}, "%s: %s", c.name, found.Text)
			require.NotEmpty(t, found.Hint, c.name)
		}
	}
}

// wordsOn returns the strings of a page in drawing order.
func wordsOn(items []page.Item) []string {
	var found []string
	for _, item := range items {
		if t, is := item.(page.Text); is {
			found = append(found, t.String)
		}
	}
	return found
}
