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

// drawPlan draws a plan with every construct and without checklists, which have tests of their own.
func drawPlan(t *rapid.T) plan.Plan {
	j := drawJob(t)
	j.units = j.units[:min(len(j.units), 4)]
	j.groups = j.groups[:min(len(j.groups), 2)]
	for _, g := range j.groups {
		for i := range g.counts {
			g.counts[i] = min(g.counts[i], 6)
		}
	}
	p := j.plan()
	drawConstructs(t).into(&p)
	p.Connectors = nil
	return p
}

func TestEveryConstructIsFitToPrint(t *testing.T) {
	m := loadFonts(t)
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		p.Packet.Draft = rapid.Bool().Draw(t, "draft")
		p.Problems = []plan.PlacedRemark{{Severity: "release", Text: `splice "SP1", part: "TBD" is a placeholder`}}
		packet := layJob(t, m, p)
		require.Empty(t, page.Check(packet.Pages, m.Metrics))
		for _, pg := range packet.Pages.Pages {
			if pg.Sheet == "cutlist" || pg.Sheet == "apart" || pg.Sheet == "joints" {
				requireClear(t, pg.Body, m)
			}
			requireBetween(t, pg, mm(37), mm(256), m)
		}
	})
}

// Wires, cables, and what is not cut on the line have one box a unit, one symbol a list, and cores one line a list.
func TestEveryCutHasOneBox(t *testing.T) {
	m := loadFonts(t)
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		var problems problem.List
		sections := append(cutSections(&p, m, &problems), apartSections(&p, m, &problems)...)
		require.Empty(t, problems)
		boxes, printed, symbols := 0, map[string]int{}, map[string]int{}
		for _, s := range sections {
			for _, item := range slices.Concat(s.pages...) {
				switch i := item.(type) {
				case page.Text:
					printed[i.String]++
				case page.Box:
					if i.W == boxSide() && i.H == i.W && i.X < live.X+mm(45) {
						boxes++
					}
				case page.Symbol:
					symbols[i.String]++
				}
			}
		}
		pieces, switches := len(p.Apart), 0
		for _, g := range p.Groups {
			pieces += len(g.Wires)
			for _, step := range slices.Concat(g.Steps...) {
				if step.Kind == plan.StepSwitch {
					switches++
				}
			}
		}
		require.Equal(t, pieces*len(p.Packet.Units)+switches, boxes)
		for _, w := range p.Wires {
			if w.Cable == "" {
				require.Equal(t, len(p.Packet.Lists), symbols[w.Code.String()], w.ID)
				continue
			}
			require.Zero(t, symbols[w.Code.String()], "a core has no cut of its own")
			require.Equal(t, len(p.Packet.Lists), printed[w.ID], w.ID)
		}
		for _, c := range p.Cables {
			require.Equal(t, len(p.Packet.Lists), symbols[c.Code.String()], c.ID)
		}
		for _, item := range p.Apart {
			require.Equal(t, len(p.Packet.Lists), printed[item.From+" > "+item.To]-sameWay(p, item), item.ID)
		}
	})
}

// sameWay counts the other lines that print the way of an item.
func sameWay(p plan.Plan, item plan.Apart) int {
	others := 0
	for _, other := range p.Apart {
		if other.ID != item.ID && other.From == item.From && other.To == item.To {
			others += len(p.Packet.Lists)
		}
	}
	return others
}

// TestALoadStandsWithItsCable grows a cable until it fills more than a page: its load never ends the page before, and cores follow
// on the page of their cable.
func TestALoadStandsWithItsCable(t *testing.T) {
	for _, m := range []composer{loadFonts(t), inGerman(t)} {
		for cores := 8; cores < 40; cores++ {
			j := sledJob()
			j.groups = []cutGroup{{"J1", "main data module", []int{0, 0, 0, 0}}}
			p := j.plan()
			constructs{cables: []int{cores}}.into(&p)
			for _, s := range cutPages(t, m, p) {
				for _, items := range s.pages {
					requireLoadBeforeRow(t, m, items)
				}
				require.Contains(t, texts(s.pages[0]), "SC1-01")
				require.Contains(t, texts(s.pages[len(s.pages)-1]), fmt.Sprintf("SC1-%02d", cores), "the last core stands with the ending")
			}
		}
	}
}

