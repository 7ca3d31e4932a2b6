package source

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"
)

// ErrNotThere is what removing an entry gives that the text does not hold.
var ErrNotThere = errors.New("no such entry")

// SetEntry returns the text of a file with one entry of a section set: the key of
// the map that stands under the section's own key at the top of the file. value is
// YAML on one line, as Quote and QuoteAll make it. A section that is missing goes
// behind the last one that order names before it. Every byte outside the entry
// stays as it is: comments, blank lines, quotes, indentation, line ends.
//
// The error says why the text cannot be edited: it cannot be read, or something
// else than keys and values stands under the section.
func SetEntry(text []byte, section, key, value string, order []string) ([]byte, error) {
	return edit(text, section, func(e *editor) error {
		e.changed = []string{section, key}
		switch at := e.find(e.root, section); {
		case at < 0:
			return e.addSection(section, key, value, order)
		case isNull(e.root.Content[at+1]):
			return e.fillSection(at, key, value)
		case e.root.Content[at+1].Kind != yaml.MappingNode:
			return fmt.Errorf("%s holds %s, expected keys and values", section, kindOf(e.root.Content[at+1]))
		default:
			return e.setIn(e.root.Content[at+1], key, value)
		}
	})
}

// DropEntry returns the text without one entry of a section, and without the
// section when nothing is left in it. It undoes a SetEntry that added the entry.
func DropEntry(text []byte, section, key string) ([]byte, error) {
	return edit(text, section, func(e *editor) error {
		e.changed = []string{section, key}
		at := e.find(e.root, section)
		if at < 0 || e.root.Content[at+1].Kind != yaml.MappingNode {
			return ErrNotThere
		}
		in := e.root.Content[at+1]
		k := e.find(in, key)
		if k < 0 {
			return ErrNotThere
		}
		if in.Style&yaml.FlowStyle != 0 {
			e.dropFromFlow(in, k, 2, e.d.offset(in.Content[k]), e.d.endOfEntry(in.Content[k], in.Content[k+1]))
			return nil
		}
		from, to := e.d.offset(in.Content[k]), e.d.endOfEntry(in.Content[k], in.Content[k+1])
		if len(in.Content) == 2 {
			e.dropHead(e.root.Content[at], &from)
		}
		e.dropLines(from, to)
		return nil
	})
}

// SetTop is SetEntry for a key at the top of the file itself.
func SetTop(text []byte, key, value string) ([]byte, error) {
	return edit(text, key, func(e *editor) error {
		e.changed = []string{key}
		return e.setIn(e.root, key, value)
	})
}

// AddItem returns the text with one more item in the list under a section, unless
// it holds that very text already.
func AddItem(text []byte, section, item string, order []string) ([]byte, error) {
	return edit(text, section, func(e *editor) error {
		e.changed = []string{section}
		at := e.find(e.root, section)
		if at < 0 {
			return e.addTop(section, "["+item+"]", order)
		}
		list := e.root.Content[at+1]
		switch {
		case isNull(list):
			e.replace(e.d.pastColon(e.root.Content[at]), e.d.endOfEntry(e.root.Content[at], list), " ["+item+"]")
		case list.Kind != yaml.SequenceNode:
			return fmt.Errorf("%s holds %s, expected a list", section, kindOf(list))
		case slices.ContainsFunc(list.Content, func(n *yaml.Node) bool { return n.Kind == yaml.ScalarNode && n.Value == item }):
			return nil
		case list.Style&yaml.FlowStyle != 0:
			e.insertInFlow(list, item)
		default:
			e.insertLines(e.d.endOfList(list, 0), e.indent(list)+"- "+item)
		}
		return nil
	})
}

// DropItem returns the text without an item of the list under a section, and
// without the section when nothing is left in it.
func DropItem(text []byte, section, item string) ([]byte, error) {
	return edit(text, section, func(e *editor) error {
		e.changed = []string{section}
		at := e.find(e.root, section)
		if at < 0 || e.root.Content[at+1].Kind != yaml.SequenceNode {
			return ErrNotThere
		}
		head, list := e.root.Content[at], e.root.Content[at+1]
		i := slices.IndexFunc(list.Content, func(n *yaml.Node) bool { return n.Kind == yaml.ScalarNode && n.Value == item })
		switch {
		case i < 0:
			return ErrNotThere
		case len(list.Content) == 1 && e.root.Style&yaml.FlowStyle != 0:
			e.dropFromFlow(e.root, at, 2, e.d.offset(head), e.d.endOfEntry(head, list))
		case len(list.Content) == 1:
			e.dropLines(e.d.offset(head), e.d.endOfEntry(head, list))
		case list.Style&yaml.FlowStyle != 0:
			e.dropFromFlow(list, i, 1, e.d.offset(list.Content[i]), e.d.end(list.Content[i], 0, 0))
		default:
			from := e.d.offset(list.Content[i])
			e.dropLines(from, e.d.end(list.Content[i], from, list.Column-1))
		}
		return nil
	})
}

