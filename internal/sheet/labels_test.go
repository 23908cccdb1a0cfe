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

func labelPlan(stock plan.Stock, trays ...plan.Tray) plan.Plan {
	p := plan.Plan{Packet: plan.Packet{Number: "MOR-0412", Revision: "B", Title: "Ice-survey sled", Units: []string{"0041"}}, Trays: trays}
	p.Paper.Labels = stock
	p.Connectors = []plan.Connector{{ID: "J1", Place: problem.Place{File: "demo.toml", Line: 7, Column: 1}}}
	return p
}

func wireIDs(n int) []string {
	var ids []string
	for i := range n {
		ids = append(ids, fmt.Sprintf("W%03d", 100+i))
	}
	return ids
}

func someTray(group, unit string, wires, coiled int) plan.Tray {
	ids := wireIDs(wires)
	return plan.Tray{ID: group + "/" + unit, Group: group, Unit: unit, Wires: ids, Coil: ids[:min(coiled, wires)],
		Next: "crimp bench, then board FB-210 at N1", Code: fixtureCode(plan.KindTray, group+"/"+unit, 1), StraightUM: 2000000}
}

func TestLabelsStayInsideTheirDieCut(t *testing.T) {
	m := loadFonts(t)
	rapid.Check(t, func(t *rapid.T) {
		stock := rapid.SampledFrom([]plan.Stock{a4Stock, letterStock}).Draw(t, "stock")
		var trays []plan.Tray
		for i := range rapid.IntRange(1, 23).Draw(t, "trays") {
			wires := rapid.IntRange(1, 60).Draw(t, "wires")
			trays = append(trays, someTray(rapid.SampledFrom([]string{"J1", "P12", "A", "NAV-3"}).Draw(t, "group"),
				fmt.Sprintf("%04d", 41+i), wires, rapid.IntRange(0, wires).Draw(t, "coiled")))
		}
		var problems problem.List
		doc := labelDocument(labelPlan(stock, trays...), m, &problems)
		require.Empty(t, problems)
		require.Empty(t, page.Check(doc, m.Metrics))
		require.Len(t, doc.Pages, (len(trays)+9)/10)
		var printed []string
		for _, pg := range doc.Pages {
			requireClear(t, pg.Body, m)
			requireInDieCuts(t, stock, pg.Body[len(labelScale(stock, plan.LabelPrint{}, m)):], m)
			require.Equal(t, page.Hash(pg.Body), pg.Hash)
			printed = append(printed, codesOf(pg.Body, plan.KindTray)...)
		}
		var want []string
		for _, tray := range trays {
			want = append(want, tray.Code.String(), tray.Code.String())
		}
		require.Equal(t, want, printed, "one Code 128 and one Data Matrix a tray, in their order")
	})
}

func requireInDieCuts(t require.TestingT, stock plan.Stock, items []page.Item, m composer) {
	for _, item := range items {
		found := false
		for i := range stock.Columns * stock.Rows {
			whole := labelRect(stock, plan.LabelPrint{}, i)
			if symbol, ok := item.(page.Symbol); ok {
				found = found || within(symbol.Area(), inset(whole, mm(3))) && within(symbol.Quiet(), whole)
				continue
			}
			extent := page.Extent(item, m.Metrics)
			extent.X, extent.W = extent.X+groupRule/2, extent.W-groupRule // a rule may run to the edge, its end is square
			found = found || within(extent, inset(whole, mm(3)))
		}
		require.True(t, found, "%v stands on the edge of a label", item)
	}
}

func TestLabelsAreLargeEnoughToReadAndScan(t *testing.T) {
	m := loadFonts(t)
	for _, stock := range []plan.Stock{a4Stock, letterStock} {
		var problems problem.List
		doc := labelDocument(labelPlan(stock, someTray("J1", "0041", 13, 4)), m, &problems)
		require.Empty(t, problems)
		require.Equal(t, "MOR-0412-B.labels.pdf", doc.Name)
		require.Equal(t, "labels/1", doc.Pages[0].Name)
		said := wording(doc.Pages[0].Body)
		for _, words := range []string{"MOR-0412", "rev B", "unit 0041", "13 wires", "counted", "of 13, by",
			"coil: W100 W101 W102 W103, tie in 3 places", "next: crimp bench, then board FB-210 at N1"} {
			require.Contains(t, said, words)
		}
		for _, item := range doc.Pages[0].Body {
			switch item := item.(type) {
			case page.Text:
				require.GreaterOrEqual(t, item.Size, 9*page.Point, item.String)
				if item.String == "J1" || item.String == "0041" {
					require.GreaterOrEqual(t, item.Size, 40*page.Point, "%s on %s", item.String, stock.ID)
				}
			case page.Symbol:
				if item.Symbology == page.Code128 {
					require.Equal(t, page.Pt(120), item.Module)
					require.GreaterOrEqual(t, item.Height, mm10(113))
				} else {
					require.Equal(t, page.Pt(144), item.Module)
				}
			}
		}
	}
}

func TestPaperOfTheLabelsFollowsTheStock(t *testing.T) {
	m := loadFonts(t)
	var problems problem.List
	width, height := page.Letter()
	p := labelPlan(letterStock, someTray("J1", "0041", 13, 4))
	p.Paper.Size = "a4"
	doc := labelDocument(p, m, &problems)
	require.Equal(t, [2]page.Pt{width, height}, [2]page.Pt{doc.Width, doc.Height})
	require.Empty(t, labelDocument(labelPlan(a4Stock), m, &problems).Pages)
}

func TestCoilLine(t *testing.T) {
	m := loadFonts(t)
	long := someTray("J1", "0041", 60, 40)
	unknown := long
	unknown.StraightUM = 0
	for _, test := range []struct {
		tray plan.Tray
		want string
	}{
		{someTray("J1", "0041", 5, 0), "all straight, nothing to coil"},
		{someTray("J1", "0041", 5, 2), "coil: W100 W101, tie in 3 places"},
		{someTray("J1", "0041", 60, 60), "coil 60 wires over 2000 mm, tie in 3 places"},
		{someTray("J1", "0041", 13, 12), "coil: W100 W101 W102 W103 W104 W105 W106 W107 W108 W109 W110 W111, tie in 3 places"},
		{long, "coil 40 wires over 2000 mm, tie in 3 places"},
		{unknown, "coil the 40 longest wires, tie in 3 places"},
	} {
		var problems problem.List
		doc := labelDocument(labelPlan(letterStock, test.tray), m, &problems)
		require.Empty(t, problems)
		require.Contains(t, strings.Join(wording(doc.Pages[0].Body), " "), test.want)
	}
}

func TestLabelThatCannotHoldItsNamesIsRefused(t *testing.T) {
	m := loadFonts(t)
	for _, stock := range []plan.Stock{a4Stock, letterStock} {
		var problems problem.List
		tray := someTray("J1", "SERIAL-000041-REWORKED", 13, 4)
		labelDocument(labelPlan(stock, tray), m, &problems)
		require.Len(t, problems, 1)
		require.Equal(t, "too-long", problems[0].Check)
		require.Equal(t, problem.Place{File: "demo.toml", Line: 7, Column: 1}, problems[0].Place)
	}
	small := a4Stock
	small.WidthUM, small.HeightUM = 63500, 38100
	var problems problem.List
	labelDocument(labelPlan(small, someTray("J1", "0041", 13, 4)), m, &problems)
	require.True(t, slices.ContainsFunc(problems, func(p problem.Problem) bool { return p.Check == "label-too-small" }))
}
