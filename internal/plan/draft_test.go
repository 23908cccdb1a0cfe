package plan

import (
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

func TestADraftHoldsNoCode(t *testing.T) {
	h := everyConstruct()
	whole := made(t, h)
	require.NotEmpty(t, whole.CodeRows()[1].Code)
	h.Draft = true
	draft := made(t, h)
	text, err := draft.JSON()
	require.NoError(t, err)
	require.NotRegexp(t, `"[CPTHKRXG][0-9]{22}"`, string(text))
	require.Len(t, draft.Connectors[0].Codes, len(whole.Connectors[0].Codes), "one place a unit stays")
	require.NotEmpty(t, whole.Connectors[0].Cavities[0].Codes[0].String(), "the plan itself keeps its codes")
}

func TestTwistsSayWhatTheyAreLaidWith(t *testing.T) {
	h := &harness.Harness{Paper: harness.Paper{Words: inEnglish()}, Twists: []harness.Twist{
		{ID: "T1", Wires: []string{"W2", "W10", "W1"}, Lay: 25 * units.Millimetre,
			Untwist: [2]units.Length{40 * units.Millimetre, 40 * units.Millimetre}},
		{ID: "T2", Wires: []string{"W3", "W4"}, Lay: 30 * units.Millimetre, Untwist: [2]units.Length{40 * units.Millimetre, 0}},
		{ID: "T3", Wires: []string{"W5", "W6"}, Lay: 30 * units.Millimetre}}}
	laid := laidByWire(h)
	require.Equal(t, "twist T1 with W1 and W2, lay 25 mm, 40 mm straight at both ends", laid["W10"])
	require.Equal(t, "twist T2 with W4, lay 30 mm, 40 mm straight at END A, 0 mm at END B", laid["W3"])
	require.Equal(t, "twist T3 with W5, lay 30 mm", laid["W6"])
}

// A cavity whose only wire stays loose is not filled in this job, nor counted as wired.
func TestACavityOfALooseEndIsNotWired(t *testing.T) {
	p := made(t, everyConstruct())
	for _, c := range p.Connectors {
		for _, cavity := range c.Cavities {
			if len(cavity.Lines) == 1 && cavity.Lines[0].Loose != "" {
				require.Equal(t, []any{FillLoose, "not landed: leave loose"}, []any{cavity.Fill, cavity.Words})
				require.Equal(t, 1, c.Counts.Loose)
				return
			}
		}
	}
	require.Fail(t, "no loose end")
}

func TestCoaxEndsSayEveryStep(t *testing.T) {
	h := threeConnectors()
	h.Contacts[0].Kind = "coax"
	h.Contacts[0].Steps = []harness.StripStep{{Layer: "jacket", Length: h.Contacts[0].Strip}, {Layer: "braid", Length: 2 * units.Millimetre}}
	steps := 0
	for _, w := range made(t, h).Wires {
		for _, end := range []End{w.A, w.B} {
			if end.Contact == h.Contacts[0].ID && end.Stage == "bench" {
				require.Equal(t, []StripStep{{"jacket", end.StripUM}, {"braid", 2000}}, end.Steps)
				steps++
			} else if end.Stage == "board" {
				require.Empty(t, end.Steps)
			}
		}
	}
	require.Positive(t, steps)
}