// editor collects replacements in one text.
type editor struct {
	d       *document
	root    *yaml.Node
	eol     string
	cuts    []cutout
	changed []string // the path that may differ afterwards
}

// cutout replaces the bytes from one offset to another.
type cutout struct {
	from, to int
	text     string
}

// edit parses, lets change collect its replacements, applies them and makes sure
// that nothing but the entry has changed its meaning.
func edit(text []byte, section string, change func(*editor) error) ([]byte, error) {
	mark := []byte(nil)
	if bytes.HasPrefix(text, []byte(bom)) {
		mark, text = text[:len(bom)], text[len(bom):]
	}
	root, ps := Parse("", text)
	if err := ps.Err(); err != nil {
		return nil, err
	}
	if root.Kind() != Map {
		return nil, fmt.Errorf("expected keys and values at the top, found %s", root.Kind())
	}
	e := &editor{d: root.doc, root: root.raw, eol: "\n"}
	if bytes.Contains(text, []byte("\r\n")) {
		e.eol = "\r\n"
	}
	if err := change(e); err != nil {
		return nil, err
	}
	after := e.apply()
	again, ps := Parse("", []byte(after))
	if err := ps.Err(); err != nil || !sameBut(root.raw, again.raw, e.changed) {
		return nil, fmt.Errorf("%s stands in a form that cannot be edited in place", section)
	}
	return append(slices.Clone(mark), after...), nil
}

func (e *editor) apply() string {
	slices.SortStableFunc(e.cuts, func(a, b cutout) int { return a.from - b.from })
	var b strings.Builder
	at := 0
	for _, c := range e.cuts {
		b.WriteString(e.d.text[at:c.from])
		b.WriteString(c.text)
		at = c.to
	}
	b.WriteString(e.d.text[at:])
	return b.String()
}

func (e *editor) replace(from, to int, text string) {
	e.cuts = append(e.cuts, cutout{from, to, text})
}

// find returns the place of a key among the content of a map, or -1.
func (e *editor) find(in *yaml.Node, key string) int {
	for i := 0; i+1 < len(in.Content); i += 2 {
		if k := in.Content[i]; k.Kind == yaml.ScalarNode && k.Value == key {
			return i
		}
	}
	return -1
}

// indent is the blanks before a node that starts its line.
func (e *editor) indent(n *yaml.Node) string { return strings.Repeat(" ", n.Column-1) }

// setIn sets a key of a map.
func (e *editor) setIn(in *yaml.Node, key, value string) error {
	at := e.find(in, key)
	switch {
	case at >= 0:
		e.setValue(in.Content[at], in.Content[at+1], value)
	case in.Style&yaml.FlowStyle != 0:
		e.insertInFlow(in, key+": "+value)
	default:
		e.insertLines(e.d.endOfMap(in), e.indent(in)+key+": "+value)
	}
	return nil
}

// setValue puts a value in the place of another. Lists and maps over several
// lines give way to one line; what stands on the line of the key stays there.
func (e *editor) setValue(key, old *yaml.Node, value string) {
	colon := e.d.pastColon(key)
	end := e.d.endOfEntry(key, old)
	if isNull(old) && old.Value == "" || old.Line != key.Line {
		e.replace(colon, end, " "+value)
		return
	}
	e.replace(e.d.offset(old), end, value)
}

// insertInFlow adds an entry or an item behind the last one.
func (e *editor) insertInFlow(in *yaml.Node, text string) {
	at := e.d.offset(in) + 1
	if n := len(in.Content); n > 0 {
		text = ", " + text
		if last := in.Content[n-1]; in.Kind == yaml.MappingNode {
			at = e.d.endOfEntry(in.Content[n-2], last)
		} else {
			at = e.d.end(last, at, 0)
		}
	}
	e.replace(at, at, text)
}

// insertLines adds lines behind the line in which an offset stands, comment
// included. A file without a final line end stays without.
func (e *editor) insertLines(at int, lines ...string) {
	at = e.d.endOfLine(at)
	text := ""
	for _, l := range lines {
		text += e.eol + l
	}
	e.replace(at, at, text)
}

// addSection makes a section with its first entry.
func (e *editor) addSection(section, key, value string, order []string) error {
	if e.root.Style&yaml.FlowStyle != 0 {
		return e.addTop(section, "{"+key+": "+value+"}", order)
	}
	e.insertLines(e.behind(section, order), e.indent(e.root)+section+":", e.deeper()+key+": "+value)
	return nil
}

