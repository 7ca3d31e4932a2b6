// Package report words the pages: it turns the answer to a case, or an entry of
// the knowledge, into a document, and the answer into its published JSON.
//
// The main type is Answer, the plain structs of all stages side by side.
//
//	a := report.Answer{Catalog: cat, Rules: set, Case: c, Explanation: ex, Course: course}
//	page := a.Diagnosis(false) // one screen
//	page, err := a.Why("free_play_large")
//	result := a.Result()       // for render/data
//
// Every sentence of the output is in this package or in the knowledge, so that
// wording is reviewed in one place. It does not reason: a number on a page was
// worked out before. It does not lay out lines, choose colours or read files.
package report
