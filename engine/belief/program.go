package belief

import "math"

// program is a graph with its evidence made ready to run: what is observed is
// folded in, what does not matter is left out, and the order is fixed.
type program struct {
	g    Graph
	ev   evidence
	on   []bool  // variables that P(e) depends on
	logC float64 // ln of the evidence folded into constants

	lay   layout
	plan  plan
	ops   []op
	spans []span
	room  int // scratch entries

	unary []int32 // per variable: table of its own weights, or -1
	leak  []int32 // per variable: table of its leak, or -1
	links [][]int32
	value []int32 // per variable: its value bit, or -1

	base [][2]float64 // what unary tables hold, without the caller's weights
	load [][]float64  // what the other initial tables hold
}

// compile builds the program for a graph and its evidence. Variables in extra
// get a table of their own even when no finding reaches them.
func compile(g Graph, ev evidence, extra []int) *program {
	p := translate(g, ev, extra)
	p.plan = searchOrder(&p.lay)
	return p
}

// translate is compile without the search for an order.
func translate(g Graph, ev evidence, extra []int) *program {
	n := len(g.Variables)
	p := &program{g: g, ev: ev, on: active(g, &ev, extra), logC: ev.logScale,
		unary: filled(n), leak: filled(n), value: filled(n),
		links: make([][]int32, n), base: make([][2]float64, n)}
	for v := range g.Variables {
		p.base[v] = [2]float64{1, 1}
		if p.on[v] {
			p.variable(v)
		}
	}
	p.fold()
	return p
}

// filled is a list of n entries "none".
func filled(n int) []int32 {
	list := make([]int32, n)
	for i := range list {
		list[i] = -1
	}
	return list
}

// within reports whether the program's cost is inside the budget.
func (p *program) within(b Budget) bool {
	return p.plan.cost <= b.MaxCost && p.plan.cells <= b.MaxCells
}

// ready allocates what running needs. It must not be called above the budget.
func (p *program) ready() {
	p.ops, p.spans, p.room = assemble(&p.lay, &p.plan)
}

// variable adds the bits and tables of one variable.
func (p *program) variable(v int) {
	x := &p.g.Variables[v]
	if p.ev.state[v] == hidden {
		p.value[v] = p.bit(false)
		p.unary[v] = p.table(nil, p.value[v])
	}
	switch {
	case x.root():
		p.root(v, x.prior())
	case x.Table != nil:
		p.fullTable(v)
	case p.ev.state[v] != absent:
		p.noisyOr(v)
	}
}

// bit adds a bit and returns its number.
func (p *program) bit(open bool) int32 {
	p.lay.isOpen = append(p.lay.isOpen, open)
	p.lay.value = append(p.lay.value, -1)
	p.lay.open = append(p.lay.open, -1)
	return int32(len(p.lay.isOpen) - 1)
}

// table adds an initial table over bits, lowest first.
func (p *program) table(load []float64, bits ...int32) int32 {
	p.lay.scopes = append(p.lay.scopes, bits)
	p.load = append(p.load, load)
	return int32(len(p.load) - 1)
}

// root gives a variable without parents its prior; seen, it is a constant.
func (p *program) root(v int, prior float64) {
	switch p.ev.state[v] {
	case hidden:
		p.base[v] = [2]float64{1 - prior, prior}
	case present:
		p.logC += math.Log(prior)
	case absent:
		p.logC += math.Log1p(-prior)
	}
}

// noisyOr adds the leak and one link per hidden parent. Parents seen to be
// present act like more leak; those seen to be absent do nothing.
func (p *program) noisyOr(v int) {
	x := &p.g.Variables[v]
	open := p.bit(true)
	p.lay.value[open] = p.value[v]
	if p.value[v] >= 0 {
		p.lay.open[p.value[v]] = open
	}
	leak := x.Leak
	p.links[v] = filled(len(x.Parents))
	for k, u := range x.Parents {
		switch w := x.Strengths[k]; p.ev.state[u] {
		case present:
			leak += (1 - leak) * w
		case hidden:
			p.links[v][k] = p.table([]float64{1, 1 - w, 0, w}, p.value[u], open)
		}
	}
	p.leak[v] = p.table([]float64{1 - leak, leak}, open)
}

// fullTable adds a variable's table with what is observed struck out.
func (p *program) fullTable(v int) {
	x := &p.g.Variables[v]
	members := append([]int{v}, x.Parents...)
	var bits []int32
	for _, u := range members {
		if p.ev.state[u] == hidden {
			bits = append(bits, p.value[u])
		}
	}
	load := make([]float64, 1<<len(bits))
	for i := range load {
		row, self := p.tableRow(members, i)
		load[i] = x.Table[row]
		if !self {
			load[i] = 1 - x.Table[row]
		}
	}
	if len(bits) == 0 {
		p.logC += math.Log(load[0])
		return
	}
	p.table(load, bits...)
}

// tableRow reads entry i of a table over the hidden members (the variable, then
// its parents) as a row of the variable's own table and its own value; observed
// members have the value seen.
func (p *program) tableRow(members []int, i int) (row int, self bool) {
	for m, u := range members {
		on := p.ev.state[u] == present
		if p.ev.state[u] == hidden {
			on = i&1 == 1
			i >>= 1
		}
		switch {
		case m == 0:
			self = on
		case on:
			row |= 1 << (m - 1)
		}
	}
	return row, self
}

// fold multiplies likelihoods into the variables' own tables, and noisy-OR
// variables seen to be absent into their parents: P(absent | parents) is a
// product over the parents, so it couples nothing.
func (p *program) fold() {
	for v := range p.g.Variables {
		if !p.on[v] || p.ev.state[v] != hidden {
			continue
		}
		for i, l := range p.ev.like[v] {
			p.base[v][i] *= l
		}
	}
	for v := range p.g.Variables {
		x := &p.g.Variables[v]
		if p.on[v] && p.ev.state[v] == absent && x.noisy() {
			p.logC += math.Log1p(-x.Leak)
			p.foldAbsent(x)
		}
	}
}

// foldAbsent multiplies "no link of x fired" into its parents.
func (p *program) foldAbsent(x *Variable) {
	for k, u := range x.Parents {
		switch p.ev.state[u] {
		case hidden:
			p.base[u][1] *= 1 - x.Strengths[k]
		case present:
			p.logC += math.Log1p(-x.Strengths[k])
		}
	}
}
