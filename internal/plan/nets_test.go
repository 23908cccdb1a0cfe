package plan

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/graph/simple"
	"gonum.org/v1/gonum/graph/topo"
	"pgregory.net/rapid"

	"loomleaf/internal/harness"
)

// drawJoined draws a job whose wires share cavities, stay loose, and whose shields go through.
func drawJoined(t *rapid.T) *harness.Harness {
	h := drawConstructs(t)
	h.Studs[0].Stack = append(h.Studs[0].Stack, "washer", h.Terminals[len(h.Terminals)-1].ID)
	for i := range h.Wires {
		for _, end := range []*harness.End{&h.Wires[i].A, &h.Wires[i].B} {
			if end.Kind != harness.EndCavity {
				continue
			}
			switch rapid.IntRange(0, 5).Draw(t, "what becomes of it") {
			case 0:
				end.NotLanded = true
			case 1:
				end.Cavity = rapid.SampledFrom([]string{"a", "b"}).Draw(t, "shared")
			}
		}
	}
	for i := range h.Cables {
		if c := &h.Cables[i]; c.B.Shield == "cut back" && rapid.Bool().Draw(t, "through") {
			c.B.Shield = "through"
		}
	}
	for i := range h.Connectors {
		for len(h.Connectors[i].Cavities) < 2 {
			benchEnd(h, i)
		}
	}
	return h
}

// joinedByGraph returns the nets as the components of a graph: one node for every place that a wire can reach, one edge for
// every wire. It goes by the harness alone.
func joinedByGraph(h *harness.Harness) [][]string {
	g := simple.NewUndirectedGraph()
	ids, names := map[string]int64{}, map[int64]string{}
	node := func(name string) simple.Node {
		if _, known := ids[name]; !known {
			ids[name] = int64(len(ids))
			names[ids[name]] = name
			g.AddNode(simple.Node(ids[name]))
		}
		return simple.Node(ids[name])
	}
	tie := func(a, b string) {
		if a != b {
			g.SetEdge(simple.Edge{F: node(a), T: node(b)})
		} else {
			node(a)
		}
	}
	name := func(wire string, e harness.End) string {
		at := map[harness.EndKind]string{harness.EndCavity: e.Connector + ":" + e.Cavity, harness.EndSplice: e.Splice, harness.EndTerminal: e.Terminal,
			harness.EndCapped: "capped@" + e.Node + " of " + wire, harness.EndLeaves: "leaves@" + e.Node + " of " + wire}[e.Kind]
		if e.NotLanded {
			return wire + " loose at " + at
		}
		return at
	}
	for _, w := range h.Wires {
		tie(name(w.ID, w.A), name(w.ID, w.B))
	}
	for _, c := range h.Cables {
		for side, end := range map[string]harness.CableEnd{"A": c.A, "B": c.B} {
			if end.Pigtail != nil {
				tie(c.ID+" shield", name(c.ID+"-P"+side, end.Pigtail.To))
			}
			if end.Shield == "through" {
				tie(c.ID+" shield", c.ID+" shield at END "+side)
			}
		}
	}
	for _, s := range h.Studs {
		for _, item := range s.Stack {
			if slices.ContainsFunc(h.Terminals, func(t harness.Terminal) bool { return t.ID == item }) {
				tie(s.ID, item)
			}
		}
	}
	var nets [][]string
	for _, component := range topo.ConnectedComponents(g) {
		var net []string
		for _, n := range component {
			net = append(net, names[n.ID()])
		}
		slices.Sort(net)
		nets = append(nets, net)
	}
	slices.SortFunc(nets, slices.Compare)
	return nets
}

func TestNetsAreTheComponentsOfAGraph(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := drawJoined(t)
		p := made(t, h)
		var nets [][]string
		var wires []string
		for _, net := range p.Nets {
			nets = append(nets, slices.Sorted(slices.Values(append(slices.Clone(net.Ends), net.Through...))))
			wires = append(wires, net.Wires...)
		}
		slices.SortFunc(nets, slices.Compare)
		require.Equal(t, joinedByGraph(h), nets)
		slices.Sort(wires)
		var all []string
		for _, w := range p.Wires {
			all = append(all, w.ID)
		}
		slices.Sort(all)
		require.Equal(t, all, wires, "every wire is in one net")
	})
}

