package cli

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"example.org/takeup/cmd/internal/term"
	"example.org/takeup/engine"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/report"
)

// TestInspectGoldens compares the page of measurements of the sample cases that were
// measured most, in every format and with the working, with testdata/golden.
func TestInspectGoldens(t *testing.T) {
	t.Chdir("../../..")
	s := &session{format: "plain", color: term.Never, width: 80}
	e, err := s.open()
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"slips-and-measured-on-the-bench", "knocks-measured-at-the-wheel", "drags-with-one-plate-too-many"} {
		t.Run(name, func(t *testing.T) { inspectGolden(t, e, name) })
	}
}

func inspectGolden(t *testing.T, e *engine.Engine, name string) {
	var out, talk bytes.Buffer
	s := &session{color: term.Never, width: 80, out: &out, err: &talk}
	c, err := s.load(e, "testdata/cases/"+name+".yaml")
	if err != nil {
		t.Fatalf("%v\n%s", err, talk.String())
	}
	d, err := e.Diagnose(c, engine.Bench{})
	if err != nil {
		t.Fatal(err)
	}
	a, found := answerOf(e, d), e.Inspect(d)
	show := func(format, ending string, working bool) {
		s.format = format
		out.Reset()
		if err := s.show(a.Inspection(found, working), report.Measured{Schema: report.Schema, Inspection: found}); err != nil {
			t.Fatal(err)
		}
		same(t, filepath.Join("testdata/golden", name+".inspect"+ending), out.Bytes())
	}
	for _, g := range goldens {
		show(g.format, g.ending, false)
	}
	show("markdown", ".working.md", true)
}

// The empty machine sheet loads as it stands and knows nothing; with every line
// uncommented it loads too and knows every word of the vocabulary.
func TestNewMachineSheet(t *testing.T) {
	s := &session{format: "plain", color: term.Never, width: 80}
	e, err := s.open()
	if err != nil {
		t.Fatal(err)
	}
	text := report.MachineSheet(e.Catalog)
	load := func(text string) int {
		t.Helper()
		file := filepath.Join(t.TempDir(), "machine.yaml")
		if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		m, words, ps := intake.LoadMachine(file, e.Catalog)
		for _, p := range ps {
			t.Errorf("%s (%s)", p, p.Hint)
		}
		if m.Title != "my machine" {
			t.Errorf("title %q", m.Title)
		}
		return words.Len()
	}
	if n := load(text); n != 0 {
		t.Errorf("an untouched sheet knows %d words", n)
	}
	filled := regexp.MustCompile(`(?m)^# ([a-z0-9_.]+: )`).ReplaceAllString(text, "$1")
	if n := load(filled); n != len(e.Catalog.Machine) {
		t.Errorf("a filled sheet knows %d of %d words", n, len(e.Catalog.Machine))
	}
}