func TestSymbolsOfConstructsStandApart(t *testing.T) {
	m := loadFonts(t)
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		var problems problem.List
		for _, s := range slices.Concat(cutSections(&p, m, &problems), apartSections(&p, m, &problems), jointSections(&p, m, &problems)) {
			requireSymbolsApart(t, s.pages)
		}
	})
}

func TestEveryUnitHasEveryJointOnce(t *testing.T) {
	m := loadFonts(t)
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		var problems problem.List
		sections := jointSections(&p, m, &problems)
		require.Empty(t, problems)
		if len(p.Joints) == 0 && len(shieldsOf(&p, m)) == 0 {
			require.Empty(t, sections)
			return
		}
		require.Len(t, sections, len(p.Packet.Units))
		for u, s := range sections {
			var codes []string
			wires, ticks, hardware := map[string]int{}, 0, 0
			for _, kind := range []string{"splice", "terminal", "stud"} {
				for _, j := range p.Joints {
					if j.Kind != kind {
						continue
					}
					if kind != "stud" {
						codes = append(codes, j.Codes[u].String())
					}
					ticks += len(j.SlideOn) + len(j.Stack) + len((&jointList{plan: &p}).doneWords(j))
					for _, side := range j.Sides {
						for _, line := range side.Lines {
							wires[line.Wire]++
						}
					}
					hardware += len(j.Stack)
				}
			}
			all := slices.Concat(s.pages...)
			require.Equal(t, codes, codesOf(all, plan.KindLanding), "every joint once, in order")
			for _, item := range all {
				if text, is := item.(page.Text); is && text.Size == 13*page.Point {
					wires[text.String]--
				}
			}
			for wire, rest := range wires {
				require.Zero(t, rest, wire)
			}
			for _, g := range p.Groups {
				if slices.ContainsFunc(p.Joints, func(j plan.Joint) bool { return takesFrom(j, g.Connector) }) {
					ticks++
				}
			}
			require.Len(t, tickBoxes(all), ticks+2*len(shieldsOf(&p, m)))
			require.Contains(t, wording(s.pages[len(s.pages)-1]), "installer, signature")
		}
	})
}

// codeLike matches anything that could be scanned or keyed in.
var codeLike = regexp.MustCompile(`[CPTHKRXG]\d{6}-\d\d|[CPTHKRXG] ?\d{11}`)

func TestADraftCannotBeTakenForAPacket(t *testing.T) {
	m := loadFonts(t)
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		p.Connectors = sledPlan(sledCases()[:1], p.Packet.Units...).Connectors
		p.Packet.Draft = true
		packet := layJob(t, m, p)
		require.Empty(t, packet.Labels.Pages)
		require.Empty(t, packet.Codes)
		require.True(t, strings.HasSuffix(packet.Pages.Name, ".draft.pdf"))
		for _, pg := range packet.Pages.Pages {
			large := page.Pt(0)
			for _, item := range pg.Items() {
				switch i := item.(type) {
				case page.Symbol:
					require.Fail(t, "a draft has a symbol", pg.Name)
				case page.Text:
					require.False(t, codeLike.MatchString(i.String), "%s: %s", pg.Name, i.String)
					if i.String == "DRAFT: DO NOT BUILD" {
						large = max(large, i.Size)
					}
				}
			}
			require.Equal(t, 28*page.Point, large, pg.Name)
		}
	})
}

func TestListsThatGoOnSayWhichListGoesOn(t *testing.T) {
	m := loadFonts(t)
	p := sledJob().plan()
	for i := range 200 {
		p.Defaults = append(p.Defaults, plan.Default{Key: fmt.Sprintf("line.key_%d", i), Value: "1"})
	}
	pages := layJob(t, m, p).Pages.Pages
	pages = slices.DeleteFunc(pages, func(pg page.Page) bool { return pg.Sheet != "contents" })
	require.Greater(t, len(pages), 2)
	for _, pg := range pages {
		words := wordsOn(pg.Body)
		listed := slices.ContainsFunc(words, func(text string) bool { return strings.HasPrefix(text, "line.key_") })
		headed := slices.Contains(words, "Defaults in force") || slices.Contains(words, "Defaults in force, continued")
		require.Equal(t, listed, headed, "%s", pg.Name)
	}
}

