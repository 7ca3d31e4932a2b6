package plan

import (
	"math/rand/v2"
	"testing"
)

// full makes a problem of the size of a whole knowledge base: 85 faults with
// an action each in a tree of 12 stages, 100 questions of which a fifth need
// an opening, likelihoods that touch a few faults strongly.
func full(seed uint64) Problem {
	r := rand.New(rand.NewPCG(seed, 85))
	p := Problem{ServiceMinutes: 600, TestMinutes: 10}
	for s := range 12 {
		p.Stages = append(p.Stages, Stage{Parent: r.IntN(s+1) - 1, Minutes: 5 + 40*r.Float64()})
	}
	total := 0.0
	for range 85 {
		p.Faults = append(p.Faults, r.ExpFloat64())
		total += p.Faults[len(p.Faults)-1]
	}
	for i := range p.Faults {
		p.Faults[i] *= .95 / total
		p.Actions = append(p.Actions, Action{
			Stage: r.IntN(13) - 1, Observable: r.IntN(4) > 0,
			LookMinutes: 1 + 20*r.Float64(), RepairMinutes: 5 + 60*r.Float64(),
			Cures: []Cure{{i, 1 - .1*float64(r.IntN(2))}},
		})
	}
	for range 100 {
		p.Questions = append(p.Questions, fullQuestion(r))
	}
	return p
}

func fullQuestion(r *rand.Rand) Question {
	yes := make([]float64, 85)
	base := .05 + .3*r.Float64()
	for f := range yes {
		yes[f] = base
		if r.IntN(6) == 0 {
			yes[f] = .6 + .38*r.Float64()
		}
	}
	stage := Outside
	if r.IntN(5) == 0 {
		stage = r.IntN(12)
	}
	return YesNo(stage, 1+9*r.Float64(), yes, base)
}

func BenchmarkNextFull(b *testing.B) {
	p := full(1)
	for b.Loop() {
		Next(p)
	}
}

// shared: some faults have two remedies, so ratios move on the way.
func BenchmarkNextFullShared(b *testing.B) {
	p := full(1)
	for i := range 10 {
		p.Actions[i].Cures = append(p.Actions[i].Cures, Cure{i + 20, .8})
	}
	for b.Loop() {
		Next(p)
	}
}

func BenchmarkOrderFull(b *testing.B) {
	p := newBoard(full(1))
	n := p.root()
	for b.Loop() {
		p.nothing(n)
	}
}

func BenchmarkAdviseFull(b *testing.B) {
	p := full(1)
	for b.Loop() {
		if _, err := Advise(p); err != nil {
			b.Fatal(err)
		}
	}
}
