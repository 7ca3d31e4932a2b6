package rule

import (
	"cmp"
	"fmt"
	"strings"

	"github.com/expr-lang/expr/ast"

	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/source"
	"example.org/takeup/engine/unit"
)

type base string

const (
	baseBool    base = "yes or no"
	baseText    base = "a word"
	baseSet     base = "a set of words"
	baseNumber  base = "a number"
	baseReading base = "a reading"
	baseChance  base = "a comparison with a reading"
	baseSizes   base = "a list of sizes"
	baseStack   base = "a stack"
	baseFinding base = "a look at a stack"
)

// kind is the type of an expression: what it is, in which dimension, and for
// words of the vocabulary which values they may take.
type kind struct {
	base    base
	dim     unit.Dimension
	word    string   // the vocabulary word behind it, if it is one
	choices []string // its allowed values
	literal string   // the text of a string literal
}

func number(d unit.Dimension) kind { return kind{base: baseNumber, dim: d} }

func (k kind) String() string {
	if k.base != baseNumber && k.base != baseReading {
		return string(k.base)
	}
	if k.dim == (unit.Dimension{}) {
		return string(k.base) + " without a unit"
	}
	return string(k.base) + " of " + k.dim.String()
}

// typer checks one expression against the vocabulary. It stops at the first
// problem of a leaf: later ones would follow from it.
type typer struct {
	words     *fact.Vocabulary
	functions map[string]*function
	allowed   func(fact.Word) string // a complaint about a word in this place, or ""
	formula   bool                   // a derived quantity is a number here, not something measured
}

// condition checks every leaf and wants each to be yes or no.
func (t typer) condition(c *Condition) (ps []*problem) {
	c.root.leaves(func(l *clause) {
		k, p := t.of(l.expression())
		if p == nil && k.base != baseBool && k.base != baseChance && k.base != baseFinding {
			p = at(l.expression(), "R120", "", fmt.Sprintf("%s is %s, expected something that is yes or no", l.Text, k))
		}
		if p == nil && len(l.Words) == 0 {
			p = at(l.expression(), "R121", "", l.Text+" never changes: it mentions no word of the vocabulary")
		}
		if p != nil {
			ps = append(ps, p)
		}
	})
	return ps
}

func (t typer) of(n ast.Node) (kind, *problem) {
	if word, ok := wordAt(n); ok {
		return t.word(n, word)
	}
	switch n := n.(type) {
	case *ast.IntegerNode, *ast.FloatNode:
		return number(unit.Dimension{}), nil
	case *ast.BoolNode:
		return kind{base: baseBool}, nil
	case *ast.StringNode:
		return kind{base: baseText, literal: n.Value}, nil
	case *ast.ArrayNode:
		return t.array(n)
	case *ast.UnaryNode:
		return t.unary(n)
	case *ast.BinaryNode:
		return t.binary(n)
	case *ast.CallNode:
		return t.call(n)
	}
	return kind{}, at(n, "R122", "conditions are made of words, numbers, comparisons, arithmetic, in, and, or, not", "this form is not part of conditions: "+n.String())
}

func (t typer) word(n ast.Node, id string) (kind, *problem) {
	w, ok := t.words.Lookup(id)
	if !ok || w.Kind == fact.Name {
		return kind{}, at(n, "R123", t.suggestWord(id), fmt.Sprintf("unknown word %q", id))
	}
	if complaint := t.allowed(w); complaint != "" {
		return kind{}, at(n, "R124", "readings and signs reach the graph as evidence; a condition on them would count one observation twice", complaint)
	}
	if w.Role == fact.RoleDerived && !t.formula {
		w.Kind = fact.Reading // it carries the uncertainty of the gauges behind it
	}
	return kindOf(w), nil
}

func (t typer) suggestWord(id string) string {
	known := t.words.IDs(fact.RoleFact, fact.RoleMachine, fact.RoleSign, fact.RoleReading, fact.RoleDerived, fact.RoleStack)
	if hint := source.DidYouMean(id, append(known, "machine."+id)); hint != "" {
		return hint
	}
	if _, ok := t.words.Lookup("machine." + id); ok {
		return "did you mean machine." + id + "?"
	}
	return ""
}

func kindOf(w fact.Word) kind {
	k := kind{word: w.ID, dim: w.Dim, choices: w.Choices}
	switch w.Kind {
	case fact.YesNo:
		k.base = baseBool
	case fact.Choice:
		k.base = baseText
	case fact.Choices:
		k.base = baseSet
	case fact.Reading:
		k.base = baseReading
	case fact.Sizes:
		k.base = baseSizes
	case fact.Assembly:
		k.base = baseStack
	default:
		k.base = baseNumber
	}
	return k
}

func (t typer) array(n *ast.ArrayNode) (kind, *problem) {
	for _, x := range n.Nodes {
		if _, ok := x.(*ast.StringNode); !ok {
			return kind{}, at(x, "R122", `write ["a", "b"]`, "a list in a condition holds words in quotes")
		}
	}
	return kind{base: baseSet}, nil
}

func (t typer) unary(n *ast.UnaryNode) (kind, *problem) {
	k, p := t.of(n.Node)
	if p != nil {
		return k, p
	}
	if (n.Operator == "-" || n.Operator == "+") && k.base != baseNumber {
		return k, at(n, "R125", "", fmt.Sprintf("%q stands before %s, expected a number", n.Operator, k))
	}
	return k, nil
}

