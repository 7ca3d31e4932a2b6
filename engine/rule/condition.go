package rule

import (
	"encoding/json"
	"slices"
	"strings"

	"github.com/expr-lang/expr/ast"
	"github.com/expr-lang/expr/file"
	"github.com/expr-lang/expr/parser"

	"example.org/takeup/engine/source"
)

// Condition is a parsed condition: a tree of and, or and not over expr leaves.
type Condition struct {
	Text string
	root *clause
}

// MarshalJSON writes the condition as its text.
func (c *Condition) MarshalJSON() ([]byte, error) { return json.Marshal(c.Text) }

// Words lists the words the condition mentions, each once, in order.
func (c *Condition) Words() []string {
	var all []string
	seen := map[string]bool{}
	c.root.leaves(func(l *clause) {
		for _, w := range l.Words {
			if !seen[w] {
				seen[w] = true
				all = append(all, w)
			}
		}
	})
	return all
}

// Calls reports whether a leaf of the condition calls one of the functions.
func (c *Condition) Calls(functions ...string) (calls bool) {
	c.root.leaves(func(l *clause) {
		walk(l.expression(), func(n ast.Node) bool {
			if call, ok := n.(*ast.CallNode); ok {
				name, _ := wordAt(call.Callee)
				calls = calls || slices.Contains(functions, name)
			}
			return true
		})
	})
	return calls
}

// Leaves lists the texts of the leaves in the order written.
func (c *Condition) Leaves() []string {
	var out []string
	c.root.leaves(func(l *clause) { out = append(out, l.Text) })
	return out
}

type operator string

const (
	opAnd  operator = "and"
	opOr   operator = "or"
	opNot  operator = "not"
	opLeaf operator = "leaf"
)

// clause is a node of the tree. A leaf carries its expression and, once it was
// needed, its program. What is exported makes up a snapshot.
type clause struct {
	Op    operator
	Kids  []*clause
	Text  string
	Words []string

	node   ast.Node
	thawed *thawed // of a leaf that comes from a snapshot
	prog   program
}

func (c *clause) leaves(visit func(*clause)) {
	if c.Op == opLeaf {
		visit(c)
		return
	}
	for _, k := range c.Kids {
		k.leaves(visit)
	}
}

// problem is an error inside a condition, at a rune offset of its text.
type problem struct {
	code           string
	offset, length int
	message, hint  string
}

// parse splits text into a tree. Setting a configuration up costs more than
// parsing, so that all conditions share the evaluator's.
func (e *evaluator) parse(text string) (*Condition, *problem) {
	if strings.TrimSpace(text) == "" {
		return nil, &problem{"R110", 0, 1, "the condition is empty", "leave `when` out for a rule that always holds"}
	}
	node, err := e.read(text)
	if err != nil {
		return nil, exprProblem(err)
	}
	return &Condition{Text: text, root: split(node)}, nil
}

func (e *evaluator) read(text string) (ast.Node, error) {
	e.mu.Lock()
	defer e.mu.Unlock()
	tree, err := parser.ParseWithConfig(text, e.config)
	if err != nil {
		return nil, err
	}
	return tree.Node, nil
}

func exprProblem(err error) *problem {
	p := &problem{code: "R111", length: 1, message: "the condition cannot be read: " + err.Error()}
	if fe, ok := err.(*file.Error); ok {
		p.offset, p.length = fe.From, max(1, fe.To-fe.From)
		p.message = "the condition cannot be read: " + fe.Message
	}
	return p
}

func split(n ast.Node) *clause {
	switch n := n.(type) {
	case *ast.BinaryNode:
		switch n.Operator {
		case "and", "&&":
			return join(opAnd, split(n.Left), split(n.Right))
		case "or", "||":
			return join(opOr, split(n.Left), split(n.Right))
		}
	case *ast.UnaryNode:
		if n.Operator == "not" || n.Operator == "!" {
			return &clause{Op: opNot, Kids: []*clause{split(n.Node)}}
		}
	}
	return &clause{Op: opLeaf, node: n, Text: n.String(), Words: wordsOf(n)}
}

// join flattens a chain of one operator into a single node, so that the
// clauses are listed side by side.
func join(op operator, a, b *clause) *clause {
	c := &clause{Op: op}
	for _, k := range []*clause{a, b} {
		if k.Op == op {
			c.Kids = append(c.Kids, k.Kids...)
		} else {
			c.Kids = append(c.Kids, k)
		}
	}
	return c
}

// wordsOf lists the words in an expression: identifiers and dotted paths, but
// not the names of functions.
func wordsOf(n ast.Node) []string {
	var words []string
	seen := map[string]bool{}
	walk(n, func(n ast.Node) bool {
		w, ok := wordAt(n)
		if ok && !seen[w] {
			seen[w] = true
			words = append(words, w)
		}
		return !ok
	})
	return words
}

// wordAt reads an identifier or a path such as machine.limit.plate_lift.
func wordAt(n ast.Node) (string, bool) {
	switch n := n.(type) {
	case *ast.IdentifierNode:
		return n.Value, true
	case *ast.MemberNode:
		owner, ok := wordAt(n.Node)
		property, text := n.Property.(*ast.StringNode)
		if ok && text && !n.Optional {
			return owner + "." + property.Value, true
		}
	}
	return "", false
}

// walk visits n and, while visit says so, what is below it.
func walk(n ast.Node, visit func(ast.Node) bool) {
	if n == nil || !visit(n) {
		return
	}
	switch n := n.(type) {
	case *ast.UnaryNode:
		walk(n.Node, visit)
	case *ast.BinaryNode:
		walk(n.Left, visit)
		walk(n.Right, visit)
	case *ast.CallNode:
		for _, a := range n.Arguments {
			walk(a, visit)
		}
	case *ast.BuiltinNode:
		for _, a := range n.Arguments {
			walk(a, visit)
		}
	case *ast.ArrayNode:
		for _, a := range n.Nodes {
			walk(a, visit)
		}
	case *ast.MemberNode:
		walk(n.Node, visit)
	}
}

// place returns the runes an expression covers: from its first token to its last.
func place(n ast.Node) (offset, length int) {
	from, to := n.Location().From, n.Location().To
	walk(n, func(n ast.Node) bool {
		l := n.Location()
		from, to = min(from, l.From), max(to, l.To)
		return true
	})
	return from, max(1, to-from)
}

func at(n ast.Node, code, hint, message string) *problem {
	offset, length := place(n)
	return &problem{code, offset, length, message, hint}
}

// report adds a problem of a condition to a list, at its place in the file.
func (p *problem) report(text source.Text, ps *source.Problems) {
	q := ps.Errorf(p.code, text.At(p.offset, p.length), p.length, "%s", p.message)
	q.Hint = p.hint
}
