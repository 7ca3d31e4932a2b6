package ruletest

import (
	"errors"
	"slices"

	"example.org/takeup/engine/belief"
	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/network"
	"example.org/takeup/engine/rule"
	"example.org/takeup/engine/sample"
)

// simulation is what all cases share.
type simulation struct {
	cat    *catalog.Catalog
	set    *rule.Set
	trials Trials
}

// judgement is what the network makes of a machine at one depth.
type judgement struct {
	causes []string // in the order of the catalog
	p      []float64
	hard   bool // answers had to be left out to keep within the budget of an exact answer
}

// judge builds the network from what is known at a depth and answers its signs.
func (s *simulation) judge(depth int, m *sample.Machine) (j judgement, err error) {
	d, known := s.trials.Depths[depth], m.Sheet
	if d.History {
		known = m.Known()
	}
	net, err := network.Build(s.cat, s.set, s.set.Fire(known))
	if err != nil {
		return j, err
	}
	var findings []belief.Finding
	for _, a := range s.answers(d, m) {
		if v := net.Index(a.Sign); a.Yes {
			findings = append(findings, belief.Yes(v))
		} else {
			findings = append(findings, belief.No(v))
		}
	}
	asked := net.Of(fact.RoleCause)
	for _, v := range asked {
		j.causes = append(j.causes, net.Variables[v].ID)
	}
	cond, err := belief.ConditionKeeping(net.Graph, findings, asked, s.trials.Budget)
	var much *belief.TooHardError
	for errors.As(err, &much) && len(much.Findings) > 0 {
		j.hard, findings = true, without(findings, much.Findings)
		cond, err = belief.ConditionKeeping(net.Graph, findings, asked, s.trials.Budget)
	}
	if err == nil {
		j.p, err = cond.Posteriors(asked)
	}
	return j, err
}

// answers lists the signs that a depth gives an answer to.
func (s *simulation) answers(d Depth, m *sample.Machine) []sample.Answer {
	if d.Spontaneous {
		return m.Complaints()
	}
	var out []sample.Answer
	for _, x := range s.cat.Signs {
		if m.Sensible(x.Needs) && d.settles(x, s.cat, m) {
			out = append(out, sample.Answer{Sign: x.ID, Yes: m.Has(x.ID)})
		}
	}
	return out
}

func (d Depth) settles(sign catalog.Sign, cat *catalog.Catalog, m *sample.Machine) bool {
	if d.All || slices.Contains(d.Kinds, sign.Kind) {
		return true
	}
	return slices.ContainsFunc(cat.ChecksFor(sign.ID), func(c catalog.Check) bool {
		return slices.Contains(d.Stages, c.Stage) && m.Sensible(c.Needs)
	})
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
