package plan

import (
	"cmp"
	"slices"
)

// Reason says why something is not worth doing as things stand.
type Reason string

// The reasons.
const (
	ChangesNothing Reason = "changes nothing" // no result alters what is done next
	CostsMore      Reason = "costs more"      // it takes more minutes than it can save
	CannotCure     Reason = "cannot cure"     // nothing it cures is still possible
)

// Left is something not worth doing: the minutes it could save at most if it
// were free, and those it costs with the openings it needs.
type Left struct {
	Kind   Kind    `json:"kind"`
	Index  int     `json:"index"`
	Reason Reason  `json:"reason"`
	Saves  float64 `json:"saves"`
	Costs  float64 `json:"costs"`
}

// Opening is the decision about one shut stage that could be opened next.
// Saved is what having it (with all that lies inside) saves in the long run; 0
// means leave it shut.
type Opening struct {
	Stage   int     `json:"stage"`
	Minutes float64 `json:"minutes"` // there and back
	Saved   float64 `json:"saved"`
	Now     bool    `json:"now"` // the next step opens it
}

// atLeast returns a value no plan can beat: each fault dealt with by the
// cheapest action for it, or a service, as if it were known.
func (b *board) atLeast(n *node) float64 {
	least := make([]float64, len(n.w))
	for f := range least {
		least[f] = b.p.ServiceMinutes
	}
	for i, cures := range b.cures {
		if n.done[i] {
			continue
		}
		minutes := b.p.action(i).Minutes
		for _, c := range cures {
			if c.Probability > 0 {
				// what follows a failed repair costs something too; left out
				least[c.Fault] = min(least[c.Fault], minutes+c.Probability*b.cured[i])
			}
		}
	}
	value := 0.0
	for f, w := range n.w {
		value += w * least[f]
	}
	return value
}

// compare is cmp.Compare on minutes.
func compare(x, y float64) int { return cmp.Compare(x, y) }

// left explains everything not worth while as a single step, but the one
// chosen: questions first, then actions.
func (b *board) left(n *node, chosen option, planned []int, asks []option) []Left {
	var out []Left
	for _, o := range asks {
		costs, saves := b.p.question(o.index).Minutes, o.saves/n.mass
		switch {
		case o.same(chosen):
		case saves == 0:
			out = append(out, Left{Ask, o.index, ChangesNothing, 0, costs})
		case saves <= costs:
			out = append(out, Left{Ask, o.index, CostsMore, saves, costs})
		}
	}
	slices.SortStableFunc(out, func(x, y Left) int { return cmp.Compare(x.Index, y.Index) })
	for i := range b.p.Actions {
		if !n.done[i] && !slices.Contains(planned, i) && !chosen.same(option{index: i}) {
			out = append(out, b.leftAction(n, i))
		}
	}
	return out
}

// leftAction explains an action that comes after the service in the
// question-free plan: what it can save is the service for those it cures.
func (b *board) leftAction(n *node, i int) Left {
	step := b.p.action(i)
	chance := b.success(n, i) / n.mass
	l := Left{step.Kind, i, CostsMore, max(chance*(b.p.ServiceMinutes-b.cured[i]), 0), step.Minutes}
	if chance <= tiny {
		l.Reason = CannotCure
	}
	return l
}

// openings weighs every shut stage whose parent is open.
func (b *board) openings(n *node, first option, asks []option) []Opening {
	var out []Opening
	next := b.step(first)
	for s, stage := range b.p.Stages {
		if n.open[s] || !b.p.opened(stage.Parent) {
			continue
		}
		saved := b.lost(n, asks, len(b.levels), func(m *node) { b.shut(m, s) })
		out = append(out, Opening{s, stage.Minutes, saved, slices.Contains(next.Opens, s)})
	}
	return out
}

// shut bars everything at or inside stage s.
func (b *board) shut(n *node, s int) {
	for i, a := range b.p.Actions {
		n.done[i] = n.done[i] || b.p.within(a.Stage, s)
	}
	for i, q := range b.p.Questions {
		n.asked[i] = n.asked[i] || b.p.within(q.Stage, s)
	}
}
