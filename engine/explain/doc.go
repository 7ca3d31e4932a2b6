// Package explain says why the beliefs are what they are.
//
// Its main type is Explanation: the ranked causes, each with a balance sheet
// that adds up to its final log-odds, the leave-one-out weights, the rules that
// speak for it and what was expected and is missing; for every sign how much of
// it each parent accounts for; the most probable sets of faults; the rules that
// wait for a fact; and how steady the ranking is.
//
//	ex, err := explain.New(explain.Input{Catalog: cat, Rules: set, Firings: firings, Network: net, Evidence: evidence})
//	why, err := ex.Against("steels_warped", "plates_stuck")
//
// The package finds numbers and reasons; the wording of pages is report's.
package explain
