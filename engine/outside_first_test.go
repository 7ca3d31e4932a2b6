package engine_test

import (
	"path/filepath"
	"slices"
	"testing"

	"example.org/takeup/engine"
	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/plan"
	"example.org/takeup/engine/source"
)

// What paper can show is read before the engine is opened for it, and the opening
// that minutes alone would put first is named. Once the paper has been read, the
// engine is opened.
func TestPapersBeforeOpening(t *testing.T) {
	e := open(t, "..")
	for name, behind := range map[string]string{"heavy-since-the-springs": "spring_part_number", "slips-with-new-plates": "pack_height_measure"} {
		file := "../testdata/cases/" + name + ".yaml"
		c := diagnose(t, e, file).Course
		if c.Next.Check != "read_the_bill" || len(c.Next.Opens) > 0 || c.Instead == nil || c.Instead.Check != behind {
			t.Errorf("%s: first %s, instead of %+v", name, c.Next.Check, c.Instead)
		}
		read, ps := intake.Load(file, e.Catalog)
		if ps.HasErrors() {
			t.Fatal(ps)
		}
		read.Done = append(read.Done, intake.Done{Check: "read_the_bill"})
		if n := courseOf(t, e, read, engine.Bench{}).Next; n.Check != behind {
			t.Errorf("%s, the bill read in vain: %s%s", name, n.Check, n.Cause)
		}
	}
}

// A paper that shows nothing of what the opening is for is not asked for first.
func TestPapersOnlyForWhatTheyShow(t *testing.T) {
	c := diagnose(t, open(t, ".."), "../testdata/cases/no-drive-after-the-job.yaml").Course
	if c.Next.Check != "plate_teeth_home_look" {
		t.Errorf("no drive since the job: first %s", c.Next.Check)
	}
}

// A gear that jumps out is looked into at the pedal before the machine is handed on;
// with linkage, return and detent cleared nothing is left to do here.
func TestShiftMechanismBeforeTheCases(t *testing.T) {
	e := open(t, "..")
	parse := func(more string) *plan.Course {
		c, ps := intake.Parse(&source.File{Name: "c", Text: []byte("title: a\nhistory: {mileage: 47000 km, use: [race, clutchless], clutch_opened: no}\n" +
			"signs: {jumps_out: yes, false_neutrals: yes, creeps_hot: no, selector_stiff_found: no" + more + "}\ndone: [selector_by_hand]\n")}, e.Catalog, nil)
		if ps.HasErrors() {
			t.Fatal(ps)
		}
		return courseOf(t, e, c, engine.Bench{})
	}
	if n := parse("").Next; !slices.Contains([]string{"detent_feel", "linkage_stroke"}, n.Check) {
		t.Errorf("jumps out: first %s %s", n.Kind, n.Check)
	}
	if n := parse(", linkage_play_found: no, detent_soft_found: no, pedal_hangs_found: no").Next; n.Kind != plan.Service {
		t.Errorf("pedal and drum cleared: %s %s%s", n.Kind, n.Check, n.Cause)
	}
}

// Whoever is sent to look for a cause can make the check where the machine is then
// open: a finding further in is no way to see what is put right from the saddle.
func TestLooksAreWhereTheyAreMade(t *testing.T) {
	e := open(t, "..")
	files, _ := filepath.Glob("../testdata/cases/*.yaml")
	looks := 0
	for _, file := range files {
		c := diagnose(t, e, file).Course
		for _, p := range c.All() {
			if p.Kind != plan.Look || p.Check == "" {
				continue
			}
			looks++
			check, _ := e.Catalog.Check(p.Check)
			if !slices.ContainsFunc(e.Catalog.StagePath(p.Stage), func(s catalog.Stage) bool { return s.ID == check.Stage }) {
				t.Errorf("%s: %s is made at %s, the look for %s at %s", file, p.Check, check.Stage, p.Cause, p.Stage)
			}
		}
	}
	if looks < 100 {
		t.Errorf("only %d looks", looks)
	}
}
