package practice

import (
	"errors"
	"slices"
	"sort"

	"example.org/takeup/engine/belief"
	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/derive"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/network"
	"example.org/takeup/engine/plan"
	"example.org/takeup/engine/rule"
)

// Book is the pack that exercises are held on.
type Book struct {
	Catalog *catalog.Catalog
	Rules   *rule.Set
	Words   *fact.Vocabulary
	Derived *derive.Table // what rules work out from readings; nil for none
	// Phrases are how riders word a sign, by its id; what has none is told by its
	// name.
	Phrases map[string][]string
}

// State is what is known and done at one point of an exercise.
type State struct {
	Known   fact.Set           `json:"-"` // machine sheet, history as far as told, readings
	Said    []network.Evidence `json:"said"`
	Done    []string           `json:"done"`   // checks
	Paid    []string           `json:"opened"` // stages that are open
	Found   []string           `json:"found"`  // faults that are settled already
	Minutes float64            `json:"minutes"`
}

// clone returns a copy that later steps leave alone.
func (s State) clone() State {
	s.Known = s.Known.Clone()
	s.Said, s.Done = slices.Clone(s.Said), slices.Clone(s.Done)
	s.Paid, s.Found = slices.Clone(s.Paid), slices.Clone(s.Found)
	return s
}

// answered reports whether a sign has been answered, and how.
func (s State) answered(sign string) (network.Evidence, bool) {
	for _, e := range s.Said {
		if e.Sign == sign {
			return e, true
		}
	}
	return network.Evidence{}, false
}

// Candidate is a cause with its probability.
type Candidate struct {
	Cause       string  `json:"cause"`
	Probability float64 `json:"probability"`
}

// View is what the book makes of a state.
type View struct {
	Firings  []rule.Firing
	Network  *network.Network
	Evidence []network.Evidence
	Causes   []Candidate // all that are possible, most probable first
	Left     []string    // signs whose answers were too dear to weigh exactly, and left out

	cond  *belief.Conditioned
	order []int     // variables of Causes
	prior []float64 // of Causes, before any sign
}

// InPlay is the probability from which a cause counts as still in play, if what
// was seen speaks for it: a cause that is merely common explains nothing.
const InPlay = 0.02

// speaksAt is how far, in decibans, signs must have raised a cause for that.
const speaksAt = 1.0

// Budgets of one view: an exercise must not make anybody wait, and a case that is
// drawn shall be cheap to judge.
var (
	patient = belief.Budget{MaxCost: 5e7, MaxCells: 1 << 22}
	brisk   = belief.Budget{MaxCost: 4e6, MaxCells: 1 << 20}
)

// View works out what the book believes in a state. Answers that would make an
// exact result too dear are left out, and listed. The error is the network's or
// says that the answers cannot be.
func (b Book) View(s State) (*View, error) { return b.view(s, patient) }

func (b Book) view(s State, budget belief.Budget) (*View, error) {
	v := &View{Firings: b.Fire(s.Known)}
	var err error
	if v.Network, err = network.Build(b.Catalog, b.Rules, v.Firings); err != nil {
		return nil, err
	}
	v.settle(s.Found)
	said := slices.Clone(s.Said)
	for _, id := range s.Found {
		said = append(said, network.Evidence{Sign: id, Answer: "yes", Present: 1})
	}
	v.Evidence = v.Network.Evidence(said, b.Rules, v.Firings)
	causes := v.Network.Of(fact.RoleCause)
	if err := v.condition(causes, budget); err != nil {
		return nil, err
	}
	p, err := v.cond.Posteriors(causes)
	if err != nil {
		return nil, err
	}
	before, err := v.unseen(causes)
	if err != nil {
		return nil, err
	}
	v.rank(causes, p, before)
	return v, nil
}

