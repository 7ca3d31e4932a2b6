package source

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"
)

func TestLoad(t *testing.T) {
	dir := t.TempDir()
	write := func(name string, size int) {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(strings.Repeat("x", size)), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	write("creep.yaml", 3)
	write("big.yaml", MaxBytes+1)
	write("huge.yaml", 10<<20)
	if f, ps := Load(filepath.Join(dir, "creep.yaml")); len(ps) > 0 || string(f.Text) != "xxx" || f.Line(1) != "xxx" {
		t.Errorf("%+v, %v", f, ps)
	}
	for _, c := range []struct{ name, want, hint string }{
		{"crepe.yaml", "error Y001: no such file", `did you mean "creep.yaml"?`},
		{"creep", "error Y001: no such file", `did you mean "creep.yaml"?`},
		{"unlike.yaml", "error Y001: no such file", ""},
		{"no/such.yaml", "error Y001: no such file", "its folder does not exist or cannot be read"},
		{".", "error Y002: expected a file, found a folder", "name one file in it"},
		{"creep.yaml/x", "error Y003: cannot open: not a directory", ""},
		{"big.yaml", "error Y004: too large: over 4 MB, at most 4 MB", ""},
		{"huge.yaml", "error Y004: too large: 10 MB, at most 4 MB", ""},
	} {
		name := filepath.Join(dir, c.name)
		f, ps := Load(name)
		if f != nil || len(ps) != 1 || ps.Error() != name+": "+c.want || ps[0].Hint != c.hint {
			t.Errorf("%s: %v, hint %q", c.name, ps, ps[0].Hint)
		}
	}
}

// deniedFS refuses every file, as a file system does without permission.
type deniedFS struct{}

func (deniedFS) Open(name string) (fs.File, error) {
	return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrPermission}
}

func TestLoadFS(t *testing.T) {
	fsys := fstest.MapFS{"rules/slip.yaml": {Data: []byte("a\nb")}, "rules/drag.yaml": {Data: []byte("c")}}
	if f, ps := LoadFS(fsys, "rules/slip.yaml"); len(ps) > 0 || f.Name != "rules/slip.yaml" || f.Line(2) != "b" {
		t.Errorf("%+v, %v", f, ps)
	}
	for _, c := range []struct {
		fsys             fs.FS
		name, want, hint string
	}{
		{fsys, "rules/slp.yaml", "rules/slp.yaml: error Y001: no such file", `did you mean "slip.yaml"?`},
		{fsys, "rules", "rules: error Y002: expected a file, found a folder", "name one file in it"},
		{fsys, "../x", "../x: error Y001: no such file", "its folder does not exist or cannot be read"},
		{deniedFS{}, "x", "x: error Y003: cannot open: permission denied", ""},
	} {
		f, ps := LoadFS(c.fsys, c.name)
		if f != nil || len(ps) != 1 || ps.Error() != c.want || ps[0].Hint != c.hint {
			t.Errorf("%s: %v %+v", c.name, f, ps)
		}
	}
}

func TestLine(t *testing.T) {
	f := File{"f", []byte(bom + "one\r\n\nthree")}
	for n, want := range map[int]string{-1: "", 0: "", 1: "one", 2: "", 3: "three", 4: ""} {
		if got := f.Line(n); got != want {
			t.Errorf("line %d: %q, want %q", n, got, want)
		}
	}
}
