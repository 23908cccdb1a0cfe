package plan

import (
	"cmp"
	"slices"

	"loomleaf/internal/harness"
)

// pigtailID names the pigtail at an end of a cable: "C1-PA".
func pigtailID(cable, side string) string {
	if side == "a" {
		return cable + "-PA"
	}
	return cable + "-PB"
}

// withPigtails returns the harness with a wire for every pigtail, from the shield of its cable to where it goes. Its length is
// the finished one.
func withPigtails(h *harness.Harness) *harness.Harness {
	whole := *h
	whole.Wires = slices.Clone(h.Wires)
	for i := range h.Cables {
		c := &h.Cables[i]
		if c.A.Pigtail != nil {
			whole.Wires = append(whole.Wires, pigtailWire(c, "a", c.A.Pigtail))
		}
		if c.B.Pigtail != nil {
			whole.Wires = append(whole.Wires, pigtailWire(c, "b", c.B.Pigtail))
		}
	}
	return &whole
}

func pigtailWire(c *harness.Cable, side string, p *harness.Pigtail) harness.Wire {
	shield := harness.End{Kind: harness.EndShield, Shield: c.ID, Stage: cmp.Or(p.To.Stage, harness.StageBench)}
	return harness.Wire{
		Origin: harness.Origin{At: c.Of(side + ".pigtail")}, ID: pigtailID(c.ID, side), Type: p.Type,
		A: shield, B: p.To, Given: p.Length, Mark: "full", Supply: c.Supply,
	}
}
