package explain

import (
	"math/rand/v2"

	"example.org/takeup/engine/belief"
)

// The disturbance that the steadiness is measured with: natural log-odds noise
// of this standard deviation on every prior, leak and strength, that is a
// factor of about 1.6 either way, from a fixed seed so that the same case gives
// the same figure.
const (
	noise    = 0.5
	drawings = 20
	seed     = 20
)

// steadiness is the share of drawings in which the first cause stays first.
func (w *work) steadiness(c *belief.Conditioned) (float64, error) {
	now, err := c.Posteriors(w.causes)
	if err != nil || len(now) == 0 {
		return 0, err
	}
	first, stays := largest(now), 0
	random := rand.New(rand.NewPCG(seed, 1))
	for range drawings {
		p, err := c.Renumbered(disturbed(w.Network.Graph, random), w.causes)
		if err != nil {
			return 0, err
		}
		if largest(p) == first {
			stays++
		}
	}
	return float64(stays) / drawings, nil
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

func disturbed(g belief.Graph, random *rand.Rand) belief.Graph {
	shake := func(p float64) float64 {
		if p <= 0 || p >= 1 { // ruled out stays ruled out
			return p
		}
		return belief.FromLogOdds(belief.LogOdds(p) + noise*random.NormFloat64())
	}
	out := belief.Graph{Variables: make([]belief.Variable, len(g.Variables))}
	for i, v := range g.Variables {
		v.Leak = shake(v.Leak)
		strengths := make([]float64, len(v.Strengths))
		for k, s := range v.Strengths {
			strengths[k] = shake(s)
		}
		v.Strengths = strengths
		out.Variables[i] = v
	}
	return out
}
