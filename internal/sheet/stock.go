package sheet

import (
	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/units"
)

// stock looks up what the rows of a plan name by id.
type stock struct {
	composer
	wires  map[string]plan.Wire
	cables map[string]plan.Cable
	joints map[string]string // kind of joint by id
	types  map[string]plan.WireType
	reels  map[string]plan.Reel
	tagged map[string]bool // wires and cables whose text stands on a tag
}

func stockOf(p *plan.Plan, m composer) stock {
	s := stock{composer: m, wires: map[string]plan.Wire{}, cables: map[string]plan.Cable{}, joints: map[string]string{},
		types: map[string]plan.WireType{}, reels: map[string]plan.Reel{}, tagged: map[string]bool{}}
	for _, c := range p.Cables {
		s.cables[c.ID] = c
	}
	for _, sleeve := range p.Sleeves {
		if sleeve.Kind == "tag" {
			s.tagged[sleeve.Wire] = true
		}
	}
	for _, j := range p.Joints {
		s.joints[j.ID] = j.Kind
	}
	for _, w := range p.Wires {
		s.wires[w.ID] = w
	}
	for _, t := range p.Types {
		s.types[t.ID] = t
	}
	for _, r := range p.Reels {
		s.reels[r.ID] = r
	}
	return s
}

// piecesWords counts wires and cables by their ids: "12 wires and 1 cable".
func (s stock) piecesWords(ids []string) string {
	cables := 0
	for _, id := range ids {
		if _, is := s.cables[id]; is {
			cables++
		}
	}
	switch wires := len(ids) - cables; {
	case cables == 0:
		return s.SayCount("common.wires", wires)
	case wires == 0:
		return s.SayCount("common.cables", cables)
	default:
		return s.Say("common.and", "first", s.SayCount("common.wires", wires), "last", s.SayCount("common.cables", cables))
	}
}

// typeWords describes a wire type: its id, colour in words and gauge in both scales.
func (s stock) typeWords(id string) []span {
	t := s.types[id]
	return []span{{style: mono(11), text: id}, {style: medium(11), text: t.ColourWords}, {style: medium(11), text: t.Gauge}}
}

// methodWords says how the line marks, in words that no one takes for another.
func (c composer) methodWords(method, ink string) span {
	switch method {
	case "ink":
		return span{style: bold(12), text: c.Say("method.ink_" + ink)}
	case "test first":
		return span{style: bold(12), text: c.Say("method.test_first"), blank: mm(30)}
	}
	return span{style: bold(12), text: c.Say("method." + method)}
}

// heightWords says how high the marks are; nothing where there are none.
func (c composer) heightWords(um int64) string {
	if um == 0 {
		return ""
	}
	return c.Say("mark.height", "height", c.Decimal(units.Length(um).MillimetresTenths()))
}

// loadPitch is the line pitch of the rows that load a reel.
func loadPitch() page.Pt { return mm10(65) }

func (c composer) rackWords(rack int) string {
	if rack == 0 {
		return ""
	}
	return c.Say("mark.rack", "place", rack)
}
