package rule

import "fmt"

// Restore makes a set of rules that were checked before and written away as
// plain values. Conditions are parsed again, not checked again.
func Restore(rules []Rule) (*Set, error) {
	s := &Set{Rules: rules, index: make(map[string]int, len(rules)), eval: newEvaluator()}
	for i, r := range rules {
		s.index[r.ID] = i
		for _, c := range []**Condition{&s.Rules[i].When, &s.Rules[i].Given} {
			if *c == nil {
				continue
			}
			parsed, p := s.eval.parse((*c).Text)
			if p != nil {
				return nil, fmt.Errorf("rule %s: %s", r.ID, p.message)
			}
			*c = parsed
		}
	}
	return s, nil
}
