package explain

import (
	"fmt"
	"math"
	"sort"

	"example.org/takeup/engine/belief"
)

// account solves the graph for every beginning of the evidence and for every
// piece struck out. One program that holds the signs unobserved serves them all.
func (w *work) account() error {
	keep := append([]int(nil), w.causes...)
	for _, f := range w.findings {
		keep = append(keep, w.toHold(f)...)
	}
	c, err := belief.ConditionKeeping(w.Network.Graph, nil, keep, belief.DefaultBudget)
	if err != nil {
		return err
	}
	given := func(findings []belief.Finding) []float64 {
		var p []float64
		if err == nil {
			p, err = c.Given(findings, w.causes)
		}
		return p
	}
	n := len(w.findings)
	for k := range n + 1 {
		w.chain = append(w.chain, given(w.findings[:k]))
	}
	for k := range n - 1 {
		w.without = append(w.without, given(append(append([]belief.Finding(nil), w.findings[:k]...), w.findings[k+1:]...)))
	}
	if n > 0 { // without the last piece is the beginning that ends before it
		w.without = append(w.without, w.chain[n-1])
	}
	return err
}

// toHold lists what the program must hold for a finding: its variable or, where
// it says no, the parents only. That is far cheaper: a sign held in case it is
// there ties its parents together.
func (w *work) toHold(f belief.Finding) []int {
	x := w.Network.Graph.Variables[f.Variable]
	if f.Present > 0 || x.Table != nil || len(x.Parents) == 0 {
		return []int{f.Variable}
	}
	return x.Parents
}

// balance writes the account of the cause at place i of the possible ones.
func (w *work) balance(i int) Balance {
	p, _ := w.Network.PriorOf(w.id(w.causes[i]))
	b := Balance{Base: belief.Decibans(p.Base), History: make([]Entry, 0, len(p.Steps)), Entries: make([]Entry, 0, len(w.Evidence))}
	at := b.Base
	for _, s := range p.Steps {
		b.History = append(b.History, Entry{ID: s.Rule, Decibans: belief.LikelihoodWeight(s.By)})
		at += belief.LikelihoodWeight(s.By)
	}
	b.ByOthers = unrounded(belief.Decibans(w.chain[0][i]) - at)
	last := len(w.chain) - 1
	b.Final = belief.Decibans(w.chain[last][i])
	for k, e := range w.Evidence {
		b.Entries = append(b.Entries, Entry{
			ID: e.Sign, Answer: e.Answer,
			Decibans:    unrounded(belief.Weight(w.chain[k][i], w.chain[k+1][i])),
			LeaveOneOut: unrounded(belief.Weight(w.without[k][i], w.chain[last][i])),
		})
	}
	return b
}

// unrounded takes what is rounding of the odds for what it is: nothing.
func unrounded(decibans float64) float64 {
	if math.Abs(decibans) < 1e-9 {
		return 0
	}
	return decibans
}

// Prior returns the account before any sign: base, history and other causes.
func (b Balance) Prior() float64 {
	sum := b.Base + b.ByOthers
	for _, h := range b.History {
		sum += h.Decibans
	}
	return sum
}

// Find returns the cause with the given id.
func (ex *Explanation) Find(id string) (Cause, bool) {
	for _, c := range ex.Causes {
		if c.ID == id {
			return c, true
		}
	}
	return Cause{}, false
}

// Against contrasts two causes: every line in which the account of a differs
// from that of b, largest difference first.
func (ex *Explanation) Against(a, b string) (Contrast, error) {
	ca, okA := ex.Find(a)
	cb, okB := ex.Find(b)
	if !okA || !okB {
		return Contrast{}, fmt.Errorf("%q and %q are not both possible causes of this case", a, b)
	}
	out := Contrast{A: ca, B: cb, Total: ca.Balance.Final - cb.Balance.Final}
	out.Lines = append(out.Lines, Entry{ID: "prior", Decibans: ca.Balance.Prior() - cb.Balance.Prior()})
	for i, e := range ca.Balance.Entries {
		f := cb.Balance.Entries[i]
		out.Lines = append(out.Lines, Entry{e.ID, e.Answer, e.Decibans - f.Decibans, e.LeaveOneOut - f.LeaveOneOut})
	}
	sort.SliceStable(out.Lines, func(i, j int) bool {
		return math.Abs(out.Lines[i].Decibans) > math.Abs(out.Lines[j].Decibans)
	})
	return out, nil
}
