package intake

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"example.org/takeup/engine/catalog"
	"example.org/takeup/engine/fact"
	"example.org/takeup/engine/source"
)

// item is one line of a stack: a part, several alike, or a group that repeats.
type item struct {
	kind    catalog.Part
	missing bool
	count   int
	said    map[string][]said // by attribute: one for all, or one for each
	group   []item            // instead of a kind
	text    string
	pos     source.Pos
}

// said is a value, or an unknown written on purpose.
type said struct {
	value fact.Value
	known bool
}

var (
	countPattern = regexp.MustCompile(`^(.*?) +[x×]([0-9]+)$`)
	groupPattern = regexp.MustCompile(`^[x×] ?([0-9]+)$`)
)

func (r *reader) items(n *source.Node, groups bool) []item {
	if n.Kind() != source.List {
		p := r.ps.Errorf(source.CodeKind, n.Pos(), n.Length(), "expected a list of parts, innermost first, found %s", n.Kind())
		p.Hint = "begin each part with a dash"
		return nil
	}
	var out []item
	for _, x := range n.Items() {
		if it, ok := r.item(x, groups); ok {
			out = append(out, it)
		}
	}
	return out
}

// item reads one line of a stack in any of its forms.
func (r *reader) item(n *source.Node, groups bool) (item, bool) {
	switch n.Kind() {
	case source.Scalar:
		t, _ := n.Scalar()
		return r.named(t, nil)
	case source.Map:
	default:
		r.ps.Errorf(source.CodeKind, n.Pos(), 1, "expected a part, found %s", n.Kind()).Hint = "write the kind of part, such as " + r.cat.Parts[0].ID
		return item{}, false
	}
	fields := n.Fields()
	if kind := n.Field("kind"); kind != nil {
		return r.longForm(kind, fields)
	}
	if len(fields) != 1 {
		p := r.ps.Errorf(CodePart, n.Pos(), 1, "expected one part, found %d keys", len(fields))
		p.Hint = "indent what belongs to a part further than the part, or write it in braces"
		return item{}, false
	}
	if m := groupPattern.FindStringSubmatch(fields[0].Key.Value); m != nil {
		return r.grouped(fields[0], m[1], groups)
	}
	return r.named(fields[0].Key, fields[0].Value)
}

// grouped reads parts that come again and again, such as {x6: [steel, friction]}.
func (r *reader) grouped(e source.Entry, times string, allowed bool) (item, bool) {
	if !allowed {
		r.errorf(CodePart, e.Key, "a group cannot stand inside a group").Hint = "write the inner one out"
		return item{}, false
	}
	it := item{pos: e.Key.Pos, text: e.Key.Value}
	var ok bool
	if it.count, ok = r.times(e.Key, times); !ok {
		return it, false
	}
	before := r.errors()
	it.group = r.items(e.Value, false)
	return it, r.errors() == before
}

func (r *reader) times(at source.Text, digits string) (int, bool) {
	n, err := strconv.Atoi(digits)
	if err != nil || n < 1 || n > maxParts {
		r.errorf(CodeRange, at, "expected a number from 1 to %d, found %s", maxParts, digits)
		return 0, false
	}
	return n, true
}

// longForm reads {kind: steel, count: 6, thickness: 2 mm}.
func (r *reader) longForm(kind *source.Node, fields []source.Entry) (item, bool) {
	t, ok := r.text(kind)
	if !ok {
		return item{}, false
	}
	it, ok := r.named(t, nil)
	if !ok {
		return it, false
	}
	var rest []source.Entry
	for _, e := range fields {
		if e.Key.Value != "kind" {
			rest = append(rest, e)
		}
	}
	return r.attributes(it, rest)
}

// named reads a kind of part with its count, and what is said of it.
func (r *reader) named(key source.Text, value *source.Node) (item, bool) {
	it := item{count: 1, pos: key.Pos, text: key.Value}
	name := strings.TrimSpace(key.Value)
	if m := countPattern.FindStringSubmatch(name); m != nil {
		var ok bool
		if it.count, ok = r.times(key, m[2]); !ok {
			return it, false
		}
		name = m[1]
	}
	var ok bool
	if it.kind, ok = r.cat.Part(name); !ok && name != fact.UnseenPart {
		r.unknownPart(key, name)
		return it, false
	}
	if name == fact.UnseenPart {
		it.kind = catalog.Part{ID: name}
	}
	if value == nil {
		return it, true
	}
	if value.Kind() == source.Empty {
		r.errorf(source.CodeNoValue, key, "%s: empty value", name).Hint = "leave the colon out, or say what is known of it"
		return it, false
	}
	if t, scalar := value.Scalar(); scalar {
		if it.missing = t.Value == "missing"; !it.missing {
			p := r.errorf(CodePart, t, "%s: expected what is known of it, or missing, found %q", name, t.Value)
			p.Hint = fmt.Sprintf("write %q for several, %s: {...} for what they are like", name+" x3", name)
		}
		return it, it.missing
	}
	return r.attributes(it, r.entries(value))
}

