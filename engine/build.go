package engine

import (
	"slices"

	"example.org/takeup/engine/build"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/network"
	"example.org/takeup/engine/rule"
	"example.org/takeup/engine/source"
)

// Build is the sheet for putting the machine of a diagnosis back together, from the
// given stage, or with "" from the deepest stage the job needs.
func (e *Engine) Build(d *Diagnosis, from string) (*build.Sheet, error) {
	j := build.Job{Catalog: e.Catalog, Rules: e.Rules, Words: e.Words, Known: d.Case.Known, Found: d.Case.Found, Open: d.Case.Open, From: from}
	for _, done := range d.Case.Done {
		j.Done = append(j.Done, done.Check)
	}
	for _, c := range d.Explanation.Causes {
		b := build.Belief{Cause: c.ID, Probability: c.Probability}
		for _, ev := range d.Evidence {
			if ev.Yes() && linked(d.Network, c.ID, ev.Sign) {
				b.Seen = append(b.Seen, ev.Sign)
				if e.listed(ev.Rule) {
					b.Listed = append(b.Listed, ev.Rule)
				}
			}
		}
		j.Beliefs = append(j.Beliefs, b)
	}
	j.Places = e.places(d)
	return build.New(j)
}

// places are the parts of the stack that made a rule find something wrong with it.
func (e *Engine) places(d *Diagnosis) (all []int) {
	for i, r := range e.Rules.Rules {
		f := d.Firings[i]
		if r.Action != rule.Shows || f.Verdict == rule.Unknown || f.Probability < 0.5 || !e.listed(r.ID) {
			continue
		}
		for _, c := range f.Clauses {
			if c.Probability >= 0.5 {
				all = append(all, c.Places...)
			}
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// steps reports conditions of the build sheet that cannot be read.
func (e *Engine) steps(ps *source.Problems) {
	for _, s := range e.Catalog.Steps {
		if _, err := e.Rules.Parse(s.When, e.Words); err != nil {
			pos := s.Pos
			pos.File = "knowledge/" + pos.File
			ps.Errorf("K124", pos, 1, "step %s: when: %s", s.ID, err)
		}
	}
}

// listed reports whether a rule reads its sign off the stack.
func (e *Engine) listed(id string) bool {
	r, known := e.Rules.Rule(id)
	return known && r.When != nil && slices.ContainsFunc(r.When.Words(), func(w string) bool { return e.Words.Has(w, fact.RoleStack) })
}

// linked reports whether a cause brings a sign of itself, without an effect between.
func linked(n *network.Network, cause, sign string) bool {
	from, to := n.Index(cause), n.Index(sign)
	for _, l := range n.Links {
		if from >= 0 && l.From == from && l.To == to {
			return true
		}
	}
	return false
}
