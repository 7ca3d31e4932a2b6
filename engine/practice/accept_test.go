package practice_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"runtime"
	"slices"
	"sync"
	"testing"

	"example.org/takeup/engine/belief"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/intake"
	"example.org/takeup/engine/network"
	"example.org/takeup/engine/practice"
	"example.org/takeup/engine/rule"
)

// Seeded cases of every level: the planner names the truth, results agree with
// it but for the error rates that the book states, and the same order gives the
// same bytes. -cases 500 is the long run.
func TestCases(t *testing.T) {
	b, sheets := shipped(t)
	for level := 1; level <= practice.Levels; level++ {
		t.Run(fmt.Sprintf("level %d", level), func(t *testing.T) {
			var mu sync.Mutex
			var total account
			every(*cases, func(i int) {
				a := one(t, b, sheets, practice.Order{Seed: uint64(*first + i), Level: level}, i%10 == 0)
				mu.Lock()
				defer mu.Unlock()
				total.add(a)
			})
			total.check(t)
		})
	}
}

// every calls do for 0 to n-1 on all processors.
func every(n int, do func(int)) {
	var wg sync.WaitGroup
	next := make(chan int)
	for range runtime.GOMAXPROCS(0) {
		wg.Go(func() {
			for i := range next {
				do(i)
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	wg.Wait()
}

// account counts what is held against the book's own numbers.
type account struct {
	cases, doubles, moves int
	minutes               float64
	strong, missing       int     // signs that a cause there brings with .8 or more; those not there
	missAllowed           float64 // how many may be missing
	bare, stray           int     // signs that nothing there brings; those there all the same
	strayAllowed          float64
	read, misread         int // signs that a reading settles; those it settles the wrong way
	causes                map[string]int
}

func (a *account) add(x account) {
	a.cases += x.cases
	a.doubles += x.doubles
	a.moves += x.moves
	a.minutes += x.minutes
	a.strong, a.missing, a.missAllowed = a.strong+x.strong, a.missing+x.missing, a.missAllowed+x.missAllowed
	a.bare, a.stray, a.strayAllowed = a.bare+x.bare, a.stray+x.stray, a.strayAllowed+x.strayAllowed
	a.read, a.misread = a.read+x.read, a.misread+x.misread
	if a.causes == nil {
		a.causes = map[string]int{}
	}
	for id, n := range x.causes {
		a.causes[id] += n
	}
}

func (a *account) check(t *testing.T) {
	n := float64(max(1, a.cases))
	t.Logf("%d cases, %d with two faults, %d different faults; the planner needs %.1f moves and %.0f min on average; "+
		"%d of %d strong signs missing (%.1f allowed), %d of %d signs from nowhere (%.1f allowed), %d of %d readings against the truth",
		a.cases, a.doubles, len(a.causes), float64(a.moves)/n, a.minutes/n, a.missing, a.strong, a.missAllowed, a.stray, a.bare, a.strayAllowed, a.misread, a.read)
	// Cases are picked for being solvable, which only thins errors out; four
	// standard deviations of a Poisson count are left for chance.
	if x := a.missAllowed; float64(a.missing) > x+4*math.Sqrt(x)+1 {
		t.Errorf("%d strong signs are missing, the strengths allow %.1f", a.missing, x)
	}
	if x := a.strayAllowed; float64(a.stray) > x+4*math.Sqrt(x)+1 {
		t.Errorf("%d signs come from nowhere, the leaks allow %.1f", a.stray, x)
	}
	if a.misread > 0 {
		t.Errorf("%d of %d readings say the opposite of the truth", a.misread, a.read)
	}
	if a.strong == 0 || a.bare == 0 || a.read == 0 {
		t.Error("nothing was held against the truth")
	}
}

func one(t *testing.T, b practice.Book, sheets []intake.Sheet, o practice.Order, again bool) account {
	s, err := b.Draw(o, sheets)
	if err != nil {
		t.Errorf("seed %d: %v", o.Seed, err)
		return account{}
	}
	par, err := b.Walk(s)
	if err != nil {
		t.Errorf("seed %d: %v", o.Seed, err)
		return account{}
	}
	named := func(id string) bool {
		return slices.ContainsFunc(par.Named, func(c practice.Candidate) bool { return c.Cause == id && c.Probability >= 0.5 })
	}
	if !par.Solved() || slices.ContainsFunc(s.Truth, func(id string) bool { return !named(id) }) {
		t.Errorf("seed %d: the planner names %v, the truth is %v", o.Seed, par.Named, s.Truth)
	}
	a := account{cases: 1, moves: len(par.Moves), minutes: par.Minutes, causes: map[string]int{}}
	for _, id := range s.Truth {
		a.causes[id]++
	}
	if len(s.Truth) > 1 {
		a.doubles = 1
	}
	a.agree(t, b, s)
	if again {
		twice, err := b.Draw(o, sheets)
		if err != nil || !bytes.Equal(written(t, b, s), written(t, b, twice)) {
			t.Errorf("seed %d: another case the second time (%v)", o.Seed, err)
		}
	}
	return a
}

// written is all of a scenario as bytes.
func written(t *testing.T, b practice.Book, s *practice.Scenario) []byte {
	text, err := json.Marshal(s)
	if err != nil {
		t.Error(err)
	}
	return append(text, b.YAML(s, "x")...)
}

// agree holds every sign against what its causes, given the truth, lead one to
// expect.
func (a *account) agree(t *testing.T, b practice.Book, s *practice.Scenario) {
	known := s.Known.Clone()
	net, err := network.Build(b.Catalog, b.Rules, b.Fire(known))
	if err != nil {
		t.Error(err)
		return
	}
	var causes []belief.Finding
	for _, v := range net.Of(fact.RoleCause) {
		if id := net.Variables[v].ID; s.Fault(id) || s.Damage(id) {
			causes = append(causes, belief.Yes(v))
		} else {
			causes = append(causes, belief.No(v))
		}
	}
	signs := net.Of(fact.RoleSign)
	cond, err := belief.ConditionKeeping(net.Graph, causes, signs, belief.DefaultBudget)
	if err != nil {
		t.Error(err)
		return
	}
	p, err := cond.Posteriors(signs)
	if err != nil {
		t.Error(err)
		return
	}
	owed, shows, err := brought(b, net, causes, signs)
	if err != nil {
		t.Error(err)
		return
	}
	for i, v := range signs {
		e, there := s.Signs[net.Variables[v].ID]
		switch {
		case !there:
		case p[i] >= 0.8:
			a.strong++
			a.missAllowed += 1 - p[i]
			if !e.Yes() {
				a.missing++
			}
		case p[i] <= 0.05:
			a.bare++
			a.strayAllowed += min(1, owed[i]/shows+max(0, p[i]-owed[i]))
			if e.Yes() {
				a.stray++
			}
		}
	}
	for _, id := range s.Readings.IDs() {
		v, _ := s.Readings.Get(id)
		known.Put(id, v)
	}
	found := map[string]float64{}
	for i, f := range b.Fire(known) {
		if r := b.Rules.Rules[i]; r.Action == rule.Shows && f.Verdict != rule.Unknown {
			found[r.To] = max(found[r.To], f.Probability)
		}
	}
	for id, p := range found {
		if e, there := s.Signs[id]; there {
			a.read++
			// Close to a limit a reading says itself how far it can be wrong.
			if e.Yes() && p < 0.1 || !e.Yes() && p > 0.9 {
				a.misread++
				t.Logf("seed %d: %s is %s, the readings say it with %.2f", s.Seed, id, e.Answer, p)
			}
		}
	}
}

// brought is how likely each sign is to be brought about by the causes, nothing
// coming from nowhere, and how likely a complaint is. A machine comes in only with
// a complaint that its fault has brought about: that makes what it brings about
// more frequent among the cases, by no more than one over that probability.
func brought(b practice.Book, net *network.Network, causes []belief.Finding, signs []int) (p []float64, complaint float64, err error) {
	g := belief.Graph{Variables: slices.Clone(net.Graph.Variables)}
	for v := range g.Variables {
		if net.Variables[v].Role != fact.RoleCause {
			g.Variables[v].Leak = 0
		}
	}
	var complaints []int
	for _, v := range signs {
		if x, _ := b.Catalog.Sign(net.Variables[v].ID); x.Kind == "complaint" {
			complaints = append(complaints, v)
		}
	}
	cond, err := belief.ConditionKeeping(g, causes, signs, belief.DefaultBudget)
	if err != nil {
		return nil, 0, err
	}
	if p, err = cond.Posteriors(signs); err != nil {
		return nil, 0, err
	}
	none, err := cond.NoneOf(complaints)
	return p, 1 - none, err
}
