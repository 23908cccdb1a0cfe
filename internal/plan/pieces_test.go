package plan

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// cutsOn returns cuts of one unit on the reels mounted at the positions given, with one wire each.
func cutsOn(positions []int, wires ...Wire) []cut {
	cuts := make([]cut, len(wires))
	for i := range wires {
		cuts[i] = cut{wire: &wires[i], unit: "0041", position: positions[i]}
	}
	return cuts
}

func TestASwitchRowShowsAnotherReelOrSetting(t *testing.T) {
	low := Wire{ID: "W1", Type: "A", Method: "laser", HeightUM: 1000}
	same, high, other := low, low, low
	same.ID = "W2"
	high.ID, high.HeightUM = "W3", 1300
	other.ID, other.Type, other.HeightUM = "W4", "B", 1300
	cuts := cutsOn([]int{1, 1, 1, 2}, low, same, high, other)
	steps, stillOn := stepRows(cuts, trayPacking{{{{cuts[0].wire, cuts[1].wire, cuts[2].wire, cuts[3].wire}}}}, 1, 2)
	wire := func(id string) Step { return Step{Kind: StepWire, Wire: id, Units: []string{"0041"}} }
	require.Equal(t, []Step{
		{Kind: StepSwitch, Type: "A", Rack: 1, Method: "laser", HeightUM: 1000},
		wire("W1"), wire("W2"), {Kind: StepSwitch, Type: "A", Rack: 1, Method: "laser", HeightUM: 1300}, wire("W3"),
		{Kind: StepSwitch, Type: "B", Rack: 2, Method: "laser", HeightUM: 1300}, wire("W4"),
	}, steps[0][0], "a reel with the setting of the one before is still another reel")
	require.Equal(t, [][]string{{""}}, stillOn)
}
