package engine_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"example.org/takeup/engine"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/inspect"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/mechanics"
	"example.org/takeup/engine/unit"
)

// sweep is one reading moved across one of its limits, from well inside (0) to well
// past, in steps of one standard uncertainty.
type sweep struct {
	reading string
	limit   float64
	past    float64 // +1 when larger values are past, -1 when smaller
	room    float64 // how far inside there is room; half the range, or no end
}

// sweeps lists the limits of a machine sheet that readings are held against.
func sweeps(e *engine.Engine, words fact.Set) []sweep {
	var out []sweep
	of := func(word string) (float64, bool) {
		if v := e.Derived.Value(word, words); v.Known() {
			return v.SI, true
		}
		v, ok := words.Get("machine." + word)
		return v.SI, ok && word != ""
	}
	add := func(reading, word string, past, room float64) {
		if v, ok := of(word); ok {
			out = append(out, sweep{reading, v, past, room})
		}
	}
	for _, r := range e.Catalog.Readings {
		switch r.Sense {
		case "min":
			add(r.ID, r.Limit, -1, math.Inf(1))
		case "max":
			add(r.ID, r.Limit, +1, math.Inf(1))
		case "range":
			low, _ := of(r.LimitMin)
			high, _ := of(r.LimitMax)
			add(r.ID, r.LimitMin, -1, (high-low)/2)
			add(r.ID, r.LimitMax, +1, (high-low)/2)
		}
	}
	return out
}

// point is what one value of the sweep leads to.
type point struct {
	judged  inspect.Judged
	reading inspect.Measurement
	causes  map[string]float64
	rank    map[string]int
}

func at(t *testing.T, e *engine.Engine, words fact.Set, s sweep, sigmas float64) point {
	t.Helper()
	r, _ := e.Catalog.Reading(s.reading)
	// The uncertainty of the usual gauge is read the way a case would be.
	probe, ps := parse(e.Catalog, fmt.Sprintf("title: x\nreadings: {%s: %g %s}", s.reading, inUnit(s.limit, r.Unit), r.Unit))
	if ps.HasErrors() {
		t.Fatal(ps)
	}
	v, _ := probe.Known.Get(s.reading)
	x := s.limit + s.past*max(sigmas*v.Sigma, -s.room)
	c := &intake.Case{Title: "x", Known: words.Clone()}
	v.Values, v.SI = []float64{x}, x
	c.Known.Put(s.reading, v)
	d, err := e.Diagnose(c, engine.Bench{})
	if err != nil {
		t.Fatal(err)
	}
	found := e.Inspect(d)
	if len(found.Readings) != 1 || found.Readings[0].Judged == nil {
		t.Fatalf("%s is not judged: %+v", s.reading, found.Readings)
	}
	p := point{*found.Readings[0].Judged, found.Readings[0], map[string]float64{}, map[string]int{}}
	for i, cause := range d.Explanation.Causes {
		p.causes[cause.ID], p.rank[cause.ID] = cause.Probability, i
	}
	return p
}

// unread are the limits that settle no sign: a good figure clears only half of one, or
// there is nothing a rider or mechanic would call it. Their verdict is all there is.
var unread = []string{"steel_thickness", "hub_end_float +1", "chain_sag -1", "idle_speed -1"}

// Moving one reading across its limit changes the verdict from inside to past, once,
// and the causes it speaks for rise all the way and never jump: within the gauge's
// uncertainty the change is spread out.
func TestReadingAcrossItsLimit(t *testing.T) {
	e := open(t, "..")
	_, words, ps := intake.LoadMachine("../testdata/machines/heron-400.yaml", e.Catalog)
	if ps.HasErrors() {
		t.Fatal(ps)
	}
	all := sweeps(e, words)
	if len(all) < 20 {
		t.Fatalf("only %d limits", len(all))
	}
	for _, s := range all {
		t.Run(fmt.Sprintf("%s%+g", s.reading, s.past), func(t *testing.T) { acrossLimit(t, e, words, s) })
	}
}

