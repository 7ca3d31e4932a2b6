package belief

import "fmt"

// Given returns P(present | e and further findings) of the given variables,
// without a new compilation. A further finding must be on a variable that the
// program holds unobserved, such as those named to ConditionKeeping, or say that
// a noisy-OR variable outside the program is absent while the program holds all
// its parents unobserved: that is a product over the parents and couples
// nothing, so such a variable is better not kept. The variables asked for must
// be held too, unless they are roots. It answers "what if this evidence alone"
// many times over for the price of one order. The error is an *ImpossibleError,
// with indexes into the further findings, or an *InvalidError.
func (c *Conditioned) Given(further []Finding, of []int) ([]float64, error) {
	if err := checkFindings(len(c.g.Variables), further); err != nil {
		return nil, err
	}
	if err := checkVariables(len(c.g.Variables), of); err != nil {
		return nil, err
	}
	var gathered gathering
	for _, f := range further {
		if !c.weigh(&gathered, f) {
			return nil, &InvalidError{[]string{fmt.Sprintf("%s is not held unobserved in this program", c.g.Variables[f.Variable].Name)}}
		}
	}
	if !c.reached(of) {
		return nil, &InvalidError{[]string{"a variable asked for is not held in this program"}}
	}
	if c.m.ratio(gathered.weights...) == 0 {
		all := make([]int, len(further))
		for i := range all {
			all[i] = i
		}
		return nil, &ImpossibleError{all, names(c.g, further, all)}
	}
	c.m.differentiate(false)
	out := make([]float64, len(of))
	for i, v := range of {
		out[i] = c.after(v)
	}
	return out, nil
}

// weigh turns a further finding into weights. It reports false when the program
// cannot take it.
func (c *Conditioned) weigh(g *gathering, f Finding) bool {
	if c.open(f.Variable) {
		top := max(f.Present, f.Absent)
		g.multiply(f.Variable, f.Absent/top, f.Present/top)
		return true
	}
	x := &c.g.Variables[f.Variable]
	if f.Present != 0 || c.m.on[f.Variable] || !x.noisy() {
		return false
	}
	for _, u := range x.Parents {
		if !c.open(u) {
			return false
		}
	}
	// The leak's part, 1-leak, is the same whatever the rest is.
	for k, u := range x.Parents {
		g.multiply(u, 1, 1-x.Strengths[k])
	}
	return x.Leak < 1
}

// open reports whether the program holds a variable unobserved.
func (c *Conditioned) open(v int) bool { return c.m.on[v] && c.m.ev.state[v] == hidden }

// gathering collects weights, one entry per variable.
type gathering struct {
	weights []weight
	place   map[int]int
}

func (g *gathering) multiply(v int, absent, present float64) {
	at, again := g.place[v]
	if !again {
		if g.place == nil {
			g.place = map[int]int{}
		}
		at = len(g.weights)
		g.place[v] = at
		g.weights = append(g.weights, weight{v, [2]float64{1, 1}})
	}
	g.weights[at].by[0] *= absent
	g.weights[at].by[1] *= present
}

// Partial returns Result without the predictions of variables that neither the
// findings reach nor ConditionKeeping kept: their posterior is 0 and their
// shares are nil. It costs nothing beyond the conditioning.
func (c *Conditioned) Partial() Result { return c.result }

// Holds reports whether Given can be asked for a variable: the findings reach
// it, it was kept, or it is a root.
func (c *Conditioned) Holds(v int) bool { return c.settled(v) }
