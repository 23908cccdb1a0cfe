package handbook

import (
	"encoding/csv"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/units"
)

// vectors returns the rows of a file of published figures by column name. Every row must name its source.
func vectors(t *testing.T, name string) []map[string]string {
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

// length reads a figure of a column.
func length(t *testing.T, figure, unit string) units.Length {
	t.Helper()
	value, err := units.ParseLength(figure + " " + unit)
	require.NoError(t, err)
	return value
}
