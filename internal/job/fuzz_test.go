package job

import (
	"bytes"
	"os"
	"testing"
	"unicode/utf8"

	"loomleaf/internal/problem"
	"loomleaf/templates"
)

// A job gives a harness, or an error whose place is in a file that was read; and the same again the second time.
func FuzzRead(f *testing.F) {
	f.Add([]byte(goodText), []byte("[tray]\nwires = 3\n"))
	f.Add([]byte("include = [\"shop.toml\"]\n"+goodText), []byte(stockText))
	f.Add([]byte(goodText+constructsText), []byte(""))
	f.Add([]byte(""), []byte(""))
	f.Add([]byte("[[job]]\nwire = 3\n"), []byte(""))
	f.Add([]byte("[line.step]\n[wire_type]\n[job.expect.wires]\n"), []byte(""))
	for _, bad := range badJobs(f) {
		if text := bad.input(f).Text; len(text) < 10_000 {
			shop, _ := bad.file("shop.toml")
			f.Add(text, shop)
		}
	}
	f.Fuzz(func(t *testing.T, text, shop []byte) {
		in := Input{Name: "job.toml", Text: text, Open: func(path string) ([]byte, error) {
			if path == "shop.toml" {
				return shop, nil
			}
			return nil, os.ErrNotExist
		}}
		h, found, sources := Read(in, templates.Files)
		if (h == nil) != (found.Errors() > 0) {
			t.Fatalf("harness %v with %d errors", h != nil, found.Errors())
		}
		for _, p := range found {
			validPlace(t, p.Place, sources)
			if p.Also != nil {
				validPlace(t, p.Also.Place, sources)
			}
		}
		_, again, _ := Read(in, templates.Files)
		if printed(t, found, sources) != printed(t, again, sources) {
			t.Fatal("reading twice finds different problems")
		}
	})
}

func validPlace(t *testing.T, at problem.Place, sources problem.Sources) {
	text, read := sources[at.File]
	if !read {
		t.Fatalf("%v is in no file that was read", at)
	}
	lines := bytes.Split(text, []byte("\n"))
	if at.Line < 1 || at.Line > len(lines) || at.Column < 1 || at.Column > utf8.RuneCount(lines[at.Line-1])+1 {
		t.Fatalf("%v is no place of its file", at)
	}
}
