// Command loomleaf reads a wiring-harness job and prints its packet: cut lists, tray labels, pin checklists.
package main

import (
	"os"
	"runtime"
)

func main() {
	terminal := isTerminal(os.Stderr)
	os.Exit(int(run(os.Args[1:], streams{
		in: os.Stdin, out: os.Stdout, err: os.Stderr, terminal: terminal, colour: terminal && colourWanted(runtime.GOOS, os.LookupEnv),
	})))
}

// isTerminal reports whether a person watches the file.
func isTerminal(f *os.File) bool {
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0 && os.Getenv("TERM") != "dumb"
}

// colourWanted reports whether a terminal is to be sent colours: not where NO_COLOR is set, to whatever value, nor on a
// dumb terminal, nor in a console of Windows that does not say that it understands them.
func colourWanted(system string, lookup func(string) (string, bool)) bool {
	if _, set := lookup("NO_COLOR"); set {
		return false
	}
	term, named := lookup("TERM")
	_, modern := lookup("WT_SESSION")
	return term != "dumb" && (named || modern || system != "windows")
}
