// Package belief computes exact probabilities in a graph of yes/no variables:
// floats in, floats out.
//
// The main type is [Graph]. Every variable with parents is a leaky noisy-OR of
// them, or carries a full table. [Solve] takes findings and returns P(e), the
// posterior of every variable, and how much each link accounts for.
//
//	g := belief.Graph{Variables: []belief.Variable{
//		{Name: "worn", Leak: 0.1},
//		{Name: "slips", Parents: []int{0}, Leak: 0.01, Strengths: []float64{0.8}},
//	}}
//	r, err := belief.Solve(g, []belief.Finding{belief.Yes(1)}, belief.DefaultBudget)
//
// The method is elimination of one bit after another over a searched order. A
// noisy-OR variable enters as an "explained" bit into which each parent moves a
// share; once all parents are done it becomes the "present" bit. One reverse
// pass (the adjoint of every step) then gives all posteriors and link shares.
// Every step adds and multiplies numbers that are not negative: the textbook sum
// with alternating signs loses all digits at about a dozen positive findings.
//
// It deliberately does not approximate: the cost is known before the run, and
// above the budget the answer is a [TooHardError]. It knows nothing of rules,
// causes or files, and holds no state between calls.
package belief
