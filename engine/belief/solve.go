package belief

import (
	"math"
	"slices"
)

// Result is what the findings e make of every variable.
type Result struct {
	// LogEvidence is ln P(e), always finite.
	LogEvidence float64 `json:"log_evidence"`
	// Posterior is P(present | e) of every variable; for a variable that no
	// finding depends on it is a prediction.
	Posterior []float64 `json:"posterior"`
	// Shares holds, per noisy-OR variable with parents, P(parent present and its
	// link fired | e) for each parent. Several may fire, so with the leak they add
	// up to at least the posterior. Other variables have nil.
	Shares [][]float64 `json:"shares"`
	// LeakShare is P(the leak fired | e) of every noisy-OR variable with parents;
	// 0 for the others.
	LeakShare []float64 `json:"leak_share"`
}

// Solve returns the exact probabilities of every variable given the findings.
// The error is *InvalidError, *ImpossibleError or *TooHardError.
func Solve(g Graph, findings []Finding, b Budget) (Result, error) {
	c, err := Condition(g, findings, b)
	if err != nil {
		return Result{}, err
	}
	return c.Result()
}

// Conditioned is a graph under fixed findings. It answers several questions for
// the price of one compilation. It must not be used by two goroutines at once,
// and the graph must not change under it.
type Conditioned struct {
	g        Graph
	findings []Finding
	keep     []int // variables that stay in the program without a finding
	budget   Budget
	m        *machine
	result   Result
	absences map[int]answer // see absence
	// predicted says that result covers the variables outside the program too.
	predicted bool
}

// Condition checks the graph, compiles it for the findings and solves it. P(e)
// itself may be as small as it likes, but one explanation that is 1e-300 times
// another within the same part of the graph counts as impossible.
func Condition(g Graph, findings []Finding, b Budget) (*Conditioned, error) {
	return ConditionKeeping(g, findings, nil, b)
}

// ConditionKeeping is Condition with some variables kept in the program though
// no finding reaches them. Their posteriors then cost no more than those of the
// reached ones, where a variable with parents would otherwise have to be
// predicted on its own.
func ConditionKeeping(g Graph, findings []Finding, keep []int, b Budget) (*Conditioned, error) {
	if err := g.Check(); err != nil {
		return nil, err
	}
	if err := checkFindings(len(g.Variables), findings); err != nil {
		return nil, err
	}
	if err := checkVariables(len(g.Variables), keep); err != nil {
		return nil, err
	}
	return condition(g, findings, keep, b)
}

// condition is ConditionKeeping on a graph and findings known to be sound.
func condition(g Graph, findings []Finding, keep []int, b Budget) (*Conditioned, error) {
	ev := gather(len(g.Variables), findings)
	if ev.contradicted >= 0 {
		return nil, impossible(g, findings, b)
	}
	p := compile(g, ev, keep)
	if !p.within(b) {
		return nil, tooHard(g, findings, b, p)
	}
	c := &Conditioned{g: g, findings: slices.Clone(findings), keep: slices.Clone(keep), budget: b, m: newMachine(p), absences: make(map[int]answer)}
	c.result.LogEvidence = c.m.start()
	if math.IsInf(c.result.LogEvidence, -1) {
		return nil, impossible(g, findings, b)
	}
	c.m.differentiate(true)
	c.collect()
	return c, nil
}

// Result returns all posteriors, predictions and shares. The slices are shared
// with c: treat them as read-only. The error is a *TooHardError, when the
// findings alone are affordable but a prediction is not.
func (c *Conditioned) Result() (Result, error) {
	if !c.predicted {
		if err := c.predict(); err != nil {
			return Result{}, err
		}
		c.predicted = true
	}
	return c.result, nil
}

// LogEvidence returns ln P(e).
func (c *Conditioned) LogEvidence() float64 { return c.result.LogEvidence }

// Posteriors returns P(present | e) of the given variables. It is much cheaper
// than Result while they are all roots or reached by the findings, as causes
// are; for others it is the same work.
func (c *Conditioned) Posteriors(of []int) ([]float64, error) {
	if err := checkVariables(len(c.g.Variables), of); err != nil {
		return nil, err
	}
	if !c.reached(of) {
		if _, err := c.Result(); err != nil {
			return nil, err
		}
	}
	list := make([]float64, len(of))
	for i, v := range of {
		list[i] = c.result.Posterior[v]
	}
	return list, nil
}

// Cost returns the multiply-adds of one forward pass and the table entries held.
func (c *Conditioned) Cost() (steps, cells float64) { return c.m.plan.cost, c.m.plan.cells }

// collect reads posteriors and shares of the program's variables off the
// adjoints.
func (c *Conditioned) collect() {
	n := len(c.g.Variables)
	c.result.Posterior = make([]float64, n)
	c.result.Shares = make([][]float64, n)
	c.result.LeakShare = make([]float64, n)
	for v := range c.g.Variables {
		x := &c.g.Variables[v]
		switch {
		case c.m.on[v]:
			c.result.Posterior[v] = c.m.posterior(v)
		case x.root():
			c.result.Posterior[v] = x.prior()
		}
		if c.m.on[v] && x.noisy() {
			c.result.Shares[v], c.result.LeakShare[v] = c.m.shares(v)
		}
	}
}

// shares returns the link shares and the leak share of a noisy-OR variable.
func (m *machine) shares(v int) ([]float64, float64) {
	x := &m.g.Variables[v]
	shares := make([]float64, len(x.Parents))
	if m.ev.state[v] == absent {
		return shares, 0 // nothing fired
	}
	// The leak table holds everything that acts whatever the hidden parents do.
	// Where one of its parts fires the whole is "explained", so the part's share
	// is its own probability times the derivative by that entry.
	explained := m.adj[m.spans[m.leak[v]].from+1]
	for k, u := range x.Parents {
		switch m.ev.state[u] {
		case present:
			shares[k] = x.Strengths[k] * explained
		case hidden:
			// Entry 3: parent present, link fired.
			shares[k] = m.share(m.links[v][k], 3)
		}
	}
	return shares, x.Leak * explained
}
