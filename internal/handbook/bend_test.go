package handbook

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestBendRadiusAsPublished(t *testing.T) {
	kinds := map[string]BendKind{"wire": BendWire, "polyimide": BendPolyimide, "coax": BendCoax}
	rows := vectors(t, "bend.csv")
	for _, row := range rows {
		times, source, listed := BendRadius(row["rule"], kinds[row["kind"]])
		require.True(t, listed, row)
		require.Equal(t, row["times"], strconv.Itoa(times), row)
		require.NotEmpty(t, source.Document)
	}
	require.Len(t, rows, len(bendTable()))
}

func TestBendRadiusIsNotGuessed(t *testing.T) {
	for _, unknown := range []struct {
		rule string
		kind BendKind
	}{{"AS50881", BendWire}, {"TM 1-1500-204-23-4", BendCoax}, {"", BendWire}} {
		_, _, listed := BendRadius(unknown.rule, unknown.kind)
		require.False(t, listed, unknown)
	}
	require.Equal(t, []string{"AS50881", "ASTM F2639", "NASA-STD-8739.4"}, BendRules(BendCoax))
	require.Equal(t, []string{"TM 1-1500-204-23-4", "NASA-STD-8739.4"}, BendRules(BendWire))
}
