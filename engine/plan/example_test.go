package plan_test

import (
	"fmt"

	"example.org/takeup/engine/plan"
)

// Half of all cases are put right outside in ten minutes, the rest lie under a
// cover that takes an hour to open; a two-minute question tells which.
func ExampleAdvise() {
	sure := func(fault, stage int, minutes float64) plan.Action {
		return plan.Action{Stage: stage, LookMinutes: minutes, Observable: true, Cures: []plan.Cure{{Fault: fault, Probability: 1}}}
	}
	p := plan.Problem{
		Faults:         []float64{.5, .3, .2},
		Stages:         []plan.Stage{{Parent: plan.Outside, Minutes: 60}},
		Actions:        []plan.Action{sure(0, plan.Outside, 10), sure(1, 0, 5), sure(2, 0, 5)},
		Questions:      []plan.Question{plan.YesNo(plan.Outside, 2, []float64{0, 1, 1}, 0)},
		ServiceMinutes: 500,
	}
	advice, err := plan.Advise(p)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s %d: %.1f minutes, %.1f saved by it\n", advice.Next.Kind, advice.Next.Index, advice.Minutes, advice.Saved)
	// Output: ask 0: 40.5 minutes, 3.0 saved by it
}