func acrossLimit(t *testing.T, e *engine.Engine, words fact.Set, s sweep) {
	const steps = 8
	var points []point
	for i := range steps + 1 {
		points = append(points, at(t, e, words, s, float64(i)-4))
	}
	if first, last := points[0].judged.Verdict, points[steps].judged.Verdict; first != mechanics.Inside || last != mechanics.Past {
		t.Fatalf("goes from %s to %s", first, last)
	}
	cause := ""
	for _, shown := range points[steps].reading.Shows {
		for _, w := range shown.Causes {
			if cause == "" && w.Decibans > 1 {
				cause = w.Cause
			}
		}
	}
	if silent := slices.Contains(unread, s.reading) || slices.Contains(unread, fmt.Sprintf("%s %+g", s.reading, s.past)); silent != (cause == "") {
		t.Fatalf("speaks for %q", cause)
	}
	for i := 1; i <= steps; i++ {
		a, b := points[i-1], points[i]
		if b.judged.Verdict < a.judged.Verdict || b.judged.PastProb < a.judged.PastProb-1e-12 {
			t.Errorf("step %d goes back: %+v, %+v", i, a.judged, b.judged)
		}
		if b.judged.PastProb-a.judged.PastProb > 0.4 { // one sigma moves the normal distribution by less
			t.Errorf("step %d jumps by %.2f", i, b.judged.PastProb-a.judged.PastProb)
		}
		if cause == "" {
			continue
		}
		if rise := b.causes[cause] - a.causes[cause]; rise < -1e-9 || rise > 0.5 {
			t.Errorf("step %d moves %s by %.3f", i, cause, rise)
		}
	}
	if cause == "" {
		return
	}
	if from, to := points[0].causes[cause], points[steps].causes[cause]; to < 2*from {
		t.Errorf("%s only rises from %.4f to %.4f", cause, from, to)
	}
	if points[steps].rank[cause] >= points[0].rank[cause] {
		t.Errorf("%s ranks %d inside and %d past", cause, points[0].rank[cause], points[steps].rank[cause])
	}
}

// A tired clutch measured on the bench: the verdicts, the evidence and the ranking
// tell the same story, and so does what the readings add up to.
func TestTiredClutchAgrees(t *testing.T) {
	e := open(t, "..")
	d := diagnose(t, e, "../testdata/cases/slips-and-measured-on-the-bench.yaml")
	found := e.Inspect(d)
	past := map[string]string{"friction_thickness": "frictions_worn", "spring_free_length": "springs_weak"}
	for _, r := range found.Readings {
		cause, worn := past[r.ID]
		if worn != (r.Judged.Verdict == mechanics.Past) {
			t.Errorf("%s is %s", r.ID, r.Judged.Verdict)
		}
		for _, s := range r.Shows {
			if len(s.Causes) == 0 {
				t.Errorf("%s: %s has no weights", r.ID, s.Sign)
			}
			for _, ev := range d.Evidence {
				if ev.Rule == s.Rule && ev.Yes() != (s.Probability > 0.5) {
					t.Errorf("%s: evidence %+v against %+v", r.ID, ev, s)
				}
			}
		}
		if c, _ := d.Explanation.Find(cause); worn && c.Probability < 0.5 {
			t.Errorf("%s is past and %s has %.2f", r.ID, cause, c.Probability)
		}
	}
	margin := figureOf(t, found, "slip_margin_now")
	if margin.SI > 1.05 || !margin.Even || margin.Means == "" {
		t.Errorf("slip margin %+v: a clutch that slips on hills has none", margin)
	}
	sheet, err := e.Build(d, "")
	if err != nil {
		t.Fatal(err)
	}
	var renewed []string
	for _, c := range sheet.Causes {
		renewed = append(renewed, c.ID)
	}
	for _, cause := range past {
		if !slices.Contains(renewed, cause) {
			t.Errorf("the build sheet puts right %v, not %s", renewed, cause)
		}
	}
}

