package plan

import (
	"fmt"
	"math"
)

// exactStates is the largest number of states [Exact] will tabulate.
const exactStates = 1 << 21

// Exact returns the least expected minutes to a cured machine and the first
// step of a plan that reaches them, by dynamic programming over all sets of
// actions done and answers had. It refuses problems of over two million states
// (9 actions and 5 yes/no questions make 124 thousand).
func Exact(p Problem) (minutes float64, first Step, err error) {
	if err := p.Validate(); err != nil {
		return 0, Step{}, err
	}
	states := 1.0
	for i := range p.Actions {
		if !at(p.Done, i) {
			states *= 2
		}
	}
	for i, q := range p.Questions {
		if !at(p.Asked, i) {
			states *= float64(len(q.Results) + 1)
		}
	}
	if states > exactStates {
		return 0, Step{}, fmt.Errorf("exact plan: %.0f states, expected at most %d", states, exactStates)
	}
	e := newExact(p, int(states))
	n := e.b.root()
	// the root has unit mass but for rounding
	value := e.solve(n, 0)
	return value / n.mass, e.first, nil
}

// exact tabulates values; a state's index is a mixed-radix number with one
// digit per action (failed or not) and one per question (unasked or result).
type exact struct {
	b       *board
	table   []float64 // NaN: not known yet
	actions []int     // weight of each action's digit
	asks    []int     // likewise for questions
	first   Step
}

// newExact lays out the table. A digit of weight 0 would alias states, so what
// is done from the start gets the current weight and simply never adds it.
func newExact(p Problem, states int) *exact {
	e := &exact{b: newBoard(p), table: make([]float64, states)}
	for i := range e.table {
		e.table[i] = math.NaN()
	}
	weight := 1
	for i := range p.Actions {
		e.actions = append(e.actions, weight)
		if !at(p.Done, i) {
			weight *= 2
		}
	}
	for i, q := range p.Questions {
		e.asks = append(e.asks, weight)
		if !at(p.Asked, i) {
			weight *= len(q.Results) + 1
		}
	}
	return e
}

// solve returns the least value of n. Opening a stage for its own sake never
// pays, so a stage is opened by the step that needs it.
func (e *exact) solve(n *node, state int) float64 {
	if v := e.table[state]; !math.IsNaN(v) {
		return v
	}
	best, step := n.mass*e.b.p.ServiceMinutes, e.b.p.service()
	for i := range e.b.p.Actions {
		if n.done[i] || e.b.success(n, i) <= 0 {
			continue
		}
		next, v := e.b.act(n, i)
		// what is spent already is a lower bound of what it will cost
		if v < best {
			v += e.solve(next, state+e.actions[i])
		}
		e.b.give(next)
		if v < best {
			best, step = v, Step{Kind: Look, Index: i}
		}
	}
	for q := range e.b.p.Questions {
		if n.asked[q] {
			continue
		}
		if v := e.ask(n, state, q, best); v < best {
			best, step = v, Step{Kind: Ask, Index: q}
		}
	}
	e.table[state] = best
	if state == 0 {
		e.first = e.b.p.full(step)
	}
	return best
}

// ask returns the value of asking q in n, or something above limit.
func (e *exact) ask(n *node, state, q int, limit float64) float64 {
	next, v := e.b.ask(n, q)
	defer e.b.give(next)
	for r := range e.b.p.Questions[q].Results {
		if v >= limit {
			return v
		}
		e.b.answer(n, next, q, r)
		v += e.solve(next, state+e.asks[q]*(r+1))
	}
	return v
}

// full completes a step of which only kind and index are known.
func (p Problem) full(s Step) Step {
	switch s.Kind {
	case Look, Repair:
		return p.action(s.Index)
	case Ask:
		return p.question(s.Index)
	}
	return p.service()
}
