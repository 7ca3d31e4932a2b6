package belief

import (
	"math"
	"slices"
)

// plan is an elimination order worked out on scopes alone, so that its cost is
// known before any table exists.
type plan struct {
	rank   []int32 // position of each bit in the order
	scopes [][]int32
	steps  []step
	roots  []int32 // tables without bits left: one per component
	cost   float64 // multiply-adds of a forward pass
	cells  float64 // entries of all tables, and the room of the operations' lists
}

// step combines tables a and b (b is -1 for none) into table out, and may
// eliminate one bit on the way.
type step struct {
	a, b, out int32
	bit       int32 // the bit eliminated, or -1
	to        int32 // for a closing: the value bit it becomes, or -1
}

// planner builds plans, bucket by bucket. A search makes many and keeps one, so
// that the room of those given up is used again.
type planner struct {
	plan
	l       *layout
	buckets [][]int32 // tables by their earliest-eliminated bit
	bits    []int32   // room for the scopes
}

// makePlan works out the steps of one order. The next call overwrites them.
func (p *planner) makePlan(l *layout, order []int32) {
	n := len(order)
	p.l, p.cost, p.cells = l, 0, 0
	p.rank, p.buckets = slices.Grow(p.rank[:0], n)[:n], slices.Grow(p.buckets[:0], n)[:n]
	// A step makes one table of two or takes a bit out: there are no more steps
	// than tables and bits to begin with.
	steps := len(l.scopes) + n
	p.steps, p.scopes = slices.Grow(p.steps[:0], steps), slices.Grow(p.scopes[:0], len(l.scopes)+steps)
	p.roots, p.bits = p.roots[:0], slices.Grow(p.bits[:0], 4*len(l.scopes))
	for i, x := range order {
		p.rank[x] = int32(i)
		p.buckets[x] = p.buckets[x][:0]
	}
	for _, scope := range l.scopes {
		p.add(p.scope(scope))
	}
	for _, x := range order {
		p.bucket(x)
	}
}

// scope returns a copy of a list of bits in the planner's room.
func (p *planner) scope(bits []int32) []int32 {
	from := len(p.bits)
	p.bits = append(p.bits, bits...)
	return p.bits[from:len(p.bits):len(p.bits)]
}

// add files a new table. Bits are kept latest-eliminated first: the low bits of
// an index are those that stay longest, so the inner loops run over them.
func (p *planner) add(scope []int32) int32 {
	slices.SortFunc(scope, func(x, y int32) int { return int(p.rank[y] - p.rank[x]) })
	id := int32(len(p.scopes))
	p.scopes = append(p.scopes, scope)
	p.cells += math.Ldexp(1, len(scope))
	if len(scope) == 0 {
		p.roots = append(p.roots, id)
	} else {
		p.file(id)
	}
	return id
}

// file puts a table into the bucket of the bit that goes first.
func (p *planner) file(id int32) {
	scope := p.scopes[id]
	first := scope[len(scope)-1]
	p.buckets[first] = append(p.buckets[first], id)
}

// bucket combines all tables that hold bit x and eliminates it.
func (p *planner) bucket(x int32) {
	tables := p.buckets[x] // nothing is filed here any more
	slices.SortStableFunc(tables, func(a, b int32) int { return len(p.scopes[a]) - len(p.scopes[b]) })
	tables = p.absorb(tables)
	last := len(tables) - 1
	big, rest := tables[last], tables[:last]
	// The last table is left for the step that eliminates the bit, so that the
	// result with the bit still in it never exists.
	for len(rest) > 1 {
		i := p.closest(big, rest)
		big = p.join(big, rest[i])
		rest = slices.Delete(rest, i, i+1)
	}
	s := step{a: big, b: -1, bit: x, to: -1}
	if len(rest) == 1 {
		s.b = rest[0]
	}
	if p.l.isOpen[x] {
		s.to = p.l.value[x]
	}
	p.do(s, p.after(s))
}

