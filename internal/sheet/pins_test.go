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

// wording returns the strings of items in drawing order.
func wording(items []page.Item) []string {
	var all []string
	for _, item := range items {
		if text, ok := item.(page.Text); ok {
			all = append(all, text.String)
		}
	}
	return all
}

// codesOf returns the strings of the symbols whose kind is given, in drawing order.
func codesOf(items []page.Item, kind byte) []string {
	var all []string
	for _, item := range items {
		if symbol, ok := item.(page.Symbol); ok && symbol.String[0] == kind {
			all = append(all, symbol.String)
		}
	}
	return all
}

// tickBoxes returns the boxes to tick.
func tickBoxes(items []page.Item) []page.Box {
	var all []page.Box
	for _, item := range items {
		if box, ok := item.(page.Box); ok && !box.Filled && box.W == gloveTick && box.H == gloveTick {
			all = append(all, box)
		}
	}
	return all
}

func disjoint(a, b page.Rect) bool {
	return a.X+a.W <= b.X || b.X+b.W <= a.X || a.Y+a.H <= b.Y || b.Y+b.H <= a.Y
}

func within(inner, outer page.Rect) bool {
	return inner.X >= outer.X && inner.Y >= outer.Y && inner.X+inner.W <= outer.X+outer.W && inner.Y+inner.H <= outer.Y+outer.H
}

// requireClear asks that a text stands inside a box or circle or outside of it, and that no rule runs through a text.
func requireClear(t require.TestingT, items []page.Item, m composer) {
	extents := make([]page.Rect, len(items))
	for i, item := range items {
		extents[i] = page.Extent(item, m.Metrics)
	}
	for i, item := range items {
		text, ok := item.(page.Text)
		if !ok {
			continue
		}
		for k, other := range items {
			if crosses(extents[i], extents[k], text, other, m) {
				require.Fail(t, "text on a line", "%v on %v", text, other)
			}
		}
	}
	ticks := tickBoxes(items)
	for i, box := range ticks {
		for _, other := range ticks[:i] {
			near := page.Rect{X: other.X - mm(2), Y: other.Y - mm(2), W: other.W + mm(4), H: other.H + mm(4)}
			if !disjoint(box.Rect, near) {
				require.Fail(t, "boxes stand nearer than 2 mm", "%v %v", box, other)
			}
		}
	}
}

func crosses(extent, around page.Rect, text page.Text, other page.Item, m composer) bool {
	if disjoint(extent, around) {
		return false
	}
	switch other := other.(type) {
	case page.Rule, page.Path:
		return true
	case page.Box:
		return !within(extent, around)
	case page.Disc:
		return touches(extent, text, other, m)
	}
	return false
}

// touches reports whether a text touches the line of a circle; the room below a base line counts where letters use it.
func touches(extent page.Rect, text page.Text, disc page.Disc, m composer) bool {
	if !strings.ContainsAny(text.String, "gjpqyJQ_/,;()") {
		extent.H = m.CapHeight(text.Face, text.Size)
	}
	far, near := int64(0), int64(0)
	for _, span := range [][2]page.Pt{{extent.X - disc.X, extent.X + extent.W - disc.X}, {extent.Y - disc.Y, extent.Y + extent.H - disc.Y}} {
		most, least := max(abs(int64(span[0])), abs(int64(span[1]))), min(abs(int64(span[0])), abs(int64(span[1])))
		if span[0] <= 0 && span[1] >= 0 {
			least = 0
		}
		far, near = far+most*most, near+least*least
	}
	inner, outer := int64(disc.R-disc.Weight/2), int64(disc.R+disc.Weight/2)
	return far > inner*inner && near < outer*outer
}

// requireSound asks that sections are laid without a problem and hold on paper.
func requireSound(t require.TestingT, sections []section, problems problem.List, m composer) {
	require.Empty(t, problems)
	doc := sheetDocument(sections)
	require.Empty(t, page.Check(doc, m.Metrics))
	for _, pg := range doc.Pages {
		requireClear(t, pg.Body, m)
		for _, item := range pg.Body {
			body := page.Rect{X: live.X - page.Point, Y: bodyTop() - page.Point, W: live.W + 2*page.Point, H: bodyBottom() - bodyTop() + 2*page.Point}
			if extent := page.Extent(item, m.Metrics); !within(extent, body) {
				require.Fail(t, "outside the body", "%s: %v", pg.Name, item)
			}
		}
	}
}

