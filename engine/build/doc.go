// Package build works out how a job is put back together: which causes it puts
// right, what must be renewed, which steps of the pack's build sheet apply to the
// stages that were open, and how each ring of screws is drawn down.
//
//	sheet, err := build.New(build.Job{Catalog: cat, Rules: set, Words: words, Known: c.Known,
//		Found: c.Found, Beliefs: beliefs})
//	for _, step := range sheet.Steps { ... }
//
// It orders nothing itself: steps stand in the knowledge in the order in which they
// are done. A step whose condition the machine sheet does not settle stays on the
// sheet with the facts it waits for, since leaving it out could cost an engine.
//
// The package words nothing and knows no clutch.
package build
