package plan

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// drawn is a small problem with a bit of everything.
func drawn(t *rapid.T) Problem {
	return mixed(rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 9)))
}

func advise(t interface {
	Helper()
	Fatal(...any)
}, p Problem) Advice {
	t.Helper()
	a, err := Advise(p)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// Outcomes are exhaustive, and what is expected of the faults afterwards is
// what was expected before (law of total probability).
func TestOutcomesAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawn(t)
		steps := []Step{p.service()}
		for i := range p.Actions {
			steps = append(steps, p.action(i))
		}
		for i := range p.Questions {
			steps = append(steps, p.question(i))
		}
		for _, s := range steps {
			total, fault := 0.0, 0.0
			for _, o := range p.Outcomes(s) {
				total += o.Probability
				if o.Next != nil {
					fault += o.Probability * o.Next.Faults[0]
				}
			}
			if math.Abs(total-1) > 1e-9 {
				t.Fatalf("%v: outcomes sum to %g, expected 1", s, total)
			}
			if s.Kind == Ask && math.Abs(fault-p.Faults[0]) > 1e-9 {
				t.Fatalf("%v: fault 0 averages %g afterwards, expected %g", s, fault, p.Faults[0])
			}
		}
	})
}

// The advice keeps its promise: following it costs at most the minutes named,
// at least the optimum, and the runners-up are not better.
func TestAdviceKeepsItsPromise(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawn(t)
		a := advise(t, p)
		if a.Next.Kind != Next(p).Kind || a.Next.Index != Next(p).Index {
			t.Fatalf("advice %v, policy %v", a.Next, Next(p))
		}
		x, _, _ := Exact(p)
		if e := Evaluate(p, Next); a.Minutes < x-1e-9 || e > a.Minutes*1.01 {
			t.Fatalf("promised %g, following costs %g, optimum %g", a.Minutes, e, x)
		}
		if a.AtLeast > x+1e-9 {
			t.Fatalf("at least %g, yet the optimum is %g", a.AtLeast, x)
		}
		for _, o := range a.Others {
			if o.Minutes < a.Minutes*(1-1e-9) {
				t.Fatalf("runner-up %v at %g, best %g", o.Step, o.Minutes, a.Minutes)
			}
		}
	})
}

// Value of information is never negative, and a question whose answer is as
// likely whatever is wrong is worth exactly nothing.
func TestValueOfInformation(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawn(t)
		q := rapid.Float64Range(.01, .99).Draw(t, "yes")
		p.Questions = append(p.Questions, YesNo(Outside, 0, slices.Repeat([]float64{q}, len(p.Faults)), q))
		useless := len(p.Questions) - 1
		if b := Bits(p, p.question(useless)); b > 1e-9 {
			t.Fatalf("%g bits, expected 0", b)
		}
		a := advise(t, p)
		found := false
		for _, l := range a.Left {
			if l.Saves < 0 {
				t.Fatalf("%v saves less than nothing", l)
			}
			found = found || l.Kind == Ask && l.Index == useless && l.Reason == ChangesNothing
		}
		if !found || a.Next.Kind == Ask && a.Next.Index == useless {
			t.Fatalf("useless question not left out: %+v", a)
		}
	})
}

// A sure question between two faults whose actions are done in the same order
// either way changes nothing, though it gives a full bit.
func TestSureAnswerThatChangesNothing(t *testing.T) {
	p := Problem{Faults: []float64{.5, .5}, ServiceMinutes: 100}
	p.Actions = []Action{{Stage: Outside, LookMinutes: 3, Observable: true, Cures: []Cure{{0, 1}, {1, 1}}}}
	p.Questions = []Question{YesNo(Outside, 0, []float64{1, 0}, 0)}
	near(t, "bits", Bits(p, p.question(0)), 1, 1e-12)
	a := advise(t, p)
	if a.Next.Kind != Look || len(a.Left) != 1 || a.Left[0].Reason != ChangesNothing {
		t.Errorf("advice %+v, expected to look and to leave the question", a)
	}
}

// One cover, two likely parts under it, one question that sends the mechanic
// there or not; minutes by hand.
func TestAdviceOnOneCover(t *testing.T) {
	p := Problem{Faults: []float64{.5, .3, .2}, ServiceMinutes: 500, Stages: []Stage{{Outside, 60}}}
	p.Actions = []Action{part(0, Outside, 10), part(1, 0, 5), part(2, 0, 5)}
	p.Questions = []Question{YesNo(Outside, 2, []float64{0, 1, 1}, 0)}
	a := advise(t, p)
	// sure answer: 2 + .5*10 + .5*(60 + 5 + .4*5)
	near(t, "minutes", a.Minutes, 40.5, 1e-9)
	if a.Next.Kind != Ask {
		t.Fatalf("next %+v, expected the question", a.Next)
	}
	// without it: 10 + .5*65 + .2*5 = 43.5
	near(t, "saved", a.Saved, 3, 1e-9)
	if len(a.Openings) != 1 || a.Openings[0].Now || !(a.Openings[0].Saved > 100) {
		t.Errorf("openings %+v, expected one, later and worth while", a.Openings)
	}
	p.Questions = nil
	p.Done = []bool{true, false, false}
	p.Faults = []float64{0, .6, .4}
	a = advise(t, p)
	if !slices.Equal(a.Next.Opens, []int{0}) || len(a.Together) != 1 || a.Together[0].Index != 2 || !a.Openings[0].Now {
		t.Errorf("advice %+v, expected to open stage 0 for action 1 and 2 together", a)
	}
	p.Faults = []float64{0, .02, .01} // 60 minutes for 3 %: leave it shut
	a = advise(t, p)
	if a.Next.Kind != Service || a.Openings[0].Saved != 0 || len(a.Left) != 2 || a.Left[0].Reason != CostsMore {
		t.Errorf("advice %+v, expected a service and the stage left shut", a)
	}
}

