package plan

import (
	"slices"

	"loomleaf/internal/harness"
)

// cut is one piece on its way through the line, in the order of the run.
type cut struct {
	wire     *Wire
	group    int // index of the group
	list     int // index of the cut list
	unit     string
	spool    *spool // reel it comes from; nil where the job knows no reels of the type
	load     bool   // a reel is mounted before the cut
	position int    // place of the reel on the rack, from 1

	substitute *InPlace // what it is cut from in place of its own type; nil for its own
}

// wireType is the type that a piece is cut from.
func (c cut) wireType() string {
	if c.substitute != nil {
		return c.substitute.Type
	}
	return c.wire.Type
}

// state is how the line is set for a piece.
func (c cut) state() state { return state{c.wireType(), settingOf(c.wire)} }

// unitLists splits the units of the job into cut lists. Units cut one by one have a list each, since each is a pass of its own.
func unitLists(h *harness.Harness) [][]string {
	size := max(h.Policy.Batch, 1)
	if h.Policy.Units == "one by one" {
		size = 1
	}
	return slices.Collect(slices.Chunk(h.Job.Units, size))
}

// cutsOf returns every piece of the job in the order of the run: list by list, group by group, wire by wire, and each wire
// once for each unit of the list before the next wire.
func cutsOf(groups []ownWires, lists [][]string) []cut {
	pieces := 0
	for _, list := range lists {
		for _, group := range groups {
			pieces += len(list) * len(group.wires)
		}
	}
	cuts := make([]cut, 0, pieces)
	for l, list := range lists {
		for g, group := range groups {
			for _, w := range group.wires {
				for _, unit := range list {
					cuts = append(cuts, cut{wire: w, group: g, list: l, unit: unit})
				}
			}
		}
	}
	return cuts
}

// mountCuts sets when and where a reel of each cut's type is mounted on a rack.
func mountCuts(cuts []cut, positions int, mounted string) {
	types := make([]string, len(cuts))
	for i := range cuts {
		types[i] = cuts[i].wireType()
	}
	for i, step := range mounts(types, max(positions, 1), mounted) {
		cuts[i].position, cuts[i].load = step.position, step.load
	}
}

// pieceRows returns the cuts as rows of the plan.
func pieceRows(cuts []cut, groups []ownWires, packed trayPacking) []Piece {
	pieces := make([]Piece, len(cuts))
	for i, c := range cuts {
		pieces[i] = Piece{
			Wire: c.wire.ID, Unit: c.unit, Reel: c.reelID(),
			Tray: trayID(groups[c.group].connector, c.unit, trayOf(packed[c.group][c.list], c.wire)), Substitute: c.substitute,
		}
	}
	return pieces
}

// reelID names the stock reel of a cut, "" where there is none.
func (c cut) reelID() string {
	if c.spool == nil {
		return ""
	}
	return c.spool.reel.ID
}

// running names what is on the line after a cut: the reel, or its type where no stock reel serves it.
func (c cut) running() string {
	if id := c.reelID(); id != "" {
		return id
	}
	return c.wireType()
}

// stepRows turns the cuts into the rows of the cut lists, by group and list, and names what is still on when each starts. A rack
// of one place prints no positions.
func stepRows(cuts []cut, packed trayPacking, lists int, rack int) (steps [][][]Step, stillOn [][]string) {
	steps, stillOn = make([][][]Step, len(packed)), make([][]string, len(packed))
	for g := range packed {
		steps[g], stillOn[g] = make([][]Step, lists), make([]string, lists)
	}
	for i, c := range cuts {
		rows := &steps[c.group][c.list]
		if i > 0 && len(*rows) == 0 {
			stillOn[c.group][c.list] = cuts[i-1].running()
		}
		if i > 0 && cuts[i-1].wire != c.wire {
			before, part := 0, trayOf(packed[c.group][c.list], c.wire)
			if len(*rows) > 0 {
				before = trayOf(packed[c.group][c.list], cuts[i-1].wire)
			}
			if part != before { // a wire whose units two reels share may lie in a tray that was put away
				*rows = append(*rows, Step{Kind: StepTray, Part: part + 1, Of: len(packed[c.group][c.list])})
			}
		}
		kind, needed := stepBefore(cuts, i)
		if needed {
			*rows = append(*rows, changeStep(kind, c, rack))
		}
		if last := len(*rows) - 1; last >= 0 && (*rows)[last].Wire == c.wire.ID {
			(*rows)[last].Units = append((*rows)[last].Units, c.unit)
			continue
		}
		row := StepWire
		if c.wire.isCable() {
			row = StepCable
		}
		*rows = append(*rows, Step{Kind: row, Wire: c.wire.ID, Units: []string{c.unit}, Substitute: c.substitute})
	}
	return steps, stillOn
}

// stepBefore says which row stands before a cut: a load, a switch to another mounted reel or setting, or none.
func stepBefore(cuts []cut, i int) (kind StepKind, needed bool) {
	switch {
	case cuts[i].load:
		return StepLoad, true
	case i == 0:
		return StepSwitch, true // the reel that is on when the run starts
	}
	changed := cuts[i].position != cuts[i-1].position || !cuts[i].substitute.same(cuts[i-1].substitute) || settingOf(cuts[i].wire) != settingOf(cuts[i-1].wire)
	return StepSwitch, changed
}

// changeStep is the row of a load or switch: the reel and how the marker is set for it.
func changeStep(kind StepKind, c cut, rack int) Step {
	step := Step{Kind: kind, Type: c.wireType(), Substitute: c.substitute, Method: c.wire.Method, Ink: c.wire.Ink, HeightUM: c.wire.HeightUM}
	if c.spool != nil {
		step.Reel, step.Lot, step.Place = c.spool.reel.ID, c.spool.reel.Lot, c.spool.reel.Place
	}
	if rack > 1 {
		step.Rack = c.position
	}
	return step
}
