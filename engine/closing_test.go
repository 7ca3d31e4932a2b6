package engine_test

import (
	"path/filepath"
	"slices"
	"testing"

	"example.org/takeup/engine"
	"example.org/takeup/engine/catalog"
)

// What to look at before closing lies behind what is open or is opened, costs no
// opening of its own, has not been made and repeats nothing.
func TestLooksBeforeClosing(t *testing.T) {
	e := open(t, "..")
	files, _ := filepath.Glob("../testdata/cases/*.yaml")
	some := 0
	for _, file := range files {
		d := diagnose(t, e, file)
		c := d.Course
		opened := append([]string{d.Case.Open}, c.Next.Opens...)
		for _, p := range c.Closing {
			some++
			path := e.Catalog.StagePath(p.Stage)
			inside := !slices.ContainsFunc(path, func(s catalog.Stage) bool {
				return s.Minutes > 0 && !slices.ContainsFunc(opened, func(id string) bool { return within(e, id, s.ID) })
			})
			if !inside {
				t.Errorf("%s: %s lies behind %s, open are %v", file, p.Check, p.Stage, opened)
			}
			if p.Check == c.Next.Check && slices.Equal(p.Causes, c.Next.Causes) {
				t.Errorf("%s: %s is the step itself", file, p.Check)
			}
			for _, done := range d.Case.Done {
				if done.Check == p.Check {
					t.Errorf("%s: %s has been made", file, p.Check)
				}
			}
		}
	}
	if some < 5 {
		t.Errorf("%d looks before closing in all cases, want a few", some)
	}
}

// within reports whether stage id lies at or inside another.
func within(e *engine.Engine, id, other string) bool {
	return slices.ContainsFunc(e.Catalog.StagePath(id), func(s catalog.Stage) bool { return s.ID == other })
}

// With blued steels found after burnt linings, the technician lays a straight edge
// on the steels before the pack goes back (common practice: heat colours and warps).
func TestBluedSteelsAreCheckedForFlatness(t *testing.T) {
	d := diagnose(t, open(t, ".."), "../testdata/cases/black-plates-after-the-dunes.yaml")
	if c := d.Course.Closing; len(c) == 0 || c[0].Check != "steel_flatness" {
		t.Errorf("before closing: %v, want steel_flatness first", c)
	}
}

// A cable that is losing its strands is renewed before its slack is set, and a rod
// that has worn out a seal before the seal and the level (common practice: the cause
// first, or what was put right does not last).
func TestCauseIsPutRightBeforeItsEffect(t *testing.T) {
	e := open(t, "..")
	for file, want := range map[string]string{"loose-again-by-wednesday": "cable_frayed", "falls-and-nothing-drips": "slave_rod_damaged"} {
		if got := diagnose(t, e, "../testdata/cases/"+file+".yaml").Course.Next; got.Cause != want || !got.Confirmed {
			t.Errorf("%s: next is %s (proved %v), want %s", file, got.Cause, got.Confirmed, want)
		}
	}
}
