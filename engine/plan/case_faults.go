package plan

import (
	"slices"
	"sort"

	"example.org/takeup/engine/belief"
	"example.org/takeup/engine/fact"
)

// likely picks the causes worth planning for and sets the fault probabilities:
// the shares of the causes in what was seen, scaled to one fault, with "something
// else" keeping its own share.
func (b *Job) likely(cond *belief.Conditioned) ([]int, error) {
	all := b.Network.Of(fact.RoleCause)
	p, err := cond.Posteriors(all)
	if err != nil {
		return nil, err
	}
	none, err := cond.NoneOf(all)
	if err != nil {
		return nil, err
	}
	share := b.shares(all, p)
	order := make([]int, len(all))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(i, j int) bool { return share[order[i]] > share[order[j]] })
	var places []int
	sum := 0.0
	for _, i := range order {
		if share[i] < faintest || len(places) == mostFaults {
			break
		}
		// A habit or a history explains a fault and cannot be looked at or put
		// right on the bench: what it did can.
		if b.finders[b.Network.Variables[all[i]].ID].check == "" {
			continue
		}
		places = append(places, all[i])
		b.faults = append(b.faults, b.Network.Variables[all[i]].ID)
		b.problem.Faults = append(b.problem.Faults, share[i])
		sum += share[i]
	}
	for i := range b.problem.Faults {
		b.problem.Faults[i] *= (1 - none) / sum * (1 - 1e-9)
	}
	b.besides = make([]float64, len(b.Network.Variables))
	for i, v := range all {
		if !slices.Contains(places, v) {
			b.besides[v] = p[i]
		}
	}
	return places, nil
}

// shares is, for each cause, how probable it is that the cause is there and that
// what was seen needs it: P(c | e) less what P(c | e) would be if c had nothing to
// do with e, P(no c | e) times the odds of c beforehand. A fault that the machine
// may have besides, and that its complaint does not speak for, is no reason to
// look. Without anything seen the posteriors stand.
func (b *Job) shares(all []int, p []float64) []float64 {
	if share := b.needed(all, p); sum(share) >= faintest {
		return share
	}
	return p
}

// needed is [Job.shares] whatever is left.
func (b *Job) needed(all []int, p []float64) []float64 {
	before := make([]float64, len(b.Network.Variables))
	share := make([]float64, len(all))
	for i, v := range all { // parents stand first
		before[v] = b.Network.Forward(v, before)
		if before[v] < 1 {
			share[i] = max(0, p[i]-(1-p[i])*before[v]/(1-before[v]))
		}
	}
	return share
}

// states gives, for each fault, how likely every cause and effect is if that
// fault is there along with the evidence. The last row is "something else".
func (b *Job) states(cond *belief.Conditioned, places []int) ([][]float64, error) {
	var held []int
	for v, x := range b.Network.Variables {
		if x.Role != fact.RoleSign && cond.Holds(v) {
			held = append(held, v)
		}
	}
	rows := make([][]float64, len(places)+1)
	for i := range rows {
		rows[i] = make([]float64, len(b.Network.Variables))
		switch {
		case i == len(places): // something else: no cause is there
		case i >= closely || b.problem.Faults[i] < nearly:
			b.onlyFault(rows[i], places[i])
			continue
		default:
			p, err := cond.Given([]belief.Finding{belief.Yes(places[i])}, held)
			if err != nil {
				return nil, err
			}
			for k, v := range held {
				rows[i][v] = p[k]
			}
		}
		b.forward(rows[i], cond)
	}
	return rows, nil
}

// onlyFault fills a row as if that fault were the only one of those planned for:
// near enough for a faint fault, whose answers hardly count. What the machine may
// have besides stays as it is; a likely fault's row has it too, and a difference
// in it would pass for something that a check can tell.
func (b *Job) onlyFault(p []float64, fault int) {
	p[fault] = 1
	for v, x := range b.Network.Variables {
		if v != fault && x.Role != fact.RoleSign {
			p[v] = b.Network.Forward(v, p)
			if leak := b.Network.Graph.Variables[v].Leak; x.Role == fact.RoleCause && leak < 1 {
				p[v] = max(b.besides[v], (p[v]-leak)/(1-leak)) // led to, not there of its own
			}
		}
	}
}

// forward fills in the effects that no evidence reaches, from their causes.
func (b *Job) forward(p []float64, cond *belief.Conditioned) {
	for _, v := range b.Network.Of(fact.RoleEffect) {
		if !cond.Holds(v) {
			p[v] = b.Network.Forward(v, p)
		}
	}
}

// answers is P(sign there | fault) for each fault and for "something else",
// with the sign's parents taken as independent once fault and evidence are known.
func (b *Job) answers(sign string, states [][]float64) []float64 {
	v := b.Network.Index(sign)
	out := make([]float64, len(states))
	for i, state := range states {
		out[i] = within(b.Network.Forward(v, state))
	}
	return out
}
