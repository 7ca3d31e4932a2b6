package engine

import (
	"cmp"
	"slices"

	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/intake"
)

// Rank is the ranking of one case without its reasons.
type Rank struct {
	Causes   []Ranked `json:"causes"`   // by probability
	Unlisted float64  `json:"unlisted"` // P(none of the book's causes is there | evidence)
}

// Ranked is a cause with its probability.
type Ranked struct {
	ID          string  `json:"id"`
	Name        string  `json:"name"`
	Probability float64 `json:"probability"`
}

// Rank is Diagnose without explanation and plan, for cases by the thousand. The
// probabilities are the same. Causes that cannot be are left out.
func (e *Engine) Rank(c *intake.Case) (*Rank, error) {
	d, err := e.lay(c)
	if err != nil {
		return nil, err
	}
	net, causes := d.Network, d.Network.Of(fact.RoleCause)
	cond, err := net.Condition(d.Evidence)
	if err != nil {
		return nil, err
	}
	p, err := cond.Posteriors(causes)
	if err != nil {
		return nil, err
	}
	r := &Rank{}
	var possible []int
	for i, v := range causes {
		id := net.Variables[v].ID
		if prior, _ := net.PriorOf(id); prior.RuledOut == "" {
			possible = append(possible, v)
			r.Causes = append(r.Causes, Ranked{id, e.Catalog.NameOf(id), p[i]})
		}
	}
	slices.SortStableFunc(r.Causes, func(a, b Ranked) int { return cmp.Compare(b.Probability, a.Probability) })
	r.Unlisted, err = cond.NoneOf(possible)
	return r, err
}
