package plan

import (
	"encoding/csv"
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/harness"
)

// csvRows returns the rows of a file of figures by column name. Every row must name its source.
func csvRows(t *testing.T, name string) []map[string]string {
	t.Helper()
	file, err := os.Open("../../testdata/vectors/" + name)
	require.NoError(t, err)
	defer file.Close()
	reader := csv.NewReader(file)
	reader.Comment = '#'
	records, err := reader.ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(records), 1)
	var rows []map[string]string
	for _, record := range records[1:] {
		row := map[string]string{}
		for i, column := range records[0] {
			row[column] = record[i]
		}
		require.NotEmpty(t, row["source"], "%v", record)
		rows = append(rows, row)
	}
	return rows
}

// letterGroups reads groups of one-letter types: "ab bw aw".
func letterGroups(text string) []ownWires {
	var groups []ownWires
	for g, letters := range strings.Fields(text) {
		group := ownWires{connector: fmt.Sprint("J", g)}
		for i, letter := range letters {
			group.wires = append(group.wires, &Wire{ID: fmt.Sprintf("W%d.%d", g, i), Type: string(letter), Method: "laser"})
		}
		groups = append(groups, group)
	}
	return groups
}

// changeLine is a line whose changes cost what the prices say: method, reel, ink, height.
func changeLine(prices [4]int) *harness.Harness {
	h := &harness.Harness{}
	h.Line.Rack = 2
	h.Line.ChangeTime = harness.ChangeTime{Method: 1000, Reel: 1000, Ink: 1000, Height: 1000}
	times := []*int64{(*int64)(&h.Line.ChangeTime.Method), (*int64)(&h.Line.ChangeTime.Reel), (*int64)(&h.Line.ChangeTime.Ink), (*int64)(&h.Line.ChangeTime.Height)}
	for i, price := range prices {
		*times[i] = int64(price)
	}
	return h
}

// price recounts what the stops of a pass cost: each its dearest change.
func price(h *harness.Harness, rows []*Wire, mounted string) int64 {
	times, cost := h.Line.ChangeTime, int64(0)
	for i := range rows {
		if i == 0 {
			if mounted != "" && rows[0].Type != mounted {
				cost += int64(times.Reel)
			}
			continue
		}
		a, b, stop := rows[i-1], rows[i], int64(0)
		for _, c := range []struct {
			changed bool
			price   int64
		}{
			{a.Method != b.Method, int64(times.Method)}, {a.Type != b.Type, int64(times.Reel)},
			{a.Ink != b.Ink, int64(times.Ink)}, {a.HeightUM != b.HeightUM, int64(times.Height)},
		} {
			if c.changed {
				stop = max(stop, c.price)
			}
		}
		cost += stop
	}
	return cost
}

func allRows(groups []ownWires) []*Wire {
	var rows []*Wire
	for _, group := range groups {
		rows = append(rows, group.wires...)
	}
	return rows
}

// cheapestByTrial tries every order of the rows of every group in which units stay together.
func cheapestByTrial(h *harness.Harness, groups []ownWires, mounted string) int64 {
	type leg struct {
		first, last *Wire
		cost        int64
	}
	before := []leg{}
	for g, group := range groups {
		var legs []leg
		permute(group.wires, func(order []*Wire) {
			if together(order) {
				legs = append(legs, leg{order[0], order[len(order)-1], price(h, order, "")})
			}
		})
		best := map[state]leg{}
		for _, l := range legs {
			cost := l.cost
			if g == 0 {
				cost += price(h, []*Wire{l.first}, mounted)
			} else {
				least := int64(1) << 60
				for _, b := range before {
					least = min(least, b.cost+price(h, []*Wire{b.last, l.first}, ""))
				}
				cost += least
			}
			if known, found := best[stateOf(l.last)]; !found || cost < known.cost {
				best[stateOf(l.last)] = leg{last: l.last, cost: cost}
			}
		}
		before = before[:0]
		for _, b := range best {
			before = append(before, b)
		}
	}
	least := int64(1) << 60
	for _, b := range before {
		least = min(least, b.cost)
	}
	return least
}

func permute[T any](items []T, visit func([]T)) {
	var place func(int)
	place = func(k int) {
		if k == len(items) {
			visit(items)
			return
		}
		for i := k; i < len(items); i++ {
			items[k], items[i] = items[i], items[k]
			place(k + 1)
			items[k], items[i] = items[i], items[k]
		}
	}
	place(0)
}

// together reports whether the rows of each unit stand side by side.
func together(rows []*Wire) bool {
	closed := map[string]bool{}
	for i, row := range rows {
		if i > 0 && row.unit == rows[i-1].unit {
			continue
		}
		if row.unit != "" && closed[row.unit] {
			return false
		}
		closed[row.unit] = true
	}
	return true
}

