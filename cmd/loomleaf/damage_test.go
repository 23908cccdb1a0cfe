package main

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/page"
)

// damage is one thing wrong with the paper, and what a finding must say.
type damage struct {
	name, sheet string                              // the first page of the sheet that has what is damaged
	harm        func(items []page.Item) []page.Item // nil where the page has nothing to damage
	finds       string
}

// damages lists them; those of the pages name things of the small demo.
func damages(d demo) []damage {
	text, code := textDamage, d.codeOf
	return []damage{
		text("wire of a cut list", "cutlist", page.MonoBold, 12, "L03", gone, "wire L03 of unit 0040 stands 0 times in the cut lists"),
		text("wire twice in a cut list", "cutlist", page.MonoBold, 12, "L03", into("L04"), "wire L04 of unit 0041 stands 2 times in the cut lists"),
		text("cut length", "cutlist", page.MonoBold, 12, "", gone, "0 cut lengths"),
		text("legend", "cutlist", page.Mono, 10, "L03 J1:2>P2:C", into("L03 J1:2>P2:G"), `wire L03 lacks the legend "L03 J1:2>P2:C"`),
		text("reel of a set-up", "setup", page.MonoBold, 16, "R246", into("R241"), `"R241" is set up where "R246" belongs`),
		text("first piece of a set-up", "setup", page.MonoBold, 11, "L02", gone, "lacks its first piece"),
		text("method of a set-up", "setup", page.Bold, 12, "UV laser", into("WHITE ink"), `does not say "UV laser"`),
		text("text of a first piece", "setup", page.Mono, 10, d.plan.Setups[0].First.Texts[0].Lines[0], gone, "lacks the text"),
		text("label", "sleeves", page.Regular, 10, "of 2", gone, "labels are listed, the plan has"),
		text("load", "cutlist", page.Bold, 12, "LOAD", gone, "reels are loaded, the plan says"),
		text("ink of a load", "cutlist", page.Bold, 12, "WHITE ink", into("UV laser"), "the cut lists change reel, method, ink and height"),
		text("reel changes", "contents", page.Medium, 10, "3 reel changes; no plan with these homes in this order of groups has fewer than 3",
			into("2 reel changes; no plan with these homes in this order of groups has fewer than 2"), `the contents do not say "3 reel changes"`),
		text("reel", "cutlist", page.MonoBold, 16, "R246", into("R241"), `of type E24B is cut from reel "R241"`),
		text("still on", "cutlist", page.Bold, 11, "STILL ON:", gone, "STILL ON stands 0 times"),
		text("unit over its boxes", "cutlist", page.MonoBold, 9, "0041", gone, "over the boxes are no cut list"),
		text("key in of a wire", "cutlist", page.Mono, 9, keyIn(code("wire", "S03", "")), gone, "stands 0 times beside its symbol"),
		{"symbol of a wire", "cutlist", changeSymbol("wire S03", nil), "0 symbols of kind wire where 1 belong"},
		{"symbol of another wire", "cutlist", changeSymbol("wire S03", func(s *page.Symbol) { s.String = code("wire", "S04", "") }),
			"the symbol beside wire S03 names S04"},
		{"symbol of no job", "cutlist", changeSymbol("wire S03", func(s *page.Symbol) { s.String = "C1234567890100012345671" }),
			"stands beside nothing it names"},
		{"symbol with a stroke through it", "cutlist", strikeSymbol("wire S03"), "cannot be read"},
		text("text over the edge", "cutlist", page.Bold, 9, "scan or key in", shift(6000), "outside the live area"),
		text("page number", "cutlist", page.Bold, 9, "page 1 of 1", into("page 2 of 2"), `page 2, "cutlist/J1/1", stands where page 1 belongs`),
		{"symbol of a page", "cutlist", changeSymbol("cut list J1", nil), "0 symbols of kind page where 1 belong"},
		text("page of the contents", "contents", page.Mono, 9, "cutlist/P2/1", gone, `the contents list cutlist/P2/1 with hash ""`),
		text("cavity", "pins", page.MonoBold, 14, "E", gone, "cavity P2:E of unit 0040 stands 0 times"),
		text("pin", "pins", page.MonoBold, 13, "S04", gone, "cavity J1:9 holds [], the wires that end there are [S04]"),
		text("transposed pin", "pins", page.MonoBold, 13, "S03", into("S04"), "cavity J1:5 holds [S04]"),
		text("other end", "pins", page.Mono, 12, "P3:4", into("P3:3"), "other ends [P3:3]"),
		text("open cavity", "pins", page.Bold, 13, "OPEN", gone, `says "", the plan "OPEN"`),
		{"symbol of a cavity", "pins", changeSymbol("J1:9 of unit 0040", nil), "0 symbols of kind landing where 1 belong"},
		{"symbol of the other unit", "pins", changeSymbol("J1:9 of unit 0040", func(s *page.Symbol) { s.String = code("landing", "J1:9", "0041") }),
			"names J1:9 of unit 0041"},
		{"symbol of a connector", "pins", changeSymbol("connector J1", nil), "0 symbols of kind connector where 1 belong"},
		text("wire of a routing table", "routing", page.MonoBold, 13, "S03", gone, "wire S03 of unit 0040 stands 0 times in the routing table"),
		text("node of a way", "routing", page.MonoBold, 13, "N2", gone, "lies along [N1 N4], the plan says [N1 N2 N4]"),
		text("end in a routing table", "routing", page.Mono, 11, "P2:C", into("P2:D"), "wire L03 is laid between"),
		text("term of a length", "lengths", page.Mono, 10, "1470.8", into("1470.9"), `the length of L01 adds up to 1723.1 mm, "1723" is printed`),
		text("term of a length gone", "lengths", page.Mono, 10, "29.4", gone, `lacks its term "A"`),
		text("cut length of a sum", "lengths", page.MonoBold, 10, "1723", into("1732"), `is cut to "1732", the plan says 1723 mm`),
		text("finished length", "lengths", page.Mono, 10, "1660.8", into("1680.8"), `is finished "1680.8", the plan says 1660.82 mm`),
		text("tolerance of a length", "lengths", page.Mono, 10, "-0 +100", into("-10 +100"), `has the tolerance "-10 +100", the plan says "-0 +100"`),
		text("wire of the length sums", "lengths", page.MonoBold, 10, "S03", into("S04"), "the length of S03 stands 0 times in the length sums"),
		text("finished length of a routing table", "routing", page.Mono, 10, "1660.8 -0 +100", into("1660.8 -0 +10"), "is laid as finished"),
		text("node of the map", "map", page.MonoBold, 10, "N2", gone, "node N2 stands 0 times on the map"),
		text("connector of the map", "map", page.MonoBold, 12, "P2", into("P3"), "connector P3 stands 2 times on the map"),
		text("diameter of a segment", "map", page.Mono, 11, "4.4", into("4.5"), "segment N1 to N2 stands as [800 8 4.5 4.6"),
		text("wire that is looked for", "map", page.MonoBold, 12, "K01 to K03", gone, "wire K01 to K03 is found along []"),
		text("count on a label", "labels", page.Bold, 12, "8 wires", into("9 wires"), "does not count the 8 wires"),
		text("connector on a label", "labels", page.Bold, 48, "J1", gone, "tray J1/0040 has 0 labels"),
		{"symbol of a tray", "labels", changeSymbol("tray P2/0040", nil), "1 symbols of kind tray where 2 belong"},
	}
}

