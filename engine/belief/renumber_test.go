package belief

import (
	"errors"
	"testing"

	"pgregory.net/rapid"
)

func TestRenumberingIsSolvingAnew(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGraph(t, 10, false, true)
		findings := drawFindings(t, len(g.Variables))
		c, err := Condition(g, findings, DefaultBudget)
		if err != nil {
			t.Fatal(err)
		}
		var all, roots []int
		for v := range g.Variables {
			all = append(all, v)
			if g.Variables[v].root() {
				roots = append(roots, v)
			}
		}
		before, _ := c.Posteriors(all)
		of := rapid.SampledFrom([][]int{all, roots}).Draw(t, "of")
		r := c.Renumbering()
		for range 3 {
			other := redraw(t, g)
			got, errA := r.Posteriors(other, of)
			want, errB := Solve(other, findings, DefaultBudget)
			if errA != nil || errB != nil {
				t.Fatal(errA, errB)
			}
			for i, v := range of {
				if !near(got[i], want.Posterior[v], 1e-12) {
					t.Fatalf("variable %d: %v, anew %v", v, got[i], want.Posterior[v])
				}
			}
		}
		after, _ := c.Posteriors(all)
		for v := range all {
			if before[v] != after[v] {
				t.Fatal("renumbering changed the graph conditioned")
			}
		}
	})
}

// redraw keeps the shape of a graph and draws other numbers.
func redraw(t *rapid.T, g Graph) Graph {
	number := rapid.Float64Range(0.001, 0.999)
	var other Graph
	for _, x := range g.Variables {
		y := Variable{Name: x.Name, Parents: x.Parents}
		if x.Table != nil {
			for range x.Table {
				y.Table = append(y.Table, number.Draw(t, "row"))
			}
		} else {
			y.Leak = number.Draw(t, "leak")
			for range x.Strengths {
				y.Strengths = append(y.Strengths, number.Draw(t, "strength"))
			}
		}
		other.Variables = append(other.Variables, y)
	}
	return other
}

func TestRenumberingRefusesAnotherShape(t *testing.T) {
	c, err := Condition(small(), smallFindings(), DefaultBudget)
	if err != nil {
		t.Fatal(err)
	}
	other := small()
	other.Variables[judder].Parents = []int{worn, cable}
	var e *InvalidError
	if _, err := c.Renumbering().Posteriors(other, []int{worn}); !errors.As(err, &e) || len(e.Problems) != 1 {
		t.Errorf("error %v, want one problem", err)
	}
	other.Variables = other.Variables[:4]
	if _, err := c.Renumbering().Posteriors(other, []int{worn}); !errors.As(err, &e) {
		t.Errorf("error %v, want a problem", err)
	}
}
