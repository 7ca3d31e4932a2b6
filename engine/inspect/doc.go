// Package inspect judges the measurements of a case: each reading against the
// limit of the machine sheet with the uncertainty of its gauge, and what the
// readings add up to by the formulas of the pack.
//
//	found, err := inspect.Case(inspect.Input{Catalog: cat, Rules: set, Derived: table, Known: known, Firings: firings})
//	for _, r := range found.Readings { ... } // in the order of the knowledge
//
// The main type is Inspection, plain values in SI units. Which quantities make
// which figure, what an outcome means and how a reading is easily taken wrong are
// data; the package knows no subject. It neither believes nor words anything: the
// weight of a reading is handed to it, and pages are made by package report.
package inspect
