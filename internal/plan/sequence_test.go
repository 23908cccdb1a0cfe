package plan

import (
	"encoding/csv"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
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

// kindGroups reads groups of one-letter types: "ab bw aw".
func kindGroups(text string) [][]kind {
	var groups [][]kind
	for _, letters := range strings.Fields(text) {
		var group []kind
		for _, letter := range letters {
			group = append(group, kind{string(letter), "laser"})
		}
		groups = append(groups, group)
	}
	return groups
}

// reelChanges counts the changes of wire type along arranged groups.
func reelChanges(groups [][]kind) int {
	changes, last := -1, ""
	for _, group := range groups {
		for _, kind := range group {
			if kind.wireType != last {
				changes, last = changes+1, kind.wireType
			}
		}
	}
	return changes
}

// arranged puts the types of groups without blocks in order.
func arranged(groups [][]kind) [][]kind {
	graphs, order := make([]kindGraph, len(groups)), make([][]kind, len(groups))
	for i, kinds := range groups {
		graphs[i].kinds = kinds
	}
	for i, ends := range arrange(graphs) {
		order[i] = between(groups[i], ends.first, ends.last)
	}
	return order
}

// cheapestByTrial tries every order inside every group.
func cheapestByTrial(groups [][]kind, last string) int {
	if len(groups) == 0 {
		return 0
	}
	best := 1 << 30
	permute(groups[0], func(order []kind) {
		cost, mounted := 0, last
		for _, kind := range order {
			cost += one(mounted != "" && kind.wireType != mounted)
			mounted = kind.wireType
		}
		best = min(best, cost+cheapestByTrial(groups[1:], mounted))
	})
	return best
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

func TestReelChangesWorkedByHand(t *testing.T) {
	for _, row := range csvRows(t, "reelchanges.csv") {
		want, err := strconv.Atoi(row["changes"])
		require.NoError(t, err)
		groups := kindGroups(row["groups"])
		require.Equal(t, want, fewestReelChanges(groups), row["groups"])
		require.Equal(t, want, reelChanges(arranged(groups)), row["groups"])
	}
	require.Zero(t, fewestReelChanges(nil))
}

func drawGroups(t *rapid.T, groups, types int) [][]kind {
	drawn := make([][]kind, rapid.IntRange(1, groups).Draw(t, "groups"))
	for i := range drawn {
		letters := rapid.SliceOfNDistinct(rapid.IntRange(0, types-1), 1, 4, rapid.ID).Draw(t, "types")
		for _, letter := range letters {
			method := methodOrder[rapid.IntRange(0, len(methodOrder)-1).Draw(t, "method")]
			drawn[i] = append(drawn[i], kind{string(rune('a' + letter)), string(method)})
		}
	}
	return drawn
}

func TestArrangementIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		groups := drawGroups(t, 3, 5)
		order := arranged(groups)
		for i := range groups {
			require.ElementsMatch(t, groups[i], order[i])
		}
		want := cheapestByTrial(groups, "")
		require.Equal(t, want, reelChanges(order))
		require.Equal(t, want, fewestReelChanges(groups))
	})
}

func TestArrangementEqualsTheBoundOnLongRuns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		groups := drawGroups(t, 60, 8)
		require.Equal(t, fewestReelChanges(groups), reelChanges(arranged(groups)))
	})
}

func TestTiesGoByMethodThenId(t *testing.T) {
	wires := []Wire{
		{ID: "W3", Type: "B10", Method: "laser"}, {ID: "W1", Type: "A1", Method: "ink", Ink: "black"},
		{ID: "W2", Type: "B9", Method: "laser"}, {ID: "W4", Type: "C1", Method: "sleeve"}, {ID: "W5", Type: "D1", Method: "test first"},
	}
	ordered := runOrder([]ownWires{{connector: "J1", wires: wires}})
	require.Equal(t, []string{"W2", "W3", "W1", "W5", "W4"}, wireIDs(ordered[0].wires))
}

func TestMethodsChangeLittleWhereReelsLeaveAChoice(t *testing.T) {
	laser, ink := "laser", "ink"
	order := arranged([][]kind{
		{{"A", laser}, {"B", laser}, {"C", ink}}, {{"D", laser}, {"E", ink}, {"F", ink}}, {{"E", ink}, {"A", laser}, {"S", "sleeve"}, {"C", ink}, {"D", laser}},
	})
	require.Equal(t, [][]kind{
		{{"A", laser}, {"C", ink}, {"B", laser}}, {{"D", laser}, {"F", ink}, {"E", ink}}, {{"E", ink}, {"C", ink}, {"S", "sleeve"}, {"A", laser}, {"D", laser}},
	}, order, "B ends the first group since the next starts with the laser; C follows E since both are inked")
}

func wireIDs(wires []Wire) []string {
	var ids []string
	for _, wire := range wires {
		ids = append(ids, wire.ID)
	}
	return ids
}

func TestOneSettingStaysTogetherWithinAType(t *testing.T) {
	small, large := int64(1000), int64(1300)
	groups := runOrder([]ownWires{
		{connector: "J1", wires: []Wire{
			{ID: "W10", Type: "T", Method: "laser", HeightUM: small}, {ID: "W9", Type: "T", Method: "laser", HeightUM: large},
			{ID: "W2", Type: "T", Method: "laser", HeightUM: small}, {ID: "W1", Type: "T", Method: "sleeve"},
		}},
		{connector: "J2", wires: []Wire{
			{ID: "W20", Type: "T", Method: "laser", HeightUM: small}, {ID: "W21", Type: "T", Method: "sleeve"},
		}},
	})
	require.Equal(t, []string{"W9", "W2", "W10", "W1"}, wireIDs(groups[0].wires))
	require.Equal(t, []string{"W21", "W20"}, wireIDs(groups[1].wires), "the sleeved wire runs on without a change")
	require.Equal(t, Changes{Method: 2, Height: 1}, countChanges(groups))
}

func TestChangesAreCountedOverSeams(t *testing.T) {
	groups := []ownWires{
		{wires: []Wire{{Type: "A", Method: "ink", Ink: "black", HeightUM: 1}, {Type: "B", Method: "laser", HeightUM: 2}}},
		{wires: []Wire{{Type: "B", Method: "none"}, {Type: "A", Method: "ink", Ink: "white", HeightUM: 2}}},
	}
	require.Equal(t, Changes{Reel: 2, Method: 3, Ink: 1, Height: 1}, countChanges(groups))
}
