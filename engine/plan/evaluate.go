package plan

// Policy chooses the next step for a machine. It must not choose a step that
// is already done, and ends with a service at the latest when nothing is left.
type Policy func(Problem) Step

// Evaluate returns the exact expected minutes of following a policy to the
// end, over every result of every step. The number of branches grows with the
// questions the policy asks; [Simulate] is for larger problems.
func Evaluate(p Problem, policy Policy) float64 {
	step := policy(p)
	minutes := step.Minutes
	for _, o := range p.Outcomes(step) {
		rest := o.Minutes
		if o.Next != nil {
			rest += Evaluate(*o.Next, policy)
		}
		minutes += o.Probability * rest
	}
	return minutes
}
