package belief

import "math"

// predict fills in the variables that no finding depends on, parents first.
func (c *Conditioned) predict() error {
	var hard []int
	for v := range c.g.Variables {
		if c.settled(v) {
			continue
		}
		if p, ok := c.prediction(v); ok {
			c.result.Posterior[v] = p
		} else {
			c.result.Posterior[v] = math.NaN() // so that its children wait too
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
	if len(x.Parents) == 1 {
		// One parent: its posterior is all there is to know, and every term here
		// is positive, so even a tiny prediction keeps its digits.
		p, ok := c.known(x.Parents[0])
		if x.Table != nil {
			return (1-p)*x.Table[0] + p*x.Table[1], ok
		}
		fired := x.Strengths[0] * p
		return x.Leak + (1-x.Leak)*fired, ok
	}
	if no, ok := c.pairAbsent(x); ok {
		return max(0, 1-no), true
	}
	terms, ok := c.m.expand(v)
	if !ok {
		return 0, false
	}
	// The one subtraction: it costs no more than one unit in the last place of 1.
	return max(0, 1-c.chance(terms)), true
}

// known returns a parent's posterior, unless it is still to be worked out.
func (c *Conditioned) known(v int) (float64, bool) {
	p := c.result.Posterior[v]
	return p, !math.IsNaN(p)
}

// pairAbsent is P(absent | e) of a noisy-OR with two parents u and w:
// with f and g for "the link of u, of w does not fire" it is
// (1-leak)·(f·E[g^w] + (1-f)·P(u absent)·E[g^w | u absent]), and the run for "u
// absent" serves all children of u. It reports false when w is not reached.
func (c *Conditioned) pairAbsent(x *Variable) (float64, bool) {
	if x.Table != nil || len(x.Parents) != 2 {
		return 0, false
	}
	u, w := 0, 1
	// Effects come after causes and share more children.
	if x.Parents[0] < x.Parents[1] && c.settled(x.Parents[0]) {
		u, w = 1, 0
	}
	if !c.settled(x.Parents[w]) {
		return 0, false
	}
	no, ok := c.absence(x.Parents[u])
	if !ok {
		return 0, false
	}
	f, g := 1-x.Strengths[u], 1-x.Strengths[w]
	expect := func(posterior []float64) float64 {
		p := posterior[x.Parents[w]]
		return 1 - p + p*g
	}
	sum := f * expect(c.result.Posterior)
	if no.p > 0 {
		sum += (1 - f) * no.p * expect(no.posterior)
	}
	return (1 - x.Leak) * sum, true
}

// predictHard handles variables with tables and the like by making them part of
// a program of their own: all in one if that is affordable, else half by half.
// Halves are better than singles: later variables often descend from earlier
// ones and share the work.
func (c *Conditioned) predictHard(vars []int) error {
	if len(vars) == 0 {
		return nil
	}
	p := compile(c.g, c.m.ev, vars)
	affordable := p.within(c.budget)
	if len(vars) > 1 && (!affordable || p.plan.cost > 1e6+8*c.m.plan.cost) {
		half := len(vars) / 2
		if err := c.predictHard(vars[:half]); err != nil {
			return err
		}
		return c.predictHard(vars[half:])
	}
	if !affordable {
		return refuse(p, c.budget)
	}
	m := newMachine(p)
	m.run()
	m.differentiate(true)
	for _, v := range vars {
		c.result.Posterior[v] = m.posterior(v)
	}
	return nil
}

// refuse is the error for a question whose own program is above the budget
// though the findings alone are not; so it names no findings.
func refuse(p *program, b Budget) error {
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
