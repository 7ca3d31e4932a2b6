package plan

import (
	"slices"

	"example.org/takeup/engine/catalog"
)

// The policies in this file are common habits, kept for comparison. None of them
// starts on a step that takes longer than giving up: nobody parts the cases to
// look for what a day at a specialist's settles.

// worthStarting tells whether action i is still to be done and cheaper than giving up.
func (p Problem) worthStarting(i int) bool {
	return !at(p.Done, i) && p.action(i).Minutes < p.ServiceMinutes
}

// OutsideIn works through the actions from the outside inwards, in the order
// in which they are listed, and asks nothing.
func OutsideIn(p Problem) Step {
	best, depth := -1, 0
	for i, a := range p.Actions {
		if !p.worthStarting(i) {
			continue
		}
		if d := p.depth(a.Stage); best < 0 || d < depth {
			best, depth = i, d
		}
	}
	if best < 0 {
		return p.service()
	}
	return p.action(best)
}

// OutsideIn is the habit of that name on a case: a fixed list from the outside
// inwards, at each depth in the order of the knowledge, of which only what the
// evidence leaves possible is worked through. The problem is that of the job, at
// any state.
func (b *Job) OutsideIn(p Problem) Step {
	best, depth, place := -1, 0, 0
	for i, l := range b.looks {
		if !p.worthStarting(i) {
			continue
		}
		d, k := p.depth(p.Actions[i].Stage), b.placeOf(l)
		if best < 0 || d < depth || d == depth && k < place {
			best, depth, place = i, d, k
		}
	}
	if best < 0 {
		return p.service()
	}
	return p.action(best)
}

// placeOf is where the first of a look's causes stands in the knowledge.
func (b *Job) placeOf(l look) int {
	return slices.IndexFunc(b.Catalog.Causes, func(c catalog.Cause) bool {
		return slices.ContainsFunc(l.faults, func(f int) bool { return b.faults[f] == c.ID })
	})
}

// depth counts the stages down to s, open or not.
func (p Problem) depth(s int) int {
	d := 0
	for ; s != Outside; s = p.Stages[s].Parent {
		d++
	}
	return d
}

// MostLikelyFirst does what is most likely to cure now, whatever it takes, and
// asks nothing.
func MostLikelyFirst(p Problem) Step {
	best, chance := p.service(), 0.0
	for i, a := range p.Actions {
		c := 0.0
		for _, u := range a.Cures {
			c += u.Probability * p.Faults[u.Fault]
		}
		if p.worthStarting(i) && c > chance {
			best, chance = p.action(i), c
		}
	}
	return best
}

// MostInformativeFirst asks or looks where most bits are expected for a
// minute; once nothing tells anything more, what is most likely to cure comes
// next.
func MostInformativeFirst(p Problem) Step {
	// bits within rounding of 0 are none: a sure fault leaves nothing to ask
	best, most := MostLikelyFirst(p), tiny
	try := func(s Step) {
		if b := BitsPerMinute(p, s); b > most {
			best, most = s, b
		}
	}
	for i := range p.Questions {
		if q := p.question(i); !at(p.Asked, i) && q.Minutes < p.ServiceMinutes {
			try(q)
		}
	}
	for i := range p.Actions {
		if p.worthStarting(i) {
			try(p.action(i))
		}
	}
	return best
}
