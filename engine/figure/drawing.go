package figure

import (
	"encoding/xml"
	"errors"
	"io"
	"strings"

	"example.org/takeup/engine/document"
	"example.org/takeup/engine/source"
)

// Drawing is a drawing of a machine from the pack. A group with an id is a part; the
// id up to a point names it, so that "hose" and "hose.right" are one part drawn in
// two places. On a group may stand
//
//	data-point="x y"  where a leader ends
//	data-mark="x y"   where the number of a mark goes
//	data-fact, data-is="a b"  the group is drawn only where a choice has one of these values
//	data-unless       the group is left out where this fact is known to be no
//
// and a title, which names the part.
type Drawing struct {
	root *node
}

// node is an element with what is in it, or a piece of text.
type node struct {
	name  string
	attrs []xml.Attr
	kids  []*node
	text  string
}

// Read parses a drawing. Problems are what is not well formed or could do more than
// be looked at.
func Read(name string, text []byte) (*Drawing, source.Problems) {
	var ps source.Problems
	dec := xml.NewDecoder(strings.NewReader(string(text)))
	fail := func(format string, args ...any) (*Drawing, source.Problems) {
		line, col := dec.InputPos()
		ps.Errorf("G101", source.Pos{File: name, Line: line, Column: col}, 1, format, args...).Hint = "shapes, text and groups only"
		return nil, ps
	}
	top := &node{}
	open := []*node{top}
	for {
		tok, err := dec.Token()
		switch {
		case errors.Is(err, io.EOF):
			d := &Drawing{}
			if len(top.kids) > 0 {
				d.root = top.kids[0]
			}
			if err := document.CheckSVG(d.write(d.root, nil)); err != nil {
				return fail("the drawing is refused: %s", err)
			}
			return d, ps
		case err != nil:
			return fail("the drawing cannot be read: %s", err)
		}
		last := open[len(open)-1]
		switch t := tok.(type) {
		case xml.StartElement:
			n := &node{name: t.Name.Local, attrs: append([]xml.Attr(nil), t.Attr...)}
			last.kids = append(last.kids, n)
			open = append(open, n)
		case xml.EndElement:
			open = open[:len(open)-1]
		case xml.CharData:
			if s := strings.TrimSpace(string(t)); s != "" {
				last.kids = append(last.kids, &node{text: s})
			}
		}
	}
}

// attr returns an attribute by its name.
func (n *node) attr(name string) string {
	for _, a := range n.attrs {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// part is the part a group draws, or nothing.
func (n *node) part() string {
	id, _, _ := strings.Cut(n.attr("id"), ".")
	return id
}

// each visits a node and all below it.
func (n *node) each(visit func(*node)) {
	if n == nil {
		return
	}
	visit(n)
	for _, k := range n.kids {
		k.each(visit)
	}
}

// Parts lists the parts of the drawing, each once, in the order drawn.
func (d *Drawing) Parts() []string {
	var out []string
	seen := map[string]bool{}
	d.root.each(func(n *node) {
		if id := n.part(); id != "" && !seen[id] {
			seen[id] = true
			out = append(out, id)
		}
	})
	return out
}

// Name is the title of a part, or its id.
func (d *Drawing) Name(part string) string {
	name := part
	d.root.each(func(n *node) {
		if n.part() != part {
			return
		}
		for _, k := range n.kids {
			if k.name == "title" && len(k.kids) == 1 {
				name = k.kids[0].text
			}
		}
	})
	return name
}

// Title names the whole drawing.
func (d *Drawing) Title() string {
	for _, k := range d.root.kids {
		if k.name == "title" && len(k.kids) == 1 {
			return k.kids[0].text
		}
	}
	return ""
}

// ours are attributes that mean something here and nothing to a reader.
func ours(name string) bool { return name == "id" || strings.HasPrefix(name, "data-") }

// write puts an element out again without our attributes. dress may change those of a
// group, or leave the group out by returning false; nil changes nothing.
func (d *Drawing) write(n *node, dress func(*node, []xml.Attr) ([]xml.Attr, bool)) string {
	if n == nil {
		return ""
	}
	if n.name == "" {
		return document.SVGText(n.text)
	}
	attrs := n.attrs
	if dress != nil {
		var shown bool
		if attrs, shown = dress(n, attrs); !shown {
			return ""
		}
	}
	var b strings.Builder
	b.WriteString("<" + n.name)
	for _, a := range attrs {
		if a.Name.Local == "xmlns" || !ours(a.Name.Local) {
			b.WriteString(" " + qualified(a.Name) + `="` + document.SVGText(a.Value) + `"`)
		}
	}
	b.WriteString(">")
	for _, k := range n.kids {
		b.WriteString(d.write(k, dress))
	}
	b.WriteString("</" + n.name + ">")
	return b.String()
}

// qualified keeps a foreign name foreign, so that the check sees it.
func qualified(n xml.Name) string {
	if n.Space != "" {
		return n.Space + ":" + n.Local
	}
	return n.Local
}
