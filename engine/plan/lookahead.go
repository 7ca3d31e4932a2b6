package plan

import "slices"

// How far the look-ahead goes. Chosen by measurement against [Exact], see
// TestLookAheadAgainstExact, within 20 ms for 85 faults and 100 questions.
var (
	depth       = 3  // steps ahead
	askWidth    = 4  // questions followed up at each step
	actWidth    = 2  // actions followed up at each step
	insideWidth = 12 // questions considered below the first step
)

// option is a step that could be taken from a node, by kind and index, and its
// value.
type option struct {
	ask   bool
	index int
	value float64
}

// stopping is the option of a service at once.
const stopping = -1

// best returns the least value found for n looking ahead the given number of
// steps, and the option that starts it. It is an upper bound that some plan
// reaches: below the horizon nothing more is asked.
func (b *board) best(n *node, depth int) option {
	base := b.nothing(n)
	first := option{index: stopping, value: base}
	if len(b.order.seq) > 0 {
		first.index = b.order.seq[0]
	}
	if depth == 0 {
		return first
	}
	acts := b.heads(first.index)
	asks := b.screen(n, b.perhaps)
	if depth == 1 {
		if len(asks) > 0 && asks[0].value < first.value {
			return asks[0]
		}
		return first
	}
	for _, o := range asks[:min(len(asks), askWidth)] {
		o.value = b.afterAnswers(n, o.index, depth-1)
		if o.value < first.value {
			first = o
		}
	}
	for _, i := range acts {
		if v := b.afterFailure(n, i, depth-1); v < first.value {
			first = option{index: i, value: v}
		}
	}
	return first
}

// heads returns the actions worth trying first: the head of the question-free
// order and those of its next blocks.
func (b *board) heads(first int) []int {
	if first == stopping {
		return nil
	}
	out := []int{first}
	for _, i := range b.order.head {
		if len(out) < actWidth && i != first {
			out = append(out, i)
		}
	}
	return out
}

// screen values each question as if nothing were asked after it, best first.
func (b *board) screen(n *node, questions []int) []option {
	var out []option
	for _, q := range questions {
		if !n.asked[q] {
			out = append(out, option{true, q, b.afterAnswers(n, q, 0)})
		}
	}
	slices.SortStableFunc(out, func(x, y option) int {
		switch {
		case x.value < y.value:
			return -1
		case x.value > y.value:
			return 1
		}
		return 0
	})
	return out
}

// afterAnswers returns the value of asking q and going on with the given
// look-ahead.
func (b *board) afterAnswers(n *node, q, depth int) float64 {
	next, v := b.ask(n, q)
	for r := range b.p.Questions[q].Results {
		b.answer(n, next, q, r)
		if next.mass > tiny*n.mass {
			v += b.best(next, depth).value
		}
	}
	b.give(next)
	return v
}

// afterFailure returns the value of doing action i and going on with the given
// look-ahead if it does not cure.
func (b *board) afterFailure(n *node, i, depth int) float64 {
	next, v := b.act(n, i)
	if next.mass > tiny*n.mass {
		v += b.best(next, depth).value
	}
	b.give(next)
	return v
}

// Next returns the step the look-ahead finds best.
func Next(p Problem) Step {
	b := newBoard(p)
	n := b.root()
	b.perhaps = b.shortlist(n)
	o := b.best(n, depth)
	switch {
	case o.index == stopping:
		return p.service()
	case o.ask:
		return p.question(o.index)
	}
	return p.action(o.index)
}

// shortlist returns the questions worth considering below the first step.
func (b *board) shortlist(n *node) []int {
	var out []int
	for _, o := range b.screen(n, b.active) {
		if len(out) < insideWidth {
			out = append(out, o.index)
		}
	}
	return out
}
