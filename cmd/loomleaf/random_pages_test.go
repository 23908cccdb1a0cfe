package main

import (
	"flag"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"loomleaf/fonts"
	"loomleaf/internal/job"
	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
	"loomleaf/internal/sheet"
	"loomleaf/templates"
)

// TestRandomJobsKeepTheRulesOfPaper reads, plans and lays random jobs, and holds every page of them to the rules of paper.
func TestRandomJobsKeepTheRulesOfPaper(t *testing.T) {
	t.Parallel()
	skipUnderRace(t)
	metrics, err := page.LoadMetrics(fonts.Files)
	require.NoError(t, err)
	if seed := flag.Lookup("rapid.seed"); seed.Value.String() == "0" { // the same jobs at every run; -rapid.seed draws others
		require.NoError(t, seed.Value.Set("412"))
		t.Cleanup(func() { require.NoError(t, seed.Value.Set("0")) })
	}
	for part := range 3 { // of a hundred jobs each, side by side
		t.Run(fmt.Sprint(part), func(t *testing.T) {
			t.Parallel()
			rapid.Check(t, func(t *rapid.T) {
				for range part {
					rapid.Uint64().Draw(t, "another job")
				}
				keepsTheRules(t, metrics)
			})
		})
	}
}

func keepsTheRules(t *rapid.T, metrics page.Metrics) {
	text := randomJobText(t)
	h, found, _ := job.Read(job.Input{Name: "job.toml", Text: []byte(text)}, templates.Files)
	requireNone(t, found, text)
	h.Draft = rapid.IntRange(1, 12).Draw(t, "draft") == 1
	p, found := plan.Make(h, found)
	requireNone(t, found, text)
	packet, found := sheet.Lay(p, metrics)
	requireNone(t, append(found, faults(packet, metrics)...), text)
	broken := brokenRules(p, packet, metrics)
	if d := (demo{harness: h, plan: p, packet: packet}); p.Paper.Words[0].Language == "en" && !h.Draft {
		broken = append(broken, d.reconcile(paperOf(packet.Pages, metrics), paperOf(packet.Labels, metrics))...)
	}
	if len(broken) > 0 {
		t.Fatalf("%s\n%s", strings.Join(broken, "\n"), text)
	}
}

func requireNone(t *rapid.T, found problem.List, text string) {
	for _, p := range found {
		if p.Severity == problem.Error {
			t.Fatalf("%s: %s; %s\n%s", p.Check, p.Text, p.Hint, text)
		}
	}
}
