package belief

import (
	"math"
	"slices"
)

// tiny is where tables are lifted: far above underflow, and rarely reached.
const tiny = 0x1p-200

// lift returns the power of two that brings top near 1, and its logarithm.
func lift(top float64) (scale, logScale float64) {
	_, exp := math.Frexp(top)
	// A subnormal top would need a scale beyond the largest float.
	exp = max(exp, -1000)
	return math.Ldexp(1, -exp), float64(-exp) * math.Ln2
}

// assemble turns a plan into operations on one slab of values. The first
// len(l.scopes) spans are the initial tables, in their order; one entry more
// than the plan's cells holds the constant 1.
func assemble(l *layout, p plan) (ops []op, spans []span, scratch int) {
	spans = make([]span, len(p.scopes))
	at := 1
	for i, scope := range p.scopes {
		spans[i] = span{at, at + 1<<len(scope)}
		at = spans[i].to
	}
	ops = make([]op, len(p.steps))
	for i, s := range p.steps {
		ops[i] = l.op(&p, s, spans)
		scratch = max(scratch, 2*ops[i].expanded)
	}
	return ops, spans, scratch
}

// op builds the operation of one step.
func (l *layout) op(p *plan, s step, spans []span) op {
	o := op{a: spans[s.a], b: span{0, 1}, out: spans[s.out], scale: 1}
	var b []int32
	if s.b >= 0 {
		o.b, b = spans[s.b], p.scopes[s.b]
	}
	a, out := p.scopes[s.a], p.scopes[s.out]
	special := specials(a, b, s)
	o.passA(a, out, special)
	o.passB = []pair{{0, 0}}
	for i, x := range b {
		if !slices.Contains(special, x) {
			o.passB = widen(o.passB, pair{1 << i, 1 << slices.Index(out, x)})
		}
	}
	l.terms(&o, a, b, out, special, s)
	o.expanded *= len(o.passB)
	return o
}

// widen doubles a list of offsets by one more bit.
func widen(list []pair, d pair) []pair {
	for _, q := range list[:len(list):len(list)] {
		list = append(list, pair{q.x + d.x, q.y + d.y})
	}
	return list
}

// specials lists the bits that both tables have or that the step touches.
func specials(a, b []int32, s step) []int32 {
	var list []int32
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

// passA finds the run of low bits that a and out have alike, and the masks of
// the other bits passed through. Both tables keep bits in the same order, so
// counting through one mask counts through the other.
func (o *op) passA(a, out, special []int32) {
	o.run = 1
	low := true
	for i, x := range a {
		if slices.Contains(special, x) {
			low = false
			continue
		}
		at := slices.Index(out, x)
		if low = low && at == i; low {
			o.run *= 2
			continue
		}
		o.maskA |= 1 << i
		o.maskOut |= 1 << at
	}
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
// its value bit's results until both are known.
type partial struct {
	term
	bit, to int8
}

// terms fills in the terms and the spreading of b.
func (l *layout) terms(o *op, a, b, out, special []int32, s step) {
	list := []partial{{bit: -1, to: -1}}
	o.spread = []pair{{0, 0}}
	stride := uint32(1)
	for _, x := range special {
		ia, ib, io := slices.Index(a, x), slices.Index(b, x), slices.Index(out, x)
		digits := sameDigits
		if l.isOpen[x] && ia >= 0 && ib >= 0 {
			digits = orDigits
		}
		var wider []partial
		for _, t := range list {
			for _, d := range digits {
				wider = append(wider, t.with(x, d, ia, ib, io, stride, s))
			}
		}
		list = wider
		if ib >= 0 {
			o.spread = spreadBit(o.spread, digits, ib, stride)
			stride *= uint32(len(digits))
		}
	}
	o.expanded = int(stride)
	toAt := slices.Index(out, s.to)
	for _, t := range list {
		if t.keep(l, s, toAt) {
			o.terms = append(o.terms, t.term)
		}
	}
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
func spreadBit(spread []pair, digits []digit, ib int, stride uint32) []pair {
	var wider []pair
	for _, p := range spread {
		for _, d := range digits {
			for v, used := range d.from {
				if used {
					wider = append(wider, pair{p.x + uint32(v)<<ib, p.y + d.b*stride})
				}
			}
		}
	}
	return wider
}
