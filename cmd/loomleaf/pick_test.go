package main

import (
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/sheet"
)

// TestEverySheetCanBePicked: --only knows every sheet that a packet may hold, and picks its pages alone.
func TestEverySheetCanBePicked(t *testing.T) {
	for _, job := range []string{"sled", "torture"} {
		packet, seen := made(t, job, jobText(t, job)).packet, map[string]bool{}
		for _, whole := range packet.Pages.Pages {
			if seen[whole.Sheet] {
				continue
			}
			seen[whole.Sheet] = true
			picked, problems := sheet.Pick(packet, []string{whole.Sheet})
			require.Empty(t, problems, whole.Sheet)
			require.Empty(t, picked.Labels.Pages)
			for _, p := range picked.Pages.Pages {
				require.Equal(t, whole.Sheet, p.Sheet)
			}
		}
	}
}
