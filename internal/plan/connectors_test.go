package plan

import (
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/harness"
)

// sledConnectors is J1 with nine cavities in two rows, P2 with four in a ring and one in its centre, and four wires.
func sledConnectors() (*harness.Harness, []Wire) {
	h := twoEnds()
	h.Contacts = append(h.Contacts, harness.Contact{ID: "S20", Kind: "crimp", InsertTool: "insertion tool 20"})
	j1 := &h.Connectors[0]
	j1.Cavities, j1.Seal, j1.Spare = numbered(9), "sealing plug, size 22", "seal"
	j1.Face = harness.Face{Kind: harness.FaceRows, MatingSide: true, Rows: [][]string{{"1", "2", "3", "4", "5"}, {"6", "7", "8", "9"}}}
	j1.SlideOnFirst = []string{"backshell BS-12", "boot BT-3"}
	j1.After = []harness.Step{{Step: "tighten backshell", Value: "per drawing"}}
	p2 := &h.Connectors[1]
	p2.Cavities, p2.Spare = numbered(5), "open"
	p2.Cavities[4].Contact = "S20"
	p2.Face = harness.Face{Kind: harness.FaceRings, Rings: []int{4, 1}, Clockwise: true}
	wire := func(id, home, from, contactA, to, contactB string) Wire {
		return Wire{ID: id, Type: "E22W", Supply: "reel", Home: home, A: End{At: from, Contact: contactA, Note: id + " a"}, B: End{At: to, Contact: contactB}}
	}
	return h, []Wire{
		wire("W10", "J1", "J1:1", "S22", "P2:5", "S20"), wire("W9", "P2", "J1:1", "S22", "P2:1", "S22"),
		wire("W1", "J1", "J1:9", "S22", "P2:2", "S22"), wire("W2", "J1", "J1:3", "S22", "J1:4", "S22"),
	}
}

func names(c Connector) []string {
	var names []string
	for _, cavity := range c.Cavities {
		names = append(names, cavity.Name)
	}
	return names
}

func TestConnectorRow(t *testing.T) {
	h, wires := sledConnectors()
	wires[0].Note = "keep clear"
	rows := connectorRows(h, landingsOf(english(), typeRows(h), wires), []string{"P2", "J1"})
	require.Equal(t, "P2", rows[0].ID, "build order")
	j1 := rows[1]
	require.Equal(t, []string{"1", "2", "3", "4", "5", "6", "7", "8", "9"}, names(j1))
	require.Equal(t, "listed", j1.Order)
	require.Equal(t, CavityCounts{Cavities: 9, Wired: 4, Sealed: 5}, j1.Counts)
	require.Equal(t, []string{"P2", "J1"}, j1.Trays)
	require.Equal(t, []string{"insertion tool 22"}, j1.InsertTools)
	require.Equal(t, []Closing{{"tighten backshell", "per drawing"}}, j1.After)
	require.Equal(t, []string{"backshell BS-12", "boot BT-3"}, j1.SlideOnFirst)
	require.Equal(t, Cavity{
		Name: "1", Contact: "S22", Wires: []string{"W9", "W10"}, Fill: FillShared, Words: "2 wires in one contact, 0.65 mm² together",
		Lines: []CavityLine{
			{Wire: "W9", Gauge: "22 AWG", Words: "white", Tray: "P2", Other: "P2:1", Note: "W9 a"},
			{Wire: "W10", Gauge: "22 AWG", Words: "white", Tray: "J1", Other: "P2:5", Note: "W10 a; keep clear"},
		},
	}, j1.Cavities[0])
	require.Equal(t, Cavity{Name: "2", Wires: []string{}, Fill: FillSeal, Words: "sealing plug, size 22", Lines: []CavityLine{}}, j1.Cavities[1])
	require.Equal(t, FillWire, j1.Cavities[3].Fill, "the other end of W2")
	require.Equal(t, "J1:3", j1.Cavities[3].Lines[0].Other)
	for _, place := range j1.Face.Places {
		wired := map[string]bool{"1": true, "3": true, "4": true, "9": true}
		require.Equal(t, wired[place.Cavity], place.Filled, place.Cavity)
	}
}

func TestUnwiredCavities(t *testing.T) {
	for _, c := range []struct {
		spare, contact, words string
		fill                  Fill
		counts                CavityCounts
	}{
		{"seal", "", "sealing plug, size 22", FillSeal, CavityCounts{Cavities: 1, Sealed: 1}},
		{"contact and seal", "S22", "contact S22 and sealing plug, size 22", FillContactAndSeal, CavityCounts{Cavities: 1, Sealed: 1}},
		{"open", "", "leave open", FillOpen, CavityCounts{Cavities: 1, Open: 1}},
	} {
		h := twoEnds()
		h.Connectors[0].Spare, h.Connectors[0].Seal = c.spare, "sealing plug, size 22"
		row := connectorRows(h, landingsOf(english(), typeRows(h), nil), []string{"J1"})[0]
		require.Equal(t, Cavity{Name: "1", Contact: c.contact, Wires: []string{}, Fill: c.fill, Words: c.words, Lines: []CavityLine{}}, row.Cavities[0])
		require.Equal(t, c.counts, row.Counts)
		require.Equal(t, c.contact != "", len(row.InsertTools) == 1, "a contact without a wire is seated too")
	}
}

func TestInsertionOrders(t *testing.T) {
	h, wires := sledConnectors()
	order := func(index int, order string) []string {
		h.Connectors[index].Order = order
		return names(connectorRows(h, landingsOf(english(), typeRows(h), wires), []string{h.Connectors[index].ID})[0])
	}
	require.Equal(t, []string{"5", "4", "3", "2", "1", "9", "8", "7", "6"}, order(0, "by row"), "left to right from behind")
	require.Equal(t, []string{"3", "7", "8", "2", "4", "6", "9", "1", "5"}, order(0, "centre out"))
	require.Equal(t, []string{"5", "1", "2", "3", "4"}, order(1, "centre out"))
	require.Equal(t, []string{"1", "2", "3", "4", "5"}, order(1, "listed"))
	h.Connectors[1].Order = "centre out"
	require.Equal(t, []string{"insertion tool 20", "insertion tool 22"}, connectorRows(h, landingsOf(english(), typeRows(h), wires), []string{"P2"})[0].InsertTools,
		"in the order in which they are taken up")
}

func TestRingsStayTogetherFromTheCentreOut(t *testing.T) {
	h := twoEnds()
	j1 := &h.Connectors[0]
	j1.Cavities, j1.Spare, j1.Order = numbered(37), "open", "centre out"
	j1.Face = harness.Face{Kind: harness.FaceRings, Rings: []int{16, 12, 8, 1}, Start: 7_300, Clockwise: true, MatingSide: true}
	var want []string
	for _, part := range [][2]int{{37, 37}, {29, 36}, {17, 28}, {1, 16}} {
		for _, cavity := range numbered(37)[part[0]-1 : part[1]] {
			want = append(want, cavity.Name)
		}
	}
	require.Equal(t, want, names(connectorRows(h, landingsOf(english(), typeRows(h), nil), []string{"J1"})[0]))
}
