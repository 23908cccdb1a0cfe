package sheet

import (
	"strconv"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/units"
)

// stock looks up what the rows of a plan name by id.
type stock struct {
	wires  map[string]plan.Wire
	cables map[string]plan.Cable
	joints map[string]string // kind of joint by id
	types  map[string]plan.WireType
	reels  map[string]plan.Reel
	tagged map[string]bool // wires and cables whose text stands on a tag
}

func stockOf(p *plan.Plan) stock {
	s := stock{wires: map[string]plan.Wire{}, cables: map[string]plan.Cable{}, joints: map[string]string{},
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
		return plural(wires, "wire")
	case wires == 0:
		return plural(cables, "cable")
	default:
		return plural(wires, "wire") + " and " + plural(cables, "cable")
	}
}

// typeWords describes a wire type: its id, colour in words and gauge in both scales.
func (s stock) typeWords(id string) []span {
	t := s.types[id]
	return []span{{style: mono(11), text: id}, {style: medium(11), text: t.ColourWords}, {style: medium(11), text: t.Gauge}}
}

// methodWords says how the line marks, in words that no one takes for another.
func methodWords(method, ink string) span {
	words := map[string]string{"laser": "UV laser", "none": "NO MARK", "sleeve": "SLEEVES: no mark on the line"}[method]
	if method == "ink" {
		words = map[string]string{"black": "BLACK ink", "white": "WHITE ink"}[ink]
	}
	if method == "test first" {
		return span{style: bold(12), text: "TEST FIRST: as proved", blank: mm(30)}
	}
	return span{style: bold(12), text: words}
}

// heightWords says how high the marks are; nothing where there are none.
func heightWords(um int64) string {
	if um == 0 {
		return ""
	}
	tenths := units.Length(um).MillimetresTenths()
	return "marks " + tenths + " mm high"
}

// loadPitch is the line pitch of the rows that load a reel.
func loadPitch() page.Pt { return mm10(65) }

func rackWords(rack int) string {
	if rack == 0 {
		return ""
	}
	return "rack place " + strconv.Itoa(rack)
}
