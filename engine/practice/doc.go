// Package practice holds an exercise in fault-finding: a machine with a hidden
// fault, a student who asks, checks, opens and names, and the judgement of how
// that was done.
//
// The main types are [Scenario], the machine with all that is true of it,
// [Session], what the student has done and knows by now, and [Judgement], what
// can be learnt from it: what every step told, what it cost beside the planner's
// choice, and which mistakes were made.
//
//	s, err := book.Draw(practice.Order{Seed: 7, Level: 1}, machines)
//	at, err := book.Begin(s)
//	step, err := at.Do("measure_free_play")
//	err = at.Name(practice.Forecast{{Cause: "free_play_large", Probability: .9}}, "no play left")
//	j, err := at.Judge()
//
// Answers come from the same network that judges them: drawn once, before the
// first question, so that asking again or in another order changes nothing.
// The package words no sentence and prints nothing.
package practice
