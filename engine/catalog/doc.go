// Package catalog is the knowledge folder as typed values: causes, effects,
// signs, checks, stages, readings, the words of the history and of the machine
// sheet, cautions and sources.
//
// Its main type is Catalog. Load reads every YAML file of a folder, whatever
// the files are called, and reports all problems at once.
//
//	cat, problems := catalog.Load(os.DirFS("knowledge"))
//	if problems.HasErrors() { ... }
//	cause, ok := cat.Cause("steels_warped")
//	words := cat.Vocabulary()
//
// The package knows nothing of rules and draws no conclusions; it knows no
// clutch either: everything about one comes from the files.
package catalog
