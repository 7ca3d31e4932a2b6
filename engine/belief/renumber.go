package belief

import (
	"math"
	"slices"
)

// Renumbering solves graphs that differ from the one conditioned in their numbers
// only, under the same findings. It skips the search for an order and uses its
// tables again, so that disturbing every number a few hundred times is affordable.
type Renumbering struct {
	of *Conditioned // what changes in it is not looked at
	m  *machine
}

// Renumbering returns one for another goroutine than c's.
func (c *Conditioned) Renumbering() *Renumbering { return &Renumbering{c, c.m.renumberable()} }

// Clone returns an independent copy for another goroutine.
func (r *Renumbering) Clone() *Renumbering { return &Renumbering{r.of, r.m.renumberable()} }

// renumberable returns a machine whose program may be given other numbers.
func (m *machine) renumberable() *machine {
	other := m.clone()
	other.program = m.program.renumberable()
	return other
}

// Posteriors returns P(present | e) of the given variables in a graph of the same
// shape. The shape is the parents and which variables have tables; another shape
// is an *InvalidError.
func (r *Renumbering) Posteriors(g Graph, of []int) ([]float64, error) {
	c, m := r.of, r.m
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
	// The plan depends on the shape alone.
	m.number(g)
	m.fillAll()
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

// Clone returns an independent copy for another goroutine, without a new search
// for an order.
func (c *Conditioned) Clone() *Conditioned {
	other := *c
	other.m, other.absences = c.m.clone(), make(map[int]answer)
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