func figureOf(t *testing.T, found inspect.Inspection, id string) inspect.Figure {
	t.Helper()
	for _, g := range found.Groups {
		for _, f := range g.Figures {
			if f.ID == id {
				return f
			}
		}
	}
	t.Fatalf("no figure %s", id)
	return inspect.Figure{}
}

// inUnit is an SI value in a unit.
func inUnit(si float64, symbol string) float64 {
	u, _ := unit.Find(symbol)
	return u.FromSI(si)
}

// asPrinted compares a figure of the pack with a worked example of a textbook.
func asPrinted(t *testing.T, known fact.Set, e *engine.Engine, id string, want, tolerance float64) {
	t.Helper()
	v := e.Derived.Value(id, known)
	if !v.Known() || !near(v.SI, want, tolerance) {
		t.Errorf("%s: got %+v, want %g", id, v, want)
	}
}

// clutch is a machine sheet and readings as words of the set, all in SI.
func clutch(quantities map[string]float64, readings map[string][]float64) fact.Set {
	var known fact.Set
	for id, si := range quantities {
		known.Put("machine."+id, fact.Value{Kind: fact.Quantity, SI: si})
	}
	for id, values := range readings {
		v := fact.Value{Kind: fact.Reading, Values: values}
		v.SI = v.Mean()
		known.Put(id, v)
	}
	return known
}

// Khurmi & Gupta, Theory of Machines, ex. 10.30 (C11): four faces pairs lose 10 mm of
// height, six springs of 13 N/mm; clamp 1353.36 N new and 573.36 N worn, 61.92 N m
// left. The formulas of the pack, not only those of the code, must give it.
func TestWornPackAsPublished(t *testing.T) {
	e := open(t, "..")
	known := clutch(map[string]float64{
		"frictions": 2, "friction.new": 0.008, "springs": 6, "spring.rate": 13000, "spring.free_new": 0.050,
		"spring.installed": 0.050 - 1353.36/(6*13000), "friction.coefficient": 0.3, "friction.inner_diameter": 0.120,
		"friction.outer_diameter": 0.240, "engine.torque": 61.92, "primary_ratio": 1,
	}, map[string][]float64{"friction_thickness": {0.003, 0.003}, "spring_free_length": {0.050}})
	asPrinted(t, known, e, "pack_wear", 0.010, 1e-9)
	asPrinted(t, known, e, "clamp_new", 1353.36, 1e-3)
	asPrinted(t, known, e, "clamp_now", 573.36, 1e-3)
	asPrinted(t, known, e, "capacity_now", 61.92, 1e-3)
	asPrinted(t, known, e, "slip_margin_now", 1, 1e-3)
}

// FOSSEE Scilab 764, ex. 11.6 (C3): nine springs of 800 N, 160 N/mm, both faces of one
// plate; margin 2.142 by uniform wear, 2.6657 mm of wear before it slips.
func TestWearBeforeSlipAsPublished(t *testing.T) {
	e := open(t, "..")
	known := clutch(map[string]float64{
		"frictions": 1, "friction.new": 0.010, "springs": 9, "spring.rate": 160000, "spring.free_new": 0.050,
		"spring.installed": 0.045, "friction.coefficient": 0.35, "friction.inner_diameter": 0.175,
		"friction.outer_diameter": 0.250, "engine.torque": 250, "primary_ratio": 1,
	}, map[string][]float64{"friction_thickness": {0.010}, "spring_free_length": {0.050}})
	asPrinted(t, known, e, "slip_margin_new", 2.1420, 5e-4)
	asPrinted(t, known, e, "wear_before_slip_left", 2.6657e-3, 5e-4)
}

