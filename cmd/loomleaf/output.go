package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
)

// output is one file to write.
type output struct {
	name  string // without folder
	write func(io.Writer) error
}

// staged is an output that stands complete under a temporary name beside its target.
type staged struct{ target, temporary, saved string }

// disk is what writing needs of the file system.
type disk interface {
	MkdirAll(path string, mode os.FileMode) error
	CreateTemp(folder, pattern string) (file, error)
	Rename(from, to string) error
	Remove(path string) error
	Lstat(path string) (os.FileInfo, error)
}

// file is an open file that is written once.
type file interface {
	io.WriteCloser
	Name() string
	Chmod(os.FileMode) error
	Sync() error
}

// realDisk is the file system itself.
type realDisk struct{}

func (realDisk) MkdirAll(path string, mode os.FileMode) error { return os.MkdirAll(path, mode) }
func (realDisk) CreateTemp(folder, pattern string) (file, error) {
	return os.CreateTemp(folder, pattern)
}
func (realDisk) Rename(from, to string) error           { return os.Rename(from, to) }
func (realDisk) Remove(path string) error               { return os.Remove(path) }
func (realDisk) Lstat(path string) (os.FileInfo, error) { return os.Lstat(path) }

// writeAll writes every output to folder, or none: all of them first stand complete beside their targets.
func writeAll(d disk, folder string, outputs []output) error {
	made, err := makeFolder(d, folder)
	if err != nil {
		return noAccess(fmt.Sprintf("could not make the folder %s: %s; nothing was written", folder, cause(err)),
			"name another folder with -o")
	}
	var files []staged
	for _, o := range outputs {
		one, err := stage(d, folder, o)
		if err != nil {
			discard(d, files, made)
			return noAccess(fmt.Sprintf("could not write %s: %s; nothing was written",
				filepath.Join(folder, o.name), cause(err)), "make room or name another folder with -o")
		}
		files = append(files, one)
	}
	if err := publish(d, files); err != nil {
		discard(d, files, made)
		return err
	}
	return nil
}

// makeFolder makes folder with its parents and returns those that were not there, deepest first.
func makeFolder(d disk, folder string) ([]string, error) {
	var made []string
	for path := filepath.Clean(folder); ; path = filepath.Dir(path) {
		if _, err := d.Lstat(path); err == nil || path == filepath.Dir(path) {
			break
		}
		made = append(made, path)
	}
	if err := d.MkdirAll(folder, 0o755); err != nil {
		removeAll(d, made)
		return nil, err
	}
	return made, nil
}

// stage writes one output under a temporary name beside its target.
func stage(d disk, folder string, o output) (staged, error) {
	target := filepath.Join(folder, o.name)
	if info, err := d.Lstat(target); err == nil && !info.Mode().IsRegular() {
		return staged{}, errors.New("something that is not a file stands there")
	}
	f, err := d.CreateTemp(folder, "."+o.name+".*")
	if err != nil {
		return staged{}, err
	}
	if err := fill(f, o.write); err != nil {
		return staged{}, errors.Join(err, d.Remove(f.Name()))
	}
	return staged{target: target, temporary: f.Name()}, nil
}

// fill writes, keeps the first error and always closes.
func fill(f file, write func(io.Writer) error) error {
	buffered := bufio.NewWriterSize(f, 1<<16)
	err := write(buffered)
	if err == nil {
		err = buffered.Flush()
	}
	if err == nil {
		err = f.Chmod(0o644)
	}
	if err == nil {
		err = f.Sync()
	}
	if closing := f.Close(); err == nil {
		err = closing
	}
	return err
}

// publish renames every file to its target. If one cannot be renamed, the files that stood there before come back.
func publish(d disk, files []staged) error {
	for i := range files {
		if err := publishOne(d, &files[i]); err != nil {
			left := restore(d, files[:i+1])
			return noAccess(fmt.Sprintf("could not put %s in place: %s; %s", files[i].target, cause(err), left),
				"close the file where it is open, then try again")
		}
	}
	for _, f := range files {
		if f.saved != "" {
			_ = d.Remove(f.saved) // the new file stands; a left-over copy of the old one harms nobody
		}
	}
	return nil
}

func publishOne(d disk, f *staged) error {
	if _, err := d.Lstat(f.target); err == nil {
		saved := f.temporary + ".before"
		if err := d.Rename(f.target, saved); err != nil {
			return err
		}
		f.saved = saved
	}
	if err := d.Rename(f.temporary, f.target); err != nil {
		return err
	}
	f.temporary = ""
	return nil
}

// restore undoes what publish did and says in words how things stand.
func restore(d disk, files []staged) string {
	var lost []string
	for _, f := range files {
		if f.temporary == "" {
			_ = d.Remove(f.target) // the rename below reports what matters
		}
		if f.saved != "" && d.Rename(f.saved, f.target) != nil {
			lost = append(lost, f.saved)
		}
	}
	if len(lost) > 0 {
		return "the earlier files are kept as " + strings.Join(lost, ", ")
	}
	return "everything is as it was before"
}

// discard removes temporary files and the folders that were made for them.
func discard(d disk, files []staged, made []string) {
	for _, f := range files {
		if f.temporary != "" {
			_ = d.Remove(f.temporary) // nothing more can be done about a file that cannot be removed
		}
	}
	removeAll(d, made)
}

func removeAll(d disk, folders []string) {
	for _, folder := range folders {
		_ = d.Remove(folder) // fails where something else stands in it by now, and then it has to stay
	}
}
