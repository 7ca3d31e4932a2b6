package belief

// op is one step of a plan made ready to run on tables in one slab.
//
// Bits of the two tables are "special" when both have them or the step
// eliminates them; all others are passed through. The terms list every
// combination of special bits that contributes. In the smaller table b an open
// bit that both share is expanded from two to three entries:
//
//	0: b0      a0 -> out0
//	1: b1      a0 -> out1
//	2: b0+b1   a1 -> out1
//
// which is the OR of the two sides with no subtraction.
type op struct {
	a, b, out span
	spread    []pair // special part of b -> expanded b
	passB     []pair // passed-through bits of b: offset in b and in out
	rest      []pair // passed-through bits of a above the run: offset in a and in out
	run       int    // entries in a row passed through unchanged
	terms     []term
	expanded  int // entries of expanded b
	// Which of the tables lead back to a variable's own table: the posteriors need
	// the adjoints of no others.
	wantA, wantB bool
}

// lifting is the power of two put into an operation's result in the last
// forward run, and its natural logarithm.
type lifting struct{ scale, logScale float64 }

// span is a table's place in the slab of values.
type span struct{ from, to int }

// pair is one offset in each of two tables.
type pair struct{ x, y uint32 }

// term adds a[.a]·expanded[.b] to out[.out].
type term struct{ a, b, out uint32 }

// forward computes out from a and b. The scratch holds expanded b.
func (o *op) forward(val, scratch []float64) {
	a, b, out := val[o.a.from:o.a.to], val[o.b.from:o.b.to], val[o.out.from:o.out.to]
	bx := scratch[:o.expanded]
	o.expand(b, bx)
	clear(out)
	for j, pb := range o.passB {
		for _, t := range o.terms {
			c := bx[int(t.b)*len(o.passB)+j]
			switch {
			case c == 0: // a link from an absent parent never fires
			case o.run == 1:
				entries(a[t.a:], out[pb.y+t.out:], c, o.rest)
			default:
				o.rows(a[t.a:], out[pb.y+t.out:], c)
			}
		}
	}
}

// entries adds c·a to out at listed places; the factor stays in a register.
func entries(a, out []float64, c float64, rest []pair) {
	for _, r := range rest {
		out[r.y] += a[r.x] * c
	}
}

// rows is entries for runs of neighbouring entries.
func (o *op) rows(a, out []float64, c float64) {
	for _, r := range o.rest {
		src := a[r.x:][:o.run]
		dst := out[r.y:][:len(src)]
		for k, x := range src {
			dst[k] += x * c
		}
	}
}

// expand lays b out as [special combination][passed-through bits].
func (o *op) expand(b, bx []float64) {
	clear(bx)
	if len(o.passB) == 1 {
		for _, s := range o.spread {
			bx[s.y] += b[s.x]
		}
		return
	}
	width := uint32(len(o.passB))
	for _, s := range o.spread {
		row := bx[s.y*width:][:width]
		for j, pb := range o.passB {
			row[j] += b[s.x+pb.x]
		}
	}
}

// backward makes the adjoints of a and b from that of out; a table goes into one
// operation only. The adjoint of a table entry is the derivative of ln P(e) by that
// entry. The scratch must hold twice the expanded size. Unless all are wanted, it
// leaves out what no posterior needs.
func (o *op) backward(val, adj, scratch []float64, scale float64, all bool) {
	wantA, wantB := all || o.wantA, all && o.b.from > 0 || o.wantB
	if !wantA && !wantB {
		return
	}
	a, b := val[o.a.from:o.a.to], val[o.b.from:o.b.to]
	aAdj, bAdj, outAdj := adj[o.a.from:o.a.to], adj[o.b.from:o.b.to], adj[o.out.from:o.out.to]
	// What the forward pass lifted, its derivative is lifted by as well.
	if scale != 1 {
		for i := range outAdj {
			outAdj[i] *= scale
		}
	}
	// The expansion is not kept from the forward pass: making it again costs less
	// than the memory would.
	bx, bxAdj := scratch[:o.expanded], scratch[o.expanded:2*o.expanded]
	o.expand(b, bx)
	clear(aAdj)
	if wantB {
		clear(bAdj)
		clear(bxAdj)
	}
	for j, pb := range o.passB {
		for _, t := range o.terms {
			i := int(t.b)*len(o.passB) + j
			switch c := bx[i]; {
			case !wantB && c == 0: // as in forward
			case !wantB && o.run == 1:
				entriesBackA(aAdj[t.a:], outAdj[pb.y+t.out:], c, o.rest)
			case !wantB:
				o.rowsBackA(aAdj[t.a:], outAdj[pb.y+t.out:], c)
			case o.run == 1:
				bxAdj[i] += entriesBack(a[t.a:], aAdj[t.a:], outAdj[pb.y+t.out:], c, o.rest)
			default:
				bxAdj[i] += o.rowsBack(a[t.a:], aAdj[t.a:], outAdj[pb.y+t.out:], c)
			}
		}
	}
	if !wantB {
		return
	}
	width := uint32(len(o.passB))
	for _, s := range o.spread {
		row := bxAdj[s.y*width:][:width]
		for j, pb := range o.passB {
			bAdj[s.x+pb.x] += row[j]
		}
	}
}

// entriesBack undoes entries: it adds to the adjoint of a and returns the
// adjoint of c.
func entriesBack(a, aAdj, outAdj []float64, c float64, rest []pair) float64 {
	aAdj = aAdj[:len(a)]
	sum := 0.0
	for _, r := range rest {
		g := outAdj[r.y]
		sum += g * a[r.x]
		aAdj[r.x] += g * c
	}
	return sum
}

// entriesBackA is entriesBack for the adjoint of a alone.
func entriesBackA(aAdj, outAdj []float64, c float64, rest []pair) {
	for _, r := range rest {
		aAdj[r.x] += outAdj[r.y] * c
	}
}

// rowsBackA is rowsBack for the adjoint of a alone.
func (o *op) rowsBackA(aAdj, outAdj []float64, c float64) {
	for _, r := range o.rest {
		g := outAdj[r.y:][:o.run]
		dst := aAdj[r.x:][:len(g)]
		for k, x := range g {
			dst[k] += x * c
		}
	}
}

// rowsBack undoes rows in the same way.
func (o *op) rowsBack(a, aAdj, outAdj []float64, c float64) float64 {
	sum := 0.0
	for _, r := range o.rest {
		g := outAdj[r.y:][:o.run]
		src := a[r.x:][:len(g)]
		dst := aAdj[r.x:][:len(g)]
		for k, x := range g {
			dst[k] += x * c
			sum += x * src[k]
		}
	}
	return sum
}

// rescale lifts a table whose largest entry has become tiny, by a power of two
// so that no digit changes.
func rescale(out []float64) lifting {
	top := 0.0
	for _, x := range out {
		if x >= tiny { // nearly always the first
			return lifting{1, 0}
		}
		top = max(top, x)
	}
	if top == 0 {
		return lifting{1, 0}
	}
	by := lift(top)
	for i := range out {
		out[i] *= by.scale
	}
	return by
}
