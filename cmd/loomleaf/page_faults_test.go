package main

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/fonts"
	"loomleaf/internal/page"
	"loomleaf/internal/sheet"
)

// pageFault is something wrong with a page of a packet that is right otherwise, and what a finding must say.
type pageFault struct {
	name, at string // name of the page
	harm     func(pg *page.Page)
	finds    string
}

// added puts items on a page.
func added(items ...page.Item) func(*page.Page) {
	return func(pg *page.Page) { pg.Body = append(pg.Body, items...) }
}

// changed changes the first item of a kind for which want holds, in the body or else in the frame; nil takes it away.
func changed[T page.Item](want func(T) bool, change func(T) page.Item) func(*page.Page) {
	return func(pg *page.Page) {
		for _, items := range []*[]page.Item{&pg.Body, &pg.Frame} {
			for i, item := range *items {
				one, is := item.(T)
				if !is || !want(one) {
					continue
				}
				if now := change(one); now != nil {
					(*items)[i] = now
				} else {
					*items = slices.Delete(*items, i, i+1)
				}
				return
			}
		}
	}
}

func without[T page.Item](T) page.Item { return nil }

func saying(text string) func(page.Text) bool {
	return func(t page.Text) bool { return strings.HasPrefix(t.String, text) }
}

func tickBox(b page.Box) bool { return b.W == b.H && !b.Filled && b.Weight >= page.Point }

func idText(x, y int, size page.Pt, text string) page.Text {
	return page.Text{X: page.Pt(x), Y: page.Pt(y), Face: page.Mono, Size: size, Room: 20000, String: text}
}

func wordsAt(y int, text string) page.Text {
	return page.Text{X: 6000, Y: page.Pt(y), Face: page.Medium, Size: 10 * page.Point, Room: 20000, String: text}
}

func square(x, y, um int) page.Box {
	return page.Box{Rect: page.Rect{X: page.Pt(x), Y: page.Pt(y), W: page.MM(um), H: page.MM(um)}, Weight: page.Point}
}

// pageFaults lists one fault or more for every rule of paper; the pages are those of the small demo.
func pageFaults(d demo) []pageFault {
	return slices.Concat(printFaults(), headFaults(), rowFaults(), breakFaults(d), listFaults())
}

// printFaults are those of sizes, clearances and lines.
func printFaults() []pageFault {
	return []pageFault{
		{"an id of 8 pt", "pins/J1/0040/1", changed(saying("S03"), func(t page.Text) page.Item { t.Size = 8 * page.Point; return t }), `"S03" is set in 8.00 pt`},
		{"a word of 8 pt on the map", "map/1", added(idText(10000, 60000, 8*page.Point, "node")), "is set in 8.00 pt"},
		{"a foot of 7 pt", "cutlist/J1/1", changed(saying("blank = not done"), func(t page.Text) page.Item { t.Size = 7 * page.Point; return t }), "is set in 7.00 pt"},
		{"a box of 3 mm", "setup/1", added(square(50000, 70000, 3000)), "a box of 8.50 pt"},
		{"a box too small for gloves", "pins/J1/0040/1", added(square(50000, 71000, 5000)), "a box of 14.17 pt"},
		{"boxes too close", "cover/1", added(square(50000, 70000, 5000), square(51700, 70000, 5000)), "two boxes are 2.83 and"},
		{"text on a black bar", "cover/1", added(page.Box{Rect: page.Rect{X: 30000, Y: 68000, W: 9000, H: 2000}, Filled: true}, idText(31000, 69500, 9*page.Point, "ATTENTION")), `"ATTENTION" stands on black`},
		{"text on a black shape", "map/1", added(page.Path{Points: [][2]page.Pt{{30000, 68000}, {39000, 68000}, {39000, 70000}}, Filled: true}, idText(36500, 69000, 9*page.Point, "N9")), `"N9" stands on black`},
		{"a line through text", "kit/1", func(pg *page.Page) {
			y := pg.Rows[0].Y + page.MM(4000)
			added(page.Rule{X1: pg.Live.X, X2: pg.Live.X + pg.Live.W, Y1: y, Y2: y, Weight: 50})(pg)
		}, "runs through"},
		{"modules that are no whole dots", "cutlist/J1/1", changed(func(page.Symbol) bool { return true }, func(s page.Symbol) page.Item { s.Module = 100; return s }), "has modules of 1.00 pt"},
		{"a scale line of 99 mm across", "cover/1", changed(func(l page.Rule) bool { return l.X2-l.X1 == 28346 }, func(l page.Rule) page.Item { l.X2 = l.X1 + page.MM(99000); return l }), "the lines of 100 mm"},
		{"a scale line of 99 mm down", "cover/1", changed(func(l page.Rule) bool { return l.Y2-l.Y1 == 28346 }, func(l page.Rule) page.Item { l.Y2 = l.Y1 + page.MM(99000); return l }), "the lines of 100 mm"},
		{"a scale line of 99 mm on the map", "map/1", changed(func(l page.Rule) bool { return l.X2-l.X1 == 28346 }, func(l page.Rule) page.Item { l.X2 = l.X1 + page.MM(99000); return l }), "the line of 100 mm"},
		{"a number parted from its unit", "kit/1", added(wordsAt(70000, "cut 12"), wordsAt(71400, "mm of it")), `"cut 12" is parted from "mm of it"`},
		{"a narrow binding", "kit/1", func(pg *page.Page) { pg.Live.X = page.MM(18000) }, "too little of the paper"},
		{"print to the edge", "kit/1", func(pg *page.Page) { pg.Live.Y = page.MM(6000) }, "too little of the paper"},
	}
}

