package inspect

import (
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/derive"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/mechanics"
	"example.org/takeup/engine/rule"
)

const mm = 1e-3

// bench is the built-in pack with a few readings and words of a machine sheet.
type bench struct {
	cat   *catalog.Catalog
	rules *rule.Set
	table *derive.Table
}

func open(t testing.TB) bench {
	t.Helper()
	cat, ps := catalog.Load(os.DirFS("../../knowledge"))
	words := cat.Vocabulary()
	set, more := rule.Load(os.DirFS("../../rules"), words)
	if ps = append(ps, more...); ps.HasErrors() {
		t.Fatal(ps)
	}
	return bench{cat, set, derive.New(cat, set, words)}
}

func (b bench) inspect(known fact.Set) Inspection {
	return Case(Input{Catalog: b.cat, Rules: b.rules, Derived: b.table, Known: known, Firings: b.rules.Fire(b.table.Fill(known))})
}

func sheet(words map[string]float64) fact.Set {
	var known fact.Set
	for id, si := range words {
		known.Put("machine."+id, fact.Value{Kind: fact.Quantity, SI: si})
	}
	return known
}

func take(known *fact.Set, id string, sigma float64, values ...float64) {
	v := fact.Value{Kind: fact.Reading, Values: values, Sigma: sigma}
	v.SI = v.Mean()
	known.Put(id, v)
}

// A case of one reading, judged.
func (b bench) one(t interface {
	Helper()
	Fatalf(string, ...any)
}, known fact.Set) Measurement {
	t.Helper()
	found := b.inspect(known)
	if len(found.Readings) != 1 {
		t.Fatalf("%d readings", len(found.Readings))
	}
	return found.Readings[0]
}

// Computed rows G1 and G2 of the reference table: limit 2.80 mm, calliper with
// u = 0.02887 mm, micrometer with u = 0.00231 mm, coverage 2.
func TestThreeWayVerdict(t *testing.T) {
	b := open(t)
	for _, tt := range []struct {
		sigma, value float64
		want         mechanics.Verdict
	}{
		{0.05 / math.Sqrt(3), 2.8578, mechanics.Inside}, {0.05 / math.Sqrt(3), 2.8576, mechanics.TooClose},
		{0.05 / math.Sqrt(3), 2.7424, mechanics.TooClose}, {0.05 / math.Sqrt(3), 2.7422, mechanics.Past},
		{0.004 / math.Sqrt(3), 2.8047, mechanics.Inside}, {0.004 / math.Sqrt(3), 2.7953, mechanics.Past},
	} {
		known := sheet(map[string]float64{"limit.friction_thickness": 2.80 * mm})
		take(&known, "friction_thickness", tt.sigma*mm, tt.value*mm)
		if r := b.one(t, known); r.Judged.Verdict != tt.want {
			t.Errorf("%.4f mm: %s, want %s", tt.value, r.Judged.Verdict, tt.want)
		}
	}
}

// Whatever the readings: the worst value counts, the verdict fits the probability, and
// making any value worse never makes the verdict better.
func TestVerdictIsMonotone(t *testing.T) {
	b := open(t)
	rapid.Check(t, func(rt *rapid.T) {
		values := rapid.SliceOfN(rapid.Float64Range(2, 3.2), 1, 8).Draw(rt, "values")
		sigma := rapid.Float64Range(0.001, 0.1).Draw(rt, "sigma") * mm
		at := rapid.IntRange(0, len(values)-1).Draw(rt, "at")
		by := rapid.Float64Range(0, 0.5).Draw(rt, "by")
		known := sheet(map[string]float64{"limit.friction_thickness": 2.7 * mm, "friction.new": 3 * mm})
		judged := func() Measurement {
			si := make([]float64, len(values))
			for i, v := range values {
				si[i] = v * mm
			}
			take(&known, "friction_thickness", sigma, si...)
			return b.one(rt, known)
		}
		before := judged()
		if before.Counted != slices.Min(before.Values) {
			rt.Fatalf("counted %g of %v", before.Counted, before.Values)
		}
		values[at] -= by
		after := judged()
		if after.Judged.Verdict < before.Judged.Verdict || after.Judged.PastProb < before.Judged.PastProb-1e-12 {
			rt.Fatalf("thinner is better: %+v, %+v", before.Judged, after.Judged)
		}
		if after.Wear.Used < before.Wear.Used-1e-12 || (after.Wear.Used > 1) != (after.Judged.Room < 0) {
			rt.Fatalf("wear %+v against %+v", after.Wear, after.Judged)
		}
		for _, s := range after.Shows {
			if s.Sign == "linings_thin_found" && math.Abs(s.Probability-after.Judged.PastProb) > 1e-9 {
				rt.Fatalf("the rule says %g, the verdict %g", s.Probability, after.Judged.PastProb)
			}
		}
	})
}

