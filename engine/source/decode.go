package source

import (
	"fmt"
	"reflect"
	"strings"

	"gopkg.in/yaml.v3"
)

// Decode fills the value that into points to from n and adds everything that
// does not fit to ps; it goes on after a problem, so that one run shows all. A
// nil node, which is what Parse returns for an unusable text, changes nothing.
//
// A struct field is named by its tag `yaml:"name"` or `yaml:"name,required"`;
// `yaml:"-"` leaves it alone, except that a field `Pos source.Pos` tagged so
// receives the position. Kinds understood: string, bool (yes, no, true, false),
// int, float64, Text, *Node (kept as it is), structs, pointers to structs,
// slices of all these, and []Entry for keys that are names. Any other
// type is a mistake in the program and panics.
func Decode(n *Node, into any, ps *Problems) {
	v := reflect.ValueOf(into)
	if v.Kind() != reflect.Pointer || v.IsNil() {
		panic("source: Decode needs a pointer")
	}
	if n == nil {
		return
	}
	d := decoder{n.doc, ps, newQuota(ps)}
	d.value(n.raw, v.Elem(), "")
}

var (
	textType    = reflect.TypeFor[Text]()
	nodeType    = reflect.TypeFor[*Node]()
	entriesType = reflect.TypeFor[[]Entry]()
	posType     = reflect.TypeFor[Pos]()
)

// decoder carries what every step needs: the file and where problems go.
type decoder struct {
	doc   *document
	ps    *Problems
	quota *quota
}

// value fills v from n. The name is the key that leads here, for messages.
func (d *decoder) value(n *yaml.Node, v reflect.Value, name string) {
	if n.Kind == yaml.AliasNode || n.Style&yaml.TaggedStyle != 0 || d.quota.full(d.doc.name) {
		return // reported by Parse; its value means nothing
	}
	if isNull(n) {
		d.empty(n, name)
		return
	}
	switch v.Type() {
	case nodeType:
		v.Set(reflect.ValueOf(&Node{n, d.doc}))
		return
	case entriesType:
		d.entries(n, v, name)
		return
	case textType:
		if d.isText(n, name) {
			*v.Addr().Interface().(*Text) = d.doc.scalar(n)
		}
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		d.structure(n, v, name)
	case reflect.Pointer:
		p := reflect.New(v.Type().Elem())
		d.value(n, p.Elem(), name)
		v.Set(p)
	case reflect.Slice:
		d.list(n, v, name)
	case reflect.String:
		if d.isText(n, name) {
			v.SetString(n.Value)
		}
	case reflect.Bool, reflect.Int, reflect.Float64:
		d.plain(n, v, name)
	default:
		panic(fmt.Sprintf("source: Decode cannot fill %s", v.Type()))
	}
}

// list does not take a single text for a list of one: a rule file where both work
// ends up with both, and a text with commas would be one item, not several.
func (d *decoder) list(n *yaml.Node, v reflect.Value, name string) {
	if n.Kind != yaml.SequenceNode {
		p := d.wrongKind(n, name, "a list")
		if n.Kind == yaml.ScalarNode && len(n.Value) < 30 {
			p.Hint = fmt.Sprintf("write [%s]", n.Value)
		}
		return
	}
	list := reflect.MakeSlice(v.Type(), len(n.Content), len(n.Content))
	for i, c := range n.Content {
		d.value(c, list.Index(i), name)
	}
	v.Set(list)
}

// entries keeps keys in file order, because the order of signs and readings in a
// case is the order of the explanation.
func (d *decoder) entries(n *yaml.Node, v reflect.Value, name string) {
	if n.Kind != yaml.MappingNode {
		d.wrongKind(n, name, "keys and values")
		return
	}
	entries := d.doc.entries(n)
	for _, e := range entries {
		if e.Value.Kind() == Empty && e.Value.raw.Kind == yaml.ScalarNode && e.Value.raw.Style&yaml.TaggedStyle == 0 {
			d.empty(e.Value.raw, e.Key.Value)
		}
	}
	v.Set(reflect.ValueOf(entries))
}

// structure fills the fields named by the keys, whatever their order. A key whose
// value is wrong counts as given: one mistake, one message.
func (d *decoder) structure(n *yaml.Node, v reflect.Value, name string) {
	if n.Kind != yaml.MappingNode {
		d.wrongKind(n, name, "keys and values")
		return
	}
	s := d.doc.shape(v.Type())
	if s.pos >= 0 {
		*v.Field(s.pos).Addr().Interface().(*Pos) = d.doc.nodePos(n)
	}
	var given [maxFields]bool
	for i := 0; i+1 < len(n.Content); i += 2 {
		k := n.Content[i]
		if k.Kind != yaml.ScalarNode || strings.TrimSpace(k.Value) == "" || k.Tag == "!!merge" {
			continue // reported by Parse
		}
		if d.quota.full(d.doc.name) {
			return
		}
		f := s.find(k.Value)
		if f < 0 {
			d.unknown(k, s)
			continue
		}
		if !given[f] {
			given[f] = true
			d.value(n.Content[i+1], v.Field(s.fields[f].index), k.Value)
		}
	}
	for i, f := range s.fields {
		if f.required && !given[i] {
			d.ps.Errorf(CodeMissingKey, d.doc.nodePos(n), d.firstLength(n), "missing key %q", f.name)
		}
	}
}

// firstLength underlines the first key of a map, which is where it starts.
func (d *decoder) firstLength(n *yaml.Node) int {
	if len(n.Content) == 0 || n.Style&yaml.FlowStyle != 0 {
		return 1
	}
	return d.doc.length(n.Content[0])
}

// unknown names the keys that exist when no suggestion is near and they fit on a
// line.
func (d *decoder) unknown(k *yaml.Node, s *shape) {
	p := d.ps.Errorf(CodeUnknownKey, d.doc.nodePos(k), d.doc.length(k), "unknown key %q", k.Value)
	names := s.names()
	if p.Hint = didYouMean(Suggest(k.Value, names)); p.Hint == "" && len(names) <= 12 {
		p.Hint = "known keys: " + strings.Join(names, ", ")
	}
}

// empty refuses null as well: whether an empty value means zero, no or unknown is
// not for this package to guess.
func (d *decoder) empty(n *yaml.Node, name string) {
	what, length := "empty value", 1
	if n.Value != "" {
		what, length = n.Value+" is not a value here", len(n.Value)
	}
	p := d.ps.Errorf(CodeNoValue, d.doc.nodePos(n), length, "%s%s", prefix(name), what)
	p.Hint = "give a value or leave the key out"
}

// isText accepts any scalar that says something.
func (d *decoder) isText(n *yaml.Node, name string) bool {
	if n.Kind != yaml.ScalarNode {
		d.wrongKind(n, name, "text")
		return false
	}
	if strings.TrimSpace(n.Value) == "" {
		p := d.ps.Errorf(CodeNoValue, d.doc.nodePos(n), d.doc.length(n), "%sempty text", prefix(name))
		p.Hint = "give a value or leave the key out"
		return false
	}
	return true
}

// wrongKind says what stands in the place of what.
func (d *decoder) wrongKind(n *yaml.Node, name, expected string) *Problem {
	return d.ps.Errorf(CodeKind, d.doc.nodePos(n), d.doc.length(n), "%sexpected %s, found %s", prefix(name), expected, kindOf(n))
}

// prefix names the key a message is about; items of a list carry that of the list.
func prefix(name string) string {
	if name == "" {
		return ""
	}
	return name + ": "
}
