package sheet

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
)

// scatteredPlan is a plan of a random tree of nodes on a board of 4.8 by 1.8 m, with connectors at a third of its nodes.
func scatteredPlan(nodes int, seed uint64) plan.Plan {
	source := rand.New(rand.NewPCG(seed, 300))
	p := sledJob().plan()
	p.Connectors, p.Joints, p.Routing, p.Finder = nil, nil, nil, nil
	p.Board = plan.Board{ID: "FB-300", WidthUM: 4_800_000, HeightUM: 1_800_000, Drawn: true}
	p.Segments = nil
	for i := range nodes {
		n := plan.BoardNode{ID: fmt.Sprintf("N%d", i+1), XUM: source.Int64N(4_800_001), YUM: source.Int64N(1_800_001), Fixing: i%5 == 0}
		if i > 0 {
			near := nearest(p.Board.Nodes, n)
			s := plan.Segment{Between: [2]string{near.ID, n.ID}, LengthUM: 100_000 + source.Int64N(900_000), Wires: []string{"W1"}, DiameterUM: 1_270 + source.Int64N(20_000)}
			if i%10 == 3 {
				s.Covers = []plan.SegmentCover{{Part: "MOR-BR-6", ToUM: s.LengthUM / 2}}
			}
			p.Segments = append(p.Segments, s)
			if i%3 == 0 {
				p.Board.Items = append(p.Board.Items, plan.BoardItem{ID: fmt.Sprintf("J%d", i), Kind: []string{"connector", "splice", "terminal"}[i/3%3], Node: n.ID, XUM: n.XUM, YUM: n.YUM,
					Title: "box of the survey", Key: "up", After: near.ID})
			}
		}
		p.Board.Nodes = append(p.Board.Nodes, n)
	}
	return p
}

// nearest returns the node that a new one is joined to.
func nearest(nodes []plan.BoardNode, to plan.BoardNode) plan.BoardNode {
	best := nodes[0]
	apart := func(n plan.BoardNode) int64 { return abs64(n.XUM-to.XUM) + abs64(n.YUM-to.YUM) }
	for _, n := range nodes {
		if apart(n) < apart(best) {
			best = n
		}
	}
	return best
}

// mapDocument lays the map alone.
func mapDocument(t *testing.T, m composer, p plan.Plan) page.Document {
	t.Helper()
	var problems problem.List
	document := page.Document{Width: mm(210), Height: mm(297)}
	for _, s := range sheetsOf(p.Packet, mapSections(&p, m, &problems), m) {
		document.Pages = append(document.Pages, s.Page)
	}
	require.Empty(t, problems)
	require.Empty(t, page.Check(document, m.Metrics))
	return document
}

// TestALargeBoardHasNoLabelOnALabelOrASegment counts overlaps on the map of 300 random nodes, from the items of the pages alone.
func TestALargeBoardHasNoLabelOnALabelOrASegment(t *testing.T) {
	m := loadFonts(t)
	for _, nodes := range []int{1, 2, 40, 300} {
		p := scatteredPlan(nodes, uint64(nodes))
		p.Board.Drawn = nodes > 1
		document := mapDocument(t, m, p)
		ids, overlaps := map[string]int{}, 0
		for _, pg := range document.Pages {
			texts, strokes := labelsAndSegments(pg, m)
			for i, a := range texts {
				for _, b := range texts[:i] {
					overlaps += one(rectsOverlap(a.rect, b.rect))
				}
				for _, s := range strokes {
					overlaps += one(strokeHits(s, a.rect))
				}
				if a.text.Face == page.MonoBold && a.text.Size == 10*page.Point {
					ids[a.text.String]++
				}
			}
		}
		require.Zero(t, overlaps)
		if nodes > 1 {
			require.Len(t, ids, nodes, "every node is named")
		}
		for id, n := range ids {
			require.Equal(t, 1, n, "%s is named on one tile", id)
		}
		t.Logf("%d nodes: %d pages", nodes, len(document.Pages))
	}
}

type textAt struct {
	text page.Text
	rect page.Rect
}

// labelsAndSegments returns what stands in the drawing of a page.
func labelsAndSegments(pg page.Page, m composer) (texts []textAt, segments []stroke) {
	for _, item := range pg.Body {
		switch i := item.(type) {
		case page.Text:
			if rect := page.Extent(i, m.Metrics); rect.Y >= mapTop() && rect.Y+rect.H <= mapBottom() {
				texts = append(texts, textAt{i, rect})
			}
		case page.Rule:
			if i.Weight == wireRule && i.Y1 >= mapTop() && i.Y1 <= mapBottom() {
				segments = append(segments, stroke{point{i.X1, i.Y1}, point{i.X2, i.Y2}})
			}
		}
	}
	return texts, segments
}

func TestABoardWithoutPlacesSaysSo(t *testing.T) {
	p := scatteredPlan(12, 1)
	p.Board.Drawn = false
	for i := range p.Board.Nodes {
		p.Board.Nodes[i].XUM, p.Board.Nodes[i].YUM = 0, 0
	}
	found := false
	for _, item := range mapDocument(t, loadFonts(t), p).Pages[0].Body {
		text, is := item.(page.Text)
		found = found || is && text.String == "NO DRAWING: the job gives all nodes of the board one place."
	}
	require.True(t, found)
}

