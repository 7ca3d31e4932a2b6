package explain

import (
	"math/rand/v2"
	"slices"

	"example.org/takeup/engine/belief"
)

// The disturbance that the steadiness is measured with: natural log-odds noise
// of this standard deviation on every prior, leak and strength, that is a
// factor of about 1.6 either way, from a fixed seed so that the same case gives
// the same figure. Drawings come in pairs, the second with the opposite noise, so
// that few drawings give a figure that many would confirm (antithetic variates).
// Where the first pairs agree there is nothing to measure more closely.
const (
	noise    = 0.5
	fewPairs = 5
	pairs    = 15
	seed     = 20
)

// steadiness is the share of drawings in which the first cause stays first.
func (s *shaker) steadiness() (float64, error) {
	if len(s.causes) == 0 {
		return 0, nil
	}
	stays, err := s.stays(0, fewPairs)
	if err != nil || stays == 2*fewPairs {
		return float64(stays) / (2 * fewPairs), err
	}
	const half = (fewPairs + pairs) / 2
	var some, rest int
	other := s.clone()
	err = together(
		func() (err error) { some, err = s.stays(fewPairs, half); return err },
		func() (err error) { rest, err = other.stays(half, pairs); return err },
	)
	return float64(stays+some+rest) / (2 * pairs), err
}

// shaker draws graphs with every number shaken that bears on the answer.
type shaker struct {
	of     belief.Graph
	solve  *belief.Renumbering
	causes []int
	first  int          // which of the causes is the likeliest as things stand
	held   []int        // the variables that bear on the answer
	shown  belief.Graph // filled anew by each drawing
	shocks []float64    // of one pair
}

// newShaker makes a shaker of solved beliefs; now are the posteriors of the causes.
func newShaker(g belief.Graph, c *belief.Conditioned, causes []int, now []float64) *shaker {
	s := &shaker{of: g, solve: c.Renumbering(), causes: causes, first: largest(now)}
	for v := range g.Variables {
		if c.Holds(v) {
			s.held = append(s.held, v)
		}
	}
	s.room()
	return s
}

// clone returns a shaker for another goroutine.
func (s *shaker) clone() *shaker {
	other := *s
	other.solve, other.shocks = s.solve.Clone(), nil
	other.room()
	return &other
}

// room makes the graph that drawings fill.
func (s *shaker) room() {
	s.shown.Variables = slices.Clone(s.of.Variables)
	for _, v := range s.held {
		x := &s.shown.Variables[v]
		x.Strengths = slices.Clone(x.Strengths)
	}
}

// stays counts the drawings of some pairs in which the first cause stays first.
func (s *shaker) stays(from, to int) (count int, err error) {
	for pair := from; pair < to; pair++ {
		random := rand.New(rand.NewPCG(seed, uint64(pair)))
		s.shocks = s.shocks[:0]
		for _, sign := range []float64{1, -1} {
			s.shake(sign, random)
			p, err := s.solve.Posteriors(s.shown, s.causes)
			if err != nil {
				return 0, err
			}
			if largest(p) == s.first {
				count++
			}
		}
	}
	return count, nil
}

// shake fills in the next drawing: a pair's first draws the shocks, its second has
// them with the other sign.
func (s *shaker) shake(sign float64, random *rand.Rand) {
	at := 0
	shaken := func(p float64) float64 {
		if p <= 0 || p >= 1 { // ruled out stays ruled out
			return p
		}
		if at == len(s.shocks) {
			s.shocks = append(s.shocks, noise*random.NormFloat64())
		}
		at++
		return belief.FromLogOdds(belief.LogOdds(p) + sign*s.shocks[at-1])
	}
	for _, v := range s.held {
		from, to := &s.of.Variables[v], &s.shown.Variables[v]
		to.Leak = shaken(from.Leak)
		for k, p := range from.Strengths {
			to.Strengths[k] = shaken(p)
		}
	}
}

func largest(p []float64) int {
	best := 0
	for i := range p {
		if p[i] > p[best] {
			best = i
		}
	}
	return best
}
