package plan

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// manyWires is a job of so many wires of three types between connectors of at most a hundred cavities.
func manyWires(wires int) *harness.Harness {
	h := surveyHarness()
	bays := 2 * (1 + wires/100)
	for i := range bays {
		h.Connectors = append(h.Connectors, harness.Connector{ID: fmt.Sprintf("B%d", i), Part: "MOR-CN-99", Title: "bay", Contact: "S22", Spare: "open",
			Node: fmt.Sprintf("N%d", 1+i%4), Order: "listed"})
	}
	for i := range wires {
		addWire(h, fmt.Sprintf("W%d", i), h.WireTypes[i%3].ID, len(h.Connectors)-bays+i%bays, len(h.Connectors)-bays+(7*i+1)%bays,
			units.Length(300+i%1000)*units.Millimetre)
	}
	return h
}

// BenchmarkMake plans jobs of three units.
func BenchmarkMake(b *testing.B) {
	for _, wires := range []int{100, 1000, 10_000} {
		b.Run(fmt.Sprintf("%d wires", wires), func(b *testing.B) {
			h := manyWires(wires)
			b.ReportAllocs()
			for b.Loop() {
				p, problems := Make(h, nil)
				require.Zero(b, problems.Errors(), "%v", problems)
				require.Len(b, p.Wires, wires)
			}
		})
	}
}
