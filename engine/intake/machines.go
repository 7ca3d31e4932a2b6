package intake

import (
	"io/fs"
	"path"
	"slices"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/source"
)

// Sheet is a machine sheet with its words as "machine.<id>".
type Sheet struct {
	Machine Machine
	Words   fact.Set
}

// Machines reads the invented machines of a knowledge folder, those in its
// folder machines, in the order of their file names. They serve exercises and
// trials; a folder without any gives none.
func Machines(knowledge fs.FS, cat *catalog.Catalog) ([]Sheet, source.Problems) {
	var ps source.Problems
	names, err := fs.Glob(knowledge, "machines/*.yaml")
	if err != nil {
		panic("intake: " + err.Error()) // a bad pattern
	}
	slices.Sort(names)
	var out []Sheet
	for _, name := range names {
		file, found := source.LoadFS(knowledge, name)
		ps = append(ps, found...)
		if file == nil {
			continue
		}
		var s Sheet
		s.Machine = newReader(cat, &ps).sheet(file, &s.Words)
		s.Machine.File = path.Base(name)
		out = append(out, s)
	}
	ps.Sort()
	return out, ps
}
