package belief

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Whatever is kept in the program, and however the evidence comes in, the
// posteriors are those of a plain solution.
func TestGivenAgreesWithSolve(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGraph(t, 9, false, true)
		n := len(g.Variables)
		all := make([]int, n)
		for i := range all {
			all[i] = i
		}
		var findings []Finding
		for range rapid.IntRange(0, 4).Draw(t, "findings") {
			v := rapid.IntRange(0, n-1).Draw(t, "variable")
			findings = append(findings, Soft(v, rapid.Float64Range(0.05, 0.95).Draw(t, "p")))
		}
		want, err := Solve(g, findings, DefaultBudget)
		if err != nil {
			t.Fatal(err)
		}
		held, err := ConditionKeeping(g, nil, all, DefaultBudget)
		if err != nil {
			t.Fatal(err)
		}
		got, err := held.Given(findings, all)
		if err != nil {
			t.Fatal(err)
		}
		kept, err := ConditionKeeping(g, findings, all, DefaultBudget)
		if err != nil {
			t.Fatal(err)
		}
		same, err := kept.Renumbering().Posteriors(g, all)
		if err != nil {
			t.Fatal(err)
		}
		for v := range all {
			for _, p := range []float64{got[v], kept.Partial().Posterior[v], same[v]} {
				if math.Abs(p-want.Posterior[v]) > 1e-12 {
					t.Fatalf("variable %d: %v, want %v", v, p, want.Posterior[v])
				}
			}
		}
	})
}

func TestGivenRefusesWhatItDoesNotHold(t *testing.T) {
	g := Graph{Variables: []Variable{
		{Name: "a", Leak: 0.1}, {Name: "b", Parents: []int{0}, Leak: 0.1, Strengths: []float64{0.5}},
	}}
	c, err := ConditionKeeping(g, nil, []int{0}, DefaultBudget)
	if err != nil {
		t.Fatal(err)
	}
	var invalid *InvalidError
	if _, err := c.Given([]Finding{Yes(1)}, []int{0}); !errors.As(err, &invalid) {
		t.Errorf("got %v", err)
	}
	if _, err := c.Given(nil, []int{1}); !errors.As(err, &invalid) {
		t.Errorf("got %v", err)
	}
	var impossible *ImpossibleError
	if _, err := c.Given([]Finding{Yes(0), No(0)}, []int{0}); !errors.As(err, &impossible) {
		t.Errorf("got %v", err)
	}
}
