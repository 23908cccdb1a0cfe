package plan

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// sum adds up a row as a person does.
func (r LengthRow) sum() int64 {
	return r.BaseUM + r.TailsUM + r.EndAUM + r.EndBUM + r.LoopUM + r.TwistUM + r.LineUM + r.RoundingUM
}

// TestLengthRowsAddUp works lengths out of anything that a job may say: the row makes the cut length exactly, no figure is a tenth
// of a millimetre or more off its term, and a whole number of tenths stands as it is.
func TestLengthRowsAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := func(name string, least, most int) units.Length {
			return units.Length(rapid.IntRange(least, most).Draw(t, name))
		}
		end := func(name string) endNeed {
			return endNeed{tail: length(name+" tail", 0, 200_000), toBarrel: length(name+" barrel", -30_000, 30_000), strip: length(name+" strip", 0, 15_000),
				retermination: length(name+" anew", 0, 40_000), trim: length(name+" trim", 0, 30_000), extra: length(name+" extra", 0, 30_000)}
		}
		h := &harness.Harness{Line: harness.Line{Step: length("step", 1, 30_000), ShortFixed: length("fixed", 0, 3000), ShortShare: units.Share(rapid.IntRange(0, 10_000).Draw(t, "share"))}}
		m := &measurer{h: h}
		s := stretch{way: boardWay{boardPath: boardPath{length: length("route", 100_000, 9_000_000)}}, onBoard: true, a: end("a"), b: end("b"), loop: length("loop", 0, 50_000)}
		terms := m.finished(s)
		finished := terms.total
		m.finish(&terms, s)
		var row LengthRow
		row.addUp(terms.terms, bothUM(s.ends()), int64(terms.total))
		require.Equal(t, int64(terms.total), row.sum())
		require.Equal(t, int64(terms.total), row.CutUM)
		require.Equal(t, tenth(int64(finished)), row.BaseUM+row.TailsUM, "the finished length is the sum of route and tails")
		for _, pair := range [][2]int64{{int64(s.way.length), row.BaseUM}, {int64(s.a.tail + s.b.tail), row.TailsUM}, {int64(s.ends()[0]), row.EndAUM},
			{int64(s.ends()[1]), row.EndBUM}, {int64(s.loop), row.LoopUM}} {
			off := pair[1] - pair[0]
			require.Less(t, max(off, -off), int64(100))
			if pair[0]%100 == 0 {
				require.Zero(t, off)
			}
		}
	})
}

// TestLengthRowsHoldEverythingOnce looks at a job with cables, pigtails and what the line does not cut.
func TestLengthRowsHoldEverythingOnce(t *testing.T) {
	wires := []Wire{
		{ID: "W10", Supply: "reel", Status: "board", CutUM: 1000_000, Terms: []Term{{Name: "route", UM: 999_940}, {Name: "rounding", UM: 60}}},
		{ID: "W9", Supply: "bought", Status: "given"}, {ID: "S1", Cable: "C1", From: "J1:1", A: End{TrimUM: 20_000}}, {ID: "C1-PA", Supply: "reel", Status: "measure"},
	}
	cables := []Cable{{ID: "C1", Supply: "reel", Status: "given", Cores: []string{"S1"}, CutUM: 3500_000, Terms: []Term{{Name: "given", UM: 3500_000}}, A: CableEnd{Pigtail: "C1-PA"}}}
	rows := lengthRows(wires, cables)
	var words [][3]string
	for _, row := range rows {
		words = append(words, [3]string{row.Kind, row.ID, row.Apart})
		require.Equal(t, row.CutUM, row.sum(), row.ID)
	}
	require.Equal(t, [][3]string{{"cable", "C1", ""}, {"core", "S1", ""}, {"pigtail", "C1-PA", "measure"}, {"wire", "W9", "bought"}, {"wire", "W10", ""}}, words)
	require.Equal(t, [2]int64{20_000, 0}, rows[1].TrimUM)
	require.Equal(t, [2]int64{999_900, 100}, [2]int64{rows[4].BaseUM, rows[4].RoundingUM})
}
