package belief

import "fmt"

// Given returns P(present | e and further findings) of the given variables,
// without a new compilation: the further findings must be on variables that the
// program holds unobserved, such as those named to ConditionKeeping, and so must
// be the variables asked for, unless they are roots. It answers "what if this
// evidence alone" many times over for the price of one order. The error is an
// *ImpossibleError, with indexes into the further findings, or an *InvalidError.
func (c *Conditioned) Given(further []Finding, of []int) ([]float64, error) {
	if err := checkFindings(len(c.g.Variables), further); err != nil {
		return nil, err
	}
	if err := checkVariables(len(c.g.Variables), of); err != nil {
		return nil, err
	}
	var weights []weight
	place := map[int]int{}
	for _, f := range further {
		if !c.m.on[f.Variable] || c.m.ev.state[f.Variable] != hidden {
			return nil, &InvalidError{[]string{fmt.Sprintf("%s is not held unobserved in this program", c.g.Variables[f.Variable].Name)}}
		}
		at, again := place[f.Variable]
		if !again {
			at = len(weights)
			place[f.Variable] = at
			weights = append(weights, weight{f.Variable, [2]float64{1, 1}})
		}
		top := max(f.Present, f.Absent)
		weights[at].by[0] *= f.Absent / top
		weights[at].by[1] *= f.Present / top
	}
	if !c.reached(of) {
		return nil, &InvalidError{[]string{"a variable asked for is not held in this program"}}
	}
	a := c.ask(weights...)
	if a.posterior == nil {
		all := make([]int, len(further))
		for i := range all {
			all[i] = i
		}
		return nil, &ImpossibleError{all, names(c.g, further, all)}
	}
	out := make([]float64, len(of))
	for i, v := range of {
		out[i] = a.posterior[v]
	}
	return out, nil
}

// Partial returns Result without the predictions of variables that neither the
// findings reach nor ConditionKeeping kept: their posterior is 0 and their
// shares are nil. It costs nothing beyond the conditioning.
func (c *Conditioned) Partial() Result { return c.result }

// Holds reports whether Given can be asked for a variable: the findings reach
// it, it was kept, or it is a root.
func (c *Conditioned) Holds(v int) bool { return c.settled(v) }
