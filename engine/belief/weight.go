package belief

import "math"

// Odds returns p/(1-p): 0 for 0, +Inf for 1.
func Odds(p float64) float64 { return p / (1 - p) }

// LogOdds returns the natural log-odds ln(p/(1-p)); -Inf for 0, +Inf for 1.
func LogOdds(p float64) float64 { return math.Log(p) - math.Log1p(-p) }

// FromLogOdds is the inverse of LogOdds.
func FromLogOdds(x float64) float64 {
	if x < 0 {
		e := math.Exp(x)
		return e / (1 + e)
	}
	return 1 / (1 + math.Exp(-x))
}

// decibansPerNat turns natural logarithms into Good's decibans, 10·log10.
const decibansPerNat = 10 / math.Ln10

// Decibans returns the odds of p in decibans, 10·log10(p/(1-p)): 0 at one half,
// about -12.8 at .05.
func Decibans(p float64) float64 { return decibansPerNat * LogOdds(p) }

// FromDecibans is the inverse of Decibans.
func FromDecibans(db float64) float64 { return FromLogOdds(db / decibansPerNat) }

// Weight returns Good's weight of evidence in decibans for a change of belief
// from before to after: the difference of their log-odds. (I. J. Good,
// Probability and the Weighing of Evidence, 1950: from memory.)
func Weight(before, after float64) float64 {
	return decibansPerNat * (LogOdds(after) - LogOdds(before))
}

// LikelihoodWeight returns the weight of evidence of a likelihood ratio, in
// decibans: 10·log10(ratio).
func LikelihoodWeight(ratio float64) float64 { return 10 * math.Log10(ratio) }

// NetStrength turns P(child present | only this parent known to be present),
// which includes the leak, into the net strength of the link (Henrion 1989
// against Diez 1993: from memory): 1 - (1-p)/(1-leak), at least 0.
func NetStrength(p, leak float64) float64 {
	if leak >= 1 {
		return 0
	}
	return max(0, (p-leak)/(1-leak))
}
