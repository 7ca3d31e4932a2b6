// Package derive works out the derived quantities of a pack: numbers that follow
// from readings, the machine sheet and each other by the formulas of the
// knowledge folder, with the uncertainty that the gauges leave in them.
//
//	table := derive.New(cat, rules, words)
//	v := table.Value("slip_margin_now", known)
//	if len(v.Missing) > 0 { ... } // what would have to be known for it
//	known = table.Fill(known)     // what rules ask for, beside the readings
//
// The main types are Table, safe for several goroutines, and Value. The package
// knows no formula: expressions are parsed and run by package rule. It neither
// judges a number nor shows one.
package derive