// The tree rolls back to what following the policy costs, if it is deep enough.
func TestTreeAgreesWithEvaluate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawn(t)
		tree, err := NewTree(p, 20)
		if err != nil {
			t.Fatal(err)
		}
		if e := Evaluate(p, Next); math.Abs(tree.Minutes-e) > 1e-6*e {
			t.Fatalf("tree %g, following %g", tree.Minutes, e)
		}
		// Cut off, it ends in what the look-ahead expects, who asks less and knows
		// less: near, one problem in thousands off by a twentieth.
		short, _ := NewTree(p, 1)
		if math.Abs(short.Minutes/tree.Minutes-1) > .15 {
			t.Fatalf("cut tree %g, whole tree %g", short.Minutes, tree.Minutes)
		}
	})
}

// Same in, same bytes out; the problem is left as it was.
func TestDeterministic(t *testing.T) {
	p := full(3)
	before, _ := json.Marshal(p)
	x, _ := json.Marshal(advise(t, p))
	y, _ := json.Marshal(advise(t, p))
	after, _ := json.Marshal(p)
	if string(x) != string(y) || string(before) != string(after) {
		t.Error("two advices differ, or the problem was changed")
	}
}

// Simulated means agree with the exact expectation within four standard errors
// (of a spread below the worst case), and habits cost more than the advice.
func TestSimulateAgreesWithEvaluate(t *testing.T) {
	p := mixed(rand.New(rand.NewPCG(5, 9)))
	for name, policy := range map[string]Policy{
		"next": Next, "outside in": OutsideIn, "most likely": MostLikelyFirst, "most informative": MostInformativeFirst,
	} {
		trial := Simulate(p, policy, 11, 4000)
		near(t, name, trial.MeanMinutes, Evaluate(p, policy), 4*trial.WorstMinutes/2/math.Sqrt(4000))
		if trial.MedianMinutes > trial.NinetiethPct || trial.NinetiethPct > trial.WorstMinutes {
			t.Errorf("%s: quantiles out of order: %+v", name, trial)
		}
		if again := Simulate(p, policy, 11, 4000); again != trial {
			t.Errorf("%s: same seed gives %+v and %+v", name, trial, again)
		}
	}
}

// A fault outside that sends a blind mechanic inside: every count is certain.
func TestSimulateCounts(t *testing.T) {
	p := Problem{Faults: []float64{1, 0}, ServiceMinutes: 500, Stages: []Stage{{Outside, 60}}}
	p.Actions = []Action{part(0, Outside, 10), {Stage: 0, RepairMinutes: 5, Cures: []Cure{{1, 1}}}}
	inward := func(p Problem) Step {
		if at(p.Done, 1) {
			return p.action(0)
		}
		return p.action(1)
	}
	want := Trial{Machines: 10, MeanMinutes: 75, MedianMinutes: 75, NinetiethPct: 75, WorstMinutes: 75, WrongRepairs: 1, NeedlessOpening: 1}
	if got := Simulate(p, inward, 1, 10); got != want {
		t.Errorf("trial %+v, expected %+v", got, want)
	}
}

func TestValidateNamesEverything(t *testing.T) {
	p := Problem{Faults: []float64{.9, .4, math.NaN()}, Stages: []Stage{{Parent: 0, Minutes: -1}}, Open: []bool{true, true}}
	p.Actions = []Action{{Stage: 3, Cures: []Cure{{7, 2}}}}
	p.Questions = []Question{{Stage: Outside, Results: [][]float64{{1, 1}}}, YesNo(Outside, 1, []float64{0, 0, 1}, .5)}
	p.Questions[1].Results[0][0] = .5
	_, err := Advise(p)
	if err == nil {
		t.Fatal("no error")
	}
	for _, want := range []string{
		"fault 2: probability NaN", "service: 0 minutes", "stage 0: parent 0", "stage 0: -1 minutes", "open: 2 flags",
		"action 0: stage 3", "cures fault 7", "question 0: 1 results", "question 0 result 0: 2 columns", "question 1 fault 0: results sum to 1.5",
	} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("errors lack %q:\n%v", want, err)
		}
	}
}

func TestExactRefusesLargeProblems(t *testing.T) {
	if _, _, err := Exact(full(1)); err == nil || !strings.Contains(err.Error(), "states") {
		t.Errorf("error %v, expected the number of states", err)
	}
}

// Nothing known, nothing to do: the advice is a service, not a panic.
func TestEmptyProblem(t *testing.T) {
	a := advise(t, Problem{ServiceMinutes: 30})
	if a.Next.Kind != Service || a.Minutes != 30 {
		t.Errorf("advice %+v, expected a service of 30 minutes", a)
	}
}
