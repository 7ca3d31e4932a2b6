package belief

import (
	"encoding/json"
	"errors"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestOrderOfFindingsIsIrrelevant(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGraph(t, 10, false, true)
		findings := drawFindings(t, len(g.Variables))
		shuffled := rapid.Permutation(findings).Draw(t, "shuffled")
		a, errA := Solve(g, findings, DefaultBudget)
		b, errB := Solve(g, shuffled, DefaultBudget)
		if errA != nil || errB != nil {
			t.Fatal(errA, errB)
		}
		// ln P(e) adds logarithms in the order given; all else is the same bits.
		if !near(a.LogEvidence, b.LogEvidence, 1e-12) || !reflect.DeepEqual(a.Posterior, b.Posterior) {
			t.Fatal("another order, another answer")
		}
	})
}

func TestUnknownChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGraph(t, 10, false, true)
		n := len(g.Variables)
		findings := drawFindings(t, n)
		unknown := Finding{rapid.IntRange(0, n-1).Draw(t, "unknown"), 1, 1}
		a, errA := Solve(g, findings, DefaultBudget)
		b, errB := Solve(g, append(slices.Clone(findings), unknown), DefaultBudget)
		if errA != nil || errB != nil || !reflect.DeepEqual(a, b) {
			t.Fatal("a finding that says nothing changed the answer", errA, errB)
		}
		half, err := Solve(g, append(findings, Soft(unknown.Variable, .5)), DefaultBudget)
		if err != nil || !near(half.LogEvidence, a.LogEvidence-math.Ln2, 1e-12) || !reflect.DeepEqual(a.Posterior, half.Posterior) {
			t.Fatal("an even finding moved a posterior", err, a, half)
		}
	})
}

// A soft finding is the same as a child that is observed and whose table holds
// the two likelihoods.
func TestSoftFindingIsAnObservedChild(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGraph(t, 9, false, true)
		n := len(g.Variables)
		findings := drawFindings(t, n)
		v := rapid.IntRange(0, n-1).Draw(t, "v")
		yes, no := rapid.Float64Range(.01, 1).Draw(t, "yes"), rapid.Float64Range(.01, 1).Draw(t, "no")
		soft, errA := Solve(g, append(slices.Clone(findings), Finding{v, yes, no}), DefaultBudget)
		g.Variables = append(g.Variables, Variable{Name: "reading", Parents: []int{v}, Table: []float64{no, yes}})
		child, errB := Solve(g, append(findings, Yes(n)), DefaultBudget)
		if errA != nil || errB != nil || !near(soft.LogEvidence, child.LogEvidence, 1e-12) {
			t.Fatal(errA, errB, soft.LogEvidence, child.LogEvidence)
		}
		for i := range n {
			if !near(soft.Posterior[i], child.Posterior[i], 1e-12) {
				t.Fatalf("variable %d: soft %v, child %v", i, soft.Posterior[i], child.Posterior[i])
			}
		}
	})
}

// Zeros and ones: the answer is either that of enumeration or "impossible", with
// findings that are impossible by themselves and each needed for it.
func TestCertainNumbers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGraph(t, 9, true, true)
		findings := drawFindings(t, len(g.Variables))
		states, evidence := enumerated(g, findings)
		r, err := Solve(g, findings, DefaultBudget)
		var e *ImpossibleError
		if errors.As(err, &e) {
			checkConflict(t, g, findings, e.Findings)
			return
		}
		if err != nil || evidence == 0 {
			t.Fatalf("P(e) = %v, error %v", evidence, err)
		}
		for v := range g.Variables {
			want := probability(states, func(s int) bool { return s>>v&1 == 1 })
			if !near(r.Posterior[v], want, 1e-12) {
				t.Fatalf("variable %d: %v, enumeration says %v", v, r.Posterior[v], want)
			}
		}
	})
}

func checkConflict(t *rapid.T, g Graph, findings []Finding, conflict []int) {
	if len(conflict) == 0 {
		t.Fatal("a conflict without findings")
	}
	if _, p := enumerated(g, pick(findings, conflict)); p != 0 {
		t.Fatalf("findings %v called impossible have probability %v", conflict, p)
	}
	for i := range conflict {
		without := slices.Delete(slices.Clone(conflict), i, i+1)
		if _, p := enumerated(g, pick(findings, without)); p == 0 {
			t.Fatalf("finding %d is not needed for the conflict %v", conflict[i], conflict)
		}
	}
}

