package rule

import (
	"strings"
	"testing"

	"github.com/expr-lang/expr"
	"pgregory.net/rapid"

	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/unit"
)

func words() *fact.Vocabulary {
	v := &fact.Vocabulary{}
	for _, w := range []fact.Word{
		{ID: "clutch_opened", Role: fact.RoleFact, Kind: fact.YesNo},
		{ID: "damp", Role: fact.RoleFact, Kind: fact.YesNo},
		{ID: "distance", Role: fact.RoleFact, Kind: fact.Quantity, Dim: unit.Length},
		{ID: "changed", Role: fact.RoleFact, Kind: fact.Choices, Choices: []string{"springs", "oil"}},
		{ID: "machine.actuation", Role: fact.RoleMachine, Kind: fact.Choice, Choices: []string{"cable", "hydraulic"}},
		{ID: "machine.limit.thickness", Role: fact.RoleMachine, Kind: fact.Quantity, Dim: unit.Length},
		{ID: "machine.plates", Role: fact.RoleMachine, Kind: fact.Count},
		{ID: "thickness", Role: fact.RoleReading, Kind: fact.Reading, Dim: unit.Length},
		{ID: "creeps", Role: fact.RoleSign, Kind: fact.YesNo},
		{ID: "worn", Role: fact.RoleCause, Kind: fact.Name},
	} {
		v.Add(w)
	}
	return v
}

func known(values map[string]fact.Value) fact.Set {
	var s fact.Set
	for _, id := range words().IDs() {
		if v, ok := values[id]; ok {
			s.Put(id, v)
		}
	}
	return s
}

func yes(b bool) fact.Value { return fact.Value{Kind: fact.YesNo, Yes: b} }

// Kleene's strong three-valued logic (S. C. Kleene, Introduction to
// Metamathematics, 1952: from memory): a known no decides an and, a known yes
// an or, whatever is unknown.
func TestThreeValues(t *testing.T) {
	eval := newEvaluator()
	facts := known(map[string]fact.Value{
		"clutch_opened":     yes(true),
		"distance":          {Kind: fact.Quantity, SI: 140e3},
		"changed":           {Kind: fact.Choices, Words: []string{"springs"}},
		"machine.actuation": {Kind: fact.Choice, Word: "cable"},
		"machine.plates":    {Kind: fact.Count, SI: 8},
	})
	for _, c := range []struct {
		text  string
		want  Verdict
		waits string
	}{
		{"clutch_opened", Yes, ""},
		{"not clutch_opened", No, ""},
		{"damp", Unknown, "damp"},
		{"clutch_opened and damp", Unknown, "damp"},
		{"not clutch_opened and damp", No, ""},
		{"clutch_opened or damp", Yes, ""},
		{"not clutch_opened or damp", Unknown, "damp"},
		{"not (damp or creeps)", Unknown, "creeps damp"},
		{"distance < km(500)", Yes, ""},
		{"distance < km(100)", No, ""},
		{"distance < miles(100)", Yes, ""},
		{`"springs" in changed and not ("oil" in changed)`, Yes, ""},
		{`machine.actuation == "hydraulic"`, No, ""},
		{`machine.actuation in ["cable", "hydraulic"]`, Yes, ""},
		{"machine.plates == 8 and distance * 2 > km(279)", Yes, ""},
	} {
		cond, p := eval.parse(c.text)
		if p != nil {
			t.Fatalf("%s: %s", c.text, p.message)
		}
		if ps := (typer{words(), eval.functions, anything, false}).condition(cond); len(ps) > 0 {
			t.Errorf("%s: %s", c.text, ps[0].message)
		}
		f := (&Set{eval: eval}).Ask(cond, facts)
		if f.Verdict != c.want || strings.Join(f.Waits, " ") != c.waits {
			t.Errorf("%s: %s, waits for %v; want %s, %q", c.text, f.Verdict, f.Waits, c.want, c.waits)
		}
	}
}

// A reading close to its limit leaves a probability that falls smoothly from
// one to zero as the reading moves across.
func TestSoftReadings(t *testing.T) {
	eval := newEvaluator()
	cond, _ := eval.parse("below(thickness, machine.limit.thickness)")
	last := 1.0
	for _, mm := range []float64{2.50, 2.58, 2.60, 2.62, 2.70} {
		f := (&Set{eval: eval}).Ask(cond, known(map[string]fact.Value{
			"machine.limit.thickness": {Kind: fact.Quantity, SI: 0.0026},
			"thickness":               {Kind: fact.Reading, Values: []float64{mm / 1000, 0.0029}, Sigma: 0.00002},
		}))
		if f.Probability > last {
			t.Errorf("%v mm: %v after %v", mm, f.Probability, last)
		}
		last = f.Probability
		if mm == 2.60 && (f.Probability < 0.499 || f.Probability > 0.501 || f.Verdict != Soft) {
			t.Errorf("at the limit: %v, %s", f.Probability, f.Verdict)
		}
	}
	if last > 0.001 {
		t.Errorf("a tenth above the limit: %v", last)
	}
}

// One spring says nothing about whether the set is even.
func TestSpreadOfOneValueCannotTell(t *testing.T) {
	eval := newEvaluator()
	for _, text := range []string{"spread(thickness) > mm(0.5)", "apart(thickness, mm(0.5))"} {
		cond, _ := eval.parse(text)
		for n, want := range []Verdict{Unknown, No, Yes} {
			values := []float64{0.0026, 0.0027, 0.0036}[:n+1]
			f := (&Set{eval: eval}).Ask(cond, known(map[string]fact.Value{"thickness": {Kind: fact.Reading, Values: values}}))
			if f.Verdict != want {
				t.Errorf("%s, %d values: %s, want %s", text, n+1, f.Verdict, want)
			}
		}
	}
}

