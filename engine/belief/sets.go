package belief

import (
	"cmp"
	"container/heap"
	"slices"
)

// Sets are the most probable exact sets of some variables.
type Sets struct {
	// Sets are in falling order of probability.
	Sets []Set `json:"sets"`
	// Complete says that no set left out is more probable than the last one here.
	// Otherwise the search stopped at its limit, and Bound is what a set left out
	// may reach at most.
	Complete bool    `json:"complete"`
	Bound    float64 `json:"bound"`
	// Examined counts the partial sets that were solved.
	Examined int `json:"examined"`
}

// Set is one exact configuration.
type Set struct {
	// Members are the variables present, rising; all others asked about are absent.
	Members []int `json:"members"`
	// Probability is P(exactly these of the variables asked about are present | e).
	Probability float64 `json:"probability"`
}

// DefaultSetLimit is a search limit that ordinary cases do not come near.
const DefaultSetLimit = 2000

// TopSets returns the most probable sets among the given variables. See
// [Conditioned.TopSets].
func TopSets(g Graph, findings []Finding, among []int, most, limit int, b Budget) (Sets, error) {
	c, err := Condition(g, findings, b)
	if err != nil {
		return Sets{}, err
	}
	return c.TopSets(among, most, limit)
}

// TopSets returns up to most sets among the given variables, most probable
// first, with exact probabilities. It is a best-first search: a partial set
// (some variables decided, the rest open) is as probable as all its completions
// together, so it bounds each of them, and whatever leads the queue as a whole
// set is the next best. At most limit partial sets are solved; the result says
// whether that was enough.
func (c *Conditioned) TopSets(among []int, most, limit int) (Sets, error) {
	if err := checkVariables(len(c.g.Variables), among); err != nil {
		return Sets{}, err
	}
	m, err := c.machineFor(among)
	if err != nil {
		return Sets{}, err
	}
	s := search{m: m}
	s.arrange(among)
	s.push(branch{key: 1, kind: partialSet, last: -1})
	for len(s.found.Sets) < most && len(s.queue) > 0 {
		if s.queue[0].kind != wholeSet && s.found.Examined >= limit {
			return s.stopped(most), nil
		}
		s.take(heap.Pop(&s.queue).(branch))
	}
	s.found.Complete = true
	if len(s.queue) > 0 {
		s.found.Bound = s.queue[0].key
	}
	return s.found, nil
}

// machineFor returns a started machine in which all the variables have tables.
func (c *Conditioned) machineFor(vars []int) (*machine, error) {
	if !slices.ContainsFunc(vars, func(v int) bool { return !c.m.on[v] }) {
		return c.m, nil
	}
	p := compile(c.g, c.m.ev, vars)
	if !p.within(c.budget) {
		return nil, refuse(p, c.budget)
	}
	m := newMachine(p)
	m.start()
	return m, nil
}

// NoneOf returns P(none of the variables present | e).
func NoneOf(g Graph, findings []Finding, vars []int, b Budget) (float64, error) {
	c, err := Condition(g, findings, b)
	if err != nil {
		return 0, err
	}
	return c.NoneOf(vars)
}

// NoneOf returns P(none of the variables present | e): P(e) with all of them
// held absent, over P(e).
func (c *Conditioned) NoneOf(vars []int) (float64, error) {
	if err := checkVariables(len(c.g.Variables), vars); err != nil {
		return 0, err
	}
	m, err := c.machineFor(vars)
	if err != nil {
		return 0, err
	}
	var weights []weight
	for _, v := range vars {
		switch m.ev.state[v] {
		case present:
			return 0, nil
		case hidden:
			weights = append(weights, weight{v, [2]float64{1, 0}})
		}
	}
	return min(1, m.ratio(weights...)), nil
}

// search is the best-first search over partial sets.
type search struct {
	m     *machine
	order []int // undecided variables, the likeliest first
	sure  []int // variables observed present: in every set
	queue branches
	seen  int
	found Sets
}

// branch is a partial set: order[:last+1] is decided, order[i] present for i in
// members; the rest is open, or absent in a whole set.
type branch struct {
	key     float64 // an upper bound, or the exact probability, given e
	kind    branchKind
	members []int
	last    int
	number  int // order of arrival, to break ties
}

