package engine_test

import (
	"math"
	"path/filepath"
	"slices"
	"testing"

	"example.org/takeup/engine"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/plan"
	"example.org/takeup/engine/source"
)

// proposals is everything that a course proposes.
func proposals(c *plan.Course) []plan.Proposal {
	return append(append([]plan.Proposal{c.Next}, c.Together...), c.Others...)
}

func courseOf(t *testing.T, e *engine.Engine, c *intake.Case, bench engine.Bench) *plan.Course {
	t.Helper()
	d, err := e.Diagnose(c, bench)
	if err != nil {
		t.Fatal(err)
	}
	return d.Course
}

// What the workshop lacks, has done and has open is heeded, whatever the case.
func TestBenchIsHeeded(t *testing.T) {
	e := open(t, "..")
	for _, name := range []string{"slips-with-new-plates", "no-drive-after-the-job", "shakes-at-five-thousand"} {
		c, ps := intake.Load("../testdata/cases/"+name+".yaml", e.Catalog)
		if ps.HasErrors() {
			t.Fatal(ps)
		}
		plain := courseOf(t, e, c, engine.Bench{})
		for _, p := range proposals(plain) {
			check, _ := e.Catalog.Check(p.Check)
			if p.Kind != plan.Ask || len(check.Tools) == 0 {
				continue
			}
			for _, q := range proposals(courseOf(t, e, c, engine.Bench{Without: check.Tools[:1]})) {
				if other, _ := e.Catalog.Check(q.Check); q.Kind == plan.Ask && slices.Contains(other.Tools, check.Tools[0]) {
					t.Errorf("%s without %s: %s is proposed", name, check.Tools[0], q.Check)
				}
			}
			done := *c
			done.Done = append(slices.Clone(c.Done), intake.Done{Check: p.Check})
			for _, q := range proposals(courseOf(t, e, &done, engine.Bench{})) {
				if q.Kind == plan.Ask && q.Check == p.Check {
					t.Errorf("%s: %s is proposed again", name, p.Check)
				}
			}
		}
		for _, p := range proposals(courseOf(t, e, c, engine.Bench{Open: "pack_out"})) {
			if slices.Contains(p.Opens, "cover_off") || slices.Contains(p.Opens, "pack_out") {
				t.Errorf("%s with the pack out: %s opens %v", name, p.Check+p.Cause, p.Opens)
			}
		}
	}
}

// A part's price counts as the minutes that its money buys, and only with a rate.
func TestPricesCountAsMinutes(t *testing.T) {
	e := open(t, "..")
	d := diagnose(t, e, "../testdata/cases/never-twice-the-same-since-the-nut.yaml")
	minutes := func(p plan.Prices) float64 {
		o, err := e.Outline(d, engine.Bench{Prices: p}, 1)
		if err != nil {
			t.Fatal(err)
		}
		return o.Minutes
	}
	every := map[string]float64{}
	for _, c := range e.Catalog.Causes {
		every[c.ID] = 30
	}
	free, unweighed, priced := minutes(plan.Prices{}), minutes(plan.Prices{Of: every}), minutes(plan.Prices{Rate: 60, Of: every})
	if free != unweighed {
		t.Errorf("%v minutes without prices, %v with prices and no rate", free, unweighed)
	}
	// one remedy is paid for on nearly every way; a few are given up
	if more := priced - free; more < 20 || more > 31 {
		t.Errorf("30 minutes' worth of parts add %v minutes", more)
	}
	c, _ := e.Catalog.Cause("springs_weak")
	p := plan.Prices{Rate: 90, Of: map[string]float64{}}
	for _, part := range c.Remedy.Parts {
		p.Of[part] = 12
	}
	if got, want := p.Minutes(p.Parts(c, nil)), 8*float64(len(c.Remedy.Parts)); math.Abs(got-want) > 1e-9 || want == 0 {
		t.Errorf("%v parts at 12 are %v minutes, want %v", len(c.Remedy.Parts), got, want)
	}
}

