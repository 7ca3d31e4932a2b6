package rule

import (
	"errors"
	"fmt"
	"math"

	"github.com/expr-lang/expr/ast"

	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/unit"
)

// Expression computes one number from readings, words of the machine sheet and
// derived quantities.
type Expression struct {
	Text  string
	node  ast.Node
	words []string
	prog  program
}

// Words lists the words the expression mentions, each once, in order.
func (x *Expression) Words() []string { return x.words }

// Calls lists the functions the expression calls, each once, in order.
func (x *Expression) Calls() []string {
	var names []string
	seen := map[string]bool{}
	walk(x.node, func(n ast.Node) bool {
		if call, ok := n.(*ast.CallNode); ok {
			if name, ok := wordAt(call.Callee); ok && !seen[name] {
				seen[name] = true
				names = append(names, name)
			}
		}
		return true
	})
	return names
}

// Expression parses a number's formula. The error names what cannot be read; words
// and dimensions are checked by CheckNumber.
func (s *Set) Expression(text string) (*Expression, error) {
	c, p := s.eval.parse(text)
	if p != nil {
		return nil, errors.New(p.message)
	}
	if c.root.Op != opLeaf {
		return nil, fmt.Errorf("%s is yes or no, expected a number", text)
	}
	return &Expression{Text: text, node: c.root.node, words: c.root.Words}, nil
}

// CheckNumber checks the words of an expression and that it is a number of the
// dimension. The error says what is wrong and, where it can, what was meant.
func (s *Set) CheckNumber(x *Expression, words *fact.Vocabulary, dim unit.Dimension) error {
	t := typer{words: words, functions: s.eval.functions, allowed: numbersOnly, formula: true}
	k, p := t.of(x.node)
	switch {
	case p != nil && p.hint != "":
		return fmt.Errorf("%s (%s)", p.message, p.hint)
	case p != nil:
		return errors.New(p.message)
	case k.base != baseNumber || k.dim != dim:
		return fmt.Errorf("%s is %s, expected %s", x.Text, k, number(dim))
	}
	return nil
}

// numbersOnly is the complaint about a sign in a formula: no number comes of it.
func numbersOnly(w fact.Word) string {
	if w.Role == fact.RoleSign {
		return w.ID + " is a sign; a formula takes readings, the machine sheet and derived quantities"
	}
	return ""
}

// Compute evaluates an expression whose words are all known to get; derived
// quantities among them are plain numbers. The result is in SI units. The error says
// which value lies outside the formula's range.
func (s *Set) Compute(x *Expression, get func(word string) (fact.Value, bool)) (float64, error) {
	var env fact.Set
	for _, w := range x.words {
		v, ok := get(w)
		if !ok {
			return 0, fmt.Errorf("%s is not known", w)
		}
		env.Put(w, v)
	}
	result, err := s.eval.run(x.node, &x.prog, env.Tree())
	if err != nil {
		return 0, reasonOf(err)
	}
	v := toFloat(result)
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return 0, errors.New("the result is no number")
	}
	return v, nil
}

// reasonOf is the innermost reason of an error that expr has wrapped with the
// place in the formula.
func reasonOf(err error) error {
	for {
		inner := errors.Unwrap(err)
		if inner == nil {
			return err
		}
		err = inner
	}
}
