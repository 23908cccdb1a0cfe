package sheet

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
)

// cutPages lays the cut lists of a plan.
func cutPages(t require.TestingT, m composer, p plan.Plan) []section {
	var problems problem.List
	sections := cutSections(&p, m, &problems)
	require.Empty(t, problems)
	return sections
}

func TestEveryWireOfEveryUnitHasOneBox(t *testing.T) {
	m := loadFonts(t)
	rapid.Check(t, func(t *rapid.T) {
		p := drawJob(t).plan()
		printed, boxes, symbols := map[string]int{}, 0, map[string]int{}
		for _, s := range cutPages(t, m, p) {
			for _, items := range s.pages {
				for _, item := range items {
					switch i := item.(type) {
					case page.Text:
						printed[i.String]++
					case page.Box:
						if i.W == boxSide() && i.X < live.X+mm(45) && i.H == i.W {
							boxes++
						}
					case page.Symbol:
						symbols[i.String]++
					}
				}
			}
		}
		switches := 0
		for _, g := range p.Groups {
			for _, steps := range g.Steps {
				for _, step := range steps {
					if step.Kind == plan.StepSwitch {
						switches++ // a switch has a box of the same size
					}
				}
			}
		}
		require.Equal(t, len(p.Wires)*len(p.Packet.Units)+switches, boxes)
		for _, w := range p.Wires {
			require.Equal(t, len(p.Packet.Lists), printed[w.ID], w.ID)
			require.Equal(t, len(p.Packet.Lists), symbols[w.Code.String()], w.ID)
		}
	})
}

func TestNoPageHoldsALoneRow(t *testing.T) {
	m := loadFonts(t)
	rapid.Check(t, func(t *rapid.T) {
		p := drawJob(t).plan()
		for _, s := range cutPages(t, m, p) {
			for n, items := range s.pages {
				rows := 0
				for _, item := range items {
					if _, is := item.(page.Symbol); is {
						rows++
					}
				}
				if len(s.pages) > 1 && n == len(s.pages)-1 {
					require.GreaterOrEqual(t, rows, 2, s.name)
				}
				require.GreaterOrEqual(t, rows, 1, s.name)
				requireLoadBeforeRow(t, m, items)
			}
		}
	})
}

// requireLoadBeforeRow asks that a wire row follows every load on its page.
func requireLoadBeforeRow(t require.TestingT, m composer, items []page.Item) {
	open := false
	for _, item := range items {
		switch i := item.(type) {
		case page.Symbol:
			open = false
		case page.Text:
			open = open || i.String == m.Say("cutlist.load") || i.String == m.Say("cutlist.switch")
		}
	}
	require.False(t, open, "a load ends a page")
}

// requireSymbolsApart finds symbols of neighbouring rows that one look of a scanner could take in.
func requireSymbolsApart(t require.TestingT, pages [][]page.Item) {
	for _, items := range pages {
		var last *page.Symbol
		for _, item := range items {
			symbol, is := item.(page.Symbol)
			if !is {
				continue
			}
			if last != nil {
				dx, dy := symbol.X-last.X, symbol.Y-last.Y
				require.GreaterOrEqual(t, dx*dx+dy*dy, mm(20)*mm(20), "%s and %s", last.Says, symbol.Says)
			}
			last = &symbol
		}
	}
}

func TestSymbolsOfNeighbouringRowsStandApart(t *testing.T) {
	m := loadFonts(t)
	rapid.Check(t, func(t *rapid.T) {
		p := drawJob(t).plan()
		for _, s := range cutPages(t, m, p) {
			requireSymbolsApart(t, s.pages)
		}
	})
}

func TestEveryPageOpensWithWhatIsOn(t *testing.T) {
	j := sledJob()
	j.groups = []cutGroup{{"J1", "main data module", []int{20, 14, 0, 0}}}
	p := j.plan()
	p.Groups[0].StillOn[0] = "R140"
	s := cutPages(t, loadFonts(t), p)[0]
	require.Greater(t, len(s.pages), 2)
	running := "R140"
	for _, items := range s.pages {
		said := wordsOn(items)
		at := slices.Index(said, "STILL ON:")
		require.Equal(t, running, said[at+1])
		for i, text := range said {
			if text == "LOAD" {
				running = said[i+1]
			}
		}
	}
}

