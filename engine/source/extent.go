package source

import (
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// The YAML library says where a value starts and not where it ends. What follows
// walks the text from the start to the end, so that an edit can leave every byte
// beside the value as it is. Offsets are bytes into document.text.

// offset is where a node starts.
func (d *document) offset(n *yaml.Node) int {
	line := d.text[d.starts[n.Line-1]:]
	return d.starts[n.Line-1] + len(line) - len(skip(line, n.Column-1))
}

// end is the offset just after a value. A value that is left empty ends where its
// key does, colon included; from is that place. indent is how far the key stands
// to the right: the lines of block text are further right than that.
func (d *document) end(n *yaml.Node, from, indent int) int {
	switch n.Kind {
	case yaml.MappingNode:
		return d.endOfMap(n)
	case yaml.SequenceNode:
		return d.endOfList(n, indent)
	}
	if isNull(n) && n.Value == "" {
		return from
	}
	return d.endOfScalar(n, indent)
}

func (d *document) endOfMap(n *yaml.Node) int {
	at := d.offset(n)
	if n.Style&yaml.FlowStyle != 0 {
		at++
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		at = d.endOfEntry(n.Content[i], n.Content[i+1])
	}
	if n.Style&yaml.FlowStyle != 0 {
		return d.pastBracket(at, '}')
	}
	return at
}

// endOfEntry is the end of a key with its value.
func (d *document) endOfEntry(key, value *yaml.Node) int {
	return d.end(value, d.pastColon(key), key.Column-1)
}

// pastColon is the offset just after the colon of a key; a key in a flow map may
// do without.
func (d *document) pastColon(key *yaml.Node) int {
	at := d.endOfScalar(key, key.Column-1)
	if rest := strings.TrimLeft(d.text[at:], " \t\r\n"); strings.HasPrefix(rest, ":") {
		return len(d.text) - len(rest) + 1
	}
	return at
}

func (d *document) endOfList(n *yaml.Node, indent int) int {
	at := d.offset(n)
	flow := n.Style&yaml.FlowStyle != 0
	if flow {
		at++
	}
	for _, item := range n.Content {
		from := at
		if !flow { // an empty item ends with its dash
			from = at + strings.IndexByte(d.text[at:]+"-", '-') + 1
		}
		at = d.end(item, from, max(indent, n.Column-1))
	}
	if flow {
		return d.pastBracket(at, ']')
	}
	return at
}

// pastBracket skips blanks, commas and comments up to the closing bracket.
func (d *document) pastBracket(at int, bracket byte) int {
	for at < len(d.text) {
		switch d.text[at] {
		case bracket:
			return at + 1
		case '#':
			at = d.endOfLine(at)
		default:
			at++
		}
	}
	return at
}

// endOfLine is the offset of the line end at or after an offset, of the carriage
// return where there is one.
func (d *document) endOfLine(at int) int {
	n := strings.IndexByte(d.text[at:], '\n')
	if n < 0 {
		return len(d.text)
	}
	if n > 0 && d.text[at+n-1] == '\r' {
		n--
	}
	return at + n
}

func (d *document) endOfScalar(n *yaml.Node, indent int) int {
	at := d.offset(n)
	switch {
	case n.Style&yaml.DoubleQuotedStyle != 0:
		return d.endOfDouble(at + 1)
	case n.Style&yaml.SingleQuotedStyle != 0:
		return d.endOfSingle(at + 1)
	case n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0:
		return d.endOfBlock(at, indent)
	}
	return d.endOfPlain(at, n.Value)
}

func (d *document) endOfDouble(at int) int {
	for ; at < len(d.text); at++ {
		switch d.text[at] {
		case '\\':
			at++
		case '"':
			return at + 1
		}
	}
	return len(d.text)
}

func (d *document) endOfSingle(at int) int {
	for ; at < len(d.text); at++ {
		if d.text[at] != '\'' {
			continue
		}
		if !strings.HasPrefix(d.text[at:], "''") {
			return at + 1
		}
		at++
	}
	return len(d.text)
}

// endOfBlock is the end of the last line with text that stands further right than
// the key. Blank lines after it belong to nobody, unless the head of the block
// keeps them with a "+".
func (d *document) endOfBlock(at, indent int) int {
	end := d.endOfLine(at)
	head, _, _ := strings.Cut(d.text[at:end], "#")
	keeps := strings.Contains(head, "+")
	for next := end; ; {
		if next = d.nextLine(next); next == len(d.text) {
			return end
		}
		line := d.text[next:d.endOfLine(next)]
		blank := strings.TrimSpace(line) == ""
		if !blank && blanks(line) <= indent {
			return end
		}
		if !blank || keeps {
			end = d.endOfLine(next)
		}
	}
}

// nextLine is the start of the line after the one that holds an offset.
func (d *document) nextLine(at int) int {
	n := strings.IndexByte(d.text[at:], '\n')
	if n < 0 {
		return len(d.text)
	}
	return at + n + 1
}

// endOfPlain matches text and value up to blanks: plain text knows no escapes,
// and only its line breaks are folded.
func (d *document) endOfPlain(at int, value string) int {
	for _, r := range value {
		if isBlank(r) {
			continue
		}
		rest := strings.TrimLeft(d.text[at:], " \t\r\n")
		at = len(d.text) - len(rest) + utf8.RuneLen(r)
		if at > len(d.text) {
			return len(d.text)
		}
	}
	return at
}

func isBlank(r rune) bool { return r == ' ' || r == '\t' || r == '\r' || r == '\n' }