func TestReelChangesWorkedByHand(t *testing.T) {
	for _, row := range csvRows(t, "reelchanges.csv") {
		want, err := strconv.Atoi(row["changes"])
		require.NoError(t, err)
		groups := letterGroups(row["groups"])
		require.Equal(t, want, fewestReelChanges(tableOf(groups), "", false, nil), row["groups"])
		ordered, out := runOrder(changeLine([4]int{1, 1, 1, 1}), groups)
		require.Equal(t, want, countChanges(ordered).Reel, row["groups"])
		require.Equal(t, int64(want), out.cost)
	}
	require.Zero(t, fewestReelChanges(table{}, "", false, nil))
}

// randomGroups draws groups of rows with inks, heights, methods, and units that stay together.
func randomGroups(r *rand.Rand, most, types int) []ownWires {
	groups := make([]ownWires, 1+r.IntN(3))
	for g := range groups {
		groups[g].connector = fmt.Sprint("J", g)
		for unit := 0; len(groups[g].wires) < 1+r.IntN(most); unit++ {
			size := 1
			if r.IntN(3) == 0 {
				size += r.IntN(3)
			}
			for range min(size, most-len(groups[g].wires)) {
				w := &Wire{ID: fmt.Sprintf("W%d.%d", g, len(groups[g].wires)), Type: string(rune('a' + r.IntN(types))), Method: "laser", HeightUM: int64(1 + r.IntN(2))}
				if r.IntN(2) == 0 {
					w.Method, w.Ink = "ink", []string{"black", "white"}[r.IntN(2)]
				}
				if size > 1 {
					w.unit = fmt.Sprint("unit ", unit)
				}
				groups[g].wires = append(groups[g].wires, w)
			}
		}
	}
	return groups
}

// TestFixedOrderIsExact compares with every order of the rows of small cases.
func TestFixedOrderIsExact(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 1))
	for trial := range 5000 {
		prices := [4]int{}
		for i := range prices {
			prices[i] = 1 + r.IntN(9)
		}
		h, groups := changeLine(prices), randomGroups(r, 5, 3)
		mounted := []string{"", "a", "b"}[r.IntN(3)]
		h.Line.Mounted = mounted
		ordered, out := runOrder(h, groups)
		for i := range groups {
			require.ElementsMatch(t, groups[i].wires, ordered[i].wires, "case %d", trial)
			require.True(t, together(ordered[i].wires), "case %d", trial)
		}
		want := cheapestByTrial(h, groups, mounted)
		require.Equal(t, want, out.cost, "case %d: %v", trial, groups)
		require.Equal(t, want, out.floor, "case %d", trial)
		require.Equal(t, want, price(h, allRows(ordered), mounted), "case %d: the rows cost what the plan says", trial)
		c, courses := charted(ladderOfLine(&h.Line), tableOf(groups))
		require.LessOrEqual(t, c.floorOf(courses, mounted, 0), want, "case %d: the floor of what is not searched", trial)
		unit := changeLine([4]int{1, 1, 1, 1})
		unit.Line.ChangeTime = harness.ChangeTime{Reel: 1}
		require.Equal(t, cheapestByTrial(unit, groups, mounted), int64(fewestReelChanges(tableOf(groups), mounted, false, nil)), "case %d", trial)
	}
}

// TestASearchThatIsCutShortSaysSo narrows the search until it must leave something out.
func TestASearchThatIsCutShortSaysSo(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 2))
	cut := 0
	for range 200 {
		groups := randomGroups(r, 12, 6)
		c, courses := charted(reelLadder(), tableOf(groups))
		exact := c.run(courses, "")
		for i := range courses {
			k := &courses[i]
			entry := c.begin(k, "")
			wide, _, _ := c.pass(k, entry, 5000)
			narrow, _, found := c.pass(k, entry, 1)
			require.GreaterOrEqual(t, slices.Min(narrow), slices.Min(wide))
			cut += one(!found)
		}
		require.True(t, exact.exact)
	}
	require.Positive(t, cut)
}

func TestTiesGoByMethodThenId(t *testing.T) {
	wires := []*Wire{
		{ID: "W3", Type: "B10", Method: "laser"}, {ID: "W1", Type: "A1", Method: "ink", Ink: "black"},
		{ID: "W2", Type: "B9", Method: "laser"}, {ID: "W4", Type: "C1", Method: "sleeve"}, {ID: "W5", Type: "D1", Method: "test first"},
	}
	ordered, _ := runOrder(changeLine([4]int{4, 3, 2, 1}), []ownWires{{connector: "J1", wires: wires}})
	require.Equal(t, []string{"W2", "W3", "W1", "W5", "W4"}, wireIDs(ordered[0].wires))
}

