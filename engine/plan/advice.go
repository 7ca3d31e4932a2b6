package plan

import "slices"

// Advice is the next step and what else was weighed, in expected minutes.
type Advice struct {
	Next    Step    `json:"next"`
	Minutes float64 `json:"minutes"` // from now to a cured machine, service included
	// AtLeast is what it would take on average if someone told which fault it is.
	AtLeast float64 `json:"at_least"`
	// Saved is what would be lost if the next step could not be had at all.
	Saved float64 `json:"saved"`
	// Together lists what else is worth while once the stages of Next are open.
	Together []Step    `json:"together,omitempty"`
	Others   []Choice  `json:"others,omitempty"`
	Left     []Left    `json:"left,omitempty"`
	Openings []Opening `json:"openings,omitempty"`
}

// Choice is a runner-up: the expected minutes from now if it is done next.
type Choice struct {
	Step    Step    `json:"step"`
	Minutes float64 `json:"minutes"`
}

// Advise returns the best next step found for a problem, or the joined errors
// of [Problem.Validate].
//
// Minutes is what a plan reaches that asks nothing more beyond the look-ahead:
// the true expectation lies between AtLeast and Minutes, near Minutes if a
// handful of questions are open and well below it if there are dozens;
// [Simulate] with [Next] then gives the nearer figure. The differences (Saved,
// Others) are between values found with equal foresight.
func Advise(p Problem) (Advice, error) {
	if err := p.Validate(); err != nil {
		return Advice{}, err
	}
	b := newLookAhead(p)
	n := b.root()
	never := b.nothing(n)
	planned := slices.Clone(b.order.seq)
	first := option{index: stopping, value: never}
	if len(planned) > 0 {
		first.index = planned[0]
	}
	// the same choice as best makes at its first level, kept open for a look
	heads := b.heads(first.index, 0)
	asks := b.screen(n, never, b.active)
	weighed := b.followedAtOnce(n, asks, heads)
	for _, o := range weighed {
		if clearly(o.value, first.value) {
			first = o
		}
	}
	advice := Advice{
		Next:     b.step(first),
		Minutes:  first.value / n.mass,
		AtLeast:  b.atLeast(n) / n.mass,
		Others:   b.others(n, first, weighed),
		Left:     b.left(n, first, planned, asks),
		Openings: b.openings(n, first, asks),
	}
	advice.Saved = b.lost(n, asks, 1, func(m *node) { b.bar(m, first) })
	advice.Together = b.together(advice.Next)
	return advice, nil
}

// same tells whether two options are one step.
func (o option) same(x option) bool { return o.ask == x.ask && o.index == x.index }

// others lists the runners-up, best first; giving up is one of them. A
// question that changes nothing is none.
func (b *board) others(n *node, first option, weighed []option) []Choice {
	weighed = append(weighed, option{index: stopping, value: n.mass * b.p.ServiceMinutes})
	var out []Choice
	for _, o := range weighed {
		idle := o.ask && o.saves == 0
		if !idle && !o.same(first) {
			out = append(out, Choice{b.step(o), o.value / n.mass})
		}
	}
	slices.SortStableFunc(out, func(x, y Choice) int { return compare(x.Minutes, y.Minutes) })
	return out
}

// bar makes an option impossible in n.
func (b *board) bar(n *node, o option) {
	switch {
	case o.index == stopping:
	case o.ask:
		n.asked[o.index] = true
	default:
		n.done[o.index] = true
	}
}

// lost returns the minutes lost when part of what could be done is barred,
// both sides looked at from level k on.
func (b *board) lost(n *node, asks []option, k int, bar func(*node)) float64 {
	var questions []int
	for _, o := range asks[:min(len(asks), b.levels[0].inside)] {
		questions = append(questions, o.index)
	}
	barred := b.copy(n)
	defer b.give(barred)
	bar(barred)
	had := b.best(n, k, questions).value
	return max(b.best(barred, k, questions).value-had, 0) / n.mass
}

// together lists what is worth doing at the stages a step opens, besides the
// step: actions in order, then questions that pay for themselves.
func (b *board) together(s Step) []Step {
	if len(s.Opens) == 0 {
		return nil
	}
	// with the stages open, their openings are sunk: weigh everything anew
	p := b.p
	p.Open = with(p.Open, len(p.Stages), s.Opens...)
	inside := func(stage int) bool { return slices.Contains(s.Opens, stage) }
	c := newLookAhead(p)
	n := c.root()
	never := c.nothing(n)
	var out []Step
	for _, i := range c.order.seq {
		if inside(p.Actions[i].Stage) && (s.Kind == Ask || i != s.Index) {
			out = append(out, p.action(i))
		}
	}
	for _, o := range c.screen(n, never, c.active) {
		if inside(p.Questions[o.index].Stage) && clearly(o.value, never) && (s.Kind != Ask || o.index != s.Index) {
			out = append(out, p.question(o.index))
		}
	}
	return out
}