func TestRangeCountsTheWorseEnd(t *testing.T) {
	b := open(t)
	known := sheet(map[string]float64{"limit.free_play_min": 4 * mm, "limit.free_play_max": 8 * mm})
	for _, tt := range []struct {
		value float64
		want  mechanics.Verdict
		below bool
	}{{1, mechanics.Past, true}, {6, mechanics.Inside, false}, {7.9, mechanics.TooClose, false}, {11, mechanics.Past, false}} {
		take(&known, "lever_free_play", 0.3*mm, tt.value*mm)
		if r := b.one(t, known); r.Judged.Verdict != tt.want || tt.value != 6 && r.Judged.Below != tt.below {
			t.Errorf("%g mm: %+v", tt.value, r.Judged)
		}
	}
}

// Without a limit on the sheet a general figure stands in, and says so; without
// either there is no verdict but the limit is named as missing.
func TestWithoutALimit(t *testing.T) {
	b := open(t)
	var known fact.Set
	take(&known, "cush_play", 0.01, 0.06)
	if r := b.one(t, known); r.Limit == nil || !r.Limit.General || r.Limit.Basis != fact.CommonPractice || r.Judged.Verdict != mechanics.Past {
		t.Errorf("general figure: %+v", r)
	}
	known = fact.Set{}
	take(&known, "steel_warp", 0.01*mm, 0.1*mm)
	found := b.inspect(known)
	if r := found.Readings[0]; r.Judged != nil || r.Limit != nil {
		t.Errorf("no limit: %+v", r)
	}
	if !slices.ContainsFunc(found.Missing, func(m Missing) bool {
		return slices.Equal(m.Words, []string{"machine.limit.steel_warp"}) && slices.Equal(m.Verdict, []string{"steel_warp"})
	}) {
		t.Errorf("missing: %+v", found.Missing)
	}
}

func TestOneValueApart(t *testing.T) {
	for _, tt := range []struct {
		values []float64
		want   int
	}{
		{[]float64{38, 38.1, 38, 36.9, 38}, 3},
		{[]float64{38, 38.1, 38.05, 37.95, 38}, -1},
		{[]float64{38, 36}, -1}, // two cannot say which
		{[]float64{36, 37, 38, 39, 40}, -1},
		{[]float64{2.8, 2.8, 3.4}, 2},
		{nil, -1},
	} {
		if got := apart(tt.values, 0.03); got != tt.want {
			t.Errorf("%v: %d, want %d", tt.values, got, tt.want)
		}
	}
}

// A mistake is named where it could have made the verdict: one that reads high hides
// wear behind a good thickness, and cannot have made a bad one.
func TestDoubtsFitTheVerdict(t *testing.T) {
	b := open(t)
	tab := "Measured over a tab"
	named := func(r Measurement) bool {
		return slices.ContainsFunc(r.Doubts, func(d string) bool { return strings.HasPrefix(d, tab) })
	}
	known := sheet(map[string]float64{"limit.friction_thickness": 2.7 * mm})
	for _, tt := range []struct {
		value float64
		want  bool
	}{{2.95, true}, {2.71, true}, {2.4, false}} {
		take(&known, "friction_thickness", 0.03*mm, tt.value*mm)
		if r := b.one(t, known); named(r) != tt.want {
			t.Errorf("%g mm: %v", tt.value, r.Doubts)
		}
	}
	take(&known, "friction_thickness", 0.03*mm, 2.95*mm, 2.95*mm, 2.94*mm, 2.6*mm)
	r := b.one(t, known)
	if r.Apart != 3 || !slices.ContainsFunc(r.Doubts, func(d string) bool { return strings.Contains(d, "wedge") }) {
		t.Errorf("one plate apart: %+v", r)
	}
}

