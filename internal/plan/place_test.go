package plan

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// drawMesh draws a board that hangs together, with lengths in whole millimetres and no two segments between the same nodes.
func drawMesh(t *rapid.T) harness.Board {
	var board harness.Board
	count := rapid.IntRange(2, 6).Draw(t, "nodes")
	for i := range count {
		board.Nodes = append(board.Nodes, harness.Node{ID: fmt.Sprintf("N%d", i)})
	}
	joined := map[[2]int]bool{}
	add := func(a, b int) {
		if joined[[2]int{min(a, b), max(a, b)}] {
			return
		}
		joined[[2]int{min(a, b), max(a, b)}] = true
		board.Segments = append(board.Segments, harness.Segment{From: board.Nodes[a].ID, To: board.Nodes[b].ID,
			Length: units.Length(rapid.IntRange(2, 30).Draw(t, "length")) * mm})
	}
	for i := 1; i < count; i++ {
		add(rapid.IntRange(0, i-1).Draw(t, "parent"), i)
	}
	for range rapid.IntRange(0, 4).Draw(t, "loops") {
		if a, b := rapid.IntRange(0, count-1).Draw(t, "a"), rapid.IntRange(0, count-1).Draw(t, "b"); a != b {
			add(a, b)
		}
	}
	return board
}

func TestPointsOnSegmentsEqualABoardWithMoreNodes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		board := drawMesh(t)
		split := harness.Board{Nodes: slices.Clone(board.Nodes)}
		router := newBoardRouter(&board)
		var places []boardPlace
		cuts := map[int][]units.Length{} // by segment, from its From
		for i := range 2 {
			at := rapid.IntRange(0, len(board.Segments)-1).Draw(t, "segment")
			s := board.Segments[at]
			offset := units.Length(rapid.IntRange(1, int(s.Length/mm)-1).Draw(t, "offset")) * mm
			place, err := router.place(s.From, offset, s.To)
			require.NoError(t, err)
			if rapid.Bool().Draw(t, "from the other side") {
				place, _ = router.place(s.To, s.Length-offset, s.From)
			}
			places, cuts[at] = append(places, place), append(cuts[at], offset, units.Length(i))
			split.Nodes = append(split.Nodes, harness.Node{ID: fmt.Sprintf("P%d", i)})
		}
		for i, s := range board.Segments {
			split.Segments = append(split.Segments, s)
			for k := 0; k < len(cuts[i]); k += 2 {
				point := fmt.Sprintf("P%d", cuts[i][k+1])
				split.Segments = append(split.Segments, harness.Segment{From: s.From, To: point, Length: cuts[i][k]},
					harness.Segment{From: point, To: s.To, Length: s.Length - cuts[i][k]})
			}
			if len(cuts[i]) == 4 && cuts[i][0] != cuts[i][2] {
				split.Segments = append(split.Segments, harness.Segment{From: "P0", To: "P1", Length: max(cuts[i][0]-cuts[i][2], cuts[i][2]-cuts[i][0])})
			}
		}
		way, err := router.way(places[0], nil, places[1])
		require.NoError(t, err)
		if want, _ := newBoardRouter(&split).route("P0", "P1"); want.length > 0 && !sameSpot(cuts) {
			require.Equal(t, want.length, way.length)
		}
		back, err := router.way(places[1], nil, places[0])
		require.NoError(t, err)
		require.Equal(t, way.length, back.length)
		slices.Reverse(back.nodes)
		require.Equal(t, way.nodes, back.nodes)
		require.Equal(t, way.used(), back.used())
		if len(way.nodes) > 0 {
			require.Equal(t, way.length, way.before+router.along(way.nodes)+back.before)
		}
		over, err := router.way(places[0], []string{"N0"}, places[1])
		require.NoError(t, err)
		require.GreaterOrEqual(t, over.length, way.length)
		require.Contains(t, over.nodes, "N0")
	})
}

// sameSpot reports whether both points stand at one place: then the split board has no length to give.
func sameSpot(cuts map[int][]units.Length) bool {
	for _, c := range cuts {
		if len(c) == 4 && c[0] == c[2] {
			return true
		}
	}
	return false
}

func TestPlacesThatAreNone(t *testing.T) {
	h := everyConstruct()
	h.Splices[0].Offset = 101 * mm
	_, problems := Make(h, nil)
	require.Contains(t, texts(problems), `splice "SP1" has no place on the board: the segment from node N2 to node N3 is 100 mm long, less than 101 mm`)
	h.Splices[0].Towards = "N4"
	_, problems = Make(h, nil)
	require.Contains(t, texts(problems), `splice "SP1" has no place on the board: no segment joins node N2 to node N4`)
	h.Splices[0].Towards, h.Splices[0].Offset = "N3", 100*mm
	require.Equal(t, int64(100_000), wireNamed(t, made(t, h), "W114").FinishedUM)
}

func TestTwistTakesMore(t *testing.T) {
	// sqrt(1 + (pi x 1.27 / 25)^2) - 1 = 0.012653.. for an equal pair; the pitch circle of three is 2/sqrt(3) wide: 0.016836..
	twist := &harness.Twist{ID: "T1", Wires: []string{"W1", "W2"}, Lay: 25 * mm, Untwist: [2]units.Length{40 * mm, 60 * mm}}
	diameters := map[string]units.Length{"W1": 1270, "W2": 1270, "W3": 1270, "W4": 1500}
	lay, fault := layOf(twist, diameters)
	require.Empty(t, fault)
	require.Equal(t, units.Length(math.Ceil(900_000*(math.Sqrt(1+math.Pow(math.Pi*1.27/25, 2))-1))), lay.extra(1000*mm))
	require.Zero(t, lay.extra(100*mm))
	twist.Wires = append(twist.Wires, "W3")
	lay, _ = layOf(twist, diameters)
	require.Equal(t, units.Length(math.Ceil(900_000*(math.Sqrt(1+math.Pow(math.Pi*1.27*2/math.Sqrt(3)/25, 2))-1))), lay.extra(1000*mm))
	twist.Wires[2] = "W4"
	_, fault = layOf(twist, diameters)
	require.Equal(t, `the wires of twist "T1" differ in diameter, and nothing says how wide they lie`, fault)
	twist.Pitch = 2 * mm
	lay, _ = layOf(twist, diameters)
	require.Equal(t, units.Length(math.Ceil(900_000*(math.Sqrt(1+math.Pow(math.Pi*2/25, 2))-1))), lay.extra(1000*mm))
	twist.Pitch, twist.Wires = 0, []string{"W1", "W2", "W3", "W1"}
	_, fault = layOf(twist, diameters)
	require.Equal(t, "twist T1 has 4 wires, and nothing says how wide they lie", fault)
}

func TestTwistedWiresAreLongerInTheirTwistAlone(t *testing.T) {
	h := everyConstruct()
	p := made(t, h)
	w := wireNamed(t, p, "W121") // 200 mm on the board, 120 mm of it twisted: 1519 um by the formula above, rounded up
	require.Equal(t, int64(math.Ceil(120_000*(math.Sqrt(1+math.Pow(math.Pi*1.27/25, 2))-1))), termOf(w, "twist"))
	require.Equal(t, "T1", w.Twist)
	h.Twists[0].Untwist[0] = 90 * mm
	_, problems := Make(h, nil)
	require.Contains(t, texts(problems), `twist "T1" leaves 130 mm straight, and wire "W120" is 100 mm from end to end`)
}

func termOf(w Wire, name string) int64 {
	for _, term := range w.Terms {
		if term.Name == name {
			return term.UM
		}
	}
	return 0
}
