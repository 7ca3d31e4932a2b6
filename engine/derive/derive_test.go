package derive

import (
	"math"
	"os"
	"regexp"
	"strings"
	"testing"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/rule"
	"example.org/takeup/engine/source"
)

func pack(t *testing.T) (*Table, *rule.Set) {
	t.Helper()
	cat, ps := catalog.Load(os.DirFS("testdata/pack/knowledge"))
	words := cat.Vocabulary()
	set, more := rule.Load(os.DirFS("testdata/pack/rules"), words)
	table := New(cat, set, words)
	table.Check(&ps)
	if ps = append(ps, more...); ps.HasErrors() {
		t.Fatal(ps)
	}
	return table, set
}

const mm = 1e-3

func reading(sigma float64, values ...float64) fact.Value {
	v := fact.Value{Kind: fact.Reading, Values: values, Sigma: sigma}
	v.SI = v.Mean()
	return v
}

// shelf is five boards of 20 mm when new, measured at 19, 18.9 and 19.1 mm.
func shelf() fact.Set {
	var known fact.Set
	known.Put("machine.boards", fact.Value{Kind: fact.Count, SI: 5})
	known.Put("machine.new", fact.Value{Kind: fact.Quantity, SI: 20 * mm})
	known.Put("thickness", reading(0.1*mm, 19*mm, 18.9*mm, 19.1*mm))
	known.Put("gap", reading(0.2*mm, 2*mm))
	return known
}

// The uncertainties are worked out by hand: an error common to all values goes in
// five times, n t; a difference only feels the error of its two ends; independent parts
// add as root sum of squares (GUM, JCGM 100, 5.1.2 and 5.2.2).
func TestValues(t *testing.T) {
	table, _ := pack(t)
	for _, tt := range []struct {
		id         string
		value, std float64
	}{
		{"mean_thickness", 19 * mm, 0.1 * mm},
		{"height", 97 * mm, math.Hypot(0.5, 0.2) * mm},
		{"uneven", 0.2 * mm, 0.1 * math.Sqrt2 * mm},
		{"thinnest", 18.9 * mm, 0.1 * mm},
		{"share", 0.1, 0.01},
	} {
		v := table.Value(tt.id, shelf())
		if !v.Known() || math.Abs(v.SI-tt.value) > 1e-9 || math.Abs(v.Sigma-tt.std) > 1e-6*tt.value+1e-12 {
			t.Errorf("%s: got %+v, want %g with %g", tt.id, v, tt.value, tt.std)
		}
	}
}

// Computed: 0.06 of 0.1 mm is common to all values and goes in n times, the other 0.08
// mm evens out over three readings: u = hypot(5 x 0.06, 5 x 0.08/sqrt 3) mm.
func TestCommonPartOfAGauge(t *testing.T) {
	table, _ := pack(t)
	known := shelf()
	v, _ := known.Get("thickness")
	v.Gauge = "calliper"
	known.Put("thickness", v)
	exact, _ := known.Get("gap")
	exact.Sigma = 0
	known.Put("gap", exact)
	if got, want := table.Value("height", known).Sigma, math.Hypot(0.3, 0.4/math.Sqrt(3))*mm; math.Abs(got-want) > 1e-9 {
		t.Errorf("got %g, want %g", got, want)
	}
}

func TestWhatIsMissingIsNamed(t *testing.T) {
	table, _ := pack(t)
	var known fact.Set
	known.Put("gap", reading(0.2*mm, 2*mm))
	v := table.Value("height", known)
	if v.Known() || strings.Join(v.Missing, " ") != "machine.boards thickness" {
		t.Errorf("missing %v", v.Missing)
	}
	if v := table.Value("paint", shelf()); v.Known() || strings.Join(v.Missing, " ") != "machine.painted" {
		t.Errorf("a quantity that may not apply: %+v", v)
	}
	bare := shelf()
	bare.Put("machine.painted", fact.Value{Kind: fact.YesNo, Yes: false})
	if v := table.Value("paint", bare); !v.Off || len(v.Missing) > 0 {
		t.Errorf("a quantity that does not apply: %+v", v)
	}
	if v := table.Value("used", shelf()); v.Known() || !strings.Contains(v.Trouble, "differs from the new size") {
		t.Errorf("a formula out of its range: %+v", v)
	}
	if v := table.Value("nobody", shelf()); v.Known() {
		t.Errorf("an unknown quantity: %+v", v)
	}
	single := shelf()
	single.Put("thickness", reading(0.1*mm, 19*mm))
	if v := table.Value("uneven", single); v.Known() {
		t.Errorf("one value has no spread: %+v", v)
	}
}

// A rule sees a derived quantity with its uncertainty: 97 mm against 100 mm is
// below for certain, 99.8 mm against 100 mm is not.
func TestRulesSeeDerivedQuantities(t *testing.T) {
	table, set := pack(t)
	fire := func(known fact.Set) rule.Firing {
		f := set.Fire(table.Fill(known))
		table.Settle(f, known)
		return f[0]
	}
	if f := fire(shelf()); f.Probability < 0.999 {
		t.Errorf("well below: %+v", f)
	}
	near := shelf()
	near.Put("gap", reading(0.2*mm, 4.8*mm))
	want := 0.5 * math.Erfc(-0.2/math.Hypot(0.5, 0.2)/math.Sqrt2)
	if f := fire(near); f.Verdict != rule.Soft || math.Abs(f.Probability-want) > 1e-6 {
		t.Errorf("close to the limit: %+v, want %g", f, want)
	}
	var known fact.Set
	known.Put("gap", reading(0.2*mm, 2*mm))
	known.Put("machine.new", fact.Value{Kind: fact.Quantity, SI: 20 * mm})
	if f := fire(known); f.Verdict != rule.Unknown || strings.Join(f.Waits, " ") != "machine.boards thickness" {
		t.Errorf("waits for %v", f.Waits)
	}
}

func TestBoundsUseTheSheet(t *testing.T) {
	table, _ := pack(t)
	if v, ok := table.Bound("machine.boards * machine.new", shelf()); !ok || math.Abs(v-100*mm) > 1e-12 {
		t.Errorf("got %g, %v", v, ok)
	}
	if _, ok := table.Bound("machine.boards * machine.new", fact.Set{}); ok {
		t.Error("a bound without its words is known")
	}
}

// Every wrong formula in the file is reported on its own line with what is wrong.
func TestBadFormulas(t *testing.T) {
	cat, ps := catalog.Load(os.DirFS("testdata/bad"))
	if ps.HasErrors() {
		t.Fatal(ps)
	}
	words := cat.Vocabulary()
	set, _ := rule.Load(os.DirFS("testdata/bad/none"), words)
	var got source.Problems
	New(cat, set, words).Check(&got)
	text, err := os.ReadFile("testdata/bad/knowledge.yaml")
	if err != nil {
		t.Fatal(err)
	}
	want := regexp.MustCompile(`# want (K\d+) "(.*)"$`)
	n := 0
	for i, line := range strings.Split(string(text), "\n") {
		m := want.FindStringSubmatch(line)
		if m == nil {
			continue
		}
		n++
		message := strings.ReplaceAll(m[2], `\"`, `"`)
		found := false
		for _, p := range got {
			found = found || p.Pos.Line == i+1 && p.Code == m[1] && strings.HasPrefix(p.Message, message)
		}
		if !found {
			t.Errorf("line %d: want %s %s, got %v", i+1, m[1], message, got)
		}
	}
	if n != len(got) {
		t.Errorf("%d problems, want %d: %v", len(got), n, got)
	}
}