// Fire asks every rule about what is known, derived quantities included.
func (b Book) Fire(known fact.Set) []rule.Firing {
	if b.Derived == nil {
		return b.Rules.Fire(known)
	}
	firings := b.Rules.Fire(b.Derived.Fill(known))
	b.Derived.Settle(firings, known)
	return firings
}

// settle takes faults that are found out of the race: what they bring about is
// still seen, but they are no longer what is looked for.
func (v *View) settle(found []string) {
	for _, id := range found {
		if i := v.Network.Index(id); i >= 0 {
			v.Network.Variables[i].Role = fact.RoleEffect
		}
	}
}

func (v *View) condition(keep []int, budget belief.Budget) error {
	for {
		var err error
		v.cond, err = belief.ConditionKeeping(v.Network.Graph, network.Findings(v.Evidence), keep, budget)
		var much *belief.TooHardError
		if err == nil || !errors.As(err, &much) || len(much.Findings) == 0 {
			return err
		}
		var left []network.Evidence
		for i, e := range v.Evidence {
			if slices.Contains(much.Findings, i) {
				v.Left = append(v.Left, e.Sign)
			} else {
				left = append(left, e)
			}
		}
		v.Evidence = left
	}
}

// unseen is how likely the causes were before any sign: their own priors and
// what other causes lead to.
func (v *View) unseen(causes []int) ([]float64, error) {
	c, err := belief.ConditionKeeping(v.Network.Graph, nil, causes, patient)
	if err != nil {
		return nil, err
	}
	return c.Posteriors(causes)
}

func (v *View) rank(causes []int, p, prior []float64) {
	place := make([]int, len(causes))
	for i := range place {
		place[i] = i
	}
	sort.SliceStable(place, func(i, j int) bool { return p[place[i]] > p[place[j]] })
	for _, i := range place {
		if p[i] > 0 {
			v.Causes = append(v.Causes, Candidate{v.Network.Variables[causes[i]].ID, p[i]})
			v.order = append(v.order, causes[i])
			v.prior = append(v.prior, prior[i])
		}
	}
}

// Of returns the probability of a cause, 0 for one that is not possible.
func (v *View) Of(cause string) float64 {
	for _, c := range v.Causes {
		if c.Cause == cause {
			return c.Probability
		}
	}
	return 0
}

// spoken reports whether what was seen speaks for a cause.
func spoken(p, prior float64) bool {
	return prior > 0 && prior < 1 && belief.Decibans(p)-belief.Decibans(prior) >= speaksAt
}

// InPlay lists the causes that are not as good as out, most probable first; at
// least one while any is possible.
func (v *View) InPlay() []Candidate {
	var out []Candidate
	for i, c := range v.Causes {
		if c.Probability >= InPlay && spoken(c.Probability, v.prior[i]) {
			out = append(out, c)
		}
	}
	if len(out) == 0 && len(v.Causes) > 0 {
		out = v.Causes[:1]
	}
	return out
}

// First is the most probable cause in play.
func (v *View) First() Candidate {
	if len(v.Causes) == 0 {
		return Candidate{}
	}
	return v.InPlay()[0]
}

// Course is the planner's advice in a state.
func (b Book) Course(s State, v *View) (*plan.Course, error) {
	return plan.Propose(plan.Situation{
		Catalog: b.Catalog, Rules: b.Rules, Words: b.Words, Network: v.Network, Evidence: v.Evidence, Known: s.Known, Done: s.Done, Open: s.Paid,
		Belief: v.belief,
	})
}

// belief hands out the view's belief to those who use it up.
func (v *View) belief() (*belief.Conditioned, error) { return v.cond.Clone(), nil }

// Sensible reports whether a `needs` condition does not say no.
func (b Book) Sensible(needs string, known fact.Set) bool {
	return b.Rules.Needs(needs, b.Words, known) != rule.No
}

// Holds reports whether a condition is known to hold.
func (b Book) Holds(condition string, known fact.Set) bool {
	return b.Rules.Needs(condition, b.Words, known) == rule.Yes
}
