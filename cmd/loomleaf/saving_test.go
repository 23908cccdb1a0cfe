package main

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestTheReadmeStatesTheSavingOfTheSled holds the figures of the README to the plan.
func TestTheReadmeStatesTheSavingOfTheSled(t *testing.T) {
	t.Parallel()
	c := made(t, "sled", jobText(t, "sled")).plan.Changes
	require.Equal(t, []int{54, 54, 167}, []int{c.Reel, c.Bound, c.Numbered.Reel})
	require.Equal(t, int64(50), (c.Numbered.CostMS-c.CostMS)/60_000)
	require.True(t, c.Proved)
	text, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	require.Contains(t, strings.Join(strings.Fields(string(text)), " "), "54 reel changes in place of 167 and 50 minutes of stops less")
}
