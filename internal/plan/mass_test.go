package plan

import (
	"encoding/csv"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/handbook"
	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// Masses worked out by hand from published figures, and masses of finished wires that estimates must come near to.
func TestMassAgreesWithPublishedFigures(t *testing.T) {
	file, err := os.Open("../../testdata/vectors/mass.csv")
	require.NoError(t, err)
	defer file.Close()
	reader := csv.NewReader(file)
	reader.Comment = '#'
	rows, err := reader.ReadAll()
	require.NoError(t, err)
	require.Equal(t, []string{"awg", "diameter", "insulation", "mass", "metres", "want_mg", "estimated", "source"}, rows[0])
	for _, row := range rows[1:] {
		wireType := harness.WireType{ID: "T", AWG: row[0], Insulation: row[2]}
		wireType.Diameter, err = units.ParseLength(row[1])
		require.NoError(t, err)
		if row[3] != "" {
			wireType.Mass, err = units.ParseLinearMass(row[3])
			require.NoError(t, err)
		}
		cut, err := units.ParseLength(row[4] + " m")
		require.NoError(t, err)
		wires := []Wire{{ID: "W1", Type: "T", CutUM: int64(cut)}}
		weigh([]WireType{typeRow(&wireType, english())}, wires, nil)
		want, err := units.ParseMass(row[5] + " mg")
		require.NoError(t, err)
		require.Equal(t, int64(want), wires[0].MassMG, row)
		require.Equal(t, row[6] == "yes", wires[0].MassEstimated, row)
	}
}

// The published masses are the largest of tin-plated stranded wire; the estimate takes the solid conductor.
func TestEstimatesComeNearToFinishedWire(t *testing.T) {
	for _, awg := range []string{"24", "22", "20", "18", "16", "14", "12", "10"} {
		wire, listed := handbook.HookUpWireOf("M22759/16", awg)
		require.True(t, listed)
		got := linearMassOf(&harness.WireType{AWG: awg, Diameter: wire.NominalDiameter, Insulation: "ETFE"})
		require.True(t, got.estimated)
		share := float64(got.per) / float64(wire.Mass)
		require.Greater(t, share, 0.8, awg)
		require.Less(t, share, 1.1, awg)
	}
}

func TestMassThatNobodyKnowsIsNotGuessed(t *testing.T) {
	for _, unknown := range []harness.WireType{
		{AWG: "22", Diameter: 1270}, {AWG: "22", Diameter: 1270, Insulation: "felt"}, {Diameter: 1270, Insulation: "ETFE"},
		{AWG: "10", Diameter: 1270, Insulation: "ETFE"}, // the conductor fills more than the wire
	} {
		require.Zero(t, linearMassOf(&unknown))
	}
	wires := []Wire{{ID: "W1", MassMG: 100}, {ID: "W2"}, {ID: "W3", MassMG: 50, MassEstimated: true}, {ID: "W4", Cable: "C1"}}
	require.Equal(t, Mass{MG: 450, Estimated: true, Without: []string{"W2"}},
		massOfHarness(wires, []Cable{{ID: "C1", MassMG: 300}}))
}

func TestMassAndToleranceInThePlan(t *testing.T) {
	h := twoEnds()
	h.Stocks = []harness.LabelStock{{ID: "a4-2x5", Paper: "a4", Columns: 2, Rows: 5}}
	h.Paper = harness.Paper{Size: "a4", Symbol: "matrix", Languages: []string{"en"}, Words: inEnglish()}
	h.WireTypes[0].Insulation = "etfe"
	p, problems := Make(h, nil)
	require.Zero(t, problems.Errors())
	w := p.Wires[0]
	require.Equal(t, (w.CutUM*p.Types[0].MassMGPerM+500_000)/1_000_000, w.MassMG)
	require.True(t, w.MassEstimated)
	require.Equal(t, Mass{MG: w.MassMG, Estimated: true, Without: []string{}}, p.Mass)
	require.Equal(t, p.Mass, p.Trays[0].Mass)
	require.Equal(t, &Tolerance{LongerUM: 50_000}, w.Tolerance)
	require.Contains(t, p.Tolerance, "draft")
	h.Job.Tolerance = &harness.Tolerance{Longer: 10 * mm, Shorter: 5 * mm}
	p, _ = Make(h, nil)
	require.Equal(t, &Tolerance{LongerUM: 10_000, ShorterUM: 5000}, p.Wires[0].Tolerance)
	require.Equal(t, "as the job gives it", p.Tolerance)
}

func TestSumSaysWhereEachTermComesFrom(t *testing.T) {
	h := twoEnds()
	h.Stocks = []harness.LabelStock{{ID: "a4-2x5", Paper: "a4", Columns: 2, Rows: 5}}
	h.Paper = harness.Paper{Size: "a4", Symbol: "matrix", Languages: []string{"en"}, Words: inEnglish()}
	h.Connectors[0].Tail, h.Connectors[1].ToBarrel = 120*mm, -2*mm
	h.Allowance = harness.Allowance{TrimBack: 3 * mm, Loop: 50 * mm}
	h.Wires[0].A.Retermination = 2
	p, problems := Make(h, nil)
	require.Zero(t, problems.Errors())
	sum, found := SumOf(h, p, "W101")
	require.True(t, found)
	total := int64(0)
	for _, row := range sum.Rows {
		require.NotEmpty(t, row.From, row.Name)
		total += row.UM
	}
	require.Equal(t, sum.CutUM, total)
	require.Equal(t, SumRow{"tail a", 120_000, "connector J1, from node N1 to its reference plane"}, sum.Rows[1])
	require.Contains(t, sum.Rows, SumRow{"retermination", 14_000, "end a 2 x (4 mm strip + 3 mm trim back), end b none"})
	_, found = SumOf(h, p, "W102")
	require.False(t, found)
}
