package engine_test

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"example.org/takeup/engine"
	sheets "example.org/takeup/engine/build"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/mechanics"
	"example.org/takeup/engine/source"
)

func sheetOf(t *testing.T, e *engine.Engine, d *engine.Diagnosis) *sheets.Sheet {
	t.Helper()
	s, err := e.Build(d, "")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func right(s *sheets.Sheet, cause string) (sheets.Cause, bool) {
	i := slices.IndexFunc(s.Causes, func(c sheets.Cause) bool { return c.ID == cause })
	if i < 0 {
		return sheets.Cause{}, false
	}
	return s.Causes[i], true
}

// What the diagnosis finds likely is what the build sheet puts right, with the same
// figure, and a cause that the inspection proves is among them.
func TestBuildSheetAgreesWithDiagnosisAndInspection(t *testing.T) {
	e := open(t, "..")
	files, _ := filepath.Glob("../testdata/cases/*.yaml")
	for _, file := range files {
		d := diagnose(t, e, file)
		s := sheetOf(t, e, d)
		for _, c := range d.Explanation.Causes {
			put, there := right(s, c.ID)
			if likely := c.Probability >= 0.5 || slices.Contains(d.Case.Found, c.ID); likely != there || there && put.Probability != c.Probability {
				t.Errorf("%s: %s has %.3f, on the sheet: %v, %.3f", file, c.ID, c.Probability, there, put.Probability)
			}
		}
		for _, part := range s.Parts {
			if len(part.Causes) == 0 && !part.Always {
				t.Errorf("%s: %s is ordered for nothing", file, part.Name)
			}
		}
	}
}

// readings is a machine with measured wear, in four bits of text that a test fills in.
const readings = `title: Slips in top
machine:
  limit.friction_thickness: 2.7 mm
  limit.spring_free_length: 36.6 mm
signs: {slips_top_gear: yes, slips_loaded: yes}
readings:
  friction_thickness: {values: [LINING], gauge: calliper}
  spring_free_length: {values: [SPRING], gauge: calliper}
`

// A tired clutch by its measurements: inspection, diagnosis and build sheet say the
// same, and say it no longer when the measurements are good.
func TestATiredClutchByItsReadings(t *testing.T) {
	e := open(t, "..")
	for _, c := range []struct {
		lining, spring string
		verdict        mechanics.Verdict
	}{{"2.4 mm, 2.4 mm, 2.5 mm", "35.2 mm, 35.3 mm", mechanics.Past}, {"3.0 mm, 2.9 mm, 3.0 mm", "37.8 mm, 37.9 mm", mechanics.Inside}} {
		text := strings.NewReplacer("LINING", c.lining, "SPRING", c.spring).Replace(readings)
		file, ps := intake.Parse(&source.File{Name: "c.yaml", Text: []byte(text)}, e.Catalog, nil)
		if ps.HasErrors() {
			t.Fatal(ps)
		}
		d, err := e.Diagnose(file, engine.Bench{})
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range e.Inspect(d).Readings {
			if r.Judged == nil || r.Judged.Verdict != c.verdict {
				t.Errorf("%s: %+v, want verdict %v", r.ID, r.Judged, c.verdict)
			}
		}
		s := sheetOf(t, e, d)
		for _, id := range []string{"frictions_worn", "springs_weak"} {
			found, _ := d.Explanation.Find(id)
			_, there := right(s, id)
			if worn := c.verdict == mechanics.Past; there != worn || found.Probability > 0.5 != worn {
				t.Errorf("%s: %.3f, on the sheet: %v, want %v", id, found.Probability, there, worn)
			}
		}
		parts := func(name string) bool {
			return slices.ContainsFunc(s.Parts, func(p sheets.Part) bool { return p.Name == name })
		}
		if worn := c.verdict == mechanics.Past; parts("friction plates") != worn || parts("clutch springs") != worn {
			t.Errorf("verdict %v: parts %v", c.verdict, s.Parts)
		}
	}
}

// A pack that its list shows to be wrong is said to be wrong first, with the step that
// puts it right, and the diagnosis names the same causes.
func TestAWronglyBuiltPack(t *testing.T) {
	e := open(t, "..")
	d := diagnose(t, e, "../testdata/cases/built-in-a-hurry.yaml")
	s := sheetOf(t, e, d)
	for i, want := range []struct{ cause, step string }{{"anti_rattle_missing", "seat_then_spring"}, {"steel_edges_mixed", "edges_one_way"}} {
		c := s.Causes[i]
		if c.ID != want.cause || len(c.Listed) == 0 || !slices.Contains(c.Steps, want.step) || d.Explanation.Causes[i].ID != want.cause {
			t.Errorf("got %+v, want %+v; the diagnosis has %s", c, want, d.Explanation.Causes[i].ID)
		}
	}
	marked := 0
	for _, l := range s.Packs[len(s.Packs)-1].Section.Layers {
		if l.Mark != "" {
			marked++
		}
	}
	if marked < 5 { // seat and spring left out, three steels turned over at the least
		t.Errorf("%d layers are marked, want 5", marked)
	}
}
