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
	full  []int32 // per variable: its full table, or -1
	links [][]int32
	value []int32 // per variable: its value bit, or -1

	base [][2]float64 // what unary tables hold, without the caller's weights
	load [][]float64  // what the other initial tables hold
	own  arena[float64]
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
	p := &program{g: g, ev: ev, on: active(g, &ev, extra),
		unary: filled(n), leak: filled(n), value: filled(n), full: filled(n),
		links: make([][]int32, n), base: make([][2]float64, n)}
	for v := range g.Variables {
		if p.on[v] {
			p.variable(v)
		}
	}
	p.number(g)
	return p
}

// number loads the numbers of a graph of the program's shape into its tables.
func (p *program) number(g Graph) {
	p.g, p.logC = g, p.ev.logScale
	for v := range g.Variables {
		p.base[v] = [2]float64{1, 1}
		x := &g.Variables[v]
		switch {
		case !p.on[v]:
		case x.root():
			p.root(v, x.prior())
		case x.Table != nil:
			p.tabulate(v)
		case p.ev.state[v] != absent:
			p.noisyOr(v)
		}
	}
	p.fold()
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
	p.ops, p.spans, p.room = assemble(&p.lay, &p.plan, p.unary)
}

// variable adds the bits and tables of one variable, without numbers.
func (p *program) variable(v int) {
	x := &p.g.Variables[v]
	if p.ev.state[v] == hidden {
		p.value[v] = p.bit(false)
		p.unary[v] = p.table(0, p.value[v])
	}
	switch {
	case x.root():
	case x.Table != nil:
		p.fullTable(v)
	case p.ev.state[v] != absent:
		p.openBit(v)
	}
}

// bit adds a bit and returns its number.
func (p *program) bit(open bool) int32 {
	p.lay.isOpen = append(p.lay.isOpen, open)
	p.lay.value = append(p.lay.value, -1)
	p.lay.open = append(p.lay.open, -1)
	return int32(len(p.lay.isOpen) - 1)
}

// table adds an initial table of some entries over bits, lowest first.
func (p *program) table(entries int, bits ...int32) int32 {
	p.lay.scopes = append(p.lay.scopes, bits)
	p.load = append(p.load, p.own.take(entries))
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

// openBit adds the open bit of a noisy-OR variable, its leak and one link per
// hidden parent.
func (p *program) openBit(v int) {
	x := &p.g.Variables[v]
	open := p.bit(true)
	p.lay.value[open] = p.value[v]
	if p.value[v] >= 0 {
		p.lay.open[p.value[v]] = open
	}
	p.links[v] = filled(len(x.Parents))
	for k, u := range x.Parents {
		if p.ev.state[u] == hidden {
			p.links[v][k] = p.table(4, p.value[u], open)
		}
	}
	p.leak[v] = p.table(2, open)
}

// noisyOr loads the leak and the links. Parents seen to be present act like
// more leak; those seen to be absent do nothing.
func (p *program) noisyOr(v int) {
	x := &p.g.Variables[v]
	leak := x.Leak
	for k, u := range x.Parents {
		switch w := x.Strengths[k]; p.ev.state[u] {
		case present:
			leak += (1 - leak) * w
		case hidden:
			load := p.load[p.links[v][k]]
			load[0], load[1], load[2], load[3] = 1, 1-w, 0, w
		}
	}
	load := p.load[p.leak[v]]
	load[0], load[1] = 1-leak, leak
}

// fullTable adds a variable's table over what is hidden of it and its parents.
// With all of them observed it is a constant and needs no table.
func (p *program) fullTable(v int) {
	var bits []int32
	for _, u := range p.members(v) {
		if p.ev.state[u] == hidden {
			bits = append(bits, p.value[u])
		}
	}
	if len(bits) > 0 {
		p.full[v] = p.table(1<<len(bits), bits...)
	}
}

// members are a variable and its parents.
func (p *program) members(v int) []int {
	return append([]int{v}, p.g.Variables[v].Parents...)
}

// tabulate loads a variable's table with what is observed struck out.
func (p *program) tabulate(v int) {
	x, members := &p.g.Variables[v], p.members(v)
	var constant [1]float64
	load := constant[:]
	if p.full[v] >= 0 {
		load = p.load[p.full[v]]
	}
	for i := range load {
		row, self := p.tableRow(members, i)
		load[i] = x.Table[row]
		if !self {
			load[i] = 1 - x.Table[row]
		}
	}
	if p.full[v] < 0 {
		p.logC += math.Log(load[0])
	}
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
