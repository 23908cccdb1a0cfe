package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/page"
	"loomleaf/templates"
)

// goldens returns every expected text of the demo jobs, by its path under the jobs' folder.
func goldens(t *testing.T) map[string]string {
	t.Helper()
	starter, err := templates.Files.ReadFile("starter.toml")
	require.NoError(t, err)
	small, large := made(t, "sled-small", jobText(t, "sled-small")), made(t, "sled", jobText(t, "sled"))
	first := made(t, "starter", starter)
	return map[string]string{
		"sled-small/pages.txt": pagesText(t, small), "sled-small/plan.json": planText(t, small),
		"sled-small/safety.txt": safetyTexts(t),
		"starter/pages.txt":     pagesText(t, first), "starter/plan.json": planText(t, first),
		"sled/pages.sha256": pageHashes(large),
	}
}

// pagesText is the text dump of packet and labels.
func pagesText(t *testing.T, d demo) string {
	t.Helper()
	var text bytes.Buffer
	require.NoError(t, page.Dump(&text, d.packet.Pages))
	require.NoError(t, page.Dump(&text, d.packet.Labels))
	return text.String()
}

// planText is the published form of the plan.
func planText(t *testing.T, d demo) string {
	t.Helper()
	text, err := d.plan.JSON()
	require.NoError(t, err)
	return string(text)
}

// pageHashes lists the content hash of every page: the dump of a whole job would drown the difference.
func pageHashes(d demo) string {
	var text strings.Builder
	for _, document := range []page.Document{d.packet.Pages, d.packet.Labels} {
		for _, p := range document.Pages {
			fmt.Fprintf(&text, "%s  %s\n", p.Hash, p.Name)
		}
	}
	return text.String()
}

// TestGoldens compares plans and pages with the expected texts; -update rewrites them.
func TestGoldens(t *testing.T) {
	for path, now := range goldens(t) {
		name := filepath.Join(jobFolder, filepath.FromSlash(path))
		if *update {
			require.NoError(t, os.MkdirAll(filepath.Dir(name), 0o755))
			require.NoError(t, os.WriteFile(name, []byte(now), 0o644))
		}
		expected, err := os.ReadFile(name)
		require.NoError(t, err, "a missing expected text: run with -update and read the difference")
		if was := strings.ReplaceAll(string(expected), "\r\n", "\n"); was != now {
			t.Errorf("%s differs; run with -update and read the difference\n%s", path, firstDifference(was, now))
		}
	}
}

// firstDifference shows the first lines in which two texts differ.
func firstDifference(was, now string) string {
	before, after := strings.Split(was, "\n"), strings.Split(now, "\n")
	for i := range min(len(before), len(after)) {
		if before[i] != after[i] {
			return fmt.Sprintf("line %d\n- %s\n+ %s", i+1, before[i], after[i])
		}
	}
	return fmt.Sprintf("%d lines became %d", len(before), len(after))
}

// TestNoGoldenIsAnOrphan finds expected texts that no test compares.
func TestNoGoldenIsAnOrphan(t *testing.T) {
	compared := goldens(t)
	for _, pattern := range []string{"*/*.txt", "*/*.json", "*/*.sha256"} {
		found, err := filepath.Glob(filepath.Join(jobFolder, pattern))
		require.NoError(t, err)
		require.NotEmpty(t, found, pattern)
		for _, name := range found {
			path, err := filepath.Rel(jobFolder, name)
			require.NoError(t, err)
			require.Contains(t, compared, filepath.ToSlash(path), "no test compares this text")
		}
	}
}

// TestEveryDemoJobIsReadBack keeps a new demo job from standing unread.
func TestEveryDemoJobIsReadBack(t *testing.T) {
	jobs, err := filepath.Glob(filepath.Join(jobFolder, "*", "job.toml"))
	require.NoError(t, err)
	var names []string
	for _, job := range jobs {
		names = append(names, filepath.Base(filepath.Dir(job)))
	}
	slices.Sort(names)
	require.Equal(t, []string{"sled", "sled-small"}, names)
}
