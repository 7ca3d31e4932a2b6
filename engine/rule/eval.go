package rule

import (
	"errors"
	"fmt"
	"slices"
	"sync"

	"github.com/expr-lang/expr"
	"github.com/expr-lang/expr/ast"
	"github.com/expr-lang/expr/checker"
	"github.com/expr-lang/expr/compiler"
	"github.com/expr-lang/expr/conf"
	"github.com/expr-lang/expr/file"
	"github.com/expr-lang/expr/parser"
	"github.com/expr-lang/expr/vm"

	"example.org/takeup/engine/fact"
)

// plainConfig is the configuration conditions are parsed with: none of expr's
// own functions, so that every name in a condition is ours.
func plainConfig() *conf.Config {
	c := conf.CreateNew()
	for name := range c.Builtins {
		c.Disabled[name] = true
	}
	return c
}

// evaluator compiles leaves on demand. Building one configuration and sharing
// it costs half of what a configuration per condition would; it is not safe
// for several goroutines, hence the lock around compiling.
type evaluator struct {
	mu        sync.Mutex
	config    *conf.Config
	functions map[string]*function
	asked     sync.Map // asked -> *Condition
}

func newEvaluator() *evaluator {
	e := &evaluator{functions: functions(), config: plainConfig()}
	for name, f := range e.functions {
		expr.Function(name, func(args ...any) (any, error) { return f.call(args) }, anyFunction(f.arity()))(e.config)
	}
	return e
}

// anyFunction returns the Go type of a function of n values; the typer has
// already checked what they are.
func anyFunction(n int) any {
	switch n {
	case 1:
		return new(func(any) any)
	case 2:
		return new(func(any, any) any)
	case 3:
		return new(func(any, any, any) any)
	}
	return new(func(...any) any)
}

// program is a leaf's compiled form, made at most once.
type program struct {
	once sync.Once
	code *vm.Program
	err  error
}

func (e *evaluator) compile(n ast.Node, into *program) (*vm.Program, error) {
	into.once.Do(func() {
		e.mu.Lock()
		defer e.mu.Unlock()
		tree := &parser.Tree{Node: n, Source: file.NewSource(n.String())}
		if _, into.err = checker.Check(tree, e.config); into.err == nil {
			into.code, into.err = compiler.Compile(tree, e.config)
		}
	})
	return into.code, into.err
}

// run evaluates an expression whose words are all known.
func (e *evaluator) run(n ast.Node, into *program, env map[string]any) (any, error) {
	code, err := e.compile(n, into)
	if err != nil {
		return nil, err
	}
	return expr.Run(code, env)
}

// outcome is a three-valued truth with a probability for soft ones.
type outcome struct {
	known bool
	p     float64
}

func (o outcome) verdict() Verdict {
	switch {
	case !o.known:
		return Unknown
	case o.p >= 1:
		return Yes
	case o.p <= 0:
		return No
	}
	return Soft
}

// scene is what one evaluation sees: the values and, once, their tree.
type scene struct {
	eval  *evaluator
	known *fact.Set
	env   map[string]any
}

// truth combines the clauses below c. Kleene's rules hold: a known no decides
// an and, a known yes an or, whatever else is unknown. Soft clauses combine as
// independent events.
func (s scene) truth(c *clause, clauses *[]Clause, waits *[]string) outcome {
	switch c.Op {
	case opNot:
		o := s.truth(c.Kids[0], clauses, waits)
		if !o.known {
			return outcome{}
		}
		return outcome{true, 1 - o.p}
	case opAnd:
		return s.combine(c, clauses, waits, 0)
	case opOr:
		return s.combine(c, clauses, waits, 1)
	}
	return s.leaf(c, clauses, waits)
}

// combine handles and (decided by 0) and or (decided by 1).
func (s scene) combine(c *clause, clauses *[]Clause, waits *[]string, decider float64) outcome {
	all := outcome{known: true, p: 1 - decider}
	miss := 1.0 // and: product of p; or: product of 1-p
	var pending []string
	decided := false
	for _, k := range c.Kids {
		var w []string
		o := s.truth(k, clauses, &w)
		switch {
		case !o.known:
			all.known = false
			pending = append(pending, w...)
		case o.p == decider:
			decided = true
		case decider == 0:
			miss *= o.p
		default:
			miss *= 1 - o.p
		}
	}
	if decided {
		return outcome{true, decider}
	}
	if !all.known {
		*waits = append(*waits, pending...)
		return outcome{}
	}
	if decider == 0 {
		return outcome{true, miss}
	}
	return outcome{true, 1 - miss}
}

func (s scene) leaf(c *clause, clauses *[]Clause, waits *[]string) outcome {
	line := Clause{Text: c.Text, Verdict: Unknown}
	for _, w := range c.Words {
		if !s.known.Known(w) {
			line.Unknown = append(line.Unknown, w)
		}
	}
	var o outcome
	if len(line.Unknown) == 0 {
		o = s.evaluate(c, &line)
		line.Verdict, line.Probability = o.verdict(), o.p
	}
	*waits = append(*waits, line.Unknown...)
	*clauses = append(*clauses, line)
	return o
}

// evaluate runs a leaf. A leaf that fails on values the checker has passed (a
// square root of a negative quantity, say) cannot tell.
func (s scene) evaluate(c *clause, line *Clause) outcome {
	result, err := s.eval.run(c.expression(), &c.prog, s.env)
	var more waiting
	if errors.As(err, &more) {
		line.Unknown = unique(more.words)
	}
	if err != nil {
		return outcome{}
	}
	switch r := result.(type) {
	case bool:
		if r {
			return outcome{true, 1}
		}
		return outcome{true, 0}
	case finding:
		return line.look(r)
	case float64:
		return outcome{true, min(1, max(0, r))}
	}
	panic(fmt.Sprintf("rule: %s gave %T", c.Text, result))
}

// look takes a finding over into the clause.
func (c *Clause) look(f finding) outcome {
	if !f.known {
		c.Unknown = unique(f.waits)
		return outcome{}
	}
	for _, i := range f.places {
		c.Places = append(c.Places, i+1)
	}
	if f.yes {
		return outcome{true, 1}
	}
	return outcome{known: true}
}

func unique(words []string) []string {
	slices.Sort(words)
	return slices.Compact(words)
}
