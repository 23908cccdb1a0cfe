package main

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/fonts"
	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/sheet"
)

// Sizes that paper keeps; common practice where nothing else is said.
const (
	actedOn   = 9 * page.Point // text that somebody works by
	smallNote = 75 * page.Point / 10
	pictured  = 7 * page.Point // names within a drawing
	crossing  = page.Point / 2 // how far a line may run into the box around a text
)

// benchBox, boardBox and boxGap are the sides of boxes to tick, and what stays clear between two.
func benchBox() page.Pt { return page.MM(5000) }
func boardBox() page.Pt { return page.MM(7000) }
func boxGap() page.Pt   { return page.MM(2000) }

// rules looks at the pages of one packet.
type rules struct {
	metrics page.Metrics
	plan    plan.Plan
	packet  sheet.Packet
	codeOf  map[string]string // the string of the symbol of every page, by its name
	head    []string          // what stands at the head and foot of the first page
	found   []string
}

func (r *rules) report(pg page.Page, format string, values ...any) {
	if len(r.found) < 20 {
		r.found = append(r.found, pg.Name+": "+fmt.Sprintf(format, values...))
	}
}

// brokenRules returns what a packet breaks of the rules that page.Check does not know.
func brokenRules(p plan.Plan, packet sheet.Packet, metrics page.Metrics) []string {
	r := &rules{metrics: metrics, plan: p, packet: packet, codeOf: map[string]string{}}
	for _, row := range packet.Codes {
		r.codeOf[row.Name] = row.Code
	}
	r.head = r.fixed(packet.Pages.Pages[0])
	for _, document := range []page.Document{packet.Pages, packet.Labels} {
		for _, pg := range document.Pages {
			r.page(pg, document)
		}
	}
	r.listed()
	r.everyThingOnce()
	r.breaks()
	r.mating()
	r.sums()
	return r.found
}

// page holds one page, of the packet or of the labels, to the rules.
func (r *rules) page(pg page.Page, document page.Document) {
	r.sizes(pg)
	r.boxes(pg)
	r.lines(pg)
	r.black(pg)
	r.figures(pg)
	r.symbols(pg)
	r.scale(pg)
	if pg.Sheet == "labels" {
		return
	}
	r.margins(pg, document)
	r.header(pg)
	r.endings(pg)
	r.rows(pg)
	r.columns(pg)
}

// sizes asks that text is large enough: notes of the frame may be smaller, and names within a drawing.
func (r *rules) sizes(pg page.Page) {
	for i, item := range pg.Items() {
		text, is := item.(page.Text)
		if !is || text.Picture {
			continue
		}
		least := actedOn
		switch {
		case i < len(pg.Frame):
			least = smallNote
		case text.Drawn:
			least = pictured
		}
		if text.Size < least {
			r.report(pg, "%q is set in %v pt", text.String, text.Size)
		}
	}
}

// ticks returns the boxes of a page that are ticked: square, empty, in a line as heavy as that of boxes, not larger than any.
func ticks(pg page.Page) []page.Rect {
	var boxes []page.Rect
	for _, item := range pg.Body {
		if b, is := item.(page.Box); is && !b.Filled && b.W == b.H && b.Weight >= page.Point && b.W <= page.MM(12000) {
			boxes = append(boxes, b.Rect)
		}
	}
	return boxes
}

// boxes asks that boxes are large enough to hit, larger where gloves are worn, and apart.
func (r *rules) boxes(pg page.Page) {
	if pg.Sheet == "map" {
		return // squares there are connectors
	}
	least := benchBox()
	if slices.Contains([]string{"pins", "joints", "routing"}, pg.Sheet) {
		least = boardBox()
	}
	boxes := ticks(pg)
	slices.SortFunc(boxes, func(a, b page.Rect) int { return cmp.Or(cmp.Compare(a.Y, b.Y), cmp.Compare(a.X, b.X)) })
	for i, a := range boxes {
		if a.W < least {
			r.report(pg, "a box of %v pt at %v, %v", a.W, a.X, a.Y)
		}
		for _, b := range boxes[i+1:] {
			if b.Y >= a.Y+a.H+boxGap() {
				break
			}
			across, down := max(b.X-(a.X+a.W), a.X-(b.X+b.W)), b.Y-(a.Y+a.H)
			if max(across, down) < boxGap() {
				r.report(pg, "two boxes are %v and %v pt apart at %v, %v", across, down, a.X, a.Y)
			}
		}
	}
}

