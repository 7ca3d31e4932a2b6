package belief

import (
	"math"
	"slices"
)

// weight multiplies the two values of a variable in one run: {absent, present}.
type weight struct {
	variable int
	by       [2]float64
}

// machine runs a program. It keeps the tables of the last run and computes
// again only what a change of weights touches.
type machine struct {
	*program
	val, adj []float64
	scratch  []float64
	lifts    []lifting // per operation
	stale    []bool    // per table: must be computed again
	last     []weight  // weights of the last run
	// What the run without weights left: the components' values, and ln of the
	// lifting of all tables. Probabilities given e are ratios to these.
	baseRoots []float64
	baseLift  float64
}

// newMachine allocates the tables of a program inside its budget.
func newMachine(p *program) *machine {
	p.ready()
	size := 1
	if n := len(p.spans); n > 0 {
		size = p.spans[n-1].to
	}
	// Adjoints are left to the first differentiate: a forward run needs none.
	m := &machine{program: p, val: make([]float64, size), scratch: make([]float64, p.room),
		lifts: make([]lifting, len(p.ops)), stale: make([]bool, len(p.spans))}
	m.val[0] = 1
	m.fillAll()
	return m
}

// fillAll writes all initial tables from the program.
func (m *machine) fillAll() {
	for t, load := range m.load {
		m.fill(int32(t), load)
	}
	for v, t := range m.unary {
		if t >= 0 {
			m.fill(t, m.base[v][:])
		}
	}
	m.last = m.last[:0]
	for i := range m.stale {
		m.stale[i] = true
	}
}

// fill writes an initial table given lowest bit first in the order the table was
// declared; the plan may have sorted its bits differently.
func (m *machine) fill(t int32, load []float64) {
	at := m.val[m.spans[t].from:m.spans[t].to]
	declared, sorted := m.lay.scopes[t], m.plan.scopes[t]
	for i, x := range load {
		j := 0
		for k, bit := range declared {
			j |= (i >> k & 1) << slices.Index(sorted, bit)
		}
		at[j] = x
	}
}

// run computes all tables under extra weights, which are on variables that have
// a table of their own.
func (m *machine) run(weights ...weight) {
	for _, w := range m.last {
		m.weigh(w.variable, [2]float64{1, 1})
	}
	for _, w := range weights {
		m.weigh(w.variable, w.by)
	}
	m.last = append(m.last[:0], weights...)
	for i := range m.ops {
		m.step(i)
	}
	clear(m.stale)
}

// weigh sets a variable's own table; several weights in one run multiply only
// if the caller has multiplied them.
func (m *machine) weigh(v int, by [2]float64) {
	s := m.spans[m.unary[v]]
	m.val[s.from] = m.base[v][0] * by[0]
	m.val[s.from+1] = m.base[v][1] * by[1]
	m.stale[m.unary[v]] = true
}

// step computes one table again if anything it is made of has changed.
func (m *machine) step(i int) {
	s := &m.plan.steps[i]
	if !m.stale[s.a] && (s.b < 0 || !m.stale[s.b]) {
		return
	}
	m.stale[s.out] = true
	m.ops[i].forward(m.val, m.scratch)
	m.lifts[i] = rescale(m.val[m.spans[s.out].from:m.spans[s.out].to])
}

// start runs without weights, remembers what ratios refer to, and returns ln P(e).
func (m *machine) start() float64 {
	m.run()
	m.baseRoots = m.baseRoots[:0]
	log := m.logC
	for _, t := range m.plan.roots {
		p := m.val[m.spans[t].from]
		m.baseRoots = append(m.baseRoots, p)
		log += math.Log(p)
	}
	m.baseLift = m.lifted()
	return log - m.baseLift
}

// ratio returns P(weights, e)/P(e). It multiplies ratios component by component
// instead of subtracting two logarithms, which would cost digits.
func (m *machine) ratio(weights ...weight) float64 {
	m.run(weights...)
	r := math.Exp(m.baseLift - m.lifted())
	for i, t := range m.plan.roots {
		p := m.val[m.spans[t].from]
		if p == 0 {
			return 0 // not 0 times an overflowing lift
		}
		r *= p / m.baseRoots[i]
	}
	return r
}

// lifted is ln of the powers of two that the last run put into its tables.
func (m *machine) lifted() float64 {
	sum := 0.0
	for i := range m.ops {
		sum += m.lifts[i].logScale
	}
	return sum
}

// differentiate fills the adjoints after a run with P(e) > 0: for every table
// entry, the derivative of ln P(e). An entry of an initial table times its
// adjoint is the probability, given e, that this entry is the one in force. Only
// the variables' own tables are sure to have theirs, unless all are wanted.
func (m *machine) differentiate(all bool) {
	if m.adj == nil {
		m.adj = make([]float64, len(m.val))
	}
	for _, t := range m.plan.roots {
		at := m.spans[t].from
		m.adj[at] = 1 / m.val[at]
	}
	for i := len(m.ops) - 1; i >= 0; i-- {
		m.ops[i].backward(m.val, m.adj, m.scratch, m.lifts[i].scale, all)
	}
}

// share returns P(entry in force | e) of entry i of an initial table, the index
// counted in the table's sorted bits.
func (m *machine) share(t int32, i int) float64 {
	at := m.spans[t].from + i
	return m.val[at] * m.adj[at]
}

// posterior returns P(present | e) of a variable after differentiate.
func (m *machine) posterior(v int) float64 {
	switch m.ev.state[v] {
	case present:
		return 1
	case absent:
		return 0
	}
	// Both shares carry the same rounding of P(e); their ratio does not.
	yes, no := m.share(m.unary[v], 1), m.share(m.unary[v], 0)
	return yes / (yes + no)
}
