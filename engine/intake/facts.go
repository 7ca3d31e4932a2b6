package intake

import (
	"slices"
	"strings"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/source"
	"example.org/takeup/engine/unit"
)

// maxCount bounds bare numbers: counts of parts, ratios, coefficients.
const maxCount = 1000

// ParseFacts reads facts of the history, and words of the machine sheet written
// "machine.actuation" or nested under "machine", into the set. A nil node adds
// nothing; `unknown` leaves a fact out.
func ParseFacts(n *source.Node, cat *catalog.Catalog, into *fact.Set, ps *source.Problems) {
	r := newReader(cat, ps)
	for _, e := range r.entries(n) {
		switch word, dotted := strings.CutPrefix(e.Key.Value, machinePrefix); {
		case e.Key.Value == "machine" && e.Value.Kind() == source.Map:
			r.words("", r.entries(e.Value), into)
		case e.Key.Value == catalog.SheetStackID:
			r.stack(e.Value, catalog.SheetStackID, into)
		case dotted:
			r.word(word, e, into)
		default:
			r.fact(e, into)
		}
	}
	r.fromStack(into)
}

// history is ParseFacts without the machine, which has its own place in a case.
func (r *reader) history(n *source.Node, into *fact.Set) {
	for _, e := range r.entries(n) {
		r.fact(e, into)
	}
}

func (r *reader) fact(e source.Entry, into *fact.Set) {
	f, ok := r.cat.Fact(e.Key.Value)
	if !ok || strings.HasPrefix(e.Key.Value, machinePrefix) {
		r.unknown(CodeFact, "fact", e.Key, ids(r.cat.Facts))
		return
	}
	if v, ok := r.value(f, e.Value); ok {
		v.Pos = e.Value.Pos()
		into.Put(f.ID, v)
	}
}

func ids(facts []catalog.Fact) []string {
	out := make([]string, len(facts))
	for i, f := range facts {
		out[i] = f.ID
	}
	return out
}

// value reads one value as its word demands. False means nothing is known: it
// was left open on purpose, or is wrong and was reported.
func (r *reader) value(f catalog.Fact, n *source.Node) (fact.Value, bool) {
	if isUnknown(n) || n.Kind() == source.Empty {
		return fact.Value{}, false
	}
	kind := fact.Kind(f.Kind)
	switch kind {
	case fact.Choices:
		return r.choices(f, n)
	case fact.Sizes:
		return r.sizes(f, n)
	}
	t, ok := r.text(n)
	if !ok {
		return fact.Value{}, false
	}
	v := fact.Value{Kind: kind, Text: t.Value}
	switch kind {
	case fact.YesNo:
		v.Yes, ok = r.yesNo(f.ID, t)
	case fact.Choice:
		v.Word, ok = t.Value, r.listed(f, t)
	case fact.Quantity:
		v.SI, ok = r.quantity(f.ID, t, dimension(f.Unit), f.Possible)
	default:
		v.SI, ok = r.count(f.ID, t, f.Possible)
	}
	return v, ok
}

func (r *reader) yesNo(id string, t source.Text) (yes, ok bool) {
	switch t.Value {
	case "yes", "true":
		return true, true
	case "no", "false":
		return false, true
	}
	r.errorf(CodeYesNo, t, "%s: expected yes, no or unknown, found %q", id, t.Value).Hint = didYouMean(t.Value, []string{"yes", "no", "unknown"})
	return false, false
}

func (r *reader) listed(f catalog.Fact, t source.Text) bool {
	known := make([]string, len(f.Choices))
	for i, o := range f.Choices {
		known[i] = o.ID
	}
	if slices.Contains(known, t.Value) {
		return true
	}
	p := r.errorf(CodeChoice, t, "%s: %q is not one of its values", f.ID, t.Value)
	if p.Hint = didYouMean(t.Value, known); p.Hint == "" {
		p.Hint = "its values: " + strings.Join(known, ", ")
	}
	return false
}

