package plan

import "math"

// Entropy returns the Shannon entropy in bits of a distribution, 0 for parts
// of probability 0.
func Entropy(probabilities []float64) float64 {
	h := 0.0
	for _, p := range probabilities {
		if p > 0 {
			h -= p * math.Log2(p)
		}
	}
	return h
}

// Bits returns the information a step is expected to give about what is wrong:
// the mean fall in entropy over the faults and "something else". For an action
// the finding "cured" names its fault as far as it can.
func Bits(p Problem, s Step) float64 {
	rows := p.likelihoods(s)
	prior := append(append([]float64{}, p.Faults...), p.Other())
	bits := Entropy(prior)
	joint := make([]float64, len(prior))
	for _, row := range rows {
		total := 0.0
		for f := range prior {
			joint[f] = prior[f] * row[f]
			total += joint[f]
		}
		for f := range joint {
			if total > 0 {
				joint[f] /= total
			}
		}
		bits -= total * Entropy(joint)
	}
	return max(bits, 0)
}

// likelihoods returns the probability of each result of a step for each fault
// and "something else".
func (p Problem) likelihoods(s Step) [][]float64 {
	switch s.Kind {
	case Ask:
		return p.Questions[s.Index].Results
	case Service:
		return nil
	}
	cured := make([]float64, len(p.Faults)+1)
	for _, c := range p.Actions[s.Index].Cures {
		cured[c.Fault] = c.Probability
	}
	not := make([]float64, len(cured))
	for f, x := range cured {
		not[f] = 1 - x
	}
	return [][]float64{cured, not}
}

// BitsPerMinute returns Bits by the step's minutes; 0 bits give 0, a step
// without cost that tells something gives +Inf.
func BitsPerMinute(p Problem, s Step) float64 {
	bits := Bits(p, s)
	if bits == 0 {
		return 0
	}
	return bits / s.Minutes
}