func TestTheMapIsToScale(t *testing.T) {
	p := scatteredPlan(2, 7)
	p.Board.Nodes[0].XUM, p.Board.Nodes[0].YUM, p.Board.Nodes[1].XUM, p.Board.Nodes[1].YUM = 0, 0, 4_800_000, 1_800_000
	p.Segments[0].LengthUM = 5_126_402
	_, segments := labelsAndSegments(mapDocument(t, loadFonts(t), p).Pages[0], loadFonts(t))
	require.Len(t, segments, 1)
	require.InDelta(t, float64(mm(160)), float64(segments[0].b.x-segments[0].a.x), 2, "4800 mm at 1:30")
	require.InDelta(t, float64(mm(60)), float64(segments[0].a.y-segments[0].b.y), 2, "up on the board is up on the page")
}

func TestSeparationsTogetherAreShown(t *testing.T) {
	p := scatteredPlan(3, 7)
	all, mixed := separationsOf(p.Segments)
	require.Empty(t, all)
	require.Zero(t, mixed)
	p.Segments[0].Separations, p.Segments[1].Separations = []string{"A"}, []string{"A", "B"}
	all, mixed = separationsOf(p.Segments)
	require.Equal(t, []string{"A", "B"}, all)
	require.Equal(t, 1, mixed)
	require.Equal(t, "A and B", loadFonts(t).listed(p.Segments[1].Separations))
}

// crowdedPlan is a board of 3 by 0.9 m with three rows of connectors at its left end.
func crowdedPlan() plan.Plan {
	p := scatteredPlan(1, 7)
	p.Board.WidthUM, p.Board.HeightUM = 3_000_000, 900_000
	p.Board.Nodes = []plan.BoardNode{{ID: "N0", XUM: 500_000, YUM: 450_000}}
	p.Board.Items, p.Segments = nil, nil
	for i := range int64(3) {
		n := plan.BoardNode{ID: fmt.Sprintf("N%d", i+1), XUM: 100_000, YUM: 150_000 + 300_000*i}
		p.Board.Nodes = append(p.Board.Nodes, n)
		p.Segments = append(p.Segments, plan.Segment{Between: [2]string{"N0", n.ID}, LengthUM: 500_000, Wires: []string{"W1"}})
		for k := range 4 {
			p.Board.Items = append(p.Board.Items, plan.BoardItem{ID: fmt.Sprintf("J%d%d", i, k), Kind: "connector", Node: n.ID, XUM: n.XUM, YUM: n.YUM, After: "N0"})
		}
	}
	return p
}

// TestRowsOfTilesAreNumberedAtTheirHeight holds the numbers of the key page to their rows, on a board whose left end is crowded.
func TestRowsOfTilesAreNumberedAtTheirHeight(t *testing.T) {
	m, p := loadFonts(t), crowdedPlan()
	var problems problem.List
	b := newBoardMap(&p, m, &problems)
	tiles := b.tilesAt(12)
	b.keyPage(tiles)
	whole := b.wholeBoard()
	signs := b.signsOf(&whole)
	numbers := 0
	for _, item := range b.items {
		text, is := item.(page.Text)
		row, err := strconv.ParseInt(text.String, 10, 64)
		if !is || err != nil || text.Face != page.MonoBold || text.Size != 14*page.Point {
			continue
		}
		numbers++
		extent := page.Extent(text, m.Metrics)
		high := tiles[0].high
		require.Less(t, whole.at(0, row*high).y, extent.Y+extent.H/2, "row %d", row)
		require.Greater(t, whole.at(0, (row-1)*high).y, extent.Y+extent.H/2, "row %d", row)
		require.False(t, slices.ContainsFunc(signs, func(r page.Rect) bool { return meet(r, extent) }), "row %d", row)
	}
	require.Equal(t, tiles[0].row+1, numbers, "each row once")
	require.Greater(t, numbers, 4)
}

func TestTileNames(t *testing.T) {
	require.Equal(t, []string{"A1", "Z3", "AA2", "AB1"}, []string{tileName(0, 0), tileName(25, 2), tileName(26, 1), tileName(27, 0)})
}

// TestNoLineCrossesALetterOfTheKey draws the keys of crowded boards: what leads to an id crosses no letter of a column and no number of
// a row.
func TestNoLineCrossesALetterOfTheKey(t *testing.T) {
	m := loadFonts(t)
	letters, lines := 0, 0
	for seed := range uint64(3) {
		var problems problem.List
		p := scatteredPlan(100+20*int(seed), seed+6)
		b := newBoardMap(&p, m, &problems)
		for _, scale := range b.scalesThatFit() {
			tiles := b.tilesAt(scale)
			if len(tiles) < 4 || len(tiles) > 9 {
				continue
			}
			b.keyPage(tiles)
			var words []page.Rect
			for _, item := range b.items {
				if text, is := item.(page.Text); is && text.Face == page.MonoBold && text.Size == 14*page.Point {
					words = append(words, page.Extent(text, m.Metrics))
				}
			}
			for _, item := range b.items {
				if rule, is := item.(page.Rule); is && rule.Weight == rowRule && rule.Y1 >= mapTop() && rule.Y2 <= mapBottom() {
					lines++
					for _, word := range words {
						require.False(t, strokeHits(stroke{point{rule.X1, rule.Y1}, point{rule.X2, rule.Y2}}, word), "board %d in %d tiles: %v through %v", seed, len(tiles), rule, word)
					}
				}
			}
			letters += len(words)
		}
		require.Empty(t, problems)
	}
	require.Greater(t, letters, 10)
	require.Greater(t, lines, 50)
}