func drawPinCase(t *rapid.T) pinCase {
	count := rapid.IntRange(1, 70).Draw(t, "cavities")
	c := pinCase{id: rapid.SampledFrom([]string{"J1", "PL12", "A-LONG-NAME"}).Draw(t, "id"), names: numbered(count)}
	if rapid.Bool().Draw(t, "padded") {
		for i := range c.names {
			c.names[i] = fmt.Sprintf("1.%02d", i)
		}
	}
	switch rapid.IntRange(0, 2).Draw(t, "face") {
	case 1:
		row := min(count, 15)
		counts := slices.Repeat([]int{row}, count/row)
		if count%row > 0 {
			counts = append(counts, count%row)
		}
		c.face = rowFace(c.names, counts...)
	case 2:
		var counts []int
		for left, ring := count, 1; left > 0; ring++ {
			counts = append([]int{min(left, 6*ring)}, counts...)
			left -= 6 * ring
		}
		c.face = ringFace(c.names, counts...)
	}
	c.fills = rapid.StringOfN(rapid.SampledFrom([]rune("wwwsco2kn")), 1, 20, -1).Draw(t, "fills")
	c.note = rapid.SampledFrom([]string{"", "keep clear of heater", strings.Repeat("lace to the neighbour every 40 mm ", 4)}).Draw(t, "note")
	c.wire = rapid.SampledFrom([]string{"W%03d", "SLED-NAV-%03d-22", "%d"}).Draw(t, "wire")
	c.colour = rapid.SampledFrom([]string{"white", "white, blue stripe", "green, yellow and violet stripes"}).Draw(t, "colour")
	c.trays = rapid.SampledFrom([][]string{{"J1"}, {"J1", "P4"}, {"P4", "P5", "P6", "A-LONG-NAME", "J9", "J10"}}).Draw(t, "trays")
	c.slide = rapid.SampledFrom([][]string{nil, {"boot BT-3"}, {"backshell BS-12, long", "boot BT-3", "grommet GR-7", "ring R-1"}}).Draw(t, "slide")
	for i := range rapid.IntRange(0, 14).Draw(t, "after") {
		c.after = append(c.after, plan.Closing{Step: fmt.Sprintf("step %d", i+1), Value: "per drawing"})
	}
	return c
}

func TestChecklistsHoldEveryCavityOnce(t *testing.T) {
	m := loadFonts(t)
	rapid.Check(t, func(t *rapid.T) {
		c := drawPinCase(t)
		p := sledPlan([]pinCase{c}, "0041", "0042")
		var problems problem.List
		sections := pinSections(p, m, &problems)
		requireSound(t, sections, problems, m)
		require.Len(t, sections, 2)
		for u, s := range sections {
			require.Equal(t, section{sheet: "pins", title: "Pin checklist", name: c.id + "/" + p.Packet.Units[u], unit: u + 1, pages: s.pages}, s)
			requireWholeChecklist(t, p.Connectors[0], u, slices.Concat(s.pages...))
			requireGoodBreaks(t, p.Connectors[0], s.pages)
		}
	})
}

func requireWholeChecklist(t require.TestingT, c plan.Connector, u int, all []page.Item) {
	var codes, wires []string
	for _, cavity := range c.Cavities {
		codes = append(codes, cavity.Codes[u].String())
		wires = append(wires, cavity.Wires...)
	}
	require.Equal(t, codes, codesOf(all, plan.KindLanding), "every cavity once, in insertion order")
	require.Equal(t, []string{c.Codes[u].String()}, codesOf(all, plan.KindConnector))
	var printed []string
	for _, item := range all {
		if text, ok := item.(page.Text); ok && text.Face == page.MonoBold && text.Size == 13*page.Point && text.Align == page.Left {
			printed = append(printed, text.String)
		}
	}
	require.Equal(t, wires, printed)
	n := countFills(c.Cavities)
	require.Equal(t, n.Cavities, n.Wired+n.Sealed+n.Open+n.Loose)
	ticks := 2*n.Cavities - n.Open - n.Loose + n.Wired + len(c.Trays) + len(c.SlideOnFirst) + len(c.After)
	require.Len(t, tickBoxes(all), ticks)
	said := wording(all)
	for _, cavity := range c.Cavities {
		require.Contains(t, said, cavity.Codes[u].KeyIn())
	}
	counts := fmt.Sprintf(" %d cavities = %d wired + %d sealing plugs + %d open", n.Cavities, n.Wired, n.Sealed, n.Open)
	counts = strings.NewReplacer(" 1 cavities", " 1 cavity", " 1 sealing plugs", " 1 sealing plug").Replace(counts)
	require.Contains(t, strings.Join(said, " "), counts)
}

