package main

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestColourIsForTerminalsThatWantIt(t *testing.T) {
	for _, c := range []struct {
		system      string
		environment map[string]string
		want        bool
	}{
		{"linux", map[string]string{"TERM": "xterm"}, true},
		{"linux", map[string]string{}, true},
		{"linux", map[string]string{"TERM": "dumb"}, false},
		{"linux", map[string]string{"TERM": "xterm", "NO_COLOR": "1"}, false},
		{"linux", map[string]string{"TERM": "xterm", "NO_COLOR": ""}, false},
		{"darwin", map[string]string{"TERM": "xterm-256color"}, true},
		{"windows", map[string]string{}, false},
		{"windows", map[string]string{"WT_SESSION": "1"}, true},
		{"windows", map[string]string{"TERM": "xterm"}, true},
		{"windows", map[string]string{"WT_SESSION": "1", "NO_COLOR": "1"}, false},
		{"windows", map[string]string{"WT_SESSION": "1", "TERM": "dumb"}, false},
	} {
		lookup := func(name string) (string, bool) {
			value, set := c.environment[name]
			return value, set
		}
		require.Equal(t, c.want, colourWanted(c.system, lookup), "%v", c)
	}
}

func TestProblemsAreColouredOnlyWhereColoursShow(t *testing.T) {
	text := strings.Replace(string(jobText(t, "sled-small")), `to   = "P2:A"`, `to   = "P2:Z"`, 1)
	said := func(colour bool) string {
		var out bytes.Buffer
		require.Equal(t, exitProblems, run([]string{"check", "-"}, streams{in: strings.NewReader(text), out: &out, err: &out, colour: colour}))
		return out.String()
	}
	require.Contains(t, said(true), "\x1b[1;31merror\x1b[0m: wire \"L01\"")
	require.Contains(t, said(true), " \x1b[1;31m^\x1b[0m\n")
	require.NotContains(t, said(false), "\x1b")
}
