// Package plan finds the next step towards a cured machine, in expected
// minutes.
//
// The main type is [Problem]: how probable each fault is, what can be looked
// at or repaired, what can be asked, which stages have to be opened first and
// what each of these costs in minutes. A step is worth its minutes only if the
// whole expected way to a cured machine gets shorter by it; information that
// changes nothing is worth nothing.
//
//	p := plan.Problem{Faults: []float64{.5, .3}, ServiceMinutes: 240}
//	p.Actions = []plan.Action{
//		{Stage: plan.Outside, LookMinutes: 4, RepairMinutes: 10, Observable: true, Cures: []plan.Cure{{Fault: 0, Probability: 1}}},
//		{Stage: plan.Outside, LookMinutes: 2, RepairMinutes: 8, Observable: true, Cures: []plan.Cure{{Fault: 1, Probability: 1}}},
//	}
//	advice, err := plan.Advise(p) // advice.Next, advice.Minutes, advice.Left
//
// The machine is taken to have one fault, or "something else" that only a
// service elsewhere can settle; [SequenceIndependent] orders the looks when
// several independent faults are likely. Without questions the order is exactly
// optimal (a tree of stages, one action a fault, one repair time); with them
// the problem is NP-hard and [Advise] looks a few steps ahead over the optimal
// question-free orders. [Exact] solves small problems to the last minute and
// serves as the yardstick.
//
// The package knows no cause names, no catalogue and no rules: numbers in,
// indices and minutes out. It does not weigh danger, tools at hand or money;
// the caller leaves out what must not be done.
package plan
