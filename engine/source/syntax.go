package source

import (
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"
)

// syntaxError reports a text that the YAML library refuses. The library names
// the wrong line for some mistakes and no line at all in short files, and its
// words are those of a parser; so the usual mistakes are looked for again here,
// and only when none is found its own message is passed on.
func (d *document) syntaxError(err error, ps *Problems) {
	r := newRescan(d)
	for n := 1; n <= len(d.starts) && r.found == nil; n++ {
		r.line(n)
	}
	if r.found == nil {
		r.end()
	}
	if r.found != nil {
		ps.Add(*r.found)
		return
	}
	line, message := splitError(err)
	if name, ok := strings.CutPrefix(message, "unknown anchor '"); ok {
		d.unknownAnchor(strings.TrimSuffix(name, "' referenced"), ps)
		return
	}
	pos := Pos{File: d.name}
	if strings.Contains(message, "exceeded max depth") {
		ps.Errorf(CodeDepth, pos, 1, "nested deeper than %d levels", MaxDepth)
		return
	}
	if line > 0 {
		pos = d.pos(line, blanks(d.line(line))+1)
	}
	ps.Errorf(CodeSyntax, pos, len(strings.TrimSpace(d.line(line))), "not valid YAML: %s", message)
}

// unknownAnchor reports an alias without anchor: nearly always text that starts
// with a star.
func (d *document) unknownAnchor(name string, ps *Problems) {
	pos := Pos{File: d.name}
	if i := strings.Index(d.text, "*"+name); i >= 0 {
		pos = place(d.name, []byte(d.text), i)
	}
	p := ps.Errorf(CodeAnchor, pos, utf8.RuneCountInString(name)+1, "YAML aliases are not used here: *%s", name)
	p.Hint = "put the value in quotes"
}

// splitError takes "yaml: line 3: did not find ..." apart.
func splitError(err error) (line int, message string) {
	message = strings.TrimPrefix(err.Error(), "yaml: ")
	rest, ok := strings.CutPrefix(message, "line ")
	if !ok {
		return 0, message
	}
	number, text, ok := strings.Cut(rest, ": ")
	line, bad := strconv.Atoi(number)
	if !ok || bad != nil {
		return 0, message
	}
	return line, text
}

// rescan walks the lines of a refused text the way a person would, keeping just
// enough state to tell where a value begins.
type rescan struct {
	d       *document
	key     *regexp.Regexp
	found   *Problem
	indents []int  // of the open blocks, innermost last
	lists   []bool // whether each of them is a list that stands for itself
	opens   bool   // the line before ends with a colon or dash: deeper may follow
	inBlock bool
	block   int   // indentation of the line that opened a | or > block
	content int   // indentation of the first line of that block, 0 before it
	bare    Pos   // the item on the line before, when it is text without a key
	resume  int   // lines before this one are the rest of a quoted value
	flow    []Pos // open brackets
	closers []byte
}

// report keeps the first finding only. Later ones are mostly its consequences.
func (r *rescan) report(code string, line, column, length int, message, hint string) {
	if r.found == nil {
		r.found = &Problem{Code: code, Pos: r.d.pos(line, column), Length: max(length, 1), Message: message, Hint: hint}
	}
}

// keyPattern is a plain key at the start of a line or item: what stands before
// the first ": " or a final colon, unless it is quoted or bracketed.
const keyPattern = `^([^\s'"\[\]{}#&*!|>%@` + "`" + `,?:-][^:#]*?|[^\s'"\[\]{}#&*!|>%@` + "`" + `,][^:\s]*)\s*:(\s|$)`

// newRescan compiles the pattern here: most runs never meet a refused text and
// should not pay for it at start.
func newRescan(d *document) *rescan {
	return &rescan{d: d, key: regexp.MustCompile(keyPattern)}
}

// line sorts out what kind of line it is: rest of a value, comment, bracketed text
// or a line of its own.
func (r *rescan) line(n int) {
	line := r.d.line(n)
	body := strings.TrimLeft(line, " ")
	indent := len(line) - len(body)
	if n < r.resume || strings.TrimSpace(body) == "" {
		return
	}
	if r.inBlock = r.inBlock && indent > r.block; r.inBlock {
		r.blockText(n, indent)
		return
	}
	if body[0] == '#' || isMarker(line, "---") || isMarker(line, "...") {
		return
	}
	if body[0] == '\t' {
		r.report(CodeTab, n, indent+1, 1, "tab in the indentation", "indent with spaces")
		return
	}
	if len(r.flow) > 0 {
		if r.unfinished(indent, body) {
			return
		}
		r.inFlow(n, indent+1, body)
		return
	}
	r.blockLine(n, indent, body)
}

// blockText checks a line of a | or > block, which may be deeper than the first
// one but not less deep.
func (r *rescan) blockText(n, indent int) {
	if r.content == 0 {
		r.content = indent
	}
	if indent < r.content {
		r.report(CodeIndent, n, 1, indent, "text indented less than the first line of its block",
			"indent it by "+strconv.Itoa(r.content)+", or a key like the one it belongs with")
	}
}

