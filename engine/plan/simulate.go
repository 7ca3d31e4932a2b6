package plan

import (
	"encoding/binary"
	"math"
	"math/rand/v2"
	"slices"
)

// Trial sums up simulated machines worked on by one policy. Minutes are of
// work until cured or given up; counts are means per machine.
type Trial struct {
	Machines        int     `json:"machines"`
	MeanMinutes     float64 `json:"mean_minutes"`
	MedianMinutes   float64 `json:"median_minutes"`
	NinetiethPct    float64 `json:"ninetieth_percentile_minutes"`
	WorstMinutes    float64 `json:"worst_minutes"`
	WrongRepairs    float64 `json:"wrong_repairs"`    // repairs on suspicion that did not cure, per machine
	NeedlessOpening float64 `json:"needless_opening"` // stages opened though nothing inside cures the fault, per machine
	Services        float64 `json:"services"`         // share given up
}

// Simulate draws n machines from a problem and lets a policy work on each to
// the end. Same seed, same machines, whatever the policy: compare policies
// under one seed. The fault, every answer and every success are fixed for a
// machine before work begins. It panics if n < 1.
func Simulate(p Problem, policy Policy, seed uint64, n int) Trial {
	if n < 1 {
		panic("plan: no machines to simulate")
	}
	// most machines pass through the same first states
	policy = remembering(policy)
	t := Trial{Machines: n}
	minutes := make([]float64, n)
	for k := range minutes {
		m := newMachine(p, rand.New(rand.NewPCG(seed, uint64(k))))
		m.work(p, policy, &t)
		minutes[k] = m.minutes
	}
	slices.Sort(minutes)
	t.MeanMinutes = sum(minutes) / float64(n)
	t.MedianMinutes = quantile(minutes, .5)
	t.NinetiethPct = quantile(minutes, .9)
	t.WorstMinutes = minutes[n-1]
	t.WrongRepairs /= float64(n)
	t.NeedlessOpening /= float64(n)
	t.Services /= float64(n)
	return t
}

// quantile returns the smallest value with at least the share q of a sorted
// list at or below it.
func quantile(sorted []float64, q float64) float64 {
	k := int(math.Ceil(q*float64(len(sorted)))) - 1
	return sorted[max(k, 0)]
}

// machine is one simulated machine: all that chance decides is drawn at once.
type machine struct {
	fault   int
	answers []int  // result of each question
	cures   []bool // of each action
	minutes float64
}

// newMachine draws the fault first and then one number for every question and
// action, asked and done or not, so that policies meet the same machine.
func newMachine(p Problem, r *rand.Rand) *machine {
	m := &machine{fault: draw(append(slices.Clone(p.Faults), p.Other()), r.Float64())}
	for _, q := range p.Questions {
		column := make([]float64, len(q.Results))
		for k, row := range q.Results {
			column[k] = row[m.fault]
		}
		m.answers = append(m.answers, draw(column, r.Float64()))
	}
	for _, a := range p.Actions {
		chance, u := 0.0, r.Float64()
		for _, c := range a.Cures {
			if c.Fault == m.fault {
				chance = c.Probability
			}
		}
		m.cures = append(m.cures, u < chance)
	}
	return m
}

// draw picks an index by weight, for u uniform in [0, 1).
func draw(weights []float64, u float64) int {
	u *= sum(weights)
	last := 0
	for i, w := range weights {
		if w > 0 {
			if last = i; u < w {
				return i
			}
			u -= w
		}
	}
	return last
}

// work follows the policy until the machine is cured or given up.
func (m *machine) work(p Problem, policy Policy, t *Trial) {
	for {
		s := policy(p)
		m.minutes += s.Minutes
		for _, stage := range s.Opens {
			if !p.curesInside(stage, m.fault) {
				t.NeedlessOpening++
			}
		}
		if s.Kind == Service {
			t.Services++
			return
		}
		// a machine that is not cured comes back as the next problem
		o, ok := m.outcome(p, s)
		if s.Kind == Repair && o.Result == NotCured {
			t.WrongRepairs++
		}
		m.minutes += o.Minutes
		if !ok {
			return
		}
		p = *o.Next
	}
}

// outcome returns how a step ends on this machine, and whether work goes on.
func (m *machine) outcome(p Problem, s Step) (o Outcome, more bool) {
	want := Cured
	switch {
	case s.Kind == Ask:
		want = m.answers[s.Index]
	case !m.cures[s.Index]:
		want = NotCured
	}
	for _, o := range p.Outcomes(s) {
		if o.Result == want {
			return o, o.Next != nil
		}
	}
	// chance drew what rounding calls impossible: as good as over
	return Outcome{Result: want}, false
}

// curesInside tells whether some action at or inside a stage cures a fault.
func (p Problem) curesInside(stage, fault int) bool {
	for _, a := range p.Actions {
		for _, c := range a.Cures {
			if c.Fault == fault && c.Probability > 0 && p.within(a.Stage, stage) {
				return true
			}
		}
	}
	return false
}

// remembering wraps a policy so that a state met again is not thought through
// again. The faults are part of the key, for they carry the answers.
func remembering(policy Policy) Policy {
	known := map[string]Step{}
	return func(p Problem) Step {
		key := p.key()
		s, ok := known[key]
		if !ok {
			s = policy(p)
			known[key] = s
		}
		return s
	}
}

// key identifies the state of one problem's work.
func (p Problem) key() string {
	var b []byte
	for _, x := range p.Faults {
		b = binary.LittleEndian.AppendUint64(b, math.Float64bits(x))
	}
	for _, flags := range [][]bool{with(p.Open, len(p.Stages)), with(p.Done, len(p.Actions)), with(p.Asked, len(p.Questions))} {
		for _, f := range flags {
			if f {
				b = append(b, 1)
			} else {
				b = append(b, 0)
			}
		}
	}
	return string(b)
}
