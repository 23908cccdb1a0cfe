package plan

import (
	"bytes"
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/harness"
)

// TestTheIdentityIsThatOfThePublishedForm compares what is hashed row by row with the form as a whole.
func TestTheIdentityIsThatOfThePublishedForm(t *testing.T) {
	for _, h := range []*harness.Harness{threeConnectors(), surveyHarness(), everyConstruct()} {
		p, _ := Make(h, nil)
		for _, p := range []Plan{p, {}} {
			want, err := json.Marshal(p)
			require.NoError(t, err)
			var got bytes.Buffer
			require.NoError(t, compact(&got, &p))
			require.Equal(t, string(want), got.String())
		}
	}
}
