package engine

import (
	"io/fs"
	"path"
	"slices"

	"example.org/takeup/engine/figure"
	"example.org/takeup/engine/source"
)

// Figures reads the drawings of a knowledge folder, figures/*.svg, in the order of
// their names. Most answers need none, so Open only checks them.
func Figures(knowledge fs.FS) ([]*figure.Drawing, source.Problems) {
	names, err := fs.Glob(knowledge, "figures/*.svg")
	if err != nil {
		return nil, nil // the pattern is right, so there is no other error
	}
	var out []*figure.Drawing
	var all source.Problems
	for _, name := range names {
		text, err := fs.ReadFile(knowledge, name)
		if err != nil {
			all.Errorf("G102", source.Pos{File: path.Join("knowledge", name)}, 1, "cannot read it: %s", err)
			continue
		}
		d, ps := figure.Read(path.Join("knowledge", name), text)
		all = append(all, ps...)
		if d != nil {
			out = append(out, d)
		}
	}
	return out, all
}

// figures checks the drawings, and that every part a cause points at is in one.
func (e *Engine) figures(knowledge fs.FS, ps *source.Problems) {
	drawings, found := Figures(knowledge)
	*ps = append(*ps, found...)
	var parts []string
	for _, d := range drawings {
		parts = append(parts, d.Parts()...)
	}
	for _, c := range e.Catalog.Causes {
		if c.Part == "" || len(found) > 0 || slices.Contains(parts, c.Part) {
			continue
		}
		pos := c.Pos
		pos.File = "knowledge/" + pos.File
		ps.Errorf("K125", pos, 1, "%s: part %q is in no figure", c.ID, c.Part).Hint = source.DidYouMean(c.Part, parts)
	}
}
