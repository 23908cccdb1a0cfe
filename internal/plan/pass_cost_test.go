package plan

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"loomleaf/internal/harness"
)

// passPrice recounts what the changes of a planned pass cost, row by row.
func passPrice(h *harness.Harness, p Plan) int64 {
	row := map[string]*Wire{}
	for _, w := range lineRows(p.Wires, p.Cables) {
		row[w.ID] = w
	}
	var rows []*Wire
	for _, g := range p.Groups {
		for _, id := range g.Wires {
			rows = append(rows, row[id])
		}
	}
	line := *h
	if line.Line.Rack == 1 { // a change of the one reel is a load
		line.Line.ChangeTime.Reel = line.Line.ChangeTime.Load
	}
	return price(&line, rows, "")
}

func TestCostOfAPassIsThatOfItsRows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := drawConstructs(t)
		p := made(t, h)
		require.Equal(t, passPrice(h, p), p.Changes.CostMS)
	})
}

// TestEveryUnitOverTheSamePointsCosts takes twists of two types: whatever their number, each is a change inside.
func TestEveryUnitOverTheSamePointsCosts(t *testing.T) {
	for units := 1; units < 8; units++ {
		h := changeLine([4]int{4, 3, 2, 1})
		group := ownWires{connector: "J1"}
		for i := range units {
			for _, letter := range "ab" {
				group.wires = append(group.wires, &Wire{ID: fmt.Sprintf("W%d%c", i, letter), Type: string(letter), Method: "laser", unit: fmt.Sprint("twist T", i)})
			}
		}
		ordered, out := runOrder(h, []ownWires{group})
		require.EqualValues(t, 3*units, out.cost)
		require.Equal(t, out.cost, price(h, ordered[0].wires, ""))
		require.Equal(t, out.cost, out.floor)
		require.Equal(t, units, out.reels)
	}
}
