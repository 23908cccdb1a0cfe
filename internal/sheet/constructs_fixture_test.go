package sheet

import (
	"fmt"

	"pgregory.net/rapid"

	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
)

// constructs describes what a plan holds besides plain wires.
type constructs struct {
	cables  []int // cores of each cable, one after the other into the groups
	apart   int
	splices []int // wires on each first side
	studs   int
	words   string // what a long text says
}

func drawConstructs(t *rapid.T) constructs {
	return constructs{
		cables:  rapid.SliceOfN(rapid.IntRange(1, 14), 0, 6).Draw(t, "cables"),
		apart:   rapid.IntRange(0, 14).Draw(t, "apart"),
		splices: rapid.SliceOfN(rapid.IntRange(1, 9), 0, 9).Draw(t, "splices"),
		studs:   rapid.IntRange(0, 2).Draw(t, "studs"),
		words:   rapid.SampledFrom([]string{"", "the pump takes it up", "lace it to the frame beside the heater, 40 mm apart, and keep it clear of the edge"}).Draw(t, "words"),
	}
}

// into adds the constructs to a plan.
func (c constructs) into(p *plan.Plan) {
	p.Types = append(p.Types, plan.WireType{ID: "TSP24", ColourWords: "white", Gauge: "2 x 24 AWG", GaugeShort: "2 x 24 AWG"})
	for i, cores := range c.cables {
		c.cable(p, fmt.Sprintf("C%d", i+1), p.Groups[i%len(p.Groups)].Connector, cores)
	}
	for i := range p.Wires {
		c.special(&p.Wires[i], i)
	}
	for i := range c.apart {
		c.aside(p, i)
	}
	for i, wires := range c.splices {
		c.joint(p, i, wires)
	}
	for i := range c.studs {
		stack := []string{"toothed washer", "nut M5"}
		for _, j := range p.Joints {
			if j.Kind == "terminal" {
				stack = append(stack[:1:1], append([]string{j.ID}, stack[1:]...)...)
			}
		}
		p.Joints = append(p.Joints, plan.Joint{ID: fmt.Sprintf("G%d", i+1), Kind: "stud", Stack: stack, Words: "per drawing"})
	}
}

// cable adds a cable as the last cut of a group, its cores behind each other.
func (c constructs) cable(p *plan.Plan, id, home string, cores int) {
	row := plan.Cable{ID: id, Type: "TSP24", Home: home, Supply: "reel", Status: "board", CutUM: 1_887_000, Method: "laser",
		Spare: []string{"PE"}, Note: c.words, Code: fixtureCode(plan.KindWire, id, 0), Place: problem.Place{File: "loom.toml", Line: 900, Column: 1},
		A: plan.CableEnd{At: home, Legend: id + " " + home + ">P2", JacketOffUM: 60_000, Shield: "pigtail " + id + "-PA to " + home + ":9", Pigtail: id + "-PA"},
		B: plan.CableEnd{At: "P2+SP1", Legend: id + " P2>" + home, JacketOffUM: 150_000, Shield: "cut back"}}
	for i := range cores {
		wire := fmt.Sprintf("S%s-%02d", id, i+1)
		core := fmt.Sprint(i + 1)
		row.Cores = append(row.Cores, wire)
		p.Types = append(p.Types, plan.WireType{ID: id + " core " + core, ColourWords: "white, blue stripe", GaugeShort: "24 AWG"})
		p.Wires = append(p.Wires, plan.Wire{ID: wire, Type: id + " core " + core, Cable: id, Core: core, Supply: "reel", From: home + ":1.10", To: "leaves@N9",
			A: plan.End{At: home + ":1.10", Stage: "bench", StripUM: 5800}, B: plan.End{At: "leaves@N9", Stage: "board", TrimUM: 500_000, Finish: "tinned", Note: c.words},
			Code: fixtureCode(plan.KindWire, wire, 0), Place: problem.Place{File: "loom.toml", Line: 901 + i, Column: 1}})
	}
	p.Cables = append(p.Cables, row)
	for g := range p.Groups {
		if p.Groups[g].Connector == home {
			p.Groups[g].Wires = append(p.Groups[g].Wires, id)
			for list := range p.Groups[g].Steps {
				p.Groups[g].Steps[list] = append(p.Groups[g].Steps[list], plan.Step{Kind: plan.StepLoad, Type: "TSP24", Method: "laser", HeightUM: 1000},
					plan.Step{Kind: plan.StepCable, Wire: id})
			}
		}
	}
}

