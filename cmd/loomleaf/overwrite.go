package main

import (
	"fmt"
	"os"
	"path/filepath"
)

// refuseOverwriting refuses outputs that would take the place of a file that a job is read from: an earlier plan above all, without
// which the same job would not give the same packet again.
func refuseOverwriting(folder string, outputs []output, read []string) error {
	var there []os.FileInfo
	for _, o := range outputs {
		if info, err := os.Stat(filepath.Join(folder, o.name)); err == nil {
			there = append(there, info)
		}
	}
	for _, name := range read {
		info, err := os.Stat(filepath.FromSlash(name))
		if err != nil {
			continue // it came with the program, or from standard input
		}
		for _, other := range there {
			if os.SameFile(info, other) {
				return wrongUse(fmt.Sprintf("the packet would overwrite %s, which the job is read from", name), "raise the revision, or write to another folder")
			}
		}
	}
	return nil
}
