package main

import (
	"bytes"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/internal/sheet"
)

func readmeText(t *testing.T) string {
	t.Helper()
	text, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	return string(text)
}

// indented returns the blocks of lines that are indented by four blanks: the commands and outputs that the README shows.
func indented(text string) []string {
	var blocks []string
	inside := false
	for _, line := range strings.Split(text, "\n") {
		code, is := strings.CutPrefix(line, "    ")
		switch {
		case is && inside:
			blocks[len(blocks)-1] += code + "\n"
		case is:
			blocks = append(blocks, code+"\n")
		}
		inside = is
	}
	return blocks
}

func TestReadmeOpensWithTheTwoCommands(t *testing.T) {
	readme := readmeText(t)
	require.LessOrEqual(t, strings.Count(readme, "\n"), 150)
	blocks := indented(readme)
	require.Equal(t, "go run ./cmd/loomleaf packet testdata/jobs/sled/job.toml -o out\n", blocks[0])
	require.Equal(t, "go test ./...\n", blocks[1])
	ci, err := os.ReadFile("../../.ci/run")
	require.NoError(t, err)
	for _, command := range blocks[:2] {
		require.Contains(t, string(ci), command)
	}
}

func TestReadmeNamesEveryCommandSheetAndExitCode(t *testing.T) {
	readme := readmeText(t)
	var help bytes.Buffer
	require.Equal(t, exitDone, run([]string{"--help"}, streams{in: strings.NewReader(""), out: &help, err: &help}))
	_, commands, found := strings.Cut(help.String(), "Commands:\n")
	require.True(t, found)
	commands, _, _ = strings.Cut(commands, "\n\n")
	for _, line := range strings.Split(strings.TrimRight(commands, "\n"), "\n") {
		if name := strings.Fields(line)[0]; strings.HasPrefix(line, "  "+name) {
			require.Contains(t, readme, "| `loomleaf "+name, "the README does not name %s", name)
		}
	}
	require.Contains(t, strings.Join(strings.Fields(readme), " "), strings.Join(sheet.Names(), ", "))
	for _, m := range exitMeanings() {
		require.Contains(t, readme, fmt.Sprintf("| %d | %s |", m.code, m.meaning))
	}
}

func TestReadmeShowsTheMessageAsItIs(t *testing.T) {
	faults := strings.NewReplacer(`to   = "P2:A"`, `to   = "P2:Z"`, `colour     = "BK"`, `colour     = "BLK"`)
	text := faults.Replace(string(jobText(t, "sled-small")))
	var said bytes.Buffer
	require.Equal(t, exitProblems, run([]string{"check", "-"}, streams{in: strings.NewReader(text), out: &said, err: &said}))
	require.Contains(t, indented(readmeText(t)), strings.ReplaceAll(said.String(), "standard input", "job.toml"))
}
