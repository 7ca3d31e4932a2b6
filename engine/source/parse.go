package source

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// MaxDepth is how deep lists and keys may nest. Our files need about eight
// levels; more is a mistake or an attack.
const MaxDepth = 64

// MaxProblems is how many problems Parse and Decode each report for one file.
// A file with more is of another kind altogether, and nobody reads on.
const MaxProblems = 100

// quota stops a walk over a file once it has added MaxProblems problems.
type quota struct {
	ps    *Problems
	start int // length of ps before the walk
	spent bool
}

// newQuota counts from what is in the list already: other files share it.
func newQuota(ps *Problems) *quota { return &quota{ps: ps, start: len(*ps)} }

// full reports whether to stop, and says so in the list once.
func (q *quota) full(name string) bool {
	if !q.spent && len(*q.ps)-q.start >= MaxProblems {
		q.spent = true
		q.ps.Errorf(CodeTooMany, Pos{File: name}, 1, "more than %d problems, the rest is not reported", MaxProblems-1)
	}
	return q.spent
}

// Parse reads one YAML document. The node is nil when the text is not usable at
// all; otherwise it may come with problems (a tag, a duplicate key), and Decode
// can still be called to find the rest. Columns count runes, also behind a byte
// order mark and with Windows line ends, both of which get a warning.
func Parse(name string, text []byte) (*Node, Problems) {
	var ps Problems
	if !checkText(name, text, &ps) {
		return nil, ps
	}
	text = bytes.TrimPrefix(text, []byte(bom))
	d := newDocument(name, string(text))
	if !d.checkMarkers(&ps) {
		return nil, ps
	}
	var root yaml.Node
	if err := unmarshal(text, &root); err != nil {
		d.syntaxError(err, &ps)
		return nil, ps
	}
	if root.Kind == 0 || isNull(root.Content[0]) && root.Content[0].Value == "" {
		ps.Errorf(CodeEmpty, Pos{File: name}, 1, "empty file")
		return nil, ps
	}
	c := checker{d: d, ps: &ps, quota: newQuota(&ps), blankTags: strings.Contains(d.text, "! ") || strings.Contains(d.text, "!\n")}
	if !c.node(root.Content[0], 1) {
		return nil, ps
	}
	return &Node{root.Content[0], d}, ps
}

// unmarshal turns a panic inside the YAML library into an error: its comment
// handling has internal checks that odd input can trip.
func unmarshal(text []byte, into *yaml.Node) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("%v", r)
		}
	}()
	return yaml.Unmarshal(text, into)
}

// checkText looks at the bytes alone, before YAML. False means give up.
func checkText(name string, text []byte, ps *Problems) bool {
	whole := Pos{File: name}
	if len(text) > MaxBytes {
		tooLarge(ps, whole, int64(len(text)))
		return false
	}
	if bytes.HasPrefix(text, []byte("\xff\xfe")) || bytes.HasPrefix(text, []byte("\xfe\xff")) {
		ps.Errorf(CodeEncoding, whole, 1, "expected UTF-8 text, found UTF-16").Hint = "save the file as UTF-8"
		return false
	}
	if bytes.HasPrefix(text, []byte(bom)) {
		ps.Warnf(CodeMark, Pos{name, 1, 1}, 1, "byte order mark at the start").Hint = "save the file as UTF-8 without it"
		text = text[len(bom):]
	}
	if i := bytes.Index(text, []byte("\r\n")); i >= 0 {
		p := place(name, text, i)
		ps.Warnf(CodeCRLF, p, 1, "lines end the Windows way (CR LF)").Hint = "save the file with LF line ends"
	}
	i := firstBad(text)
	if i < 0 {
		return true
	}
	describeBad(text[i:], place(name, text, i), ps)
	return false
}

// describeBad says what the first unusable character is and what to do about it.
// One is enough: a wrong encoding would give one at every accent.
func describeBad(rest []byte, pos Pos, ps *Problems) {
	r, size := utf8.DecodeRune(rest)
	switch {
	case r == utf8.RuneError && size <= 1:
		p := ps.Errorf(CodeEncoding, pos, 1, "expected UTF-8 text, found byte 0x%02x", rest[0])
		p.Hint = "save the file as UTF-8"
	case r == 0:
		ps.Errorf(CodeControl, pos, 1, "NUL byte").Hint = "this looks like a binary file, not text"
	case r == '\r' || r == 0x85 || r == 0x2028 || r == 0x2029:
		ps.Errorf(CodeControl, pos, 1, "unusual line break U+%04X", r).Hint = "end lines with LF"
	default:
		ps.Errorf(CodeControl, pos, 1, "character U+%04X is not allowed", r).Hint = "delete it"
	}
}

// firstBad returns the offset of the first byte that is not UTF-8 or not a
// printable character as YAML 1.2 section 5.1 defines it, or -1. Line breaks
// other than LF and CR LF are bad too: they would make line numbers ambiguous.
func firstBad(text []byte) int {
	for i := 0; i < len(text); {
		c := text[i]
		if c >= ' ' && c < 0x7f || c == '\n' || c == '\t' {
			i++
			continue
		}
		if c == '\r' && i+1 < len(text) && text[i+1] == '\n' {
			i += 2
			continue
		}
		r, size := utf8.DecodeRune(text[i:])
		if r < 0xa0 || r == utf8.RuneError && size <= 1 || badRune(r) {
			return i
		}
		i += size
	}
	return -1
}

// badRune lists the line breaks, byte order marks and non-characters above U+00A0.
func badRune(r rune) bool {
	return r == 0x2028 || r == 0x2029 || r == 0xfeff || r == 0xfffe || r == 0xffff
}

// place converts a byte offset to a position.
func place(name string, text []byte, offset int) Pos {
	before := text[:offset]
	start := bytes.LastIndexByte(before, '\n') + 1
	return Pos{name, bytes.Count(before, []byte{'\n'}) + 1, utf8.RuneCount(before[start:]) + 1}
}

// checkMarkers refuses directives and a second document. Both start in column
// one, where nothing inside a value can look like them, so the text is enough;
// the YAML library would silently stop at the second document.
func (d *document) checkMarkers(ps *Problems) bool {
	content, ended := false, false
	for n := 1; n <= len(d.starts); n++ {
		line := d.line(n)
		start := isMarker(line, "---")
		switch {
		case line == "" || line[0] == '#' || strings.TrimSpace(line) == "":
		case isMarker(line, "..."):
			ended = true
		case line[0] == '%' && !content:
			p := ps.Errorf(CodeDocument, d.pos(n, 1), len(line), "YAML directives are not used here")
			p.Hint = "delete the line"
			return false
		case start && content || ended:
			p := ps.Errorf(CodeDocument, d.pos(n, 1), 3, "second document in one file")
			p.Hint = "move it to a file of its own"
			return false
		default:
			content = true
		}
	}
	return true
}

// isMarker tells the document markers from text such as "----".
func isMarker(line, marker string) bool {
	rest, ok := strings.CutPrefix(line, marker)
	return ok && (rest == "" || rest[0] == ' ' || rest[0] == '\t')
}
