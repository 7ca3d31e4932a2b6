package ruletest

import (
	"fmt"
	"sort"
	"strings"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/rule"
)

// Gaps lists what rules, knowledge and tests leave open, sorted by kind and id.
func Gaps(cat *catalog.Catalog, set *rule.Set, report *Report) []Gap {
	var gaps []Gap
	add := func(kind, id, format string, args ...any) {
		gaps = append(gaps, Gap{kind, id, fmt.Sprintf(format, args...)})
	}
	for _, r := range set.Rules {
		if !report.fires[r.ID] {
			add("untested", r.ID, "rule %s: no test in which it fires", r.ID)
		}
		if !report.quiet[r.ID] {
			add("untested", r.ID, "rule %s: no test in which it is quiet", r.ID)
		}
		for _, leaf := range leaves(r) {
			seen := report.clauses[r.ID+": "+leaf]
			if !seen[0] {
				add("clause", r.ID, "rule %s: %s is never true in a test", r.ID, leaf)
			}
			if !seen[1] {
				add("clause", r.ID, "rule %s: %s is never false in a test", r.ID, leaf)
			}
		}
	}
	settled(cat, set, add)
	reach(cat, set, add)
	sort.SliceStable(gaps, func(i, j int) bool {
		if gaps[i].Kind != gaps[j].Kind {
			return gaps[i].Kind < gaps[j].Kind
		}
		return gaps[i].ID < gaps[j].ID
	})
	return gaps
}

// settled finds conditions that say the same whatever is known.
func settled(cat *catalog.Catalog, set *rule.Set, add func(kind, id, format string, args ...any)) {
	words, needs := cat.Vocabulary(), map[string]*rule.Condition{}
	for _, f := range cat.Facts {
		if c, err := set.Parse(f.Needs, words); err == nil && c != nil {
			needs[f.ID] = c
		}
	}
	for _, r := range set.Rules {
		if r.When == nil {
			continue
		}
		switch set.Settled(r.When, words, needs) {
		case rule.Yes:
			add("settled", r.ID, "rule %s: %s holds whatever is known; leave it out", r.ID, r.When.Text)
		case rule.No:
			add("settled", r.ID, "rule %s: %s can never hold", r.ID, r.When.Text)
		}
	}
}

// leaves lists the clauses of a rule, those of what must be given first.
func leaves(r rule.Rule) (all []string) {
	for _, c := range []*rule.Condition{r.Given, r.When} {
		if c != nil {
			all = append(all, c.Leaves()...)
		}
	}
	return all
}

// reach walks the arrows of all rules, whatever their conditions.
func reach(cat *catalog.Catalog, set *rule.Set, add func(kind, id, format string, args ...any)) {
	next, used := map[string][]string{}, map[string]bool{}
	for _, r := range set.Rules {
		switch r.Action {
		case rule.Brings:
			next[r.From] = append(next[r.From], r.To)
			used[r.To] = true
		case rule.Shows:
			used["shown:"+r.To] = true
		}
	}
	kinds := map[string]string{}
	for _, s := range cat.Signs {
		kinds[s.ID] = s.Kind
		if !used[s.ID] {
			add("unused", s.ID, "sign %s: nothing brings it, so it speaks for nothing", s.ID)
		}
		if len(cat.ChecksFor(s.ID)) == 0 && s.Kind == "found" {
			add("unused", s.ID, "sign %s: no check settles it", s.ID)
		}
	}
	for _, e := range cat.Effects {
		if !used[e.ID] {
			add("unreachable", e.ID, "effect %s: no cause brings it", e.ID)
		}
		if len(next[e.ID]) == 0 {
			add("unused", e.ID, "effect %s: no sign shows it", e.ID)
		}
	}
	for _, c := range cat.Causes {
		shown := signsOf(c.ID, next, kinds)
		if !shown["complaint"] {
			add("unreachable", c.ID, "cause %s: no complaint leads to it", c.ID)
		}
		if !shown["found"] && !shown["bench"] && !shown["road"] {
			add("unreachable", c.ID, "cause %s: no check finds it", c.ID)
		}
	}
}

// signsOf lists the kinds of signs that a cause can bring, directly, through
// effects or through further causes.
func signsOf(cause string, next map[string][]string, kinds map[string]string) map[string]bool {
	out, seen := map[string]bool{}, map[string]bool{}
	var walk func(id string)
	walk = func(id string) {
		if seen[id] {
			return
		}
		seen[id] = true
		if k, ok := kinds[id]; ok {
			out[k] = true
		}
		for _, to := range next[id] {
			walk(to)
		}
	}
	walk(cause)
	return out
}

// String returns the message.
func (g Gap) String() string { return strings.TrimSpace(g.Message) }
