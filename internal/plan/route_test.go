package plan

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/graph/path"
	"gonum.org/v1/gonum/graph/simple"
	"pgregory.net/rapid"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// drawBoard draws a board of up to nine nodes with the given number of segments at most; lengths are small, so that ties abound.
func drawBoard(t *rapid.T, most int) harness.Board {
	count := rapid.IntRange(1, 9).Draw(t, "nodes")
	var board harness.Board
	for i := range count {
		board.Nodes = append(board.Nodes, harness.Node{
			ID: fmt.Sprintf("N%d", i+1),
			X:  units.Length(rapid.IntRange(0, 4).Draw(t, "x")), Y: units.Length(rapid.IntRange(0, 4).Draw(t, "y")),
		})
	}
	if count == 1 {
		return board
	}
	for range rapid.IntRange(0, most).Draw(t, "segments") {
		from := rapid.IntRange(0, count-1).Draw(t, "from")
		to := (from + rapid.IntRange(1, count-1).Draw(t, "step")) % count
		board.Segments = append(board.Segments, harness.Segment{
			From: board.Nodes[from].ID, To: board.Nodes[to].ID, Length: units.Length(rapid.IntRange(0, 5).Draw(t, "length")),
		})
	}
	return board
}

// segmentLength is the length of a segment by the rule of the board: given, else drawn.
func segmentLength(board *harness.Board, segment harness.Segment) units.Length {
	if segment.Length > 0 {
		return segment.Length
	}
	place := func(id string) harness.Node {
		return board.Nodes[slices.IndexFunc(board.Nodes, func(n harness.Node) bool { return n.ID == id })]
	}
	from, to := place(segment.From), place(segment.To)
	return units.Distance(from.X-to.X, from.Y-to.Y)
}

func TestRouteIsAsShortAsDijkstraFindsIt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		board := drawBoard(t, 14)
		graph, router := boardGraph(&board), newBoardRouter(&board)
		for i, from := range board.Nodes {
			shortest := path.DijkstraFrom(simple.Node(i), graph)
			for j, to := range board.Nodes {
				way, err := router.route(from.ID, to.ID)
				if nodes, weight := shortest.To(int64(j)); nodes == nil {
					require.Error(t, err)
				} else {
					require.NoError(t, err)
					require.Equal(t, units.Length(weight), way.length)
				}
			}
		}
	})
}

// everyWay returns all simple ways between two nodes.
func everyWay(board *harness.Board, from, to string) []boardPath {
	var ways []boardPath
	var walk func(way boardPath)
	walk = func(way boardPath) {
		here := way.nodes[len(way.nodes)-1]
		if here == to {
			ways = append(ways, boardPath{way.length, slices.Clone(way.nodes)})
			return
		}
		for _, segment := range board.Segments {
			for _, pair := range [][2]string{{segment.From, segment.To}, {segment.To, segment.From}} {
				if pair[0] == here && !slices.Contains(way.nodes, pair[1]) {
					walk(boardPath{way.length + segmentLength(board, segment), append(slices.Clone(way.nodes), pair[1])})
				}
			}
		}
	}
	walk(boardPath{nodes: []string{from}})
	return ways
}

func TestRouteSettlesTiesBySegmentsThenByName(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		board := drawBoard(t, 10)
		last := board.Nodes[len(board.Nodes)-1].ID
		ways := everyWay(&board, "N1", last)
		way, err := newBoardRouter(&board).route("N1", last)
		if len(ways) == 0 {
			require.Error(t, err)
			return
		}
		require.NoError(t, err)
		for _, other := range ways {
			require.GreaterOrEqual(t, other.length, way.length)
			if other.length > way.length {
				continue
			}
			require.GreaterOrEqual(t, len(other.nodes), len(way.nodes))
			if n := len(way.nodes); len(other.nodes) == n && n > 1 {
				require.LessOrEqual(t, naturalCompare(way.nodes[n-2], other.nodes[n-2]), 0)
			}
		}
		require.True(t, slices.ContainsFunc(ways, func(other boardPath) bool {
			return other.length == way.length && slices.Equal(other.nodes, way.nodes)
		}), "the nodes are those of a way of this length")
	})
}

func TestRouteIgnoresTheOrderOfTheFile(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		board := drawBoard(t, 14)
		shuffled := harness.Board{
			Nodes:    rapid.Permutation(board.Nodes).Draw(t, "node order"),
			Segments: rapid.Permutation(board.Segments).Draw(t, "segment order"),
		}
		one, two := newBoardRouter(&board), newBoardRouter(&shuffled)
		for _, from := range board.Nodes {
			for _, to := range board.Nodes {
				there, err := one.route(from.ID, to.ID)
				again, errAgain := two.route(from.ID, to.ID)
				require.Equal(t, err, errAgain)
				require.Equal(t, there, again)
				back, _ := one.route(to.ID, from.ID)
				slices.Reverse(back.nodes)
				if err == nil {
					require.Equal(t, there, back, "to and fro share their branches")
				}
			}
		}
	})
}

func TestRouteIsAMetric(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		board := drawBoard(t, 14)
		router := newBoardRouter(&board)
		node := rapid.SampledFrom(board.Nodes)
		a, b, c := node.Draw(t, "a").ID, node.Draw(t, "b").ID, node.Draw(t, "c").ID
		self, err := router.route(a, a)
		require.NoError(t, err)
		require.Equal(t, boardPath{nodes: []string{a}}, self)
		direct, err := router.route(a, c)
		over, errOver := router.route(a, b, c)
		if errOver != nil {
			return
		}
		require.NoError(t, err)
		require.LessOrEqual(t, direct.length, over.length)
		require.Contains(t, over.nodes, b)
	})
}

func TestRouteOverStops(t *testing.T) {
	board := harness.Board{
		Nodes:    []harness.Node{{ID: "N1"}, {ID: "N2", X: 3000, Y: 4000}, {ID: "N3", X: 3000}, {ID: "N10"}, {ID: "N11"}},
		Segments: []harness.Segment{{From: "N1", To: "N2"}, {From: "N3", To: "N2"}, {From: "N3", To: "N1", Length: 20_000}, {From: "N10", To: "N11"}},
	}
	router := newBoardRouter(&board)
	way, err := router.route("N1", "N3")
	require.NoError(t, err)
	require.Equal(t, boardPath{9000, []string{"N1", "N2", "N3"}}, way, "two drawn segments beat the given one")
	way, err = router.route("N1", "N3", "N1")
	require.NoError(t, err)
	require.Equal(t, boardPath{18_000, []string{"N1", "N2", "N3", "N2", "N1"}}, way)
	_, err = router.route("N1", "N3", "N10")
	require.EqualError(t, err, "no segments join node N3 to node N10: N3 stands with N1, N2, N10 stands with N11")
}

func TestRouteNamesPartsOfTheBoard(t *testing.T) {
	board := harness.Board{Nodes: []harness.Node{{ID: "X"}}}
	for i := range 8 {
		board.Nodes = append(board.Nodes, harness.Node{ID: fmt.Sprintf("N%d", i+1)})
		if i > 0 {
			board.Segments = append(board.Segments, harness.Segment{From: "N1", To: fmt.Sprintf("N%d", i+1), Length: 1})
		}
	}
	_, err := newBoardRouter(&board).route("X", "N8")
	require.EqualError(t, err, "no segments join node X to node N8: X stands alone, N8 stands with N1, N2, N3, N4 and 3 more")
}
