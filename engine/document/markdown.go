package document

import "strings"

// EscapeMarkdown returns s such that a CommonMark reader, also one with GitHub's
// extensions, shows it letter by letter and finds no markup, entity or link in
// it. It escapes no more than that, so that the source stays readable. s is one
// cleaned line; lineStart says that it begins its line.
func EscapeMarkdown(s string, lineStart bool) string {
	if !strings.ContainsAny(s, "\\`*_[]<>&~|#+-=:@.)$") {
		return s
	}
	var b strings.Builder
	for i := range len(s) {
		if escapes(s, i) || lineStart && opensBlock(s, i) {
			b.WriteByte('\\')
		}
		b.WriteByte(s[i])
	}
	return b.String()
}

// escapes reports whether the byte at i could act as inline markup.
func escapes(s string, i int) bool {
	before, after := byteAt(s, i-1), byteAt(s, i+1)
	switch s[i] {
	case '\\', '`', '*', '[', ']', '<', '~', '|', '$':
		return true
	case '_': // inside a word it does nothing: ids stay readable
		return !alnum(before) || !alnum(after)
	case '&':
		return entity(s[i+1:])
	case ':': // addresses, and the picture names of chat programs
		return after == '/' || alnum(after) && !alnum(before)
	case '@':
		return alnum(after)
	case '.':
		return i >= 3 && strings.EqualFold(s[i-3:i], "www")
	}
	return false
}

// opensBlock reports whether the byte at i makes the line a heading, a list item,
// a quotation, a rule or a definition.
func opensBlock(s string, i int) bool {
	after := byteAt(s, i+1)
	switch s[i] {
	case '#', '=', ':', '>':
		return i == 0
	case '+', '-':
		return i == 0 && (after == 0 || after == ' ' || after == s[i])
	case '.', ')':
		return (after == 0 || after == ' ') && i > 0 && strings.Trim(s[:i], "0123456789") == ""
	}
	return false
}

// entity reports whether a "&" before s would begin a character reference.
func entity(s string) bool {
	name, _, ok := strings.Cut(s, ";")
	return ok && name != "" && strings.IndexFunc(name, func(r rune) bool {
		return r != '#' && !(r < 0x80 && alnum(byte(r)))
	}) < 0
}

// byteAt is s[i], or 0 outside of s.
func byteAt(s string, i int) byte {
	if i < 0 || i >= len(s) {
		return 0
	}
	return s[i]
}

func alnum(c byte) bool {
	return c >= 0x80 || digit(c) || c|0x20 >= 'a' && c|0x20 <= 'z'
}

func digit(c byte) bool { return c >= '0' && c <= '9' }