func textDamage(name, sheet string, face page.Face, size page.Pt, was string, change func(page.Text) *page.Text, finds string) damage {
	return damage{name, sheet, changeText(face, size, was, change), finds}
}

// codeOf returns the string of a thing's symbol.
func (d demo) codeOf(kind, name, unit string) string {
	for _, row := range d.codes() {
		if row.Kind == kind && row.Name == name && row.Unit == unit {
			return row.Code
		}
	}
	return ""
}

func keyIn(code string) string { return code[:1] + code[15:21] + "-" + code[21:] }

func gone(page.Text) *page.Text { return nil }

func into(text string) func(page.Text) *page.Text {
	return func(t page.Text) *page.Text { t.String = text; return &t }
}

func shift(by page.Pt) func(page.Text) *page.Text {
	return func(t page.Text) *page.Text { t.X += by; return &t }
}

// changeText changes or takes away the first text in a face and size; no words mean the first figure.
func changeText(face page.Face, size page.Pt, was string, change func(page.Text) *page.Text) func([]page.Item) []page.Item {
	return func(items []page.Item) []page.Item {
		for i, item := range items {
			text, is := item.(page.Text)
			if !is || text.Face != face || text.Size != size*page.Point || was != "" && text.String != was ||
				was == "" && strings.Trim(text.String, "0123456789") != "" {
				continue
			}
			changed := change(text)
			if changed == nil {
				return slices.Delete(items, i, i+1)
			}
			items[i] = *changed
			return items
		}
		return nil
	}
}

