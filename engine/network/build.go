package network

import (
	"fmt"
	"slices"
	"strings"

	"example.org/takeup/engine/belief"
	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/rule"
)

// CycleError says that causes or effects lead to one another in a ring, which
// a directed acyclic graph cannot hold.
type CycleError struct{ IDs []string }

// Error names the ring.
func (e *CycleError) Error() string {
	return "these lead to one another in a ring: " + strings.Join(e.IDs, " -> ")
}

// Build makes the graph. Firings belong to the rules of the set, one each, as
// Set.Fire returns them; a rule whose condition cannot tell yet draws nothing.
// The error is a *CycleError.
func Build(cat *catalog.Catalog, set *rule.Set, firings []rule.Firing) (*Network, error) {
	if len(firings) != len(set.Rules) {
		panic(fmt.Sprintf("network: %d firings for %d rules", len(firings), len(set.Rules)))
	}
	b := builder{cat: cat, set: set, firings: firings, net: newNetwork(len(cat.Causes), len(cat.Causes)+len(cat.Effects)+len(cat.Signs))}
	b.priors()
	if err := b.variables(); err != nil {
		return nil, err
	}
	b.links()
	return b.net, nil
}

type builder struct {
	cat     *catalog.Catalog
	set     *rule.Set
	firings []rule.Firing
	net     *Network
}

// fired visits the rules of one action whose condition holds.
func (b builder) fired(action rule.Action, visit func(*rule.Rule)) {
	for i := range b.set.Rules {
		r := &b.set.Rules[i]
		if r.Action == action && b.firings[i].Verdict == rule.Yes {
			visit(r)
		}
	}
}

func (b builder) priors() {
	for i, c := range b.cat.Causes {
		b.net.prior[c.ID] = i
		b.net.Priors = append(b.net.Priors, Prior{Cause: c.ID, Base: c.Prior, Now: c.Prior})
	}
	step := func(r *rule.Rule, f rule.Factor, by float64) {
		p := &b.net.Priors[b.net.prior[f.Cause]]
		p.Steps = append(p.Steps, Step{r.ID, by})
		odds := p.Now / (1 - p.Now) * by
		p.Now = odds / (1 + odds)
	}
	b.fired(rule.Raises, func(r *rule.Rule) {
		for _, f := range r.Factors {
			step(r, f, f.By)
		}
	})
	b.fired(rule.Lowers, func(r *rule.Rule) {
		for _, f := range r.Factors {
			step(r, f, 1/f.By)
		}
	})
	b.fired(rule.RulesOut, func(r *rule.Rule) {
		for _, c := range r.Causes {
			p := &b.net.Priors[b.net.prior[c]]
			p.RuledOut, p.Now = r.ID, 0
		}
	})
}

// variables lays causes, effects and signs out so that parents come first.
func (b builder) variables() error {
	var causes, effects, signs []string
	for _, c := range b.cat.Causes {
		causes = append(causes, c.ID)
	}
	for _, e := range b.cat.Effects {
		effects = append(effects, e.ID)
	}
	for _, s := range b.cat.Signs {
		signs = append(signs, s.ID)
	}
	next := map[string][]string{}
	b.fired(rule.Brings, func(r *rule.Rule) { next[r.From] = append(next[r.From], r.To) })
	for _, group := range []struct {
		role fact.Role
		ids  []string
	}{{fact.RoleCause, causes}, {fact.RoleEffect, effects}, {fact.RoleSign, signs}} {
		ordered, err := order(group.ids, next)
		if err != nil {
			return err
		}
		for _, id := range ordered {
			b.net.index[id] = len(b.net.Variables)
			b.net.Variables = append(b.net.Variables, Variable{id, group.role})
			b.net.Graph.Variables = append(b.net.Graph.Variables, belief.Variable{Name: id, Leak: b.leak(id, group.role)})
		}
	}
	return nil
}

func (b builder) leak(id string, role fact.Role) float64 {
	switch role {
	case fact.RoleCause:
		return b.net.Priors[b.net.prior[id]].Now
	case fact.RoleEffect:
		e, _ := b.cat.Effect(id)
		return e.Leak
	}
	s, _ := b.cat.Sign(id)
	return s.Leak
}

// order sorts ids so that whatever leads to another comes before it, keeping
// the given order otherwise.
func order(ids []string, next map[string][]string) ([]string, error) {
	waits := map[string]int{}
	for _, id := range ids {
		waits[id] = 0
	}
	for _, id := range ids {
		for _, to := range next[id] {
			if _, here := waits[to]; here {
				waits[to]++
			}
		}
	}
	if !slices.ContainsFunc(ids, func(id string) bool { return waits[id] > 0 }) {
		return ids, nil
	}
	var out []string
	for done := map[string]bool{}; len(out) < len(ids); {
		before := len(out)
		for _, id := range ids {
			if done[id] || waits[id] > 0 {
				continue
			}
			done[id] = true
			out = append(out, id)
			for _, to := range next[id] {
				waits[to]--
			}
		}
		if len(out) == before {
			return nil, &CycleError{ring(ids, done, next)}
		}
	}
	return out, nil
}

// ring walks along what is left until it meets a place again.
func ring(ids []string, done map[string]bool, next map[string][]string) []string {
	left := map[string]bool{}
	for _, id := range ids {
		left[id] = !done[id]
	}
	// What is left may hang below the ring; walking backwards always enters it.
	before := map[string]string{}
	for _, id := range ids {
		for _, to := range next[id] {
			if left[id] && left[to] {
				before[to] = id
			}
		}
	}
	at := ""
	for _, id := range ids {
		if left[id] && before[id] != "" {
			at = id
			break
		}
	}
	seen, path := map[string]int{}, []string{}
	for {
		if i, met := seen[at]; met {
			path = append(path[i:], at)
			break
		}
		seen[at] = len(path)
		path = append(path, at)
		at = before[at]
	}
	for i, j := 0, len(path)-1; i < j; i, j = i+1, j-1 {
		path[i], path[j] = path[j], path[i]
	}
	return path
}

func (b builder) links() {
	b.fired(rule.Brings, func(r *rule.Rule) {
		if !b.ruledOut(r.From) && !b.ruledOut(r.To) {
			b.net.Links = append(b.net.Links, Link{r.ID, b.net.index[r.From], b.net.index[r.To], 0, r.Strength})
		}
	})
	b.makeRoom()
	for i := range b.net.Links {
		l := &b.net.Links[i]
		v := &b.net.Graph.Variables[l.To]
		l.Slot = slices.Index(v.Parents, l.From)
		if l.Slot >= 0 {
			v.Strengths[l.Slot] = 1 - (1-v.Strengths[l.Slot])*(1-l.Strength)
			continue
		}
		l.Slot = len(v.Parents)
		v.Parents = append(v.Parents, l.From)
		v.Strengths = append(v.Strengths, l.Strength)
	}
}

// makeRoom cuts every variable's lists of parents and strengths, empty yet, from
// two long ones: hundreds of short lists that grow cost more than all else here.
func (b builder) makeRoom() {
	into := make([]int, len(b.net.Variables))
	for _, l := range b.net.Links {
		into[l.To]++
	}
	parents, strengths, at := make([]int, len(b.net.Links)), make([]float64, len(b.net.Links)), 0
	for v, n := range into {
		if n > 0 {
			x := &b.net.Graph.Variables[v]
			x.Parents, x.Strengths = parents[at:at:at+n], strengths[at:at:at+n]
			at += n
		}
	}
}

func (b builder) ruledOut(id string) bool {
	p, ok := b.net.PriorOf(id)
	return ok && p.RuledOut != ""
}
