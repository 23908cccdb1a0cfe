package plan

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// branched is a job on a board of four nodes, 150 mm apart, with the shop's rule of bends.
func branched() *harness.Harness {
	h := surveyHarness()
	for i := range h.Board.Nodes {
		h.Board.Nodes[i].X = units.Length(i) * 150 * mm
	}
	h.Bundle = harness.BundleRule{Bend: "TM 1-1500-204-23-4", BendCoax: "ASTM F2639", BendOver: "member"}
	return h
}

func segmentOf(t *testing.T, p Plan, a, b string) Segment {
	t.Helper()
	at := slices.IndexFunc(p.Segments, func(s Segment) bool { return segmentName(s.Between[0], s.Between[1]) == segmentName(a, b) })
	require.GreaterOrEqual(t, at, 0)
	return p.Segments[at]
}

func TestSegmentsSayWhatLiesInThem(t *testing.T) {
	h := branched()
	addWire(h, "W10", "E22W", 0, 2, 0)
	addWire(h, "W9", "E22W", 0, 1, 0)
	addWire(h, "W1", "E22W", 1, 2, 0)
	h.Wires[2].Separation = "A"
	p := made(t, h)
	require.Len(t, p.Segments, 3)
	require.Equal(t, [2]string{"N1", "N2"}, p.Segments[0].Between)
	require.Equal(t, int64(150_000), p.Segments[0].LengthUM)
	require.Equal(t, []string{"W9", "W10"}, p.Segments[0].Wires)
	require.Equal(t, int64(2*1270), p.Segments[0].DiameterUM)
	require.Equal(t, []string{"W1", "W10"}, p.Segments[1].Wires)
	require.Equal(t, []string{"A"}, p.Segments[1].Separations)
	require.Equal(t, int64(10*1270), p.Segments[1].BendUM)
	require.Empty(t, p.Segments[2].Wires)
	require.Zero(t, p.Segments[2].DiameterUM+p.Segments[2].BendUM+p.Segments[2].OverUM)
}

func TestWiresThatMeetInASpliceDoNotLieSideBySide(t *testing.T) {
	h := branched()
	h.Splices = []harness.Splice{{ID: "SP1", Node: "N2", Offset: 40 * mm, Towards: "N1", Strip: 8 * mm, Sides: [][]string{{"W1"}, {"W2"}}}}
	h.Wires = append(h.Wires, wireBetween("W1", "E22W", benchEnd(h, 0), atSplice("SP1")), wireBetween("W2", "E22W", atSplice("SP1"), benchEnd(h, 2)))
	s := segmentOf(t, made(t, h), "N1", "N2")
	require.Equal(t, []string{"W1", "W2"}, s.Wires)
	require.Equal(t, int64(1270), s.DiameterUM, "one ends where the other begins")
	h.Wires = append(h.Wires, wireBetween("W3", "E22W", atSplice("SP1"), benchEnd(h, 0)))
	h.Splices[0].Sides[0] = append(h.Splices[0].Sides[0], "W3")
	require.Equal(t, int64(2*1270), segmentOf(t, made(t, h), "N1", "N2").DiameterUM)
}

func TestCoversLieOverTheBundle(t *testing.T) {
	h := branched()
	addWire(h, "W1", "E22W", 0, 1, 0)
	h.Board.Segments[0].Covers = []harness.Cover{{Part: "MOR-BR-6", To: 100 * mm, Wall: 500}, {Part: "MOR-HS-8", From: 90 * mm, To: 120 * mm, Wall: 300}}
	s := segmentOf(t, made(t, h), "N1", "N2")
	require.Equal(t, int64(1270), s.DiameterUM)
	require.Equal(t, int64(1270+2*(500+300)), s.OverUM, "they overlap from 90 to 100 mm")
	require.Equal(t, []SegmentCover{{"MOR-BR-6", 0, 100_000, 500}, {"MOR-HS-8", 90_000, 120_000, 300}}, s.Covers)
	h.Board.Segments[0].Covers[1].Wall = 0
	s = segmentOf(t, made(t, h), "N1", "N2")
	require.Zero(t, s.OverUM+s.OverRoomUM, "a wall that is not given leaves the outside unknown")
	require.Equal(t, int64(1270), s.RoomUM)
}