// headFaults are those of head and foot.
func headFaults() []pageFault {
	return []pageFault{
		{"another part number at the head", "kit/1", changed(saying("MOR-LM-"), func(t page.Text) page.Item { t.String += "9"; return t }), "differs from that of the first page"},
		{"another revision at the head", "kit/1", changed(saying("rev "), func(t page.Text) page.Item { t.String += "2"; return t }), "differs from that of the first page"},
		{"another date at the head", "kit/1", changed(saying("issued"), func(t page.Text) page.Item { t.String += "1"; return t }), "differs from that of the first page"},
		{"no rule of blanks at the foot", "kit/1", changed(saying("blank = not done"), without[page.Text]), "the head lacks something"},
		{"a head that moved", "kit/1", changed(saying("MOR-0"), func(t page.Text) page.Item { t.Y += 100; return t }), "differs from that of the first page"},
		{"another count of pages", "kit/1", changed(saying("page 1 of"), func(t page.Text) page.Item { t.String = "page 1 of 7"; return t }), `the head does not say "page 1 of`},
		{"another hash", "kit/1", func(pg *page.Page) { pg.Hash = strings.Repeat("0", 64) }, `the head does not say "0000 0000 0000"`},
		{"the name of another page", "kit/1", changed(saying("kit/1"), func(t page.Text) page.Item { t.String = "kit/2"; return t }), `the head does not say "kit/1"`},
		{"the symbol of another page", "kit/1", func(pg *page.Page) {
			changed(func(page.Symbol) bool { return true }, func(s page.Symbol) page.Item { s.String = "H0123456789012345678919"; return s })(&page.Page{Body: pg.Frame})
		}, "is that of another page"},
	}
}

