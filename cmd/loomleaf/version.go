package main

import (
	"fmt"
	"runtime/debug"
)

// versionCommand prints what was built.
type versionCommand struct{}

// Run prints version, revision and Go version from the build itself.
func (versionCommand) Run(s streams) error {
	info, known := debug.ReadBuildInfo()
	if !known {
		return noAccess("this program carries no build information", "build it with go build")
	}
	version := info.Main.Version
	if version == "" {
		version = "(devel)"
	}
	_, err := fmt.Fprintf(s.out, "loomleaf %s, %s\n", version, info.GoVersion)
	return err
}
