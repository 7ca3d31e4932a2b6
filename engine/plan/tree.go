package plan

// Tree is a plan written out: a step, then what to do after each result.
type Tree struct {
	Step     Step     `json:"step"`
	Minutes  float64  `json:"minutes"` // expected from here to the end
	Branches []Branch `json:"branches,omitempty"`
}

// Branch is one result of a step. Minutes come on top of the step's own. Next
// is nil where the work is over or the tree was cut; Rest is what is expected
// beyond the cut, and 0 elsewhere.
type Branch struct {
	Result      int     `json:"result"`
	Probability float64 `json:"probability"` // given that the step is taken
	Minutes     float64 `json:"minutes"`
	Rest        float64 `json:"rest,omitempty"`
	Next        *Tree   `json:"next,omitempty"`
}

// NewTree writes out the plan of [Next] for at least one and at most depth
// steps along each way. Minutes are rolled back from the leaves, where the
// estimate of the look-ahead stands. It returns the errors of
// [Problem.Validate].
func NewTree(p Problem, depth int) (Tree, error) {
	if err := p.Validate(); err != nil {
		return Tree{}, err
	}
	t := grow(p, depth)
	t.RollBack()
	return t, nil
}

func grow(p Problem, depth int) Tree {
	t := Tree{Step: Next(p)}
	for _, o := range p.Outcomes(t.Step) {
		br := Branch{Result: o.Result, Probability: o.Probability, Minutes: o.Minutes}
		switch {
		case o.Next == nil:
		case depth <= 1:
			br.Rest = estimate(*o.Next)
		default:
			next := grow(*o.Next, depth-1)
			br.Next = &next
		}
		t.Branches = append(t.Branches, br)
	}
	return t
}

// estimate returns the expected minutes of the look-ahead from here on.
func estimate(p Problem) float64 {
	b := newLookAhead(p)
	n := b.root()
	return b.best(n, 0, b.active).value / n.mass
}

// RollBack sets the expected minutes of every node from its branches, leaves
// first, and returns those of the root: the step's minutes plus, weighted by
// probability, what each result takes.
func (t *Tree) RollBack() float64 {
	t.Minutes = t.Step.Minutes
	for _, br := range t.Branches {
		rest := br.Minutes + br.Rest
		if br.Next != nil {
			rest += br.Next.RollBack()
		}
		t.Minutes += br.Probability * rest
	}
	return t.Minutes
}
