package main

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"
)

// failingDisk is the real disk until its n-th call of one kind.
type failingDisk struct {
	realDisk
	call  string
	after int
	calls int
}

func (d *failingDisk) fails(call string) bool {
	if call != d.call {
		return false
	}
	d.calls++
	return d.calls > d.after
}

func (d *failingDisk) MkdirAll(path string, mode os.FileMode) error {
	if d.fails("mkdir") {
		return &os.PathError{Op: "mkdir", Path: path, Err: syscall.EROFS}
	}
	return d.realDisk.MkdirAll(path, mode)
}

func (d *failingDisk) CreateTemp(folder, pattern string) (file, error) {
	if d.fails("create") {
		return nil, &os.PathError{Op: "open", Path: folder, Err: syscall.EACCES}
	}
	f, err := d.realDisk.CreateTemp(folder, pattern)
	return fullFile{f, d}, err
}

func (d *failingDisk) Rename(from, to string) error {
	if d.fails("rename") && d.calls == d.after+1 {
		return &os.LinkError{Op: "rename", Old: from, New: to, Err: syscall.EBUSY}
	}
	return d.realDisk.Rename(from, to)
}

// fullFile is a file on a disk without room.
type fullFile struct {
	file
	disk *failingDisk
}

func (f fullFile) Write(b []byte) (int, error) {
	if f.disk.fails("write") {
		return 0, &os.PathError{Op: "write", Path: f.Name(), Err: syscall.ENOSPC}
	}
	return f.file.Write(b)
}

func (f fullFile) Close() error {
	err := f.file.Close()
	if f.disk.fails("close") {
		return &os.PathError{Op: "close", Path: f.Name(), Err: syscall.ENOSPC}
	}
	return err
}

func twoOutputs() []output {
	long := strings.Repeat("x", 1<<17)
	return []output{
		{"one.pdf", func(w io.Writer) error { _, err := io.WriteString(w, long); return err }},
		{"two.pdf", func(w io.Writer) error { _, err := io.WriteString(w, "second"); return err }},
	}
}

func names(t *testing.T, folder string) []string {
	t.Helper()
	entries, err := os.ReadDir(folder)
	if os.IsNotExist(err) {
		return nil
	}
	require.NoError(t, err)
	var found []string
	for _, e := range entries {
		found = append(found, e.Name())
	}
	return found
}

func TestOutputsAreWrittenWholeOrNotAtAll(t *testing.T) {
	for _, call := range []string{"mkdir", "create", "write", "close", "rename"} {
		for after := range 3 {
			t.Run(call+strconv.Itoa(after), func(t *testing.T) {
				folder := filepath.Join(t.TempDir(), "a", "b")
				d := &failingDisk{call: call, after: after}
				err := writeAll(d, folder, twoOutputs())
				if err == nil {
					require.Equal(t, []string{"one.pdf", "two.pdf"}, names(t, folder))
					require.LessOrEqual(t, d.calls, after, "a failing call went unnoticed")
					return
				}
				require.Equal(t, exitNoAccess, codeOf(err))
				require.Regexp(t, `nothing was written|everything is as it was before`, err.Error())
				require.Empty(t, names(t, filepath.Dir(folder)))
			})
		}
	}
}

func TestEarlierFilesComeBack(t *testing.T) {
	for after := range 4 {
		folder := t.TempDir()
		for _, name := range []string{"one.pdf", "two.pdf"} {
			require.NoError(t, os.WriteFile(filepath.Join(folder, name), []byte("before"), 0o644))
		}
		err := writeAll(&failingDisk{call: "rename", after: after}, folder, twoOutputs())
		require.Error(t, err)
		require.Contains(t, err.Error(), "everything is as it was before")
		require.Equal(t, []string{"one.pdf", "two.pdf"}, names(t, folder))
		for _, name := range names(t, folder) {
			text, err := os.ReadFile(filepath.Join(folder, name))
			require.NoError(t, err)
			require.Equal(t, "before", string(text))
		}
	}
}

func TestWritersErrorReachesThePlanner(t *testing.T) {
	folder := t.TempDir()
	outputs := append(twoOutputs(), output{"three.pdf", func(io.Writer) error { return errors.New("a page is empty") }})
	err := writeAll(realDisk{}, folder, outputs)
	require.ErrorContains(t, err, "three.pdf: a page is empty; nothing was written")
	require.Empty(t, names(t, folder))
}

func TestNewFilesReplaceEarlierOnes(t *testing.T) {
	folder := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(folder, "two.pdf"), []byte("before"), 0o600))
	require.NoError(t, writeAll(realDisk{}, folder, twoOutputs()))
	require.Equal(t, []string{"one.pdf", "two.pdf"}, names(t, folder))
	text, err := os.ReadFile(filepath.Join(folder, "two.pdf"))
	require.NoError(t, err)
	require.Equal(t, "second", string(text))
}