func requireGoodBreaks(t require.TestingT, c plan.Connector, pages [][]page.Item) {
	for i, items := range pages {
		rows := len(codesOf(items, plan.KindLanding))
		if i == 0 {
			require.True(t, rows == 0 || rows >= min(3, len(c.Cavities)), "the head keeps three rows or none")
		}
		require.Equal(t, rows > 0, slices.Contains(wording(items), "gauge, colour"), "column heads on page %d", i+1)
		named := slices.ContainsFunc(items, func(item page.Item) bool {
			text, ok := item.(page.Text)
			return ok && text.String == c.ID && text.Size >= 28*page.Point
		})
		require.True(t, named, "page %d says which connector it belongs to", i+1)
	}
	last := pages[len(pages)-1]
	require.Contains(t, wording(last), "installer, signature")
	steps := slices.ContainsFunc(wording(last), func(s string) bool { return strings.HasPrefix(s, "step ") })
	rows := len(codesOf(last, plan.KindLanding))
	require.True(t, steps || rows >= min(2, max(len(c.Cavities)-3, 1)), "signatures never stand alone")
}

func TestChecklistOfTheSledHolds(t *testing.T) {
	m := loadFonts(t)
	var problems problem.List
	p := sledPlan(sledCases(), "0041", "0042")
	sections := pinSections(p, m, &problems)
	requireSound(t, sections, problems, m)
	require.Len(t, sections, 2*len(p.Connectors))
	require.Equal(t, "J1/0041", sections[0].name)
	require.Equal(t, "J61/0041", sections[1].name)
	require.Equal(t, "J1/0042", sections[len(p.Connectors)].name)
}

// Twelve rows on the first page and eighteen on the next let a page be pinned up where the work is.
func TestPagesHoldEnoughRows(t *testing.T) {
	m := loadFonts(t)
	c := sledCases()[0]
	c.fills, c.note = "wwsws", ""
	var problems problem.List
	pages := pinSections(sledPlan([]pinCase{c}, "0041"), m, &problems)[0].pages
	require.GreaterOrEqual(t, len(codesOf(pages[0], plan.KindLanding)), 12)
	require.GreaterOrEqual(t, len(codesOf(pages[1], plan.KindLanding)), 18)
}

func TestCountsStandAfterEveryTen(t *testing.T) {
	m := loadFonts(t)
	c := pinCase{id: "J1", names: numbered(23), fills: "wws2o", trays: []string{"J1"}}
	var problems problem.List
	all := strings.Join(wording(slices.Concat(pinSections(sledPlan([]pinCase{c}, "0041"), m, &problems)[0].pages...)), "|")
	require.Contains(t, all, "rows 1 to 10 of 23:|inserted|of 8|pulled|of 6|checked|of 10")
	require.Contains(t, all, "rows 11 to 20 of 23:|inserted|of 8|pulled|of 6|checked|of 10")
	require.Contains(t, all, "all 23 cavities:|inserted|of 19|pulled|of 14|checked|of 23")
	require.NotContains(t, all, "rows 21")
}

