package intake

import (
	"slices"
	"strconv"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/source"
)

// maxParts bounds an expanded stack: no one lists more by hand.
const maxParts = 200

// Stack returns the parts as assembled, or nil when the case does not say.
func (c *Case) Stack() *fact.Stack { return c.Known.Stack(catalog.StackID) }

// SheetStack returns the parts as the machine sheet wants them, or nil.
func (c *Case) SheetStack() *fact.Stack { return c.Known.Stack(catalog.SheetStackID) }

// ParseStack reads the parts of an assembly, innermost first, into the set. A nil
// node adds nothing.
func ParseStack(n *source.Node, cat *catalog.Catalog, into *fact.Set, ps *source.Problems) {
	newReader(cat, ps).stack(n, catalog.StackID, into)
}

// stack reads a list of parts. A list with a mistake in it is not known at all: the
// part that could not be read may be the one that matters.
func (r *reader) stack(n *source.Node, id string, into *fact.Set) {
	if n == nil || isUnknown(n) || n.Kind() == source.Empty {
		return
	}
	if len(r.cat.Parts) == 0 {
		r.ps.Errorf(CodeUnknownKey, n.Pos(), 1, "this pack knows no parts to stack")
		return
	}
	before := r.errors()
	parts := r.expand(r.items(n, true))
	switch {
	case r.errors() > before || r.spent:
		return
	case len(parts) == 0:
		r.ps.Errorf(CodeNone, n.Pos(), 1, "expected at least one part, found none").Hint = "write unknown or leave it out"
		return
	}
	r.otherwise(parts)
	v := fact.Value{Kind: fact.Assembly, Pos: n.Pos(), Stack: &fact.Stack{ID: id, Parts: parts, Whole: r.whole(parts)}}
	v.Text = strconv.Itoa(len(v.Stack.Of())) + " parts"
	into.Put(id, v)
}

// expand writes groups and counts out.
func (r *reader) expand(items []item) []fact.Part {
	var out []fact.Part
	for _, it := range items {
		group, times := it.group, it.count
		if group == nil {
			group, times = []item{it}, 1
		}
		if !r.eachHasOne(group, times) {
			return nil
		}
		for n := range times {
			for _, one := range group {
				for k := range one.count {
					if len(out) == maxParts {
						r.ps.Errorf(CodeRange, it.pos, 1, "more than %d parts", maxParts).Hint = "check the counts"
						return nil
					}
					out = append(out, r.part(one, n*one.count+k))
				}
			}
		}
	}
	return out
}

// eachHasOne wants lists of values to have one for each part they are about.
func (r *reader) eachHasOne(group []item, times int) bool {
	fine := true
	for _, one := range group {
		for _, a := range r.cat.Attributes {
			if n := len(one.said[a.ID]); n > 1 && n != times*one.count {
				r.ps.Errorf(CodeSeveral, one.pos, 1, "%s: %d values for %d parts", a.ID, n, times*one.count).Hint = "give one for all, or one for each"
				fine = false
			}
		}
	}
	return fine
}

// part makes the n-th part of a line, its attributes in the order of the vocabulary.
func (r *reader) part(it item, n int) fact.Part {
	p := fact.Part{Kind: it.kind.ID, Side: it.kind.Side, Missing: it.missing, Text: it.text, Pos: it.pos}
	for _, id := range it.kind.Has {
		values := it.said[id]
		if len(values) == 0 {
			continue
		}
		s := values[min(n, len(values)-1)]
		if s.known {
			p.Known.Put(id, s.value)
		} else {
			p.Open = append(p.Open, id)
		}
	}
	return p
}

