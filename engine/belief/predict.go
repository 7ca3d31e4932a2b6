package belief

import (
	"math"
	"slices"
)

// predict fills in the variables that no finding depends on, parents first.
func (c *Conditioned) predict() error {
	var hard []int
	for v := range c.g.Variables {
		if c.m.on[v] || c.g.Variables[v].root() {
			continue
		}
		if p, ok := c.prediction(v); ok {
			c.result.Posterior[v] = p
		} else {
			c.result.Posterior[v] = math.NaN()
			hard = append(hard, v)
		}
	}
	if err := c.predictHard(hard); err != nil {
		return err
	}
	c.barrenShares()
	return nil
}

// prediction is P(present | e) of a variable outside the program whose parents
// are predicted already. It reports false when the cheap ways do not apply.
func (c *Conditioned) prediction(v int) (float64, bool) {
	x := &c.g.Variables[v]
	switch {
	case len(x.Parents) == 1:
		p, ok := c.known(x.Parents[0])
		if x.Table != nil {
			return (1-p)*x.Table[0] + p*x.Table[1], ok
		}
		fired := x.Strengths[0] * p
		return x.Leak + (1-x.Leak)*fired, ok
	}
	terms, ok := c.m.expand(v)
	if !ok {
		return 0, false
	}
	return max(0, 1-c.chance(terms)), true
}

// known returns a parent's posterior, unless it is still to be worked out.
func (c *Conditioned) known(v int) (float64, bool) {
	p := c.result.Posterior[v]
	return p, !math.IsNaN(p)
}

// chance is the sum of the terms' probabilities given e.
func (c *Conditioned) chance(terms []mixture) float64 {
	sum := 0.0
	for _, t := range terms {
		sum += t.coefficient * c.expectation(t.weights)
	}
	return sum
}

// expectation is E[product of the weights | e]. None or one needs no run; two,
// {1, f} on u and {1, g} on w, are f·E[w] + (1-f)·P(u absent)·E[w | u absent],
// and one run with u absent serves all partners of u.
func (c *Conditioned) expectation(weights []weight) float64 {
	switch len(weights) {
	case 0:
		return 1
	case 1:
		p := c.result.Posterior[weights[0].variable]
		return (1-p)*weights[0].by[0] + p*weights[0].by[1]
	case 2:
		u, w := weights[0], weights[1]
		no := c.without(u.variable)
		sum := u.by[1] * c.expectation(weights[1:])
		if no.p > 0 {
			p := no.posterior[w.variable]
			sum += (1 - u.by[1]) * no.p * (1 - p + p*w.by[1])
		}
		return sum
	}
	return c.m.ratio(weights...)
}

// answer is the probability of something given e, and the posteriors of the
// program's variables given both; nil when it is impossible.
type answer struct {
	p         float64
	posterior []float64
}

// without is the answer that u is absent, kept for the next one who asks.
func (c *Conditioned) without(u int) answer {
	a, ok := c.absences[u]
	if !ok {
		a = c.ask(weight{u, [2]float64{1, 0}})
		c.absences[u] = a
	}
	return a
}

// ask runs the program under weights and reads off all posteriors.
func (c *Conditioned) ask(weights ...weight) answer {
	p := c.m.ratio(weights...)
	if p == 0 {
		return answer{}
	}
	c.m.differentiate()
	a := answer{p, make([]float64, len(c.g.Variables))}
	for v := range a.posterior {
		if c.m.on[v] {
			a.posterior[v] = c.m.posterior(v)
		}
	}
	return a
}

// predictHard handles variables with tables and the like by making them part of
// a program of their own: all in one if that is affordable, else one by one.
func (c *Conditioned) predictHard(vars []int) error {
	if len(vars) == 0 {
		return nil
	}
	p := compile(c.g, c.m.ev, vars)
	if p.plan.cost > 1e6+8*c.m.plan.cost || !p.within(c.budget) {
		if len(vars) == 1 {
			if !p.within(c.budget) {
				return c.m.refuse(p, c.budget)
			}
		} else {
			// Later variables often descend from earlier ones, so halves share work.
			half := len(vars) / 2
			if err := c.predictHard(vars[:half]); err != nil {
				return err
			}
			return c.predictHard(vars[half:])
		}
	}
	m := newMachine(p)
	m.run()
	m.differentiate()
	for _, v := range vars {
		c.result.Posterior[v] = m.posterior(v)
	}
	return nil
}

// refuse is the error for a question whose own program is above the budget
// though the findings alone are not.
func (m *machine) refuse(p *program, b Budget) error {
	return &TooHardError{Cost: p.plan.cost, Cells: p.plan.cells, Budget: b}
}

// barrenShares: outside the program nothing has been explained yet, so a link
// fires with its strength whenever its parent is present.
func (c *Conditioned) barrenShares() {
	for v := range c.g.Variables {
		x := &c.g.Variables[v]
		if c.m.on[v] || !x.noisy() {
			continue
		}
		c.result.LeakShare[v] = x.Leak
		c.result.Shares[v] = make([]float64, len(x.Parents))
		for k, u := range x.Parents {
			c.result.Shares[v][k] = x.Strengths[k] * c.result.Posterior[u]
		}
	}
}

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
			p := x.prior()
			t.coefficient *= 1 - p + p*f.by
			t.roots = append(t.roots, f)
		case x.Table != nil:
			e.ok = false
		default:
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
