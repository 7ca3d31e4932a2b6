package cli

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.org/takeup/cmd/internal/term"
	"example.org/takeup/engine"
)

var update = flag.Bool("update", false, "write the golden files anew")

// goldens are the formats with the endings of their files.
var goldens = []struct{ format, ending string }{
	{"terminal", ".terminal.txt"}, {"markdown", ".md"}, {"plain", ".txt"}, {"bbcode", ".bbcode"}, {"html", ".html"}, {"json", ".json"},
}

// TestGoldens compares the diagnosis of every sample case in every format with
// testdata/golden. Run with -update to write them, then read the diff.
func TestGoldens(t *testing.T) {
	t.Chdir("../../..") // so that a case is named as a user would name it
	if _, err := os.Stat("testdata/golden"); err != nil && !*update {
		t.Skip("no golden files yet: go test ./cmd/internal/cli -update")
	}
	files, err := filepath.Glob("testdata/cases/*.yaml")
	if err != nil || len(files) < 12 {
		t.Fatalf("found %d cases, %v", len(files), err)
	}
	// One pack for all cases: reading it takes longer than most of them.
	s := &session{format: "plain", color: term.Never, width: 80}
	e, err := s.open()
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".yaml")
		t.Run(name, func(t *testing.T) { golden(t, e, file, filepath.Join("testdata/golden", name)) })
	}
}

func golden(t *testing.T, e *engine.Engine, file, base string) {
	var out, talk bytes.Buffer
	s := &session{color: term.Never, width: 80, out: &out, err: &talk}
	c, err := s.load(e, file)
	if err != nil {
		t.Fatalf("%v\n%s", err, talk.String())
	}
	d, err := e.Diagnose(c, engine.Bench{})
	if err != nil {
		t.Fatal(err)
	}
	a := answerOf(e, d)
	for _, g := range goldens {
		s.format = g.format
		out.Reset()
		a.Drawing = nil
		if err := s.draw(&a); err != nil {
			t.Fatal(err)
		}
		if err := s.show(a.Diagnosis(false), a.Result()); err != nil {
			t.Fatal(err)
		}
		same(t, base+g.ending, out.Bytes())
	}
}

func same(t *testing.T, file string, got []byte) {
	if *update {
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, got, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), string(got)); diff != "" {
		t.Errorf("%s (-golden +now):\n%s", file, diff)
	}
}
