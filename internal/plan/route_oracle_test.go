package plan

import (
	"cmp"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/graph/path"
	"gonum.org/v1/gonum/graph/simple"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// randomBoard makes a board of the given number of nodes: a tree, in which every node hangs on one of at most reach before it, with a
// number of segments taken out and others put in, which make loops.
func randomBoard(random *rand.Rand, nodes, reach, out, loops int) harness.Board {
	var board harness.Board
	segment := func(a, b int) harness.Segment {
		return harness.Segment{From: board.Nodes[a].ID, To: board.Nodes[b].ID, Length: units.Length(1 + random.IntN(900_000))}
	}
	for i := range nodes {
		board.Nodes = append(board.Nodes, harness.Node{ID: fmt.Sprintf("N%d", i)})
		if i > 0 {
			board.Segments = append(board.Segments, segment(i-1-random.IntN(min(i, reach)), i))
		}
	}
	for range out {
		at := random.IntN(len(board.Segments))
		board.Segments = slices.Delete(board.Segments, at, at+1)
	}
	for range loops {
		a := random.IntN(nodes)
		board.Segments = append(board.Segments, segment(a, (a+1+random.IntN(nodes-1))%nodes))
	}
	return board
}

// boardGraph is the board for gonum: node i is the i-th of the board.
func boardGraph(board *harness.Board) *simple.WeightedUndirectedGraph {
	graph := simple.NewWeightedUndirectedGraph(0, -1)
	number := map[string]int64{}
	for i, node := range board.Nodes {
		number[node.ID] = int64(i)
		graph.AddNode(simple.Node(i))
	}
	for _, s := range board.Segments {
		from, to := simple.Node(number[s.From]), simple.Node(number[s.To])
		length := float64(segmentLength(board, s))
		if known := graph.WeightedEdge(from.ID(), to.ID()); known == nil || length < known.Weight() {
			graph.SetWeightedEdge(simple.WeightedEdge{F: from, T: to, W: length})
		}
	}
	return graph
}

// requireShortest compares every way between two nodes of a board with gonum, and returns how many there are.
func requireShortest(t *testing.T, board *harness.Board) int {
	t.Helper()
	graph, router, pairs := boardGraph(board), newBoardRouter(board), 0
	for i, from := range board.Nodes {
		shortest := path.DijkstraFrom(simple.Node(i), graph)
		for j, to := range board.Nodes {
			pairs++
			way, found := router.leg(from.ID, to.ID)
			nodes, weight := shortest.To(int64(j))
			require.Equal(t, nodes != nil, found, "%s to %s", from.ID, to.ID)
			if found {
				require.Equal(t, units.Length(weight), way.length, "%s to %s", from.ID, to.ID)
				require.Equal(t, way.length, router.along(way.nodes), "the nodes are those of the length")
			}
		}
	}
	return pairs
}

func TestFiftyThousandWaysAreAsShortAsDijkstraFindsThem(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 1))
	trees, looped := 0, 0
	for range 25 {
		tree := randomBoard(random, 40, 12, 0, 0)
		forest := randomBoard(random, 30, 12, 3, 0)
		trees += requireShortest(t, &tree) + requireShortest(t, &forest)
		few, many := randomBoard(random, 40, 12, 2, 3), randomBoard(random, 30, 12, 0, 25)
		looped += requireShortest(t, &few) + requireShortest(t, &many)
	}
	require.GreaterOrEqual(t, trees, 50_000)
	require.GreaterOrEqual(t, looped, 50_000)
}

func TestRingsParallelChainsAndHubs(t *testing.T) {
	named := func(segments ...[3]int) harness.Board {
		var board harness.Board
		most := 0
		for _, s := range segments {
			most = max(most, s[0], s[1])
			board.Segments = append(board.Segments, harness.Segment{From: fmt.Sprintf("N%d", s[0]), To: fmt.Sprintf("N%d", s[1]), Length: units.Length(s[2])})
		}
		for i := range most + 1 {
			board.Nodes = append(board.Nodes, harness.Node{ID: fmt.Sprintf("N%d", i)})
		}
		return board
	}
	for name, board := range map[string]harness.Board{
		"one node":           {Nodes: []harness.Node{{ID: "N0"}}},
		"a ring":             named([3]int{0, 1, 5}, [3]int{1, 2, 5}, [3]int{2, 3, 5}, [3]int{3, 0, 5}),
		"a ring with trees":  named([3]int{0, 1, 5}, [3]int{1, 2, 5}, [3]int{2, 0, 9}, [3]int{2, 3, 4}, [3]int{3, 4, 4}, [3]int{3, 5, 2}),
		"two rings, apart":   named([3]int{0, 1, 5}, [3]int{1, 2, 5}, [3]int{2, 0, 9}, [3]int{3, 4, 5}, [3]int{4, 5, 5}, [3]int{5, 3, 9}),
		"two rings, one hub": named([3]int{0, 1, 5}, [3]int{1, 2, 5}, [3]int{2, 0, 9}, [3]int{0, 3, 5}, [3]int{3, 4, 5}, [3]int{4, 0, 30}),
		"three ways across":  named([3]int{0, 1, 5}, [3]int{0, 2, 3}, [3]int{2, 1, 3}, [3]int{0, 3, 1}, [3]int{3, 4, 1}, [3]int{4, 1, 9}),
		"a bar with a ring at each end": named([3]int{0, 1, 5}, [3]int{1, 2, 5}, [3]int{2, 0, 5}, [3]int{2, 3, 7}, [3]int{3, 4, 5},
			[3]int{4, 5, 5}, [3]int{5, 3, 5}),
	} {
		t.Run(name, func(t *testing.T) { requireShortest(t, &board) })
	}
}