func (r *reader) unknownPart(key source.Text, name string) {
	if r.full(key.Pos) {
		return
	}
	known := []string{fact.UnseenPart}
	for _, p := range r.cat.Parts {
		known = append(known, p.ID)
		if name == p.Name || name == p.Plural {
			r.errorf(CodePart, key, "unknown part %q", name).Hint = "write " + p.ID
			return
		}
	}
	r.errorf(CodePart, key, "unknown part %q", name).Hint = didYouMean(name, known)
}

func (r *reader) attributes(it item, entries []source.Entry) (item, bool) {
	fine := true
	for _, e := range entries {
		if e.Key.Value == "count" {
			t, ok := r.text(e.Value)
			if ok {
				it.count, ok = r.times(t, t.Value)
			}
			fine = fine && ok
			continue
		}
		values, ok := r.attribute(it.kind, e)
		fine = fine && ok
		if ok {
			if it.said == nil {
				it.said = map[string][]said{}
			}
			it.said[e.Key.Value] = values
		}
	}
	return it, fine
}

// attribute reads what is said of one part, or a list with one value for each of
// several.
func (r *reader) attribute(part catalog.Part, e source.Entry) ([]said, bool) {
	if !slices.Contains(part.Has, e.Key.Value) {
		r.unknownAttribute(part, e.Key)
		return nil, false
	}
	a, _ := r.cat.Attribute(e.Key.Value)
	if e.Value.Kind() == source.Empty {
		return nil, false // reported with the entries
	}
	if e.Value.Kind() != source.List {
		s, ok := r.oneSaid(a, e)
		return []said{s}, ok
	}
	var out []said
	for _, x := range e.Value.Items() {
		s, ok := r.oneSaid(a, source.Entry{Key: e.Key, Value: x})
		if !ok {
			return nil, false
		}
		out = append(out, s)
	}
	if len(out) == 0 {
		r.errorf(CodeNone, e.Key, "%s: expected at least one value, found none", a.ID)
	}
	return out, len(out) > 0
}

func (r *reader) unknownAttribute(part catalog.Part, key source.Text) {
	if part.ID == fact.UnseenPart {
		r.errorf(CodeAttribute, key, "nothing can be said of a part that nobody has looked at").Hint = "name the kind of part"
		return
	}
	if r.full(key.Pos) {
		return
	}
	p := r.errorf(CodeAttribute, key, "a %s has no %s", part.Name, key.Value)
	if p.Hint = source.DidYouMean(key.Value, append([]string{"count"}, part.Has...)); p.Hint != "" {
		return
	}
	p.Hint = "only the number and the order of it count"
	if len(part.Has) > 0 {
		p.Hint = "it has " + strings.Join(part.Has, ", ")
	}
}

// oneSaid reads one value as the attribute demands.
func (r *reader) oneSaid(a catalog.Attribute, e source.Entry) (said, bool) {
	if isUnknown(e.Value) {
		return said{}, true
	}
	var v fact.Value
	var ok bool
	switch fact.Kind(a.Kind) {
	case fact.Reading:
		v, ok = r.reading(catalog.Reading{ID: a.ID, Unit: a.Unit, Gauge: a.Gauge, Sense: "none", Possible: a.Possible}, e, &fact.Set{})
	case fact.Label:
		t, typed := r.text(e.Value)
		v, ok = fact.Value{Kind: fact.Label, Word: strings.ToLower(strings.TrimSpace(t.Value)), Text: t.Value}, typed
	default:
		v, ok = r.value(catalog.Fact{ID: a.ID, Kind: a.Kind, Choices: a.Choices}, e.Value)
	}
	v.Pos = e.Value.Pos()
	return said{v, ok}, ok
}
