// Package trial lets the planner and plain habits work on drawn machines and
// counts what each of them spends.
//
// Its main function is [Run]. Every hand meets the same machines, knows the same
// about them, learns the same from the same step and pays the same minutes; only
// the choice of the next step differs, and whether it looks further before closing. After each answer and each repair beliefs
// are worked out anew from everything seen so far, as a user does who enters each
// answer; causes looked for in vain in between are taken off the list.
//
//	scores, err := trial.Run(trial.Input{Catalog: cat, Rules: set, Words: words, Sampler: s, Count: 1000, Seed: 1})
//	scores[0].MeanMinutes // of the planner
//
// The world of a trial is [sample.Machine]'s; its rules stand at [Hand].
package trial
