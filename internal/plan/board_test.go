package plan

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// spine is a board with a trunk N1 to N4 and two branches, N5 off N2 and N6 off N3.
func spine() *harness.Harness {
	h := branched()
	h.Board.Nodes = append(h.Board.Nodes, harness.Node{ID: "N5", X: 150 * mm, Y: 200 * mm}, harness.Node{ID: "N6", X: 300 * mm, Y: 200 * mm})
	h.Board.Segments = append(h.Board.Segments, harness.Segment{From: "N2", To: "N5"}, harness.Segment{From: "N3", To: "N6"})
	h.Connectors[1].Node, h.Connectors[2].Node = "N5", "N6"
	return h
}

func TestTrunkIsTheThickestWay(t *testing.T) {
	h := spine()
	addWire(h, "W1", "E22W", 0, 3, 0)
	addWire(h, "W2", "E22W", 1, 3, 0)
	addWire(h, "W3", "E22W", 2, 3, 0)
	p := made(t, h)
	require.Equal(t, []string{"N1", "N2", "N3", "N4"}, p.Board.Trunk)
	var laid [][]string
	for _, b := range p.Routing {
		laid = append(laid, append([]string{b.Leaves}, b.Nodes...))
	}
	require.Equal(t, [][]string{{"N1"}, {"N2", "N5"}, {"N3", "N6"}}, laid, "in the order along the trunk")
	way := p.Routing[1].Ways[0]
	require.Equal(t, []string{"N5", "N2", "N3", "N4"}, way.Nodes)
	require.Equal(t, []int64{1270, 2540, 2737}, way.RoomUM)
	require.Equal(t, "J1", way.Home)
}

func TestRoutingStartsAtTheHome(t *testing.T) {
	h := spine()
	addWire(h, "W1", "E22W", 3, 0, 0)
	row, way := made(t, h).Routing[0].Ways[0].Rows[0], made(t, h).Routing[0].Ways[0]
	require.Equal(t, []string{"N1", "N2", "N3", "N4"}, way.Nodes)
	require.Equal(t, "J2:1", row.From)
	require.Equal(t, "X9:1", row.To)
}

func TestSlackIsWhatNeitherWayNorEndsTake(t *testing.T) {
	h := spine()
	h.Connectors[0].Tail, h.Connectors[3].Tail, h.Connectors[3].ToBarrel = 60*mm, 50*mm, 6*mm
	addWire(h, "W1", "E22W", 0, 3, 600*mm)
	h.Wires[0].B.Trim = 20 * mm
	row := made(t, h).Routing[0].Ways[0].Rows[0]
	require.True(t, row.Known)
	// 600 cut, less 450 of way, 60 and 50 of tails, 6 to the barrel, 4 and 4 of strip, 20 of trim
	require.Equal(t, int64(6_000), row.SlackUM)
	h.Wires[0].Measure, h.Wires[0].Given = true, 0
	row = made(t, h).Routing[0].Ways[0].Rows[0]
	require.False(t, row.Known)
	require.Equal(t, "measured", row.Tray)
}

func TestFixingPointsAreWhereABranchPasses(t *testing.T) {
	h := spine()
	fixing := func() []string {
		var ids []string
		for _, n := range made(t, h).Board.Nodes {
			if n.Fixing {
				ids = append(ids, n.ID)
			}
		}
		return ids
	}
	addWire(h, "W1", "E22W", 0, 3, 0)
	require.Empty(t, fixing())
	h.Board.Nodes = append(h.Board.Nodes, harness.Node{ID: "N7", X: 600 * mm})
	h.Board.Nodes = append(h.Board.Nodes, harness.Node{ID: "N8", X: 800 * mm})
	h.Board.Segments = append(h.Board.Segments, harness.Segment{From: "N4", To: "N7"}, harness.Segment{From: "N7", To: "N8"})
	require.Equal(t, []string{"N7"}, fixing())
	h.Board.Nodes[6].Fixing, h.Board.Nodes[1].Fixing = harness.FixingNone, harness.FixingHere
	require.Equal(t, []string{"N2"}, fixing())
}

func TestConnectorsPointAwayFromTheirBranch(t *testing.T) {
	h := spine()
	h.Connectors[1].Key = "up"
	h.Wires = append(h.Wires, wireBetween("W1", "E22W", benchEnd(h, 1), harness.End{Kind: harness.EndLeaves, Node: "N4", Free: 90 * mm}),
		wireBetween("W2", "E22W", benchEnd(h, 1), harness.End{Kind: harness.EndLeaves, Node: "N4", Free: 90 * mm}))
	items := made(t, h).Board.Items
	at := slices.IndexFunc(items, func(i BoardItem) bool { return i.ID == "J1" })
	require.Equal(t, BoardItem{ID: "J1", Kind: "connector", Node: "N5", XUM: 150_000, YUM: 200_000, Title: "box J1", Key: "up", After: "N2"}, items[at])
	last := items[len(items)-1]
	require.Equal(t, []string{"leaves", "N4", "2 wires leave"}, []string{last.Kind, last.Node, last.Title})
}

func TestABoardWithoutPlacesIsNotDrawn(t *testing.T) {
	h := spine()
	require.True(t, made(t, h).Board.Drawn)
	for i := range h.Board.Nodes {
		h.Board.Nodes[i].X, h.Board.Nodes[i].Y = 5, 5
	}
	require.False(t, made(t, h).Board.Drawn)
}

// TestEveryWireIsLaidOnce looks at the whole routing table: every wire but the pigtails once, no branch and no way twice, and every way
// along segments of the board from the home of its wires.
func TestEveryWireIsLaidOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := drawConstructs(t)
		if rapid.Bool().Draw(t, "loop") {
			h.Board.Segments = append(h.Board.Segments, harness.Segment{From: "N1", To: "N4", Length: units.Length(rapid.IntRange(300, 900).Draw(t, "way round")) * mm})
		}
		p := made(t, h)
		count, finder := map[string]int{}, 0
		branches := map[string]bool{}
		for _, b := range p.Routing {
			key := b.Leaves + ">" + slices.Concat(b.Nodes, []string{""})[0]
			require.False(t, branches[key], "branch %s comes twice", key)
			branches[key] = true
			for _, way := range b.Ways {
				require.NotEmpty(t, way.Rows)
				require.Len(t, way.RoomUM, max(len(way.Nodes)-1, 0))
				for _, room := range way.RoomUM {
					require.Positive(t, room, "a segment on the way of a wire holds it")
				}
				for _, row := range way.Rows {
					if row.Kind == "wire" {
						count[row.ID]++
					}
					for _, part := range row.Parts {
						count[part.Wire]++
					}
				}
			}
		}
		for _, w := range p.Wires {
			want := 1
			if slices.ContainsFunc(p.Cables, func(c Cable) bool { return c.A.Pigtail == w.ID || c.B.Pigtail == w.ID }) {
				want = 0
			}
			require.Equal(t, want, count[w.ID], w.ID)
		}
		for _, f := range p.Finder {
			finder += f.Wires
		}
		require.Equal(t, finder, sum(count)+len(p.Cables)-emptyCables(p))
	})
}

func sum(counts map[string]int) int {
	total := 0
	for _, n := range counts {
		total += n
	}
	return total
}

// emptyCables counts the cables without cores, which lie nowhere.
func emptyCables(p Plan) int {
	n := 0
	for _, c := range p.Cables {
		n += one(len(c.Cores) == 0)
	}
	return n
}