// TestEveryCavityIsInTheNetOrIsolated holds the test to it: at every connector that a net touches, each cavity is one of its
// own or named as isolated; and every cavity of every connector is tested in one row, or expected open.
func TestEveryCavityIsInTheNetOrIsolated(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := drawJoined(t)
		p := made(t, h)
		tested := map[string]int{}
		for _, net := range p.Nets {
			var own []string
			for _, end := range net.Ends {
				if connector, _, is := strings.Cut(end, ":"); is && !strings.Contains(end, " loose at ") {
					own = append(own, end)
					tested[end]++
					require.True(t, slices.ContainsFunc(net.Isolated, func(i Isolation) bool { return i.Connector == connector }), end)
				}
			}
			var named []string
			for _, isolation := range net.Isolated {
				for _, cavity := range isolation.But {
					named = append(named, isolation.Connector+":"+cavity)
				}
			}
			require.Equal(t, own, named, "what is not isolated is the net's own")
		}
		for _, g := range p.Continuity.Groups {
			if g.Connector == "" {
				continue
			}
			at := slices.IndexFunc(h.Connectors, func(c harness.Connector) bool { return c.ID == g.Connector })
			var here, elsewhere []string
			for _, row := range g.Rows {
				for _, end := range append([]string{row.From}, row.To...) {
					if cavity, is := strings.CutPrefix(end, g.Connector+":"); is {
						here = append(here, cavity)
					}
				}
			}
			for _, before := range g.Before {
				elsewhere = append(elsewhere, before.Cavities...)
			}
			var all []string
			for _, cavity := range h.Connectors[at].Cavities {
				all = append(all, cavity.Name)
			}
			require.ElementsMatch(t, all, slices.Concat(here, elsewhere, g.Open), g.Connector)
			for _, cavity := range all {
				require.Equal(t, slices.Contains(g.Open, cavity), tested[g.Connector+":"+cavity] == 0)
			}
		}
	})
}

func TestAContinuityRowSaysWhatIsExpected(t *testing.T) {
	h := threeConnectors()
	h.Terminals = []harness.Terminal{{ID: "E1", Kind: "ring M5", Node: "N1", Tail: 60 * mm, Strip: 6 * mm}}
	h.CableTypes = []harness.CableType{shieldedType()}
	h.Cables = []harness.Cable{{ID: "C1", Type: "TSP24", Given: 900 * mm, A: harness.CableEnd{JacketOff: 40 * mm, Shield: "pigtail",
		Pigtail: &harness.Pigtail{Type: "E22W", Length: 120 * mm, To: atTerminal("E1")}}, B: harness.CableEnd{JacketOff: 40 * mm, Shield: "cut back"}}}
	h.Wires = append(h.Wires, harness.Wire{ID: "W20", Cable: "C1", Core: "1", A: benchEnd(h, 0), B: benchEnd(h, 2)})
	h.Inspection.Exclusions = []harness.Exclusion{{At: []string{"X9"}, Why: "heater inside"}}
	h.Inspection.Continuity = "1 ohm"
	p := made(t, h)
	c := p.Continuity
	require.Equal(t, "1 ohm", c.Limit)
	require.Equal(t, []Exclusion{{[]string{"X9"}, "heater inside"}}, c.Exclusions)
	require.Equal(t, []string{"J2", "J1", "P1", "X9", ""}, []string{c.Groups[0].Connector, c.Groups[1].Connector, c.Groups[2].Connector,
		c.Groups[3].Connector, c.Groups[4].Connector})
	first := c.Groups[0].Rows[0]
	require.Equal(t, "J2:1", first.From)
	require.Equal(t, []string{"J1:1"}, first.To)
	require.Equal(t, "all other cavities of J2, J1", first.Isolated)
	require.False(t, first.Excluded)
	require.Equal(t, []Before{{"J2", []string{"1"}}}, c.Groups[1].Before)
	excluded := c.Groups[1].Rows[1]
	require.Equal(t, []string{"X9:1"}, excluded.To)
	require.True(t, excluded.Excluded)
	require.Equal(t, []string{"2"}, c.Groups[3].Open)
	shield := c.Groups[4].Rows[0]
	require.Equal(t, "E1", shield.From)
	require.Equal(t, []string{"C1 shield"}, shield.Through)
	require.Equal(t, []string{"C1-PA"}, shield.Wires)
	require.Equal(t, "C1 shield cut back at END B, touches nothing there; no other end", shield.Note)
	require.Equal(t, "all other nets", shield.Isolated)
}
