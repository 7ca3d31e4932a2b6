package source

import (
	"reflect"
	"strings"
	"sync"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// Kind is what a node holds.
type Kind int

// The kinds of node. Empty is a key without value, or null.
const (
	Empty Kind = iota
	Scalar
	List
	Map
)

// String names the kind as messages do: "nothing", "text", "a list", "keys and values".
func (k Kind) String() string {
	return [...]string{"nothing", "text", "a list", "keys and values"}[k]
}

// Node is one value of a parsed file: a scalar, a list, or keys with values.
// Nodes come from Parse and are read-only.
type Node struct {
	raw *yaml.Node
	doc *document
}

// Entry is one key of a map with its value, in file order.
type Entry struct {
	Key   Text
	Value *Node
}

// Pos returns where the node starts; a list or map starts at its first item or key.
func (n *Node) Pos() Pos { return n.doc.nodePos(n.raw) }

// Length returns how many runes of the first line belong to a scalar, quotes
// included; 1 for other kinds.
func (n *Node) Length() int { return n.doc.length(n.raw) }

// Kind returns what the node holds.
func (n *Node) Kind() Kind { return kindOf(n.raw) }

// Scalar returns the text of a scalar node, and false for other kinds. Numbers
// and yes/no come as they are written.
func (n *Node) Scalar() (Text, bool) {
	if n.Kind() != Scalar {
		return Text{}, false
	}
	return n.doc.scalar(n.raw), true
}

// Items returns the items of a list, nil for other kinds.
func (n *Node) Items() []*Node {
	if n.Kind() != List {
		return nil
	}
	items := make([]*Node, len(n.raw.Content))
	for i, c := range n.raw.Content {
		items[i] = &Node{c, n.doc}
	}
	return items
}

// Fields returns the keys and values of a map in file order, nil for other
// kinds. Of a duplicate key, which Parse reported, only the first counts.
func (n *Node) Fields() []Entry {
	if n.Kind() != Map {
		return nil
	}
	return n.doc.entries(n.raw)
}

// Field returns the value of a key, or nil when the node has no such key.
func (n *Node) Field(name string) *Node {
	if n.Kind() != Map {
		return nil
	}
	for i := 0; i+1 < len(n.raw.Content); i += 2 {
		if k := n.raw.Content[i]; k.Kind == yaml.ScalarNode && k.Value == name {
			return &Node{n.raw.Content[i+1], n.doc}
		}
	}
	return nil
}

// kindOf counts an alias as empty: it was refused and its target is not followed.
func kindOf(n *yaml.Node) Kind {
	switch n.Kind {
	case yaml.SequenceNode:
		return List
	case yaml.MappingNode:
		return Map
	case yaml.ScalarNode:
		if !isNull(n) {
			return Scalar
		}
	}
	return Empty
}

// isNull relies on the library's tag, which is set only for unquoted null, ~ and
// nothing at all.
func isNull(n *yaml.Node) bool { return n.Kind == yaml.ScalarNode && n.Tag == "!!null" }

// document is what the nodes of one file share.
type document struct {
	name   string
	text   string
	starts []int // byte offset of each line

	// Field tables of the struct types decoded from this file. Kept here so
	// that nothing outlives the file; locked because files may be decoded
	// piecewise from several goroutines.
	mu     sync.Mutex
	shapes map[reflect.Type]*shape
}

// newDocument finds the lines once, since every scalar asks for its own.
func newDocument(name, text string) *document {
	starts := make([]int, 1, 1+strings.Count(text, "\n"))
	for i := 0; ; {
		j := strings.IndexByte(text[i:], '\n')
		if j < 0 {
			break
		}
		i += j + 1
		starts = append(starts, i)
	}
	return &document{name: name, text: text, starts: starts, shapes: map[reflect.Type]*shape{}}
}

// line returns line n (from 1) without its end, or "" past the last one.
func (d *document) line(n int) string {
	if n < 1 || n > len(d.starts) {
		return ""
	}
	line := d.text[d.starts[n-1]:]
	if n < len(d.starts) {
		line = d.text[d.starts[n-1] : d.starts[n]-1]
	}
	return strings.TrimSuffix(line, "\r")
}

// from returns up to count runes of a line from a column on, all when count is
// negative.
func (d *document) from(line, column, count int) string {
	s := skip(d.line(line), column-1)
	if count < 0 {
		return s
	}
	return s[:len(s)-len(skip(s, count))]
}

// skip drops the first n runes.
func skip(s string, n int) string {
	for ; n > 0 && s != ""; n-- {
		_, size := utf8.DecodeRuneInString(s)
		s = s[size:]
	}
	return s
}

func (d *document) pos(line, column int) Pos { return Pos{d.name, line, column} }

// nodePos takes the library's columns as they are: it counts runes too.
func (d *document) nodePos(n *yaml.Node) Pos { return Pos{d.name, n.Line, n.Column} }

// length measures a scalar as far as it goes on its first line.
func (d *document) length(n *yaml.Node) int {
	if n.Kind != yaml.ScalarNode {
		return 1
	}
	rest := utf8.RuneCountInString(strings.TrimRight(d.from(n.Line, n.Column, -1), " "))
	own := utf8.RuneCountInString(n.Value)
	if n.Style&(yaml.SingleQuotedStyle|yaml.DoubleQuotedStyle) != 0 {
		own += 2
	}
	if n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0 {
		own = 1
	}
	return max(1, min(rest, own))
}

// entries leaves out keys that are no words and repeats, both reported by Parse.
func (d *document) entries(n *yaml.Node) []Entry {
	out := make([]Entry, 0, len(n.Content)/2)
	for i := 0; i+1 < len(n.Content); i += 2 {
		k := n.Content[i]
		if k.Kind != yaml.ScalarNode || d.repeats(n, i) {
			continue
		}
		out = append(out, Entry{d.scalar(k), &Node{n.Content[i+1], d}})
	}
	return out
}

// repeats tells whether the key at index i of a map stands before it already.
// Long maps skip the search: Parse has refused the file if one does.
func (d *document) repeats(n *yaml.Node, i int) bool {
	return len(n.Content) <= 32 && findKey(n.Content[:i], n.Content[i].Value) != nil
}
