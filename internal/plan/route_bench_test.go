package plan

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// benchSizes are counts of wires.
func benchSizes() []int { return []int{100, 1000, 10_000, 100_000} }

// largeHarness has five wires a node of its board and twenty a connector, between connectors drawn at random from the whole board.
func largeHarness(wires, loops int) *harness.Harness {
	return harnessOnBoard(wires, loops, math.MaxInt, math.MaxInt)
}

// nearHarness is as large, and its wires end at most so far from where they start as the smallest board is wide.
func nearHarness(wires, loops int) *harness.Harness {
	const nodes, connectors = 20, 5 // of a hundred wires
	return harnessOnBoard(wires, loops, nodes/5, connectors)
}

// harnessOnBoard has nodes that hang on one of the so many before them, and wires whose connectors are fewer than so many apart.
func harnessOnBoard(wires, loops, reach, apart int) *harness.Harness {
	random := rand.New(rand.NewPCG(4, uint64(wires)))
	h := twoEnds()
	nodes := max(2, wires/5)
	h.Board = randomBoard(random, nodes, min(nodes, reach), 0, loops)
	h.Connectors, h.Wires = nil, nil
	connectors := max(2, wires/20)
	for i := range connectors {
		at := i * nodes / connectors
		if reach >= nodes {
			at = random.IntN(nodes)
		}
		h.Connectors = append(h.Connectors, harness.Connector{ID: fmt.Sprintf("J%d", i), Node: h.Board.Nodes[at].ID, Tail: 100 * mm})
	}
	for i := range wires {
		from := random.IntN(connectors)
		low := max(0, min(from-apart/2, connectors-apart))
		to := low + random.IntN(min(apart, connectors-low))
		end := func(connector, cavity int) harness.End {
			return harness.End{Connector: h.Connectors[connector].ID, Cavity: fmt.Sprint(cavity), Contact: "S22",
				Stage: harness.StageBench, Strip: 4 * mm, Retermination: 2}
		}
		h.Wires = append(h.Wires, harness.Wire{ID: fmt.Sprintf("W%d", i), Type: "E22W", A: end(from, 2*i), B: end(to, 2*i+1), Mark: "full"})
	}
	h.Line.Longest = 1000 * units.Metre
	return h
}

// boardKinds are the boards that are measured: without loops, and with one for every hundred nodes.
func boardKinds(wires int) map[string]int {
	return map[string]int{"tree": 0, "loops": max(1, wires/500)}
}

// BenchmarkRouteLengths builds the router and asks it for the length of every wire.
func BenchmarkRouteLengths(b *testing.B) { benchRoutes(b, false) }

// BenchmarkRouteNodes builds the router and asks it for length and nodes of every wire.
func BenchmarkRouteNodes(b *testing.B) { benchRoutes(b, true) }

func benchRoutes(b *testing.B, nodes bool) {
	for _, wires := range benchSizes() {
		for _, kind := range []string{"tree", "loops"} {
			h := largeHarness(wires, boardKinds(wires)[kind])
			at := map[string]string{}
			for _, c := range h.Connectors {
				at[c.ID] = c.Node
			}
			b.Run(fmt.Sprintf("%s/wires=%d/nodes=%d", kind, wires, len(h.Board.Nodes)), func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					router := newBoardRouter(&h.Board)
					for i := range h.Wires {
						from, to := at[h.Wires[i].A.Connector], at[h.Wires[i].B.Connector]
						if nodes {
							_, found := router.leg(from, to)
							require.True(b, found)
						} else {
							router.cost(router.numbers[from], router.numbers[to])
						}
					}
				}
			})
		}
	}
}

// measureAll is the whole length stage: it works out every length of a harness. It returns how many nodes all ways have.
func measureAll(b *testing.B, h *harness.Harness) int {
	lengths, nodes := newMeasurer(h), 0
	for i := range h.Wires {
		got, problems := lengths.measure(&h.Wires[i])
		if got.cut == 0 || problems.Errors() > 0 {
			b.Fatal(problems)
		}
		nodes += len(got.way.nodes)
	}
	return nodes
}

// BenchmarkLengthGrowth reports how the time of the length stage grows from size to size, and the exponent over all of them: the
// median of five runs of each size. On a tree and on a board with loops each wire ends near where it starts, so that the ways have as
// many nodes at every size; "far" wires run across the whole board, and as their ways get longer with it so does the output: beside the
// exponent over the wires theirs is given over the nodes of all ways.
func BenchmarkLengthGrowth(b *testing.B) {
	for _, kind := range []string{"tree", "loops"} {
		b.Run(kind, func(b *testing.B) { benchGrowth(b, kind, nearHarness) })
		b.Run("far/"+kind, func(b *testing.B) { benchGrowth(b, kind, largeHarness) })
	}
}

func benchGrowth(b *testing.B, kind string, harnessOf func(wires, loops int) *harness.Harness) {
	sizes := benchSizes()
	medians, nodes := make([]float64, len(sizes)), make([]float64, len(sizes))
	for b.Loop() {
		for i, wires := range sizes {
			h := harnessOf(wires, boardKinds(wires)[kind])
			medians[i], nodes[i] = medianOfFive(b, h), float64(measureAll(b, h))
			b.ReportMetric(nodes[i]/float64(wires), fmt.Sprintf("nodes/way:%d", wires))
		}
	}
	for i := 1; i < len(sizes); i++ {
		b.ReportMetric(medians[i]/medians[i-1], fmt.Sprintf("x:%d", sizes[i]))
	}
	last := len(sizes) - 1
	time := math.Log(medians[last] / medians[0])
	b.ReportMetric(medians[last]*1000, "ms:100000")
	b.ReportMetric(time/math.Log(float64(sizes[last])/float64(sizes[0])), "exponent/wires")
	b.ReportMetric(time/math.Log(nodes[last]/nodes[0]), "exponent/nodes")
}

// medianOfFive returns the median time of the length stage in seconds. Small sizes are repeated until they can be timed.
func medianOfFive(b *testing.B, h *harness.Harness) float64 {
	repeats := max(1, 10_000/len(h.Wires))
	var times []float64
	for range 5 {
		start := time.Now()
		for range repeats {
			measureAll(b, h)
		}
		times = append(times, time.Since(start).Seconds()/float64(repeats))
	}
	slices.Sort(times)
	return times[2]
}
