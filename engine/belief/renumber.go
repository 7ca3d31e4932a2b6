package belief

import (
	"math"
	"slices"
)

// Renumbered returns P(present | e) of the given variables in a graph of the
// same shape with other numbers, under the same findings. It skips the search
// for an order and reuses all tables, so that disturbing every number a few
// hundred times is affordable. The shape is the parents and which variables
// have tables; another shape is an *InvalidError.
func (c *Conditioned) Renumbered(g Graph, of []int) ([]float64, error) {
	if err := c.sameShape(g); err != nil {
		return nil, err
	}
	if err := checkVariables(len(g.Variables), of); err != nil {
		return nil, err
	}
	if !c.reached(of) {
		other, err := condition(g, c.findings, c.keep, c.budget)
		if err != nil {
			return nil, err
		}
		return other.Posteriors(of)
	}
	m := c.renumber(g)
	if math.IsInf(m.start(), -1) {
		return nil, impossible(g, c.findings, c.budget)
	}
	m.differentiate(false)
	list := make([]float64, len(of))
	for i, v := range of {
		if m.on[v] {
			list[i] = m.posterior(v)
		} else {
			list[i] = g.Variables[v].prior()
		}
	}
	return list, nil
}

// renumber loads a graph of the same shape into a second machine, kept for the
// next call. The plan depends on the shape alone, so both share it.
func (c *Conditioned) renumber(g Graph) *machine {
	if c.twin == nil {
		c.twin = c.m.clone()
		c.twin.program = c.twin.program.renumberable()
	}
	c.twin.number(g)
	c.twin.fillAll()
	return c.twin
}

// Clone returns an independent copy for another goroutine, without a new search
// for an order.
func (c *Conditioned) Clone() *Conditioned {
	other := *c
	other.m, other.twin, other.absences = c.m.clone(), nil, make(map[int]answer)
	other.result.Posterior = slices.Clone(c.result.Posterior)
	other.result.Shares = slices.Clone(c.result.Shares)
	other.result.LeakShare = slices.Clone(c.result.LeakShare)
	return &other
}

// renumberable returns a program of the same shape that may be given other
// numbers.
func (p *program) renumberable() *program {
	other := *p
	other.base, other.load, other.own = slices.Clone(p.base), slices.Clone(p.load), arena[float64]{}
	for i, load := range p.load {
		other.load[i] = append(other.own.reserve(len(load)), load...)
	}
	return &other
}

// clone returns a machine with tables of its own that runs the same program.
func (m *machine) clone() *machine {
	other := *m
	other.adj, other.val, other.scratch = nil, slices.Clone(m.val), make([]float64, len(m.scratch))
	other.lifts, other.stale = slices.Clone(m.lifts), slices.Clone(m.stale)
	other.last, other.baseRoots = slices.Clone(m.last), slices.Clone(m.baseRoots)
	return &other
}

// sameShape checks a graph and its shape.
func (c *Conditioned) sameShape(g Graph) error {
	if err := g.Check(); err != nil {
		return err
	}
	var k checker
	if len(g.Variables) != len(c.g.Variables) {
		k.add("%d variables, expected %d as in the graph conditioned", len(g.Variables), len(c.g.Variables))
		return k.err()
	}
	for v := range g.Variables {
		x, y := &g.Variables[v], &c.g.Variables[v]
		if !slices.Equal(x.Parents, y.Parents) || (x.Table == nil) != (y.Table == nil) {
			k.at, k.index = x, v
			k.add("other parents or another kind than in the graph conditioned")
		}
	}
	return k.err()
}