func TestADraftSaysWhatIsNotReady(t *testing.T) {
	m := loadFonts(t)
	p := sledJob().plan()
	p.Packet.Draft, p.Packet.Part, p.Connectors[0].Part = true, "", "TBD"
	p.Problems = []plan.PlacedRemark{{Severity: "release", Text: `connector "J1", part: "TBD" is a placeholder`}, {Severity: "warning", Text: "never mind"}}
	packet := layJob(t, m, p)
	require.Empty(t, page.Check(packet.Pages, m.Metrics))
	var contents, cover []string
	for _, pg := range packet.Pages.Pages {
		switch pg.Sheet {
		case "contents":
			contents = append(contents, wordsOn(pg.Body)...)
		case "cover":
			cover = append(cover, wordsOn(pg.Body)...)
		}
	}
	require.Contains(t, contents, `connector "J1", part: "TBD" is a placeholder`)
	require.NotContains(t, contents, "never mind")
	require.Contains(t, cover, "part number", "an empty box stands where it is missing")
	boxes := 0
	for _, pg := range packet.Pages.Pages {
		for i, item := range pg.Body {
			text, is := item.(page.Text)
			if !is || pg.Sheet != "pins" || !strings.Contains(text.String, "TBD") {
				continue
			}
			box, is := pg.Body[i+1].(page.Box)
			require.True(t, is && within(page.Extent(text, m.Metrics), box.Rect), "%s is boxed", text.String)
			boxes++
		}
	}
	require.Equal(t, len(p.Packet.Units), boxes)
	p.Packet.Draft = false
	for _, pg := range layJob(t, m, p).Pages.Pages {
		require.NotContains(t, strings.Join(wordsOn(pg.Items()), "|"), "DRAFT")
		require.NotContains(t, wordsOn(pg.Body), "Not ready")
	}
}

func TestUndecided(t *testing.T) {
	for text, want := range map[string]bool{"?": true, "MOR-TBD-3": true, "part tbc": true, "TBDX": false, "MOR-LM-210": false, "": false} {
		require.Equal(t, want, undecided(text), text)
	}
}

func TestRowsSayWhatIsSpecial(t *testing.T) {
	m := loadFonts(t)
	p := sledJob().plan()
	constructs{cables: []int{2}, splices: []int{3}}.into(&p)
	p.Wires[0].B = plan.End{At: "SP1", Stage: "bench", StripUM: 7000, Legend: "W101 SP1>J1:1"}
	said := wordsOn(slices.Concat(cutPages(t, m, p)[0].pages...))
	for _, words := range []string{
		"END B: splice SP1", "END B: capped at N6; finish cap CP-2", "END A: shield of C1", "END B: stays loose: do not land",
		"END A: strip jacket 12, braid 8, dielectric 4 mm", "twist T1 with W121 and W122, lay 25 mm, 40 mm straight at both ends",
		"CABLE, one cut; in place of strip: jacket off", "END A: shield pigtail C1-PA to J1:9", "END B: shield cut back", "no wire: core PE",
		"C1 core 2", "SC1-02", "J1:1.10 > leaves@N9", "END B: trim 500 mm, at the board: do not strip, leaves at N9; finish tinned",
		"14 wires and 1 cable per unit",
	} {
		require.Contains(t, said, words)
	}
	require.Equal(t, "150", said[slices.Index(said, "C1 P2>J1")-1], "jacket off in place of strip")
}

func TestACableLargerThanAPageIsPartedBetweenItsCores(t *testing.T) {
	m := loadFonts(t)
	j := sledJob()
	j.groups = j.groups[:1]
	p := j.plan()
	constructs{cables: []int{127}, words: "keep it clear of the edge of the frame"}.into(&p)
	s := cutPages(t, m, p)[0]
	require.Empty(t, page.Check(sheetDocument([]section{s}), m.Metrics))
	printed := strings.Join(wordsOn(slices.Concat(s.pages...)), "|")
	for i := range 127 {
		require.Equal(t, 1, strings.Count(printed, fmt.Sprintf("|SC1-%02d|", i+1)))
	}
	require.Greater(t, len(s.pages), 3)
}

