package practice_test

import (
	"math"
	"testing"

	"example.org/takeup/engine/practice"
)

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: got %v, want %v", what, got, want)
	}
}

// The worked values are arithmetic on the definitions: Brier, Monthly Weather
// Review 78 (1950), sum over all outcomes; Good, J. R. Stat. Soc. B 14 (1952),
// logarithm. Forecast (.6, .3, .1) and the second comes true: (.6)² + (1-.3)² +
// (.1)² = .86, -ln .3 = 1.203973 nat = 1.736966 bit; equal shares over three:
// 2/3 and log2 3 = 1.584963 bit; on the scale with sure and right at 100 and
// equal shares at 0 the forecast has 100·(1 - .86/(2/3)) = -29.
func TestScoresOfWorkedExample(t *testing.T) {
	f := []float64{.6, .3, .1}
	near(t, "Brier", practice.Brier(f, 1), .86, 1e-12)
	near(t, "log, nat", practice.LogScore(f[1]), 1.203973, 5e-7)
	near(t, "log, bit", practice.LogScore(f[1])/math.Ln2, 1.736966, 5e-7)
	near(t, "quadratic", practice.Quadratic(f, 1), -29, 1e-9)
	equal := []float64{1. / 3, 1. / 3, 1. / 3}
	near(t, "Brier of equal shares", practice.Brier(equal, 2), .666667, 5e-7)
	near(t, "log of equal shares, bit", practice.LogScore(equal[2])/math.Ln2, 1.584963, 5e-7)
	near(t, "quadratic of equal shares", practice.Quadratic(equal, 0), 0, 1e-9)
	near(t, "quadratic of sure and right", practice.Quadratic([]float64{0, 1, 0}, 1), 100, 1e-9)
	near(t, "log of never", practice.LogScore(0), -math.Log(practice.Floor), 1e-12)
}

func TestForecastScores(t *testing.T) {
	f := practice.Forecast{{Cause: "a", Probability: .6}, {Cause: "b", Probability: .3}, {Cause: "c", Probability: .1}}
	for _, tt := range []struct {
		name         string
		f            practice.Forecast
		truth        []string
		right, brier float64
		place        int
	}{
		{"second of three", f, []string{"b"}, .3, .86, 2},
		{"first of three", f, []string{"a"}, .6, .26, 1},
		{"none of them", f, []string{"d"}, 0, .46 + 1, 0},
		{"room left for something else", f[:1], []string{"d"}, 0, .36 + .36, 0},
		{"room left in vain", f[:1], []string{"a"}, .6, .16 + .16, 1},
		{"two faults, both named", f, []string{"b", "a"}, .9, .01 + .01, 1},
		{"sure and wrong", practice.Forecast{{Cause: "a", Probability: 1}}, []string{"b"}, 0, 2, 0},
	} {
		s := tt.f.Score(tt.truth)
		near(t, tt.name+": right", s.Right, tt.right, 1e-12)
		near(t, tt.name+": Brier", s.Brier, tt.brier, 1e-12)
		if s.Place != tt.place {
			t.Errorf("%s: place %d, want %d", tt.name, s.Place, tt.place)
		}
	}
}

// Brier's and Good's scores are proper: in the mean nobody gains by stating
// another probability than the one he believes.
func TestHonestyPays(t *testing.T) {
	for belief := .05; belief < 1; belief += .05 {
		mean := func(score func(f []float64, truth int) float64, said float64) float64 {
			f := []float64{said, 1 - said}
			return belief*score(f, 0) + (1-belief)*score(f, 1)
		}
		for said := .05; said < 1; said += .05 {
			if math.Abs(said-belief) < .01 {
				continue
			}
			log := func(f []float64, truth int) float64 { return practice.LogScore(f[truth]) }
			if mean(practice.Brier, said) <= mean(practice.Brier, belief) || mean(log, said) <= mean(log, belief) {
				t.Errorf("who believes %.2f gains by saying %.2f", belief, said)
			}
		}
	}
}
