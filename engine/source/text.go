package source

import (
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// Style is how a scalar is written.
type Style int

// The styles of a scalar: plain, 'single', "double", | literal, > folded.
const (
	Plain Style = iota
	Single
	Double
	Literal
	Folded
)

// Raw is what maps an offset in a value back to the file.
type Raw struct {
	Style  Style
	Line   string // the file's line from the first character of the scalar on
	Indent int    // columns before the content of a literal block
}

// Text is a scalar with its position. Comment is a comment that follows it on
// the same line, without the "#": in a plain scalar, " #" ends the value, which
// the writer of a condition may not have meant.
type Text struct {
	Value   string `json:"value"`
	Pos     Pos    `json:"pos"`
	Comment string `json:"comment,omitempty"`
	Raw     Raw    `json:"-"`
}

// String returns the value.
func (t Text) String() string { return t.Value }

// At returns the place in the file of a span inside the value; offset and
// length count runes. See Span for what cannot be mapped.
func (t Text) At(offset, length int) Pos {
	pos, _ := t.Span(offset, length)
	return pos
}

// Span is At with the number of runes to underline in the file: an escape in
// quotes takes more runes than its value, and a span never leaves its line. In
// folded text and in plain or quoted text of several lines the line breaks are
// lost, so that the start of the scalar is all that can be said.
func (t Text) Span(offset, length int) (Pos, int) {
	offset, length = max(offset, 0), max(length, 1)
	if t.Raw.Style == Literal {
		return t.inBlock(offset, length)
	}
	start, ok := t.column(offset)
	end, okEnd := t.column(offset + length)
	if !ok {
		return t.Pos, 1
	}
	pos := t.Pos
	pos.Column += start
	if !okEnd {
		end = start + 1
	}
	return pos, max(1, end-start)
}

// column counts the runes of the file's line in front of an offset of a
// one-line value. False means the value is not on one line or is shorter.
func (t Text) column(offset int) (int, bool) {
	rest := t.Raw.Line
	switch t.Raw.Style {
	case Plain:
		return offset, strings.HasPrefix(rest, t.Value) && offset <= utf8.RuneCountInString(t.Value)
	case Single, Double:
		return quotedColumn(rest, t.Raw.Style, offset)
	}
	return 0, false
}

// quotedColumn walks the quoted text, since escapes take more room in the file than
// in the value.
func quotedColumn(rest string, style Style, offset int) (int, bool) {
	if rest == "" {
		return 0, false
	}
	column := 1
	rest = rest[1:]
	for ; offset > 0; offset-- {
		n := unit(rest, style)
		if n == 0 {
			return 0, false
		}
		rest = skip(rest, n)
		column += n
	}
	return column, true
}

// unit returns how many runes of quoted source make one rune of the value: two
// for a doubled quote or a simple escape, more for \x41, \u0041 and \U00000041. Zero is the
// end of the line or of the scalar.
func unit(s string, style Style) int {
	switch {
	case s == "":
		return 0
	case style == Single && s[0] == '\'':
		if strings.HasPrefix(s, "''") {
			return 2
		}
		return 0
	case style == Double && s[0] == '"' || s == `\`:
		return 0
	case style == Double && s[0] == '\\':
		switch s[1] {
		case 'x':
			return 4
		case 'u':
			return 6
		case 'U':
			return 10
		}
		return 2
	}
	return 1
}

// inBlock maps into a literal block, whose content starts on the line after its "|".
func (t Text) inBlock(offset, length int) (Pos, int) {
	pos := t.Pos
	pos.Line++
	rest := t.Value
	for {
		line, after, more := strings.Cut(rest, "\n")
		n := utf8.RuneCountInString(line)
		if offset <= n || !more {
			offset = min(offset, n)
			pos.Column = t.Raw.Indent + offset + 1
			return pos, max(1, min(length, n-offset))
		}
		offset -= n + 1
		pos.Line++
		rest = after
	}
}

// scalar copies what positions inside the value will need. The strings are slices
// of the file, so this costs no memory of its own.
func (d *document) scalar(n *yaml.Node) Text {
	t := Text{Value: n.Value, Pos: d.nodePos(n)}
	if n.LineComment != "" {
		t.Comment = strings.TrimSpace(strings.TrimLeft(n.LineComment, "#"))
	}
	t.Raw.Line = d.from(n.Line, n.Column, -1)
	switch {
	case n.Style&yaml.SingleQuotedStyle != 0:
		t.Raw.Style = Single
	case n.Style&yaml.DoubleQuotedStyle != 0:
		t.Raw.Style = Double
	case n.Style&yaml.FoldedStyle != 0:
		t.Raw.Style = Folded
	case n.Style&yaml.LiteralStyle != 0:
		t.Raw.Style = Literal
		t.Raw.Indent = d.blockIndent(n)
	}
	return t
}

// blockIndent is the indentation of a literal block: that of its first line
// with text in the file, less the blanks that line has in the value.
func (d *document) blockIndent(n *yaml.Node) int {
	value := strings.TrimLeft(n.Value, "\n")
	line := n.Line + 1 + len(n.Value) - len(value)
	file := d.line(line)
	return max(0, blanks(file)-blanks(value))
}

// blanks counts leading spaces.
func blanks(s string) int { return len(s) - len(strings.TrimLeft(s, " ")) }