// absorb multiplies a table into a larger one that already has all its bits, as
// long as that one is not the largest: the largest meets each table only once.
func (p *planner) absorb(tables []int32) []int32 {
	for i := 0; i < len(tables)-2; {
		j := i + 1
		for j < len(tables)-1 && p.missing(tables[i], tables[j]) > 0 {
			j++
		}
		if j == len(tables)-1 {
			i++
			continue
		}
		tables[j] = p.join(tables[j], tables[i])
		tables = slices.Delete(tables, i, i+1)
	}
	return tables
}

// closest returns the place of the table that adds fewest bits to big.
func (p *planner) closest(big int32, rest []int32) int {
	best, fewest := 0, math.MaxInt
	for i, t := range rest {
		if m := p.missing(t, big); m < fewest {
			best, fewest = i, m
		}
	}
	return best
}

// missing counts the bits of a that b does not have.
func (p *planner) missing(a, b int32) int {
	n := 0
	for _, x := range p.scopes[a] {
		if !slices.Contains(p.scopes[b], x) {
			n++
		}
	}
	return n
}

// join combines two tables without eliminating anything. The result is not
// filed: it is still in the hands of bucket.
func (p *planner) join(a, b int32) int32 {
	s := step{a: a, b: b, bit: -1, to: -1}
	scope := p.after(s)
	slices.SortFunc(scope, func(x, y int32) int { return int(p.rank[y] - p.rank[x]) })
	s.out = int32(len(p.scopes))
	p.scopes = append(p.scopes, scope)
	p.cells += math.Ldexp(1, len(scope))
	p.push(s)
	return s.out
}

// do records a step whose result is filed for a later bucket.
func (p *planner) do(s step, scope []int32) {
	s.out = p.add(scope)
	p.push(s)
}

// push records a step and what it costs.
func (p *planner) push(s step) {
	// The kernel loops over the larger table and copies the smaller one.
	if s.b >= 0 && len(p.scopes[s.b]) > len(p.scopes[s.a]) {
		s.a, s.b = s.b, s.a
	}
	p.steps = append(p.steps, s)
	p.cost += p.stepCost(s)
	p.cells += p.stepRoom(s)
}

// after returns the bits of a step's result, unsorted.
func (p *planner) after(s step) []int32 {
	from := len(p.bits)
	add := func(x int32) {
		if x >= 0 && x != s.bit && !slices.Contains(p.bits[from:], x) {
			p.bits = append(p.bits, x)
		}
	}
	for _, x := range p.scopes[s.a] {
		add(x)
	}
	if s.b >= 0 {
		for _, x := range p.scopes[s.b] {
			add(x)
		}
	}
	add(s.to)
	return p.bits[from:len(p.bits):len(p.bits)]
}

// stepCost counts multiply-adds: two per bit in either table, three where an
// open bit is in both, since then "explained" may come from either side.
func (p *planner) stepCost(s step) float64 {
	a := p.scopes[s.a]
	cost := math.Ldexp(1, len(a))
	if s.b < 0 {
		return cost
	}
	for _, x := range p.scopes[s.b] {
		switch {
		case !slices.Contains(a, x):
			cost *= 2
		case p.l.isOpen[x]:
			cost *= 1.5
		}
	}
	return cost
}

// stepRoom is the room that the operation's lists will take, in table entries:
// where bits pass through, the terms, and the spreading of b.
func (p *planner) stepRoom(s step) float64 {
	a := p.scopes[s.a]
	passed, terms, spread := math.Ldexp(1, len(a)), 1.0, 1.0
	if s.b < 0 {
		return passed / 2
	}
	for _, x := range p.scopes[s.b] {
		spread *= 2
		if !slices.Contains(a, x) {
			continue
		}
		passed /= 2
		terms *= 2
		if p.l.isOpen[x] {
			spread *= 2
			terms *= 1.5
		}
	}
	// Pairs of offsets are half an entry with its adjoint, terms nearly one.
	return (passed+spread)/2 + terms
}
