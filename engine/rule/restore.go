package rule

import (
	"fmt"
	"sync"

	"github.com/expr-lang/expr/ast"
)

// Frozen is a set as plain values, for a snapshot. Its conditions are taken apart
// down to their leaves; a leaf's own text is parsed when a case first needs it.
type Frozen struct {
	Rules         []Rule
	Whens, Givens []*clause // by rule, nil without a condition
}

// Freeze returns the set as plain values. They share memory with it.
func (s *Set) Freeze() Frozen {
	f := Frozen{Rules: s.Rules}
	for _, r := range s.Rules {
		f.Whens, f.Givens = append(f.Whens, r.When.tree()), append(f.Givens, r.Given.tree())
	}
	return f
}

func (c *Condition) tree() *clause {
	if c == nil {
		return nil
	}
	return c.root
}

// Restore makes a set of frozen rules that Load has checked before. The error says
// that they do not fit together.
func Restore(f Frozen) (*Set, error) {
	s := &Set{Rules: f.Rules, index: make(map[string]int, len(f.Rules)), eval: newEvaluator()}
	if len(f.Whens) != len(f.Rules) || len(f.Givens) != len(f.Rules) {
		return nil, fmt.Errorf("rule: %d rules with %d and %d conditions", len(f.Rules), len(f.Whens), len(f.Givens))
	}
	for i := range s.Rules {
		r := &s.Rules[i]
		s.index[r.ID] = i
		if !s.thaw(r.When, f.Whens[i]) || !s.thaw(r.Given, f.Givens[i]) {
			return nil, fmt.Errorf("rule %s: its condition is not what it was", r.ID)
		}
	}
	return s, nil
}

// thaw gives a condition its tree. It reports whether both are there or neither.
func (s *Set) thaw(c *Condition, root *clause) bool {
	if c == nil || root == nil {
		return c == nil && root == nil
	}
	c.root = root
	root.leaves(func(l *clause) { l.thawed = &thawed{eval: s.eval} })
	return true
}

// thawed is what a leaf from a snapshot is parsed with, once.
type thawed struct {
	eval *evaluator
	once sync.Once
}

// expression is the syntax tree of a leaf.
func (c *clause) expression() ast.Node {
	if c.thawed != nil {
		c.thawed.once.Do(func() {
			node, err := c.thawed.eval.read(c.Text)
			if err != nil {
				panic(fmt.Sprintf("rule: %s was parsed once and cannot be now: %s", c.Text, err))
			}
			c.node = node
		})
	}
	return c.node
}
