package belief

import (
	"errors"
	"math"
	"strings"
	"testing"
)

func TestCheckReportsEverything(t *testing.T) {
	g := Graph{Variables: []Variable{
		{Name: "a", Leak: 1.5},
		{Name: "b", Parents: []int{0, 0, 7}, Leak: math.NaN(), Strengths: []float64{.5, -1}},
		{Name: "c", Parents: []int{0}, Table: []float64{.1, .2, .3}, Strengths: []float64{.1}},
		{Name: "d", Parents: []int{3}, Strengths: []float64{math.Inf(1)}},
		{Name: "e", Parents: make([]int, 21), Table: []float64{2}},
	}}
	var e *InvalidError
	if err := g.Check(); !errors.As(err, &e) {
		t.Fatalf("error %v", err)
	}
	for _, want := range []string{
		`variable 0 "a": leak is 1.5, expected a probability from 0 to 1`,
		`variable 1 "b": parent 0 is listed twice`,
		`variable 1 "b": parent 7, expected the index of an earlier variable`,
		`variable 1 "b": leak is NaN, expected a probability from 0 to 1`,
		`variable 1 "b": 2 strengths, expected one for each of 3 parents`,
		`variable 1 "b": strength 1 is -1, expected a probability from 0 to 1`,
		`variable 2 "c": table of 3 rows, expected 2`,
		`variable 2 "c": both a table and strengths, expected one of them`,
		`variable 3 "d": parent 3, expected the index of an earlier variable`,
		`variable 3 "d": strength 0 is +Inf, expected a probability from 0 to 1`,
		`variable 4 "e": table over 21 parents, expected at most 20`,
	} {
		if !strings.Contains(e.Error(), want+"\n") && !strings.HasSuffix(e.Error(), want) {
			t.Errorf("missing %q in\n%v", want, e)
		}
	}
	if err := small().Check(); err != nil {
		t.Errorf("a sound graph: %v", err)
	}
}

func TestBadQuestions(t *testing.T) {
	var e *InvalidError
	findings := []Finding{{Variable: 9, Present: 1}, {Variable: -1}, {Variable: 0, Present: math.NaN()}, {Variable: 0, Absent: -.1}}
	if _, err := Solve(small(), findings, DefaultBudget); !errors.As(err, &e) || len(e.Problems) != 4 {
		t.Errorf("error %v, want four problems", err)
	}
	if _, err := Outcomes(small(), nil, []int{99}, []int{-3}, DefaultBudget); !errors.As(err, &e) || len(e.Problems) != 2 {
		t.Errorf("error %v, want two problems", err)
	}
	if _, err := TopSets(small(), nil, []int{9}, 1, 1, DefaultBudget); !errors.As(err, &e) {
		t.Errorf("error %v, want a problem", err)
	}
	if _, err := NoneOf(small(), nil, []int{9}, DefaultBudget); !errors.As(err, &e) {
		t.Errorf("error %v, want a problem", err)
	}
}

func TestEmptyGraph(t *testing.T) {
	r := solve(t, Graph{})
	if r.LogEvidence != 0 || len(r.Posterior) != 0 {
		t.Errorf("%+v", r)
	}
}

// A search that is cut short says so, and bounds what it did not look at.
func TestSetsCutShort(t *testing.T) {
	all := []int{worn, oil, cable, spring}
	full, err := TopSets(small(), smallFindings(), all, 16, DefaultSetLimit, DefaultBudget)
	if err != nil || !full.Complete || len(full.Sets) != 16 {
		t.Fatal(full, err)
	}
	sum := 0.0
	for _, s := range full.Sets {
		sum += s.Probability
	}
	wantNear(t, "all sets together", sum, 1, 1e-12)
	cut, err := TopSets(small(), smallFindings(), all, 5, 3, DefaultBudget)
	if err != nil || cut.Complete || cut.Examined > 3 {
		t.Fatal(cut, err)
	}
	for _, s := range full.Sets {
		listed := false
		for _, c := range cut.Sets {
			listed = listed || c.Probability == s.Probability
		}
		if !listed && s.Probability > cut.Bound {
			t.Errorf("set %v is left out and above the bound %v", s, cut.Bound)
		}
	}
}