func TestCablesLieInTheirJacket(t *testing.T) {
	h := branched()
	h.CableTypes = []harness.CableType{shieldedType()}
	h.CableTypes[0].Diameter = 3000
	h.Cables = []harness.Cable{{ID: "C1", Type: "TSP24", A: harness.CableEnd{JacketOff: 40 * mm, Shield: "cut back"}, B: harness.CableEnd{JacketOff: 40 * mm, Shield: "cut back"}}}
	for i, to := range []int{1, 2} {
		h.Wires = append(h.Wires, harness.Wire{ID: []string{"W1", "W2"}[i], Cable: "C1", Core: []string{"1", "2"}[i], A: benchEnd(h, 0), B: benchEnd(h, to)})
	}
	p := made(t, h)
	for _, nodes := range [][2]string{{"N1", "N2"}, {"N2", "N3"}} {
		s := segmentOf(t, p, nodes[0], nodes[1])
		require.Equal(t, []string{"C1"}, s.Cables)
		require.Empty(t, s.Wires)
		require.Equal(t, int64(3000), s.DiameterUM)
		require.Equal(t, int64(30_000), s.BendUM)
	}
}

func TestBendsFollowTheRuleOfTheShop(t *testing.T) {
	h := branched()
	h.Contacts = append(h.Contacts, harness.Contact{ID: "CX", Kind: "coax", Strip: 4000})
	addWire(h, "W1", "E22W", 0, 1, 0)
	h.Wires[0].A.Contact = "CX"
	require.Equal(t, int64(6*1270), segmentOf(t, made(t, h), "N1", "N2").BendUM, "a wire in a coax contact is coax")
	h.Bundle.BendCoax = "AS50881"
	require.Equal(t, int64(10*1270), segmentOf(t, made(t, h), "N1", "N2").BendUM)
	h.Wires[0].A.Contact = "S22"
	h.Bundle.Bend, h.WireTypes[0].Insulation = "NASA-STD-8739.4", "polyimide film"
	require.Equal(t, int64(15*1270), segmentOf(t, made(t, h), "N1", "N2").BendUM)
	h.Bundle.Bend = "TM 1-1500-204-23-4"
	require.Equal(t, int64(10*1270), segmentOf(t, made(t, h), "N1", "N2").BendUM, "a document without a figure of its own for polyimide")
	addWire(h, "W2", "E22K", 0, 1, 0)
	h.Bundle.BendOver = "bundle"
	require.Equal(t, int64(10*2*1270), segmentOf(t, made(t, h), "N1", "N2").BendUM)
	require.Equal(t, []BendLimit{{"wire", 10, "US Army TM 1-1500-204-23-4, item 27 (read)"}, {"coax", 10, "SAE AS50881, coax (second-hand)"}},
		made(t, h).Bundles.Bends)
}

// TestEveryWireLiesWhereItsNodesSay adds up, over all segments, what lies in them, and what the wires say of their ways.
func TestEveryWireLiesWhereItsNodesSay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := drawConstructs(t)
		p := made(t, h)
		want := map[[2]string][]string{}
		for _, w := range p.Wires {
			for i := 1; i < len(w.Nodes); i++ {
				name := segmentName(w.Nodes[i-1], w.Nodes[i])
				id := w.ID
				if w.Cable != "" {
					id = w.Cable
				}
				want[name] = append(want[name], id)
			}
		}
		for _, s := range p.Segments {
			all := append(slices.Clone(s.Wires), s.Cables...)
			require.Equal(t, len(all), len(slices.Compact(slices.Sorted(slices.Values(all)))), "nothing lies twice")
			require.Subset(t, all, want[segmentName(s.Between[0], s.Between[1])])
			require.Equal(t, len(all) == 0, s.DiameterUM == 0)
			require.LessOrEqual(t, s.DiameterUM, s.RoomUM)
			require.LessOrEqual(t, s.RoomUM, s.OverRoomUM)
		}
	})
}

func TestASegmentIsNamedFromItsFirstNode(t *testing.T) {
	h := branched()
	addWire(h, "W1", "E22W", 0, 1, 0)
	h.Board.Segments[0] = harness.Segment{From: "N2", To: "N1", Covers: []harness.Cover{{Part: "MOR-BR-6", To: 100 * mm, Wall: 500}}}
	s := segmentOf(t, made(t, h), "N1", "N2")
	require.Equal(t, [2]string{"N1", "N2"}, s.Between)
	require.Equal(t, []SegmentCover{{"MOR-BR-6", 50_000, 150_000, 500}}, s.Covers)
}
