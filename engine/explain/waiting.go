package explain

import (
	"math"
	"slices"
	"sort"
	"strings"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/network"
	"example.org/takeup/engine/rule"
)

// waiting lists the rules that cannot tell yet, those that could move a cause most
// first. Cautions and readings that nobody took are not worth a question; a stack of
// which only a part was said is.
func (w *work) waiting() []Waiting {
	var out []Waiting
	for i, f := range w.Firings {
		r := w.Rules.Rules[i]
		if f.Verdict != rule.Unknown || r.Action == rule.Cautions || r.Action == rule.Shows && (!inStack(f.Waits) || w.observed(r.To)) {
			continue
		}
		if facts := w.sensible(f.Waits); len(facts) > 0 {
			out = append(out, Waiting{f.Rule, facts, w.moves(r)})
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Moves > out[j].Moves })
	return out
}

// moves is how far an answer could move the probability of a cause that the rule
// speaks about, times that probability: a question about what is hardly suspected
// changes nothing that is done next, however much it says.
func (w *work) moves(r rule.Rule) float64 {
	most := 0.0
	for _, f := range r.Factors {
		by := f.By
		if r.Action == rule.Lowers {
			by = 1 / by
		}
		p := w.posterior(f.Cause)
		most = max(most, p*math.Abs(p*by/(1-p+p*by)-p))
	}
	for _, c := range r.Causes { // ruled out altogether
		p := w.posterior(c)
		most = max(most, p*p)
	}
	switch r.Action {
	case rule.Brings:
		// A link that may be there weighs as much as its cause is in doubt.
		p := w.posterior(r.From)
		most = p * p * (1 - p) * r.Strength
	case rule.Shows:
		p := w.posterior(r.To)
		most = p * max(p, 1-p)
	}
	return most
}

// posterior is that of a variable by its id, 0 for one that is not in the graph.
func (w *work) posterior(id string) float64 {
	if v := w.Network.Index(id); v >= 0 {
		return w.result.Posterior[v]
	}
	return 0
}

// sensible leaves out the facts that make no sense to ask as things stand: which
// part has been in hand is no question about an engine that was never open.
func (w *work) sensible(words []string) []string {
	if w.Words == nil {
		return words
	}
	var out []string
	for _, id := range words {
		if f, ok := w.Catalog.Fact(id); !ok || w.Rules.Needs(f.Needs, w.Words, w.Known) != rule.No {
			out = append(out, id)
		}
	}
	return out
}

// observed reports whether a sign has been seen, or found missing, already.
func (w *work) observed(sign string) bool {
	return slices.ContainsFunc(w.Evidence, func(e network.Evidence) bool { return e.Sign == sign })
}

// inStack reports whether all that a rule waits for belongs to a stack that is known.
func inStack(words []string) bool {
	for _, w := range words {
		if !strings.HasPrefix(w, catalog.StackID+".") {
			return false
		}
	}
	return len(words) > 0
}