func TestNeighbouringSymbolsStandApart(t *testing.T) {
	m := loadFonts(t)
	var problems problem.List
	for _, s := range pinSections(sledPlan(sledCases(), "0041"), m, &problems) {
		for _, items := range s.pages {
			var before page.Symbol
			for _, item := range items {
				symbol, ok := item.(page.Symbol)
				if !ok || symbol.String[0] != plan.KindLanding {
					continue
				}
				if before.String != "" {
					dx, dy := int64(symbol.X-before.X), int64(symbol.Y-before.Y)
					require.GreaterOrEqual(t, squareRoot(dx*dx+dy*dy), int64(mm(20)), "%s beside %s", symbol.Says, before.Says)
				}
				before = symbol
			}
		}
	}
}

func TestChecklistsDoNotChangeWithTheRevision(t *testing.T) {
	m := loadFonts(t)
	var problems problem.List
	p := sledPlan(sledCases(), "0041")
	before := pinSections(p, m, &problems)
	p.Packet.Revision, p.Packet.Supersedes, p.Packet.Issued, p.Packet.Due = "C", "B", "2027-01-04", "2027-02-01"
	require.Equal(t, before, pinSections(p, m, &problems))
	again := safetySections(p, m, &problems)
	p.Packet.Revision = "D"
	require.Equal(t, again, safetySections(p, m, &problems))
}

func TestConnectorWithoutTraySaysWhereWiresComeFrom(t *testing.T) {
	m := loadFonts(t)
	for _, test := range []struct {
		trays []string
		want  string
		fills string
	}{{[]string{"J1", "P4"}, "no tray of its own, wires arrive from J1, P4", "w"}, {nil, "no tray of its own, no wire arrives here", "s"},
		{nil, "no tray of its own, no wire of it is cut on the line", "w"}} {
		c := pinCase{id: "P9", names: numbered(4), fills: test.fills, trays: test.trays}
		var problems problem.List
		pages := pinSections(sledPlan([]pinCase{c}, "0041"), m, &problems)[0].pages
		require.Contains(t, wording(pages[0]), test.want)
	}
	c := pinCase{id: "P9", names: numbered(4), fills: "w", trays: []string{"P9"}}
	var problems problem.List
	require.NotContains(t, strings.Join(wording(pinSections(sledPlan([]pinCase{c}, "0041"), m, &problems)[0].pages[0]), "|"), "no tray")
}

func TestRowsNameTheirContactWhereContactsDiffer(t *testing.T) {
	m := loadFonts(t)
	p := sledPlan([]pinCase{{id: "J1", names: numbered(3), fills: "w", trays: []string{"J1"}}}, "0041")
	p.Connectors[0].Cavities[2].Contact = "S20"
	var problems problem.List
	said := wording(pinSections(p, m, &problems)[0].pages[0])
	require.Contains(t, said, "22 AWG, S20")
	require.Contains(t, said, "22 AWG, S22")
	require.Contains(t, said, "gauge, contact")
}

func TestTooLongTextIsRefusedWithItsPlace(t *testing.T) {
	m := loadFonts(t)
	for name, change := range map[string]func(*plan.Connector){
		"wire":  func(c *plan.Connector) { c.Cavities[0].Lines[0].Wire = strings.Repeat("W", 60) },
		"other": func(c *plan.Connector) { c.Cavities[0].Lines[0].Other = strings.Repeat("P", 60) },
		"id":    func(c *plan.Connector) { c.ID = strings.Repeat("J", 60) },
		"part":  func(c *plan.Connector) { c.Part = strings.Repeat("M", 120) },
		"slide": func(c *plan.Connector) { c.SlideOnFirst = []string{strings.Repeat("boot", 40)} },
		"step":  func(c *plan.Connector) { c.After = []plan.Closing{{Step: strings.Repeat("tighten", 30)}} },
		"note":  func(c *plan.Connector) { c.Cavities[0].Lines[0].Note = strings.Repeat("note", 60) },
		"tall": func(c *plan.Connector) {
			c.Cavities[0].Lines[0].Note = strings.Repeat("keep clear of the heater ", 300)
		},
	} {
		p := sledPlan([]pinCase{{id: "J1", names: numbered(4), fills: "w", trays: []string{"J1"}}}, "0041")
		change(&p.Connectors[0])
		var problems problem.List
		pinSections(p, m, &problems)
		require.NotEmpty(t, problems, name)
		require.Equal(t, p.Connectors[0].Place, problems[0].Place, name)
		require.NotEmpty(t, problems[0].Hint, name)
	}
}