// lines asks that no rule and no edge of a box runs through a text.
func (r *rules) lines(pg page.Page) {
	if pg.Sheet == "map" {
		return // the key says what its lines mean; labels are kept off them by a test of the map
	}
	var strokes []page.Rect
	for _, item := range pg.Items() {
		switch i := item.(type) {
		case page.Rule:
			if i.X1 == i.X2 || i.Y1 == i.Y2 {
				strokes = append(strokes, page.Rect{X: min(i.X1, i.X2), Y: min(i.Y1, i.Y2), W: max(i.X1-i.X2, i.X2-i.X1), H: max(i.Y1-i.Y2, i.Y2-i.Y1)})
			}
		case page.Box:
			if !i.Filled {
				strokes = append(strokes, page.Rect{X: i.X, Y: i.Y, W: i.W}, page.Rect{X: i.X, Y: i.Y + i.H, W: i.W},
					page.Rect{X: i.X, Y: i.Y, H: i.H}, page.Rect{X: i.X + i.W, Y: i.Y, H: i.H})
			}
		}
	}
	for _, item := range pg.Items() {
		text, is := item.(page.Text)
		if !is || text.Picture {
			continue
		}
		box := page.Extent(text, r.metrics)
		top := text.Y - r.metrics.CapHeight(text.Face, text.Size)
		for _, s := range strokes {
			if s.X+s.W > box.X+crossing && s.X < box.X+box.W-crossing && s.Y+s.H > top+crossing && s.Y < text.Y-crossing {
				r.report(pg, "a line at %d, %d runs through %q", s.X, s.Y, text.String)
			}
		}
	}
}

func placed(items []page.Item, text string) *page.Text {
	for _, item := range items {
		if t, is := item.(page.Text); is && t.String == text {
			return &t
		}
	}
	return nil
}

// endings asks that no heading ends a page, and that who signs never stands on a page alone.
func (r *rules) endings(pg page.Page) {
	lowest := page.Pt(0)
	texts := 0
	for _, item := range pg.Body {
		if t, is := item.(page.Text); is {
			lowest, texts = max(lowest, t.Y), texts+1
		}
	}
	for _, item := range pg.Body {
		if t, is := item.(page.Text); is && t.Face == page.Bold && t.Size == 12*page.Point && t.X == pg.Live.X && t.Y == lowest && texts > 1 &&
			!strings.Contains(t.String, ":") && !slices.Contains([]string{"lengths", "routing"}, pg.Sheet) {
			r.report(pg, "the heading %q ends the page", t.String)
		}
	}
	stamp := r.plan.Paper.Words[0].Say("common.stamp")
	if pg.Number > 1 && texts <= 9 && placed(pg.Body, stamp) != nil && !slices.Contains([]string{"tags", "cover"}, pg.Sheet) {
		r.report(pg, "who signs stands alone")
	}
}

// listed asks that the contents name every other page with its hash, and that pages count within their section.
func (r *rules) listed() {
	listed := map[string]bool{}
	for _, pg := range r.packet.Pages.Pages {
		if pg.Sheet == "contents" {
			for _, item := range pg.Body {
				if t, is := item.(page.Text); is {
					listed[t.String] = true
				}
			}
		}
	}
	of := map[string]int{}
	for _, pg := range r.packet.Pages.Pages {
		if pg.Sheet != "contents" && (!listed[pg.Name] || !listed[grouped(pg.Hash[:12])]) {
			r.report(pg, "the contents do not list it with its hash")
		}
		of[strings.TrimSuffix(pg.Name, fmt.Sprintf("/%d", pg.Number))]++
	}
	for _, pg := range r.packet.Pages.Pages {
		if got := of[strings.TrimSuffix(pg.Name, fmt.Sprintf("/%d", pg.Number))]; got != pg.Of {
			r.report(pg, "page of %d, and there are %d", pg.Of, got)
		}
	}
}

func grouped(digits string) string { return digits[:4] + " " + digits[4:8] + " " + digits[8:12] }

