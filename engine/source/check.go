package source

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// checker walks the raw tree once and reports everything this YAML subset
// leaves out, wherever it stands and whatever the file is about.
type checker struct {
	d         *document
	ps        *Problems
	quota     *quota
	blankTags bool // the text has a "!" followed by a blank somewhere
}

// node checks n and what is in it. False means to give the file up: it nests too
// deep or has too many problems.
func (c *checker) node(n *yaml.Node, depth int) bool {
	if c.quota.full(c.d.name) {
		return false
	}
	pos := c.d.nodePos(n)
	if depth > MaxDepth {
		c.ps.Errorf(CodeDepth, pos, 1, "nested deeper than %d levels", MaxDepth)
		return false
	}
	if n.Anchor != "" || n.Kind == yaml.AliasNode {
		c.anchor(n, pos)
	}
	if n.Style&yaml.TaggedStyle != 0 || c.blankTags && c.d.from(n.Line, n.Column, 1) == "!" {
		c.tag(n, pos)
	}
	if n.Kind == yaml.MappingNode {
		c.keys(n)
	}
	for _, child := range n.Content {
		if !c.node(child, depth+1) {
			return false
		}
	}
	return true
}

// anchor refuses anchors and aliases. The tree still holds aliases as leaves at
// this point, so that a file that would expand to gigabytes costs nothing.
func (c *checker) anchor(n *yaml.Node, pos Pos) {
	name, what := "&"+n.Anchor, "anchors"
	if n.Kind == yaml.AliasNode {
		name, what = "*"+n.Value, "aliases"
	}
	p := c.ps.Errorf(CodeAnchor, pos, utf8.RuneCountInString(name), "YAML %s are not used here: %s", what, name)
	p.Hint = "write the value out, or quote it if it is text"
}

// tag explains the commonest trap: "when: !slips" reads as an empty value with
// a tag, and "when: ! slips" as its own opposite.
func (c *checker) tag(n *yaml.Node, pos Pos) {
	rest := strings.TrimSpace(c.d.from(n.Line, n.Column, -1))
	word, _, _ := strings.Cut(rest, " ")
	p := c.ps.Errorf(CodeTag, pos, utf8.RuneCountInString(word), "a leading ! is a YAML tag, not a part of the value")
	name := strings.TrimLeft(word, "!")
	switch {
	case strings.HasPrefix(word, "!!"):
		p.Hint = "delete " + word
	case name != "":
		p.Hint = fmt.Sprintf("write %q", "not "+name)
	default:
		p.Hint = `write "not" instead of "!"`
	}
}

// keys looks for keys that are no words and for repeated ones. The YAML library
// reports repeats only while filling a map or struct, which never happens here.
func (c *checker) keys(n *yaml.Node) {
	var seen map[string]*yaml.Node // only for long maps; short ones are searched
	if len(n.Content) > 32 {
		seen = make(map[string]*yaml.Node, len(n.Content)/2)
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		k := n.Content[i]
		if c.quota.full(c.d.name) {
			return
		}
		if !c.key(k) {
			continue
		}
		first := seen[k.Value]
		if seen == nil {
			first = findKey(n.Content[:i], k.Value)
		} else if first == nil {
			seen[k.Value] = k
		}
		if first != nil {
			p := c.ps.Errorf(CodeDuplicate, c.d.nodePos(k), c.d.length(k), "duplicate key %q", k.Value)
			p.Related = []Related{{c.d.nodePos(first), "first given here"}}
		}
	}
}

// key accepts text only: a list as a key, or no key at all, is always a slip.
func (c *checker) key(k *yaml.Node) bool {
	pos := c.d.nodePos(k)
	switch {
	case k.Tag == "!!merge":
		c.ps.Errorf(CodeAnchor, pos, 2, "YAML merge keys are not used here: <<").Hint = "write the keys out"
	case k.Kind == yaml.AliasNode: // reported as an alias
	case k.Kind != yaml.ScalarNode:
		c.ps.Errorf(CodeKey, pos, 1, "expected a plain word as key, found %s", kindOf(k))
	case strings.TrimSpace(k.Value) == "":
		c.ps.Errorf(CodeKey, pos, 1, "a key is missing before the colon")
	default:
		return true
	}
	return false
}

// findKey returns the key among alternating keys and values, or nil.
func findKey(content []*yaml.Node, name string) *yaml.Node {
	for i := 0; i+1 < len(content); i += 2 {
		if content[i].Value == name && content[i].Kind == yaml.ScalarNode {
			return content[i]
		}
	}
	return nil
}