func TestTypeProblems(t *testing.T) {
	eval := newEvaluator()
	functions := eval.functions
	for text, want := range map[string]string{
		"distance < newtons(5)":             "compared with",
		"distance < 500":                    "compared with",
		`machine.actuation == "cabel"`:      "is never",
		`"spring" in changed`:               "is never",
		"dampp":                             "unknown word",
		"actuation == \"cable\"":            "unknown word",
		"thickness > mm(3)":                 "a reading is compared",
		"below(thickness, newtons(3))":      "wants a number of length",
		"distance":                          "expected something that is yes or no",
		"creeps":                            "may use only facts",
		"kilometers(5) < distance":          "unknown function",
		"km(1, 2) < distance":               "takes 1 values",
		"1 < 2":                             "never changes",
		"distance > km(1) ? damp : damp":    "not part of conditions",
		"worn":                              "unknown word",
		`distance + machine.plates > km(1)`: "compared with",
	} {
		cond, p := eval.parse(text)
		if p == nil {
			ps := typer{words(), functions, contextOnly, false}.condition(cond)
			if strings.HasPrefix(text, "thickness") || strings.HasPrefix(text, "below") {
				ps = typer{words(), functions, anything, false}.condition(cond)
			}
			if len(ps) > 0 {
				p = ps[0]
			}
		}
		if p == nil {
			t.Errorf("%s: no problem found, expected %q", text, want)
		} else if !strings.Contains(p.message, want) {
			t.Errorf("%s: %q, expected %q", text, p.message, want)
		}
	}
}

// An unknown word never turns into a definite answer by being replaced: if a
// condition is decided with a word unknown, any value of it gives the same.
func TestUnknownIsCautious(t *testing.T) {
	eval := newEvaluator()
	ids := []string{"clutch_opened", "damp", "creeps"}
	rapid.Check(t, func(t *rapid.T) {
		text := tree(t, ids, 3)
		cond, p := eval.parse(text)
		if p != nil {
			t.Fatalf("%s: %s", text, p.message)
		}
		values := map[string]fact.Value{}
		for _, id := range ids {
			if rapid.Bool().Draw(t, "known") {
				values[id] = yes(rapid.Bool().Draw(t, id))
			}
		}
		before := (&Set{eval: eval}).Ask(cond, known(values))
		if before.Verdict == Unknown {
			if len(before.Waits) == 0 {
				t.Fatalf("%s cannot tell and waits for nothing", text)
			}
			return
		}
		for _, id := range ids {
			if _, there := values[id]; !there {
				values[id] = yes(rapid.Bool().Draw(t, "later"))
			}
		}
		if after := (&Set{eval: eval}).Ask(cond, known(values)); after.Verdict != before.Verdict {
			t.Fatalf("%s: %s, then %s", text, before.Verdict, after.Verdict)
		}
		// With everything known it is plain expr.
		env := map[string]any{}
		for id, v := range values {
			env[id] = v.Yes
		}
		out, err := expr.Eval(text, env)
		if err != nil || out.(bool) != (before.Verdict == Yes) {
			t.Fatalf("%s: expr says %v, %v; here %s", text, out, err, before.Verdict)
		}
	})
}

func tree(t *rapid.T, ids []string, depth int) string {
	if depth == 0 || rapid.IntRange(0, 3).Draw(t, "stop") == 0 {
		return rapid.SampledFrom(ids).Draw(t, "leaf")
	}
	a := tree(t, ids, depth-1)
	switch rapid.SampledFrom([]string{"and", "or", "not"}).Draw(t, "op") {
	case "not":
		return "not (" + a + ")"
	case "or":
		return "(" + a + ") or (" + tree(t, ids, depth-1) + ")"
	}
	return "(" + a + ") and (" + tree(t, ids, depth-1) + ")"
}

// No text may panic the parser, the types or the evaluation.
func FuzzCondition(f *testing.F) {
	for _, s := range []string{"damp", "not damp and distance < km(5)", `"oil" in changed`, "below(thickness, mm(2))", "((", "a.b.c", "[1,2]", "x | y", "damp ? 1 : 2", `some(stack, "book", "bound", "cloth")`, `count(stack, ["book"]) > 1`} {
		f.Add(s)
	}
	eval, v := newEvaluator(), words()
	for _, w := range shelf().IDs() {
		more, _ := shelf().Lookup(w)
		v.Add(more)
	}
	facts := known(map[string]fact.Value{"damp": yes(true), "distance": {Kind: fact.Quantity, SI: 1}})
	facts.Put("stack", fact.Value{Kind: fact.Assembly, Stack: piled("stack", "book bound=cloth, board, card-, unknown, book thick=2, +book")})
	f.Fuzz(func(t *testing.T, text string) {
		cond, p := eval.parse(text)
		if p != nil {
			return
		}
		if ps := (typer{v, eval.functions, anything, false}).condition(cond); len(ps) > 0 {
			return
		}
		(&Set{eval: eval}).Ask(cond, facts)
	})
}

func BenchmarkAsk(b *testing.B) {
	eval := newEvaluator()
	cond, _ := eval.parse(`clutch_opened and distance < km(500) and "springs" in changed`)
	set := &Set{eval: eval}
	facts := known(map[string]fact.Value{
		"clutch_opened": yes(true), "distance": {Kind: fact.Quantity, SI: 140e3},
		"changed": {Kind: fact.Choices, Words: []string{"springs"}},
	})
	for b.Loop() {
		set.Ask(cond, facts)
	}
}
