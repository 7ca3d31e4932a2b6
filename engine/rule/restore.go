package rule

import "fmt"

// Restore makes a set of rules that were checked before and written away as
// plain values. Conditions are parsed again, not checked again.
func Restore(rules []Rule) (*Set, error) {
	s := &Set{Rules: rules, index: make(map[string]int, len(rules)), eval: newEvaluator()}
	for i, r := range rules {
		s.index[r.ID] = i
		if r.When == nil {
			continue
		}
		c, p := s.eval.parse(r.When.Text)
		if p != nil {
			return nil, fmt.Errorf("rule %s: %s", r.ID, p.message)
		}
		s.Rules[i].When = c
	}
	return s, nil
}