func (t typer) binary(n *ast.BinaryNode) (kind, *problem) {
	left, p := t.of(n.Left)
	if p != nil {
		return left, p
	}
	right, p := t.of(n.Right)
	if p != nil {
		return right, p
	}
	switch n.Operator {
	case "==", "!=":
		return t.equality(n, left, right)
	case "<", "<=", ">", ">=":
		return t.ordering(n, left, right)
	case "in":
		return t.membership(n, left, right)
	case "+", "-", "*", "/":
		return arithmetic(n, left, right)
	case "and", "or", "&&", "||":
		return kind{base: baseBool}, nil
	}
	return kind{}, at(n, "R122", "", fmt.Sprintf("operator %q is not part of conditions", n.Operator))
}

func (t typer) equality(n *ast.BinaryNode, a, b kind) (kind, *problem) {
	if a.base == baseReading || b.base == baseReading {
		return kind{}, at(n, "R126", "use below, above or outside: no reading is exactly equal to anything", "a reading is compared with "+n.Operator)
	}
	if a.base != b.base || a.dim != b.dim || a.base == baseFinding || a.base == baseStack {
		return kind{}, mismatch(n, a, b)
	}
	for _, pair := range [][2]kind{{a, b}, {b, a}} {
		if p := literalOf(n, pair[0], pair[1]); p != nil {
			return kind{}, p
		}
	}
	return kind{base: baseBool}, nil
}

// literalOf checks a quoted word against the values that the other side allows.
func literalOf(n ast.Node, word, lit kind) *problem {
	if word.word == "" || len(word.choices) == 0 || lit.word != "" || lit.base != baseText {
		return nil
	}
	for _, c := range word.choices {
		if c == lit.literal {
			return nil
		}
	}
	hint := cmp.Or(source.DidYouMean(lit.literal, word.choices), "it is one of "+strings.Join(word.choices, ", "))
	return at(n, "R127", hint, fmt.Sprintf("%s is never %q", word.word, lit.literal))
}

func (t typer) ordering(n *ast.BinaryNode, a, b kind) (kind, *problem) {
	for _, k := range []kind{a, b} {
		if k.base == baseReading {
			return kind{}, at(n, "R126", "use below, above or outside, which know the gauge; or lowest, highest, mean, spread", "a reading is compared with "+n.Operator)
		}
	}
	if a.base != baseNumber || b.base != baseNumber || a.dim != b.dim {
		return kind{}, mismatch(n, a, b)
	}
	return kind{base: baseBool}, nil
}

func (t typer) membership(n *ast.BinaryNode, a, b kind) (kind, *problem) {
	if a.base != baseText || b.base != baseSet {
		return kind{}, at(n, "R128", `write "springs" in changed, or spring_kind in ["standard", "heavier"]`, fmt.Sprintf("in stands between %s and %s", a, b))
	}
	if p := literalOf(n, b, a); p != nil {
		return kind{}, p
	}
	if list, ok := n.Right.(*ast.ArrayNode); ok {
		for _, x := range list.Nodes {
			if p := literalOf(x, a, kind{base: baseText, literal: x.(*ast.StringNode).Value}); p != nil {
				return kind{}, p
			}
		}
	}
	return kind{base: baseBool}, nil
}

func arithmetic(n *ast.BinaryNode, a, b kind) (kind, *problem) {
	if a.base != baseNumber || b.base != baseNumber {
		return kind{}, at(n, "R125", "", fmt.Sprintf("%q stands between %s and %s, expected numbers", n.Operator, a, b))
	}
	switch n.Operator {
	case "*":
		return number(a.dim.Mul(b.dim)), nil
	case "/":
		return number(a.dim.Div(b.dim)), nil
	}
	if a.dim != b.dim {
		return kind{}, mismatch(n, a, b)
	}
	return number(a.dim), nil
}

func mismatch(n ast.Node, a, b kind) *problem {
	hint := ""
	if a.base == baseNumber && b.base == baseNumber {
		hint = "give a bare number its unit: mm(2), km(500), days(90), newton_metres(10)"
	}
	return at(n, "R129", hint, fmt.Sprintf("%s is compared with %s", a, b))
}

func (t typer) call(n *ast.CallNode) (kind, *problem) {
	name, _ := wordAt(n.Callee)
	f, ok := t.functions[name]
	if !ok {
		return kind{}, at(n, "R130", t.suggestFunction(name), fmt.Sprintf("unknown function %q", name))
	}
	if len(n.Arguments) != f.arity() {
		return kind{}, at(n, "R131", f.usage(), fmt.Sprintf("%s takes %d values, found %d", name, f.arity(), len(n.Arguments)))
	}
	if f.stack != nil {
		return t.stackCall(f, n)
	}
	result, shared := f.result, unit.Dimension{}
	for i, a := range n.Arguments {
		k, p := t.of(a)
		if p != nil {
			return k, p
		}
		if k.base != f.params[i].base {
			return kind{}, at(a, "R132", "", fmt.Sprintf("%s wants %s here, found %s", name, f.params[i].base, k))
		}
		want := f.params[i].dim
		if f.same && i == 0 {
			shared = k.dim
		}
		if f.same {
			want = shared
		}
		if k.dim != want {
			return kind{}, at(a, "R129", "give a bare number its unit: mm(2), km(500), days(90)", fmt.Sprintf("%s wants %s here, found %s", name, number(want), k))
		}
	}
	if f.same && result.base == baseNumber {
		result.dim = shared
	}
	return result, nil
}

func (t typer) suggestFunction(name string) string {
	var known []string
	for k := range t.functions {
		known = append(known, k)
	}
	return source.DidYouMean(name, known)
}
