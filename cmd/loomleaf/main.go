// Command loomleaf reads a wiring-harness job and prints its packet: cut lists, tray labels, pin checklists.
package main

import "os"

func main() {
	os.Exit(int(run(os.Args[1:], streams{
		in: os.Stdin, out: os.Stdout, err: os.Stderr, terminal: isTerminal(os.Stderr),
	})))
}

// isTerminal reports whether a person watches the file.
func isTerminal(f *os.File) bool {
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0 && os.Getenv("TERM") != "dumb"
}
