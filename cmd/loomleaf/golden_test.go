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

// golden is one expected text of a job: a file in the job's folder, and how to make it anew.
type golden struct {
	job, file string
	text      func(*testing.T, demo) string
}

func (g golden) path() string { return g.job + "/" + g.file }

// largestGolden is what a person may still be expected to look through by its differences, in bytes.
const largestGolden = 1_000_000

// goldens lists every expected text. Of the large job's pages only the hashes stand there.
func goldens() []golden {
	return []golden{
		{"sled-small", "pages.txt", pagesText}, {"sled-small", "plan.json", planText},
		{"sled-small", "safety.txt", func(t *testing.T, _ demo) string { return safetyTexts(t) }},
		{"starter", "pages.txt", pagesText}, {"starter", "plan.json", planText},
		{"relay-cable", "pages.sha256", pageHashes},
		{"substitute", "pages.sha256", pageHashes},
		{"torture", "pages.sha256", pageHashes},
		{"sled", "pages.sha256", pageHashes}, // its plan is a megabyte: nobody reads such a difference
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
func pageHashes(_ *testing.T, d demo) string {
	var text strings.Builder
	for _, document := range []page.Document{d.packet.Pages, d.packet.Labels} {
		for _, p := range document.Pages {
			fmt.Fprintf(&text, "%s  %s\n", p.Hash, p.Name)
		}
	}
	return text.String()
}

// goldenJob makes a demo job, or the job that a new planner starts from.
func goldenJob(t *testing.T, name string) demo {
	t.Helper()
	if name != "starter" {
		return made(t, name, jobText(t, name))
	}
	text, err := templates.Files.ReadFile("starter.toml")
	require.NoError(t, err)
	return made(t, name, text)
}

// TestGoldens compares plans and pages with the expected texts; -update rewrites them.
func TestGoldens(t *testing.T) {
	jobs := map[string]demo{}
	for _, g := range goldens() {
		if _, is := jobs[g.job]; !is {
			jobs[g.job] = goldenJob(t, g.job)
		}
		now := g.text(t, jobs[g.job])
		require.Less(t, len(now), largestGolden, "%s is too large to be looked through: compare something shorter", g.path())
		name := filepath.Join(jobFolder, g.job, g.file)
		if *update {
			require.NoError(t, os.MkdirAll(filepath.Dir(name), 0o755))
			require.NoError(t, os.WriteFile(name, []byte(now), 0o644))
		}
		expected, err := os.ReadFile(name)
		require.NoError(t, err, "a missing expected text: run with -update and read the difference")
		if was := strings.ReplaceAll(string(expected), "\r\n", "\n"); was != now {
			t.Errorf("%s differs; run with -update and read the difference\n%s", g.path(), firstDifferences(was, now))
		}
	}
}

// fewLines is how many lines of each text a difference shows.
const fewLines = 6

// firstDifferences shows the lines of two texts from where they part.
func firstDifferences(was, now string) string {
	before, after := strings.SplitAfter(was, "\n"), strings.SplitAfter(now, "\n")
	at := 0
	for at < min(len(before), len(after)) && before[at] == after[at] {
		at++
	}
	var shown strings.Builder
	fmt.Fprintf(&shown, "%d and %d lines, from line %d on:\n", len(before), len(after), at+1)
	for _, side := range []struct {
		sign  string
		lines []string
	}{{"-", before[at:]}, {"+", after[at:]}} {
		for _, line := range side.lines[:min(len(side.lines), fewLines)] {
			fmt.Fprintf(&shown, "%s %s\n", side.sign, strings.TrimSuffix(line, "\n"))
		}
	}
	return shown.String()
}

func TestDifferencesAreFewLines(t *testing.T) {
	same, long := "one\ntwo\n", strings.Repeat("more\n", 100)
	require.Equal(t, "3 and 4 lines, from line 3 on:\n- \n+ three\n+ \n", firstDifferences(same, same+"three\n"))
	require.Equal(t, "3 and 103 lines, from line 1 on:\n- one\n- two\n- \n"+strings.Repeat("+ more\n", 2)+"+ one\n+ two\n+ more\n+ more\n",
		firstDifferences(same, "more\nmore\n"+same+long[:len(long)-10]))
}

// TestNoGoldenIsAnOrphan finds expected texts that no test compares.
func TestNoGoldenIsAnOrphan(t *testing.T) {
	var compared []string
	for _, g := range goldens() {
		compared = append(compared, g.path())
	}
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
	require.Equal(t, []string{"relay-cable", "sled", "sled-small", "substitute", "torture"}, names)
}
