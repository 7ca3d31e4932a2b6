package interview

import (
	"cmp"
	"math"
	"slices"

	"example.org/takeup/engine/belief"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/network"
	"example.org/takeup/engine/rule"
)

// A cause is suspected when the signs have made it this probable, and this many
// times as probable as it was without them.
const (
	suspectAt = 0.01
	raisedBy  = 1.25
)

// The likeliest suspects are followed with the evidence at hand, fainter ones as if
// nothing had been seen: so many at most and at least, and in between as many as
// these multiply-adds allow, since nobody is to wait for a question.
const (
	closelyMost  = 8
	closelyLeast = 2
	closelySteps = 2e6
)

// scale is a situation with its beliefs, on which questions are weighed. For that
// one of the suspects, or something else, is taken to be what is wrong: their
// probabilities are scaled to 1. What a question would show is worked out from
// each of them on its own, the causes behind a sign being independent of each
// other once the fault is known. A ranking would be too coarse that way; which
// question parts the suspects best comes out alike, in a tenth of the time.
type scale struct {
	*desk
	net      *network.Network
	cond     *belief.Conditioned
	beliefs  []float64   // posteriors of all causes
	suspects []int       // places in the graph
	weights  []float64   // of the suspects, then of something else
	states   [][]float64 // for each of those: how probable every variable is
	waits    map[string][]int
}

func newScale(d *desk) (*scale, error) {
	s := &scale{desk: d, waits: map[string][]int{}}
	var err error
	if s.net, err = network.Build(d.Catalog, d.Rules, d.firings); err != nil {
		return nil, err
	}
	all := s.net.Of(fact.RoleCause)
	cond, err := belief.ConditionKeeping(s.net.Graph, s.findings(), all, belief.DefaultBudget)
	if err != nil {
		return nil, err
	}
	if s.beliefs, err = cond.Posteriors(all); err != nil {
		return nil, err
	}
	none, err := cond.NoneOf(all)
	if err != nil {
		return nil, err
	}
	s.suspect(all, none)
	for i, f := range d.firings {
		if a := d.Rules.Rules[i].Action; f.Verdict == rule.Unknown && a != rule.Cautions && a != rule.Shows {
			for _, id := range f.Waits {
				s.waits[id] = append(s.waits[id], i)
			}
		}
	}
	s.cond = cond
	return s, nil
}

func (s *scale) findings() []belief.Finding {
	var said []network.Evidence
	for _, o := range s.Case.Observations {
		said = append(said, network.Evidence{Sign: o.Sign, Answer: o.Answer, Present: o.Present, Absent: o.Absent})
	}
	return network.Findings(s.net.Evidence(said, s.Rules, s.firings))
}

// first is the most probable cause.
func (s *scale) first() (string, float64) {
	best, share := "", -1.0
	for i, v := range s.net.Of(fact.RoleCause) {
		if s.beliefs[i] > share {
			best, share = s.net.Variables[v].ID, s.beliefs[i]
		}
	}
	return best, max(share, 0)
}

// suspect picks the causes that questions are to tell apart: those the signs speak
// for, likeliest first. Without a complaint it is all of them. Whether something
// is wrong besides is not what the machine was brought in for.
func (s *scale) suspect(all []int, none float64) {
	at := map[int]float64{}
	first, _ := s.first()
	for i, v := range all {
		p := s.beliefs[i]
		at[v] = p
		raised := p >= suspectAt && p >= raisedBy*s.net.Graph.Variables[v].Leak
		if raised || s.net.Variables[v].ID == first || !s.complains() && p > 0 {
			s.suspects = append(s.suspects, v)
		}
	}
	slices.SortStableFunc(s.suspects, func(a, b int) int { return cmp.Compare(at[b], at[a]) })
	sum := 0.0
	for _, v := range s.suspects {
		sum += at[v]
	}
	for _, v := range s.suspects {
		s.weights = append(s.weights, at[v]/sum*(1-none))
	}
	s.weights = append(s.weights, none)
}

// imagine works out what is to be expected under each suspect, and under none. It
// comes before any question is weighed.
func (s *scale) imagine() error {
	var held []int
	for v, x := range s.net.Variables {
		if x.Role != fact.RoleSign && s.cond.Holds(v) {
			held = append(held, v)
		}
	}
	steps, _ := s.cond.Cost()
	closely := max(closelyLeast, min(closelyMost, int(closelySteps/max(1, steps))))
	for i, v := range s.suspects {
		p := make([]float64, len(s.net.Variables))
		given := map[int]bool{v: true}
		if p[v] = 1; i < closely {
			q, err := s.cond.Given([]belief.Finding{belief.Yes(v)}, held)
			if err != nil {
				return err
			}
			for k, h := range held {
				p[h], given[h] = q[k], true
			}
		}
		s.states = append(s.states, s.forward(p, given))
	}
	s.states = append(s.states, s.forward(make([]float64, len(s.net.Variables)), nil))
	return nil
}

