package interview

import (
	"cmp"
	"errors"
	"math"
	"slices"
	"sync"

	"example.org/takeup/engine/belief"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/network"
	"example.org/takeup/engine/rule"
)

// budget bounds one solution, several of which make one question: it must not keep
// anybody waiting.
var budget = belief.Budget{MaxCost: 2e5, MaxCells: 1 << 20}

// least is the share below which an answer to several signs is not followed
// further.
const least = 0.02

// A cause is suspected when the signs have made it this probable, and this many
// times as probable as it was without them.
var (
	suspectAt = 0.01
	raisedBy  = 1.25
)

// scale is a situation with its beliefs, on which questions are weighed.
type scale struct {
	*desk
	net     *network.Network
	causes  []int // the suspects
	cond    *belief.Conditioned
	apart   *belief.Conditioned // the same, for work on facts beside that on signs
	found   []belief.Finding
	beliefs []float64 // posteriors of all causes
	now     []float64 // their posteriors
	touched []bool    // variables that a suspect leads to, itself included
	single  map[int]belief.Outcome
	waits   map[string][]int // fact -> rules about suspects that wait for it
}

func newScale(d *desk) (*scale, error) {
	s := &scale{desk: d}
	var err error
	if s.net, err = network.Build(d.Catalog, d.Rules, d.firings); err != nil {
		return nil, err
	}
	all := s.net.Of(fact.RoleCause)
	s.found = findings(d, s.net, d.firings)
	var wg sync.WaitGroup
	var other error
	wg.Go(func() { s.apart, other = belief.ConditionKeeping(s.net.Graph, s.found, all, belief.DefaultBudget) })
	s.cond, err = belief.ConditionKeeping(s.net.Graph, s.found, all, belief.DefaultBudget)
	wg.Wait()
	if err = cmp.Or(err, other); err != nil {
		return nil, err
	}
	if s.beliefs, err = s.cond.Posteriors(all); err != nil {
		return nil, err
	}
	s.suspect()
	return s, nil
}

// suspect picks the causes that questions are to tell apart: those the signs speak
// for. Without a complaint it is all of them. Whether something else is wrong
// besides is not what the machine was brought in for.
func (s *scale) suspect() {
	if !s.complains() {
		s.among(func(_ int, p float64) bool { return p > 0 })
		return
	}
	s.among(func(v int, p float64) bool { return p >= suspectAt && p >= raisedBy*s.net.Graph.Variables[v].Leak })
}

// widen suspects every cause that is not faint, for when nothing stands out among
// those that the signs speak for.
func (s *scale) widen() {
	s.among(func(_ int, p float64) bool { return p >= suspectAt })
}

// among sets the suspects; the most probable cause is always one.
func (s *scale) among(suspected func(v int, p float64) bool) {
	all := s.net.Of(fact.RoleCause)
	first, _ := s.first()
	s.causes, s.now, s.touched = nil, nil, make([]bool, len(s.net.Variables))
	for i, v := range all {
		if suspected(v, s.beliefs[i]) || s.net.Variables[v].ID == first {
			s.causes, s.now, s.touched[v] = append(s.causes, v), append(s.now, s.beliefs[i]), true
		}
	}
	for v, x := range s.net.Graph.Variables {
		for _, parent := range x.Parents {
			s.touched[v] = s.touched[v] || s.touched[parent]
		}
	}
	s.single, s.waits = map[int]belief.Outcome{}, map[string][]int{}
	for i, f := range s.firings {
		if r := s.Rules.Rules[i]; f.Verdict == rule.Unknown && r.Action != rule.Cautions && r.Action != rule.Shows && s.concerns(r) {
			for _, id := range f.Waits {
				s.waits[id] = append(s.waits[id], i)
			}
		}
	}
}

