package belief

import (
	"math"
	"math/bits"
)

// A bit is one binary dimension of a table. A variable that is not observed has
// a value bit (present or not). A noisy-OR variable also has an open bit
// ("explained so far"), which closing turns into its value bit. So a closing
// and a summing are both the elimination of a bit, in any order but for one
// rule: a value bit waits for its own open bit.

// layout says which bits there are.
type layout struct {
	// value of an open bit is its value bit, or -1 when the variable was seen to
	// be present: closing then keeps the explained half only.
	value []int32
	// open of a value bit is its open bit, or -1.
	open   []int32
	isOpen []bool
	scopes [][]int32 // the bits of each initial table
}

// maxTries bounds the orders tried for an expensive graph.
const maxTries = 64

// costPerTry is the work that pays for trying one more order: an order for a
// few hundred bits costs about as much as this many multiply-adds.
const costPerTry = 20000

// cheapEnough is the cost below which one order is as good as any.
const cheapEnough = 6000

// fronts are the limits tried for a moving front, see greedy.
var fronts = [...]int32{5, 7, 4, 9, 6}

// searchOrder returns an elimination order and its plan. The first try is
// greedy by table size; dear graphs get more tries, with a moving front and
// with fixed pseudo-random tie-breaks. Same graph in, same order out.
func searchOrder(l *layout) plan {
	s := newSearcher(l)
	best, other := new(planner), new(planner)
	best.makePlan(l, s.greedy(0, math.MaxInt32))
	if best.cost < cheapEnough {
		return best.plan
	}
	for try := 0; try < len(fronts) || float64(try) < min(best.cost/costPerTry, maxTries); try++ {
		limit := fronts[try%len(fronts)]
		if try%(2*len(fronts)) == len(fronts) {
			limit = math.MaxInt32
		}
		order := s.greedy(uint64(try/len(fronts)), limit)
		// The weight misses only what merging open bits costs extra; an order that
		// loses without it is not worth planning.
		if s.weight > 2*best.cost {
			continue
		}
		if other.makePlan(l, order); other.cost < best.cost {
			best, other = other, best
		}
	}
	return best.plan
}

// searcher runs greedy eliminations on the graph of bits that share a table.
type searcher struct {
	l      *layout
	n, w   int
	start  []uint64 // n rows of w words: neighbours, the bit itself included
	adj    []uint64
	score  []int32
	done   []bool
	front  []uint64 // bits of the front table
	weight float64  // sum of table sizes of the last run
	order  []int32  // of the last run
}

// newSearcher links all bits that share an initial table.
func newSearcher(l *layout) *searcher {
	n := len(l.isOpen)
	w := (n + 63) / 64
	s := &searcher{l: l, n: n, w: w,
		start: make([]uint64, n*w), adj: make([]uint64, n*w),
		score: make([]int32, n), done: make([]bool, n), front: make([]uint64, w)}
	for _, scope := range l.scopes {
		for _, x := range scope {
			for _, y := range scope {
				s.start[int(x)*w+int(y)/64] |= 1 << (y % 64)
			}
		}
	}
	return s
}

// greedy eliminates the bit with the smallest table first. Seed 0 breaks ties
// by number; other seeds break them, and near ties, at random. Tables of more
// than limit bits are only made by advancing one front: merging two large
// tables that share open bits costs half as much again for each such bit.
func (s *searcher) greedy(seed uint64, limit int32) []int32 {
	copy(s.adj, s.start)
	clear(s.done)
	clear(s.front)
	s.weight = 0
	for x := range s.n {
		s.rescore(x)
	}
	order := s.order[:0]
	rng := seed * 0x9e3779b97f4a7c15
	for range s.n {
		x := s.pick(&rng, limit)
		order = append(order, int32(x))
		s.weight += float64(uint64(1) << min(s.score[x], 62))
		large := s.score[x] > limit || s.inFront(x)
		s.eliminate(x)
		if large {
			copy(s.front, s.adj[x*s.w:(x+1)*s.w])
		}
	}
	s.order = order
	return order
}

// offFront is added to the key of a bit that would start a second large table.
const offFront = 1 << 40

// pick returns the cheapest bit that may go now.
func (s *searcher) pick(rng *uint64, limit int32) int {
	best, bestKey := -1, int64(0)
	for x := range s.n {
		if s.done[x] || !s.ready(x) {
			continue
		}
		key := int64(s.score[x]) << 32
		if *rng != 0 {
			key += int64(next(rng) >> 31) // up to two sizes of noise
		}
		if s.score[x] > limit && !s.inFront(x) {
			key += offFront
		}
		if best < 0 || key < bestKey {
			best, bestKey = x, key
		}
	}
	return best
}

// inFront reports whether a bit is in the front table.
func (s *searcher) inFront(x int) bool { return s.front[x/64]>>(x%64)&1 == 1 }

// ready reports whether a bit may be eliminated: a value bit only once its open
// bit has been closed.
func (s *searcher) ready(x int) bool {
	o := s.l.open[x]
	return o < 0 || s.done[o]
}

// eliminate links all neighbours of a bit with each other and takes it out. A
// closing brings the value bit in: it is in the table that results.
func (s *searcher) eliminate(x int) {
	row := s.adj[x*s.w : (x+1)*s.w]
	s.done[x] = true
	row[x/64] &^= 1 << (x % 64)
	if s.l.isOpen[x] && s.l.value[x] >= 0 {
		v := s.l.value[x]
		row[v/64] |= 1 << (v % 64)
	}
	for i, word := range row {
		for ; word != 0; word &= word - 1 {
			u := i*64 + bits.TrailingZeros64(word)
			other := s.adj[u*s.w : (u+1)*s.w]
			for j := range other {
				other[j] |= row[j]
			}
			other[x/64] &^= 1 << (x % 64)
			s.rescore(u)
		}
	}
}

// rescore counts the bits of the table that eliminating x would make.
func (s *searcher) rescore(x int) {
	n := 0
	for _, word := range s.adj[x*s.w : (x+1)*s.w] {
		n += bits.OnesCount64(word)
	}
	s.score[x] = int32(n)
}

// next is one step of xorshift64: a fixed sequence, not a source of chance.
func next(x *uint64) uint64 {
	*x ^= *x << 13
	*x ^= *x >> 7
	*x ^= *x << 17
	return *x
}
