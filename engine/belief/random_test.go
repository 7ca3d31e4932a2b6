package belief

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestSolveAgainstEnumeration(t *testing.T) {
	for name, tables := range map[string]bool{"noisy-OR": false, "with tables": true} {
		t.Run(name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				g := drawGraph(t, 12, false, tables)
				findings := drawFindings(t, len(g.Variables))
				states, evidence := enumerated(g, findings)
				r, err := Solve(g, findings, DefaultBudget)
				if err != nil {
					t.Fatal(err)
				}
				compareResult(t, g, states, evidence, r)
			})
		})
	}
}

func compareResult(t *rapid.T, g Graph, states []float64, evidence float64, r Result) {
	if !near(r.LogEvidence, math.Log(evidence), 1e-11) {
		t.Fatalf("ln P(e) %v, enumeration says %v", r.LogEvidence, math.Log(evidence))
	}
	for v := range g.Variables {
		want := probability(states, func(s int) bool { return s>>v&1 == 1 })
		if !near(r.Posterior[v], want, 1e-12) {
			t.Fatalf("variable %d: posterior %v, enumeration says %v", v, r.Posterior[v], want)
		}
		x := &g.Variables[v]
		if !x.noisy() {
			continue
		}
		if want := enumeratedShare(g, states, v, -1); !near(r.LeakShare[v], want, 1e-12) {
			t.Fatalf("variable %d: leak share %v, enumeration says %v", v, r.LeakShare[v], want)
		}
		for k := range x.Parents {
			if want := enumeratedShare(g, states, v, k); !near(r.Shares[v][k], want, 1e-12) {
				t.Fatalf("variable %d parent %d: share %v, enumeration says %v", v, k, r.Shares[v][k], want)
			}
		}
	}
}

func TestOutcomesAgainstEnumeration(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGraph(t, 10, false, rapid.Bool().Draw(t, "tables"))
		n := len(g.Variables)
		findings := drawFindings(t, n)
		var all, roots []int
		for v := range n {
			all = append(all, v)
			if g.Variables[v].root() {
				roots = append(roots, v)
			}
		}
		// Roots as targets take the cheap way, all variables the slow one.
		targets := rapid.SampledFrom([][]int{all, roots}).Draw(t, "targets")
		list, err := Outcomes(g, findings, all, targets, DefaultBudget)
		if err != nil {
			t.Fatal(err)
		}
		states, _ := enumerated(g, findings)
		for _, o := range list {
			compareOutcome(t, states, targets, o)
		}
	})
}

func compareOutcome(t *rapid.T, states []float64, targets []int, o Outcome) {
	for value, got := range [][]float64{o.IfAbsent, o.IfPresent} {
		p := probability(states, func(s int) bool { return s>>o.Variable&1 == value })
		if got == nil {
			if p != 0 {
				t.Fatalf("variable %d = %d has no outcome at probability %v", o.Variable, value, p)
			}
			continue
		}
		for i, v := range targets {
			want := probability(states, func(s int) bool { return s>>o.Variable&1 == value && s>>v&1 == 1 }) / p
			if !near(got[i], want, 1e-10) {
				t.Fatalf("target %d given %d = %d: %v, enumeration says %v", v, o.Variable, value, got[i], want)
			}
		}
	}
}

func TestSetsAgainstEnumeration(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGraph(t, 9, false, true)
		n := len(g.Variables)
		findings := drawFindings(t, n)
		among := rapid.SliceOfDistinct(rapid.IntRange(0, n-1), rapid.ID[int]).Draw(t, "among")
		mask := 0
		for _, v := range among {
			mask |= 1 << v
		}
		states, _ := enumerated(g, findings)
		want := make([]float64, 1<<n)
		for s, p := range states {
			want[s&mask] += p
		}
		most := rapid.IntRange(1, 6).Draw(t, "most")
		got, err := TopSets(g, findings, among, most, DefaultSetLimit, DefaultBudget)
		if err != nil || !got.Complete {
			t.Fatalf("%v, complete %v", err, got.Complete)
		}
		compareSets(t, want, got, most)
		none, err := NoneOf(g, findings, among, DefaultBudget)
		if err != nil || !near(none, want[0], 1e-12) {
			t.Fatalf("none of %v: %v, enumeration says %v (%v)", among, none, want[0], err)
		}
	})
}

// compareSets compares with P(exact set | e), indexed by the set as a bit mask.
func compareSets(t *rapid.T, want []float64, got Sets, most int) {
	ranked := slices.Clone(want)
	slices.SortFunc(ranked, func(a, b float64) int { return -cmp.Compare(a, b) })
	for i := range min(most, len(ranked)) {
		if i >= len(got.Sets) {
			if ranked[i] > 1e-300 {
				t.Fatalf("%d sets, but set %d has probability %v", len(got.Sets), i, ranked[i])
			}
			continue
		}
		set := 0
		for _, v := range got.Sets[i].Members {
			set |= 1 << v
		}
		p := got.Sets[i].Probability
		if !near(p, want[set], 1e-12) || !near(p, ranked[i], 1e-12) {
			t.Fatalf("set %d %b: %v, enumeration says %v, rank asks for %v", i, set, p, want[set], ranked[i])
		}
	}
}
