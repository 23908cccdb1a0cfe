package plan

import (
	"cmp"
	"slices"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/words"
)

// netPoint is something that wires meet at.
type netPoint struct {
	name      string
	connector string // of a cavity
	cavity    string
	through   bool // the net only passes: a splice, a stud, a shield
	order     [2]int
	root      *netPoint
}

// top finds the point that stands for a whole net, and shortens the way to it.
func (n *netPoint) top() *netPoint {
	for n.root != n {
		n.root = n.root.root
		n = n.root
	}
	return n
}

// netting joins points.
type netting struct {
	said   words.Words
	points map[string]*netPoint
	listed []*netPoint
}

// point returns the point of a name, and enters it where it is new.
func (n *netting) point(name string, class, place int, through bool) *netPoint {
	if known := n.points[name]; known != nil {
		return known
	}
	made := &netPoint{name: name, through: through, order: [2]int{class, place}}
	made.root = made
	n.points[name] = made
	n.listed = append(n.listed, made)
	return made
}

func join(a, b *netPoint) {
	if one, other := a.top(), b.top(); one != other {
		other.root = one
	}
}

// Classes of points, in the order of the test.
const (
	pointCavity = iota
	pointTerminal
	pointOther
	pointThrough
)

// netRows returns the nets, by their first end. A cavity that no wire reaches is in none.
func netRows(p *Plan, h *harness.Harness) []Net {
	n := newNetting(p, h)
	places := map[*netPoint]int{}
	var nets []Net
	at := func(point *netPoint) *Net {
		top := point.top()
		place, known := places[top]
		if !known {
			place = len(nets)
			places[top], nets = place, append(nets, Net{})
		}
		return &nets[place]
	}
	wires := n.joinWires(h)
	n.joinStuds(h, wires.reached)
	slices.SortStableFunc(n.listed, func(a, b *netPoint) int {
		return cmp.Or(cmp.Compare(a.order[0], b.order[0]), cmp.Compare(a.order[1], b.order[1]), naturalCompare(a.name, b.name))
	})
	for _, point := range n.listed {
		if !wires.reached[point] {
			continue
		}
		net := at(point)
		if point.through {
			net.Through = append(net.Through, point.name)
			continue
		}
		net.Ends = append(net.Ends, point.name)
		net.isolate(point)
	}
	for i, w := range wires.listed {
		net := at(wires.ends[i])
		net.Wires = append(net.Wires, w.ID)
		if net.Place == (problem.Place{}) {
			net.Place = w.At
		}
	}
	return nets
}

// isolate notes that a net comes out in a cavity: the others of the connector are not its own.
func (n *Net) isolate(point *netPoint) {
	if point.connector == "" {
		return
	}
	last := len(n.Isolated) - 1
	if last < 0 || n.Isolated[last].Connector != point.connector {
		n.Isolated = append(n.Isolated, Isolation{Connector: point.connector})
		last++
	}
	n.Isolated[last].But = append(n.Isolated[last].But, point.cavity)
}

// newNetting enters cavities as listed, connectors in build order, then terminals, splices and studs.
func newNetting(p *Plan, h *harness.Harness) *netting {
	n := &netting{said: h.Paper.Spoken(), points: map[string]*netPoint{}}
	connectors := map[string]*harness.Connector{}
	for i := range h.Connectors {
		connectors[h.Connectors[i].ID] = &h.Connectors[i]
	}
	for _, row := range p.Connectors {
		for _, cavity := range connectors[row.ID].Cavities {
			point := n.point(landingName(row.ID, cavity.Name), pointCavity, len(n.listed), false)
			point.connector, point.cavity = row.ID, cavity.Name
		}
	}
	for _, j := range p.Joints {
		if j.Kind == jointTerminal {
			n.point(j.ID, pointTerminal, len(n.listed), false)
		} else {
			n.point(j.ID, pointThrough, len(n.listed), true)
		}
	}
	return n
}

// joined is what the wires reach.
type joined struct {
	reached map[*netPoint]bool
	listed  []*harness.Wire
	ends    []*netPoint // end a of each wire
}

// joinWires joins the two ends of every wire.
func (n *netting) joinWires(h *harness.Harness) joined {
	out := joined{reached: map[*netPoint]bool{}, listed: wiresInOrder(h)}
	for _, w := range out.listed {
		a, b := n.pointOf(w, &w.A), n.pointOf(w, &w.B)
		join(a, b)
		out.ends = append(out.ends, a)
		out.reached[a], out.reached[b] = true, true
	}
	for i := range h.Cables { // a shield that goes through comes out at that end
		c := &h.Cables[i]
		for side, end := range []harness.CableEnd{c.A, c.B} {
			if end.Shield == "through" {
				shield := n.point(shieldName(n.said, c.ID), pointThrough, len(n.listed), true)
				open := n.point(n.said.Say("nets.shield_at", "cable", c.ID, "end", endWord(n.said, side)), pointOther, 0, false)
				join(shield, open)
				out.reached[shield], out.reached[open] = true, true
			}
		}
	}
	return out
}

// endWord names an end as the sheets do.
func endWord(said words.Words, side int) string {
	return said.Say("common.end") + [...]string{" A", " B"}[side]
}

// shieldName names the shield of a cable as a point of the nets.
func shieldName(said words.Words, cable string) string {
	return said.Say("nets.shield", "cable", cable)
}

// pointOf returns where an end of a wire arrives. An end that stays loose, is capped or leaves is a point of its own.
func (n *netting) pointOf(w *harness.Wire, end *harness.End) *netPoint {
	at := end.Written()
	switch {
	case end.NotLanded:
		return n.point(n.said.Say("nets.loose", "wire", w.ID, "at", at), pointOther, 0, false)
	case end.Kind == harness.EndCapped:
		return n.point(n.said.Say("nets.capped_of", "node", end.Node, "wire", w.ID), pointOther, 0, false)
	case end.Kind == harness.EndLeaves:
		return n.point(n.said.Say("nets.leaves_of", "node", end.Node, "wire", w.ID), pointOther, 0, false)
	case end.Kind == harness.EndShield:
		return n.point(shieldName(n.said, end.Shield), pointThrough, len(n.listed), true)
	}
	return n.points[at]
}

// joinStuds joins the terminals of every stack, wired or not.
func (n *netting) joinStuds(h *harness.Harness, reached map[*netPoint]bool) {
	for i := range h.Studs {
		stud := n.points[h.Studs[i].ID]
		for _, item := range h.Studs[i].Stack {
			if terminal := n.points[item]; terminal != nil && terminal.order[0] == pointTerminal {
				join(stud, terminal)
				reached[stud], reached[terminal] = true, true
			}
		}
	}
}