// P(e) far below the smallest float: chains of weak links all seen present, in
// one component and in many.
func TestTinyEvidence(t *testing.T) {
	const n, w = 400, 1e-6
	var chain, loose Graph
	chain.Variables = []Variable{{Name: "root", Leak: w}}
	loose.Variables = []Variable{{Name: "root", Leak: w}}
	chainFindings, looseFindings := []Finding{Yes(0)}, []Finding{Yes(0)}
	for v := 1; v <= n; v++ {
		chain.Variables = append(chain.Variables, Variable{Parents: []int{v - 1}, Strengths: []float64{w}})
		loose.Variables = append(loose.Variables, Variable{Leak: w})
		chainFindings = append(chainFindings, Yes(v))
		looseFindings = append(looseFindings, Yes(v))
	}
	want := (n + 1) * math.Log(w)
	wantNear(t, "chain", solve(t, chain, chainFindings...).LogEvidence, want, 1e-8)
	wantNear(t, "loose", solve(t, loose, looseFindings...).LogEvidence, want, 1e-8)
	// Only the last seen: every link of a hidden chain must have fired.
	const deep = 45 // an explanation of 1e-276 against "absent"
	hiddenChain := solve(t, chain, Yes(deep))
	wantNear(t, "hidden chain", hiddenChain.LogEvidence, (deep+1)*math.Log(w), 1e-8)
	wantNear(t, "root of the hidden chain", hiddenChain.Posterior[0], 1, 1e-12)
	// One cause of 400 signs, each 1e-6 times likelier with it.
	star := Graph{Variables: []Variable{{Name: "cause", Leak: .5}}}
	var e []Finding
	for v := 1; v <= n; v++ {
		star.Variables = append(star.Variables, Variable{Parents: []int{0}, Leak: 1e-9, Strengths: []float64{w}})
		e = append(e, Yes(v))
	}
	wantNear(t, "star", solve(t, star, e...).LogEvidence, math.Log(.5)+n*math.Log(1e-9+w), 1e-6)
	tiny := []Finding{{0, 1e-300, 1e-305}, {0, 1e-300, 1e-300}}
	wantNear(t, "tiny likelihoods", solve(t, star, tiny...).Posterior[0], 1/(1+1e-5), 1e-12)
}

func TestImpossibleNamesTheFindings(t *testing.T) {
	g := small()
	g.Variables[slipHot].Leak = 0
	findings := append(smallFindings(), No(worn), No(oil), No(spring))
	_, err := Solve(g, findings, DefaultBudget)
	var e *ImpossibleError
	if !errors.As(err, &e) || !slices.Equal(e.Findings, []int{0, 3, 4, 5}) {
		t.Fatalf("error %v, want the slip and its three causes", err)
	}
	if want := "findings that cannot occur together: slip_hot, worn, oil, spring"; err.Error() != want {
		t.Errorf("message %q, want %q", err, want)
	}
	_, err = Solve(g, []Finding{Yes(oil), No(cable), No(oil)}, DefaultBudget)
	if !errors.As(err, &e) || !slices.Equal(e.Findings, []int{0, 2}) {
		t.Errorf("error %v, want yes and no on oil", err)
	}
}

func TestTooHardSaysWhatToLeaveOut(t *testing.T) {
	g, findings := twoLevel(3, 40, 60, 6, 20, 0)
	b := Budget{MaxCost: 5000, MaxCells: 1e6}
	_, err := Solve(g, findings, b)
	var e *TooHardError
	if !errors.As(err, &e) {
		t.Fatalf("error %v, want too hard", err)
	}
	if e.Cost <= b.MaxCost || len(e.Findings) == 0 || len(e.Findings) == len(findings) {
		t.Fatalf("cost %v, %d of %d findings too many", e.Cost, len(e.Findings), len(findings))
	}
	var rest []Finding
	for i, f := range findings {
		if !slices.Contains(e.Findings, i) {
			rest = append(rest, f)
		}
	}
	if _, err := Condition(g, rest, b); err != nil {
		t.Errorf("still an error without them: %v", err)
	}
	if !strings.Contains(err.Error(), g.Variables[findings[e.Findings[0]].Variable].Name) {
		t.Errorf("message %q does not name a finding", err)
	}
}

func TestSameBytesTwice(t *testing.T) {
	g, findings := ordinary(5, 10, 10)
	causes := []int{0, 3, 9, 27, 81}
	ask := func() string {
		c, err := Condition(g, findings, DefaultBudget)
		if err != nil {
			t.Fatal(err)
		}
		o, _ := c.Outcomes([]int{110, 120, 130}, causes)
		s, _ := c.TopSets(causes, 4, DefaultSetLimit)
		text, err := json.Marshal([]any{solve(t, g, findings...), o, s})
		if err != nil {
			t.Fatal(err)
		}
		return string(text)
	}
	if first, second := ask(), ask(); first != second {
		t.Error("the same question gave other bytes")
	}
}

// At the size of a real pack enumeration is out of reach: outcomes must obey the
// law of total probability and agree with findings added one by one.
func TestOrdinarySize(t *testing.T) {
	for seed := range uint64(4) {
		g, findings := ordinary(seed, 8, 8)
		c, err := Condition(g, findings, DefaultBudget)
		if err != nil {
			t.Fatal(err)
		}
		var causes, signs []int
		for v := range g.Variables {
			if v < 85 {
				causes = append(causes, v)
			} else if v >= 107 {
				signs = append(signs, v)
			}
		}
		list, err := c.Outcomes(signs, causes)
		if err != nil {
			t.Fatal(err)
		}
		for i, o := range list {
			if i%7 == int(seed) && c.m.ev.state[o.Variable] == hidden {
				checkOutcome(t, c, causes, o)
			}
		}
	}
}

func checkOutcome(t *testing.T, c *Conditioned, causes []int, o Outcome) {
	t.Helper()
	yes := solve(t, c.g, append(slices.Clone(c.findings), Yes(o.Variable))...)
	no := solve(t, c.g, append(slices.Clone(c.findings), No(o.Variable))...)
	wantNear(t, "P(sign)", o.Present, math.Exp(yes.LogEvidence-c.LogEvidence()), 1e-12)
	for i, v := range causes {
		wantNear(t, "if present", o.IfPresent[i], yes.Posterior[v], 1e-10)
		wantNear(t, "if absent", o.IfAbsent[i], no.Posterior[v], 1e-12)
		total := o.Present*o.IfPresent[i] + (1-o.Present)*o.IfAbsent[i]
		wantNear(t, "total", total, c.result.Posterior[v], 1e-12)
	}
}