func TestAMeasuredLengthHasLinesToWriteOn(t *testing.T) {
	m := loadFonts(t)
	p := sledJob().plan()
	constructs{apart: 4}.into(&p)
	var problems problem.List
	sections := apartSections(&p, m, &problems)
	require.Empty(t, problems)
	require.Len(t, sections, 1)
	said := strings.Join(wordsOn(slices.Concat(sections[0].pages...)), "|")
	for _, unit := range p.Packet.Units {
		require.Contains(t, said, "X04|unit|"+unit+"|measured|mm,|cut|mm")
	}
	for _, words := range []string{"EXISTING: is there already", "BOUGHT: comes ready made", "WITH PART: comes with its part",
		"MEASURE: to be measured at the bench", "4 wires per unit: in no tray; have them at hand before the work starts"} {
		require.Contains(t, said, words)
	}
	require.NotContains(t, said, "____")
}

func TestAJointFollowsTheOrderOfTheWork(t *testing.T) {
	m := loadFonts(t)
	p := sledJob().plan()
	constructs{cables: []int{1}, splices: []int{3, 1}, studs: 1}.into(&p)
	var problems problem.List
	pages := jointSections(&p, m, &problems)[0].pages
	said := strings.Join(wordsOn(slices.Concat(pages...)), "|")
	for _, words := range []string{
		"at the BOARD", "at N4, 40 mm to N5|part MOR-SP-3", "slide on FIRST:|sleeve HS-6, 40 mm", "2 wires together 0.41 mm²",
		"C1 core 1, 24 AWG white, blue stripe", "crimped|pulled|sleeve shrunk|checked",
		"fit in this order, from the base up:|1|toothed washer|2|SP2|ring M5|W1-0|3|nut M5|torque: per drawing|checked",
		"C1|END A|at J1|jacket off 60 mm|shield pigtail C1-PA to J1:9", "tray J1|to J1:1.10", "with part|to J1:1.10", "finish: tinned",
	} {
		require.Contains(t, said, words)
	}
	terminal := plan.Joint{ID: "E9", Kind: "terminal", Sides: []plan.JointSide{{Lines: []plan.CavityLine{{Wire: "W1"}}}}}
	l := &jointList{book: *newBook(m, &problems), plan: &p}
	require.Equal(t, []string{"crimped", "pulled", "inserted", "checked"}, l.doneWords(terminal))
	terminal.Sides[0].Lines[0].Loose = "stays loose in this job"
	require.Equal(t, []string{"checked"}, l.doneWords(terminal))
}

func TestLabelsCountCablesAsPieces(t *testing.T) {
	m := loadFonts(t)
	for _, stock := range []plan.Stock{a4Stock, letterStock} {
		p := labelPlan(stock, someTray("J1", "0041", 12, 10))
		for _, id := range []string{"C1", "C2"} {
			p.Cables = append(p.Cables, plan.Cable{ID: id})
			p.Trays[0].Wires = append(slices.Clone(p.Trays[0].Wires), id)
		}
		p.Trays[0].Coil = append(slices.Clone(p.Trays[0].Coil), "C1")
		var problems problem.List
		doc := labelDocument(p, m, &problems)
		require.Empty(t, problems)
		require.Empty(t, page.Check(doc, m.Metrics))
		said := wording(doc.Pages[0].Body)
		for _, words := range []string{"14 pieces", "of 14, by", "12 wires and 2 cables: C1 C2"} {
			require.Contains(t, said, words)
		}
	}
}

func TestUnchangedConstructsKeepTheirPages(t *testing.T) {
	m := loadFonts(t)
	rapid.Check(t, func(t *rapid.T) {
		p := drawPlan(t)
		var problems problem.List
		lay := func() []section {
			return slices.Concat(cutSections(&p, m, &problems), apartSections(&p, m, &problems), jointSections(&p, m, &problems))
		}
		before := lay()
		p.Packet.Revision, p.Packet.Issued, p.Packet.Due = "Z", "2027-01-08", ""
		require.Equal(t, before, lay())
	})
}

// takesFrom reports whether a joint takes a wire out of the tray of a group.
func takesFrom(j plan.Joint, group string) bool {
	for _, side := range j.Sides {
		if slices.ContainsFunc(side.Lines, func(line plan.CavityLine) bool { return line.Tray == group }) {
			return true
		}
	}
	return false
}
