package engine_test

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"example.org/takeup/engine/intake"
)

// The short way and the long way to a ranking agree on every sample case.
func TestRankAgreesWithDiagnose(t *testing.T) {
	e := open(t, "..")
	files, _ := filepath.Glob("../testdata/cases/*.yaml")
	if len(files) < 12 {
		t.Fatalf("found %d cases", len(files))
	}
	// None of the sample cases has a sign from a derived quantity alone.
	derived := filepath.Join(t.TempDir(), "tall.yaml")
	if err := os.WriteFile(derived, []byte(tallPack), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, file := range append(files, derived) {
		c, ps := intake.Load(file, e.Catalog)
		if ps.HasErrors() {
			t.Fatal(ps)
		}
		short, err := e.Rank(c)
		if err != nil {
			t.Fatal(err)
		}
		long := diagnose(t, e, file).Explanation
		if len(short.Causes) != len(long.Causes) || math.Abs(short.Unlisted-long.Unlisted) > 1e-9 {
			t.Fatalf("%s: %d causes and %g unlisted, want %d and %g", file, len(short.Causes), short.Unlisted, len(long.Causes), long.Unlisted)
		}
		for _, x := range short.Causes {
			if want, ok := long.Find(x.ID); !ok || math.Abs(x.Probability-want.Probability) > 1e-9 {
				t.Errorf("%s: %s has %g, want %g", file, x.ID, x.Probability, want.Probability)
			}
		}
		if a, b := short.Causes[0], long.Causes[0]; a.ID != b.ID && math.Abs(a.Probability-b.Probability) > 1e-9 {
			t.Errorf("%s: first is %s, want %s", file, a.ID, b.ID)
		}
	}
}

const tallPack = `title: an invented pack that stands a plate taller than its plates
machine:
  frictions: 7
  steels: 6
readings:
  friction_thickness: [3.0 mm, 3.0 mm]
  steel_thickness: [1.6 mm, 1.6 mm]
  pack_height: 32.3 mm
`

// BenchmarkRank is the ranking of the sample cases in turn, without reading them.
func BenchmarkRank(b *testing.B) {
	e := open(b, "..")
	files, _ := filepath.Glob("../testdata/cases/*.yaml")
	var cases []*intake.Case
	for _, file := range files {
		c, _ := intake.Load(file, e.Catalog)
		cases = append(cases, c)
	}
	i := 0
	for b.Loop() {
		if _, err := e.Rank(cases[i%len(cases)]); err != nil {
			b.Fatal(err)
		}
		i++
	}
}