// deeper is the blanks before the entries of a section: as many as the file has
// elsewhere.
func (e *editor) deeper() string {
	for i := 1; i < len(e.root.Content); i += 2 {
		if n := e.root.Content[i]; n.Kind == yaml.MappingNode && n.Style&yaml.FlowStyle == 0 && n.Column > e.root.Column {
			return e.indent(n)
		}
	}
	return e.indent(e.root) + "  "
}

// addTop adds a key at the top.
func (e *editor) addTop(section, value string, order []string) error {
	if e.root.Style&yaml.FlowStyle != 0 {
		e.insertInFlow(e.root, section+": "+value)
		return nil
	}
	e.insertLines(e.behind(section, order), e.indent(e.root)+section+": "+value)
	return nil
}

// behind is the offset behind which a new section goes.
func (e *editor) behind(section string, order []string) int {
	place := slices.Index(order, section)
	at := -1
	for i := 0; i+1 < len(e.root.Content); i += 2 {
		if before := slices.Index(order, e.root.Content[i].Value); before >= 0 && before < place {
			at = e.d.endOfEntry(e.root.Content[i], e.root.Content[i+1])
		}
	}
	if at < 0 {
		return e.d.endOfMap(e.root)
	}
	return at
}

// fillSection gives a section without value its first entry.
func (e *editor) fillSection(at int, key, value string) error {
	section, empty := e.root.Content[at], e.root.Content[at+1]
	colon, end := e.d.pastColon(section), e.d.endOfEntry(section, empty)
	if e.root.Style&yaml.FlowStyle != 0 {
		e.replace(colon, end, " {"+key+": "+value+"}")
		return nil
	}
	e.replace(colon, end, "") // null or ~
	e.insertLines(end, e.deeper()+key+": "+value)
	return nil
}

// dropFromFlow removes an entry or an item with one comma beside it. size is how
// many nodes it has.
func (e *editor) dropFromFlow(in *yaml.Node, place, size, from, to int) {
	if place > 0 { // with the comma before it
		before := in.Content[place-1]
		if in.Kind == yaml.MappingNode {
			from = e.d.endOfEntry(in.Content[place-2], before)
		} else {
			from = e.d.end(before, from, 0)
		}
	} else if place+size < len(in.Content) {
		to = e.d.offset(in.Content[place+size])
	}
	e.replace(from, to, "")
}

// dropHead drops the line of a section that is about to lose its only entry, which
// starts at first. Comments between the two stay.
func (e *editor) dropHead(section *yaml.Node, first *int) {
	from, to := e.d.offset(section), e.d.pastColon(section)
	if strings.TrimSpace(e.d.text[to:*first]) == "" {
		*first = from
		return
	}
	e.dropLines(from, to)
}

// dropLines removes the lines from one offset to another, with the comment on
// the last of them. The last line of a file without a final line end takes the
// line end before it along.
func (e *editor) dropLines(from, to int) {
	from = strings.LastIndexByte(e.d.text[:from], '\n') + 1
	next := e.d.nextLine(to)
	if next == len(e.d.text) && !strings.HasSuffix(e.d.text, "\n") && from > 0 {
		from = e.d.endOfLine(from - 1)
		if from > 0 && e.d.text[from-1] == '\r' {
			from--
		}
	}
	e.replace(from, next, "")
}

// sameBut reports whether two trees mean the same but for the node at a path. A
// map that holds nothing but that node may be missing on either side.
func sameBut(a, b *yaml.Node, path []string) bool {
	return slices.Equal(flat(a, path), flat(b, path))
}

// flat lists every value of a tree with its path, without what is at skip.
func flat(root *yaml.Node, skip []string) []string {
	var out []string
	var walk func(n *yaml.Node, path string, left []string)
	walk = func(n *yaml.Node, path string, left []string) {
		switch n.Kind {
		case yaml.MappingNode:
			for i := 0; i+1 < len(n.Content); i += 2 {
				k := n.Content[i].Value
				switch {
				case len(left) == 1 && left[0] == k:
				case len(left) > 1 && left[0] == k:
					walk(n.Content[i+1], path+"/"+k, left[1:])
				default:
					walk(n.Content[i+1], path+"/"+k, nil)
				}
			}
			if len(n.Content) > 0 || left != nil {
				return
			}
		case yaml.SequenceNode:
			for i, c := range n.Content {
				walk(c, fmt.Sprintf("%s/%d", path, i), nil)
			}
			out = append(out, fmt.Sprintf("%s: %d items", path, len(n.Content)))
			return
		}
		if left == nil {
			value := n.Value
			if n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0 { // its last line end may be that of the file
				value = strings.TrimRight(value, "\n")
			}
			out = append(out, fmt.Sprintf("%s: %v %q", path, n.Kind, n.Tag+" "+value))
		}
	}
	walk(root, "", skip)
	return out
}
