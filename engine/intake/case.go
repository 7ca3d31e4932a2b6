package intake

import (
	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/source"
)

// keys are those of a case, in the order people are meant to write them in.
var keys = []string{"title", "invented", "machine", "history", "signs", "readings", "stack", "done", "open", "found", "prices", "notes", "expect", "practice"}

// Load reads a case and the machine sheet it names, whose path is taken from the
// folder of the case. The case is nil when the file cannot be read, and usable
// only when no problem is an error.
func Load(path string, cat *catalog.Catalog) (*Case, source.Problems) {
	file, ps := source.Load(path)
	if file == nil {
		return nil, ps
	}
	return Parse(file, cat, source.Load)
}

// Parse is Load for a case in memory; open finds the machine sheet by its path.
// With a nil open only a sheet written in the case itself is accepted.
func Parse(file *source.File, cat *catalog.Catalog, open func(name string) (*source.File, source.Problems)) (*Case, source.Problems) {
	root, ps := source.Parse(file.Name, file.Text)
	if root == nil {
		return nil, ps
	}
	r := newReader(cat, &ps)
	c := r.fill(root, file, open)
	ps.Sort()
	return c, ps
}

// fill reads the parts in a fixed order, so that the order of keys in the file
// does not change the result.
func (r *reader) fill(root *source.Node, file *source.File, open func(string) (*source.File, source.Problems)) *Case {
	c := &Case{File: file.Name}
	parts := r.parts(root)
	c.Machine = r.machineOf(parts["machine"], file, open, &c.Known)
	r.history(parts["history"], &c.Known)
	c.Observations = r.signs(parts["signs"], &c.Known)
	r.readings(parts["readings"], &c.Known)
	r.stack(parts["stack"], catalog.StackID, &c.Known)
	c.Done = r.done(parts["done"])
	c.Open = r.stage(parts["open"])
	c.Found = r.causes(parts["found"])
	c.Prices = r.prices(parts["prices"])
	c.Expect = r.expect(parts["expect"])
	c.Practice = parts["practice"]
	source.Decode(parts["invented"], &c.Invented, r.ps)
	if n := parts["title"]; n != nil {
		c.Title = r.line(n)
	}
	if n := parts["notes"]; n != nil {
		c.Notes = r.line(n)
	}
	return c
}

// parts sorts the values of a case by their keys. Keys without value are
// reported and left out.
func (r *reader) parts(root *source.Node) map[string]*source.Node {
	parts := map[string]*source.Node{}
	titled := false
	for _, e := range r.entries(root) {
		titled = titled || e.Key.Value == "title"
		if !known(e.Key.Value) {
			r.unknown(CodeUnknownKey, "key", e.Key, keys)
		} else if e.Value.Kind() != source.Empty && parts[e.Key.Value] == nil {
			parts[e.Key.Value] = e.Value
		}
	}
	if root.Kind() == source.Map && !titled {
		r.ps.Errorf(CodeMissing, root.Pos(), 1, "missing key %q", "title").Hint = "say in a line what the customer says"
	}
	return parts
}

func known(key string) bool {
	for _, k := range keys {
		if k == key {
			return true
		}
	}
	return false
}
