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

// laidPlan is a plan of a board with routing rows of every kind, ids of a given length, and so many rows on its first way.
func laidPlan(rows, idLength, nodes int) plan.Plan {
	p := sledJob().plan()
	p.Connectors, p.Joints = nil, nil
	name := func(letter string, i int) string {
		return letter + strings.Repeat("0", max(idLength-len(fmt.Sprint(i))-1, 0)) + fmt.Sprint(i)
	}
	way := plan.Way{Home: "J1"}
	for i := range nodes {
		id := name("N", i+1)
		p.Board.Nodes = append(p.Board.Nodes, plan.BoardNode{ID: id, XUM: int64(i) * 200_000})
		way.Nodes = append(way.Nodes, id)
		if i > 0 {
			way.DiameterUM, way.RoomUM = append(way.DiameterUM, 5_440), append(way.RoomUM, 5_667)
		}
	}
	for i := range rows {
		row := plan.Laid{Kind: "wire", ID: name("W", i+1), Words: "22 AWG, white", From: "J1:" + name("", i), To: "P2:" + name("", i), Tray: "J1", SlackUM: 38_400, Known: true, FinishedUM: 12_345_600, Tolerance: &plan.Tolerance{LongerUM: 617_280}}
		switch i % 7 {
		case 3:
			row.Kind, row.Words = "twist", "of 2 wires"
			row.Parts = []plan.LaidPart{{Wire: name("W", 900), Words: "24 AWG, white", From: "J1:1", To: "P2:1"}, {Wire: name("W", 901), Words: "24 AWG, blue", From: "J1:2", To: "P2:2"}}
		case 4:
			row.Known, row.Tray = false, "measured"
		case 5:
			row.SlackUM = -11_200
		}
		way.Rows = append(way.Rows, row)
	}
	short := way
	short.Nodes, short.RoomUM, short.Rows = way.Nodes[:1], nil, way.Rows[:1]
	p.Routing = []plan.Branch{{Leaves: way.Nodes[0], Ways: []plan.Way{way, short}}, {Leaves: way.Nodes[0], Nodes: way.Nodes[:1], Ways: []plan.Way{short}},
		{Ways: []plan.Way{{Home: "J1", Rows: way.Rows[:1]}}}}
	return p
}

func TestRoutingFitsWhateverItsIds(t *testing.T) {
	m := loadFonts(t)
	rapid.Check(t, func(t *rapid.T) {
		p := laidPlan(rapid.IntRange(1, 60).Draw(t, "rows"), rapid.IntRange(1, 16).Draw(t, "id"), rapid.IntRange(1, 12).Draw(t, "nodes"))
		var problems problem.List
		document := page.Document{Width: mm(210), Height: mm(297)}
		for _, s := range sheetsOf(p.Packet, routingSections(&p, m, &problems), m) {
			document.Pages = append(document.Pages, s.Page)
		}
		require.Empty(t, problems)
		require.Empty(t, page.Check(document, m.Metrics))
		rows, headings := 0, 0
		for _, pg := range document.Pages {
			if pg.Unit != 1 {
				continue
			}
			ticks, onPage := 0, 0
			for _, item := range pg.Body {
				if box, is := item.(page.Box); is && box.W == gloveTick && box.X == live.X && box.Y > bodyTop()+mm(16) {
					ticks++
				}
				if text, is := item.(page.Text); is && text.Face == page.Medium && text.String == "along" {
					onPage++
				}
			}
			rows, headings = rows+ticks, headings+onPage
		}
		require.GreaterOrEqual(t, rows, len(p.Routing[0].Ways[0].Rows)+3)
		require.GreaterOrEqual(t, headings, 3)
	})
}

func TestRoutingSaysWhatIsNotKnown(t *testing.T) {
	packet := layJob(t, loadFonts(t), laidPlan(7, 4, 3))
	var words []string
	for _, pg := range packet.Pages.Pages {
		if pg.Sheet == "routing" && pg.Unit == 1 {
			for _, item := range pg.Body {
				if text, is := item.(page.Text); is {
					words = append(words, text.String)
				}
			}
		}
	}
	for _, word := range []string{"short 12", "-", "38", "TWIST of 2 wires", "W900", "NO PLACE ON THE BOARD", "- 5.7 -", "alone: both ends stand there", "END OF LIST: 10 rows"} {
		require.Contains(t, words, word)
	}
	require.Contains(t, strings.Join(words, " "), "not from a tray: measured")
}

func TestAJobWithoutABoardHasNoRouting(t *testing.T) {
	p := laidPlan(3, 4, 3)
	p.Board.Nodes = nil
	for _, pg := range layJob(t, loadFonts(t), p).Pages.Pages {
		require.NotEqual(t, "routing", pg.Sheet)
	}
}