// rowFaults are those of rows that are not whole.
func rowFaults() []pageFault {
	return []pageFault{
		{"a tick box lost from a checklist", "pins/J1/0040/1", changed(tickBoxIn("pins"), without[page.Box]), "boxes, not"},
		{"a tick box lost from a cut list", "cutlist/J1/1", changed(tickBoxIn("cutlist"), without[page.Box]), "boxes, not"},
		{"a tick box lost from the bench", "strip/J1/1", changed(tickBox, without[page.Box]), "boxes, not"},
		{"a tick box lost from the kit", "kit/1", changed(tickBox, without[page.Box]), "boxes, not"},
		{"a tick box lost from the routing", "routing/0040/1", func(pg *page.Page) {
			changed(func(b page.Box) bool { return tickBox(b) && b.Y > pg.Rows[0].Y }, without[page.Box])(pg)
		}, "boxes, not"},
		{"a column to write in that stops short", "continuity/1", func(pg *page.Page) {
			row := pg.Rows[0]
			changed(func(l page.Rule) bool { return l.X1 == l.X2 && l.Y1 == row.Y }, func(l page.Rule) page.Item { l.Y2 -= 500; return l })(pg)
		}, "ends before the row"},
		{"a row without words", "kit/1", func(pg *page.Page) {
			row := pg.Rows[1]
			pg.Body = slices.DeleteFunc(pg.Body, func(item page.Item) bool {
				t, is := item.(page.Text)
				return is && t.Y > row.Y && t.Y < row.Y+row.H
			})
		}, `says nothing`},
		{"a row twice", "kit/1", func(pg *page.Page) { pg.Rows = append(pg.Rows, pg.Rows[len(pg.Rows)-1]) }, "runs into the row before"},
		{"a row left out", "kit/1", func(pg *page.Page) { pg.Rows = slices.Delete(pg.Rows, 0, 1) }, "stands where row 1 belongs"},
		{"a symbol that hangs out of its row", "pins/J1/0040/1", changed(func(s page.Symbol) bool { return s.Y > 40000 && s.Symbology == page.DataMatrix }, func(s page.Symbol) page.Item { s.Y += 700; return s }), "hangs out of row"},
		{"words that hang out of their row", "kit/1", func(pg *page.Page) {
			row := pg.Rows[1]
			added(idText(20000, int(row.Y)+100, 9*page.Point, "lot"))(pg)
		}, `"lot" hangs out of row`},
	}
}

// breakFaults are those of where pages end.
func breakFaults(d demo) []pageFault {
	bare := func(pg *page.Page) { pg.Body = nil }
	return []pageFault{
		{"a heading at the end", "kit/1", added(page.Text{X: page.MM(20000), Y: 72000, Face: page.Bold, Size: 12 * page.Point, Room: 20000, String: "More"}), `the heading "More" ends the page`},
		{"a stamp on a page alone", "map/2", func(pg *page.Page) { bare(pg); added(idText(7000, 20000, 1000, "stamp"))(pg) }, "who signs stands alone"},
		{"a last row alone", "routing/0040/2", func(pg *page.Page) {
			rows := d.page("routing/0040/1").Rows
			row := rows[len(rows)-1]
			row.Number++
			pg.Rows = []page.Row{row}
		}, "stands alone"},
		{"a face without a cavity", "pins/J1/0040/1", changed(func(t page.Text) bool { return t.Drawn }, without[page.Text]), "the picture of the face names"},
		{"a face without its first rows", "pins/J1/0040/1", func(pg *page.Page) { pg.Rows = nil }, "0 rows stand with the picture"},
	}
}

// listFaults are those of lists that other pages answer.
func listFaults() []pageFault {
	return []pageFault{
		{"a page that the contents do not name", "contents/1", changed(saying("kit/1"), without[page.Text]), "do not list it"},
		{"another hash in the contents", "contents/1", func(pg *page.Page) {
			for i, item := range pg.Body {
				if t, is := item.(page.Text); is && hashText.MatchString(t.String) {
					t.String = "0000 0000 0000"
					pg.Body[i] = t
				}
			}
		}, "do not list it"},
		{"a face for the tester from the wire side", "continuity/faces/1", func(pg *page.Page) {
			for i, item := range pg.Body {
				if t, is := item.(page.Text); is && t.Drawn {
					t.X = 60000 - t.X
					pg.Body[i] = t
				}
			}
		}, "is no mirror image"},
		{"a cavity lost from a face for the tester", "continuity/faces/1", changed(func(t page.Text) bool { return t.Drawn }, without[page.Text]), "lacks cavities"},
		{"a page too many", "kit/1", func(pg *page.Page) { pg.Of++ }, "page of 2, and there are 1"},
		{"a wire without its symbol", "cutlist/J1/1", changed(func(s page.Symbol) bool { return s.Symbology == page.DataMatrix }, without[page.Symbol]), "has 0 symbols, not 1"},
		{"a cavity with two symbols", "pins/J1/0040/1", func(pg *page.Page) {
			for _, item := range slices.Clone(pg.Body) {
				if s, is := item.(page.Symbol); is {
					added(s)(pg)
				}
			}
		}, "has 2 symbols, not 1"},
	}
}

