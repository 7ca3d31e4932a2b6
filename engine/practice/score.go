package practice

import (
	"math"
	"slices"
)

// Floor is the least probability that the log score takes a forecast at its
// word for: nobody who said "never" loses without bound.
const Floor = 0.001

// Share is what a forecast gives one cause.
type Share struct {
	Cause       string  `json:"cause"`
	Probability float64 `json:"probability"` // 0 to 1
}

// Forecast is a student's statement, the likeliest cause first. What the shares
// leave of 1 is said of "something else".
type Forecast []Share

// Score is how good a forecast turned out.
type Score struct {
	Right     float64 `json:"right"`     // probability given to what is true
	Place     int     `json:"place"`     // of the truth in the forecast, from 1; 0 when it is not in it
	Brier     float64 `json:"brier"`     // 0 at best, 2 at worst
	Log       float64 `json:"log_nat"`   // natural logarithm, 0 at best
	Quadratic float64 `json:"quadratic"` // 100 for sure and right, 0 for equal shares
}

// Score sets the forecast against the faults that are there. With several
// faults a share given to any of them is right, as one outcome.
func (f Forecast) Score(truth []string) Score {
	outcomes := []float64{0} // what is true, then each false cause, then "something else"
	s := Score{}
	rest := 1.0
	for i, x := range f {
		rest -= x.Probability
		if !slices.Contains(truth, x.Cause) {
			outcomes = append(outcomes, x.Probability)
			continue
		}
		outcomes[0] += x.Probability
		if s.Place == 0 {
			s.Place = i + 1
		}
	}
	if rest = max(0, rest); s.Place == 0 {
		outcomes[0] = rest // something else it was
	} else if rest > 1e-9 {
		outcomes = append(outcomes, rest)
	}
	s.Right, s.Brier, s.Log = outcomes[0], Brier(outcomes, 0), LogScore(outcomes[0])
	if s.Place == 0 {
		s.Right = 0 // unnamed is not right, though it was left room for
	}
	s.Quadratic = Quadratic(outcomes, 0)
	return s
}

// carried is the share of the first cause that the findings carry. Two faults
// that are both as good as certain share what there is to give.
func (f Forecast) carried(v *View) float64 {
	sum := 0.0
	for _, x := range f {
		sum += v.Of(x.Cause)
	}
	return v.Of(f[0].Cause) / max(1, sum)
}

// Sum is the probability given to named causes together.
func (f Forecast) Sum() float64 {
	sum := 0.0
	for _, x := range f {
		sum += x.Probability
	}
	return sum
}

// Brier returns the sum over all outcomes of the squared error of the forecast
// (Brier, Monthly Weather Review 78, 1950): 0 at best, 2 at worst.
func Brier(forecast []float64, truth int) float64 {
	sum := 0.0
	for i, p := range forecast {
		if i == truth {
			p = 1 - p
		}
		sum += p * p
	}
	return sum
}

// LogScore returns -ln of the probability given to what came true (Good 1952),
// not below [Floor]: 0 at best.
func LogScore(p float64) float64 { return -math.Log(max(p, Floor)) }

// Quadratic returns Brier's score on the scale on which sure and right is 100
// and equal shares for all outcomes are 0. A single outcome gives 100.
func Quadratic(forecast []float64, truth int) float64 {
	n := float64(len(forecast))
	if n < 2 {
		return 100
	}
	return 100 * (1 - Brier(forecast, truth)/(1-1/n))
}