func findings(d *desk, net *network.Network, firings []rule.Firing) []belief.Finding {
	var said []network.Evidence
	for _, o := range d.Case.Observations {
		said = append(said, network.Evidence{Sign: o.Sign, Answer: o.Answer, Present: o.Present, Absent: o.Absent})
	}
	return network.Findings(net.Evidence(said, d.Rules, firings))
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

// doubt is the uncertainty about a set of causes in bits: the sum of the binary
// entropies of each. Adding them counts a doubt between two causes twice, alike
// for every question, and asks nothing about which faults come together.
func doubt(p []float64) float64 {
	sum := 0.0
	for _, x := range p {
		if x > 0 && x < 1 {
			sum -= x*math.Log2(x) + (1-x)*math.Log2(1-x)
		}
	}
	return sum
}

// branch is one answer with what it would leave.
type branch struct {
	yes   []string
	value string
	share float64
	p     []float64
}

// gain is the expected fall of doubt over the branches, whose shares add up to 1.
// The doubt before is that of their mixture: shares of answers about the history
// come from elsewhere than the beliefs.
func gain(branches []branch) float64 {
	if len(branches) == 0 {
		return 0
	}
	mixed := make([]float64, len(branches[0].p))
	after := 0.0
	for _, b := range branches {
		for i, x := range b.p {
			mixed[i] += b.share * x
		}
		after += b.share * doubt(b.p)
	}
	return max(0, doubt(mixed)-after)
}

// weighed is a question with its branches.
type weighed struct {
	Question
	branches []branch
}

// weigh fills in what a question tells.
func (s *scale) weigh(q Question) (weighed, error) {
	var b []branch
	var err error
	switch q.Kind {
	case Fact:
		b, err = s.onFact(q.ID)
	default:
		b, err = s.onSigns(q.Signs)
	}
	var hard *belief.TooHardError
	if errors.As(err, &hard) { // then what its most telling sign tells has to do
		b, err = s.alone(q.Signs), nil
	}
	q.Bits = gain(b)
	return weighed{q, b}, err
}

// most bounds what a question about signs tells by what its signs tell alone.
func (s *scale) most(q Question) float64 {
	sum := 0.0
	for _, id := range q.Signs {
		sum += gain(s.either(id))
	}
	return sum
}

// either is the two answers to one sign; nothing for one that tells nothing.
func (s *scale) either(id string) []branch {
	o, ok := s.single[s.net.Index(id)]
	if !ok {
		return nil
	}
	var out []branch
	if o.IfPresent != nil {
		out = append(out, branch{yes: []string{id}, share: o.Present, p: o.IfPresent})
	}
	if o.IfAbsent != nil {
		out = append(out, branch{share: 1 - o.Present, p: o.IfAbsent})
	}
	return out
}

// alone is the answers to the most telling of several signs.
func (s *scale) alone(signs []string) []branch {
	var best []branch
	for _, id := range signs {
		if b := s.either(id); gain(b) > gain(best) {
			best = b
		}
	}
	return best
}

// foresee works out what every sign would tell alone. One that no suspect leads
// to tells nothing.
func (s *scale) foresee(questions []Question) error {
	var vars []int
	for _, q := range questions {
		for _, id := range q.Signs {
			if v := s.net.Index(id); v >= 0 && s.touched[v] && !slices.Contains(vars, v) {
				vars = append(vars, v)
			}
		}
	}
	list, err := s.cond.Outcomes(vars, s.causes)
	for _, o := range list {
		s.single[o.Variable] = o
	}
	return err
}

// onSigns follows the answers to several signs one after the other. What is
// improbable is not followed to its end.
func (s *scale) onSigns(signs []string) ([]branch, error) {
	var telling []string
	var keep []int
	for _, id := range signs {
		if v := s.net.Index(id); v >= 0 && s.touched[v] {
			telling, keep = append(telling, id), append(keep, v)
		}
	}
	if len(telling) < 2 {
		return s.alone(telling), nil
	}
	cond, err := belief.ConditionKeeping(s.net.Graph, s.found, append(slices.Clone(s.causes), keep...), budget)
	if err != nil {
		return nil, err
	}
	w := walk{scale: s, cond: cond, signs: telling, vars: keep}
	err = w.follow(0, nil, nil, 1)
	return w.out, err
}

// walk is a way through the answers to several signs.
type walk struct {
	*scale
	cond  *belief.Conditioned
	signs []string
	vars  []int
	out   []branch
}

func (w *walk) follow(k int, yes []string, said []belief.Finding, share float64) error {
	of := w.causes
	if k < len(w.vars) {
		of = append(slices.Clone(w.causes), w.vars[k])
	}
	p, err := w.given(said, of)
	if err != nil || p == nil {
		return err
	}
	if k == len(w.vars) || share < least {
		w.out = append(w.out, branch{slices.Clone(yes), "", share, p[:len(w.causes)]})
		return nil
	}
	present := p[len(w.causes)]
	if w.clashes(w.signs[k], yes) {
		present = 0
	}
	said = slices.Clip(said)
	if present > 0 {
		if err := w.follow(k+1, append(slices.Clip(yes), w.signs[k]), append(said, belief.Yes(w.vars[k])), share*present); err != nil {
			return err
		}
	}
	if present < 1 {
		return w.follow(k+1, yes, append(said, belief.No(w.vars[k])), share*(1-present))
	}
	return nil
}

// given is the posteriors under further findings, nil where they cannot be.
func (w *walk) given(said []belief.Finding, of []int) ([]float64, error) {
	if len(said) == 0 {
		return w.cond.Posteriors(of)
	}
	p, err := w.cond.Given(said, of)
	var never *belief.ImpossibleError
	if errors.As(err, &never) {
		return nil, nil
	}
	return p, err
}

// clashes reports whether a sign and one of those that are so exclude each other.
func (d *desk) clashes(id string, yes []string) bool {
	s, _ := d.Catalog.Sign(id)
	return slices.ContainsFunc(yes, func(y string) bool {
		other, _ := d.Catalog.Sign(y)
		return slices.Contains(s.Excludes, y) || slices.Contains(other.Excludes, id)
	})
}

// onFact weighs what each answer about the history would make of the causes.
func (s *scale) onFact(id string) ([]branch, error) {
	if len(s.waits[id]) == 0 {
		return nil, nil
	}
	f, _ := s.Catalog.Fact(id)
	var out []branch
	sum := 0.0
	for _, v := range answersTo(s.desk, f) {
		b, err := s.with(id, v)
		if err != nil {
			return nil, err
		}
		if b.p == nil {
			continue
		}
		sum += b.share
		out = append(out, b)
	}
	for i := range out {
		out[i].share /= sum
	}
	return out, nil
}

// with supposes a value of a fact. Rules that raise and lower causes without
// changing a link are taken as evidence on the causes themselves, which costs a
// tenth of a new network.
func (s *scale) with(id string, v value) (branch, error) {
	known := s.known.Clone()
	known.Put(id, v.Value)
	spoken := map[int]rule.Firing{}
	links := false
	for _, i := range s.waits[id] {
		r := s.Rules.Rules[i]
		if f := s.Rules.Ask(r.When, known); f.Verdict == rule.Yes {
			spoken[i] = f
			links = links || r.Action == rule.Brings
		}
	}
	b := branch{value: v.Text, share: v.share}
	if len(spoken) == 0 {
		b.p = s.now
		return b, nil
	}
	if links {
		return s.rebuilt(b, spoken)
	}
	return s.shifted(b, spoken)
}

// concerns reports whether a rule speaks about a suspect or what one leads to.
func (s *scale) concerns(r rule.Rule) bool {
	return slices.ContainsFunc(r.Touches(), func(id string) bool {
		v := s.net.Index(id)
		return v >= 0 && s.touched[v]
	})
}

// shifted multiplies the odds of causes. A cause that others lead to is treated as
// if it stood alone; so is each cause when the answer's own share is corrected by
// how well it goes with the evidence.
func (s *scale) shifted(b branch, spoken map[int]rule.Firing) (branch, error) {
	ratio := map[int]float64{}
	by := func(cause string, x float64) {
		v := s.net.Index(cause)
		if _, seen := ratio[v]; !seen {
			ratio[v] = 1
		}
		ratio[v] *= x
	}
	for i := range spoken {
		r := s.Rules.Rules[i]
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
	var soft []belief.Finding
	for i, v := range s.causes {
		x, moved := ratio[v]
		if !moved || s.now[i] == 0 {
			continue
		}
		prior := s.net.Graph.Variables[v].Leak
		b.share *= (1 - s.now[i] + s.now[i]*x) / (1 - prior + prior*x)
		soft = append(soft, belief.Finding{Variable: v, Present: x, Absent: 1})
	}
	if b.p = s.now; len(soft) == 0 {
		return b, nil
	}
	p, err := s.apart.Given(soft, s.causes)
	var never *belief.ImpossibleError
	if errors.As(err, &never) {
		b.p = nil
		return b, nil
	}
	b.p = p
	return b, err
}

// rebuilt solves a network in which the rules speak.
func (s *scale) rebuilt(b branch, spoken map[int]rule.Firing) (branch, error) {
	firings := slices.Clone(s.firings)
	for i, f := range spoken {
		firings[i] = f
	}
	net, err := network.Build(s.Catalog, s.Rules, firings)
	if err != nil {
		return b, err
	}
	cond, err := belief.ConditionKeeping(net.Graph, findings(s.desk, net, firings), net.Of(fact.RoleCause), budget)
	var never *belief.ImpossibleError
	if errors.As(err, &never) {
		return b, nil
	}
	if err != nil {
		return b, err
	}
	b.share *= math.Exp(cond.LogEvidence() - s.cond.LogEvidence())
	b.p, err = cond.Posteriors(s.places(net))
	return b, err
}

// places are those of the causes in another network, in the order of this one:
// rules may sort causes that lead to one another differently.
func (s *scale) places(net *network.Network) []int {
	out := make([]int, len(s.causes))
	for i, v := range s.causes {
		out[i] = net.Index(s.net.Variables[v].ID)
	}
	return out
}

// prospects words the branches for whoever asks why, likeliest first.
func (s *scale) prospects(branches []branch) []Prospect {
	var out []Prospect
	for _, b := range branches {
		p := Prospect{Yes: b.yes, Value: b.value, Probability: b.share}
		for i, v := range s.causes {
			if b.p[i] > p.TopShare {
				p.Top, p.TopShare = s.net.Variables[v].ID, b.p[i]
			}
		}
		out = append(out, p)
	}
	slices.SortStableFunc(out, func(a, b Prospect) int { return cmp.Compare(b.Probability, a.Probability) })
	return out
}
