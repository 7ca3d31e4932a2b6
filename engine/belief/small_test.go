package belief

import (
	"math"
	"slices"
	"testing"
)

// small is a made-up network of four causes and five signs. Its numbers were
// worked out by brute force, inclusion-exclusion and elimination, all three in
// exact fractions, which agree.
func small() Graph {
	return Graph{Variables: []Variable{
		{Name: "worn", Leak: .10}, {Name: "oil", Leak: .05}, {Name: "cable", Leak: .20}, {Name: "spring", Leak: .02},
		{Name: "slip_hot", Leak: .01, Parents: []int{0, 1, 3}, Strengths: []float64{.8, .5, .7}},
		{Name: "drag", Leak: .02, Parents: []int{1, 2}, Strengths: []float64{.6, .7}},
		{Name: "judder", Leak: .03, Parents: []int{0, 1}, Strengths: []float64{.4, .2}},
		{Name: "free_play_off", Leak: .05, Parents: []int{2}, Strengths: []float64{.9}},
		{Name: "burnt_smell", Leak: .005, Parents: []int{0, 3}, Strengths: []float64{.5, .6}},
	}}
}

const (
	worn = iota
	oil
	cable
	spring
	slipHot
	drag
	judder
	freePlayOff
	burntSmell
)

func smallFindings() []Finding { return []Finding{Yes(slipHot), Yes(drag), No(judder)} }

func TestSmall(t *testing.T) {
	r := solve(t, small(), smallFindings()...)
	wantNear(t, "P(e)", math.Exp(r.LogEvidence), .023348051909, 5e-13)
	for v, want := range map[int]float64{worn: .359228894349, oil: .567181620012, cable: .539767628532,
		spring: .103679554487, freePlayOff: .511501322395, burntSmell: .243139810008} {
		wantNear(t, small().Variables[v].Name, r.Posterior[v], want, 5e-13)
	}
}

// The balance of a cause: its prior, then what each finding adds in the order
// given, in decibans.
func TestSmallBalance(t *testing.T) {
	for v, row := range map[int][]float64{
		worn:   {-9.5424, 12.2468, -3.6072, -1.6105, -2.5133},
		oil:    {-12.7875, 7.3274, 6.2498, .3845, 1.1742},
		cable:  {-6.0206, 0, 6.9549, -.2420, .6923},
		spring: {-16.9020, 8.1635, -1.7569, 1.1276, -9.3677},
	} {
		before := solve(t, small()).Posterior[v]
		wantNear(t, "prior", Decibans(before), row[0], 5e-5)
		for i := range smallFindings() {
			after := solve(t, small(), smallFindings()[:i+1]...).Posterior[v]
			wantNear(t, "weight", Weight(before, after), row[i+1], 5e-5)
			before = after
		}
		wantNear(t, "final", Decibans(before), row[4], 5e-5)
	}
}

func TestSmallLeaveOneOut(t *testing.T) {
	all := solve(t, small(), smallFindings()...)
	for v, row := range map[int][]float64{
		worn:   {9.2476, -3.4375, -1.6105},
		oil:    {8.6810, 6.2498, .3845},
		cable:  {-5.4082, 6.7129, -.2420},
		spring: {7.5343, -2.1117, 1.1276},
	} {
		for i, want := range row {
			without := slices.Delete(smallFindings(), i, i+1)
			r := solve(t, small(), without...)
			wantNear(t, "leave-one-out", Weight(r.Posterior[v], all.Posterior[v]), want, 5e-5)
		}
	}
}

func TestSmallShares(t *testing.T) {
	r := solve(t, small(), smallFindings()...)
	for _, row := range []struct {
		sign int
		want []float64 // the parents in order, then the leak
	}{
		{slipHot, []float64{.350685, .528758, .098192, .070137}},
		{drag, []float64{.513379, .505250, .072179}},
		{judder, []float64{0, 0, 0}},
	} {
		got := append(slices.Clone(r.Shares[row.sign]), r.LeakShare[row.sign])
		for k, want := range row.want {
			wantNear(t, "share", got[k], want, 5e-7)
		}
	}
}

func TestSmallSets(t *testing.T) {
	s, err := TopSets(small(), smallFindings(), []int{worn, oil, cable, spring}, 5, DefaultSetLimit, DefaultBudget)
	if err != nil || !s.Complete {
		t.Fatal(s, err)
	}
	for i, want := range []Set{
		{[]int{oil}, .360027}, {[]int{worn, cable}, .262803}, {[]int{oil, cable}, .130628},
		{[]int{cable, spring}, .070519}, {[]int{cable}, .049153},
	} {
		if !slices.Equal(s.Sets[i].Members, want.Members) {
			t.Errorf("set %d is %v, want %v", i, s.Sets[i].Members, want.Members)
		}
		wantNear(t, "set", s.Sets[i].Probability, want.Probability, 5e-7)
	}
}

// The generalised Bayes factor P(e | x)/P(e | not x) of Yuan, Lim & Lu, JAIR 42
// (2011), from evidence probabilities alone.
func TestSmallBayesFactor(t *testing.T) {
	factor := func(x ...Finding) float64 {
		prior := math.Exp(solve(t, small(), x...).LogEvidence)
		e := math.Exp(solve(t, small(), smallFindings()...).LogEvidence)
		both := math.Exp(solve(t, small(), append(smallFindings(), x...)...).LogEvidence)
		return both / prior / ((e - both) / (1 - prior))
	}
	wantNear(t, "oil", factor(Yes(oil)), 24.8983, 5e-5)
	wantNear(t, "oil, not spring", factor(Yes(oil), No(spring)), 23.6269, 5e-5)
	wantNear(t, "cable and spring", factor(Yes(cable), Yes(spring)), 22.1372, 5e-5)
}

// Good's weights of evidence: 10·log10 of the likelihood ratio; prior .05 and a
// ratio of 9 give .321429 (2.25/7).
func TestDecibans(t *testing.T) {
	for ratio, want := range map[float64]float64{2: 3.0103, 3: 4.7712, 10: 10, 20: 13.0103, 100: 20} {
		wantNear(t, "weight", LikelihoodWeight(ratio), want, 5e-5)
	}
	wantNear(t, "prior", Decibans(.05), -12.7875, 5e-5)
	after := Decibans(.05) + LikelihoodWeight(9)
	wantNear(t, "after", after, -3.2451, 5e-5)
	wantNear(t, "posterior", FromDecibans(after), .321429, 5e-7)
	for _, p := range []float64{0, 1e-300, 1e-9, .3, .5, .999, 1} {
		wantNear(t, "round trip", FromDecibans(Decibans(p)), p, 1e-15)
	}
}
