package plan

// board is a problem laid out for fast look-ahead: plain slices, no
// normalising, scratch space kept.
type board struct {
	p      Problem
	always []float64 // per action: minutes paid each time
	cured  []float64 // per action: minutes on top if it cures
	cures  [][]Cure  // per action
	shared bool      // two actions cure one fault, so ratios move
	anew   int       // orders made anew on one walk if they do
	levels []level   // of the look-ahead
	active []int     // questions that can still be asked
	order  order     // scratch of one question-free order
	spare  []*node   // nodes not in use
}

// node is a state of the work reached in the look-ahead. w holds the joint
// probability of each fault (last: "something else") with all that was
// seen on the way; mass is their sum. Values are expected minutes times mass,
// so that the values of branches simply add up.
type node struct {
	w     []float64
	mass  float64
	open  []bool
	done  []bool
	asked []bool
}

// newBoard lays out a valid problem. It allows any number of new orders on a
// walk; looking ahead allows none, see newLookAhead.
func newBoard(p Problem) *board {
	b := &board{p: p, anew: len(p.Actions)}
	covered := make([]bool, len(p.Faults))
	for i, a := range p.Actions {
		always, cured := a.minutes(p.TestMinutes)
		b.always = append(b.always, always)
		b.cured = append(b.cured, cured)
		b.cures = append(b.cures, a.Cures)
		if at(p.Done, i) {
			continue
		}
		for _, c := range a.Cures {
			b.shared = b.shared || covered[c.Fault]
			covered[c.Fault] = true
		}
	}
	for i := range p.Questions {
		if !at(p.Asked, i) {
			b.active = append(b.active, i)
		}
	}
	b.order.init(p)
	b.settle()
	return b
}

// twin returns a board of the same problem with scratch space of its own, for
// another goroutine.
func (b *board) twin() *board {
	c := *b
	c.order, c.spare = order{}, nil
	c.order.init(b.p)
	copy(c.order.usual, b.order.usual)
	return &c
}

// root returns the node of the problem as it stands.
func (b *board) root() *node {
	n := b.take()
	copy(n.w, b.p.Faults)
	n.w[len(b.p.Faults)] = b.p.Other()
	n.mass = sum(n.w)
	for i := range n.open {
		n.open[i] = at(b.p.Open, i)
	}
	for i := range n.done {
		n.done[i] = at(b.p.Done, i)
	}
	for i := range n.asked {
		n.asked[i] = at(b.p.Asked, i)
	}
	return n
}

// settle sorts the actions once as the problem stands, so that later sorts
// start nearly sorted.
func (b *board) settle() {
	n := b.root()
	b.worthwhile(n)
	b.give(n)
	o := &b.order
	kept := make([]bool, len(o.usual))
	o.usual = o.usual[:0]
	for _, x := range o.all {
		o.usual = append(o.usual, x.first)
		kept[x.first] = true
	}
	for i, k := range kept {
		if !k {
			o.usual = append(o.usual, i)
		}
	}
}

// take returns a node with room for everything; give hands it back.
func (b *board) take() *node {
	if k := len(b.spare); k > 0 {
		n := b.spare[k-1]
		b.spare = b.spare[:k-1]
		return n
	}
	return &node{
		w:     make([]float64, len(b.p.Faults)+1),
		open:  make([]bool, len(b.p.Stages)),
		done:  make([]bool, len(b.p.Actions)),
		asked: make([]bool, len(b.p.Questions)),
	}
}

// give makes room for the next take; n must not be used after it.
func (b *board) give(n *node) { b.spare = append(b.spare, n) }

// copy returns a copy of n, to be given back.
func (b *board) copy(n *node) *node {
	c := b.take()
	c.mass = n.mass
	copy(c.w, n.w)
	copy(c.open, n.open)
	copy(c.done, n.done)
	copy(c.asked, n.asked)
	return c
}

// enter opens everything down to stage s in n and returns the minutes.
func (b *board) enter(n *node, s int) float64 {
	minutes := 0.0
	for ; s != Outside && !n.open[s]; s = b.p.Stages[s].Parent {
		n.open[s] = true
		minutes += b.p.Stages[s].Minutes
	}
	return minutes
}

// success returns the joint probability that action i cures in n.
func (b *board) success(n *node, i int) float64 {
	s := 0.0
	for _, c := range b.cures[i] {
		s += n.w[c.Fault] * c.Probability
	}
	return s
}

// try turns n into the node after action i failed and returns the value spent
// until then: openings and the action for everybody, the repair for those it
// cures.
func (b *board) try(n *node, i int) float64 {
	minutes := b.enter(n, b.p.Actions[i].Stage) + b.always[i]
	cured := b.success(n, i)
	spent := n.mass*minutes + cured*b.cured[i]
	n.done[i] = true
	for _, c := range b.cures[i] {
		n.w[c.Fault] *= 1 - c.Probability
	}
	// cheaper than adding up all faults again; rounding may leave it below 0
	n.mass = max(n.mass-cured, 0)
	return spent
}

// act is try on a copy of n, to be given back.
func (b *board) act(n *node, i int) (next *node, spent float64) {
	next = b.copy(n)
	return next, b.try(next, i)
}

// ask returns the node of n with question q asked (weights still those
// before) and the value spent on it. answer then fills in a result.
func (b *board) ask(n *node, q int) (next *node, spent float64) {
	next = b.copy(n)
	minutes := b.enter(next, b.p.Questions[q].Stage) + b.p.Questions[q].Minutes
	next.asked[q] = true
	return next, n.mass * minutes
}

// An answer needs no normalising: the joint weights of all results add up to
// those before, so values of results add up to the value of asking.
//
// answer sets the weights of next to those of n with result r of question q.
func (b *board) answer(n, next *node, q, r int) {
	row := b.p.Questions[q].Results[r]
	next.mass = 0
	for f, x := range n.w {
		next.w[f] = x * row[f]
		next.mass += next.w[f]
	}
}

func sum(xs []float64) float64 {
	s := 0.0
	for _, x := range xs {
		s += x
	}
	return s
}