// symbolAt finds the first symbol whose words start so; -1 for none.
func symbolAt(items []page.Item, words string) int {
	return slices.IndexFunc(items, func(item page.Item) bool {
		symbol, is := item.(page.Symbol)
		return is && strings.HasPrefix(symbol.Says, words)
	})
}

// changeSymbol changes a symbol, or takes it away where nothing changes it.
func changeSymbol(words string, change func(*page.Symbol)) func([]page.Item) []page.Item {
	return func(items []page.Item) []page.Item {
		at := symbolAt(items, words)
		if at < 0 {
			return nil
		}
		if change == nil {
			return slices.Delete(items, at, at+1)
		}
		symbol := items[at].(page.Symbol)
		change(&symbol)
		items[at] = symbol
		return items
	}
}

// strikeSymbol draws a heavy black stroke through a symbol.
func strikeSymbol(words string) func([]page.Item) []page.Item {
	return func(items []page.Item) []page.Item {
		at := symbolAt(items, words)
		if at < 0 {
			return nil
		}
		area := items[at].(page.Symbol).Area()
		area.Y, area.H = area.Y+area.H/3, area.H/3
		return append(items, page.Box{Rect: area, Filled: true})
	}
}

// harm damages the first page of a sheet that has what is damaged, and returns that page's index.
func harm(document page.Document, d damage) (page.Document, int) {
	document.Pages = slices.Clone(document.Pages)
	for i := range document.Pages {
		p := &document.Pages[i]
		if p.Sheet != d.sheet {
			continue
		}
		if body := d.harm(slices.Clone(p.Body)); body != nil {
			p.Body = body
			return document, i
		}
		if frame := d.harm(slices.Clone(p.Frame)); frame != nil {
			p.Frame = frame
			return document, i
		}
	}
	return document, -1
}

// requireFound puts one thing wrong at a time on paper that reads well: the recount must notice each.
func (d demo) requireFound(t *testing.T, packet, labels []paper, damages []damage) {
	t.Helper()
	require.Empty(t, d.reconcile(packet, labels))
	for _, one := range damages {
		t.Run(one.name, func(t *testing.T) {
			packet, labels := slices.Clone(packet), slices.Clone(labels)
			document, papers := d.packet.Pages, packet
			if one.sheet == "labels" {
				document, papers = d.packet.Labels, labels
			}
			harmed, at := harm(document, one)
			require.GreaterOrEqual(t, at, 0, "there is nothing to damage")
			harmed.Pages = harmed.Pages[at : at+1]
			papers[at] = readDocument(t, harmed, false)[0]
			require.Contains(t, strings.Join(d.reconcile(packet, labels), "\n"), one.finds)
		})
	}
}

// TestDamageIsFound puts one thing wrong at a time on paper: the recount must notice each.
func TestDamageIsFound(t *testing.T) {
	t.Parallel()
	skipUnderRace(t)
	d := made(t, "sled-small", jobText(t, "sled-small"))
	packet := readDocument(t, d.packet.Pages, false)
	labels := readDocument(t, d.packet.Labels, false)
	d.requireFound(t, packet, labels, append(damages(d), sumDamages()...))
}

// TestLostPagesAreFound loses every page in turn.
func TestLostPagesAreFound(t *testing.T) {
	t.Parallel()
	skipUnderRace(t)
	d := made(t, "sled-small", jobText(t, "sled-small"))
	packet := readDocument(t, d.packet.Pages, false)
	labels := readDocument(t, d.packet.Labels, false)
	for i, p := range packet {
		require.NotEmpty(t, d.reconcile(slices.Delete(slices.Clone(packet), i, i+1), labels), "page %s", p.name)
	}
	for i, p := range labels {
		require.NotEmpty(t, d.reconcile(packet, slices.Delete(slices.Clone(labels), i, i+1)), "labels %s", p.name)
	}
}
