package ruletest

import (
	"errors"
	"slices"

	"example.org/takeup/engine/belief"
	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/network"
	"example.org/takeup/engine/rule"
)

// simulated is one machine with its network and what can be asked about it.
type simulated struct {
	cat     *catalog.Catalog
	net     *network.Network
	depths  []Depth
	budget  belief.Budget
	settled [][]int // for each depth the signs that it may answer
	causes  []int
	signs   []int
	weights []float64 // priors, in the order of causes
}

func newSimulated(cat *catalog.Catalog, set *rule.Set, words *fact.Vocabulary, known fact.Set, trials Trials) (*simulated, error) {
	net, err := network.Build(cat, set, set.Fire(known))
	if err != nil {
		return nil, err
	}
	s := &simulated{cat: cat, net: net, depths: trials.Depths, budget: trials.Budget, causes: net.Of(fact.RoleCause), signs: net.Of(fact.RoleSign)}
	for _, v := range s.causes {
		s.weights = append(s.weights, net.Graph.Variables[v].Leak)
	}
	sensible := func(needs string) bool {
		c, err := set.Parse(needs, words)
		return err == nil && set.Ask(c, known).Verdict != rule.No
	}
	for _, d := range trials.Depths {
		var list []int
		for _, v := range s.signs {
			if sign := s.sign(v); sensible(sign.Needs) && d.settles(sign, cat, sensible) {
				list = append(list, v)
			}
		}
		s.settled = append(s.settled, list)
	}
	return s, nil
}

func (d Depth) settles(sign catalog.Sign, cat *catalog.Catalog, sensible func(string) bool) bool {
	if d.All || slices.Contains(d.Kinds, sign.Kind) {
		return true
	}
	for _, c := range cat.ChecksFor(sign.ID) {
		if slices.Contains(d.Stages, c.Stage) && sensible(c.Needs) {
			return true
		}
	}
	return false
}

func (s *simulated) sign(v int) catalog.Sign {
	sign, _ := s.cat.Sign(s.net.Variables[v].ID)
	return sign
}

// judge returns the posteriors of all causes once the signs of a depth are
// answered, in the order of s.causes, and whether answers had to be left out to
// keep within the budget of an exact answer.
func (s *simulated) judge(depth int, c drawn) (p []float64, hard bool, err error) {
	var findings []belief.Finding
	for _, v := range s.answered(depth, c) {
		if c.present[v] {
			findings = append(findings, belief.Yes(v))
		} else {
			findings = append(findings, belief.No(v))
		}
	}
	cond, err := belief.ConditionKeeping(s.net.Graph, findings, s.causes, s.budget)
	var much *belief.TooHardError
	for errors.As(err, &much) && len(much.Findings) > 0 {
		hard, findings = true, without(findings, much.Findings)
		cond, err = belief.ConditionKeeping(s.net.Graph, findings, s.causes, s.budget)
	}
	if err != nil {
		return nil, hard, err
	}
	p, err = cond.Posteriors(s.causes)
	return p, hard, err
}

func without(all []belief.Finding, places []int) []belief.Finding {
	out := make([]belief.Finding, 0, len(all))
	for i, f := range all {
		if !slices.Contains(places, i) {
			out = append(out, f)
		}
	}
	return out
}

// answered lists the signs that a depth gives an answer to.
func (s *simulated) answered(depth int, c drawn) []int {
	d, signs := s.depths[depth], s.settled[depth]
	if !d.Spontaneous {
		return signs
	}
	families := map[string]bool{}
	for _, v := range signs {
		if c.present[v] {
			families[s.sign(v).Family] = true
		}
	}
	var out []int
	denied := 0
	for _, i := range c.order(len(signs)) {
		v := signs[i]
		if c.present[v] {
			out = append(out, v)
		} else if denied < d.Denied && families[s.sign(v).Family] {
			denied++
			out = append(out, v)
		}
	}
	return out
}