// everyThingOnce counts the symbols: every wire once in each of its lists, every landing and tray once a unit.
func (r *rules) everyThingOnce() {
	count := map[string]int{}
	for _, document := range []page.Document{r.packet.Pages, r.packet.Labels} {
		for _, pg := range document.Pages {
			for _, item := range pg.Body {
				if s, is := item.(page.Symbol); is && (pg.Sheet == "cutlist" || pg.Sheet == "apart" || pg.Sheet == "pins" || pg.Sheet == "joints" || pg.Sheet == "labels") {
					count[s.String]++
				}
			}
		}
	}
	if r.plan.Packet.Draft { // nothing of it can be scanned
		if len(count) > 0 {
			r.found = append(r.found, fmt.Sprintf("a draft has the symbols %v", sortedKeys(count)))
		}
		return
	}
	cores := map[string]bool{}
	for _, w := range r.plan.Wires {
		cores[w.ID] = w.Cable != ""
	}
	for _, row := range r.plan.CodeRows() {
		want := 1
		switch row.Code[0] {
		case 'C':
			if want = len(r.plan.Packet.Lists); cores[row.Name] {
				want = 0 // a core is keyed in: its cable has the symbol
			}
		case 'P':
		case 'T':
			want = 2 // bars and a matrix
		default:
			continue
		}
		got := count[row.Code]
		if row.Code[0] == 'C' && got > want { // a wire that two reels share has a row for each
			got = want
		}
		if got != want {
			r.found = append(r.found, fmt.Sprintf("%s (%s) has %d symbols, not %d", row.Name, row.Code, count[row.Code], want))
		}
	}
}

// sums asks that trays hold all pieces, and that cavities add up.
func (r *rules) sums() {
	inTrays := 0
	for _, tray := range r.plan.Trays {
		inTrays += len(tray.Wires)
	}
	if inTrays != len(r.plan.Pieces) {
		r.found = append(r.found, fmt.Sprintf("the trays hold %d pieces of %d", inTrays, len(r.plan.Pieces)))
	}
	for _, c := range r.plan.Connectors {
		if n := c.Counts; n.Wired+n.Sealed+n.Open+n.Loose != n.Cavities {
			r.found = append(r.found, fmt.Sprintf("the cavities of %s do not add up: %+v", c.ID, n))
		}
	}
}

// TestDemoPacketsKeepTheRulesOfPaper holds every page of every demo job to them, in both languages.
func TestDemoPacketsKeepTheRulesOfPaper(t *testing.T) {
	t.Parallel()
	skipUnderRace(t)
	metrics, err := page.LoadMetrics(fonts.Files)
	require.NoError(t, err)
	for _, name := range []string{"sled-small", "sled", "torture", "relay-cable", "substitute"} {
		for _, text := range [][]byte{jobText(t, name), inGerman(jobText(t, name))} {
			d := made(t, name, text)
			require.Empty(t, brokenRules(d.plan, d.packet, metrics), name)
		}
	}
}

// TestInstallersAreToldTheTrayThatHoldsTheWire splits trays, and finds the tray of every wire on the checklists of its ends.
func TestInstallersAreToldTheTrayThatHoldsTheWire(t *testing.T) {
	text := strings.Replace(string(inGerman(jobText(t, "sled-small"))), "[paper]\n", "[tray]\nwires = 3\n\n[paper]\n", 1)
	d := made(t, "sled-small", []byte(strings.Replace(text, `language = ["de", "en"]`, `language = ["en"]`, 1)))
	parts, checked := 0, 0
	for _, tray := range d.plan.Trays {
		parts = max(parts, tray.Of)
		name := fmt.Sprintf("%s/%d", tray.Group, tray.Part)
		for _, id := range tray.Wires {
			for _, pg := range d.packet.Pages.Pages {
				if pg.Sheet != "pins" || pg.Unit == 0 || d.plan.Packet.Units[pg.Unit-1] != tray.Unit {
					continue
				}
				at := placed(pg.Body, id)
				if at == nil || tray.Of < 2 {
					continue
				}
				beside := slices.ContainsFunc(pg.Body, func(item page.Item) bool {
					said, is := item.(page.Text)
					return is && strings.HasSuffix(said.String, name) && said.Y >= at.Y && said.Y < at.Y+page.MM(9000) && said.X > at.X
				})
				require.True(t, beside, "%s: wire %s does not say tray %s", pg.Name, id, name)
				require.NotNil(t, placed(pg.Body, name), "%s does not ask for tray %s", pg.Name, name)
				checked++
			}
		}
	}
	require.Greater(t, parts, 1, "no tray is split")
	require.Positive(t, checked, "no wire of a split tray was looked up")
}
