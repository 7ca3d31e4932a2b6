package rule

import (
	"math"
	"slices"

	"github.com/expr-lang/expr/ast"

	"example.org/takeup/engine/fact"
)

// most is how many assignments Settled tries before it gives up.
const most = 1 << 16

// Settled says what a condition comes to whatever is known: Yes when it holds
// for every value of its words, No when it holds for none, Unknown when it
// depends on them. A word whose entry in needs says no stays unknown, as it does
// in a case. Readings and comparisons of two words may come out either way, so
// that Yes and No are certain and Unknown is not.
func (s *Set) Settled(c *Condition, words *fact.Vocabulary, needs map[string]*Condition) Verdict {
	if c == nil {
		return Yes
	}
	t := &trial{set: s, words: words, needs: needs, values: map[string][]fact.Value{}, free: map[string]int{}}
	c.root.leaves(t.add)
	for _, w := range t.order {
		if n := needs[w]; n != nil {
			n.root.leaves(t.add)
		}
	}
	return t.settle(c)
}

// trial is all that the words of one condition can be.
type trial struct {
	set    *Set
	words  *fact.Vocabulary
	needs  map[string]*Condition
	order  []string // words with values to try
	values map[string][]fact.Value
	frees  []string // leaves that may come out either way
	free   map[string]int
}

// add makes room for a leaf: values on both sides of each of its limits, or a
// free choice.
func (t *trial) add(l *clause) {
	more, ok := t.turning(l)
	if !ok {
		if _, known := t.free[l.Text]; !known {
			t.free[l.Text] = len(t.frees)
			t.frees = append(t.frees, l.Text)
		}
		return
	}
	w := l.Words[0]
	if _, known := t.values[w]; !known {
		t.order = append(t.order, w)
	}
	t.values[w] = merge(t.values[w], more)
}

// turning lists values of the leaf's only word between which the leaf can turn
// from yes to no.
func (t *trial) turning(l *clause) ([]fact.Value, bool) {
	if len(l.Words) != 1 {
		return nil, false
	}
	w, _ := t.words.Lookup(l.Words[0])
	switch w.Kind {
	case fact.YesNo:
		return []fact.Value{{Kind: w.Kind, Yes: true}, {Kind: w.Kind}}, true
	case fact.Choice:
		var all []fact.Value
		for _, c := range w.Choices {
			all = append(all, fact.Value{Kind: w.Kind, Word: c})
		}
		return all, len(all) > 0
	case fact.Choices:
		return t.subsets(w, l), true
	case fact.Quantity, fact.Count:
		return t.around(w, l)
	}
	return nil, false
}

// subsets is every choice of the options that the leaf names, alone and with
// those named before.
func (t *trial) subsets(w fact.Word, l *clause) []fact.Value {
	all := slices.Clone(t.values[w.ID])
	if len(all) == 0 {
		all = []fact.Value{{Kind: w.Kind}}
	}
	walk(l.expression(), func(n ast.Node) bool {
		if lit, ok := n.(*ast.StringNode); ok {
			for _, v := range slices.Clone(all) {
				if !slices.Contains(v.Words, lit.Value) {
					v.Words = append(slices.Clone(v.Words), lit.Value)
					all = append(all, v)
				}
			}
		}
		return true
	})
	return all
}

// around is below, at and above the constant that a number is compared with.
func (t *trial) around(w fact.Word, l *clause) ([]fact.Value, bool) {
	n, ok := l.expression().(*ast.BinaryNode)
	if !ok {
		return nil, false
	}
	for _, side := range []ast.Node{n.Left, n.Right} {
		if len(wordsOf(side)) > 0 {
			continue
		}
		x, err := t.set.eval.run(side, &program{}, nil)
		if at := toFloat(x); err == nil && !math.IsNaN(at) {
			step := 1e-6 * max(1, math.Abs(at))
			return []fact.Value{{Kind: w.Kind, SI: at - step}, {Kind: w.Kind, SI: at}, {Kind: w.Kind, SI: at + step}}, true
		}
	}
	return nil, false
}

func merge(a, b []fact.Value) []fact.Value {
	for _, v := range b {
		if !slices.ContainsFunc(a, func(x fact.Value) bool {
			return x.Yes == v.Yes && x.Word == v.Word && x.SI == v.SI && slices.Equal(x.Words, v.Words)
		}) {
			a = append(a, v)
		}
	}
	return a
}

// settle tries every assignment.
func (t *trial) settle(c *Condition) Verdict {
	sizes := make([]int, 0, len(t.order)+len(t.frees))
	for _, w := range t.order {
		sizes = append(sizes, len(t.values[w]))
	}
	for range t.frees {
		sizes = append(sizes, 2)
	}
	total := 1
	for _, n := range sizes {
		if total *= n; total > most {
			return Unknown
		}
	}
	always, never := true, true
	for i := range total {
		v := t.assign(i, sizes).of(c.root)
		always, never = always && v == Yes, never && v != Yes
	}
	switch {
	case always:
		return Yes
	case never:
		return No
	}
	return Unknown
}

// assigned is one assignment of values.
type assigned struct {
	trial *trial
	look  scene
	free  []bool
}

func (t *trial) assign(i int, sizes []int) assigned {
	var known fact.Set
	a := assigned{trial: t}
	for k, n := range sizes {
		if k < len(t.order) {
			known.Put(t.order[k], t.values[t.order[k]][i%n])
		} else {
			a.free = append(a.free, i%n == 1)
		}
		i /= n
	}
	a.look = scene{eval: t.set.eval, known: &known, env: known.Tree()}
	var left fact.Set // what stays known once needs are heeded
	for _, w := range t.order {
		if need := t.needs[w]; need == nil || a.of(need.root) != No {
			v, _ := known.Get(w)
			left.Put(w, v)
		}
	}
	a.look = scene{eval: t.set.eval, known: &left, env: left.Tree()}
	return a
}

// of is Kleene's three-valued truth with the free leaves as assigned.
func (a assigned) of(c *clause) Verdict {
	switch c.Op {
	case opNot:
		return opposite(a.of(c.Kids[0]))
	case opAnd, opOr:
		decider := No
		if c.Op == opOr {
			decider = Yes
		}
		out := opposite(decider)
		for _, k := range c.Kids {
			switch v := a.of(k); v {
			case decider:
				return decider
			case Unknown:
				out = Unknown
			}
		}
		return out
	}
	if k, ok := a.trial.free[c.Text]; ok {
		if a.free[k] {
			return Yes
		}
		return No
	}
	if !a.look.known.Known(c.Words[0]) {
		return Unknown
	}
	return a.look.evaluate(c, &Clause{}).verdict()
}

func opposite(v Verdict) Verdict {
	switch v {
	case Yes:
		return No
	case No:
		return Yes
	}
	return Unknown
}
