// Package sample draws machines with a fault from the knowledge and the rules:
// the history, the fault with what it led to, what shows, what every check
// would find, and measured values to match. It serves whoever needs cases by
// the hundred: trials of the planner, practice, tests of the rules.
//
// The main types are [Sampler] and [Machine]. One machine is one stream of
// random numbers, named by a seed and a number, so that a machine is the same
// whoever draws it, in whatever order and beside whatever others.
//
//	s, err := sample.New(cat, rules, words, []fact.Set{sheet}, sample.Usual)
//	m, err := s.Draw(1, 17)                  // machine 17 of seed 1: any fault, by its prior
//	m, err = s.DrawCause(1, 17, "air_in_line") // machine 17 of seed 1 with that fault
//	m, err = s.Given(1, 17, sheet, past, faults, signs) // the same with faults, past and some signs as given
//	m.Case()                                 // as it is brought in: sheet, what is told of the history, complaints
//	m.Answers("measure_linings")             // what that check answers on it
//	m.Readings("measure_linings")            // and the values it measures
//	m.Fault, m.Causes                        // the truth: the fault, and all that is there
//	m.Cured("frictions_worn")                // would it be cured by putting these right?
//	m = m.PutRight("frictions_worn")         // the machine after that
//
// Everything comes from the network that also judges: cases show whether
// knowledge is consistent and advice pays, never whether the knowledge is
// true. The history is drawn from the shares that the facts carry, each fact on
// its own; the rules then raise and lower the priors by it, so that history
// speaks for the fault as much as they say.
package sample