// choices reads a set. An empty list is an answer too: nothing was changed. A
// wrong word makes the whole set unknown rather than known without it.
func (r *reader) choices(f catalog.Fact, n *source.Node) (fact.Value, bool) {
	v := fact.Value{Kind: fact.Choices, Words: []string{}}
	ok := n.Kind() == source.List
	for _, t := range r.texts(n) {
		switch {
		case r.full(t.Pos):
			return v, false
		case !r.listed(f, t):
			ok = false
		case !slices.Contains(v.Words, t.Value):
			v.Words = append(v.Words, t.Value)
		}
	}
	v.Text = strings.Join(v.Words, ", ")
	return v, ok
}

// sizes reads a list of quantities, such as the thicknesses a part is sold in.
func (r *reader) sizes(f catalog.Fact, n *source.Node) (fact.Value, bool) {
	v := fact.Value{Kind: fact.Sizes}
	v.Values, v.Text = r.quantities(f.ID, n, dimension(f.Unit), f.Possible)
	return v, len(v.Values) > 0
}

// quantities reads a list; nil when anything in it is wrong. The text holds the
// values as typed.
func (r *reader) quantities(id string, n *source.Node, dim unit.Dimension, span catalog.Bounds) ([]float64, string) {
	ts := r.texts(n)
	if n.Kind() == source.List && len(n.Items()) == 0 {
		r.ps.Errorf(CodeNone, n.Pos(), 1, "%s: expected at least one value, found none", id).Hint = "write unknown or leave it out"
	}
	values, typed := make([]float64, 0, len(ts)), make([]string, 0, len(ts))
	for _, t := range ts {
		if si, ok := r.quantity(id, t, dim, span); ok {
			values, typed = append(values, si), append(typed, t.Value)
		}
	}
	if len(values) < len(n.Items()) || len(values) == 0 {
		return nil, ""
	}
	return values, strings.Join(typed, ", ")
}

// quantity reads a number with a unit of the dimension, in SI. What cannot be
// negative is not: only temperatures have a zero that is not the end. What lies
// outside the span is refused with the likely slip.
func (r *reader) quantity(id string, t source.Text, dim unit.Dimension, span catalog.Bounds) (float64, bool) {
	q, err := unit.ParseAs(t.Value, dim)
	if err != nil {
		r.unitError(id, t, err)
		return 0, false
	}
	switch {
	case q.SI >= 0:
		return q.SI, r.possible(id, t, q, span)
	case dim == unit.Temperature:
		r.errorf(CodeRange, t, "%s: %s is below absolute zero", id, q.Text)
	default:
		r.errorf(CodeRange, t, "%s: expected no negative value, found %s", id, q.Text)
	}
	return 0, false
}

// unitError points into the value, at the unit or the digit that is wrong.
func (r *reader) unitError(id string, t source.Text, err error) {
	if r.full(t.Pos) {
		return
	}
	e := err.(*unit.Error)
	pos, length := t.Span(e.Offset, e.Length)
	r.ps.Errorf(CodeQuantity, pos, length, "%s: %s", id, e.Message).Hint = e.Hint
}

// count reads a bare number. It need not be whole: a ratio is a count as well.
func (r *reader) count(id string, t source.Text, span catalog.Bounds) (float64, bool) {
	q, err := unit.Parse(t.Value)
	switch {
	case err != nil:
		r.errorf(CodeCount, t, "%s: expected a bare number, found %q", id, t.Value)
	case q.Unit != "":
		r.errorf(CodeCount, t, "%s: expected a bare number, found one in %s", id, q.Unit).Hint = "leave the unit out"
	case q.SI < 0 || q.SI > maxCount:
		r.errorf(CodeRange, t, "%s: expected a number from 0 to %d, found %s", id, maxCount, q.Text)
	default:
		return q.SI, r.possible(id, t, q, span)
	}
	return 0, false
}

func dimension(symbol string) unit.Dimension {
	u, _ := unit.Find(symbol)
	return u.Dim
}