type branchKind uint8

const (
	guessedSet branchKind = iota // key is a bound from the branch above
	partialSet                   // key is exact for the partial set
	wholeSet                     // key is exact, nothing is open
)

// arrange sorts the variables so that the likely ones are decided first: behind
// them "all absent" is nearly the whole of a partial set.
func (s *search) arrange(among []int) {
	list := slices.Clone(among)
	slices.Sort(list)
	for _, v := range slices.Compact(list) {
		switch s.m.ev.state[v] {
		case present:
			s.sure = append(s.sure, v)
		case hidden:
			s.order = append(s.order, v)
		}
	}
	// Only the order of the search rests on these, not its result.
	s.m.run()
	s.m.differentiate(false)
	posterior := make(map[int]float64, len(s.order))
	for _, v := range s.order {
		posterior[v] = s.m.posterior(v)
	}
	slices.SortStableFunc(s.order, func(a, b int) int {
		return cmp.Compare(posterior[b], posterior[a])
	})
}

// push queues a branch unless nothing is left of it.
func (s *search) push(b branch) {
	if b.key > 0 {
		b.number = s.seen
		s.seen++
		heap.Push(&s.queue, b)
	}
}

// take settles the branch with the highest bound.
func (s *search) take(b branch) {
	switch b.kind {
	case wholeSet:
		s.found.Sets = append(s.found.Sets, s.set(b))
	case guessedSet:
		// The bound left the variables between two members open; held absent they
		// give the exact figure, which may fall behind others in the queue.
		s.found.Examined++
		b.key = min(b.key, s.probability(b, b.last+1))
		b.kind = partialSet
		if b.key > 0 && (len(s.queue) == 0 || b.key >= s.queue[0].key) {
			s.branch(b)
		} else {
			s.push(b)
		}
	case partialSet:
		// It had fallen behind; the machine has run others since.
		s.found.Examined++
		s.probability(b, b.last+1)
		s.branch(b)
	}
}

// branch splits a partial set by its next member; the machine's last run is
// that set's. P(partial set and order[j] present) bounds the branch of j.
func (s *search) branch(b branch) {
	s.m.differentiate(false)
	for j := b.last + 1; j < len(s.order); j++ {
		members := append(slices.Clone(b.members), j)
		s.push(branch{key: b.key * s.m.posterior(s.order[j]), members: members, last: j})
	}
	b.key = s.probability(b, len(s.order))
	b.kind = wholeSet
	s.push(b)
}

// probability is P(order[:decided] is exactly the members | e).
func (s *search) probability(b branch, decided int) float64 {
	weights := make([]weight, decided)
	for i := range weights {
		weights[i] = weight{s.order[i], [2]float64{1, 0}}
	}
	for _, i := range b.members {
		weights[i].by = [2]float64{0, 1}
	}
	return s.m.ratio(weights...)
}

// set turns a whole set's branch into a result.
func (s *search) set(b branch) Set {
	members := slices.Clone(s.sure)
	for _, i := range b.members {
		members = append(members, s.order[i])
	}
	slices.Sort(members)
	return Set{Members: members, Probability: b.key}
}

// stopped returns what was found within the limit: the whole sets so far, which
// need not be the best, and the bound on all others.
func (s *search) stopped(most int) Sets {
	s.found.Bound = s.queue[0].key
	for len(s.queue) > 0 && len(s.found.Sets) < most {
		if b := heap.Pop(&s.queue).(branch); b.kind == wholeSet {
			s.found.Sets = append(s.found.Sets, s.set(b))
		}
	}
	return s.found
}

// branches is a heap, highest key first; equal keys in order of arrival.
type branches []branch

func (q branches) Len() int { return len(q) }
func (q branches) Less(i, j int) bool {
	if q[i].key != q[j].key {
		return q[i].key > q[j].key
	}
	return q[i].number < q[j].number
}
func (q branches) Swap(i, j int) { q[i], q[j] = q[j], q[i] }

// Push implements heap.Interface.
func (q *branches) Push(x any) { *q = append(*q, x.(branch)) }

// Pop implements heap.Interface.
func (q *branches) Pop() any {
	old := *q
	b := old[len(old)-1]
	*q = old[:len(old)-1]
	return b
}
