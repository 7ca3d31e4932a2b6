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

// taste is what a greedy search goes by: the bit goes first that links the fewest
// new pairs of bits, plus some times the size of the table it makes. Tables of
// more than front bits are only made by advancing one front.
type taste struct{ size, front int32 }

// tastes are tried in turn. Over the sample cases the better of the first two is
// within 6 % on average of the best of a hundred tries, where going by size alone
// with several fronts stays 15 % behind.
var tastes = [...]taste{{2, math.MaxInt32}, {0, 7}, {2, 9}, {1, math.MaxInt32}}

// searchOrder returns an elimination order and its plan. Dear graphs get more
// tries, with fixed pseudo-random tie-breaks. Same graph in, same order out.
func searchOrder(l *layout) plan {
	s := newSearcher(l)
	best, other := new(planner), new(planner)
	best.makePlan(l, s.greedy(0, tastes[0]))
	if best.cost < cheapEnough {
		return best.plan
	}
	for try := 1; try < 2 || float64(try) < min(best.cost/costPerTry, maxTries); try++ {
		order := s.greedy(uint64(try/len(tastes)), tastes[try%len(tastes)])
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
	size   []int32 // bits of the table that eliminating a bit would make
	fill   []int32 // twice the pairs of bits it would link that are not yet, -1 unknown
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
		size: make([]int32, n), fill: make([]int32, n), done: make([]bool, n), front: make([]uint64, w)}
	for _, scope := range l.scopes {
		for _, x := range scope {
			for _, y := range scope {
				s.start[int(x)*w+int(y)/64] |= 1 << (y % 64)
			}
		}
	}
	return s
}

// greedy eliminates bit by bit as its taste has it. Seed 0 breaks ties by size and
// number; other seeds break them, and near ties, at random. A front is worth while
// because merging two large tables that share open bits costs half as much again
// for each such bit.
func (s *searcher) greedy(seed uint64, by taste) []int32 {
	copy(s.adj, s.start)
	clear(s.done)
	clear(s.front)
	s.weight = 0
	for x := range s.n {
		s.measure(x)
	}
	order := s.order[:0]
	rng := seed * 0x9e3779b97f4a7c15
	for range s.n {
		x := s.pick(&rng, by)
		order = append(order, int32(x))
		s.weight += float64(uint64(1) << min(s.size[x], 62))
		large := s.size[x] > by.front || s.inFront(x)
		s.eliminate(x)
		if large {
			copy(s.front, s.adj[x*s.w:(x+1)*s.w])
		}
	}
	s.order = order
	return order
}

// offFront is added to the key of a bit that would start a second large table.
const offFront = 1 << 50

// pick returns the cheapest bit that may go now.
func (s *searcher) pick(rng *uint64, by taste) int {
	best, bestKey := -1, int64(0)
	for x := range s.n {
		if s.done[x] || !s.ready(x) {
			continue
		}
		key := int64(by.size*s.size[x])<<32 + int64(s.size[x])<<20
		if *rng != 0 {
			key += int64(next(rng) >> 30) // up to four pairs of noise
		}
		if s.size[x] > by.front && !s.inFront(x) {
			key += offFront
		}
		if best >= 0 && key >= bestKey {
			continue // whatever it links
		}
		if key += int64(s.links(x)) << 32; best < 0 || key < bestKey {
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
			s.measure(u)
			s.forget(other)
		}
	}
}

// measure counts the bits of the table that eliminating x would make.
func (s *searcher) measure(x int) {
	n := 0
	for _, word := range s.adj[x*s.w : (x+1)*s.w] {
		n += bits.OnesCount64(word)
	}
	s.size[x], s.fill[x] = int32(n), -1
}

// forget drops what some bits would link: it changes with their neighbours.
func (s *searcher) forget(row []uint64) {
	for i, word := range row {
		for ; word != 0; word &= word - 1 {
			s.fill[i*64+bits.TrailingZeros64(word)] = -1
		}
	}
}

// links counts, both ways, the pairs of neighbours of x that no table has both of.
func (s *searcher) links(x int) int32 {
	if s.fill[x] >= 0 {
		return s.fill[x]
	}
	row := s.adj[x*s.w : (x+1)*s.w]
	n := 0
	for i, word := range row {
		for ; word != 0; word &= word - 1 {
			u := i*64 + bits.TrailingZeros64(word)
			for j, other := range s.adj[u*s.w : (u+1)*s.w] {
				n += bits.OnesCount64(row[j] &^ other)
			}
		}
	}
	s.fill[x] = int32(n)
	return s.fill[x]
}

// next is one step of xorshift64: a fixed sequence, not a source of chance.
func next(x *uint64) uint64 {
	*x ^= *x << 13
	*x ^= *x >> 7
	*x ^= *x << 17
	return *x
}
