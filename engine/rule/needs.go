package rule

import (
	"fmt"
	"strings"

	"example.org/takeup/engine/fact"
)

// asked is a condition that does not stand in a rule, in the words it was checked
// with.
type asked struct {
	text  string
	words *fact.Vocabulary
}

// Parse checks one condition that does not stand in a rule, such as the
// `needs` of a check. Only context may be mentioned. Empty text gives nil. A
// condition is parsed once, however often it is asked for.
func (s *Set) Parse(text string, words *fact.Vocabulary) (*Condition, error) {
	if strings.TrimSpace(text) == "" {
		return nil, nil
	}
	key := asked{text, words}
	if c, ok := s.eval.asked.Load(key); ok {
		return c.(*Condition), nil
	}
	c, p := s.eval.parse(text)
	if p == nil {
		t := typer{words: words, functions: s.eval.functions, allowed: contextOnly}
		if all := t.condition(c); len(all) > 0 {
			p = all[0]
		}
	}
	if p != nil {
		return nil, fmt.Errorf("in %q: %s", text, p.message)
	}
	s.eval.asked.Store(key, c)
	return c, nil
}

// Needs answers a `needs` condition. An empty one is a yes, one that cannot be read
// a no.
func (s *Set) Needs(text string, words *fact.Vocabulary, known fact.Set) Verdict {
	c, err := s.Parse(text, words)
	if err != nil {
		return No
	}
	return s.Ask(c, known).Verdict
}
