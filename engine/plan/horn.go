package plan

// order is the scratch space in which the best question-free order of one node
// is made. Lists per action describe the block that starts with it.
type order struct {
	inside [][]block // per stage, the last one for Outside: blocks available there
	spare  []block   // room to merge in
	all    []block   // every action worth while, sorted
	usual  []int     // actions in the order of the first sort
	entry  []int     // per stage: itself if shut, else Outside
	mass   []float64 // per action: joint probability of cure when it was ordered
	p, c   []float64 // per action: cure and minutes of its block
	next   []int     // per action: the one after it in its block
	last   []int     // per action: the last one of its block
	seq    []int     // actions in order
	pruned []int     // room for those of them that are kept
	head   []int     // first actions of the outermost blocks
	opened []bool    // per stage, while costs are added up
}

// block is a run of actions that stay together, named by the first. Its ratio
// is chance of a cure by minutes of all of them, openings included; infinite if
// they cost nothing, for only actions that can cure are ordered.
type block struct {
	ratio float64
	first int
}

func (o *order) init(p Problem) {
	o.inside = make([][]block, len(p.Stages)+1)
	o.entry = make([]int, len(p.Stages))
	o.opened = make([]bool, len(p.Stages))
	n := len(p.Actions)
	o.mass, o.p, o.c = make([]float64, n), make([]float64, n), make([]float64, n)
	o.usual, o.next, o.last = make([]int, n), make([]int, n), make([]int, n)
	for i := range o.usual {
		o.usual[i] = i
	}
}

// before tells whether x comes before y: higher ratio, ties by action.
func (x block) before(y block) bool {
	return x.ratio > y.ratio || x.ratio == y.ratio && x.first < y.first
}

// sortBlocks sorts by insertion, since blocks arrive nearly in order: one
// answer moves few of them.
func sortBlocks(xs []block) {
	for k := 1; k < len(xs); k++ {
		x := xs[k]
		j := k
		for ; j > 0 && x.before(xs[j-1]); j-- {
			xs[j] = xs[j-1]
		}
		xs[j] = x
	}
}

// horn fills o.seq with the order of actions that minimises the expected
// minutes of n when nothing is asked: highest cure per minute first, where
// opening a stage is a job that cures nothing and is merged with the
// best-ratio prefix of what it makes reachable as long as the ratio rises. It
// is one-machine scheduling with an out-tree of precedences (W. A. Horn 1972,
// from memory), exact if no two actions share a fault. Actions that cannot
// cure or whose repair takes as long as a service are left out.
func (b *board) horn(n *node) {
	o := &b.order
	outside := len(b.p.Stages)
	for s := range o.inside {
		o.inside[s] = o.inside[s][:0]
	}
	for s := range o.entry {
		o.entry[s] = b.entrance(n, s)
	}
	b.worthwhile(n)
	for _, x := range o.all {
		s := o.place(b.p.Actions[x.first].Stage)
		o.inside[s] = append(o.inside[s], x)
	}
	for s := outside - 1; s >= 0; s-- {
		if o.entry[s] == s && len(o.inside[s]) > 0 {
			o.close(s, b.p.Stages[s], o.place(b.p.Stages[s].Parent))
		}
	}
	o.flatten(o.inside[outside])
}

// worthwhile fills o.all with the single actions of n, best ratio first.
func (b *board) worthwhile(n *node) {
	o := &b.order
	o.all = o.all[:0]
	for _, i := range o.usual {
		if n.done[i] || b.cured[i] >= b.p.ServiceMinutes {
			continue
		}
		m := b.success(n, i)
		o.mass[i] = m
		if m > tiny*n.mass {
			o.p[i], o.c[i], o.next[i], o.last[i] = m, b.always[i], -1, i
			o.all = append(o.all, block{m / b.always[i], i})
		}
	}
	sortBlocks(o.all)
}

// entrance returns where things at stage s are found: at s if it is shut,
// Outside if it is open (its ancestors are open then).
func (b *board) entrance(n *node, s int) int {
	if n.open[s] {
		return Outside
	}
	return s
}

// place turns a stage into an index of o.inside.
func (o *order) place(s int) int {
	if s == Outside || o.entry[s] == Outside {
		return len(o.inside) - 1
	}
	return s
}

// close merges the opening of stage s with the head of what lies inside and
// hands all blocks to the place around it.
func (o *order) close(s int, stage Stage, around int) {
	blocks := o.inside[s]
	i := blocks[0].first
	o.c[i] += stage.Minutes
	k := 1
	for ; k < len(blocks) && blocks[k].ratio > o.p[i]/o.c[i]; k++ {
		j := blocks[k].first
		o.p[i] += o.p[j]
		o.c[i] += o.c[j]
		o.next[o.last[i]] = j
		o.last[i] = o.last[j]
	}
	blocks[k-1] = block{o.p[i] / o.c[i], i}
	o.merge(around, blocks[k-1:])
}

// merge puts sorted blocks among the sorted ones of a place.
func (o *order) merge(place int, more []block) {
	have, out := o.inside[place], o.spare[:0]
	h, m := 0, 0
	for h < len(have) && m < len(more) {
		if more[m].before(have[h]) {
			out = append(out, more[m])
			m++
		} else {
			out = append(out, have[h])
			h++
		}
	}
	out = append(append(out, have[h:]...), more[m:]...)
	o.spare, o.inside[place] = have, out
}

// flatten writes the actions of sorted blocks to o.seq.
func (o *order) flatten(blocks []block) {
	o.seq, o.head = o.seq[:0], o.head[:0]
	for _, x := range blocks {
		o.head = append(o.head, x.first)
		for i := x.first; i >= 0; i = o.next[i] {
			o.seq = append(o.seq, i)
		}
	}
}