// plainWays is Dijkstra's method over (length, segments, number of the node before), from one node to all: the rule itself.
func plainWays(r *boardRouter, source int) (costs []boardCost, before []int) {
	costs, before = make([]boardCost, len(r.names)), make([]int, len(r.names))
	settled := make([]bool, len(r.names))
	for i := range before {
		before[i] = -1
	}
	before[source] = source
	for {
		here := -1
		for i := range costs {
			if !settled[i] && before[i] >= 0 && (here < 0 || costs[i].compare(costs[here]) < 0) {
				here = i
			}
		}
		if here < 0 {
			return costs, before
		}
		settled[here] = true
		for _, s := range r.segments[here] {
			cost := costs[here].plus(boardCost{s.length, 1})
			if before[s.to] < 0 || cmp.Or(cost.compare(costs[s.to]), cmp.Compare(here, before[s.to])) < 0 {
				costs[s.to], before[s.to] = cost, here
			}
		}
	}
}

// Boards full of ties: every segment has one of two lengths, so that the rules for equal ways decide all the time.
func TestEveryNodeOfAWayFollowsTheRuleForTies(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 2))
	for range 40 {
		board := randomBoard(random, 26, 12, random.IntN(3), random.IntN(14))
		for i := range board.Segments {
			board.Segments[i].Length = units.Length(1 + random.IntN(2))
		}
		router := newBoardRouter(&board)
		for source := range router.names {
			costs, before := plainWays(router, source)
			for target := source; target < len(router.names); target++ {
				way, found := router.leg(router.names[source], router.names[target])
				require.Equal(t, before[target] >= 0, found)
				if !found {
					continue
				}
				require.Equal(t, costs[target].length, way.length)
				want := []string{router.names[target]}
				for at := target; at != source; at = before[at] {
					want = append(want, router.names[before[at]])
				}
				slices.Reverse(want)
				require.Equal(t, want, way.nodes)
			}
		}
	}
}

func TestLongBoardsTakeNoRecursion(t *testing.T) {
	var board harness.Board
	for i := range 20_000 {
		board.Nodes = append(board.Nodes, harness.Node{ID: fmt.Sprintf("N%d", i)})
		if i > 0 {
			board.Segments = append(board.Segments, harness.Segment{From: fmt.Sprintf("N%d", i-1), To: fmt.Sprintf("N%d", i), Length: 7})
		}
	}
	way, found := newBoardRouter(&board).leg("N19999", "N0")
	require.True(t, found)
	require.Equal(t, units.Length(7*19_999), way.length)
	require.Len(t, way.nodes, 20_000)
}

func TestLessBoardIsNeverShorterAndScaleScales(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 3))
	for range 20 {
		board := randomBoard(random, 25, 12, 0, 6)
		whole := newBoardRouter(&board)
		less, large := board, board
		at := random.IntN(len(board.Segments))
		less.Segments = slices.Delete(slices.Clone(board.Segments), at, at+1)
		large.Segments = slices.Clone(board.Segments)
		for i := range large.Segments {
			large.Segments[i].Length *= 3
		}
		fewer, tripled := newBoardRouter(&less), newBoardRouter(&large)
		for _, a := range board.Nodes {
			for _, b := range board.Nodes {
				way, _ := whole.leg(a.ID, b.ID)
				if shorter, found := fewer.leg(a.ID, b.ID); found {
					require.GreaterOrEqual(t, shorter.length, way.length)
				}
				scaled, _ := tripled.leg(a.ID, b.ID)
				require.Equal(t, 3*way.length, scaled.length)
				require.Equal(t, way.nodes, scaled.nodes)
			}
		}
	}
}