func TestARowOfSomeUnitsHasTheirBoxesAlone(t *testing.T) {
	p := sledJob().plan()
	steps := p.Groups[0].Steps[0]
	first := steps[1]
	steps[1].Units = []string{"0041"}
	load := steps[0]
	load.Reel = "R119"
	first.Units = []string{"0042"}
	p.Groups[0].Steps[0] = slices.Insert(steps, 2, load, first)
	before := len(cutPages(t, loadFonts(t), sledJob().plan())[0].pages[0])
	s := cutPages(t, loadFonts(t), p)[0]
	require.NotZero(t, before)
	all := wordsOn(s.pages[0])
	require.Contains(t, all, "this row: unit 0041 only")
	require.Contains(t, all, "this row: unit 0042 only")
	count := 0
	for i, text := range all {
		if text == first.Wire {
			require.Equal(t, "1", all[i-1], "the wire keeps its number")
			count++
		}
	}
	require.Equal(t, 2, count)
}

func TestLoadSaysMethodAndInkInWords(t *testing.T) {
	for want, step := range map[string]plan.Step{
		"UV laser": {Method: "laser"}, "BLACK ink": {Method: "ink", Ink: "black"}, "WHITE ink": {Method: "ink", Ink: "white"},
		"TEST FIRST: as proved": {Method: "test first"}, "NO MARK": {Method: "none"},
		"SLEEVES: no mark on the line": {Method: "sleeve"},
	} {
		require.Equal(t, want, loadFonts(t).methodWords(step.Method, step.Ink).text)
	}
}

func TestLegendsStandAsOnTheWire(t *testing.T) {
	m := loadFonts(t)
	for _, ids := range []string{"W%03d", "SLED-NAV-%03d", "SLED-NAV-POD-%03d-22"} {
		j := sledJob()
		j.units, j.wire = []string{"0041", "0042", "0043", "0044"}, ids
		p := j.plan()
		printed := map[string]bool{}
		for _, s := range cutPages(t, m, p) {
			for _, items := range s.pages {
				for _, text := range wordsOn(items) {
					printed[text] = true
				}
			}
		}
		for _, w := range p.Wires {
			if w.A.Legend != "" {
				require.True(t, printed[w.A.Legend] && printed[w.B.Legend], w.ID)
			}
		}
		require.True(t, printed["no mark"])
	}
}

func TestColumnsFollowTheLongestLegend(t *testing.T) {
	m := loadFonts(t)
	measure := func(legend string) cutColumns {
		p := sledJob().plan()
		p.Wires[0].B.Legend = legend
		return measureColumns(p, &pen{metrics: m})
	}
	require.False(t, measure("W101 J1:1>P2:7").stacked)
	require.True(t, measure(strings.Repeat("x", 30)).stacked)
	require.False(t, measure(strings.Repeat("x", 30)).below)
	require.True(t, measure(strings.Repeat("x", 50)).below)
}

func TestCountsStandAfterEveryTenWires(t *testing.T) {
	j := sledJob()
	j.groups = []cutGroup{{"J1", "main data module", []int{31, 0, 0, 0}}, {"J2", "ice radar", []int{10, 0, 0, 0}}}
	sections := cutPages(t, loadFonts(t), j.plan())
	counts := func(s section) []string {
		var found []string
		for _, items := range s.pages {
			for _, text := range wordsOn(items) {
				if strings.HasPrefix(text, "of 10 counted") {
					found = append(found, text)
				}
			}
		}
		return found
	}
	require.Equal(t, []string{"of 10 counted, each unit, rows 1 to 10", "of 10 counted, each unit, rows 11 to 20",
		"of 10 counted, each unit, rows 21 to 30"}, counts(sections[0]))
	require.Empty(t, counts(sections[1]), "the count of the group closes it")
	last := sections[1].pages[len(sections[1].pages)-1]
	require.Equal(t, 2, len(slices.DeleteFunc(wordsOn(last), func(s string) bool { return s != "of 10" })))
}

func TestLengthsPrintExactly(t *testing.T) {
	for um, want := range map[int64]string{1_432_000: "1432", 4_500: "4.5", 0: "0", 119_380: "119.38"} {
		require.Equal(t, want, exactMM(um))
	}
	require.Equal(t, "21.4", metres(21_340_001))
	require.Equal(t, "40.9", metresDown(40_999_999))
	require.Equal(t, "0.0", metresDown(99_999))
}
