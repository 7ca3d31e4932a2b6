package explain

import (
	"math/rand/v2"
	"slices"

	"example.org/takeup/engine/belief"
)

// The disturbance that the steadiness is measured with: natural log-odds noise
// of this standard deviation on every prior, leak and strength, that is a
// factor of about 1.6 either way, from a fixed seed so that the same case gives
// the same figure. Where the first drawings agree there is nothing to measure
// more closely.
const (
	noise       = 0.5
	fewDrawings = 10
	drawings    = 30
	seed        = 20
)

// steadiness is the share of drawings in which the first cause stays first. Now are
// the posteriors of the causes.
func (w *work) steadiness(now []float64, solve *belief.Renumbering, d *disturbance) (float64, error) {
	if len(now) == 0 {
		return 0, nil
	}
	first, stays, drawn := largest(now), 0, 0
	random := rand.New(rand.NewPCG(seed, 1))
	for drawn < fewDrawings || stays < drawn && drawn < drawings {
		p, err := solve.Posteriors(d.draw(random), w.causes)
		if err != nil {
			return 0, err
		}
		drawn++
		if largest(p) == first {
			stays++
		}
	}
	return float64(stays) / float64(drawn), nil
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

// disturbance draws graphs with every number shaken that bears on the answer.
// Drawings come in pairs, the second with the opposite noise, so that few
// drawings give a figure that many would confirm (antithetic variates).
type disturbance struct {
	of     belief.Graph
	shown  belief.Graph // filled anew by each drawing
	held   []int        // the variables that bear on the answer
	shocks []float64    // of the first drawing of a pair, empty after the second
}

func newDisturbance(g belief.Graph, c *belief.Conditioned) *disturbance {
	d := &disturbance{of: g, shown: belief.Graph{Variables: slices.Clone(g.Variables)}}
	for v := range d.shown.Variables {
		if c.Holds(v) {
			d.held = append(d.held, v)
			x := &d.shown.Variables[v]
			x.Strengths = slices.Clone(x.Strengths)
		}
	}
	return d
}

// draw returns a disturbed graph, which the next drawing overwrites.
func (d *disturbance) draw(random *rand.Rand) belief.Graph {
	at, second := 0, len(d.shocks) > 0
	shake := func(p float64) float64 {
		if p <= 0 || p >= 1 { // ruled out stays ruled out
			return p
		}
		if !second {
			d.shocks = append(d.shocks, noise*random.NormFloat64())
		}
		shock := d.shocks[at]
		at++
		if second {
			shock = -shock
		}
		return belief.FromLogOdds(belief.LogOdds(p) + shock)
	}
	for _, v := range d.held {
		from, to := &d.of.Variables[v], &d.shown.Variables[v]
		to.Leak = shake(from.Leak)
		for k, s := range from.Strengths {
			to.Strengths[k] = shake(s)
		}
	}
	if second {
		d.shocks = d.shocks[:0]
	}
	return d.shown
}