// Computed: the plays of the parts at the wheel add up, the shares to one, and what is
// left over is named with its own uncertainty.
func TestPartsAddUp(t *testing.T) {
	b := open(t)
	degree := math.Pi / 180
	known := sheet(map[string]float64{"gearbox.first_ratio": 2.5, "final_ratio": 3.2, "friction.outer_diameter": 0.124})
	take(&known, "cush_play", 0.5*degree, 4*degree)
	take(&known, "hub_rubber_play", 0.5*degree, 1*degree)
	take(&known, "wheel_play", 0.5*degree, 4*degree)
	for _, g := range b.inspect(known).Groups {
		if g.ID != "lash" {
			continue
		}
		if math.Abs(g.Parts.Sum-1.5*degree) > 1e-12 || math.Abs(g.Parts.Rest-2.5*degree) > 1e-12 {
			t.Errorf("parts %+v", g.Parts)
		}
		if want := math.Sqrt(2*0.25+0.5*0.5/64) * degree; math.Abs(g.Parts.RestSigma-want) > 1e-6 {
			t.Errorf("rest is known to %g, want %g", g.Parts.RestSigma, want)
		}
		shares := 0.0
		for _, f := range g.Figures {
			shares += f.Share
		}
		if math.Abs(shares-1) > 1e-12 {
			t.Errorf("shares add up to %g", shares)
		}
		return
	}
	t.Error("no group")
}

// The choice of plates is that of the mechanics: fewest first, inside the range.
func TestPlatesToHeight(t *testing.T) {
	b := open(t)
	known := sheet(map[string]float64{"pack.height_min": 30.2 * mm, "pack.height_max": 30.9 * mm, "steels": 6, "steel.new": 1.6 * mm})
	known.Put("machine.selective_plates", fact.Value{Kind: fact.Sizes, Values: []float64{1.6 * mm, 1.7 * mm, 1.8 * mm}})
	for _, tt := range []struct {
		height float64
		swaps  int
		in     bool
	}{{30.5, 0, true}, {30.1, 1, true}, {29.7, 3, true}, {28.0, 6, false}} {
		take(&known, "pack_height", 0.03*mm, tt.height*mm)
		found := b.inspect(known).Fittings
		if len(found) != 1 || len(found[0].Plans) == 0 {
			t.Fatalf("%g mm: %+v", tt.height, found)
		}
		best := found[0].Plans[0]
		if len(best.Swaps) != tt.swaps || best.InRange != tt.in || found[0].Guessed != 6 || !found[0].Measured {
			t.Errorf("%g mm: %+v", tt.height, found[0])
		}
		if u := math.Hypot(0.03, 0.005*math.Sqrt(2*float64(tt.swaps))) * mm; math.Abs(best.HeightU-u) > 1e-9 {
			t.Errorf("%g mm: known to %g, want %g", tt.height, best.HeightU, u)
		}
	}
}

// Bare rate and preload are what stands between worn plates and the clamp force.
func TestMissingNamesWhatItWouldGive(t *testing.T) {
	b := open(t)
	known := sheet(map[string]float64{"springs": 5, "frictions": 7, "friction.new": 3 * mm, "spring.free_new": 38 * mm})
	take(&known, "spring_free_length", 0.03*mm, 36.5*mm)
	take(&known, "friction_thickness", 0.03*mm, 2.8*mm)
	for _, m := range b.inspect(known).Missing {
		if slices.Contains(m.Gives, "clamp_now") {
			if fmt.Sprint(m.Words) != "[machine.spring.rate machine.spring.installed]" {
				t.Errorf("clamp_now waits for %v", m.Words)
			}
			return
		}
	}
	t.Error("nobody says what the clamp force waits for")
}

// Every outcome of every derived quantity can be reached and no bound is out of order
// on a full sheet.
func TestOutcomesStandInOrder(t *testing.T) {
	b := open(t)
	known := sheet(map[string]float64{"pack.height_min": 30.2 * mm, "pack.height_max": 30.9 * mm})
	in := Input{Catalog: b.cat, Rules: b.rules, Derived: b.table, Known: known}
	for _, d := range b.cat.Derived {
		last := math.Inf(-1)
		for _, o := range d.Means {
			bound, ok := b.table.Bound(o.Below, known)
			if o.Below == "" {
				bound, ok = math.Inf(1), true
			}
			if !ok || bound <= last {
				t.Errorf("%s: bound %q is %g after %g", d.ID, o.Below, bound, last)
			}
			middle := bound - 1e-6
			if math.IsInf(bound, 1) {
				middle = last + 1e-6
			}
			if math.IsInf(middle, -1) {
				middle = 0
			}
			if f := in.figure(d, middle, 0); f.Means != o.Says {
				t.Errorf("%s: %g means %q, want %q", d.ID, middle, f.Means, o.Says)
			}
			last = bound
		}
	}
}
