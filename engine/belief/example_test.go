package belief_test

import (
	"fmt"
	"math"

	"example.org/takeup/engine/belief"
)

// Two invented causes and the two signs they share. By hand:
// P(slips) = 1 - .99·.92·.975 = .11197, P(worn, slips) = .1·(1 - .99·.2·.975).
func twoCauses() belief.Graph {
	return belief.Graph{Variables: []belief.Variable{
		{Name: "worn", Leak: .1},
		{Name: "oil", Leak: .05},
		{Name: "slips", Parents: []int{0, 1}, Leak: .01, Strengths: []float64{.8, .5}},
		{Name: "drags", Parents: []int{1}, Leak: .02, Strengths: []float64{.6}},
	}}
}

func ExampleSolve() {
	r, err := belief.Solve(twoCauses(), []belief.Finding{belief.Yes(2)}, belief.DefaultBudget)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("P(slips) %.4f\n", math.Exp(r.LogEvidence))
	fmt.Printf("worn %.3f (%+.1f decibans), oil %.3f\n", r.Posterior[0], belief.Weight(.1, r.Posterior[0]), r.Posterior[1])
	fmt.Printf("drags, not looked at yet: %.3f\n", r.Posterior[3])
	fmt.Printf("the slip comes from worn %.3f, oil %.3f, something else %.3f\n", r.Shares[2][0], r.Shares[2][1], r.LeakShare[2])
	// Output:
	// P(slips) 0.1120
	// worn 0.721 (+13.7 decibans), oil 0.243
	// drags, not looked at yet: 0.163
	// the slip comes from worn 0.714, oil 0.223, something else 0.089
}

// Is it worth looking whether it drags? What the causes would become.
func ExampleOutcomes() {
	list, err := belief.Outcomes(twoCauses(), []belief.Finding{belief.Yes(2)}, []int{3}, []int{0, 1}, belief.DefaultBudget)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("drags with %.3f; then %.3f, if not %.3f\n", list[0].Present, list[0].IfPresent, list[0].IfAbsent)
	// Output:
	// drags with 0.163; then [0.234 0.907], if not [0.816 0.114]
}

func ExampleTopSets() {
	s, err := belief.TopSets(twoCauses(), []belief.Finding{belief.Yes(2)}, []int{0, 1}, 3, belief.DefaultSetLimit, belief.DefaultBudget)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, set := range s.Sets {
		fmt.Printf("%v %.3f\n", set.Members, set.Probability)
	}
	// Output:
	// [0] 0.680
	// [1] 0.203
	// [] 0.076
}
