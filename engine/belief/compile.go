package belief

import (
	"math"
	mathbits "math/bits"
	"slices"
)

// tiny is where tables are lifted: far above underflow, and rarely reached.
const tiny = 0x1p-200

// lift returns the power of two that brings top near 1.
func lift(top float64) lifting {
	_, exp := math.Frexp(top)
	// A subnormal top would need a scale beyond the largest float.
	exp = max(exp, -1000)
	return lifting{math.Ldexp(1, -exp), float64(-exp) * math.Ln2}
}

// assembler turns a plan into operations on one slab of values.
type assembler struct {
	l     *layout
	p     *plan
	spans []span

	terms arena[term]
	pairs arena[pair]
	// Scratch of one operation.
	special []int32
	list    []partial
	wider   []partial
	spread  []pair
	spread2 []pair
}

// assemble returns the operations and, for every table of the plan, its place in
// the slab; entry 0 of the slab holds the constant 1. The first len(l.scopes)
// tables are the initial ones. Scratch is the room the operations need.
// Own lists the initial tables that are the variables' own, -1 for none.
func assemble(l *layout, p *plan, own []int32) (ops []op, spans []span, scratch int) {
	as := assembler{l: l, p: p, spans: make([]span, len(p.scopes))}
	at := 1
	for i, scope := range p.scopes {
		as.spans[i] = span{at, at + 1<<len(scope)}
		at = as.spans[i].to
	}
	wanted := make([]bool, len(p.scopes))
	for _, t := range own {
		if t >= 0 {
			wanted[t] = true
		}
	}
	ops = make([]op, len(p.steps))
	for i, s := range p.steps {
		as.op(&ops[i], s)
		ops[i].wantA, ops[i].wantB = wanted[s.a], s.b >= 0 && wanted[s.b]
		wanted[s.out] = ops[i].wantA || ops[i].wantB
		scratch = max(scratch, 2*ops[i].expanded)
	}
	return ops, as.spans, scratch
}

// op builds the operation of one step.
func (as *assembler) op(o *op, s step) {
	*o = op{a: as.spans[s.a], b: span{0, 1}, out: as.spans[s.out]}
	var b []int32
	if s.b >= 0 {
		o.b, b = as.spans[s.b], as.p.scopes[s.b]
	}
	a, out := as.p.scopes[s.a], as.p.scopes[s.out]
	as.special = specials(as.special[:0], a, b, s)
	as.passA(o, a, out)
	as.passB(o, b, out)
	as.build(o, a, b, out, s)
	o.expanded *= len(o.passB)
}

// offsets lists the places of all combinations of some bits, each given by its
// step in either table.
func (as *assembler) offsets(bits []pair) []pair {
	list := append(as.pairs.reserve(1<<len(bits)), pair{0, 0})
	for _, d := range bits {
		for _, q := range list {
			list = append(list, pair{q.x + d.x, q.y + d.y})
		}
	}
	return list
}

// passB lists where the combinations of the bits are that b alone has.
func (as *assembler) passB(o *op, b, out []int32) {
	var buf [32]pair
	bits := buf[:0]
	for i, x := range b {
		if !slices.Contains(as.special, x) {
			bits = append(bits, pair{1 << i, 1 << slices.Index(out, x)})
		}
	}
	o.passB = as.offsets(bits)
}

// specials lists the bits that both tables have or that the step touches.
func specials(list, a, b []int32, s step) []int32 {
	for _, x := range a {
		if x == s.bit || x == s.to || slices.Contains(b, x) {
			list = append(list, x)
		}
	}
	for _, x := range b {
		if (x == s.bit || x == s.to) && !slices.Contains(a, x) {
			list = append(list, x)
		}
	}
	return list
}

// shortRun is the run below which single entries are listed: a loop over a
// handful of entries costs more than it saves.
const shortRun = 8

