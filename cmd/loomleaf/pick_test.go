package main

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/page"
	"loomleaf/internal/sheet"
)

// TestEverySheetCanBePicked: --only knows every sheet that a packet may hold, and picks its pages alone.
func TestEverySheetCanBePicked(t *testing.T) {
	t.Parallel()
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

// TestReadmeAndLeaveOutKnowEverySheet leaves every sheet out that a shop may do without; the others stay, and are numbered and listed alone.
func TestReadmeAndLeaveOutKnowEverySheet(t *testing.T) {
	kept := []string{"cover", "contents", "safety", "cutlist", "pins"}
	without := slices.DeleteFunc(slices.Clone(sheet.Names()), func(name string) bool { return slices.Contains(kept, name) })
	text := strings.Replace(string(inGerman(jobText(t, "sled-small"))), "[paper]\n", "[paper]\nleave_out = [\""+strings.Join(without, `", "`)+"\"]\n", 1)
	d := made(t, "sled-small", []byte(text))
	var printed []string
	for _, p := range d.packet.Pages.Pages {
		printed = append(printed, p.Sheet)
	}
	require.Equal(t, kept, slices.Compact(printed))
	require.Empty(t, d.packet.Labels.Pages)
	for _, p := range made(t, "sled-small", jobText(t, "sled-small")).packet.Pages.Pages {
		if p.Sheet == "pins" || p.Sheet == "cutlist" {
			require.True(t, slices.ContainsFunc(d.packet.Pages.Pages, func(q page.Page) bool { return q.Name == p.Name }), p.Name)
		}
	}
}
