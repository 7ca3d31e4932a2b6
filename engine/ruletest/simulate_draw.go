package ruletest

import (
	"fmt"
	"math/rand/v2"
)

// complaint is the kind of sign that a machine is brought in for.
const complaint = "complaint"

// A cause that shows no complaint in this many drawings has none.
const patience = 2000

// drawn is one machine with one fault.
type drawn struct {
	cause   int    // the fault
	present []bool // for each variable of the graph
	owed    []bool // the same: brought about by the fault
	seed    [2]uint64
}

// random is the stream of one case: its own, so that more cases leave the first
// ones as they are.
func random(seed uint64, i int) *rand.Rand {
	return rand.New(rand.NewPCG(seed, uint64(i)))
}

// order is in what order n things come to the mind of whoever tells of this
// case, the same whenever it is asked for.
func (c drawn) order(n int) []int {
	return rand.New(rand.NewPCG(c.seed[0], c.seed[1])).Perm(n)
}

// drawing draws until a complaint shows and no two signs exclude each other. A
// cause of -1 is drawn afresh each time, so that causes that hide are rare among
// the cases, as they are in a workshop.
func (s *simulated) drawing(cause int, r *rand.Rand, out *Simulation) (drawn, error) {
	for range patience {
		c := drawn{cause: cause}
		if cause < 0 {
			c.cause = s.causes[pick(s.weights, r.Float64())]
		}
		c.present, c.owed = s.sample(c.cause, r)
		switch {
		case !s.complains(c.present):
			out.Silent++
		case s.contradicts(c):
			out.Contradictory++
		default:
			c.seed = [2]uint64{r.Uint64(), r.Uint64()}
			return c, nil
		}
	}
	name := "any cause"
	if cause >= 0 {
		name = "cause " + s.net.Variables[cause].ID
	}
	return drawn{}, fmt.Errorf("no complaint shows in %d drawings of %s", patience, name)
}

// pick returns the place at which u, from 0 to 1, falls among the weights.
func pick(weights []float64, u float64) int {
	sum := 0.0
	for _, w := range weights {
		sum += w
	}
	last := 0
	for i, w := range weights {
		if w <= 0 {
			continue
		}
		if last = i; u*sum < w {
			break
		}
		u -= w / sum
	}
	return last
}

// sample goes through the graph from causes to signs. Other causes are there
// only if the fault led to them; effects and signs may come from nowhere, as
// their leaks say. Owed is what the fault brought about.
func (s *simulated) sample(cause int, r *rand.Rand) (present, owed []bool) {
	present, owed = make([]bool, len(s.net.Graph.Variables)), make([]bool, len(s.net.Graph.Variables))
	for v, x := range s.net.Graph.Variables {
		present[v] = r.Float64() < x.Leak && v >= len(s.causes) // causes stand first
		if v == cause {
			present[v], owed[v] = true, true
		}
		for k, parent := range x.Parents {
			if r.Float64() < x.Strengths[k] && present[parent] {
				present[v], owed[v] = true, owed[v] || owed[parent]
			}
		}
	}
	return present, owed
}

// complains reports whether a complaint is among these variables.
func (s *simulated) complains(among []bool) bool {
	for _, v := range s.signs {
		if among[v] && s.sign(v).Kind == complaint {
			return true
		}
	}
	return false
}

func (s *simulated) contradicts(c drawn) bool {
	for _, v := range s.signs {
		if !c.present[v] {
			continue
		}
		for _, x := range s.sign(v).Excludes {
			if c.present[s.net.Index(x)] {
				return true
			}
		}
	}
	return false
}