// Computed: five springs of 18 N/mm each shorter by 1 mm lose 90 N; 10 g at 70 mm and
// 5000 rpm pull with 191.9 N (U5); a finger of play in the basket of 4 degrees is half a
// degree at a wheel geared 8 to 1; 3 degrees of lean are 5.24 % of the length.
func TestOtherFigures(t *testing.T) {
	e := open(t, "..")
	known := clutch(map[string]float64{
		"springs": 5, "spring.rate": 18000, "spring.free_new": 0.040, "friction.outer_diameter": 0.140, "primary_ratio": 2,
		"engine.torque_speed": 10000 * 2 * math.Pi / 60, "gearbox.first_ratio": 2.5, "final_ratio": 3.2,
	}, map[string][]float64{
		"spring_free_length": {0.039, 0.039}, "spring_lean": {3 * math.Pi / 180}, "broken_piece_mass": {0.010}, "cush_play": {4 * math.Pi / 180},
	})
	asPrinted(t, known, e, "spring_clamp_lost", 90, 1e-9)
	asPrinted(t, known, e, "unbalance_of_piece", 191.9, 1e-3)
	asPrinted(t, known, e, "cush_play_at_wheel", 0.5*math.Pi/180, 1e-9)
	asPrinted(t, known, e, "spring_lean_share", 0.0524, 1e-3)
	known.Put("machine.spring_screw.thread", fact.Value{Kind: fact.Choice, Word: "m6"})
	known.Put("machine.torque.spring_screw", fact.Value{Kind: fact.Quantity, SI: 10.44})
	asPrinted(t, known, e, "spring_screw_proof_share", 0.75, 1e-2) // ISO 898-1 rounds the proof load (T3)
	known.Put("machine.oil.grade", fact.Value{Kind: fact.Choice, Word: "sae_10w_40"})
	if v := e.Derived.Value("drag_ratio_cold", known); !v.Known() || v.SI < 5 || v.SI > 200 {
		t.Errorf("cold over hot drag: %+v", v) // direction and size only
	}
}

// near compares to a relative tolerance.
func near(got, want, tolerance float64) bool { return math.Abs(got-want) <= tolerance*math.Abs(want) }

// Plates that are listed are judged like plates that were measured, and the pack is as
// tall as the list says, not as the sheet's count of plates would make it.
func TestListedPlatesAreJudged(t *testing.T) {
	e := open(t, "..")
	inspected := func(text string) inspect.Inspection {
		c, ps := parse(e.Catalog, "title: x\nmachine: {frictions: 3, steels: 2, friction.new: 3 mm, limit.friction_thickness: 2.7 mm}\n"+text)
		if ps.HasErrors() {
			t.Fatal(ps)
		}
		d, err := e.Diagnose(c, engine.Bench{})
		if err != nil {
			t.Fatal(err)
		}
		return e.Inspect(d)
	}
	found := inspected("stack: [hub, x2: [friction: {thickness: 2.9 mm}, steel: {thickness: 1.6 mm}], pressure_plate]")
	if len(found.Readings) != 2 || !found.Readings[0].Listed || found.Readings[0].Judged.Verdict != mechanics.Inside {
		t.Fatalf("readings %+v", found.Readings)
	}
	height := figureOf(t, found, "pack_height_listed")
	// Two and two plates, a calliper of 0.03 mm of which 0.012 mm is common to all.
	sigma := math.Hypot(4*0.012, 2*math.Sqrt(0.03*0.03-0.012*0.012)) * 1e-3
	if !near(height.SI, 0.009, 1e-9) || !near(height.Sigma, sigma, 1e-6) {
		t.Errorf("height %+v, want 9 mm with %g", height, sigma)
	}
	for _, g := range found.Groups {
		for _, f := range g.Figures {
			if f.ID == "pack_height_summed" {
				t.Errorf("beside the list stands %+v", f)
			}
		}
	}
	worn := inspected("stack: [hub, x2: [friction: {thickness: 2.4 mm}, steel: {thickness: 1.6 mm}], pressure_plate]")
	r := worn.Readings[0]
	if r.Judged.Verdict != mechanics.Past || !slices.ContainsFunc(r.Shows, func(s inspect.Shown) bool { return s.Sign == "linings_thin_found" && s.Probability > 0.9 }) {
		t.Errorf("worn linings in the list: %+v", r)
	}
}