// page returns a page of the packet by its name.
func (d demo) page(name string) page.Page {
	at := slices.IndexFunc(d.packet.Pages.Pages, func(pg page.Page) bool { return pg.Name == name })
	return d.packet.Pages.Pages[at]
}

// tickBoxIn wants a box in the rows of a sheet: on a cut list that of a wire, not that of a load.
func tickBoxIn(sheet string) func(page.Box) bool {
	side := map[string]page.Pt{"pins": boardBox(), "cutlist": benchBox()}[sheet]
	return func(b page.Box) bool { return tickBox(b) && b.W == side && (sheet != "pins" || b.X > page.MM(100000)) }
}

// copyOf returns a packet of which pages can be harmed.
func copyOf(packet sheet.Packet) sheet.Packet {
	for _, document := range []*page.Document{&packet.Pages, &packet.Labels} {
		document.Pages = slices.Clone(document.Pages)
		for i := range document.Pages {
			pg := &document.Pages[i]
			pg.Body, pg.Frame, pg.Rows = slices.Clone(pg.Body), slices.Clone(pg.Frame), slices.Clone(pg.Rows)
		}
	}
	return packet
}

// TestEveryRuleOfPaperFindsItsFault plants each fault into a packet that keeps the rules.
func TestEveryRuleOfPaperFindsItsFault(t *testing.T) {
	t.Parallel()
	metrics, err := page.LoadMetrics(fonts.Files)
	require.NoError(t, err)
	d := made(t, "sled-small", jobText(t, "sled-small"))
	require.Empty(t, brokenRules(d.plan, d.packet, metrics))
	for _, fault := range pageFaults(d) {
		packet := copyOf(d.packet)
		at := slices.IndexFunc(packet.Pages.Pages, func(pg page.Page) bool { return pg.Name == fault.at })
		require.GreaterOrEqual(t, at, 0, "%s: there is no page %s", fault.name, fault.at)
		fault.harm(&packet.Pages.Pages[at])
		found := strings.Join(brokenRules(d.plan, packet, metrics), "\n")
		if !strings.Contains(found, fault.finds) {
			t.Errorf("%s: want %q, found:\n%s", fault.name, fault.finds, found)
		}
	}
}

// TestAHeadingWithTwoRowsIsFound moves all but the first two rows of a list to the next page.
func TestAHeadingWithTwoRowsIsFound(t *testing.T) {
	metrics, err := page.LoadMetrics(fonts.Files)
	require.NoError(t, err)
	d := made(t, "sled-small", jobText(t, "sled-small"))
	packet := copyOf(d.packet)
	at := slices.IndexFunc(packet.Pages.Pages, func(pg page.Page) bool { return pg.Name == "routing/0040/1" })
	here, next := &packet.Pages.Pages[at], &packet.Pages.Pages[at+1]
	list := slices.DeleteFunc(slices.Clone(here.Rows), func(row page.Row) bool { return row.List != here.Rows[0].List })
	require.Len(t, list, 4) // four would be parted two and two
	list = append(list, page.Row{List: list[0].List, Number: 5, Y: list[3].Y + list[3].H, H: list[3].H})
	here.Rows, next.Rows = list[:2], list[2:]
	require.Contains(t, strings.Join(brokenRules(d.plan, packet, metrics), "\n"), "2 rows of")
}
