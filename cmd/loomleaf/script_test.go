package main

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/stretchr/testify/require"

	"loomleaf/internal/plan"
)

var update = flag.Bool("update", false, "rewrite the expected texts")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"loomleaf": main})
}

// TestScripts runs the command as a person would: each file in testdata/script is one behaviour.
func TestScripts(t *testing.T) {
	t.Parallel()
	jobs, err := filepath.Abs("../../testdata/jobs")
	require.NoError(t, err)
	testscript.Run(t, testscript.Params{
		Dir:                 "../../testdata/script",
		UpdateScripts:       *update,
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Setup: func(e *testscript.Env) error {
			e.Setenv("JOBS", jobs)
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"empty": emptyFolder, "replace": replaceOnce, "codeof": codeOfThing, "repeat": repeatText,
		},
	})
}

// emptyFolder asserts that a folder holds nothing, hidden files included, or is not there.
func emptyFolder(ts *testscript.TestScript, negate bool, args []string) {
	entries, err := os.ReadDir(ts.MkAbs(args[0]))
	if err != nil && !os.IsNotExist(err) {
		ts.Fatalf("%v", err)
	}
	if (len(entries) == 0) == negate {
		ts.Fatalf("%s holds %d files", args[0], len(entries))
	}
}

// replaceOnce replaces the first place of a text in a file: replace FILE OLD NEW.
func replaceOnce(ts *testscript.TestScript, _ bool, args []string) {
	name := ts.MkAbs(args[0])
	text, err := os.ReadFile(name)
	ts.Check(err)
	if !strings.Contains(string(text), args[1]) {
		ts.Fatalf("%s does not hold %q", args[0], args[1])
	}
	ts.Check(os.WriteFile(name, []byte(strings.Replace(string(text), args[1], strings.ReplaceAll(args[2], `\n`, "\n"), 1)), 0o644))
}

// repeatText appends a text, with its escapes, so many times to a file: repeat FILE TIMES TEXT.
func repeatText(ts *testscript.TestScript, _ bool, args []string) {
	times, err := strconv.Atoi(args[1])
	ts.Check(err)
	text, err := strconv.Unquote(`"` + strings.ReplaceAll(args[2], `"`, `\"`) + `"`)
	ts.Check(err)
	file, err := os.OpenFile(ts.MkAbs(args[0]), os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o644)
	ts.Check(err)
	_, err = file.WriteString(strings.Repeat(text, times))
	ts.Check(err)
	ts.Check(file.Close())
}

// codeOfThing sets a variable to the code of a thing in a codes map: codeof VARIABLE MAP KIND UNIT NAME.
func codeOfThing(ts *testscript.TestScript, _ bool, args []string) {
	text, err := os.ReadFile(ts.MkAbs(args[1]))
	ts.Check(err)
	rows, err := plan.ReadCodes(bytes.NewReader(text))
	ts.Check(err)
	for _, row := range rows {
		if row.Kind == args[2] && row.Unit == args[3] && row.Name == args[4] {
			ts.Setenv(args[0], row.Code)
			return
		}
	}
	ts.Fatalf("%s has no %s %s of unit %q", args[1], args[2], args[4], args[3])
}
