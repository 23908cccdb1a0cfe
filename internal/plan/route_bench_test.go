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

// largeHarness has five wires a node of its board and twenty a connector, between connectors drawn at random.
func largeHarness(wires, loops int) *harness.Harness {
	random := rand.New(rand.NewPCG(4, uint64(wires)))
	h := twoEnds()
	nodes := max(2, wires/5)
	h.Board = randomBoard(random, nodes, nodes, 0, loops)
	h.Connectors, h.Wires = nil, nil
	for i := range max(2, wires/20) {
		h.Connectors = append(h.Connectors, harness.Connector{ID: fmt.Sprintf("J%d", i), Node: h.Board.Nodes[random.IntN(len(h.Board.Nodes))].ID, Tail: 100 * mm})
	}
	end := func(cavity int) harness.End {
		return harness.End{Connector: h.Connectors[random.IntN(len(h.Connectors))].ID, Cavity: fmt.Sprint(cavity), Contact: "S22",
			Stage: harness.StageBench, Strip: 4 * mm, Retermination: 2}
	}
	for i := range wires {
		h.Wires = append(h.Wires, harness.Wire{ID: fmt.Sprintf("W%d", i), Type: "E22W", A: end(2 * i), B: end(2*i + 1), Mark: "full"})
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

// measureAll is the whole length stage: it works out every length of a harness.
func measureAll(b *testing.B, h *harness.Harness) {
	lengths := newMeasurer(h)
	for i := range h.Wires {
		if got, problems := lengths.measure(&h.Wires[i]); got.cut == 0 || problems.Errors() > 0 {
			b.Fatal(problems)
		}
	}
}

// BenchmarkLengthGrowth reports how the time of the length stage grows from size to size, and the exponent over all of them: the
// median of five runs of each size.
func BenchmarkLengthGrowth(b *testing.B) {
	for _, kind := range []string{"tree", "loops"} {
		b.Run(kind, func(b *testing.B) {
			sizes := benchSizes()
			medians := make([]float64, len(sizes))
			for b.Loop() {
				for i, wires := range sizes {
					medians[i] = medianOfFive(b, largeHarness(wires, boardKinds(wires)[kind]))
				}
			}
			for i := 1; i < len(sizes); i++ {
				b.ReportMetric(medians[i]/medians[i-1], fmt.Sprintf("x:%d", sizes[i]))
			}
			last := len(sizes) - 1
			b.ReportMetric(medians[last]*1000, "ms:100000")
			b.ReportMetric(math.Log(medians[last]/medians[0])/math.Log(float64(sizes[last])/float64(sizes[0])), "exponent")
		})
	}
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