// fromStack gives the words of the sheet that follow from its stack: how many parts of
// a kind there are, or whether there are any. A word that is given as well must agree.
func (r *reader) fromStack(into *fact.Set) {
	sheet, _ := into.Get(catalog.SheetStackID)
	if sheet.Stack == nil {
		return
	}
	for _, f := range r.cat.Machine {
		kinds := r.kindsOf(f.ID)
		if len(kinds) == 0 || !sheet.Stack.IsWhole(kinds...) {
			continue
		}
		n := len(sheet.Stack.Of(kinds...))
		v := fact.Value{Kind: fact.Kind(f.Kind), Pos: sheet.Pos, Text: strconv.Itoa(n), SI: float64(n)}
		if v.Kind == fact.YesNo {
			v.Yes, v.SI, v.Text = n > 0, 0, map[bool]string{true: "yes", false: "no"}[n > 0]
		}
		said, given := into.Get(machinePrefix + f.ID)
		if !given {
			into.Put(machinePrefix+f.ID, v)
		} else if said.Yes != v.Yes || said.SI != v.SI {
			p := r.ps.Errorf(CodeAgree, said.Pos, 1, "%s: %s here, %s in the stack of the sheet", f.ID, said.Text, v.Text)
			p.Hint = "count again in the service manual; one of the two will do"
			p.Related = []source.Related{{Pos: sheet.Pos, Message: "the stack"}}
		}
	}
}

// kindsOf lists the kinds of part that a word of the sheet counts.
func (r *reader) kindsOf(word string) (kinds []string) {
	for _, p := range r.cat.Parts {
		if p.Sheet == word {
			kinds = append(kinds, p.ID)
		}
	}
	return kinds
}

// otherwise fills in what goes without saying.
func (r *reader) otherwise(parts []fact.Part) {
	for _, kind := range r.cat.Parts {
		for _, id := range kind.Has {
			a, _ := r.cat.Attribute(id)
			said := func(p fact.Part) bool {
				v, known := p.Known.Get(id)
				return p.Kind == kind.ID && known && !assumed(v, a)
			}
			if a.Otherwise == "" || !slices.ContainsFunc(parts, said) {
				continue
			}
			for i := range parts {
				if p := &parts[i]; p.Kind == kind.ID && !p.Known.Known(id) && !slices.Contains(p.Open, id) {
					p.Known.Put(id, fact.Value{Kind: fact.Kind(a.Kind), Word: a.Otherwise, Yes: a.Otherwise == "yes"})
				}
			}
		}
	}
}

// assumed reports whether a value is what goes without saying.
func assumed(v fact.Value, a catalog.Attribute) bool {
	if v.Kind == fact.YesNo {
		return v.Yes == (a.Otherwise == "yes")
	}
	return v.Word == a.Otherwise
}

// whole lists the kinds of which the list leaves nothing open. A kind that lies
// between two others does so when both are listed and no place between them is
// unseen. Of a kind that there is one of, naming it is enough, and kinds that lie
// between nothing are listed all together or not at all.
func (r *reader) whole(parts []fact.Part) []string {
	var out []string
	for _, kind := range r.cat.Parts {
		named := slices.ContainsFunc(parts, func(p fact.Part) bool { return p.Kind == kind.ID })
		single := kind.Plural == "" || len(kind.Between) == 0
		if named && single || len(kind.Between) == 2 && seen(parts, kind.Between[0], kind.Between[1]) {
			out = append(out, kind.ID)
		}
	}
	slices.Sort(out)
	return out
}

// seen reports whether the list goes from one kind to the other without a gap.
func seen(parts []fact.Part, from, to string) bool {
	first := slices.IndexFunc(parts, func(p fact.Part) bool { return p.Kind == from })
	last := slices.IndexFunc(parts, func(p fact.Part) bool { return p.Kind == to })
	if first < 0 || last < first {
		return false
	}
	return !slices.ContainsFunc(parts[first:last], func(p fact.Part) bool { return p.Kind == fact.UnseenPart })
}

// errors counts the problems so far that are no warnings.
func (r *reader) errors() int {
	n := 0
	for _, p := range *r.ps {
		if p.Severity == source.Error {
			n++
		}
	}
	return n
}
