package intake

import (
	"path/filepath"
	"slices"
	"strings"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/source"
)

// LoadMachine reads a machine sheet at an operating system path. The set holds
// its words as "machine.<id>".
func LoadMachine(path string, cat *catalog.Catalog) (Machine, fact.Set, source.Problems) {
	file, ps := source.Load(path)
	if file == nil {
		return Machine{File: path}, fact.Set{}, ps
	}
	var words fact.Set
	m := newReader(cat, &ps).sheet(file, &words)
	ps.Sort()
	return m, words, ps
}

// sheet reads a machine sheet that is in memory.
func (r *reader) sheet(file *source.File, into *fact.Set) Machine {
	root, ps := source.Parse(file.Name, file.Text)
	*r.ps = append(*r.ps, ps...)
	m := r.machine(root, into)
	m.File = file.Name
	return m
}

// machine reads the keys of a sheet, in a file of its own or inside a case.
// The title of a machine is its name, and either word will do.
func (r *reader) machine(n *source.Node, into *fact.Set) Machine {
	var m Machine
	var words []source.Entry
	for _, e := range r.entries(n) {
		switch e.Key.Value {
		case "title", "name":
			m.Title = r.line(e.Value)
		case "notes":
			m.Notes = r.line(e.Value)
		case "invented":
			source.Decode(e.Value, &m.Invented, r.ps)
		case "prices":
			m.Prices = r.prices(e.Value)
		default:
			words = append(words, e)
		}
	}
	r.words("", words, into)
	r.fromStack(into)
	return m
}

// line is a text of which only the words count.
func (r *reader) line(n *source.Node) string {
	t, _ := r.text(n)
	return strings.TrimSpace(t.Value)
}

// words reads machine words; a key that only begins ids ("limit") opens a
// mapping with the rest of them.
func (r *reader) words(prefix string, entries []source.Entry, into *fact.Set) {
	for _, e := range entries {
		id := prefix + e.Key.Value
		if machinePrefix+id == catalog.SheetStackID {
			r.stack(e.Value, catalog.SheetStackID, into)
			continue
		}
		if _, ok := r.cat.Fact(machinePrefix + id); !ok && e.Value.Kind() == source.Map && r.begins(id) {
			r.words(id+".", r.entries(e.Value), into)
			continue
		}
		r.word(id, e, into)
	}
}

func (r *reader) begins(id string) bool {
	return slices.ContainsFunc(r.cat.Machine, func(f catalog.Fact) bool { return strings.HasPrefix(f.ID, id+".") })
}

func (r *reader) word(id string, e source.Entry, into *fact.Set) {
	f, ok := r.cat.Fact(machinePrefix + id)
	if !ok {
		r.unknownWord(id, e.Key)
		return
	}
	if first, given := into.Get(machinePrefix + id); given {
		r.errorf(CodeTwice, e.Key, "%s is given twice", id).Related = []source.Related{{Pos: first.Pos, Message: "first given here"}}
		return
	}
	if v, ok := r.value(f, e.Value); ok {
		v.Pos = e.Value.Pos()
		into.Put(machinePrefix+id, v)
	}
}

// unknownWord looks for similar words by the whole id, since the key alone of a
// nested one says too little.
func (r *reader) unknownWord(id string, at source.Text) {
	if bare, ok := strings.CutPrefix(id, machinePrefix); ok {
		r.errorf(CodeMachine, at, "unknown word %q for a machine sheet", id).Hint = "write " + bare
		return
	}
	if is, where := r.home(id); is != "" {
		r.errorf(CodeElsewhere, at, "%s is %s; it belongs under %s", id, is, where)
		return
	}
	if r.full(at.Pos) {
		return
	}
	r.errorf(CodeMachine, at, "unknown word %q for a machine sheet", id).Hint = didYouMean(id, ids(r.cat.Machine))
}

// machineOf reads what a case says of its machine: the name of a file beside
// the case, or the words themselves.
func (r *reader) machineOf(n *source.Node, file *source.File, open func(string) (*source.File, source.Problems), into *fact.Set) Machine {
	if n == nil || isUnknown(n) {
		return Machine{}
	}
	if n.Kind() == source.Map {
		return r.machine(n, into)
	}
	t, ok := r.text(n)
	if !ok {
		return Machine{}
	}
	if open == nil {
		r.errorf(CodeSheet, t, "machine files cannot be opened here").Hint = "write the words of the sheet in the case"
		return Machine{File: t.Value}
	}
	name := filepath.FromSlash(t.Value)
	if !filepath.IsAbs(name) {
		name = filepath.Join(filepath.Dir(file.Name), name)
	}
	sheet, ps := open(name)
	if sheet == nil {
		r.noSheet(t, name, ps)
		return Machine{File: name}
	}
	*r.ps = append(*r.ps, ps...)
	return r.sheet(sheet, into)
}

// noSheet reports at the line of the case that names the file.
func (r *reader) noSheet(t source.Text, name string, ps source.Problems) {
	p := r.errorf(CodeSheet, t, "cannot read machine file %s", name)
	if len(ps) > 0 {
		p.Message += ": " + ps[0].Message
		p.Hint = ps[0].Hint
	}
}