// special makes some wires end at what is no cavity, or lie in a twist.
func (c constructs) special(w *plan.Wire, i int) {
	switch i % 7 {
	case 1:
		w.Twist, w.Laid = "T1", "twist T1 with W121 and W122, lay 25 mm, 40 mm straight at both ends"
	case 2:
		w.B.At, w.B.Finish = "capped@N6", "cap CP-2"
	case 3:
		w.A.At, w.A.StripUM = "C1 shield", 0
	case 4:
		w.B.Loose, w.B.Note = true, c.words
	case 5:
		w.A.Steps = []plan.StripStep{{Layer: "jacket", UM: 12_000}, {Layer: "braid", UM: 8_000}, {Layer: "dielectric", UM: 4_000}}
	}
}

// aside adds a wire or cable that the line does not cut.
func (c constructs) aside(p *plan.Plan, i int) {
	reason := []string{"existing", "bought", "with part", "measure"}[i%4]
	words := []string{"is there already", "comes ready made", "comes with its part", "to be measured at the bench, cut ____ mm"}[i%4]
	id := fmt.Sprintf("X%02d", i+1)
	item := plan.Apart{ID: id, Type: "E22W", Reason: reason, Words: words, From: "J1:1.10", To: "SLED-NAV-P2:7", Note: c.words}
	if i%5 == 4 {
		item.Type, item.From, item.To = "TSP24", "J1", "SLED-NAV-P2+SP1"
		cores := i%3 + 1
		c.cable(p, id, "nowhere", cores)
		p.Cables[len(p.Cables)-1].Supply = reason
	} else {
		p.Wires = append(p.Wires, plan.Wire{ID: id, Type: "E22W", Supply: reason, Laid: c.words, From: item.From, To: item.To,
			A: plan.End{At: item.From, Stage: "bench", StripUM: 4000, Legend: id + " J1:1>P2:7"}, B: plan.End{At: item.To, Stage: "bench"},
			Code: fixtureCode(plan.KindWire, id, 0)})
	}
	p.Apart = append(p.Apart, item)
}

// joint adds a splice, or a terminal where the number is odd.
func (c constructs) joint(p *plan.Plan, i, wires int) {
	id := fmt.Sprintf("SP%d", i+1)
	j := plan.Joint{ID: id, Kind: "splice", Part: "MOR-SP-3", Where: "at N4, 40 mm to N5", Stage: "board", Note: c.words,
		SlideOn: []string{"sleeve HS-6, 40 mm"}, Sides: []plan.JointSide{{Words: "side 1", Section: 410_000}, {Words: "side 2"}}}
	if i%2 == 1 {
		j = plan.Joint{ID: id, Kind: "terminal", Part: "", Words: "ring M5", Where: "at N7", Sides: []plan.JointSide{{Words: "in the barrel"}}}
	}
	for k := range wires {
		line := plan.CavityLine{Wire: fmt.Sprintf("W%d-%d", i, k), Gauge: "24 AWG", Words: "white, blue stripe", Tray: p.Groups[0].Connector,
			Other: "J1:1.10", Stage: "board", Note: c.words}
		switch k % 4 {
		case 1:
			line.Cable, line.Core = "C1", "1"
		case 2:
			line.Tray, line.Stage, line.Finish = "with part", "bench", "tinned"
		case 3:
			line.Loose = "stays loose in this job"
		}
		side := k % len(j.Sides)
		j.Sides[side].Lines = append(j.Sides[side].Lines, line)
	}
	for u := range p.Packet.Units {
		j.Codes = append(j.Codes, fixtureCode(plan.KindLanding, id, u+1))
	}
	p.Joints = append(p.Joints, j)
}
