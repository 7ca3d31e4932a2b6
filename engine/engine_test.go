package engine_test

import (
	"os"
	"path/filepath"
	"slices"
	"testing"

	"example.org/takeup/engine"
	"example.org/takeup/engine/intake"
)

func open(t testing.TB, pack string) *engine.Engine {
	t.Helper()
	e, ps := engine.Open(os.DirFS(pack+"/knowledge"), os.DirFS(pack+"/rules"))
	for _, p := range ps {
		t.Errorf("%s (%s)", p, p.Hint)
	}
	if ps.HasErrors() {
		t.FailNow()
	}
	return e
}

func diagnose(t testing.TB, e *engine.Engine, file string) *engine.Diagnosis {
	t.Helper()
	c, ps := intake.Load(file, e.Catalog)
	if ps.HasErrors() {
		t.Fatal(ps)
	}
	d, err := e.Diagnose(c, engine.Bench{})
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// Another trade runs through the same engine.
func TestSecondPack(t *testing.T) {
	d := diagnose(t, open(t, "../testdata/packs/lamp"), "../testdata/packs/lamp/cases/dark.yaml")
	if first := d.Explanation.Causes[0]; first.ID != "battery_flat" || first.Probability < 0.9 {
		t.Errorf("first is %s with %.3f", first.ID, first.Probability)
	}
	if d.Course.Next.Check != "measure_voltage" {
		t.Errorf("next is %+v", d.Course.Next)
	}
	d = diagnose(t, open(t, "../testdata/packs/lamp"), "../testdata/packs/lamp/cases/flickers-since-the-new-lead.yaml")
	if first := d.Explanation.Causes[0]; first.ID != "lead_loose" || first.Probability < 0.9 {
		t.Errorf("with a washer left out, first is %s with %.3f", first.ID, first.Probability)
	}
}

// Every sample case ranks the cause first, or finds the set, that its writer
// worked out by hand.
func TestSampleCases(t *testing.T) {
	e := open(t, "..")
	files, _ := filepath.Glob("../testdata/cases/*.yaml")
	if len(files) < 12 {
		t.Fatalf("found %d cases", len(files))
	}
	steady := 0.0
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			d := diagnose(t, e, file)
			want := d.Case.Expect
			if want == nil {
				t.Fatal("the case expects nothing")
			}
			ex := d.Explanation
			steady += ex.Steadiness / float64(len(files))
			if want.First != "" && ex.Causes[0].ID != want.First {
				t.Errorf("first is %s (%.3f), want %s", ex.Causes[0].ID, ex.Causes[0].Probability, want.First)
			}
			for _, id := range want.Set {
				if c, ok := ex.Find(id); !ok || c.Probability < 0.5 {
					t.Errorf("%s has %.3f, expected more likely than not", id, c.Probability)
				}
			}
			for i, c := range ex.Causes {
				if i < 3 {
					t.Logf("%.3f %s", c.Probability, c.ID)
				}
			}
			t.Logf("steady %.2f, unlisted %.3f, next %s %s %s", ex.Steadiness, ex.Unlisted, d.Course.Next.Kind, d.Course.Next.Check, d.Course.Next.Cause)
		})
	}
	// With log-odds noise of 0.5 on every number the first cause should stay
	// first nine times in ten.
	if t.Logf("steadiness %.3f on average", steady); steady < 0.9 {
		t.Errorf("the first cause stays first in %.3f of the drawings, want 0.9", steady)
	}
}

func BenchmarkDiagnose(b *testing.B) {
	e := open(b, "..")
	c, ps := intake.Load("../testdata/cases/creeps-since-the-cable.yaml", e.Catalog)
	if ps.HasErrors() {
		b.Fatal(ps)
	}
	for b.Loop() {
		if _, err := e.Diagnose(c, engine.Bench{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkOpen(b *testing.B) {
	for b.Loop() {
		engine.Open(os.DirFS("../knowledge"), os.DirFS("../rules"))
	}
}

// What is asked first is what could move a suspect most, and nothing is asked that
// makes no sense: which part was worked on is no question about a clutch that was
// never open.
func TestWaitingIsWorthAsking(t *testing.T) {
	e := open(t, "..")
	if w := diagnose(t, e, "../testdata/cases/heavy-since-the-springs.yaml").Explanation.Waiting; w[0].Facts[0] != "spring_kind" {
		t.Errorf("new springs and a heavy lever: asks first for %v", w[0])
	}
	file := "../testdata/cases/drops-second-on-the-overrun.yaml"
	c, _ := intake.Load(file, e.Catalog)
	if v, ok := c.Known.Get("clutch_opened"); !ok || v.Yes {
		t.Fatal("the case says no longer that the clutch was never open")
	}
	ex := diagnose(t, e, file).Explanation
	if len(ex.Waiting) < 5 {
		t.Fatalf("%d rules wait", len(ex.Waiting))
	}
	for i, w := range ex.Waiting {
		if slices.Contains(w.Facts, "since_work_on") {
			t.Errorf("%s waits for the part that was worked on", w.Rule)
		}
		if i > 0 && w.Moves > ex.Waiting[i-1].Moves {
			t.Errorf("%s moves %g after one that moves %g", w.Rule, w.Moves, ex.Waiting[i-1].Moves)
		}
	}
}
