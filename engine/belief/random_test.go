package belief

import (
	"math"
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