// passA finds the run of low bits that a and out have alike, and lists where
// the other combinations of passed-through bits are.
func (as *assembler) passA(o *op, a, out []int32) {
	o.run = 1
	run := true
	var buf [32]pair
	bits := buf[:0]
	for i, x := range a {
		if slices.Contains(as.special, x) {
			run = false
			continue
		}
		at := slices.Index(out, x)
		if run = run && at == i; run {
			o.run *= 2
		}
		bits = append(bits, pair{1 << i, 1 << at})
	}
	if o.run < shortRun {
		o.run = 1
	}
	o.rest = as.offsets(bits[mathbits.TrailingZeros(uint(o.run)):])
}

// digit is one way a special bit can contribute: its value in a, its entry in
// expanded b, its value in out, and which entries of b that one sums.
type digit struct {
	a, b, out uint32
	from      [2]bool
}

var (
	// sameDigits: a bit that is in one table, or in both as a plain value.
	sameDigits = []digit{{0, 0, 0, [2]bool{true, false}}, {1, 1, 1, [2]bool{false, true}}}
	// orDigits: an open bit in both tables.
	orDigits = []digit{
		{0, 0, 0, [2]bool{true, false}},
		{0, 1, 1, [2]bool{false, true}},
		{1, 2, 1, [2]bool{true, true}},
	}
)

// partial is a term under construction; it remembers the eliminated bit's and
// its value bit's results until keep has both.
type partial struct {
	term
	bit, to int8
}

// build fills in the terms and the spreading of b.
func (as *assembler) build(o *op, a, b, out []int32, s step) {
	as.list = append(as.list[:0], partial{bit: -1, to: -1})
	as.spread = append(as.spread[:0], pair{0, 0})
	stride := uint32(1)
	for _, x := range as.special {
		ia, ib, io := slices.Index(a, x), slices.Index(b, x), slices.Index(out, x)
		digits := sameDigits
		if as.l.isOpen[x] && ia >= 0 && ib >= 0 {
			digits = orDigits
		}
		as.wider = as.wider[:0]
		for _, t := range as.list {
			for _, d := range digits {
				as.wider = append(as.wider, t.with(x, d, ia, ib, io, stride, s))
			}
		}
		as.list, as.wider = as.wider, as.list
		if ib >= 0 {
			as.spreadBit(digits, ib, stride)
			stride *= uint32(len(digits))
		}
	}
	o.expanded = int(stride)
	as.finish(o, slices.Index(out, s.to), s)
}

// finish copies the terms that stay and the spreading into the long lists.
func (as *assembler) finish(o *op, toAt int, s step) {
	o.terms = as.terms.reserve(len(as.list))
	for _, t := range as.list {
		if t.keep(as.l, s, toAt) {
			o.terms = append(o.terms, t.term)
		}
	}
	o.terms = as.terms.settle(o.terms)
	o.spread = append(as.pairs.reserve(len(as.spread)), as.spread...)
}

// with extends a partial term by bit x taking digit d; ia, ib, io are the places
// of x in the tables, -1 where it is not.
func (t partial) with(x int32, d digit, ia, ib, io int, stride uint32, s step) partial {
	if ia >= 0 {
		t.a += d.a << ia
	}
	if ib >= 0 {
		t.b += d.b * stride
	}
	switch x {
	case s.bit:
		t.bit = int8(d.out)
	case s.to:
		t.to = int8(d.out)
	default:
		t.out += d.out << io
	}
	return t
}

// keep settles the eliminated bit: a sum takes both values; closing an observed
// variable keeps "explained"; closing a hidden one writes its value bit, which
// must agree with a value bit already there.
func (t *partial) keep(l *layout, s step, toAt int) bool {
	if s.bit < 0 || !l.isOpen[s.bit] {
		return true
	}
	if s.to < 0 {
		return t.bit == 1
	}
	if t.to >= 0 && t.to != t.bit {
		return false
	}
	t.out += uint32(t.bit) << toAt
	return true
}

// spreadBit extends the map from entries of b to expanded entries by one bit.
func (as *assembler) spreadBit(digits []digit, ib int, stride uint32) {
	as.spread2 = as.spread2[:0]
	for _, p := range as.spread {
		for _, d := range digits {
			for v, used := range d.from {
				if used {
					as.spread2 = append(as.spread2, pair{p.x + uint32(v)<<ib, p.y + d.b*stride})
				}
			}
		}
	}
	as.spread, as.spread2 = as.spread2, as.spread
}