func idsOf(wires []Wire) []string {
	rows := make([]*Wire, len(wires))
	for i := range wires {
		rows[i] = &wires[i]
	}
	return wireIDs(rows)
}

func wireIDs(wires []*Wire) []string {
	var ids []string
	for _, wire := range wires {
		ids = append(ids, wire.ID)
	}
	return ids
}

func TestAKindMayPartOverASeam(t *testing.T) {
	row := func(id, wireType, ink string) *Wire { return &Wire{ID: id, Type: wireType, Method: "ink", Ink: ink} }
	groups := []ownWires{
		{connector: "J1", wires: []*Wire{row("W1", "k", "A")}},
		{connector: "J2", wires: []*Wire{row("W2", "k", "A"), row("W3", "k", "B"), row("W4", "j", "A")}},
		{connector: "J3", wires: []*Wire{row("W5", "k", "B")}},
	}
	ordered, out := runOrder(changeLine([4]int{40, 30, 5, 2}), groups)
	require.Equal(t, []string{"W2", "W4", "W3"}, wireIDs(ordered[1].wires), "k runs first and last, since either seam is then free")
	require.Equal(t, int64(60), out.cost)
}

func TestALineWithOnePlaceCountsLoads(t *testing.T) {
	h := changeLine([4]int{40, 25, 8, 2})
	h.Line.Rack, h.Line.ChangeTime.Load = 1, 180
	require.Equal(t, ladder{{partReel, 180}, {partMethod, 40}, {partInk, 8}, {partHeight, 2}}, ladderOfLine(&h.Line))
	h.Line.Rack = 2
	require.Equal(t, ladder{{partMethod, 40}, {partReel, 25}, {partInk, 8}, {partHeight, 2}}, ladderOfLine(&h.Line))
	h.Line.ChangeTime.Height = 0
	require.Equal(t, rung{partHeight, 1}, ladderOfLine(&h.Line)[3])
}

func TestChangesAreCountedOverSeams(t *testing.T) {
	groups := []ownWires{
		{wires: []*Wire{{Type: "A", Method: "ink", Ink: "black", HeightUM: 1}, {Type: "B", Method: "laser", HeightUM: 2}}},
		{wires: []*Wire{{Type: "B", Method: "none"}, {Type: "A", Method: "ink", Ink: "white", HeightUM: 2}}},
	}
	require.Equal(t, Changes{Reel: 2, Method: 3, Ink: 1, Height: 1}, countChanges(groups))
}

func TestPairsFollowEachOtherOnACommonReel(t *testing.T) {
	var rows []*Wire
	for _, p := range []string{"T1ab", "T2cd", "T3bc", "T4ab", "T5ab"} {
		for i, letter := range p[2:] {
			rows = append(rows, &Wire{ID: fmt.Sprint(p[:2], ".", i+1), Type: string(letter), Method: "laser", unit: p[:2]})
		}
	}
	ordered, _ := runOrder(changeLine([4]int{4, 3, 2, 1}), []ownWires{{connector: "J1", wires: rows}})
	require.Equal(t, []string{"T1.1", "T1.2", "T4.2", "T4.1", "T5.1", "T5.2", "T3.1", "T3.2", "T2.1", "T2.2"}, wireIDs(ordered[0].wires))
	require.Equal(t, Changes{Reel: 5}, countChanges(ordered))
}

func TestLongGroupsOfUnitsAreWholeAndPriced(t *testing.T) {
	r, h := rand.New(rand.NewPCG(6, 3)), changeLine([4]int{4, 3, 2, 1})
	for range 60 {
		groups := randomGroups(r, 30, 5)
		ordered, out := runOrder(h, groups)
		require.LessOrEqual(t, out.floor, out.cost)
		for i := range groups {
			require.ElementsMatch(t, groups[i].wires, ordered[i].wires)
			require.True(t, together(ordered[i].wires))
		}
		require.Equal(t, out.cost, price(h, allRows(ordered), ""))
	}
}

func TestMoreUnitsThanASearchHoldsAreStillOrdered(t *testing.T) {
	r, h := rand.New(rand.NewPCG(6, 4)), changeLine([4]int{4, 3, 2, 1})
	group := ownWires{connector: "J1"}
	for unit := range 80 {
		for i, letter := range r.Perm(20)[:4] {
			group.wires = append(group.wires, &Wire{ID: fmt.Sprint("W", unit, ".", i), Type: string(rune('a' + letter)), Method: "laser", unit: fmt.Sprint(unit)})
		}
	}
	ordered, out := runOrder(h, []ownWires{group})
	require.ElementsMatch(t, group.wires, ordered[0].wires)
	require.True(t, together(ordered[0].wires))
	require.Equal(t, out.cost, price(h, allRows(ordered), ""))
	require.Greater(t, out.cost, out.floor, "what was not searched is not called proved")
}
