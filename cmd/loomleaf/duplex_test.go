package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/fonts"
	"loomleaf/internal/page"
)

// TestTwoSidedPaper prints the demo jobs on both sides: every section starts on a front, backs are bound on the right, blank backs are
// counted and listed, and what stands on a page is what stands on it on one side.
func TestTwoSidedPaper(t *testing.T) {
	t.Parallel()
	skipUnderRace(t)
	metrics, err := page.LoadMetrics(fonts.Files)
	require.NoError(t, err)
	for _, name := range []string{"sled-small", "sled", "torture", "relay-cable"} {
		one := made(t, name, jobText(t, name))
		two := made(t, name, []byte(strings.Replace(string(inGerman(jobText(t, name))), `language = ["de", "en"]`, `sides = "two"`, 1)))
		document := two.packet.Pages
		require.True(t, document.TwoSided)
		require.NotEqual(t, one.plan.Packet.Content, two.plan.Packet.Content)
		require.Zero(t, len(document.Pages)%2)
		bound, blank, hashes := page.MM(20_000), 0, map[string]bool{}
		for i, pg := range document.Pages {
			require.Equal(t, i%2, (pg.Number+1)%2, "%s stands on the wrong side", pg.Name)
			hashes[pg.Hash] = true
			for _, item := range pg.Items() {
				extent := page.Extent(item, metrics)
				if _, text := item.(page.Text); text && i%2 == 0 {
					require.GreaterOrEqual(t, extent.X, bound, pg.Name)
				} else if text {
					require.LessOrEqual(t, extent.X+extent.W, document.Width-bound, pg.Name)
				}
			}
			said := placed(pg.Frame, "continues on back") != nil
			if i%2 == 0 {
				next := document.Pages[i+1]
				empty := placed(next.Body, "this side is intentionally blank") != nil
				require.Equal(t, !empty, said, pg.Name)
				blank += map[bool]int{true: 1}[empty]
			} else {
				require.False(t, said, pg.Name)
			}
		}
		require.Positive(t, blank)
		for _, pg := range one.packet.Pages.Pages {
			if pg.Sheet != "contents" && pg.Sheet != "cover" { // the cover counts pages
				require.True(t, hashes[pg.Hash], "%s is another page on two sides", pg.Name)
			}
		}
		r := &rules{metrics: metrics, plan: two.plan, packet: two.packet}
		r.listed()
		r.everyThingOnce()
		require.Empty(t, r.found, name)
	}
}
