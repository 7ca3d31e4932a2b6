// Package fact holds the vocabulary and the values known about one case.
//
// A Vocabulary lists every word a condition may use: facts of the history,
// the machine sheet ("machine.limit.plate_lift"), signs, readings and derived
// quantities, each with its kind, its dimension and its allowed values. A Set
// holds what is known. Everything that is not in a Set is unknown, which is
// not the same as false.
//
//	var words fact.Vocabulary
//	words.Add(fact.Word{ID: "stood_for", Role: fact.RoleFact, Kind: fact.Quantity, Dim: unit.Time})
//	var known fact.Set
//	known.Put("stood_for", fact.Value{Kind: fact.Quantity, SI: 7776000})
//	v, ok := known.Get("stood_for")
//
// The package does not read files and does not evaluate conditions.
package fact
