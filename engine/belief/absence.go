package belief

// answer is the probability of something given e, and the posteriors given both
// of all settled variables; nil when it is impossible.
type answer struct {
	p         float64
	posterior []float64
}

// settled reports whether a variable's posterior needs no prediction: the
// findings reach it, or it is a root that they leave at its prior.
func (c *Conditioned) settled(v int) bool { return c.m.on[v] || c.g.Variables[v].root() }

// reached reports whether all of the variables are settled.
func (c *Conditioned) reached(vars []int) bool {
	for _, v := range vars {
		if !c.settled(v) {
			return false
		}
	}
	return true
}

// absence is the answer that v is absent, kept for the next one who asks. It
// reports false when expand does.
func (c *Conditioned) absence(v int) (answer, bool) {
	if a, ok := c.absences[v]; ok {
		return a, true
	}
	var a answer
	switch {
	case c.m.on[v] && c.m.ev.state[v] == hidden:
		a = c.ask(weight{v, [2]float64{1, 0}})
	case c.m.ev.state[v] == present: // impossible: the empty answer
	case c.m.ev.state[v] == absent:
		a = c.now()
	default:
		terms, ok := c.m.expand(v)
		if !ok {
			return answer{}, false
		}
		a = c.mix(terms)
	}
	c.absences[v] = a
	return a, true
}

// now is what holds given e alone.
func (c *Conditioned) now() answer { return answer{1, c.result.Posterior} }

// ask runs the program under weights and reads off all posteriors.
func (c *Conditioned) ask(weights ...weight) answer {
	p := c.m.ratio(weights...)
	if p == 0 {
		return answer{}
	}
	c.m.differentiate(false)
	a := answer{p, make([]float64, len(c.g.Variables))}
	for v := range a.posterior {
		a.posterior[v] = c.after(v)
	}
	return a
}

// after is the posterior of a settled variable after differentiate. Roots that
// the findings do not reach keep their priors.
func (c *Conditioned) after(v int) float64 {
	if c.m.on[v] {
		return c.m.posterior(v)
	}
	return c.result.Posterior[v]
}

// mix adds up the terms of an expansion.
func (c *Conditioned) mix(terms []mixture) answer {
	// Joint probabilities first; dividing by the sum conditions on it.
	sum := answer{posterior: make([]float64, len(c.g.Variables))}
	for _, t := range terms {
		a := c.term(t.weights)
		p := t.coefficient * a.p
		if p == 0 {
			continue
		}
		sum.p += p
		for v, q := range a.posterior {
			sum.posterior[v] += p * q
		}
		// Roots outside the program that the term touches are independent in it.
		for _, r := range t.roots {
			prior := c.g.Variables[r.variable].prior()
			sum.posterior[r.variable] += p * (prior*r.by/(1-prior+prior*r.by) - prior)
		}
	}
	if sum.p == 0 {
		return answer{}
	}
	for v := range sum.posterior {
		sum.posterior[v] /= sum.p
	}
	return sum
}

// term runs one set of weights. A single weight {1, f} on u is f·(all) plus
// (1-f)·(u absent), and the run for "u absent" serves every such term.
func (c *Conditioned) term(weights []weight) answer {
	switch len(weights) {
	case 0:
		return c.now()
	case 1:
	default:
		return c.ask(weights...)
	}
	f := weights[0].by[1]
	no, _ := c.absence(weights[0].variable) // a program variable: needs no expansion
	a := answer{f + (1-f)*no.p, make([]float64, len(c.g.Variables))}
	for v, q := range c.result.Posterior {
		a.posterior[v] = f * q / a.p
		if no.posterior != nil {
			a.posterior[v] += (1 - f) * no.p * no.posterior[v] / a.p
		}
	}
	return a
}

// chance is P(any of the terms, which exclude each other | e).
func (c *Conditioned) chance(terms []mixture) float64 {
	sum := 0.0
	for _, t := range terms {
		sum += t.coefficient * c.expectation(t.weights)
	}
	return sum
}

// expectation is E[product of the weights | e]; none or one needs no run.
func (c *Conditioned) expectation(weights []weight) float64 {
	switch len(weights) {
	case 0:
		return 1
	case 1:
		p := c.result.Posterior[weights[0].variable]
		return (1-p)*weights[0].by[0] + p*weights[0].by[1]
	}
	return c.m.ratio(weights...)
}
