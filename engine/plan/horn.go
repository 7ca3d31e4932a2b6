package plan

import (
	"cmp"
	"slices"
)

// order is the scratch space in which the best question-free order of one node
// is made.
type order struct {
	inside [][]block // per stage, the last one for Outside: blocks available there
	entry  []int     // per stage: itself if shut, else the nearest place it counts as
	next   []int     // per action: the one after it in its block
	seq    []int     // actions in order
	mass   []float64 // per action: joint probability of cure when it was ordered
	opened []bool    // per stage, while costs are added up
	head   []int     // first actions of the outermost blocks
}

// block is a run of actions that stay together: chance of a cure and minutes
// of all of them, openings included, and the first and last action.
type block struct {
	p, c        float64
	first, last int
}

func (o *order) init(p Problem) {
	o.inside = make([][]block, len(p.Stages)+1)
	o.entry = make([]int, len(p.Stages))
	o.next = make([]int, len(p.Actions))
	o.mass = make([]float64, len(p.Actions))
	o.opened = make([]bool, len(p.Stages))
}

// byRatio compares blocks by p/c, highest first, ties by action. Blocks have
// p > 0; one that costs nothing comes first.
func byRatio(x, y block) int {
	if d := cmp.Compare(y.p*x.c, x.p*y.c); d != 0 {
		return d
	}
	return cmp.Compare(x.first, y.first)
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
	for i := range b.p.Actions {
		if n.done[i] {
			continue
		}
		o.mass[i] = b.success(n, i)
		if o.mass[i] <= tiny*n.mass || b.cured[i] >= b.p.ServiceMinutes {
			continue
		}
		s := o.place(b.p.Actions[i].Stage)
		o.inside[s] = append(o.inside[s], block{o.mass[i], b.always[i], i, i})
		o.next[i] = -1
	}
	for s := outside - 1; s >= 0; s-- {
		if o.entry[s] == s && len(o.inside[s]) > 0 {
			o.close(s, b.p.Stages[s], o.place(b.p.Stages[s].Parent))
		}
	}
	slices.SortFunc(o.inside[outside], byRatio)
	o.flatten(o.inside[outside])
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
	slices.SortFunc(blocks, byRatio)
	head := blocks[0]
	head.c += stage.Minutes
	k := 1
	for ; k < len(blocks) && blocks[k].p*head.c > head.p*blocks[k].c; k++ {
		head.p += blocks[k].p
		head.c += blocks[k].c
		o.next[head.last] = blocks[k].first
		head.last = blocks[k].last
	}
	o.inside[around] = append(append(o.inside[around], head), blocks[k:]...)
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
