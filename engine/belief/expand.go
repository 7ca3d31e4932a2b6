package belief

import "slices"

// maxTerms bounds the terms of an expansion; beyond it a program of its own is
// the cheaper way.
const maxTerms = 32

// mixture is one term of P(variable absent, e): a coefficient times P(e) under
// weights on program variables. All numbers are positive.
type mixture struct {
	coefficient float64
	weights     []weight
	// roots are independent roots outside the program and the factor that this
	// term puts on their being present.
	roots []factor
}

// factor multiplies by the given number if the variable is present.
type factor struct {
	variable int
	by       float64
}

// expand writes "v is absent" as a mixture of weights on program variables.
// A noisy-OR is absent with a product over its parents; a parent u outside the
// program with factor f counts as f·(anything) + (1-f)·(u absent), and so on up.
// It reports false for full tables and for too many terms.
func (m *machine) expand(v int) ([]mixture, bool) {
	e := expansion{m: m, ok: true}
	e.walk([]factor{{v, 0}}, mixture{coefficient: 1})
	return e.terms, e.ok
}

// expansion collects the terms of one expand.
type expansion struct {
	m     *machine
	terms []mixture
	ok    bool
}

// walk settles the factors from the highest variable down, so that a variable's
// factor is complete when its turn comes.
func (e *expansion) walk(factors []factor, t mixture) {
	for len(factors) > 0 && e.ok && t.coefficient > 0 {
		last := len(factors) - 1
		f := factors[last]
		factors = factors[:last]
		x := &e.m.g.Variables[f.variable]
		switch {
		case e.m.on[f.variable]:
			e.m.attach(&t, f)
		case x.root():
			// Outside the program a root is independent of everything known.
			p := x.prior()
			t.coefficient *= 1 - p + p*f.by
			t.roots = append(t.roots, f)
		case x.Table != nil:
			e.ok = false
		default:
			// f^x = f + (1-f)·(1 - x): two terms, neither negative.
			if f.by > 0 {
				// From here on the two terms grow apart.
				t.weights, t.roots = slices.Clip(t.weights), slices.Clip(t.roots)
				rest := t
				rest.coefficient *= f.by
				e.walk(slices.Clone(factors), rest)
			}
			t.coefficient *= (1 - f.by) * (1 - x.Leak)
			factors = withParents(factors, x)
		}
	}
	if t.coefficient > 0 {
		e.terms = append(e.terms, t)
	}
	e.ok = e.ok && len(e.terms) <= maxTerms
}

// attach turns a factor on a program variable into a weight.
func (m *machine) attach(t *mixture, f factor) {
	switch m.ev.state[f.variable] {
	case present:
		t.coefficient *= f.by
	case hidden:
		t.weights = append(t.weights, weight{f.variable, [2]float64{1, f.by}})
	}
}

// withParents multiplies "x is absent" into a list of factors in rising order,
// in place.
func withParents(list []factor, x *Variable) []factor {
	for k, u := range x.Parents {
		by := 1 - x.Strengths[k]
		i, found := slices.BinarySearchFunc(list, u, func(f factor, v int) int { return f.variable - v })
		if found {
			list[i].by *= by
		} else {
			list = slices.Insert(list, i, factor{u, by})
		}
	}
	return list
}