// A plan adds up: its ways are all there are, and its first step is the advice.
func TestPlanAddsUp(t *testing.T) {
	e := open(t, "..")
	files, _ := filepath.Glob("../testdata/cases/*.yaml")
	for _, file := range files[:min(len(files), 12)] {
		d := diagnose(t, e, file)
		o, err := e.Outline(d, engine.Bench{}, 3)
		if err != nil {
			t.Fatal(err)
		}
		if n := d.Course.Next; o.Plan.Do.Check != n.Check || o.Plan.Do.Cause != n.Cause {
			t.Errorf("%s: the plan starts with %s%s, the advice is %s%s", file, o.Plan.Do.Check, o.Plan.Do.Cause, n.Check, n.Cause)
		}
		addUp(t, file, o.Plan)
	}
}

func addUp(t *testing.T, file string, turn plan.Turn) {
	t.Helper()
	chance, minutes := 0.0, turn.Do.Minutes
	for _, w := range turn.Ways {
		chance += w.Probability
		minutes += w.Probability * w.Minutes
		if w.Then != nil {
			addUp(t, file, *w.Then)
		}
	}
	if math.Abs(chance-1) > 1e-6 || math.Abs(minutes-turn.Minutes) > 1e-6 {
		t.Errorf("%s: after %s%s the ways come to %v, the minutes to %v of %v", file, turn.Do.Check, turn.Do.Cause, chance, minutes, turn.Minutes)
	}
}

// Prices may stand in the case and in its machine sheet, those of the case before
// those of the sheet; what opening uses up is charged with the opening, once, and
// shown as money and not as minutes.
func TestPricesOfCaseAndSheet(t *testing.T) {
	e := open(t, "..")
	text := func(sheet, own string) *intake.Case {
		c, ps := intake.Parse(&source.File{Name: "c", Text: []byte("title: a\nmachine: {actuation: cable" + sheet + "}\n" +
			"signs: {slips_top_gear: yes, slips_loaded: yes, burnt_smell: yes}\n" +
			"readings: {lever_free_play: 12 mm}\ndone: [measure_free_play]\nopen: outside\n" + own)}, e.Catalog, nil)
		if ps.HasErrors() {
			t.Fatal(ps)
		}
		return c
	}
	course := func(sheet, own string, bench engine.Bench) *plan.Course {
		d, err := e.Diagnose(text(sheet, own), bench)
		if err != nil {
			t.Fatal(err)
		}
		return d.Course
	}
	stage, _ := e.Catalog.Stage("cover_off")
	if !slices.Contains(stage.Uses, "engine oil") || !slices.Contains(stage.Uses, "clutch cover gasket") {
		t.Fatalf("the clutch cover comes off and uses up %v", stage.Uses)
	}
	cover := func(c *plan.Course) plan.Door {
		for _, d := range c.Doors {
			if d.Stage == "cover_off" {
				return d
			}
		}
		t.Fatalf("nothing is said about the cover: %+v", c.Doors)
		return plan.Door{}
	}
	const sheet = ", prices: {hour: 60, engine oil: 30, clutch cover gasket: 12}"
	free, priced := course("", "", engine.Bench{}), course(sheet, "", engine.Bench{})
	if d := cover(free); d.Money != 0 || d.Minutes != stage.Minutes {
		t.Errorf("without prices: %+v", d)
	}
	if d := cover(priced); d.Money != 42 || d.Minutes != stage.Minutes {
		t.Errorf("with prices: %+v, want 42 and %v minutes", d, stage.Minutes)
	}
	if d := cover(course(sheet, "prices: {engine oil: 40}\n", engine.Bench{})); d.Money != 52 {
		t.Errorf("the case knows better: %+v, want 52", d)
	}
	if d := cover(course(sheet, "", engine.Bench{Prices: plan.Prices{Of: map[string]float64{"engine oil": 50}}})); d.Money != 62 {
		t.Errorf("the command line knows best: %+v, want 62", d)
	}
	// 42 at 60 an hour are 42 minutes, paid once on the ways that open it.
	if more := priced.Minutes - free.Minutes; more <= 0 || more > 42 {
		t.Errorf("opening for 42 more adds %v minutes", more)
	}
	if unweighed := course(", prices: {engine oil: 30}", "", engine.Bench{}); unweighed.Minutes != free.Minutes {
		t.Errorf("without money for an hour: %v minutes, want %v", unweighed.Minutes, free.Minutes)
	}
}
