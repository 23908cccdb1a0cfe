package plan

import (
	"fmt"
	"math/rand/v2"
	"runtime"
	"runtime/metrics"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// largeLoom is a job as a shop would give it, by the same figures at every run: a connector for every twenty wires, a node of the board
// for every five and a loop for every five hundred, forty wire types and reels for most of the need. Nine wires of ten end near where
// they start. Of a hundred wires two are a twisted pair, one ends at a splice with two others, and one is measured at the bench.
func largeLoom(wires, serials int) *harness.Harness {
	random := rand.New(rand.NewPCG(20, uint64(wires)))
	h := surveyHarness()
	h.Job.Units, h.Connectors, h.WireTypes = h.Job.Units[:serials], nil, largeStock()
	h.Tray = harness.TrayRule{Wires: 60, Section: 900_000_000, Mass: 4_000_000, Length: 2000 * mm, Coil: 200 * mm, Tie: 300 * mm, Bend: 10}
	h.Line.Rack, h.Line.Feed, h.Line.CutTime, h.Line.MarkTime, h.Line.OnTheFly, h.Line.HandlingTime = 6, 1_200_000, 800, 150, true, 4000
	h.Allowance = harness.Allowance{Retermination: 2, TrimBack: 3 * mm}
	h.Board = randomBoard(random, wires/5, 4, 0, wires/500)
	for i := range h.Board.Nodes {
		h.Board.Nodes[i].X, h.Board.Nodes[i].Y = units.Length(i%100)*100*mm, units.Length(i/100)*100*mm
	}
	for i := range h.Board.Segments {
		h.Board.Segments[i].Length = units.Length(50+random.IntN(300)) * mm
	}
	for i := range wires / 20 {
		h.Connectors = append(h.Connectors, harness.Connector{ID: fmt.Sprintf("J%d", i+1), Part: "MOR-CN-40", Title: fmt.Sprintf("bay %d", i+1),
			Node: h.Board.Nodes[4*i].ID, Tail: 90 * mm, Contact: "S22", Spare: "open", Order: "listed"})
	}
	for i := range wires {
		largeWire(h, random, i)
	}
	for i := range wires * serials / 200 {
		h.Reels = append(h.Reels, harness.Reel{ID: fmt.Sprintf("R%d", i+1), Type: h.WireTypes[i%40].ID, Left: units.Length(150+random.IntN(160)) * 1000 * mm})
	}
	return h
}

// largeStock is forty wire types: five gauges in eight colours.
func largeStock() []harness.WireType {
	var types []harness.WireType
	for i, gauge := range []string{"16", "18", "20", "22", "24"} {
		for k, colour := range []string{"WH", "BK", "RD", "BU", "YE", "GN", "WH/BU", "WH/RD"} {
			laser := []harness.Laser{harness.LaserYes, harness.LaserNo}[k%2]
			types = append(types, harness.WireType{ID: fmt.Sprintf("E%s-%d", gauge, k+1), Part: "MOR-CW-" + gauge, Name: "hook-up wire", AWG: gauge,
				Colour: colour, Diameter: units.Length(2200-200*i) * mm / 1000, Insulation: "ETFE", Laser: laser})
		}
	}
	return types
}

// largeWire adds the wire with an index to a large loom.
func largeWire(h *harness.Harness, random *rand.Rand, i int) {
	from := random.IntN(len(h.Connectors))
	to := min(max(from-5+random.IntN(11), 0), len(h.Connectors)-1)
	if i%10 == 5 {
		to = random.IntN(len(h.Connectors))
	}
	id, wireType := fmt.Sprintf("W%d", i+1), h.WireTypes[(from*7+random.IntN(8))%40].ID
	if i%100 == 11 { // runs beside the wire before it
		before := &h.Wires[i-1]
		at := func(id string) int {
			return slices.IndexFunc(h.Connectors, func(c harness.Connector) bool { return c.ID == id })
		}
		from, to = at(before.A.Connector), at(before.B.Connector)
		h.Twists = append(h.Twists, harness.Twist{ID: "T" + id, Wires: []string{fmt.Sprintf("W%d", i), id}, Lay: 25 * mm, Pitch: 2 * mm})
	}
	addWire(h, id, wireType, from, to, 0)
	w := &h.Wires[i]
	switch i % 100 {
	case 20:
		h.Splices = append(h.Splices, harness.Splice{ID: "SP" + id, Part: "MOR-SP-3", Node: h.Connectors[from].Node, Stage: harness.StageBoard,
			Strip: 8 * mm, Barrel: 7 * mm, SlideOn: []string{"sleeve SL-4"}, Sides: [][]string{{id}, {}}})
		w.B = atSplice("SP" + id)
	case 21, 22:
		s := &h.Splices[len(h.Splices)-1]
		s.Sides[1], w.B = append(s.Sides[1], id), atSplice(s.ID)
	case 30:
		w.Measure = true
	}
}

// peakHeap runs a function, and returns the largest size that the heap had meanwhile beyond what stood there before, in bytes.
func peakHeap(run func()) uint64 {
	sample := []metrics.Sample{{Name: "/memory/classes/heap/objects:bytes"}}
	runtime.GC()
	metrics.Read(sample)
	before, peak := sample[0].Value.Uint64(), uint64(0)
	stop, done := make(chan bool), make(chan bool)
	go func() {
		defer close(done)
		for ticker := time.NewTicker(time.Millisecond); ; {
			select {
			case <-stop:
				return
			case <-ticker.C:
				metrics.Read(sample)
				peak = max(peak, sample[0].Value.Uint64())
			}
		}
	}()
	run()
	close(stop)
	<-done
	return peak - min(before, peak)
}

// BenchmarkMake plans large jobs.
func BenchmarkMake(b *testing.B) {
	for _, units := range []int{1, 3} {
		for _, wires := range benchSizes() {
			b.Run(fmt.Sprintf("%d units/%d wires", units, wires), func(b *testing.B) {
				h := largeLoom(wires, units)
				b.ReportAllocs()
				for b.Loop() {
					p, problems := Make(h, nil)
					require.Zero(b, problems.Errors())
					require.Len(b, p.Wires, wires)
				}
				b.StopTimer()
				b.ReportMetric(float64(peakHeap(func() { Make(h, nil) }))/(1<<20), "peak-MiB")
			})
		}
	}
}

// BenchmarkDecide times the planning stage, all that the plan decides: lengths and marks, homes, the order of groups and rows, reels, trays
// and time. The rows of the sheets, the prices of other policies and the identity follow from it.
func BenchmarkDecide(b *testing.B) {
	for _, wires := range benchSizes() {
		b.Run(fmt.Sprintf("%d wires", wires), func(b *testing.B) {
			h := largeLoom(wires, 1)
			stage := func() {
				var p Plan
				w, problems := workOf(h)
				require.Zero(b, append(problems, p.decide(h, w)...).Errors())
				require.NotEmpty(b, p.Trays)
			}
			b.ReportAllocs()
			for b.Loop() {
				stage()
			}
			b.StopTimer()
			b.ReportMetric(float64(peakHeap(stage))/(1<<20), "peak-MiB")
		})
	}
}
