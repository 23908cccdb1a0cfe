package plan

import (
	"cmp"
	"slices"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// Kinds of the kit, in the order of its list.
const (
	KitConnector = "connector"
	KitFitting   = "fitting" // slides onto the wires of a connector before its contacts are inserted
	KitContact   = "contact"
	KitSeal      = "sealing plug"
	KitSplice    = "splice"
	KitTerminal  = "terminal"
	KitJoint     = "joint sleeve" // slides on before a splice or terminal is made
	KitStud      = "stud part"
	KitSleeve    = "marker sleeve"
	KitCover     = "cover"
)

// KitItem is a stock item other than wire, for all units. Covers are lengths, all else is counted.
type KitItem struct {
	Part      string   `json:"part"` // part number; the name where the job gives none
	Kind      string   `json:"kind"`
	Words     string   `json:"words"` // what the job calls it: "S22", "ring M5"
	For       []string `json:"for"`   // what takes it: connectors, splices, terminals, studs; none of sleeves and covers
	Need      int      `json:"need"`
	Samples   int      `json:"samples"` // pulled apart before the run
	Spare     int      `json:"spare"`   // share of the need, rounded up
	HandOut   int      `json:"hand_out"`
	NeedUM    int64    `json:"need_um,omitempty"` // whole millimetres, rounded up, as the next two
	SpareUM   int64    `json:"spare_um,omitempty"`
	HandOutUM int64    `json:"hand_out_um,omitempty"`
}

// kit gathers items by what they are.
type kit struct {
	units int // built
	share units.Share
	items []KitItem
	index map[[3]string]int
}

// kitOf returns what stores hand out besides wire, by kind and part.
func kitOf(p *Plan, h *harness.Harness) []KitItem {
	k := &kit{units: len(p.Packet.Units), share: h.Allowance.Attrition, index: map[[3]string]int{}}
	k.connectors(p, h)
	k.joints(p, h)
	for _, sum := range p.SleeveSums {
		k.whole(KitSleeve, sum.Part, "", sum.Count)
	}
	for _, s := range p.Segments {
		for _, c := range s.Covers {
			k.at(KitCover, c.Part, "").NeedUM += (c.ToUM - c.FromUM) * int64(k.units)
		}
	}
	k.samples(p)
	return k.finish()
}

// at returns the item of a part, made where it is new.
func (k *kit) at(kind, part, words string) *KitItem {
	key := [3]string{kind, part, words}
	i, known := k.index[key]
	if !known {
		i = len(k.items)
		k.index[key] = i
		k.items = append(k.items, KitItem{Kind: kind, Part: part, Words: words, For: []string{}})
	}
	return &k.items[i]
}

// each adds one of a part for each unit.
func (k *kit) each(kind, part, words, taker string) {
	item := k.at(kind, part, words)
	item.Need += k.units
	if last := len(item.For) - 1; taker != "" && (last < 0 || item.For[last] != taker) { // what takes it comes up in one go
		item.For = append(item.For, taker)
	}
}

// whole adds a count that is of all units already.
func (k *kit) whole(kind, part, words string, count int) { k.at(kind, part, words).Need += count }

// connectors adds connectors, what slides on, and what goes into their cavities.
func (k *kit) connectors(p *Plan, h *harness.Harness) {
	contacts := map[string]*harness.Contact{}
	for i := range h.Contacts {
		contacts[h.Contacts[i].ID] = &h.Contacts[i]
	}
	wires := wiresByID(p.Wires)
	for i := range p.Connectors {
		c := &p.Connectors[i]
		k.each(KitConnector, c.Part, "", c.ID)
		for _, name := range c.SlideOnFirst {
			k.each(KitFitting, name, "", c.ID)
		}
		for j := range c.Cavities {
			cavity := &c.Cavities[j]
			if contact := contacts[cavity.Contact]; contact != nil && !allReady(cavity.Wires, wires) {
				k.each(KitContact, contact.Part, contact.ID, c.ID)
			}
			if cavity.Fill == FillSeal || cavity.Fill == FillContactAndSeal {
				k.each(KitSeal, c.Seal, "", c.ID)
			}
		}
	}
	for i := range h.Wires {
		for _, end := range []*harness.End{&h.Wires[i].A, &h.Wires[i].B} {
			if contact := contacts[end.Contact]; contact != nil && end.Kind == harness.EndLeaves && !allReady([]string{h.Wires[i].ID}, wires) {
				k.each(KitContact, contact.Part, contact.ID, end.Written())
			}
		}
	}
}

// wiresByID finds the rows of wires.
func wiresByID(wires []Wire) map[string]*Wire {
	byID := make(map[string]*Wire, len(wires))
	for i := range wires {
		byID[wires[i].ID] = &wires[i]
	}
	return byID
}

// allReady reports whether a place is reached by wires that come with their ends made, and by no other.
func allReady(ids []string, wires map[string]*Wire) bool {
	for _, id := range ids {
		if wires[id].Supply == string(harness.SupplyReel) {
			return false
		}
	}
	return len(ids) > 0
}

// joints adds splices, terminals, what slides on, and the loose parts of studs.
func (k *kit) joints(p *Plan, h *harness.Harness) {
	known := map[string]bool{}
	for _, j := range p.Joints {
		known[j.ID] = true
	}
	for _, j := range p.Joints {
		switch j.Kind {
		case "splice":
			k.each(KitSplice, j.Part, "", j.ID)
		case "terminal":
			k.each(KitTerminal, j.Part, j.Words, j.ID)
		}
		for _, name := range j.SlideOn {
			k.each(KitJoint, name, "", j.ID)
		}
		for _, name := range j.Stack {
			if !known[name] {
				k.each(KitStud, name, "", j.ID)
			}
		}
	}
}

// samples adds what is crimped and pulled apart before the run.
func (k *kit) samples(p *Plan) {
	for _, row := range p.Crimps {
		words := row.Contact
		if row.Kind == "splice" {
			words = ""
		}
		key := [3]string{row.Kind, row.Part, words}
		if i, known := k.index[key]; known {
			k.items[i].Samples += row.Samples
		}
	}
}

// spared reports whether a kind gets lost or spoilt by the piece. Connectors and what slides onto their wires are handed out one by
// one, and a spoilt one is for the planner to replace.
func spared(kind string) bool { return kind != KitConnector && kind != KitFitting }

// finish adds the spare and sorts the items.
func (k *kit) finish() []KitItem {
	order := []string{KitConnector, KitFitting, KitContact, KitSeal, KitSplice, KitTerminal, KitJoint, KitStud, KitSleeve, KitCover}
	for i := range k.items {
		item := &k.items[i]
		if spared(item.Kind) {
			item.Spare = int(shareUp(int64(item.Need), k.share))
			item.SpareUM = wholeMillimetres(shareUp(item.NeedUM, k.share))
		}
		item.NeedUM = wholeMillimetres(item.NeedUM)
		item.HandOut, item.HandOutUM = item.Need+item.Samples+item.Spare, item.NeedUM+item.SpareUM
		slices.SortFunc(item.For, naturalCompare)
		item.For = slices.Compact(item.For)
	}
	slices.SortStableFunc(k.items, func(a, b KitItem) int {
		return cmp.Or(cmp.Compare(slices.Index(order, a.Kind), slices.Index(order, b.Kind)),
			naturalCompare(a.Part, b.Part), naturalCompare(a.Words, b.Words))
	})
	return k.items
}

func wholeMillimetres(um int64) int64 { return int64(units.Length(um).CeilTo(units.Millimetre)) }

// shareUp returns a share of an amount, rounded up; it does not overflow for any amount of a job.
func shareUp(amount int64, share units.Share) int64 {
	const whole = 1_000_000
	return amount/whole*int64(share) + (amount%whole*int64(share)+whole-1)/whole
}