// forward fills in every variable that is not given, parents first. Causes are
// there only if another led to them.
func (s *scale) forward(p []float64, given map[int]bool) []float64 {
	for v := range p {
		switch {
		case given[v]:
		case s.net.Variables[v].Role == fact.RoleCause:
			p[v] = s.net.Led(v, p)
		default:
			p[v] = s.net.Forward(v, p)
		}
	}
	return p
}

// entropy is that of a distribution in bits; the weights need not add up to 1.
func entropy(weights []float64) float64 {
	sum, h := 0.0, 0.0
	for _, w := range weights {
		sum += w
	}
	for _, w := range weights {
		if w > 0 {
			h -= w / sum * math.Log2(w/sum)
		}
	}
	return h
}

// branch is one answer with the joint probability of it and each hypothesis.
type branch struct {
	yes   []string
	value string
	joint []float64
}

// share is the probability of the answer, up to a factor.
func (b branch) share() (sum float64) {
	for _, x := range b.joint {
		sum += x
	}
	return sum
}

// gain is the mutual information of answer and hypothesis in bits (Shannon 1948).
func gain(branches []branch) float64 {
	if len(branches) == 0 {
		return 0
	}
	mixed := make([]float64, len(branches[0].joint))
	after, total := 0.0, 0.0
	for _, b := range branches {
		share := b.share()
		for i, x := range b.joint {
			mixed[i] += x
		}
		after += share * entropy(b.joint)
		total += share
	}
	return max(0, entropy(mixed)-after/total)
}

// branches lists the answers to a question.
func (s *scale) branches(q Question) []branch {
	if q.Kind == Fact {
		return s.onFact(q.ID)
	}
	return s.onSigns(q.Signs)
}

// onSigns multiplies the answers out, sign by sign.
func (s *scale) onSigns(signs []string) []branch {
	out := []branch{{joint: s.weights}}
	for _, id := range signs {
		v := s.net.Index(id)
		if v < 0 {
			continue
		}
		var next []branch
		for _, b := range out {
			yes := branch{yes: append(slices.Clip(b.yes), id), joint: make([]float64, len(b.joint))}
			no := branch{yes: b.yes, joint: make([]float64, len(b.joint))}
			for i, w := range b.joint {
				p := s.states[i][v]
				if s.clashes(id, b.yes) {
					p = 0
				}
				yes.joint[i], no.joint[i] = w*p, w*(1-p)
			}
			if yes.share() > 0 {
				next = append(next, yes)
			}
			next = append(next, no)
		}
		out = next
	}
	return out
}

// clashes reports whether a sign and one of those that are so exclude each other.
func (d *desk) clashes(id string, yes []string) bool {
	s, _ := d.Catalog.Sign(id)
	return slices.ContainsFunc(yes, func(y string) bool {
		other, _ := d.Catalog.Sign(y)
		return slices.Contains(s.Excludes, y) || slices.Contains(other.Excludes, id)
	})
}

// onFact weighs the hypotheses by what the rules would make of their odds. The
// shares of the knowledge are those of all machines; that answers which go with
// the evidence are commoner here follows from the same weights.
func (s *scale) onFact(id string) []branch {
	f, _ := s.Catalog.Fact(id)
	var out []branch
	for _, v := range answersTo(s.desk, f) {
		factor := s.factors(id, v)
		b := branch{value: v.Text, joint: make([]float64, len(s.weights))}
		for i, w := range s.weights {
			b.joint[i] = w * v.share
			if i == len(s.suspects) {
				break
			}
			prior := s.net.Graph.Variables[s.suspects[i]].Leak
			if x, moved := factor[s.suspects[i]]; moved {
				b.joint[i] *= x / (1 - prior + prior*x)
			}
		}
		if b.share() > 0 {
			out = append(out, b)
		}
	}
	return out
}

// factors are by what a value multiplies the odds of causes. A rule that would
// draw a link makes its cause more probable by what the link explains of the
// signs that are there; that is not worked out, and the link counts for nothing.
func (s *scale) factors(id string, v value) map[int]float64 {
	known := s.known.Clone()
	known.Put(id, v.Value)
	out := map[int]float64{}
	by := func(cause string, x float64) {
		c := s.net.Index(cause)
		if _, seen := out[c]; !seen {
			out[c] = 1
		}
		out[c] *= x
	}
	for _, i := range s.waits[id] {
		r := s.Rules.Rules[i]
		if !s.concerns(r) || s.Rules.Ask(r.When, known).Verdict != rule.Yes {
			continue
		}
		for _, f := range r.Factors {
			if r.Action == rule.Lowers {
				by(f.Cause, 1/f.By)
			} else {
				by(f.Cause, f.By)
			}
		}
		for _, c := range r.Causes {
			by(c, 0)
		}
	}
	return out
}

// concerns reports whether a rule moves the odds of a suspect.
func (s *scale) concerns(r rule.Rule) bool {
	return slices.ContainsFunc(r.Touches(), func(id string) bool { return slices.Contains(s.suspects, s.net.Index(id)) })
}