// blockLine reads "- - key: value" outside brackets.
func (r *rescan) blockLine(n, indent int, body string) {
	if body[0] == ':' {
		r.report(CodeKey, n, indent+1, 1, "a key is missing before the colon", "")
		return
	}
	deeper, bare := r.opens, r.bare
	r.opens, r.bare = false, Pos{}
	if bare.Column == indent+1 && r.key.MatchString(body) {
		text := r.d.from(bare.Line, bare.Column, -1)
		r.report(CodeNoColon, bare.Line, bare.Column, utf8.RuneCountInString(text), `expected "key: value"`, missingColon(text))
		return
	}
	if !r.fits(n, indent, body, deeper) {
		return
	}
	column := indent + 1
	for body == "-" || strings.HasPrefix(body, "- ") {
		rest := strings.TrimLeft(body[1:], " ")
		column += len(body) - len(rest)
		if body = rest; body == "" || body[0] == '#' {
			r.opens = true
			return
		}
		r.push(column-1, body == "-" || strings.HasPrefix(body, "- "))
	}
	m := r.key.FindStringIndex(body)
	if m == nil || body[0] == '\'' || body[0] == '"' {
		if column > indent+1 {
			r.bare = r.d.pos(n, column)
		}
		r.value(n, column, indent, body, false)
		return
	}
	rest := strings.TrimLeft(body[m[1]:], " ")
	column += utf8.RuneCountInString(body[:len(body)-len(rest)])
	if rest == "" || rest[0] == '#' {
		r.opens = true
		return
	}
	r.value(n, column, indent, rest, true)
}

// fits checks the indentation against the open blocks.
func (r *rescan) fits(n, indent int, body string, deeper bool) bool {
	top := -1
	for len(r.indents) > 0 {
		top = r.indents[len(r.indents)-1]
		if top <= indent {
			break
		}
		r.indents, r.lists = r.indents[:len(r.indents)-1], r.lists[:len(r.lists)-1]
	}
	isItem, isKey := body == "-" || strings.HasPrefix(body, "- "), r.key.MatchString(body)
	isEntry := isItem || isKey
	switch {
	case len(r.indents) > 0 && top == indent:
		if r.mixed(n, indent, isItem, isKey, deeper) {
			return false
		}
	case len(r.indents) == 0 && top < 0, deeper && indent > top:
		r.push(indent, isItem)
	case len(r.indents) == 0 || isEntry:
		r.report(CodeIndent, n, 1, indent, "indented by "+strconv.Itoa(indent)+", which fits no line above",
			"indent it like the key or item it belongs with")
		return false
	default:
		return true // the next line of a plain value
	}
	if !isEntry && r.sibling(n, indent) && body[0] != '"' && body[0] != '\'' {
		r.report(CodeNoColon, n, indent+1, utf8.RuneCountInString(body), `expected "key: value"`, missingColon(body))
		return false
	}
	return true
}

func (r *rescan) push(indent int, list bool) {
	r.indents, r.lists = append(r.indents, indent), append(r.lists, list)
}

// mixed reports keys among the items of a list and items among keys. Only a list
// right below its own key may stand at the indentation of keys.
func (r *rescan) mixed(n, indent int, isItem, isKey, deeper bool) bool {
	switch list := r.lists[len(r.lists)-1]; {
	case list && !isItem && isKey:
		r.report(CodeMixed, n, indent+1, 1, "key among the items of a list", "start the line with a dash, or indent the list under a key")
	case !list && isItem && !deeper && r.sibling(n, indent):
		r.report(CodeMixed, n, indent+1, 1, "list item among keys", "give the list a key of its own")
	}
	return r.found != nil
}

// sibling tells whether a line stands where keys stood before, at most a screen
// or two above.
func (r *rescan) sibling(n, indent int) bool {
	for i := n - 1; i >= max(1, n-100); i-- {
		line := r.d.line(i)
		body := strings.TrimLeft(line, " ")
		if key := strings.TrimLeft(body, "- "); len(line)-len(key) == indent {
			body = key // "- id: x" opens a column of keys after its dash
		}
		if body != "" && body[0] != '#' && len(line)-len(body) == indent {
			return r.key.MatchString(body)
		}
	}
	return false
}

// missingColon guesses which of the two slips it was.
func missingColon(body string) string {
	if key, value, ok := strings.Cut(body, ":"); ok && value != "" && !strings.Contains(key, " ") {
		return "put a blank after the colon"
	}
	return "put a colon and a blank after the key"
}

// unfinished reports an open bracket when the next line plainly starts
// something else: a key at or left of the blocks that were open.
func (r *rescan) unfinished(indent int, body string) bool {
	if len(r.indents) == 0 || indent > r.indents[len(r.indents)-1] || !r.key.MatchString(body) {
		return false
	}
	r.openBracket()
	return true
}

// openBracket blames the innermost bracket, the last one that could have been
// closed.
func (r *rescan) openBracket() {
	p := r.flow[len(r.flow)-1]
	closer := r.closers[len(r.closers)-1]
	r.report(CodeBracket, p.Line, p.Column, 1, "bracket without end", "close it with "+string(closer))
}

func (r *rescan) end() {
	if len(r.flow) > 0 {
		r.openBracket()
	}
}
