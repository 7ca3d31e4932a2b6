package rule

import (
	"math"
	"slices"
	"strings"
	"testing"

	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/unit"
)

// formulas has a reading of two values, a sheet and a derived quantity.
func formulas() (*Set, *fact.Vocabulary, fact.Set) {
	v := words()
	v.Add(fact.Word{ID: "worn_by", Role: fact.RoleDerived, Kind: fact.Quantity, Dim: unit.Length})
	facts := known(map[string]fact.Value{
		"thickness": {Kind: fact.Reading, Values: []float64{0.002, 0.004}, SI: 0.003}, "machine.plates": {Kind: fact.Count, SI: 7},
		"machine.limit.thickness": {Kind: fact.Quantity, SI: 0.0025}, "machine.actuation": {Kind: fact.Choice, Word: "cable"},
	})
	facts.Put("worn_by", fact.Value{Kind: fact.Quantity, SI: 0.001})
	return &Set{eval: newEvaluator()}, v, facts
}

func TestExpressions(t *testing.T) {
	set, v, facts := formulas()
	for _, tt := range []struct {
		text, words, calls string
		dim                unit.Dimension
		want               float64
	}{
		{"machine.plates * (mean(thickness) - mm(1))", "machine.plates thickness", "mean mm", unit.Length, 0.014},
		{"worn_by / machine.limit.thickness", "worn_by machine.limit.thickness", "", unit.Dimensionless, 0.4},
		{"wear_used(mm(4), machine.limit.thickness, lowest(thickness))", "machine.limit.thickness thickness", "wear_used mm lowest", unit.Dimensionless, 4.0 / 3},
		{`proof_load(thread_diameter("m6"), thread_pitch("m6"), megapascals(580))`, "", "proof_load thread_diameter thread_pitch megapascals", unit.Force, 11671},
	} {
		x, err := set.Expression(tt.text)
		if err == nil {
			err = set.CheckNumber(x, v, tt.dim)
		}
		if err != nil {
			t.Errorf("%s: %v", tt.text, err)
			continue
		}
		if strings.Join(x.Words(), " ") != tt.words || strings.Join(x.Calls(), " ") != tt.calls {
			t.Errorf("%s: words %v, calls %v", tt.text, x.Words(), x.Calls())
		}
		if got, err := set.Compute(x, facts.Get); err != nil || math.Abs(got-tt.want) > 1e-3*tt.want {
			t.Errorf("%s: got %g, %v, want %g", tt.text, got, err, tt.want)
		}
	}
}

// In a condition a derived quantity is something measured; in a formula a number.
func TestDerivedQuantitiesInConditions(t *testing.T) {
	set, v, _ := formulas()
	for text, good := range map[string]bool{"below(worn_by, mm(2))": true, "worn_by < mm(2)": false, "mean(worn_by) < mm(2)": true} {
		cond, p := set.eval.parse(text)
		if p != nil {
			t.Fatal(p.message)
		}
		if ps := (typer{v, set.eval.functions, anything, false}).condition(cond); (len(ps) == 0) != good {
			t.Errorf("%s: %v", text, ps)
		}
	}
}

func TestExpressionsRefuse(t *testing.T) {
	set, v, facts := formulas()
	for text, want := range map[string]string{
		"mean(thickness": "cannot be read", "damp and damp": "is yes or no", "mean(thicknes)": "did you mean thickness",
		"machine.plates": "expected a number of length", "creeps": "is a sign", "mean(thickness) + machine.plates": "is compared with",
		"oil_viscosity(machine.actuation, celsius(1), 1)": "wants",
	} {
		x, err := set.Expression(text)
		if err == nil {
			err = set.CheckNumber(x, v, unit.Length)
		}
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: got %v, want %q", text, err, want)
		}
	}
	// What is only wrong for the values at hand is an error of the computation.
	for text, want := range map[string]string{
		"wear_used(mm(2), mm(2), mean(thickness))": "limit", "mean(thickness) / (machine.plates - 7)": "no number",
		"thread_diameter(machine.actuation)": `unknown thread "cable"`,
	} {
		x, err := set.Expression(text)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := set.Compute(x, facts.Get); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: got %v, want %q", text, err, want)
		}
	}
}

// No text may panic the parser, the types or the computation.
func FuzzExpression(f *testing.F) {
	for _, s := range []string{"mean(thickness)", "mm(1) / 0", "-worn_by", `thread_pitch("m7")`, `oil_viscosity("10w-40", celsius(1), 1)`, "a(b(c", "1e400", "max(mm(1), worn_by)"} {
		f.Add(s)
	}
	set, v, facts := formulas()
	f.Fuzz(func(t *testing.T, text string) {
		x, err := set.Expression(text)
		fits := func(d unit.Dimension) bool { return set.CheckNumber(x, v, d) == nil }
		if err != nil || !slices.ContainsFunc([]unit.Dimension{unit.Length, unit.Dimensionless}, fits) {
			return
		}
		if got, err := set.Compute(x, facts.Get); err == nil && (math.IsNaN(got) || math.IsInf(got, 0)) {
			t.Errorf("%q gives %g", text, got)
		}
	})
}
