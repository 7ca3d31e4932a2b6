package plan

import (
	"math"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"
)

// level says how much of the choice is followed up some steps from the start.
type level struct {
	asks   int // questions followed up
	acts   int // actions followed up
	inside int // questions handed down to the next level
}

// Steps of the look-ahead but the last, which only compares one question now
// with none at all. Chosen by measurement against [Exact]
// (TestNextAgainstExact); the narrow one keeps an advice on 85 faults and 100
// questions under 20 ms.
var (
	wide   = []level{{5, 2, 8}, {2, 1, 5}, {2, 1, 3}}
	narrow = []level{{3, 2, 6}, {2, 1, 4}, {1, 1, 2}}
)

// wideLimit is the number of actions and results of questions up to which the
// look-ahead is wide.
const wideLimit = 160

// A state is followed up only if it is met at least this often. What is thought
// through less there cannot move the expectation by more than a sliver.
const seldom = 0.03

// clearly tells whether value x beats y by more than rounding, so that what
// changes nothing is never chosen.
func clearly(x, y float64) bool { return x < y-1e-9*y }

// option is a step that could be taken from a node, by kind and index, its
// value, and for a question what its answer alone would save if it were free.
type option struct {
	ask   bool
	index int
	value float64
	saves float64
}

// stopping is the option of a service at once.
const stopping = -1

// best returns the least value found for n when the first k levels are behind,
// and the option that starts it. It is an upper bound that some plan reaches:
// below the horizon nothing more is asked.
func (b *board) best(n *node, k int, questions []int) option {
	first := option{index: stopping, value: b.nothing(n)}
	if len(b.order.seq) > 0 {
		first.index = b.order.seq[0]
	}
	if k > len(b.levels) {
		return first
	}
	heads := b.heads(first.index, k)
	asks := b.screen(n, first.value, questions)
	if k == len(b.levels) {
		if len(asks) > 0 && clearly(asks[0].value, first.value) {
			return asks[0]
		}
		return first
	}
	return b.followUp(n, k, first, asks, heads)
}

// followUp looks further ahead along the most promising options and returns
// the best.
func (b *board) followUp(n *node, k int, first option, asks []option, acts []int) option {
	best := first
	for _, o := range b.followed(n, k, asks, acts) {
		if clearly(o.value, best.value) {
			best = o
		}
	}
	return best
}

// followed values the most promising options with the look-ahead from the next
// level on.
func (b *board) followed(n *node, k int, asks []option, acts []int) []option {
	out, inside := b.promising(k, asks, acts)
	for i := range out {
		b.follow(n, k, &out[i], inside)
	}
	return out
}

// followedAtOnce is followed from the start, on several boards at the same time.
func (b *board) followedAtOnce(n *node, asks []option, acts []int) []option {
	out, inside := b.promising(0, asks, acts)
	var next atomic.Int64
	follow := func(b *board) {
		for i := next.Add(1) - 1; i < int64(len(out)); i = next.Add(1) - 1 {
			b.follow(n, 0, &out[i], inside)
		}
	}
	var wg sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(out)) - 1 {
		twin := b.twin() // before anyone uses b
		wg.Go(func() { follow(twin) })
	}
	follow(b)
	wg.Wait()
	return out
}

// promising lists the options that are followed up at level k, and the questions
// handed down from there.
func (b *board) promising(k int, asks []option, acts []int) (out []option, inside []int) {
	inside = make([]int, 0, b.levels[k].inside)
	for _, o := range asks[:min(len(asks), b.levels[k].inside)] {
		inside = append(inside, o.index)
	}
	out = make([]option, 0, b.levels[k].asks+b.levels[k].acts)
	for _, i := range acts {
		out = append(out, option{index: i})
	}
	for _, o := range asks[:min(len(asks), b.levels[k].asks)] {
		if b.tells(o.index) { // a free one would pass for whatever is asked after it
			out = append(out, o)
		}
	}
	return out, inside
}

// follow values one option.
func (b *board) follow(n *node, k int, o *option, inside []int) {
	if o.ask {
		o.value, _ = b.afterAnswers(n, o.index, k+1, inside)
	} else {
		o.value = b.afterFailure(n, o.index, k+1, inside)
	}
}

// tells reports whether some result of a question is likelier under one fault
// than under another.
func (b *board) tells(q int) bool {
	for _, row := range b.p.Questions[q].Results {
		for _, p := range row {
			if math.Abs(p-row[0]) > 1e-12 {
				return true
			}
		}
	}
	return false
}

// heads returns the actions worth trying first: the head of the question-free
// order and those of its next blocks.
// With imperfect knowledge of the answers to come, a dearer action that opens
// a better way can beat the first by ratio, hence more than one.
func (b *board) heads(first, k int) []int {
	if first == stopping || k == len(b.levels) {
		return nil
	}
	out := []int{first}
	for _, i := range b.order.head {
		if len(out) < b.levels[k].acts && i != first {
			out = append(out, i)
		}
	}
	return out
}

// screen values each question as if nothing were asked after it, best first,
// those that change nothing last: a free one must not pass for a good one that
// would be asked after it. never is the value of asking nothing.
func (b *board) screen(n *node, never float64, questions []int) []option {
	out := make([]option, 0, len(questions))
	for _, q := range questions {
		if n.asked[q] {
			continue
		}
		v, spent := b.afterAnswers(n, q, len(b.levels)+1, nil)
		o := option{true, q, v, never + spent - v}
		if o.saves <= 1e-9*never {
			o.saves = 0
		}
		out = append(out, o)
	}
	slices.SortStableFunc(out, func(x, y option) int {
		if idle := x.saves == 0; idle != (y.saves == 0) {
			if idle {
				return 1
			}
			return -1
		}
		return compare(x.value, y.value)
	})
	return out
}

// afterAnswers returns the value of asking q and going on with the look-ahead
// from level k, and how much of it is spent on asking.
func (b *board) afterAnswers(n *node, q, k int, questions []int) (value, spent float64) {
	next, spent := b.ask(n, q)
	value = spent
	for r := range b.p.Questions[q].Results {
		b.answer(n, next, q, r)
		if next.mass > tiny*n.mass {
			value += b.onward(next, k, questions)
		}
	}
	b.give(next)
	return value, spent
}

// afterFailure returns the value of doing action i and going on with the
// look-ahead from level k if it does not cure.
func (b *board) afterFailure(n *node, i, k int, questions []int) float64 {
	next, v := b.act(n, i)
	if next.mass > tiny*n.mass {
		v += b.onward(next, k, questions)
	}
	b.give(next)
	return v
}

// onward is the value of the best found from level k on, or of asking nothing
// more in a state that is seldom met.
func (b *board) onward(n *node, k int, questions []int) float64 {
	if n.mass < seldom {
		return b.nothing(n)
	}
	return b.best(n, k, questions).value
}

// newLookAhead lays out a problem for looking ahead.
func newLookAhead(p Problem) *board {
	b := newBoard(p)
	b.anew = 0
	b.levels = narrow
	size := len(p.Actions)
	for _, q := range b.active {
		size += len(p.Questions[q].Results)
	}
	if size <= wideLimit {
		b.levels = wide
	}
	return b
}

// step turns an option taken at the root into a step.
func (b *board) step(o option) Step {
	switch {
	case o.index == stopping:
		return b.p.service()
	case o.ask:
		return b.p.question(o.index)
	}
	return b.p.action(o.index)
}

// Next is the policy of [Advise]: the step that the look-ahead finds best.
func Next(p Problem) Step {
	b := newLookAhead(p)
	return b.step(b.best(b.root(), 0, b.active))
}
